//! Sheafling.
pub mod sounds;
pub mod spelling;
