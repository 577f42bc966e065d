//! A change of sounds at one place of a word.

use crate::sounds::{Change, Notation, Sound, spell_out};

/// Sounds at one place of a word that give way to others. Without new ones it takes away, without old ones it adds, with both
/// it swaps. [`Change`] is the case of one sound.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Exchange {
    /// The index of the first sound that changes, counted from 0 in the word before the change.
    pub at: usize,
    /// The sounds that go.
    pub old: Vec<Sound>,
    /// The sounds that come.
    pub new: Vec<Sound>,
}

impl Exchange {
    /// The sounds after the change, or `None` when the old ones do not stand there.
    #[must_use]
    pub fn apply(&self, sounds: &[Sound]) -> Option<Vec<Sound>> {
        let after = sounds.get(self.at..)?.strip_prefix(self.old.as_slice())?;
        Some([&sounds[..self.at], &self.new, after].concat())
    }

    /// The change that undoes this one.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self { at: self.at, old: self.new.clone(), new: self.old.clone() }
    }

    /// Whether sounds only go.
    #[must_use]
    pub fn takes_away(&self) -> bool {
        self.new.is_empty()
    }

    /// Whether sounds only come.
    #[must_use]
    pub fn adds(&self) -> bool {
        self.old.is_empty()
    }

    /// The sounds that go, for a clue: `/b/ /l/`.
    #[must_use]
    pub fn old_said(&self, notation: Notation) -> String {
        spell_out(&self.old, notation)
    }

    /// The sounds that come, for a clue: `/d/ /r/`.
    #[must_use]
    pub fn new_said(&self, notation: Notation) -> String {
        spell_out(&self.new, notation)
    }
}

impl From<Change> for Exchange {
    fn from(change: Change) -> Self {
        match change {
            Change::Swap { at, old, new } => Self { at, old: vec![old], new: vec![new] },
            Change::Add { at, new } => Self { at, old: Vec::new(), new: vec![new] },
            Change::TakeAway { at, old } => Self { at, old: vec![old], new: Vec::new() },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sounds::Sound::*;

    #[test]
    fn a_change_is_undone_by_its_reverse() {
        let blank = [B, L, ShortA, Ng, K];
        let change = Exchange { at: 0, old: vec![B, L], new: vec![D, R] };
        let drank = change.apply(&blank).unwrap();
        assert_eq!(drank, [D, R, ShortA, Ng, K]);
        assert_eq!(change.reversed().apply(&drank).as_deref(), Some(&blank[..]));
    }

    #[test]
    fn a_change_that_does_not_fit_is_refused() {
        let change = Exchange { at: 3, old: vec![B], new: vec![] };
        assert_eq!(change.apply(&[B]), None);
        assert_eq!(change.apply(&[B, B, B, K]), None);
    }

    #[test]
    fn a_change_of_one_sound_is_one() {
        let cat = [K, ShortA, T];
        for to in [vec![K, ShortU, T], vec![S, K, ShortA, T], vec![ShortA, T]] {
            let change = Change::between(&cat, &to).unwrap();
            assert_eq!(Exchange::from(change).apply(&cat), Some(to));
        }
    }
}
