//! A sheet in parts, each chosen in its own way; for whom a sheet is; what a packet practises.

use serde::{Deserialize, Serialize};

use super::{Column, Item};

/// For whom a sheet is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Reader {
    /// A child, who works on it. It has a key.
    #[default]
    Child,
    /// The teacher. It has no key, since it says all that a key would.
    Teacher,
    /// The family at home. It has no key, tells of the whole packet, and can be had in their language.
    Family,
}

/// What has a mark of its own where right and wrong are written down.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Mark {
    /// Each word of the answer.
    #[default]
    Word,
    /// Each sound of the word.
    Sound,
}

/// A part of a lesson: a few items of one kind, with what to say.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Part {
    /// The heading that it shares with its neighbours; may be empty.
    pub section: String,
    /// Its own heading.
    pub title: String,
    /// The way of choosing that gave its items.
    pub way: String,
    /// What to say to the child; may be empty.
    pub say: String,
    /// What has a mark of its own when the part is recorded.
    pub mark: Mark,
    /// Its items. Each has the texts `ask`, what to say or show, and `reply`, the answer; the latter may be empty.
    pub items: Vec<Item>,
    /// The columns of a sort.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub columns: Vec<Column>,
    /// The words of a sort, or the right column of two that are matched.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub word_bank: Vec<String>,
    /// The letter tiles that it takes.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tiles: Vec<String>,
    /// Why it has no items, where none can be had.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left_out: Option<String>,
    /// How many items were asked of its way of choosing; `None` for the way's own number.
    #[serde(skip)]
    pub count: Option<usize>,
    /// When it was chosen, from 0: it has no word of the parts that were chosen before it.
    #[serde(skip)]
    pub turn: usize,
}

impl Part {
    /// How many marks an item gets: one for each sound of its word, or for each word of its answer. At least one.
    #[must_use]
    pub fn marks(&self, item: &Item) -> usize {
        let marks = match self.mark {
            Mark::Sound => item.sounds.len(),
            Mark::Word => item.answer.first().map_or(1, |answer| answer.split_whitespace().count()),
        };
        marks.max(1)
    }
}

/// A sheet of a packet, as a note to the family tells of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Practised {
    /// Its title, as it stands on the sheet.
    pub title: String,
    /// What it practises, in the language of the note.
    pub skill: String,
}
