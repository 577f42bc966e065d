//! Choosing a sheet's content: one file for each way of choosing, and `solve`, which answers each item afresh.
//!
//! A way of choosing is a [`Fill`] with its numbers, as a layout writes it. It gets a [`Request`] (the bank, which words the child
//! can read, the focus, a seeded stream) and gives [`Filled`] content or a [`FillError`] that says which condition leaves how many
//! words and what to loosen. Millimetres are unknown here.

use crate::bank::{Bank, Cost, Word};
use crate::seed::Stream;
use crate::sheet::{Column, Item};
use crate::sounds::{Blend, Notation};

/// What a way of choosing is given.
pub struct Request<'a> {
    /// The words there are.
    pub bank: &'a Bank,
    /// Whether a word may be printed for reading: decodable at the child's step.
    pub decodable: &'a (dyn Fn(&Word) -> bool + Sync),
    /// The step, for messages: `step 12 (l-blends)`.
    pub step: String,
    /// The blends to practise, in the order asked for; empty for none.
    pub focus: Vec<&'static Blend>,
    /// How many items, when the layout's own number is not wanted.
    pub count: Option<usize>,
    /// Words that must not be used.
    pub avoid: Vec<String>,
    /// Where choices come from.
    pub stream: Stream,
    /// How sounds are written in clues.
    pub notation: Notation,
}

/// The content that a way of choosing gives.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filled {
    /// The items, in the order of the page.
    pub items: Vec<Item>,
    /// The columns of a sort.
    pub columns: Vec<Column>,
    /// The words of the word bank box.
    pub word_bank: Vec<String>,
}

/// Why a sheet cannot be filled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shortage {
    /// What was wanted: `12 words for sound boxes`.
    pub wanted: String,
    /// How many items are needed.
    pub needed: usize,
    /// How many there are.
    pub found: usize,
    /// What each condition leaves.
    pub costs: Vec<Cost>,
}

/// A way of choosing; its numbers come with the ways themselves.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill;
impl<'de> serde::Deserialize<'de> for Fill {
    fn deserialize<D: serde::Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        serde::de::IgnoredAny::deserialize(d)?;
        Ok(Self)
    }
}
impl Fill {
    /// The texts that its items have beside those of every item.
    pub fn texts(&self) -> &'static [&'static str] {
        &["clue"]
    }
    /// What is out of range.
    pub fn problems(&self) -> Vec<(String, String)> {
        vec![]
    }
    /// The side of the word that it is about.
    pub fn side(&self) -> crate::sounds::Side {
        crate::sounds::Side::Onset
    }
    /// Chooses.
    pub fn run(&self, _: &Request<'_>) -> Result<Filled, FillError> {
        Ok(Filled::default())
    }
}
/// Why not.
#[derive(Debug, thiserror::Error)]
#[error("not yet")]
pub struct FillError;
