//! Steps, and finding one by number or name.

use rayon::prelude::*;

use crate::bank::{Bank, Word};
use crate::nearest::nearest;
use crate::sounds::Blend;
use crate::spelling::Pair;

use super::index::Index;
use super::{SequenceError, Shape, Taught};

/// The built-in sequence.
const SEQUENCE: &str = include_str!("sequence.yaml");

/// The most steps that a sequence may have.
pub const MAX_STEPS: usize = 200;

/// What is newly taught at one time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// Its place in the sequence, from 1.
    pub number: u16,
    /// A short name in small letters, such as `l-blends`; unique in the sequence.
    pub name: String,
    /// What it teaches, in plain words.
    pub title: String,
    /// The letter groups with their sounds.
    pub pairs: Vec<Pair>,
    /// The blends.
    pub blends: Vec<&'static Blend>,
    /// The word shapes.
    pub shapes: Vec<Shape>,
    /// High-frequency words that are now read by sight.
    pub words: Vec<String>,
}

/// An ordered list of steps.
#[derive(Clone, Debug)]
pub struct Sequence {
    name: String,
    steps: Vec<Step>,
    index: Index,
}

/// A step that a sequence does not have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("there is no step `{asked}`: {}the steps are 1 (`{first}`) to {count} (`{last}`)", .near.as_ref().map_or_else(String::new, |near| format!("did you mean `{near}`? ")))]
pub struct StepError {
    /// What was asked for.
    pub asked: String,
    /// The nearest name, when one is near.
    pub near: Option<String>,
    /// How many steps there are.
    pub count: usize,
    /// The name of the first step.
    pub first: String,
    /// The name of the last step.
    pub last: String,
}

impl Sequence {
    /// The built-in sequence.
    ///
    /// # Errors
    /// When the built-in file is damaged; the tests prove that it is not.
    pub fn builtin() -> Result<Self, SequenceError> {
        Self::from_text("sequence.yaml", SEQUENCE)
    }

    /// The step from which a word can be decoded; `None` when it never can.
    #[must_use]
    pub fn step_of(&self, word: &Word, bank: &Bank) -> Option<u16> {
        self.index.decodable_from(word, bank)
    }

    /// A fingerprint (BLAKE3, 64 hexadecimal digits) of the built-in sequence's file.
    #[must_use]
    pub fn builtin_fingerprint() -> String {
        blake3::hash(SEQUENCE.as_bytes()).to_hex().to_string()
    }

    /// A sequence of steps, which the reader has checked and numbered.
    pub(super) fn new(name: String, steps: Vec<Step>) -> Self {
        let index = Index::new(&steps);
        Self { name, steps, index }
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its steps, in order; at least one, at most [`MAX_STEPS`].
    #[must_use]
    pub fn steps(&self) -> &[Step] {
        &self.steps
    }

    /// The step of a number, from 1, or of a name.
    ///
    /// # Errors
    /// When there is none; the error has the nearest name and the range.
    pub fn step(&self, asked: &str) -> Result<&Step, StepError> {
        let asked = asked.trim();
        let found = match asked.parse::<u16>() {
            Ok(number) => self.numbered(number),
            Err(_) => self.steps.iter().find(|step| step.name == asked),
        };
        found.ok_or_else(|| {
            let end = |step: Option<&Step>| step.map(|step| step.name.clone()).unwrap_or_default();
            StepError {
                asked: asked.to_owned(),
                near: nearest(asked, self.steps.iter().map(|step| step.name.as_str())).map(str::to_owned),
                count: self.steps.len(),
                first: end(self.steps.first()),
                last: end(self.steps.last()),
            }
        })
    }

    /// The step of a number, from 1.
    #[must_use]
    pub fn numbered(&self, number: u16) -> Option<&Step> {
        self.steps.get(usize::from(number).checked_sub(1)?)
    }

    /// All that is taught up to a step of this sequence, with it.
    #[must_use]
    pub fn taught<'a>(&'a self, step: &Step) -> Taught<'a> {
        Taught::new(self, step.number)
    }

    /// All that is taught up to the step of a number, from 1; all there is when the number is past the last.
    #[must_use]
    pub const fn taught_at(&self, number: u16) -> Taught<'_> {
        Taught::new(self, number)
    }

    /// The first step at which a word is decodable, or `None` when it never is.
    #[must_use]
    pub fn earliest(&self, word: &Word, bank: &Bank) -> Option<&Step> {
        self.numbered(self.index.decodable_from(word, bank)?)
    }

    /// The first step at which a word is read by sight, or `None`.
    #[must_use]
    pub fn by_sight(&self, spelling: &str) -> Option<&Step> {
        self.numbered(self.index.sight(spelling)?)
    }

    /// The first step at which a word can be read, decoded or by sight.
    #[must_use]
    pub fn readable_from(&self, word: &Word, bank: &Bank) -> Option<&Step> {
        let steps = [self.index.decodable_from(word, bank), self.index.sight(&word.spelling)];
        self.numbered(steps.into_iter().flatten().min()?)
    }

    /// For each word of the bank, in its order, the number of the first step at which it is decodable.
    #[must_use]
    pub fn steps_of(&self, bank: &Bank) -> Vec<Option<u16>> {
        let words = bank.words().par_iter().with_min_len(256);
        words.map(|word| self.index.decodable_from(word, bank)).collect()
    }

    /// The high-frequency words that the bank does not have, each with its step: they can't be printed.
    pub fn words_not_in<'a>(&'a self, bank: &'a Bank) -> impl Iterator<Item = (&'a Step, &'a str)> {
        let all = self.steps.iter().flat_map(|step| step.words.iter().map(move |word| (step, word.as_str())));
        all.filter(|(_, word)| bank.get(word).is_none())
    }

    pub(super) const fn index(&self) -> &Index {
        &self.index
    }
}

#[cfg(test)]
mod tests {
    use super::Sequence;

    #[test]
    fn steps_are_found_by_number_and_name() {
        let sequence = Sequence::builtin().unwrap();
        assert_eq!(sequence.step("1").unwrap().name, "first-words");
        assert_eq!(sequence.step(" a-e ").unwrap().number, 21);
        let told = |asked| sequence.step(asked).unwrap_err().to_string();
        let range = "the steps are 1 (`first-words`) to 46 (`rare-consonants`)";
        assert_eq!(told("l-blend"), format!("there is no step `l-blend`: did you mean `l-blends`? {range}"));
        for none in ["0", "47", "70000", "-1", ""] {
            assert_eq!(told(none), format!("there is no step `{none}`: {range}"));
        }
    }
}
