//! Taking sounds away from a word, and adding them to one.

use std::collections::BTreeSet;
use std::ops::Range;

use super::{EarPair, Exchange};
use crate::bank::{Bank, Word};
use crate::sounds::{Blend, Side, Sound};

/// Which sounds of a word are taken away, or have been added to it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Part {
    /// The whole onset: all consonants before the first vowel, one or more.
    Onset,
    /// The first sound.
    First,
    /// The second sound of an initial cluster: the /l/ of *play*.
    Second,
    /// The last sound but one, when it stands in a final cluster: the /s/ of *nest*.
    BeforeLast,
    /// The last sound.
    Last,
    /// The whole coda: all consonants after the last vowel, one or more.
    Coda,
    /// These sounds, at the beginning or at the end. One sound is the first or the last, whatever stands beside it; more are
    /// the whole onset or coda, as a blend is the whole cluster.
    Given(Side, Vec<Sound>),
}

impl Part {
    /// A given blend on its side.
    #[must_use]
    pub fn of_blend(blend: &Blend) -> Self {
        Self::Given(blend.side, blend.sounds.to_vec())
    }

    /// Where it stands in a word, as indexes into its sounds; never empty.
    #[must_use]
    pub fn find(&self, word: &Word) -> Option<Range<usize>> {
        let len = word.sounds.len();
        let onset = word.syllables.first()?.onset.clone();
        let coda = word.syllables.last()?.coda.clone();
        let found = match self {
            Self::Onset => onset,
            Self::First => 0..1,
            Self::Second if onset.len() > 1 => 1..2,
            Self::BeforeLast if coda.len() > 1 => len - 2..len - 1,
            Self::Second | Self::BeforeLast => return None,
            Self::Last => len - 1..len,
            Self::Coda => coda,
            Self::Given(side, sounds) => {
                let found = match (side, sounds.len()) {
                    (Side::Onset, 1) => 0..1,
                    (Side::Coda, 1) => len - 1..len,
                    (Side::Onset, _) => onset,
                    (Side::Coda, _) => coda,
                };
                (word.sounds[found.clone()] == **sounds).then_some(found)?
            }
        };
        (!found.is_empty()).then_some(found)
    }
}

impl Bank {
    /// What a word is without a part of it; `None` when it has no such part or the rest is no word of the bank.
    #[must_use]
    pub fn take_away_from<'a>(&'a self, word: &'a Word, part: &Part) -> Option<EarPair<'a>> {
        let found = part.find(word)?;
        let old = word.sounds[found.clone()].to_vec();
        self.changed(word, Exchange { at: found.start, old, new: Vec::new() })
    }

    /// Every word that leaves a word when a part is taken away, in the order of spelling: *sneeze* and *knees*.
    #[must_use]
    pub fn take_away(&self, part: &Part) -> Vec<EarPair<'_>> {
        self.words().iter().filter_map(|word| self.take_away_from(word, part)).collect()
    }

    /// What a word is with sounds in front of it or at its end.
    #[must_use]
    pub fn add_to<'a>(&'a self, word: &'a Word, side: Side, sounds: &[Sound]) -> Option<EarPair<'a>> {
        let at = match side {
            Side::Onset => 0,
            Side::Coda => word.sounds.len(),
        };
        self.changed(word, Exchange { at, old: Vec::new(), new: sounds.to_vec() })
    }

    /// Every word that makes a word when a part is added to it, in the order of spelling and then of the change: *rain* with
    /// /t/ is *train*. The part is that of the longer word.
    #[must_use]
    pub fn add(&self, part: &Part) -> Vec<EarPair<'_>> {
        let mut found: BTreeSet<(usize, Exchange)> = BTreeSet::new();
        for longer in self.words() {
            let Some(range) = part.find(longer) else { continue };
            let rest = [&longer.sounds[..range.start], &longer.sounds[range.end..]].concat();
            for &shorter in self.by_sound().get(&rest).into_iter().flatten() {
                let new = longer.sounds[range.clone()].to_vec();
                found.insert((shorter, Exchange { at: range.start, old: Vec::new(), new }));
            }
        }
        found.into_iter().filter_map(|(shorter, change)| self.changed(&self.words[shorter], change)).collect()
    }
}
