//! A word, a change by ear, and the words that it makes.

use std::ops::Range;

use super::Exchange;
use crate::bank::{Bank, Word};

/// A word that a change makes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Answer<'a> {
    /// The word.
    pub word: &'a Word,
    /// Whether the letters of the sounds that stay differ from those in the word before the change.
    pub spelling_changes: bool,
}

/// A word, a change of its sounds, and every word of the bank that sounds like the result.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct EarPair<'a> {
    /// The word before the change.
    pub from: &'a Word,
    /// The change.
    pub change: Exchange,
    /// The words after it, homophones of each other, in the order of their spelling; at least one. `from` is never among them.
    pub answers: Vec<Answer<'a>>,
    /// Whether every answer is spelled otherwise beyond the sounds moved: crossing out or writing in letters gives none of
    /// them. A good page has a third of such pairs or more (common practice, no source).
    pub spelling_changes: bool,
    /// Whether the change is only that of an ending (*cups*, *cup*).
    pub ending: bool,
}

impl EarPair<'_> {
    /// The spellings of the answers.
    #[must_use]
    pub fn spellings(&self) -> Vec<&str> {
        self.answers.iter().map(|answer| answer.word.spelling.as_str()).collect()
    }
}

impl Bank {
    /// What a change makes of a word; `None` when it does not fit, changes nothing, or makes no word of the bank.
    #[must_use]
    pub fn changed<'a>(&'a self, from: &'a Word, change: Exchange) -> Option<EarPair<'a>> {
        if change.old == change.new {
            return None;
        }
        let sounds = change.apply(&from.sounds)?;
        let kept = letters_outside(from, change.at..change.at + change.old.len());
        let after = change.at..change.at + change.new.len();
        let answers: Vec<Answer<'a>> = self
            .sounding(&sounds)
            .map(|word| {
                let spelling_changes = kept.is_none() || kept != letters_outside(word, after.clone());
                Answer { word, spelling_changes }
            })
            .collect();
        let ending = answers.iter().any(|answer| is_form_of(from, answer.word) || is_form_of(answer.word, from));
        let spelling_changes = answers.iter().all(|answer| answer.spelling_changes);
        (!answers.is_empty()).then_some(EarPair { from, change, answers, spelling_changes, ending })
    }
}

/// Whether a word is an inflected form of another or of the same base.
fn is_form_of(form: &Word, base: &Word) -> bool {
    form.flags.form.as_ref().is_some_and(|(own, _)| {
        *own == base.spelling || base.flags.form.as_ref().is_some_and(|(other, _)| own == other)
    })
}

/// The letter groups of the sounds outside a range; `None` when one group spells sounds on both sides of its border, as the
/// *x* of *six* does when the /s/ goes.
fn letters_outside(word: &Word, moved: Range<usize>) -> Option<Vec<&str>> {
    let end = word.heard.last().map_or(0, |last| last.from + last.phones);
    let phone = |sound: usize| word.heard.get(sound).map_or(end, |heard| heard.from);
    let borders = [phone(moved.start), phone(moved.end)];
    let mut kept = Vec::with_capacity(word.alignment.units.len());
    let mut from = 0;
    for unit in &word.alignment.units {
        let to = from + unit.phones.len();
        if borders.iter().any(|&border| from < border && border < to) {
            return None;
        }
        if to <= borders[0] || from >= borders[1] {
            kept.push(unit.letters.as_str());
        }
        from = to;
    }
    Some(kept)
}
