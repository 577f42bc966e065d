//! Working on sounds by ear: taking away, adding, exchanging, rhyme.
//!
//! Everything goes by sound. A change is an [`Exchange`] of sounds at one place of a word; what it makes of a word is an
//! [`EarPair`] with *every* word of the bank that sounds like the result, since a child who hears it may write any of them.
//! A pair says whether the letters of the sounds that stay change too (*sneeze* without /s/ is *knees*), which is where a
//! child learns to listen instead of crossing out a letter.
//!
//! | asked | by |
//! |---|---|
//! | what is *snow* without /s/? | [`Bank::take_away`], [`Bank::take_away_from`] |
//! | what is *rain* with /t/ in front? | [`Bank::add`], [`Bank::add_to`] |
//! | what is *blank* with /dr/ instead of /bl/? | [`Bank::swap_clusters`], [`Bank::swap_in`], [`Bank::swap_one_sound`] |
//! | what rhymes? | [`Bank::rhyme_groups`], [`Bank::riddles`] |
//! | which word do these sounds make? | [`Bank::sounding`], [`Bank::homophone_sets`] |
//!
//! Nothing is left out here for a child's step, for endings or for heteronyms: that is for who asks.
//!
//! ```
//! use sheafling::bank::{Bank, Part};
//! use sheafling::sounds::Counting;
//!
//! let bank = Bank::builtin(Counting::default()).unwrap();
//! let pair = bank.take_away_from(bank.get("snow").unwrap(), &Part::First).unwrap();
//! assert_eq!(pair.spellings(), ["know", "no"]);
//! assert!(pair.spelling_changes);
//! ```

mod exchange;
mod pair;
mod rhyme;
mod riddle;
mod swap;
mod take;
#[cfg(test)]
mod tests;

use std::collections::{BTreeMap, BTreeSet};

use super::{Bank, Word};
use crate::sounds::{Blend, Place, Side, Sound};

pub use exchange::Exchange;
pub use pair::{Answer, EarPair};
pub use rhyme::RhymeGroup;
pub use riddle::Riddle;
pub use swap::Slot;
pub use take::Part;

/// What working by ear looks up, built from a bank's words when first asked for.
#[derive(Debug)]
pub(super) struct Index {
    /// The words of each rhyme part.
    by_rhyme: BTreeMap<Vec<Sound>, Vec<usize>>,
    /// For the sounds after the onset: the onsets that make words with them.
    onsets: BTreeMap<Vec<Sound>, BTreeSet<Vec<Sound>>>,
    /// For the sounds before the coda: the codas that make words with them, endings aside.
    codas: BTreeMap<Vec<Sound>, BTreeSet<Vec<Sound>>>,
}

impl Index {
    fn new(words: &[Word]) -> Self {
        let mut index = Self { by_rhyme: BTreeMap::new(), onsets: BTreeMap::new(), codas: BTreeMap::new() };
        for (at, word) in words.iter().enumerate() {
            index.by_rhyme.entry(word.rhyme_part().to_vec()).or_default().push(at);
            for (side, clusters) in [(Side::Onset, &mut index.onsets), (Side::Coda, &mut index.codas)] {
                if let Some((cluster, rest)) = swap::parted(word, side) {
                    clusters.entry(rest).or_default().insert(cluster);
                }
            }
        }
        index
    }
}

impl Bank {
    fn ear(&self) -> &Index {
        self.ear.get_or_init(|| Index::new(&self.words))
    }

    /// Every set of two or more words that sound alike, each in the order of spelling, the sets in the order of their first
    /// word.
    #[must_use]
    pub fn homophone_sets(&self) -> Vec<Vec<&Word>> {
        let alike = self.by_sound().values().filter(|found| found.len() > 1);
        let mut sets: Vec<Vec<&Word>> = alike.map(|found| found.iter().map(|&at| &self.words[at]).collect()).collect();
        sets.sort_by(|one, other| one[0].spelling.cmp(&other[0].spelling));
        sets
    }

    /// The words in which a blend is heard, at one place or anywhere, in the order of their spelling. Consonants that an
    /// ending brings together (*cups*) are no blend.
    pub fn with_blend(&self, blend: &'static Blend, place: Option<Place>) -> impl Iterator<Item = &Word> {
        let fits = move |(found, at): (&Blend, Place)| found == blend && place.is_none_or(|asked| asked == at);
        self.words.iter().filter(move |word| word.blends().any(fits))
    }
}
