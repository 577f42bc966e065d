//! Sheafling.
pub mod page;
pub mod pdf;
