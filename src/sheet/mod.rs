//! What is on a sheet, without positions: items with what the child sees and every accepted answer.
//!
//! [`crate::fill`] makes it, [`crate::layout`] places it, and `--format json` prints it as it is: the PDF is made from the
//! same content. See [`Sheet`] for the JSON's shape.

mod games;
mod item;
mod part;
mod texts;

pub use games::{Board, Hidden, LetterGrid};
pub use item::{BoxRow, ChangeShown, Item, Kind, with_homophones};
pub use part::{Mark, Part, Practised, Reader};
pub use texts::{ENGLISH, Labels};

use std::collections::BTreeMap;

use serde::Serialize;

use crate::bank::Bank;

/// The JSON Schema (draft 2020-12) of a [`Sheet`] as `--format json` prints it. It is written by hand, since it says more than the types
/// do (which sounds there are, that an answer is never missing); the tests hold every kind of sheet to it.
pub const SCHEMA: &str = include_str!("sheet.schema.json");

/// A column of a sort: a header and the words that belong under it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Column {
    /// The blend in its usual spelling, such as `bl`.
    pub blend: String,
    /// Its sounds, as CMUdict's codes without stress.
    pub sounds: Vec<&'static str>,
    /// The words that fit this column and no other, in the order in which the key lists them.
    pub words: Vec<String>,
}

/// The teaching step that a sheet is for.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StepShown {
    /// Its number, from 1.
    pub number: usize,
    /// Its short name.
    pub name: String,
    /// Its title in plain words.
    pub title: String,
}

/// The content of one sheet.
///
/// In JSON: `layout`, `title`, `step` (a number), `step_name`, `focus` (names of blends), `seed`, `skill`, `standards`, `child`
/// (only when there is one), `items`, and for a sort `columns` and `word_bank`; for a lesson `parts`, each with items of its own.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Sheet {
    /// The name of the layout it was made by.
    pub layout: String,
    /// The heading.
    pub title: String,
    /// One short line for the child.
    pub directions: String,
    /// A line for the adult, in smaller print; may be empty.
    pub note: String,
    /// What it practises, in plain words.
    pub skill: String,
    /// Codes of published standards that it serves.
    pub standards: Vec<String>,
    /// The teaching step.
    #[serde(flatten, serialize_with = "step_as_two_fields")]
    pub step: StepShown,
    /// The blends that it is about, as they are usually spelled.
    pub focus: Vec<String>,
    /// The seed, as typed.
    pub seed: String,
    /// For whom, if a name was given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub child: Option<String>,
    /// Which of several equal sets it is, when they go by letters and not by names.
    #[serde(skip)]
    pub set: Option<String>,
    /// The code by which its packet is found again.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub code: Option<String>,
    /// The items in the order of the page.
    pub items: Vec<Item>,
    /// The columns of a sort.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub columns: Vec<Column>,
    /// The words printed in the word bank box, in their order there.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub word_bank: Vec<String>,
    /// The letter tiles to cut, each as often as it is needed.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub tiles: Vec<String>,
    /// The boards of a group.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub boards: Vec<Board>,
    /// The letters in which words are hidden.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub letter_grid: Option<LetterGrid>,
    /// The parts of a lesson or a record, in order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub parts: Vec<Part>,
    /// What the other sheets of the packet practise, on a note to the family.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub practised: Vec<Practised>,
    /// What is to be said of how the packet came about, for the teacher.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub remarks: Vec<String>,
    /// For whom it is.
    pub reader: Reader,
    /// The language of its directions and notes, a BCP 47 tag; the words to practise are English.
    pub language: String,
    /// The layout's own texts by name, in that language.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub texts: BTreeMap<String, String>,
    /// What stands around the content on every page, in that language.
    #[serde(skip)]
    pub labels: Labels,
}

impl Sheet {
    /// The words of the bank that stand on it, seen, heard or answered, each once.
    #[must_use]
    pub fn words(&self, bank: &Bank) -> Vec<String> {
        let items = self.items.iter().chain(self.parts.iter().flat_map(|part| &part.items));
        let listed = self.word_bank.iter().chain(self.columns.iter().flat_map(|column| &column.words));
        let called = self.boards.iter().flat_map(|board| board.rows.iter().flatten());
        let mut words: Vec<String> = Vec::new();
        let listed = listed.chain(called).filter(|word| bank.get(word).is_some()).cloned();
        for word in items.flat_map(|item| item.words(bank)).chain(listed) {
            if !words.contains(&word) {
                words.push(word);
            }
        }
        words
    }
}

fn step_as_two_fields<S: serde::Serializer>(step: &StepShown, to: S) -> Result<S::Ok, S::Error> {
    use serde::ser::SerializeMap;
    let mut map = to.serialize_map(Some(2))?;
    map.serialize_entry("step", &step.number)?;
    map.serialize_entry("step_name", &step.name)?;
    map.end()
}
