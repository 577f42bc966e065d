//! Sheafling.
pub mod bank;
pub mod sounds;
pub mod spelling;
