//! Own words in a table: CSV with a header row.

use super::check::{Checker, Field, Written};
use super::{OwnWords, OwnWordsError};
use crate::bank::Bank;
use crate::yaml::{MAX_BYTES, YamlError, did_you_mean};

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
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let fatal = |error: YamlError| OwnWordsError { problems: vec![error] };
        if text.len() > MAX_BYTES {
            return Err(fatal(YamlError::new(file_name, "this file is larger than 4 MiB, the most that is read")));
        }
        let first_line = text.lines().next().unwrap_or_default();
        let delimiter = if !first_line.contains(',') && first_line.contains(';') { b';' } else { b',' };
        let table = Table { file: file_name, text, delimiter };
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All)
            .delimiter(delimiter)
            .from_reader(text.as_bytes());
        let mut checker = Checker::new(bank);
        let mut columns: Option<Vec<Option<&str>>> = None;
        for record in reader.records() {
            let record = record.map_err(|error| fatal(YamlError::new(file_name, &error.to_string())))?;
            let start = record.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(usize::MAX));
            let place = |column: usize, message: &str| table.at(start, column, message);
            if record.iter().all(str::is_empty) {
                continue;
            }
            match &columns {
                None => columns = Some(header(&record, &place).map_err(|problems| OwnWordsError { problems })?),
                Some(columns) => row(&mut checker, columns, &record, &place),
            }
        }
        if columns.is_none() {
            let hint = "the first row names the columns: `spelling,sounds,categories`";
            return Err(fatal(YamlError::new(file_name, "the table is empty").with_hint(hint)));
        }
        checker.done(file_name)
    }
}

/// Which column of the file is which.
fn header<'a>(
    record: &csv::StringRecord,
    place: &dyn Fn(usize, &str) -> YamlError,
) -> Result<Vec<Option<&'a str>>, Vec<YamlError>> {
    let mut problems = Vec::new();
    let mut columns: Vec<Option<&str>> = Vec::new();
    for (at, name) in record.iter().enumerate() {
        let plain = name.to_lowercase().replace([' ', '_'], "-");
        let known = COLUMNS.iter().copied().find(|column| *column == plain);
        if known.is_some() && columns.contains(&known) {
            problems.push(place(at, &format!("the column `{name}` is there twice")));
        } else if known.is_none() && !name.is_empty() {
            let hint = did_you_mean(&plain, "columns", &COLUMNS);
            problems.push(place(at, &format!("there is no column `{name}`")).with_hint(&hint));
        }
        columns.push(known);
    }
    if problems.is_empty() && !columns.contains(&Some("spelling")) {
        let hint = "the first row names the columns: `spelling,sounds,categories`";
        problems.push(place(0, "there is no column `spelling`").with_hint(hint));
    }
    if problems.is_empty() { Ok(columns) } else { Err(problems) }
}

fn row(
    checker: &mut Checker<'_>,
    columns: &[Option<&str>],
    record: &csv::StringRecord,
    place: &dyn Fn(usize, &str) -> YamlError,
) {
    for (at, cell) in record.iter().enumerate().skip(columns.len()).filter(|(_, cell)| !cell.is_empty()) {
        let message = format!("`{cell}` is in no column");
        checker.refuse(place(at, &message).with_hint("put a cell that has commas in it in quotes"));
    }
    for (at, cell) in record.iter().enumerate().take(columns.len()) {
        if columns[at].is_none() && !cell.is_empty() {
            checker.refuse(place(at, &format!("`{cell}` is in a column without a name")));
        }
    }
    let column = |name: &str| columns.iter().position(|column| *column == Some(name));
    let cell = |name: &str| column(name).and_then(|at| record.get(at)).filter(|cell| !cell.is_empty());
    let list = |name: &str| -> Vec<String> {
        let parts = cell(name).unwrap_or_default().split([' ', ',', ';']);
        parts.filter(|part| !part.is_empty()).map(str::to_owned).collect()
    };
    let spelling = cell("spelling").unwrap_or_default().to_owned();
    let at_column = |name: &str, message: &str| place(column(name).unwrap_or_default(), message);
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

/// The text of a table, for finding places in it.
struct Table<'a> {
    file: &'a str,
    text: &'a str,
    delimiter: u8,
}

impl Table<'_> {
    /// An error at a cell of the row that begins at a byte.
    fn at(&self, start: usize, cell: usize, message: &str) -> YamlError {
        let bytes = self.text.as_bytes();
        let mut byte = start.min(bytes.len());
        // The reader may say that a row begins at the line ends before it.
        while bytes.get(byte).is_some_and(|b| matches!(b, b'\n' | b'\r')) {
            byte += 1;
        }
        let (mut passed, mut quoted) = (0, false);
        while passed < cell && byte < bytes.len() {
            match bytes[byte] {
                b'"' => quoted = !quoted,
                b if b == self.delimiter && !quoted => passed += 1,
                b'\n' if !quoted => break,
                _ => {}
            }
            byte += 1;
        }
        while bytes.get(byte) == Some(&b' ') {
            byte += 1;
        }
        let before = self.text.get(..byte).unwrap_or(self.text);
        let line = 1 + before.matches('\n').count();
        let column = 1 + before.rsplit('\n').next().map_or(0, |head| head.chars().count());
        YamlError::at(self.file, self.text, line, column, message)
    }
}
