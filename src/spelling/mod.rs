//! Letter groups and the sounds they spell.
//!
//! The table `pairs.txt` lists which letter groups can stand for which sounds; [`align`] finds, for one spelling and its
//! sounds, which letters spell what: b-r-a_e-v. Nothing here knows whether a word exists or has been taught.

mod align;
mod pairs;

pub use align::{Alignment, Unit, align, align_codes};
pub use pairs::{Pair, PairError, pairs};
