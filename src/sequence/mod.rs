//! A teaching sequence: what is taught at each step, and whether a child at a step can read a word.
//!
//! A [`Sequence`] is an ordered list of [`Step`]s. A step teaches grapheme–sound pairs, blends, word [`Shape`]s, and
//! high-frequency words that are read by sight. A group stands at a step; [`Taught`] is everything up to it.
//!
//! A word is *decodable* once all of this has been taught:
//! - each grapheme–sound pair of its spelling;
//! - each cluster of two or more consonants in one syllable, as a blend, unless one letter group spells the whole cluster
//!   (*x*, *qu*), which is then a pair and nothing more;
//! - its shape (see [`Shape`]).
//!
//! An inflected form (*cups*, *hugged*) asks for its base word, its ending, and the change that the ending makes to the
//! base's spelling. Its last consonants are no blend. A form whose base is not in the bank is taken by its own letters.
//!
//! A word flagged `irregular` is never decodable; a step may list it to be read by sight. A heteronym (*read*, *wind*) is
//! judged by the one pronunciation that the bank has: whether it may stand on a page alone is for `fill` to say.
//!
//! All of these rules are common practice, no source. What a step teaches is told apart by the letters and their phonemes, so
//! the switches of [`Counting`](crate::sounds::Counting) change the shapes of words, but hardly what is decodable.
//!
//! ```
//! use sheafling::bank::Bank;
//! use sheafling::sequence::Sequence;
//! use sheafling::sounds::Counting;
//!
//! let bank = Bank::builtin(Counting::default())?;
//! let sequence = Sequence::builtin()?;
//! let rain = bank.get("rain").ok_or("no such word")?;
//! let step = sequence.earliest(rain, &bank).ok_or("never decodable")?;
//! assert_eq!(step.name, "ai-ay");
//! assert!(sequence.taught(step).is_decodable(rain, &bank));
//! let before = sequence.taught(sequence.step("doubles")?);
//! assert!(before.check(rain, &bank).to_string().contains("ai for /ā/ is taught at step"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! [`text`] checks a whole text. Pages are unknown here.

mod index;
mod needs;
mod read;
mod shape;
mod step;
mod taught;
#[cfg(test)]
mod tests;
pub mod text;

pub use read::SequenceError;
pub use shape::{Pattern, Shape};
pub use step::{MAX_STEPS, Sequence, Step, StepError};
pub use taught::{At, Missing, Taught, Verdict};
