//! A table as spreadsheets save it: separators, line ends, a byte order mark, empty rows and columns.

use std::fmt;

use super::cell::{Cell, SEPARATORS, parted};
use super::row::COLUMNS;
use crate::yaml::{YamlError, did_you_mean};

/// At most this many problems are told one by one.
const MOST_TOLD: usize = 200;

/// All that is wrong with a table, in the order of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TableError {
    /// The problems, at least one, each with its file and, where it has one, its place.
    pub problems: Vec<YamlError>,
}

impl fmt::Display for TableError {
    /// The problems, an empty line between them.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let texts: Vec<_> = self.problems.iter().map(ToString::to_string).collect();
        f.write_str(&texts.join("\n\n"))
    }
}

impl std::error::Error for TableError {}

impl From<YamlError> for TableError {
    fn from(problem: YamlError) -> Self {
        Self { problems: vec![problem] }
    }
}

/// Collects what is wrong.
#[derive(Debug)]
pub(super) struct Problems<'a> {
    file: &'a str,
    text: &'a str,
    found: Vec<YamlError>,
    untold: usize,
}

impl<'a> Problems<'a> {
    pub fn new(file: &'a str, text: &'a str) -> Self {
        Self { file, text, found: Vec::new(), untold: 0 }
    }

    /// Notes a problem at a line and a column, both from 1.
    pub fn add(&mut self, line: usize, column: usize, message: &str, hint: &str) {
        if self.found.len() == MOST_TOLD {
            self.untold += 1;
            return;
        }
        let error = YamlError::at(self.file, self.text, line, column, message);
        self.found.push(if hint.is_empty() { error } else { error.with_hint(hint) });
    }

    /// Everything noted, in the order of the file.
    pub fn done(mut self) -> Result<(), TableError> {
        self.found.sort_by_key(|problem| (problem.line(), problem.column()));
        if self.untold > 0 {
            self.found.push(YamlError::new(self.file, &format!("there are {} more problems", self.untold)));
        }
        if self.found.is_empty() { Ok(()) } else { Err(TableError { problems: self.found }) }
    }
}

/// A row of a table with its cells in the order of [`COLUMNS`].
#[derive(Debug)]
pub(super) struct RawRow {
    /// Its line, from 1.
    pub line: usize,
    /// Its cells; one that the row is too short for is empty, and its column is the end of the line.
    pub cells: [Cell; 6],
}

impl RawRow {
    /// The text of a column of [`COLUMNS`].
    pub fn text(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", |cell| cell.text.as_str())
    }

    /// Where the column's cell begins.
    pub fn column(&self, column: usize) -> usize {
        self.cells.get(column).map_or(1, |cell| cell.column)
    }
}

/// The rows below the header. Empty rows are passed over, and so are columns without a name and with nothing in them.
///
/// # Errors
/// When there is no header with the columns, when a line can't be parted, or when a cell stands in no column.
pub(super) fn rows(text: &str, problems: &mut Problems<'_>) -> Vec<RawRow> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut lines = lines(text).enumerate().map(|(at, line)| (at + 1, line)).peekable();
    // Some spreadsheets say in a line before the header what parts the cells.
    let said = |line: &str| line.trim().strip_prefix("sep=").and_then(|rest| rest.chars().next());
    let stated = lines.next_if(|(_, line)| said(line).is_some()).and_then(|(_, line)| said(line));
    while lines.next_if(|(_, line)| is_empty(line)).is_some() {}
    let Some((line, header)) = lines.next() else {
        problems.add(1, 1, "the table is empty", &needs());
        return Vec::new();
    };
    let often = |separator: &char| header.matches(*separator).count();
    // Of two that are as many the earlier of the list is taken, the comma first.
    let separator = stated.or_else(|| SEPARATORS.into_iter().rev().max_by_key(often)).unwrap_or(',');
    let Some(columns) = columns(header, line, separator, problems) else { return Vec::new() };
    let mut rows = Vec::new();
    for (line, source) in lines.filter(|(_, source)| !is_empty(source)) {
        match parted(source, separator) {
            Ok(cells) => rows.extend(row(line, source, cells, &columns, problems)),
            Err(bad) => problems.add(line, bad.column, bad.why, "write each row on one line, and close its quotes"),
        }
    }
    rows
}

/// Lines, by every line end that a text may have, so that they are counted as in messages.
fn lines(text: &str) -> impl Iterator<Item = &str> {
    let ends = |c| matches!(c, '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}');
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let all = rest?;
        let Some(at) = all.find(ends) else {
            rest = None;
            return Some(all);
        };
        let (line, after) = all.split_at(at);
        let length = if after.starts_with("\r\n") { 2 } else { after.chars().next().map_or(0, char::len_utf8) };
        rest = after.get(length..);
        Some(line)
    })
}

/// Whether a line holds nothing but separators, blanks and empty quotes.
fn is_empty(line: &str) -> bool {
    line.chars().all(|c| SEPARATORS.contains(&c) || c == '"' || c.is_whitespace())
}

fn needs() -> String {
    format!("the first row names the columns: `{}`; `sheafling record template` makes one", COLUMNS.join(","))
}

/// Which of [`COLUMNS`] each column of the table is; `None` when the header is wrong.
fn columns(header: &str, line: usize, separator: char, problems: &mut Problems<'_>) -> Option<Vec<Option<usize>>> {
    let before = problems.found.len();
    let cells = match parted(header, separator) {
        Ok(cells) => cells,
        Err(bad) => {
            problems.add(line, bad.column, bad.why, &needs());
            return None;
        }
    };
    let mut columns: Vec<Option<usize>> = Vec::with_capacity(cells.len());
    for Cell { text, column } in &cells {
        let known = COLUMNS.iter().position(|name| *name == text.to_lowercase());
        if known.is_some() && columns.contains(&known) {
            problems.add(line, *column, &format!("the column `{text}` is there twice"), "");
        } else if known.is_none() && !text.is_empty() {
            problems.add(
                line,
                *column,
                &format!("there is no column `{text}`"),
                &did_you_mean(text, "columns", &COLUMNS),
            );
        }
        columns.push(known);
    }
    if problems.found.len() > before {
        return None;
    }
    // Without the last column, the note, a table is still whole.
    let missing = (0..COLUMNS.len() - 1).find(|column| !columns.contains(&Some(*column)));
    if let Some(missing) = missing.and_then(|missing| COLUMNS.get(missing)) {
        problems.add(line, 1, &format!("there is no column `{missing}`"), &needs());
        return None;
    }
    Some(columns)
}

fn row(
    line: usize,
    source: &str,
    cells: Vec<Cell>,
    columns: &[Option<usize>],
    problems: &mut Problems<'_>,
) -> Option<RawRow> {
    let end = source.chars().count() + 1;
    let mut found: [Cell; 6] = std::array::from_fn(|_| Cell { text: String::new(), column: end });
    for (at, cell) in cells.into_iter().enumerate() {
        match columns.get(at).copied().flatten().and_then(|column| found.get_mut(column)) {
            Some(place) => *place = cell,
            None if cell.text.is_empty() => {}
            None => {
                let hint = "put a cell that holds a separator in quotes, or give its column no text";
                problems.add(line, cell.column, &format!("`{}` is in no column of the header", cell.text), hint);
                return None;
            }
        }
    }
    Some(RawRow { line, cells: found })
}
