//! The word bank: which words there are, how each is heard and spelled, and finding them by sound.
//!
//! The bank's file, `words.txt`, is built from sources by the example `rebuild-bank` (see `README.md` beside it) and read by
//! [`Bank::builtin`] under the [`Counting`] switches. A [`Filter`] of [`Condition`]s finds words and can say what each
//! condition costs. Activities and pages are unknown here.

mod ear;
mod filter;
mod own;
mod silly;
mod tags;
mod word;

use std::collections::BTreeMap;
use std::sync::OnceLock;

use rayon::prelude::*;

use crate::sounds::{Change, Counting, Sound};

pub use ear::{Answer, EarPair, Exchange, Part, RhymeGroup, Riddle, Slot};
pub use filter::{Condition, Cost, Filter};
pub use own::{OwnWords, OwnWordsError, is_left_out};
pub use silly::{Silly, SillyMaker};
pub use tags::{Band, Category, Class, Ending, Flags};
pub use word::{Boxes, Misfit, Tags, Word};

const WORDS: &str = include_str!("words.txt");

/// How many rows a thread reads at once; fewer take longer to hand out than to read.
const AT_ONCE: usize = 256;

/// Words in the order of their spelling, each spelling once, with an index by sound.
#[derive(Debug)]
pub struct Bank {
    words: Vec<Word>,
    counting: Counting,
    /// Words that a class leaves out: never printed, but a child may still think of them.
    left_out: Vec<Word>,
    by_sound: OnceLock<BTreeMap<Vec<Sound>, Vec<usize>>>,
    ear: OnceLock<ear::Index>,
    attested: OnceLock<silly::Attested>,
}

/// A row of a bank that can't be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line} of the word bank: {why}")]
pub struct RowError {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong with it.
    pub why: String,
}

impl Bank {
    /// The built-in bank, seen through the switches.
    ///
    /// # Errors
    /// When the built-in file is damaged; the tests prove that it is not.
    pub fn builtin(counting: Counting) -> Result<Self, RowError> {
        Self::read(WORDS, counting)
    }

    /// A fingerprint (BLAKE3, 64 hexadecimal digits) of the built-in bank's files.
    #[must_use]
    pub fn builtin_fingerprint() -> String {
        let mut hasher = blake3::Hasher::new();
        for text in std::iter::once(WORDS).chain(silly::LISTS) {
            hasher.update(&(text.len() as u64).to_le_bytes());
            hasher.update(text.as_bytes());
        }
        hasher.finalize().to_hex().to_string()
    }

    /// Reads a bank's text: one word a line, see [`Word::from_row`]; empty lines and lines that begin with `#` are passed over.
    ///
    /// # Errors
    /// The first line that is not a word.
    pub fn read(text: &str, counting: Counting) -> Result<Self, RowError> {
        let rows: Vec<(usize, &str)> = text.lines().enumerate().collect();
        let rows =
            rows.into_par_iter().with_min_len(AT_ONCE).filter(|(_, row)| !row.is_empty() && !row.starts_with('#'));
        let words: Vec<Result<Word, RowError>> = rows
            .map(|(number, row)| Word::from_row(row, &counting).map_err(|why| RowError { line: number + 1, why }))
            .collect();
        // In their order, so that it is the first bad line that is told.
        let words = words.into_iter().collect::<Result<Vec<Word>, RowError>>()?;
        Ok(Self::of_words(words, Vec::new(), counting))
    }

    /// A bank of words, of which the first of each spelling is kept.
    fn of_words(mut words: Vec<Word>, left_out: Vec<Word>, counting: Counting) -> Self {
        words.sort_by(|a, b| a.spelling.cmp(&b.spelling));
        words.dedup_by(|a, b| a.spelling == b.spelling);
        let (by_sound, ear, attested) = (OnceLock::new(), OnceLock::new(), OnceLock::new());
        Self { words, counting, left_out, by_sound, ear, attested }
    }

    /// All words, in the order of their spelling.
    #[must_use]
    pub fn words(&self) -> &[Word] {
        &self.words
    }

    /// The switches by which sounds are counted.
    #[must_use]
    pub const fn counting(&self) -> &Counting {
        &self.counting
    }

    /// The word of a spelling (in small letters).
    #[must_use]
    pub fn get(&self, spelling: &str) -> Option<&Word> {
        self.index_of(spelling).and_then(|at| self.words.get(at))
    }

    /// The place of a spelling among [`words`](Self::words).
    #[must_use]
    pub fn index_of(&self, spelling: &str) -> Option<usize> {
        self.words.binary_search_by(|word| word.spelling.as_str().cmp(spelling)).ok()
    }

    /// The words of exactly these sounds: homophones of each other, in the order of their spelling.
    pub fn sounding(&self, sounds: &[Sound]) -> impl Iterator<Item = &Word> {
        self.by_sound().get(sounds).into_iter().flatten().map(|&at| &self.words[at])
    }

    /// The other words that sound like a word.
    pub fn homophones<'a>(&'a self, word: &'a Word) -> impl Iterator<Item = &'a Word> {
        self.sounding(&word.sounds).filter(move |other| other.spelling != word.spelling)
    }

    /// The words that rhyme with a word, in the order of their spelling.
    pub fn rhymes<'a>(&'a self, word: &'a Word) -> impl Iterator<Item = &'a Word> {
        self.words.iter().filter(move |other| other.rhymes_with(word))
    }

    /// The words that one swap of one sound makes of these sounds, with the change, by place and then by sound.
    pub fn swaps<'a>(&'a self, sounds: &'a [Sound]) -> impl Iterator<Item = (Change, &'a Word)> {
        (0..sounds.len()).flat_map(move |at| {
            let old = sounds[at];
            Sound::ALL.iter().filter(move |new| **new != old).flat_map(move |&new| {
                let mut changed = sounds.to_vec();
                changed[at] = new;
                self.matching(&changed).map(move |word| (Change::Swap { at, old, new }, word))
            })
        })
    }

    fn matching(&self, sounds: &[Sound]) -> impl Iterator<Item = &Word> + use<'_> {
        let found: &[usize] = self.by_sound().get(sounds).map_or(&[], Vec::as_slice);
        found.iter().map(|&at| &self.words[at])
    }

    fn by_sound(&self) -> &BTreeMap<Vec<Sound>, Vec<usize>> {
        self.by_sound.get_or_init(|| {
            let mut index: BTreeMap<Vec<Sound>, Vec<usize>> = BTreeMap::new();
            for (at, word) in self.words.iter().enumerate() {
                index.entry(word.sounds.clone()).or_default().push(at);
            }
            index
        })
    }
}

#[cfg(test)]
mod tests;
