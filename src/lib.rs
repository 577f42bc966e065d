//! Sheafling.
pub mod page;
pub mod pdf;
pub mod nearest;
pub mod seed;
pub mod yaml;
