//! Words by what rhymes in them.

use std::collections::BTreeMap;

use crate::bank::{Bank, Word};
use crate::sounds::Sound;

/// The words that share a rhyme part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RhymeGroup<'a> {
    /// From the stressed vowel to the end.
    pub part: &'a [Sound],
    /// The words, in the order of their spelling. Homophones, and words alike just before the vowel (*leave*, *believe*), stand
    /// together here and do not rhyme with each other: ask [`Word::rhymes_with`].
    pub words: Vec<&'a Word>,
}

impl<'a> RhymeGroup<'a> {
    /// The words by the letters that their rhyme is spelled with: *air* and *ear* for *hair* and *bear*.
    #[must_use]
    pub fn by_spelling(&self) -> BTreeMap<&'a str, Vec<&'a Word>> {
        let mut found: BTreeMap<&str, Vec<&Word>> = BTreeMap::new();
        for &word in &self.words {
            found.entry(word.rhyme_letters()).or_default().push(word);
        }
        found
    }
}

impl Word {
    /// The letters of its rhyme part: `eeze` for *sneeze*.
    #[must_use]
    pub fn rhyme_letters(&self) -> &str {
        let phone = self.heard.get(self.stressed).map_or(0, |heard| heard.from);
        let mut from = 0;
        let holds_it = |unit: &crate::spelling::Unit| {
            from += unit.phones.len();
            from > phone
        };
        let unit = self.alignment.units.iter().position(holds_it).unwrap_or(0);
        let start = self.alignment.letter_starts().get(unit).copied().unwrap_or(0);
        self.spelling.get(start..).unwrap_or_default()
    }
}

impl Bank {
    /// All words by their rhyme part, in the order of the part's sounds.
    pub fn rhyme_groups(&self) -> impl Iterator<Item = RhymeGroup<'_>> {
        self.ear().by_rhyme.iter().map(|(part, found)| RhymeGroup {
            part: part.as_slice(),
            words: found.iter().map(|&at| &self.words[at]).collect(),
        })
    }

    /// The words of a rhyme part, in the order of their spelling.
    pub fn with_rhyme<'a>(&'a self, part: &[Sound]) -> impl Iterator<Item = &'a Word> + use<'a> {
        let found: &'a [usize] = self.ear().by_rhyme.get(part).map_or(&[], Vec::as_slice);
        found.iter().map(|&at| &self.words[at])
    }
}
