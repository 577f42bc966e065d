//! Sounds, syllables, blends, rhyme and changes of one sound.
//!
//! A word is heard as [`Phone`]s (CMUdict's codes with stress) and counted as [`Sound`]s, one for each box in a row of sound
//! boxes; [`Counting`] holds the switches on which teachers differ. All else here works on sounds: [`syllables`] with their
//! onset and coda, [`clusters`] and the [`Blend`]s that they are, [`rhymes`], and a [`Change`] of one sound.
//!
//! This room knows nothing of spelling, of lists of words, or of pages.
//!
//! ```
//! use sheafling::sounds::{Counting, clusters, count_sounds, parse_phones, syllables};
//!
//! let phones = parse_phones("B L AE1 NG K").unwrap();
//! let sounds: Vec<_> = count_sounds(&phones, &Counting::default()).iter().map(|h| h.sound).collect();
//! assert_eq!(sounds.len(), 5);
//! let found = clusters(&sounds, &syllables(&sounds, &[]));
//! let names: Vec<_> = found.iter().filter_map(|c| c.blend).map(ToString::to_string).collect();
//! assert_eq!(names, ["bl-", "-nk"]);
//! ```

mod blend;
mod counting;
mod phoneme;
mod relation;
mod rhyme;
mod sound;
mod syllable;

pub use blend::{BLENDS, Blend, Cluster, Place, Side, clusters};
pub use counting::{Counting, Heard, count_sounds};
pub use phoneme::{Phone, Phoneme, Stress, UnknownCode, parse_phones};
pub use relation::Change;
pub use rhyme::{rhyme_part, rhymes};
pub use sound::{Notation, Sound, spell_out};
pub use syllable::{Syllable, is_onset, syllables};
