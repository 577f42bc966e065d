//! Nonsense ("silly") words: possible in English, readable in one way, and no words.
//!
//! A [`SillyMaker`] joins an onset and a rime, each as a one-syllable word of the bank spells it. What it gives
//! - is made of letter groups that have been taught, and of blends that have;
//! - joins only what can stand together: *kem* and no *cem*, *war* and no *bar* with the vowel of *war*;
//! - is spelled as its sounds usually are: the onset in the commonest way before that vowel letter, the rime in the commonest
//!   way or one that is at least half as common;
//! - can be read in one way: of all ways to part its letters into an onset and a rime of the bank's words, with the letter
//!   groups taught, one only. (That *i* is also /ī/ in *find* leaves *glim* one reading, since no *im* is read so.)
//! - is no word by sound in CMUdict (`heard.txt`; the *o* of dog and of hop taken as one), nor in SCOWL up to level 70 by spelling
//!   (`spelled.txt`), nor in the bank, a teacher's own words included;
//! - neither sounds nor looks like something rude (`rude-sounds.txt`, `left-out.txt`).
//!
//! ```
//! use sheafling::bank::{Bank, SillyMaker};
//! use sheafling::sounds::Counting;
//! use sheafling::spelling::pairs;
//!
//! let bank = Bank::builtin(Counting::default()).unwrap();
//! let maker = SillyMaker::new(&bank, pairs(), |_, _| true);
//! let silly = maker.get("blamp").unwrap();
//! assert_eq!(silly.groups().collect::<Vec<_>>(), ["b", "l", "a", "m", "p"]);
//! ```

mod attested;
mod listed;
#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use super::{Band, Bank, Flags, Tags, Word};
use crate::sounds::{Counting, Phoneme, Side, Sound};
use crate::spelling::{Alignment, Pair};

pub(super) use attested::{Attested, Chunk};
pub(super) use listed::{LISTS, sounds_rude};
use listed::{is_heard, is_rude, is_spelled_like_a_word, phoneme_key};

/// A nonsense word.
#[derive(Clone, Debug)]
pub struct Silly<'a> {
    /// How it is written.
    pub spelling: String,
    /// Its counted sounds.
    pub sounds: Vec<Sound>,
    vowel: usize,
    onset: &'a Chunk,
    rime: &'a Chunk,
}

impl<'a> Silly<'a> {
    /// The sounds before the vowel; may be empty.
    #[must_use]
    pub fn onset(&self) -> &[Sound] {
        &self.sounds[..self.vowel]
    }

    /// The vowel and all after it: what it shares with words that rhyme.
    #[must_use]
    pub fn rime(&self) -> &[Sound] {
        &self.sounds[self.vowel..]
    }

    /// Its letter groups in the order of the sounds; a split vowel as `a_e`.
    pub fn groups(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        self.onset.units.iter().chain(&self.rime.units).map(|unit| unit.letters.as_str())
    }

    /// Its letter groups with their sounds.
    #[must_use]
    pub fn alignment(&self) -> Alignment {
        attested::joined(self.onset, self.rime)
    }

    /// How many one-syllable words of the bank are spelled with its rime: 1 or more, the more the easier.
    #[must_use]
    pub fn words_with_its_rime(&self) -> usize {
        self.rime.words
    }

    /// It as a word with no class, category or flag, for what asks for one (sound boxes, its shape).
    #[must_use]
    pub fn to_word(&self, counting: &Counting) -> Word {
        let (classes, categories, flags) = (Vec::new(), Vec::new(), Flags::default());
        let tags = Tags { level: 99, band: Band::K, classes, categories, flags };
        Word::new(self.spelling.clone(), self.alignment(), tags, counting)
    }
}

/// All nonsense words that can be made of what has been taught.
#[derive(Clone, Debug)]
pub struct SillyMaker<'a> {
    candidates: Vec<Silly<'a>>,
}

/// Whether an onset ends in the /l/ or /r/ that comes again after the vowel, as in *flal* and *brar*: hardly any English word does
/// (common practice, no source), and a beginner stumbles over it.
fn is_liquid_twice(onset: &[Phoneme], rime: &[Phoneme]) -> bool {
    match onset.last() {
        Some(Phoneme::L) => rime.contains(&Phoneme::L),
        Some(Phoneme::R) => rime.iter().any(|sound| matches!(sound, Phoneme::R | Phoneme::Er)),
        _ => false,
    }
}

