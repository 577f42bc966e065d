//! The table of grapheme–sound pairs, read from `pairs.txt`.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::OnceLock;

use crate::sounds::{Phone, Phoneme, parse_phones};

/// The table as it is committed.
const TABLE: &str = include_str!("pairs.txt");

/// A letter group and the sounds it spells, such as `ai` and `EY`, `a_e` and `EY`, or `x` and `K S`.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pair {
    /// The letters; a split vowel is written with `_` where its consonants stand: `a_e`.
    pub letters: String,
    /// The sounds, without stress.
    pub phonemes: Vec<Phoneme>,
}

impl Pair {
    /// The codes of the sounds, parted by blanks.
    #[must_use]
    pub fn codes(&self) -> String {
        self.phonemes.iter().map(|p| p.code()).collect::<Vec<_>>().join(" ")
    }
}

impl fmt::Display for Pair {
    /// `ai=EY`, the form in which pairs are written in files: `x=K+S` when there are more sounds.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}={}", self.letters, self.codes().replace(' ', "+"))
    }
}

/// A text that is not a pair such as `ai=EY`.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{text}` is not a letter group and its sound, such as `ai=EY`: {why}")]
pub struct PairError {
    /// The text.
    pub text: String,
    /// What is wrong with it.
    pub why: String,
}

impl std::str::FromStr for Pair {
    type Err = PairError;

    fn from_str(text: &str) -> Result<Self, PairError> {
        let error = |why: String| PairError { text: text.to_owned(), why };
        let (letters, codes) = text.split_once('=').ok_or_else(|| error("there is no `=`".to_owned()))?;
        let phones = parse_phones(&codes.replace('+', " ")).map_err(|unknown| error(unknown.to_string()))?;
        if letters.is_empty() || phones.is_empty() {
            return Err(error("one side is empty".to_owned()));
        }
        Ok(Self { letters: letters.to_owned(), phonemes: phones.iter().map(|p| p.phoneme).collect() })
    }
}

/// A pair as the table lists it.
#[derive(Clone, Debug)]
pub(super) struct Entry {
    pub(super) pair: Pair,
    pub(super) rare: bool,
}

/// All pairs, with those of one first phoneme together.
pub(super) struct Table {
    by_first: BTreeMap<Phoneme, Vec<Entry>>,
}

impl Table {
    /// The entries whose sounds begin with a phoneme.
    pub(super) fn starting_with(&self, phone: Phone) -> &[Entry] {
        self.by_first.get(&phone.phoneme).map_or(&[], Vec::as_slice)
    }

    fn read(text: &str) -> Self {
        let mut by_first: BTreeMap<Phoneme, Vec<Entry>> = BTreeMap::new();
        for line in text.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#')) {
            let Some((codes, groups)) = line.split_once(':') else { continue };
            let Ok(phones) = parse_phones(codes) else { continue };
            let phonemes: Vec<_> = phones.iter().map(|p| p.phoneme).collect();
            let (usual, rare) = groups.split_once('|').unwrap_or((groups, ""));
            for (list, rare) in [(usual, false), (rare, true)] {
                for letters in list.split_whitespace() {
                    let pair = Pair { letters: letters.to_owned(), phonemes: phonemes.clone() };
                    by_first.entry(phonemes[0]).or_default().push(Entry { pair, rare });
                }
            }
        }
        Self { by_first }
    }
}

pub(super) fn table() -> &'static Table {
    static READ: OnceLock<Table> = OnceLock::new();
    READ.get_or_init(|| Table::read(TABLE))
}

/// Every pair of the table, usual before rare within one sound.
pub fn pairs() -> impl Iterator<Item = &'static Pair> {
    table().by_first.values().flatten().map(|entry| &entry.pair)
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn every_line_is_read() {
        let lines = TABLE.lines().filter(|l| !l.trim().is_empty() && !l.starts_with('#'));
        for line in lines {
            let (codes, groups) = line.split_once(':').expect(line);
            assert!(parse_phones(codes).is_ok_and(|p| !p.is_empty()), "{line}");
            assert!(groups.chars().all(|c| c.is_ascii_lowercase() || " _|".contains(c)), "{line}");
        }
        let single: BTreeSet<_> = pairs().filter(|p| p.phonemes.len() == 1).map(|p| p.phonemes[0]).collect();
        assert_eq!(single.len(), Phoneme::ALL.len());
    }

    #[test]
    fn pairs_are_written_and_read_alike() {
        for pair in pairs() {
            assert_eq!(pair.to_string().parse::<Pair>().as_ref(), Ok(pair));
        }
        for wrong in ["", "ai", "=EY", "ai=", "ai=QQ"] {
            assert!(wrong.parse::<Pair>().is_err(), "{wrong}");
        }
    }
}
