//! Sheafling.

pub mod bank;
pub mod fill;
pub mod nearest;
pub mod page;
pub mod pdf;
pub mod seed;
pub mod sheet;
pub mod sounds;
pub mod spelling;
pub mod yaml;
