//! Answering each item afresh, from what the child sees.
//!
//! Nothing here asks the code that chose the content, or the bank's own counting of sounds: each printed word is looked up by its
//! spelling and heard anew from its raw phones (`hear`), boxes are filled anew from its letter groups, a rung's clue is read from
//! its printed text, and words are found by going through the whole bank. What comes out must be what the key says.

mod boards;
mod boxes;
mod change;
mod hear;
mod ladder;
mod lesson;
mod matches;
mod pick;
mod places;
mod reading;
mod real_or_silly;
mod review;
mod riddles;
mod silly;
mod sort;
mod spoken;
mod strip;
mod tiles;
mod word_search;
mod words;

use std::collections::BTreeMap;
use std::fmt;

use super::{Fill, Filled, Request};
use crate::bank::Word;
use crate::sheet::Item;
use hear::{Code, hear};

/// What solving gives is not what the sheet says.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct Wrong {
    /// The item, from 1; none when it is about the sheet as a whole.
    pub item: Option<usize>,
    /// What the child sees there.
    pub shown: String,
    /// What the sheet or its key says.
    pub expected: String,
    /// What solving it afresh gives.
    pub got: String,
}

impl fmt::Display for Wrong {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { item, shown, expected, got } = self;
        match item {
            Some(number) => write!(f, "Item {number} ({shown}) does not come out as its key says: ")?,
            None => write!(f, "The sheet does not come out as its key says ({shown}): ")?,
        }
        write!(f, "expected {expected}, got {got}. No page was made. This is a fault of the program; please report it.")
    }
}

/// Solves a sheet's content as chosen by `fill` for `request`. The count in `fill` is the one that counts.
///
/// # Errors
/// The first thing that does not come out as the sheet says: an item whose key is not what solving it gives, a word that can't
/// be read at the step, two words that may not stand together, or a number that is not what was asked for.
pub fn check(fill: &Fill, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    match fill {
        Fill::Words(spec) => words::check(spec, filled, request),
        Fill::Columns(spec) => sort::check(spec, filled, request),
        Fill::Chain(spec) => ladder::check(spec, filled, request),
        Fill::Pick(spec) => pick::check(spec, filled, request),
        Fill::Places(spec) => places::check(spec, filled, request),
        Fill::Strip(spec) => strip::check(spec, filled, request),
        Fill::Spoken(spec) => spoken::check(spec, filled, request),
        Fill::Match(spec) => matches::check(spec, filled, request),
        Fill::Review(spec) => review::check(spec, filled, request),
        Fill::Tiles(spec) => tiles::check(spec, filled, request),
        Fill::Reading(spec) => reading::check(spec, filled, request),
        Fill::Boards(spec) => boards::check(spec, filled, request),
        Fill::WordSearch(spec) => word_search::check(spec, filled, request),
        Fill::Change(spec) => change::check(spec, filled, request),
        Fill::Riddles(spec) => riddles::check(spec, filled, request),
        Fill::RealOrSilly(spec) => real_or_silly::check(spec, filled, request),
        Fill::Lesson(spec) => lesson::check(spec, filled, request),
    }
}

/// An item with its number, for messages.
#[derive(Clone, Copy)]
struct Numbered<'a> {
    number: usize,
    item: &'a Item,
}

impl Numbered<'_> {
    /// All items with their numbers, from 1.
    fn all(items: &[Item]) -> impl Iterator<Item = Numbered<'_>> {
        items.iter().enumerate().map(|(at, item)| Numbered { number: at + 1, item })
    }

    fn wrong(self, expected: impl Into<String>, got: impl Into<String>) -> Wrong {
        let (expected, got) = (expected.into(), got.into());
        Wrong { item: Some(self.number), shown: self.item.shown.join(" "), expected, got }
    }

    /// Passes when the sheet says what was found.
    fn same<T: PartialEq + fmt::Debug + ?Sized>(self, what: &str, said: &T, found: &T) -> Result<(), Wrong> {
        if said == found { Ok(()) } else { Err(self.wrong(format!("{what} {said:?}"), format!("{found:?}"))) }
    }
}

