//! Exchanging one blend or sound of a word for another.

use super::{EarPair, Exchange};
use crate::bank::{Bank, Word};
use crate::sounds::{Side, Sound};

/// What may stand in a whole onset or coda.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Slot {
    /// One consonant or more.
    Any,
    /// Two consonants or more.
    Cluster,
    /// One consonant.
    Single,
    /// These sounds.
    Given(Vec<Sound>),
    /// One of these.
    OneOf(Vec<Vec<Sound>>),
}

impl Slot {
    /// Whether sounds may stand there. No slot is empty.
    #[must_use]
    pub fn takes(&self, sounds: &[Sound]) -> bool {
        !sounds.is_empty()
            && match self {
                Self::Any => true,
                Self::Cluster => sounds.len() > 1,
                Self::Single => sounds.len() == 1,
                Self::Given(given) => given == sounds,
                Self::OneOf(list) => list.iter().any(|given| given == sounds),
            }
    }
}

impl Bank {
    /// Every word whose whole onset (or coda) `old` takes, with each other that `new` takes and that makes a word, in the order
    /// of spelling and then of the new sounds: *blank*, /dr/, *drank*. A coda that an ending has changed (*cups*) is not taken.
    #[must_use]
    pub fn swap_clusters(&self, side: Side, old: &Slot, new: &Slot) -> Vec<EarPair<'_>> {
        let clusters = match side {
            Side::Onset => &self.ear().onsets,
            Side::Coda => &self.ear().codas,
        };
        let mut found = Vec::new();
        for word in self.words() {
            let Some((cluster, rest)) = parted(word, side).filter(|(cluster, _)| old.takes(cluster)) else { continue };
            let others = clusters.get(&rest).into_iter().flatten();
            for other in others.filter(|other| **other != cluster && new.takes(other)) {
                let change = Exchange { at: start(word, side), old: cluster.clone(), new: other.clone() };
                found.extend(self.changed(word, change));
            }
        }
        found
    }

    /// What a word is with other sounds for its whole onset or coda, which must not be empty.
    #[must_use]
    pub fn swap_in<'a>(&'a self, word: &'a Word, side: Side, new: &[Sound]) -> Option<EarPair<'a>> {
        let old = match side {
            Side::Onset => word.onset(),
            Side::Coda => word.coda(),
        };
        if old.is_empty() || new.is_empty() {
            return None;
        }
        self.changed(word, Exchange { at: start(word, side), old: old.to_vec(), new: new.to_vec() })
    }

    /// What one other sound, a vowel or a consonant, at any place makes of a word, by place and then by the new sound.
    #[must_use]
    pub fn swap_one_sound<'a>(&'a self, word: &'a Word) -> Vec<EarPair<'a>> {
        let mut changes: Vec<Exchange> = self.swaps(&word.sounds).map(|(change, _)| change.into()).collect();
        changes.dedup();
        changes.into_iter().filter_map(|change| self.changed(word, change)).collect()
    }
}

/// The index of the first sound of the onset or coda.
fn start(word: &Word, side: Side) -> usize {
    match side {
        Side::Onset => 0,
        Side::Coda => word.sounds.len() - word.coda().len(),
    }
}

/// The onset (or coda) of a word and all its other sounds; `None` when it is empty or made by an ending.
pub(super) fn parted(word: &Word, side: Side) -> Option<(Vec<Sound>, Vec<Sound>)> {
    let (cluster, rest) = match side {
        Side::Onset => word.sounds.split_at(word.onset().len()),
        Side::Coda if word.is_form() => return None,
        Side::Coda => {
            let (rest, coda) = word.sounds.split_at(start(word, side));
            (coda, rest)
        }
    };
    (!cluster.is_empty()).then(|| (cluster.to_vec(), rest.to_vec()))
}
