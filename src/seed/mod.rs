//! From a seed a person can type to streams of chosen numbers.
//!
//! A [`Seed`] is a short text. A [`Stream`] is made from a seed and a *path* that says what the stream is for, such as
//! child, activity and purpose; each path has numbers of its own, so that one page can be made alone and come out as it did
//! among the others. The functions that choose from a stream are ours (see `sample.rs`) and their results are pinned by
//! tests: a new release of a package can't change a sheet.
//!
//! ```
//! use sheafling::seed::{Seed, Stream};
//!
//! let seed: Seed = "maple-otter-42".parse()?;
//! let mut words = Stream::new(&seed, &["child 1", "sound boxes", "words"]);
//! let first = words.sample(3, 40);
//! assert_eq!(Stream::new(&seed, &["child 1", "sound boxes", "words"]).sample(3, 40), first);
//! # Ok::<(), sheafling::seed::SeedError>(())
//! ```
//!
//! This is for fair and repeatable choosing, not for secrets: whoever knows the seed knows the choices.

mod name;
mod sample;
mod stream;
mod text;

pub use name::readable;
pub use stream::{Rules, Stream};
pub use text::{Seed, SeedError};
