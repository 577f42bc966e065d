//! Checking words as they are written, with every problem in its place.

use std::collections::BTreeMap;
use std::str::FromStr;

use super::sounds::{Unsure, sounds_of};
use super::{OwnWord, OwnWords, OwnWordsError, is_left_out};
use crate::bank::{Band, Bank, Category, Class, Flags};
use crate::yaml::{YamlError, did_you_mean};

/// At most this many problems are told at once.
const MAX_PROBLEMS: usize = 50;

/// The longest word, in letters.
const MAX_LETTERS: usize = 24;

/// One field of a word, and where it stands in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Field {
    Spelling,
    Sounds,
    Band,
    /// The entry of that index.
    Classes(usize),
    Categories(usize),
    Flags(usize),
}

/// A word to add as it is written.
#[derive(Clone, Debug, Default)]
pub(super) struct Written {
    pub spelling: String,
    pub sounds: Option<String>,
    pub band: Option<String>,
    pub classes: Vec<String>,
    pub categories: Vec<String>,
    pub flags: Vec<String>,
}

/// Collects words and problems.
pub(super) struct Checker<'a> {
    bank: &'a Bank,
    own: OwnWords,
    /// Where each spelling first stood, for messages.
    first: BTreeMap<String, (bool, usize)>,
    problems: Vec<YamlError>,
    unsaid: usize,
}

impl<'a> Checker<'a> {
    pub fn new(bank: &'a Bank) -> Self {
        Self { bank, own: OwnWords::default(), first: BTreeMap::new(), problems: Vec::new(), unsaid: 0 }
    }

    /// Notes a problem.
    pub fn refuse(&mut self, problem: YamlError) {
        if self.problems.len() == MAX_PROBLEMS {
            self.unsaid += 1;
        } else {
            self.problems.push(problem);
        }
    }

    /// What has been collected.
    pub fn done(mut self, file: &str) -> Result<OwnWords, OwnWordsError> {
        self.problems.sort_by_key(|problem| (problem.line(), problem.column()));
        if self.unsaid > 0 {
            self.problems.push(YamlError::new(file, &format!("there are {} more problems", self.unsaid)));
        }
        if self.problems.is_empty() { Ok(self.own) } else { Err(OwnWordsError { problems: self.problems }) }
    }

    /// Takes a word to leave out. `place` makes an error there.
    pub fn leave_out(&mut self, spelling: &str, place: &dyn Fn(&str) -> YamlError) {
        let line = place("").line().unwrap_or_default();
        if let Err((message, hint)) = letters(spelling) {
            self.refuse(hinted(place(&message), &hint));
        } else if self.is_new(spelling, true, line, place) {
            self.own.leave_out.insert(spelling.to_owned());
        }
    }

    /// Takes a word to add. `place` makes an error at a field.
    pub fn add(&mut self, written: &Written, place: &dyn Fn(Field, &str) -> YamlError) {
        let before = self.problems.len() + self.unsaid;
        let spelling = written.spelling.as_str();
        let at_spelling = |message: &str| place(Field::Spelling, message);
        let line = at_spelling("").line().unwrap_or_default();
        if let Err((message, hint)) = letters(spelling) {
            self.refuse(hinted(at_spelling(&message), &hint));
        } else if is_left_out(spelling) {
            let message = format!("`{spelling}` is on the list of words that are never used");
            let hint = "the list holds rude, violent, drug, alcohol and slang words; take the word out of this file";
            self.refuse(at_spelling(&message).with_hint(hint));
        } else {
            self.is_new(spelling, false, line, &at_spelling);
        }
        let band = written.band.as_ref().and_then(|band| self.name::<Band>(band, Field::Band, "age bands", place));
        let classes = self.list::<Class>(&written.classes, Field::Classes, "classes", place);
        let categories = self.list::<Category>(&written.categories, Field::Categories, "categories", place);
        let flags = self.flags(spelling, &written.flags, place);
        if self.problems.len() + self.unsaid > before {
            return;
        }
        match sounds_of(self.bank, spelling, written.sounds.as_deref(), &flags) {
            Ok(alignment) => {
                let word = OwnWord { alignment, band, classes, categories, flags };
                self.own.add.insert(spelling.to_owned(), word);
            }
            Err(Unsure { message, hint, of_sounds }) => {
                let field = if of_sounds { Field::Sounds } else { Field::Spelling };
                self.refuse(hinted(place(field, &message), &hint));
            }
        }
    }

