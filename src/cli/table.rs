//! Tables in plain text.

/// Columns padded to the same width, two blanks apart; the last one is not padded.
#[must_use]
pub fn table(rows: &[Vec<String>]) -> String {
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let width =
        |column: usize| rows.iter().filter_map(|row| row.get(column)).map(|cell| shown(cell)).max().unwrap_or(0);
    let widths: Vec<usize> = (0..columns).map(width).collect();
    let mut text = String::new();
    for row in rows {
        let mut line = String::new();
        for (cell, width) in row.iter().zip(&widths) {
            line.push_str(cell);
            line.extend(std::iter::repeat_n(' ', width + 2 - shown(cell)));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
    text
}

/// How many columns of a terminal a text takes; the joining mark of `t͟h` takes none.
fn shown(text: &str) -> usize {
    text.chars().filter(|c| *c != '\u{35f}').count()
}

#[cfg(test)]
mod tests {
    use super::table;

    #[test]
    fn columns_line_up() {
        let row = |cells: [&str; 2]| cells.map(str::to_owned).to_vec();
        assert_eq!(table(&[row(["a", "b"]), row(["long", ""])]), "a     b\nlong\n");
        assert_eq!(table(&[]), "");
    }
}
