//! The line an error is in, with the place marked.

/// The most characters of a line that are shown.
const WIDTH: usize = 100;
/// How many of them stand before the place, at most, in a line too long to be shown whole.
const BEFORE: usize = 60;

/// The lines of a YAML text, by the breaks that YAML 1.1 has (section 4.2), which line numbers are counted by.
pub fn lines(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = Some(text);
    std::iter::from_fn(move || {
        let text = rest?;
        let is_break = |c| matches!(c, '\n' | '\r' | '\u{85}' | '\u{2028}' | '\u{2029}');
        let Some(at) = text.find(is_break) else {
            rest = None;
            return Some(text);
        };
        let (line, after) = text.split_at(at);
        let length = if after.starts_with("\r\n") { 2 } else { after.chars().next().map_or(0, char::len_utf8) };
        rest = after.get(length..);
        Some(line)
    })
}

/// The line numbered `line` with carets under what stands at `column`, both from 1; nothing when there is no such line.
pub fn excerpt(text: &str, line: usize, column: usize) -> Option<String> {
    let source = lines(text).nth(line.checked_sub(1)?)?;
    let before = column.checked_sub(1)?;
    let skipped = if source.chars().nth(WIDTH).is_some() { before.saturating_sub(BEFORE) } else { 0 };
    let mut shown: String = source.chars().skip(skipped).take(WIDTH).map(visible).collect();
    if source.chars().nth(skipped + WIDTH).is_some() {
        shown.push('…');
    }
    let lead = if skipped > 0 { "…" } else { "" };
    let indent =
        " ".repeat(before.min(source.chars().count()) - skipped.min(source.chars().count()) + lead.chars().count());
    let carets = "^".repeat(token_length(source, before).clamp(1, WIDTH - (before - skipped).min(WIDTH - 1)));
    let gutter = " ".repeat(line.to_string().len());
    let shown = format!("{lead}{shown}");
    Some(format!("{gutter} |\n{line} | {}\n{gutter} | {indent}{carets}", shown.trim_end()))
}

/// `line` and `column`, or, where nothing but blank lines is left from there on, the end of the last line that has something.
///
/// The parser finds what is missing at the end of a text only past that end.
pub fn within(text: &str, line: usize, column: usize) -> (usize, usize) {
    let filled = lines(text).enumerate().filter(|(_, line)| !line.trim().is_empty()).last();
    match filled {
        Some((last, source)) if line > last + 1 => (last + 1, source.trim_end().chars().count() + 1),
        Some(_) => (line, column),
        None => (1, 1),
    }
}

/// A tab as an arrow, so that it can be told from spaces, and other signs that would move the caret as a box.
fn visible(c: char) -> char {
    match c {
        '\t' => '→',
        c if c.is_control() => '\u{fffd}',
        c => c,
    }
}

/// How many characters the key, word or quoted text has that begins after `before` characters of `line`.
fn token_length(line: &str, before: usize) -> usize {
    let mut rest = line.chars().skip(before).peekable();
    match rest.next() {
        Some(quote @ ('"' | '\'')) => 1 + rest.position(|c| c == quote).map_or(0, |at| at + 1),
        None | Some('[' | ']' | '{' | '}' | ',' | ';' | ':' | '\t') => 1,
        Some(_) => {
            let mut length = 1;
            while let Some(c) = rest.next() {
                let ends_key = c == ':' && rest.peek().is_none_or(|next| next.is_whitespace());
                // Cells of tables may be parted by semicolons.
                if c.is_whitespace() || matches!(c, ',' | ';' | ']' | '}') || ends_key {
                    break;
                }
                length += 1;
            }
            length
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{excerpt, lines, within};

    fn of(text: &str, line: usize, column: usize) -> String {
        excerpt(text, line, column).unwrap_or_default()
    }

    #[test]
    fn lines_end_where_yaml_ends_them() {
        let found: Vec<&str> = lines("a\r\nb\rc\u{85}d\u{2028}e\n\nf\n").collect();
        assert_eq!(found, ["a", "b", "c", "d", "e", "", "f", ""]);
        assert_eq!(lines("").collect::<Vec<_>>(), [""]);
    }

    #[test]
    fn the_word_at_the_place_is_marked() {
        assert_eq!(of("a: 1\n  colums: 2\n", 2, 3), "  |\n2 |   colums: 2\n  |   ^^^^^^");
        assert_eq!(of("a: [one, two]", 1, 5), "  |\n1 | a: [one, two]\n  |     ^^^");
        assert_eq!(of("a: 'one two' # x", 1, 4), "  |\n1 | a: 'one two' # x\n  |    ^^^^^^^^^");
        assert_eq!(of("a: {b: 1}", 1, 4), "  |\n1 | a: {b: 1}\n  |    ^");
        assert_eq!(of("é: 10:30", 1, 4), "  |\n1 | é: 10:30\n  |    ^^^^^");
    }

    #[test]
    fn the_margin_widens_with_the_number() {
        let text = "\n".repeat(11) + "gap: x";
        assert_eq!(of(&text, 12, 6), "   |\n12 | gap: x\n   |      ^");
    }

    #[test]
    fn tabs_are_shown_and_keep_the_column() {
        assert_eq!(of("\tgap: 1", 1, 1), "  |\n1 | →gap: 1\n  | ^");
    }

    #[test]
    fn a_long_line_is_cut_around_the_place() {
        let text = "x".repeat(300) + " colums: 2 " + &"y".repeat(300);
        let cut = of(&text, 1, 302);
        let rows: Vec<&str> = cut.lines().collect();
        let caret = rows[2].chars().position(|c| c == '^').unwrap_or(0);
        assert_eq!(rows[1].chars().skip(caret).take(6).collect::<String>(), "colums");
        assert!(rows[1].chars().count() < 110 && rows[1].ends_with('…'));
    }

    #[test]
    fn a_place_that_is_not_there_is_no_excerpt_or_the_end_of_the_line() {
        assert_eq!(excerpt("a", 2, 1), None);
        assert_eq!(excerpt("a", 0, 1), None);
        assert_eq!(excerpt("a", 1, 0), None);
        assert_eq!(of("a", 1, 900), "  |\n1 | a\n  |  ^");
    }

    #[test]
    fn a_place_past_the_end_is_the_end() {
        assert_eq!(within("a: 1\nbc: [ \n\n", 4, 1), (2, 6));
        assert_eq!(within("a: 1\nbc: [", 3, 1), (2, 6));
        assert_eq!(within("a: 1\nbc: [", 2, 5), (2, 5));
        assert_eq!(within("\n", 2, 1), (1, 1));
    }

    proptest! {
        #[test]
        fn any_place_of_any_text_is_three_rows(text: String, line in 0usize..5, column in 0usize..400) {
            if let Some(excerpt) = excerpt(&text, line, column) {
                prop_assert_eq!(excerpt.matches('\n').count(), 2);
                prop_assert!(excerpt.chars().count() < 400);
            }
        }
    }
}
