//! Solving rows and phrases: reading each word of them.

use super::hear::hear;
use super::{Numbered, Wrong, distinct, printed, whole};
use crate::bank::Word;
use crate::fill::{Filled, Reading, Request};
use crate::sheet::{Item, Kind};

pub(super) fn check(spec: &Reading, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    let rows = filled.items.iter().take_while(|item| item.kind == Kind::Row).count();
    whole("number of rows", &spec.rows, &rows)?;
    whole("number of phrases, at the most", &true, &(filled.items.len() - rows <= spec.phrases))?;
    let mut words = Vec::new();
    let mut phrases: Vec<&str> = Vec::new();
    for at in Numbered::all(&filled.items) {
        at.same("the answer", &at.item.answer, &vec![at.item.shown.join(" ")])?;
        at.same("the text", &at.item.word, &at.item.shown.join(" "))?;
        match at.item.kind {
            Kind::Row => {
                at.same("words in the row", &spec.per_row, &at.item.shown.len())?;
                for shown in &at.item.shown {
                    let Some(word) = request.bank.get(shown) else {
                        return Err(at.wrong("a word of the bank", format!("{shown:?}")));
                    };
                    let alone = Item::about(Kind::Word, word);
                    words.push(printed(Numbered { number: at.number, item: &alone }, shown, request)?);
                }
            }
            Kind::Phrase => {
                phrase(at, request)?;
                phrases.push(&at.item.word);
            }
            other => return Err(at.wrong("a row or a phrase", format!("{other:?}"))),
        }
    }
    let said = phrases.len();
    phrases.sort_unstable();
    phrases.dedup();
    whole("phrases, each once", &said, &phrases.len())?;
    distinct(&words)
}

/// Reads a phrase: two or three words that can all be read, built as one of the three kinds.
fn phrase(at: Numbered, request: &Request) -> Result<(), Wrong> {
    let tokens: Vec<&str> = at.item.word.split(' ').collect();
    let mut words = Vec::new();
    for token in &tokens {
        let by_sight = request.by_sight.iter().any(|(word, _)| word == token);
        let known = request.bank.words().iter().find(|word| word.spelling == **token);
        let sounded = known.is_some_and(|word| (request.decodable)(word) && !word.flags.irregular);
        if !(by_sight || sounded) || known.is_some_and(|word| word.flags.heteronym) {
            return Err(at.wrong(format!("a word that can be read at {}", request.step), format!("{token:?}")));
        }
        words.push(known);
    }
    let plural = |word: &Word| word.flags.form.is_some();
    let built = match (tokens.as_slice(), words.as_slice()) {
        (["on" | "in", "the", _], [_, _, Some(place)]) => !plural(place),
        (["a", ..], [_, Some(how), Some(what)]) => {
            let opens_with_vowel = hear(how, *request.bank.counting()).first().is_some_and(|code| code.is_vowel());
            !opens_with_vowel && !plural(what)
        }
        (["the", ..], [_, Some(_), Some(what)]) => !plural(what),
        ([_, _], [Some(number), Some(what)]) => {
            number.categories.contains(&crate::bank::Category::Number) && plural(what)
        }
        _ => false,
    };
    if built { Ok(()) } else { Err(at.wrong("a phrase of a known kind", format!("{:?}", at.item.word))) }
}