    fn is_new(&mut self, spelling: &str, leaves: bool, line: usize, place: &dyn Fn(&str) -> YamlError) -> bool {
        let Some(&(left, first)) = self.first.get(spelling) else {
            self.first.insert(spelling.to_owned(), (leaves, line));
            return true;
        };
        let what = match (left == leaves, leaves) {
            (true, false) => "added",
            (true, true) => "left out",
            (false, _) => "both added and left out",
        };
        let again = if left == leaves { " twice" } else { "" };
        self.refuse(place(&format!("`{spelling}` is {what}{again}: it stands in line {first} too")));
        false
    }

    fn list<T: FromStr<Err = String> + Named>(
        &mut self,
        texts: &[String],
        field: impl Fn(usize) -> Field,
        kinds: &str,
        place: &dyn Fn(Field, &str) -> YamlError,
    ) -> Vec<T> {
        let mut found: Vec<T> = Vec::with_capacity(texts.len());
        for (at, text) in texts.iter().enumerate() {
            found.extend(self.name(text, field(at), kinds, place));
        }
        found
    }

    fn name<T: FromStr<Err = String> + Named>(
        &mut self,
        text: &str,
        field: Field,
        kinds: &str,
        place: &dyn Fn(Field, &str) -> YamlError,
    ) -> Option<T> {
        let read = text.parse().ok();
        if read.is_none() {
            let message = format!("`{text}` is none of the {kinds}");
            self.refuse(place(field, &message).with_hint(&did_you_mean(text, kinds, &T::names())));
        }
        read
    }

    fn flags(&mut self, spelling: &str, texts: &[String], place: &dyn Fn(Field, &str) -> YamlError) -> Flags {
        let known = ["heteronym", "irregular", "past", "plural", "function", "interjection", "compound=", "form="];
        for (at, text) in texts.iter().enumerate() {
            let flags = match text.parse::<Flags>() {
                Ok(flags) => flags,
                Err(message) => {
                    self.refuse(place(Field::Flags(at), &message).with_hint(&did_you_mean(text, "flags", &known)));
                    continue;
                }
            };
            if let Some((first, second)) = &flags.compound
                && (first.is_empty() || second.is_empty() || format!("{first}{second}") != spelling)
            {
                let message = format!("`{first}` and `{second}` do not make `{spelling}`");
                self.refuse(place(Field::Flags(at), &message));
            }
        }
        texts.join(",").parse().unwrap_or_default()
    }
}

fn hinted(error: YamlError, hint: &str) -> YamlError {
    if hint.is_empty() { error } else { error.with_hint(hint) }
}

/// Whether a word is written in small letters a–z; else the message and the hint.
fn letters(spelling: &str) -> Result<(), (String, String)> {
    let len = spelling.chars().count();
    if spelling.is_empty() {
        return Err(("a word has no letters".to_owned(), String::new()));
    }
    if len > MAX_LETTERS {
        return Err((format!("a word of {len} letters is too long; the longest has {MAX_LETTERS}"), String::new()));
    }
    let Some(other) = spelling.chars().find(|c| !c.is_ascii_lowercase()) else { return Ok(()) };
    let small = spelling.to_lowercase();
    let hint = if small.bytes().all(|b| b.is_ascii_lowercase()) {
        format!("write `{small}`; names are no words for a sheet")
    } else if other.is_whitespace() || other == '-' {
        "one word at a time, without a space or a hyphen".to_owned()
    } else {
        "letters with marks, signs and digits have no place in a beginner's word".to_owned()
    };
    Err((format!("`{spelling}` has `{other}` in it, and a word is written in small letters from a to z"), hint))
}

/// The names that a value can have.
trait Named {
    fn names() -> Vec<&'static str>;
}

macro_rules! named {
    ($($type:ty),+) => {
        $(impl Named for $type {
            fn names() -> Vec<&'static str> {
                Self::ALL.iter().map(|one| one.name()).collect()
            }
        })+
    };
}

named!(Band, Class, Category);
