//! Own words in a table: CSV with a header row.

use super::check::{Checker, Field, Written};
use super::{OwnWords, OwnWordsError};
use crate::bank::Bank;
use crate::rows::{Row, Rows, Table};

/// The columns, of which only the first is needed, in any order.
const COLUMNS: [&str; 7] = ["spelling", "sounds", "categories", "classes", "band", "flags", "leave-out"];

impl OwnWords {
    /// Reads own words from CSV text; `file_name` is only for messages, `bank` tells which words there are.
    ///
    /// The first row names the columns: `spelling` and, if wanted, `sounds`, `categories`, `classes`, `band`, `flags` and
    /// `leave-out` (`yes` or nothing). Columns are parted by commas, or by semicolons when the first row has no comma; the
    /// entries of a cell by blanks, commas or semicolons. Empty rows are passed over.
    ///
    /// # Errors
    /// When the table can't be read at all, else everything that [`from_yaml`](Self::from_yaml) lists.
    pub fn from_csv(file_name: &str, text: &str, bank: &Bank) -> Result<Self, OwnWordsError> {
        let mut checker = Checker::new(bank);
        let table = Rows::new(file_name, text)
            .map_err(|error| vec![error])
            .and_then(|rows| rows.table(&COLUMNS, &COLUMNS[..1]));
        let table = table.map_err(|problems| OwnWordsError { problems })?;
        for of in &table.rows {
            row(&mut checker, &table, of);
        }
        checker.done(file_name)
    }
}

fn row(checker: &mut Checker<'_>, table: &Table<'_>, row: &Row) {
    for stray in table.stray(row) {
        checker.refuse(stray);
    }
    let cell = |name: &str| table.cell(row, name);
    let list = |name: &str| table.list(row, name);
    let spelling = cell("spelling").unwrap_or_default().to_owned();
    let at_column = |name: &str, message: &str| table.at(row, name, message);
    match cell("leave-out").map(str::to_lowercase).as_deref() {
        None | Some("no") => {
            let written = Written {
                spelling,
                sounds: cell("sounds").map(str::to_owned),
                band: cell("band").map(str::to_owned),
                classes: list("classes"),
                categories: list("categories"),
                flags: list("flags"),
            };
            checker.add(&written, &|field, message| {
                let name = match field {
                    Field::Spelling => "spelling",
                    Field::Sounds => "sounds",
                    Field::Band => "band",
                    Field::Classes(_) => "classes",
                    Field::Categories(_) => "categories",
                    Field::Flags(_) => "flags",
                };
                at_column(name, message)
            });
        }
        Some("yes") => checker.leave_out(&spelling, &|message| at_column("spelling", message)),
        Some(other) => {
            let message = format!("`{other}` does not say whether the word is left out");
            checker.refuse(at_column("leave-out", &message).with_hint("write `yes`, or leave the cell empty"));
        }
    }
}
