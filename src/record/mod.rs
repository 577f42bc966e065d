//! The record of practice: what each child tried, and what it says for the next packet.
//!
//! A record is a plain CSV file that only grows, one for each group: a row for each try, with the columns of [`COLUMNS`]. [`template()`]
//! makes a table to fill in with a spreadsheet, [`read_rows`] reads it and tells everything that is wrong, [`add`] puts its rows into
//! the file, whole or not at all, and [`load`] reads the file. From the rows, [`report()`] counts tries, accuracy, trend, and the blends
//! and letter groups in trouble; [`pages`] draws that; [`plan_next`] plans a child's next packet.
//!
//! There is no clock here: days are those that the rows have. What was tried on one day counts as one packet.
//!
//! ```
//! use sheafling::bank::Bank;
//! use sheafling::record::{Rule, plan_next, read_rows, report};
//! use sheafling::sequence::Sequence;
//! use sheafling::sounds::Counting;
//!
//! let (bank, sequence) = (Bank::builtin(Counting::default())?, Sequence::builtin()?);
//! let table = "child,date,skill,item,right\nAna,2025-03-04,sound-boxes,flag,no\nAna,2025-03-04,sound-boxes,clap,yes\n";
//! let rows = read_rows("rows.csv", table, &["sound-boxes"], None)?.rows;
//! let report = report(&rows, &["Ana"], None, &bank, &sequence);
//! assert_eq!(report.children[0].skills[0].accuracy, 50);
//! let next = plan_next(&rows, "Ana", &Rule::default(), &bank, &sequence).ok_or("no such child")?;
//! assert_eq!((next.packet, next.review[0].item.as_str()), (2, "flag"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod cell;
mod chart;
mod day;
mod file;
mod moving;
mod next;
mod page;
mod part;
mod read;
mod report;
mod row;
mod spacing;
mod table;
mod template;
#[cfg(test)]
mod tests;
mod yaml_text;

pub use cell::{SEPARATORS, guarded};
pub use day::{Day, NotADay};
pub use file::{Added, Record, RecordError, add, load};
pub use moving::{MOVE_ON_RULE, MoveOn};
pub use next::{NextPlan, Rule, Share, StepTaken, plan_next};
pub use page::pages;
pub use part::{Part, parts};
pub use read::{Filled, read_rows};
pub use report::{
    CAUTION, ChildReport, DayReport, RULES, Report, SkillReport, Sum, Trend, Trouble, children, report, rows_of,
    troubles,
};
pub use row::{COLUMNS, Row, read_right};
pub use spacing::{Due, GAPS, packets, spaced};
pub use table::TableError;
pub use template::{Task, template};
