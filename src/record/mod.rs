//! placeholder
mod cell;
mod day;
mod file;
mod read;
mod row;
mod table;
mod template;

pub use day::{Day, NotADay};
pub use file::{Added, Record, RecordError, add, load};
pub use read::{Filled, read_rows};
pub use row::{COLUMNS, Row, read_right};
pub use table::TableError;
pub use template::{Task, template};
