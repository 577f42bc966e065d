//! Cells of a table: parting a line into cells, and cells that a spreadsheet would take for a formula.
//!
//! A spreadsheet computes a cell that begins with `=`, `+`, `-` or `@`, even in a CSV file that came from elsewhere. So such a
//! cell is written with an apostrophe before it, which makes it text (the usual advice against CSV injection), and one
//! apostrophe there is taken away when it is read: `-nd` is written `'-nd` and read as `-nd`, with the apostrophe or without.

/// The separators of cells that are known: commas, semicolons where a comma is the decimal sign, and tabs.
pub const SEPARATORS: [char; 3] = [',', ';', '\t'];

/// Whether a spreadsheet would take a text for a formula. The wide forms count too: some spreadsheets narrow them.
fn is_formula(text: &str) -> bool {
    text.starts_with(['=', '+', '-', '@', '\t', '\r', '＝', '＋', '－', '＠'])
}

/// A text as it is written into a cell.
#[must_use]
pub fn guarded(text: &str) -> String {
    if is_formula(text.trim_start_matches('\'')) { format!("'{text}") } else { text.to_owned() }
}

/// The text of a cell as it was before [`guarded`].
#[must_use]
pub fn unguarded(cell: &str) -> &str {
    match cell.strip_prefix('\'') {
        Some(text) if is_formula(cell.trim_start_matches('\'')) => text,
        _ => cell,
    }
}

/// A line of cells parted by `separator`, guarded and quoted where it is needed, without a line end.
#[must_use]
pub fn joined<'a>(cells: impl IntoIterator<Item = &'a str>, separator: char) -> String {
    let cell = |text: &str| {
        let text = guarded(text);
        let quoted = text.contains([separator, '"', '\n', '\r']) || text.trim() != text;
        if quoted { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
    };
    cells.into_iter().map(cell).collect::<Vec<_>>().join(&separator.to_string())
}

/// A cell of a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cell {
    /// Its text, with no blanks at either end and one where there were more.
    pub text: String,
    /// In which column of characters it begins, from 1.
    pub column: usize,
}

/// Why a line can't be parted into cells: the column of characters, from 1, and what is wrong there.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BadLine {
    /// The column of characters, from 1.
    pub column: usize,
    /// What is wrong.
    pub why: &'static str,
}

/// Parts one line into cells. A cell may stand in quotes, with `""` for a quote in it; it ends on its line.
///
/// Stricter than a general reader of CSV: a quote that is not closed would swallow the rows after it without a word.
///
/// # Errors
/// A quote that is not closed, or something between a closing quote and the next separator.
pub fn parted(line: &str, separator: char) -> Result<Vec<Cell>, BadLine> {
    let mut cells = Vec::new();
    let mut chars = line.chars().enumerate().peekable();
    loop {
        while chars.next_if(|(_, c)| *c == ' ' && *c != separator).is_some() {}
        let start = chars.peek().map_or(line.chars().count(), |(at, _)| *at);
        let mut text = String::new();
        if chars.next_if(|(_, c)| *c == '"').is_some() {
            loop {
                match chars.next() {
                    Some((_, '"')) if chars.next_if(|(_, c)| *c == '"').is_some() => text.push('"'),
                    Some((_, '"')) => break,
                    Some((_, c)) => text.push(c),
                    None => return Err(BadLine { column: start + 1, why: "a quote opens here and is not closed" }),
                }
            }
            while chars.next_if(|(_, c)| *c == ' ' && *c != separator).is_some() {}
            if let Some((at, _)) = chars.next_if(|(_, c)| *c != separator) {
                return Err(BadLine { column: at + 1, why: "this stands after a closing quote" });
            }
        } else {
            while let Some((_, c)) = chars.next_if(|(_, c)| *c != separator) {
                text.push(c);
            }
        }
        let text = unguarded(text.trim()).split_whitespace().collect::<Vec<_>>().join(" ");
        cells.push(Cell { text, column: start + 1 });
        if chars.next().is_none() {
            return Ok(cells);
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn texts(line: &str, separator: char) -> Vec<String> {
        parted(line, separator).unwrap().into_iter().map(|cell| cell.text).collect()
    }

    #[test]
    fn cells_are_found_with_their_columns() {
        let found = parted("Ana; \"a \"\"b\"\"; c\" ;;é", ';').unwrap();
        let pairs: Vec<_> = found.iter().map(|cell| (cell.text.as_str(), cell.column)).collect();
        assert_eq!(pairs, [("Ana", 1), ("a \"b\"; c", 6), ("", 20), ("é", 21)]);
        assert_eq!(texts("a\t\tb", '\t'), ["a", "", "b"]);
        assert_eq!(texts("", ','), [""]);
        assert_eq!(texts("5\" long,x", ','), ["5\" long", "x"]);
        assert_eq!(parted("a,\"b", ',').unwrap_err().column, 3);
        assert_eq!(parted("a,\"b\" c", ',').unwrap_err().column, 7);
    }

    #[test]
    fn formulas_are_made_text() {
        for (text, cell) in [
            ("=1+1", "'=1+1"),
            ("-nd", "'-nd"),
            ("@x", "'@x"),
            ("+1", "'+1"),
            ("'=x", "''=x"),
            ("＝x", "'＝x"),
            ("'tis", "'tis"),
            ("a=b", "a=b"),
            ("", ""),
        ] {
            assert_eq!(guarded(text), cell);
            assert_eq!(unguarded(cell), text);
        }
        assert_eq!(unguarded("-nd"), "-nd");
    }

    proptest! {
        #[test]
        fn what_is_written_is_read_again(cells in prop::collection::vec("[^\\p{C}]{0,12}|['=+@,;\" -]{0,5}", 1..6), at in 0usize..3) {
            let plain: Vec<String> =
                cells.iter().map(|cell| cell.split_whitespace().collect::<Vec<_>>().join(" ")).collect();
            let line = joined(plain.iter().map(String::as_str), SEPARATORS[at]);
            prop_assert_eq!(texts(&line, SEPARATORS[at]), plain);
            let formula = |cell: &String| cell.starts_with(['=', '+', '-', '@']);
            prop_assert!(!texts_raw(&line, SEPARATORS[at]).iter().any(formula), "{}", line);
        }

        #[test]
        fn any_line_is_parted_or_refused(line in "\\PC{0,40}|[\",;' =\\t]{0,20}", at in 0usize..3) {
            if let Err(bad) = parted(&line, SEPARATORS[at]) {
                prop_assert!(bad.column <= line.chars().count());
            }
        }
    }

    /// The cells as a spreadsheet gets them, by a general reader.
    fn texts_raw(line: &str, separator: char) -> Vec<String> {
        let delimiter = u8::try_from(separator).unwrap();
        let mut reader = csv::ReaderBuilder::new().has_headers(false).delimiter(delimiter).from_reader(line.as_bytes());
        reader.records().flat_map(|record| record.unwrap().iter().map(str::to_owned).collect::<Vec<_>>()).collect()
    }
}
