//! Sheafling.
pub mod nearest;
pub mod page;
pub mod pdf;
pub mod seed;
pub mod yaml;
