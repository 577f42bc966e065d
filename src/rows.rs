//! Tables as CSV (RFC 4180), with places for messages.
//!
//! The first row that is not empty names the columns. Columns are parted by commas, or by semicolons or tabs when the first line
//! has no comma: so that a file which a spreadsheet saved in a country with decimal commas is read too.

use crate::yaml::{MAX_BYTES, YamlError, did_you_mean};

/// A table's text.
#[derive(Clone, Copy, Debug)]
pub struct Rows<'a> {
    file: &'a str,
    text: &'a str,
    delimiter: u8,
}

/// A row of cells.
#[derive(Clone, Debug)]
pub struct Row {
    start: usize,
    cells: csv::StringRecord,
}

/// The table's columns, and its rows without the first.
#[derive(Clone, Debug)]
pub struct Table<'a> {
    /// For each column of the file, which of the known columns it is.
    pub columns: Vec<Option<&'static str>>,
    /// The rows that are not empty.
    pub rows: Vec<Row>,
    source: Rows<'a>,
}

impl<'a> Rows<'a> {
    /// A table's text; `file` is only for messages. A byte order mark at the beginning is skipped.
    ///
    /// # Errors
    /// When the text is longer than [`MAX_BYTES`].
    pub fn new(file: &'a str, text: &'a str) -> Result<Self, YamlError> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        if text.len() > MAX_BYTES {
            return Err(YamlError::new(file, "this file is larger than 4 MiB, the most that is read"));
        }
        let first = text.lines().find(|line| !line.trim().is_empty()).unwrap_or_default();
        let delimiter = [b',', b';', b'\t'].into_iter().find(|&mark| first.bytes().any(|byte| byte == mark));
        Ok(Self { file, text, delimiter: delimiter.unwrap_or(b',') })
    }

    /// Reads the table. `known` are the columns that may be there, in any order; `needed` are those that must.
    ///
    /// # Errors
    /// When it is not CSV or empty, or a column is unknown, there twice or missing: everything that is wrong with the first row.
    pub fn table(self, known: &[&'static str], needed: &[&str]) -> Result<Table<'a>, Vec<YamlError>> {
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All)
            .delimiter(self.delimiter)
            .from_reader(self.text.as_bytes());
        let mut rows = Vec::new();
        for record in reader.records() {
            let cells = record.map_err(|error| vec![YamlError::new(self.file, &error.to_string())])?;
            let start = cells.position().map_or(0, |position| usize::try_from(position.byte()).unwrap_or(usize::MAX));
            let row = Row { start, cells };
            if let Some(at) = row.cells.iter().position(|cell| cell.contains(['\n', '\r'])) {
                let error = self.at(&row, at, "this cell goes on in the next line");
                return Err(vec![error.with_hint("close the quote that opens here, or take it away")]);
            }
            if !row.cells.iter().all(str::is_empty) {
                rows.push(row);
            }
        }
        if self.text.matches('"').count() % 2 == 1 {
            let before = &self.text[..self.text.rfind('"').unwrap_or_default()];
            let line = 1 + before.matches('\n').count();
            let column = 1 + before.rsplit('\n').next().map_or(0, |head| head.chars().count());
            let error = YamlError::at(self.file, self.text, line, column, "a quote opens here and is not closed");
            return Err(vec![error.with_hint("close it, or take it away")]);
        }
        let hint = format!("the first row names the columns: `{}`", known[..known.len().min(3)].join(","));
        if rows.is_empty() {
            return Err(vec![YamlError::new(self.file, "the table is empty").with_hint(&hint)]);
        }
        let first = rows.remove(0);
        let mut problems = Vec::new();
        let mut columns: Vec<Option<&'static str>> = Vec::new();
        for (at, name) in first.cells.iter().enumerate() {
            let plain = name.to_lowercase().replace([' ', '_'], "-");
            let column = known.iter().copied().find(|column| *column == plain);
            if column.is_some() && columns.contains(&column) {
                problems.push(self.at(&first, at, &format!("the column `{name}` is there twice")));
            } else if column.is_none() && !name.is_empty() {
                let hint = did_you_mean(&plain, "columns", known);
                problems.push(self.at(&first, at, &format!("there is no column `{name}`")).with_hint(&hint));
            }
            columns.push(column);
        }
        if problems.is_empty() {
            for missing in needed.iter().filter(|needed| !columns.contains(&Some(needed))) {
                problems.push(self.at(&first, 0, &format!("there is no column `{missing}`")).with_hint(&hint));
            }
        }
        if problems.is_empty() { Ok(Table { columns, rows, source: self }) } else { Err(problems) }
    }

    /// An error at a cell of a row.
    fn at(&self, row: &Row, cell: usize, message: &str) -> YamlError {
        let bytes = self.text.as_bytes();
        let mut byte = row.start.min(bytes.len());
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

impl Table<'_> {
    /// A cell by its column's name; `None` when the column is not there or the cell is empty.
    #[must_use]
    pub fn cell<'r>(&self, row: &'r Row, column: &str) -> Option<&'r str> {
        let at = self.place(column)?;
        row.cells.get(at).filter(|cell| !cell.is_empty())
    }

    /// The entries of a cell, which are parted by blanks, commas or semicolons.
    #[must_use]
    pub fn list(&self, row: &Row, column: &str) -> Vec<String> {
        let parts = self.cell(row, column).unwrap_or_default().split([' ', ',', ';']);
        parts.filter(|part| !part.is_empty()).map(str::to_owned).collect()
    }

    /// An error at a cell, or at the beginning of the row when there is no such column.
    #[must_use]
    pub fn at(&self, row: &Row, column: &str, message: &str) -> YamlError {
        self.source.at(row, self.place(column).unwrap_or_default(), message)
    }

    /// What is wrong with a row's form: cells beyond the last column, or in a column without a name.
    #[must_use]
    pub fn stray(&self, row: &Row) -> Vec<YamlError> {
        let cells = row.cells.iter().enumerate().filter(|(_, cell)| !cell.is_empty());
        let message = |(at, cell): (usize, &str)| match self.columns.get(at) {
            None => {
                let error = self.source.at(row, at, &format!("`{cell}` is in no column"));
                Some(error.with_hint("put a cell that has commas in it in quotes"))
            }
            Some(None) => Some(self.source.at(row, at, &format!("`{cell}` is in a column without a name"))),
            Some(Some(_)) => None,
        };
        cells.filter_map(message).collect()
    }

    fn place(&self, column: &str) -> Option<usize> {
        self.columns.iter().position(|known| *known == Some(column))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::Rows;

    const KNOWN: &[&str] = &["name", "step"];

    #[test]
    fn commas_semicolons_and_tabs_part_columns() {
        for text in ["name,step\nAda,3\n", "Name;Step\r\nAda;3\r\n", "\u{feff}name\tstep\n\nAda\t3\n"] {
            let table = Rows::new("g.csv", text).unwrap().table(KNOWN, &["name"]).unwrap();
            assert_eq!(table.rows.len(), 1, "{text:?}");
            assert_eq!(table.cell(&table.rows[0], "name"), Some("Ada"));
            assert_eq!(table.cell(&table.rows[0], "step"), Some("3"));
        }
    }

    #[test]
    fn errors_have_the_place_of_the_cell() {
        let text = "name,step\n\"A, B\",3\nC,4,5\n";
        let table = Rows::new("g.csv", text).unwrap().table(KNOWN, &[]).unwrap();
        let error = table.at(&table.rows[0], "step", "no");
        assert_eq!((error.line(), error.column()), (Some(2), Some(8)));
        let stray = table.stray(&table.rows[1]);
        assert_eq!((stray[0].line(), stray[0].column()), (Some(3), Some(5)));
        let wrong = Rows::new("g.csv", "nam,step,step\n").unwrap().table(KNOWN, &[]).unwrap_err();
        assert_eq!(wrong.len(), 2);
        assert!(wrong[0].to_string().contains("did you mean `name`?"), "{}", wrong[0]);
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(text in "(name|step|[,;\t\n\r\" ]|\\PC)*") {
            if let Ok(table) = Rows::new("g.csv", &text).unwrap().table(KNOWN, &[]) {
                for row in &table.rows {
                    let _ = (table.at(row, "step", "x").to_string(), table.stray(row));
                }
            }
        }
    }
}