impl<'a> SillyMaker<'a> {
    /// Makes all candidates, in the order of their spelling.
    ///
    /// `taught` are the letter groups that can be read; `cluster` says of two or more consonants on one side of the vowel whether
    /// they have been taught together. A cluster that one letter group spells (*x*, *qu*) is not asked for.
    #[must_use]
    pub fn new<'p>(
        bank: &'a Bank,
        taught: impl IntoIterator<Item = &'p Pair>,
        cluster: impl Fn(&[Sound], Side) -> bool,
    ) -> Self {
        let attested = bank.attested();
        let taught: BTreeSet<&Pair> = taught.into_iter().collect();
        let known = attested.known(&taught);
        let readable = |chunk: &Chunk| chunk.ids.iter().all(|&id| known[usize::from(id)]);
        let blended = |chunk: &Chunk, side| {
            let consonants = chunk.consonants();
            consonants.len() < 2 || chunk.is_one_group(side) || cluster(consonants, side)
        };
        let onsets: Vec<&Chunk> = attested.onsets.iter().filter(|c| readable(c) && blended(c, Side::Onset)).collect();
        let rimes = attested.rimes.iter().filter(|c| c.is_usual && readable(c) && blended(c, Side::Coda));
        let mut candidates = Vec::new();
        for rime in rimes {
            for &onset in &onsets {
                if Attested::is_usual_onset(onset, rime) && attested.joins(onset, rime) {
                    candidates.extend(Self::candidate(bank, attested, &known, onset, rime));
                }
            }
        }
        candidates.sort_by(|a, b| a.spelling.cmp(&b.spelling));
        Self { candidates }
    }

    /// An onset and a rime, unless they make a word, something rude, or can be read in two ways.
    fn candidate(
        bank: &Bank,
        attested: &Attested,
        known: &[bool],
        onset: &'a Chunk,
        rime: &'a Chunk,
    ) -> Option<Silly<'a>> {
        let phonemes = || onset.phonemes.iter().chain(&rime.phonemes).copied();
        let key = phoneme_key(phonemes())?;
        if is_heard(key) || attested.is_heard(key) {
            return None;
        }
        if is_liquid_twice(&onset.phonemes, &rime.phonemes) {
            return None;
        }
        let spelling = [onset.letters.as_str(), &rime.letters].concat();
        let fits = !is_spelled_like_a_word(&spelling)
            && bank.get(&spelling).is_none()
            && !is_rude(phonemes(), &spelling)
            && attested.is_read_in_one_way(&spelling, known, key);
        fits.then(|| {
            let sounds = [onset.sounds.as_slice(), &rime.sounds].concat();
            let vowel = sounds.iter().position(|sound| sound.is_vowel()).unwrap_or_default();
            Silly { spelling, sounds, vowel, onset, rime }
        })
    }

    /// All of them, in the order of their spelling.
    #[must_use]
    pub fn candidates(&self) -> &[Silly<'a>] {
        &self.candidates
    }

    /// The one of a spelling, if it can be made.
    #[must_use]
    pub fn get(&self, spelling: &str) -> Option<&Silly<'a>> {
        let found = self.candidates.binary_search_by(|silly| silly.spelling.as_str().cmp(spelling)).ok()?;
        self.candidates.get(found)
    }

    /// Those of an onset, which is a blend's sounds, one sound or none.
    pub fn with_onset<'m>(&'m self, onset: &'m [Sound]) -> impl Iterator<Item = &'m Silly<'a>> {
        self.candidates.iter().filter(move |silly| silly.onset() == onset)
    }

    /// Those of a rime, the vowel and all after it, which is also the rhyme part of a one-syllable word.
    pub fn with_rime<'m>(&'m self, rime: &'m [Sound]) -> impl Iterator<Item = &'m Silly<'a>> {
        self.candidates.iter().filter(move |silly| silly.rime() == rime)
    }

    /// Those that rhyme with a word.
    pub fn rhyming<'m>(&'m self, word: &'m Word) -> impl Iterator<Item = &'m Silly<'a>> {
        self.with_rime(word.rhyme_part())
    }
}

impl Bank {
    pub(super) fn attested(&self) -> &Attested {
        self.attested.get_or_init(|| Attested::new(self))
    }
}
