//! Rows of words to read aloud, and short phrases.

use serde::Deserialize;

use super::words::{self, Words, WordsFocus};
use super::{FillError, Filled, Problem, Request, Span, phrases};
use crate::bank::Band;
use crate::sheet::{Item, Kind};

/// Rows of words to read aloud more than once against time, and then short phrases of words that can be read, decoded or by sight.
///
/// The words are chosen as [`Words`] chooses them. A phrase is *a* or *the* with a describing and a naming word, a number and a
/// plural, or *on the* and *in the* with a place; which go together was chosen by reading. Fewer phrases than asked for are made
/// where the words that can be read make no more.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Reading {
    /// How many rows: 1 to 10. Default: 5.
    pub rows: usize,
    /// How many words a row has: 2 to 6. Default: 4.
    pub per_row: usize,
    /// How many phrases at the most: 0 to 12. Default: 6.
    pub phrases: usize,
    /// The fewest and the most sounds: each 1 to 16. Default: `[2, 6]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// Where the focus blend has to be heard: `start`, `end`, `any`, or `none`. Default: `start`.
    pub focus: WordsFocus,
    /// Whether words in the rows may have endings. Default: false.
    pub forms: bool,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
}

impl Default for Reading {
    fn default() -> Self {
        let Words { syllables, focus, forms, bands, .. } = Words::default();
        Self { rows: 5, per_row: 4, phrases: 6, sounds: Span::new(2, 6), syllables, focus, forms, bands }
    }
}

impl Reading {
    /// What is asked of the words in the rows.
    pub(super) fn words(&self) -> Words {
        Words {
            count: self.rows * self.per_row,
            sounds: self.sounds,
            syllables: self.syllables,
            focus: self.focus,
            forms: self.forms,
            bands: self.bands.clone(),
            ..Words::default()
        }
    }

    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 10).admit("rows", self.rows, &mut problems);
        Span::new(2, 6).admit("per_row", self.per_row, &mut problems);
        Span::new(0, 12).admit("phrases", self.phrases, &mut problems);
        problems.extend(self.words().validate().into_iter().filter(|problem| problem.key != "count"));
        problems
    }
}

/// Chooses the words and the phrases.
pub(super) fn choose(spec: &Reading, request: &Request) -> Result<Filled, FillError> {
    let chosen = words::choose(&spec.words(), request).map_err(|error| match error {
        // It is rows that can be asked for, not words.
        FillError::TooFew(mut shortage) => {
            shortage.at_most /= spec.per_row;
            FillError::TooFew(shortage)
        }
        other => other,
    })?;
    let mut items: Vec<Item> = Vec::with_capacity(spec.rows + spec.phrases);
    for row in chosen.items.chunks(spec.per_row) {
        let words: Vec<String> = row.iter().map(|item| item.word.clone()).collect();
        let mut item = Item::of_text(Kind::Row, &words.join(" "));
        item.answer = vec![words.join(" ")];
        item.shown = words;
        items.push(item);
    }
    items.extend(phrases::choose(spec.phrases, request));
    Ok(Filled { items, ..Filled::default() })
}
