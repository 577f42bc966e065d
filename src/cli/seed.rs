//! Drawing a new seed. This is the one place where chance comes in.

use super::Failure;
use crate::seed::{Seed, readable};

/// A new, readable seed from the system's randomness.
///
/// # Errors
/// When the system has none to give.
pub fn draw() -> Result<Seed, Failure> {
    getrandom::u64().map(readable).map_err(|error| {
        Failure::usage(format!("the system gives no random numbers ({error})\nhelp: choose a seed with --seed"))
    })
}