/// Passes when the sheet as a whole says what was found.
fn whole<T: PartialEq + fmt::Debug>(what: &str, said: &T, found: &T) -> Result<(), Wrong> {
    let wrong = || Wrong { item: None, shown: what.into(), expected: format!("{said:?}"), got: format!("{found:?}") };
    if said == found { Ok(()) } else { Err(wrong()) }
}

/// Looks up a word that is printed, or that the child writes as the expected answer, and checks all that holds whatever the sheet:
/// it is in the bank, can be read at the step, in one way, was not to be avoided, and the item tells of it truly.
fn printed<'a>(at: Numbered, spelling: &str, request: &Request<'a>) -> Result<(&'a Word, Vec<Code>), Wrong> {
    let Some(word) = request.bank.words().iter().find(|word| word.spelling == spelling) else {
        return Err(at.wrong("a word of the bank", format!("{spelling:?}")));
    };
    if !(request.decodable)(word) {
        return Err(at.wrong(format!("a word that can be read at {}", request.step), format!("{spelling:?}")));
    }
    told(at, spelling, request)
}

/// As [`printed`], for a word that the child hears and does not read.
fn told<'a>(at: Numbered, spelling: &str, request: &Request<'a>) -> Result<(&'a Word, Vec<Code>), Wrong> {
    let Some(word) = request.bank.words().iter().find(|word| word.spelling == spelling) else {
        return Err(at.wrong("a word of the bank", format!("{spelling:?}")));
    };
    if word.flags.heteronym || word.flags.irregular {
        return Err(at.wrong("a word that is read in one way, as it is spelled", format!("{spelling:?}")));
    }
    if request.avoid.iter().any(|avoid| avoid == spelling) {
        return Err(at.wrong("a word that was not to be avoided", format!("{spelling:?}")));
    }
    let heard = hear(word, *request.bank.counting());
    at.same("the word", at.item.word.as_str(), spelling)?;
    at.same("the sounds", &at.item.sounds, &heard.iter().map(|code| code.plain()).collect())?;
    let letters: Vec<String> = word.alignment.units.iter().map(|unit| unit.letters.clone()).collect();
    at.same("the letters", &at.item.letters, &letters)?;
    Ok((word, heard))
}

/// Checks that no two words are the same, sound alike, or are forms of one word.
fn distinct(words: &[(&Word, Vec<Code>)]) -> Result<(), Wrong> {
    let mut by_sound: BTreeMap<&[Code], &str> = BTreeMap::new();
    let mut by_stem: BTreeMap<&str, &str> = BTreeMap::new();
    for (word, heard) in words {
        let spelling = word.spelling.as_str();
        let stem = word.flags.form.as_ref().map_or(spelling, |(base, _)| base.as_str());
        let alike = by_sound.insert(heard, spelling);
        if let Some(other) = by_stem.insert(stem, spelling).or(alike) {
            return Err(Wrong {
                item: None,
                shown: "words that may stand together".into(),
                expected: "no two that sound alike or are forms of one word".into(),
                got: format!("{other:?} and {spelling:?}"),
            });
        }
    }
    Ok(())
}

/// Checks that counts differ by one at most.
fn even(counts: &[usize]) -> Result<(), Wrong> {
    let (least, most) = (counts.iter().min(), counts.iter().max());
    let spread = most.zip(least).map_or(0, |(most, least)| most - least);
    if spread <= 1 {
        Ok(())
    } else {
        whole("words of each blend, shared evenly", &"counts that differ by one", &format!("{counts:?}").as_str())
    }
}

/// For tests: a word's boxes as the solver fills them.
#[cfg(test)]
pub(super) fn box_key(word: &Word) -> String {
    boxes::key(word, crate::sounds::Counting::default())
}

/// For tests: the codes of a word as the solver hears it.
#[cfg(test)]
pub(super) fn heard_plain(word: &Word, counting: crate::sounds::Counting) -> Vec<&'static str> {
    hear(word, counting).into_iter().map(Code::plain).collect()
}
