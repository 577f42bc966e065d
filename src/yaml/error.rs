//! What was wrong in a file, and where.

use std::fmt;

use super::excerpt::{excerpt, within};
use super::locate::locate;

/// The longest message or hint, in characters; what a file holds may be quoted in it.
const MAX_CHARS: usize = 600;

/// One thing wrong in one file, with its place when it is known.
///
/// `Display` gives `file:line:column: message`, then the line with the place marked, then the hint; no newline at the end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct YamlError {
    file: String,
    place: Option<(usize, usize)>,
    message: String,
    hint: Option<String>,
    excerpt: Option<String>,
}

impl YamlError {
    /// An error of the file as a whole.
    #[must_use]
    pub fn new(file: &str, message: &str) -> Self {
        Self { file: one_line(file), place: None, message: one_line(message), hint: None, excerpt: None }
    }

    /// An error at a place of `text`, which is the file's: `line` and `column` count from 1, the column in characters.
    /// A place after the last line that has something is taken as the end of that line.
    #[must_use]
    pub fn at(file: &str, text: &str, line: usize, column: usize, message: &str) -> Self {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let (line, column) = within(text, line, column);
        Self { place: Some((line, column)), excerpt: excerpt(text, line, column), ..Self::new(file, message) }
    }

    /// An error about the key that `path` names, for checks made after reading.
    ///
    /// A path is as `page[2].grid.columns`: keys, and places in lists counted from 0. A key alone need not be at the top of
    /// the file: the first of that name anywhere is taken. When the end of the path is not in the file, as with a key that
    /// is left out, the place is that of the last part which is; when there is none, the error has no place.
    #[must_use]
    pub fn in_file(file: &str, text: &str, path: &str, message: &str) -> Self {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        match locate(text, path) {
            Some((line, column)) => Self::at(file, text, line, column, message),
            None => Self::new(file, message),
        }
    }

    /// The same error with what to do about it.
    #[must_use]
    pub fn with_hint(self, hint: &str) -> Self {
        Self { hint: Some(one_line(hint)), ..self }
    }

    /// The file's name as it was given.
    #[must_use]
    pub fn file(&self) -> &str {
        &self.file
    }

    /// The line, from 1.
    #[must_use]
    pub fn line(&self) -> Option<usize> {
        self.place.map(|(line, _)| line)
    }

    /// The column in characters, from 1.
    #[must_use]
    pub fn column(&self) -> Option<usize> {
        self.place.map(|(_, column)| column)
    }

    /// What is wrong, in one line.
    #[must_use]
    pub fn message(&self) -> &str {
        &self.message
    }

    /// What to do about it, in one line.
    #[must_use]
    pub fn hint(&self) -> Option<&str> {
        self.hint.as_deref()
    }
}

impl fmt::Display for YamlError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.file)?;
        if let Some((line, column)) = self.place {
            write!(f, ":{line}:{column}")?;
        }
        write!(f, ": {}", self.message)?;
        if let Some(excerpt) = &self.excerpt {
            write!(f, "\n{excerpt}")?;
        }
        if let Some(hint) = &self.hint {
            write!(f, "\nhelp: {hint}")?;
        }
        Ok(())
    }
}

impl std::error::Error for YamlError {}

/// `text` without anything that could break the line or steer a terminal, and not endless.
fn one_line(text: &str) -> String {
    let mut line = String::new();
    for (count, c) in text.chars().enumerate() {
        if count == MAX_CHARS {
            line.push('…');
            break;
        }
        if c.is_control() || matches!(c, '\u{2028}' | '\u{2029}') {
            line.extend(c.escape_default());
        } else {
            line.push(c);
        }
    }
    line
}

#[cfg(test)]
mod tests {
    use super::YamlError;

    #[test]
    fn an_error_of_the_whole_file_is_one_line() {
        let error = YamlError::new("a.yaml", "the file is empty");
        assert_eq!(error.to_string(), "a.yaml: the file is empty");
        assert_eq!((error.line(), error.column(), error.hint()), (None, None, None));
    }

    #[test]
    fn a_later_check_points_at_the_key() {
        let text = "title: Grid\npage:\n  - title\n  - grid:\n      columns: 40\n";
        let error = YamlError::in_file("a.yaml", text, "page[1].grid.columns", "40 columns don't fit on the page")
            .with_hint("the most for this paper is 12");
        assert_eq!(
            error.to_string(),
            "a.yaml:5:7: 40 columns don't fit on the page\n  \
               |\n\
             5 |       columns: 40\n  \
               |       ^^^^^^^\n\
             help: the most for this paper is 12"
        );
    }

    #[test]
    fn what_a_file_holds_cannot_break_the_message() {
        let error = YamlError::new("a.yaml", "there is no key `a\n\u{1b}[31m` here").with_hint(&"x".repeat(5000));
        assert_eq!(error.message(), "there is no key `a\\n\\u{1b}[31m` here");
        assert!(error.to_string().len() < 800);
    }
}
