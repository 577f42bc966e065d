//! Putting sounds together again: every word of the bank that has exactly the sounds that are said.

use super::hear::{Code, hear};
use super::{Numbered, Wrong, distinct, printed, whole};
use crate::fill::{Filled, Request, Spoken};
use crate::sheet::Kind;

pub(super) fn check(spec: &Spoken, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of words", &spec.count, &filled.items.len())?;
    let counting = *request.bank.counting();
    let heard_all: Vec<Vec<Code>> = request.bank.words().iter().map(|word| hear(word, counting)).collect();
    let mut words = Vec::with_capacity(filled.items.len());
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Heard, &at.item.kind)?;
        let said: Option<Vec<Code>> =
            at.item.shown.iter().map(|symbol| Code::of_symbol(symbol, request.notation)).collect();
        let Some(said) = said.filter(|said| !said.is_empty()) else {
            return Err(at.wrong("sounds", at.item.shown.join(" ")));
        };
        let mut fitting: Vec<&str> = request
            .bank
            .words()
            .iter()
            .zip(&heard_all)
            .filter(|(_, heard)| **heard == said)
            .map(|(word, _)| word.spelling.as_str())
            .collect();
        let mut key: Vec<&str> = at.item.answer.iter().map(String::as_str).collect();
        let Some(first) = key.first().copied() else {
            return Err(at.wrong("an answer", "none"));
        };
        let (word, heard) = printed(at, first, request)?;
        key.sort_unstable();
        fitting.sort_unstable();
        at.same("the answers", &key, &fitting)?;
        words.push((word, heard));
    }
    distinct(&words)
}
