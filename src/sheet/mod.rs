//! What is on a sheet, without positions: items with what the child sees and every accepted answer.
//!
//! [`crate::fill`] makes it, [`crate::layout`] places it, and `--format json` prints it as it is: the PDF is made from the
//! same content. See [`Sheet`] for the JSON's shape.

mod games;
mod item;

pub use games::{Board, Hidden, LetterGrid};
pub use item::{BoxRow, ChangeShown, Item, Kind};

use serde::Serialize;

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
#[derive(Clone, Debug, PartialEq, Eq)]
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
/// (only when there is one), `items`, and for a sort `columns` and `word_bank`.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
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
    #[serde(skip_serializing_if = "Option::is_none")]
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
}

fn step_as_two_fields<S: serde::Serializer>(step: &StepShown, to: S) -> Result<S::Ok, S::Error> {
    use serde::ser::SerializeMap;
    let mut map = to.serialize_map(Some(2))?;
    map.serialize_entry("step", &step.number)?;
    map.serialize_entry("step_name", &step.name)?;
    map.end()
}
