//! Sheafling.

pub mod bank;
pub mod cli;
pub mod fill;
pub mod layout;
pub mod nearest;
pub mod packet;
pub mod page;
pub mod pdf;
pub mod seed;
pub mod sequence;
pub mod sheet;
pub mod sounds;
pub mod spelling;
pub mod yaml;
