//! One change of one sound: take away, add, swap.

use super::Sound;

/// A change of exactly one sound. `at` is the index at which it happens, counted from 0 in the word before the change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Change {
    /// The sound at `at` becomes another.
    Swap {
        /// Which sound.
        at: usize,
        /// What it was.
        old: Sound,
        /// What it becomes.
        new: Sound,
    },
    /// A sound comes in before the one at `at` (at the end when `at` is the length).
    Add {
        /// Where.
        at: usize,
        /// What comes in.
        new: Sound,
    },
    /// The sound at `at` goes.
    TakeAway {
        /// Which sound.
        at: usize,
        /// What goes.
        old: Sound,
    },
}

impl Change {
    /// Where it happens.
    #[must_use]
    pub const fn at(self) -> usize {
        match self {
            Self::Swap { at, .. } | Self::Add { at, .. } | Self::TakeAway { at, .. } => at,
        }
    }

    /// The sounds after the change, or `None` when it does not fit them.
    #[must_use]
    pub fn apply(self, sounds: &[Sound]) -> Option<Vec<Sound>> {
        let mut changed = sounds.to_vec();
        match self {
            Self::Swap { at, old, new } => {
                if sounds.get(at) != Some(&old) || old == new {
                    return None;
                }
                changed[at] = new;
            }
            Self::Add { at, new } => {
                if at > sounds.len() {
                    return None;
                }
                changed.insert(at, new);
            }
            Self::TakeAway { at, old } => {
                if sounds.get(at) != Some(&old) {
                    return None;
                }
                changed.remove(at);
            }
        }
        Some(changed)
    }

    /// The one change that turns `from` into `to`, if there is one. Where a doubled sound allows two places, the first.
    #[must_use]
    pub fn between(from: &[Sound], to: &[Sound]) -> Option<Self> {
        let same = from.iter().zip(to).take_while(|(a, b)| a == b).count();
        let change = match to.len().checked_sub(from.len()) {
            Some(0) => Self::Swap { at: same, old: *from.get(same)?, new: *to.get(same)? },
            Some(1) => Self::Add { at: same, new: *to.get(same)? },
            None if from.len() - to.len() == 1 => Self::TakeAway { at: same, old: *from.get(same)? },
            _ => return None,
        };
        (change.apply(from).as_deref() == Some(to)).then_some(change)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sounds::Sound::*;

    #[test]
    fn finds_the_one_change() {
        let cat = [K, ShortA, T];
        assert_eq!(Change::between(&cat, &[K, ShortU, T]), Some(Change::Swap { at: 1, old: ShortA, new: ShortU }));
        assert_eq!(Change::between(&cat, &[S, K, ShortA, T]), Some(Change::Add { at: 0, new: S }));
        assert_eq!(Change::between(&cat, &[ShortA, T]), Some(Change::TakeAway { at: 0, old: K }));
        assert_eq!(Change::between(&cat, &cat), None);
        assert_eq!(Change::between(&cat, &[B, ShortA, G]), None);
        assert_eq!(Change::between(&cat, &[]), None);
    }

    #[test]
    fn a_change_that_does_not_fit_is_refused() {
        assert_eq!(Change::Swap { at: 9, old: K, new: B }.apply(&[K]), None);
        assert_eq!(Change::TakeAway { at: 0, old: B }.apply(&[K]), None);
        assert_eq!(Change::Add { at: 2, new: B }.apply(&[K]), None);
    }
}
