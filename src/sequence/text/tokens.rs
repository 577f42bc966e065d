//! Cutting lines into words, and knowing where a sentence begins.

use unicode_segmentation::UnicodeSegmentation;

use super::contraction;
use super::fold::{fold, is_apostrophe, is_latin, is_unseen};

/// What a token is before anything is looked up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A word in Latin letters.
    Word,
    /// Something with a digit in it.
    Numeral,
    /// A single letter that is no word.
    Letter,
    /// A word in another script.
    OtherScript,
}

/// One word of a line.
#[derive(Clone, Debug)]
pub struct Token<'t> {
    /// As it stands in the text.
    pub text: &'t str,
    /// The spelling to look up.
    pub spelling: String,
    /// Where it begins, in characters from 1.
    pub column: usize,
    /// What it is.
    pub kind: Kind,
    /// Whether a sentence begins with it.
    pub opens: bool,
    /// Whether it begins with a capital and is not all of capitals.
    pub title_case: bool,
}

impl Token<'_> {
    /// Whether an unknown word is a name: by its capital where none is due, or a title.
    pub fn is_named(&self) -> bool {
        self.title_case && (!self.opens || is_title(&self.spelling))
    }

    /// The key under which it is counted: its spelling, apart from words when it is none.
    pub fn key(&self) -> String {
        match self.kind {
            Kind::Word => self.spelling.clone(),
            _ => self.text.to_owned(),
        }
    }
}

/// Titles before a name, after whose point no sentence begins.
fn is_title(spelling: &str) -> bool {
    matches!(spelling, "mr" | "mrs" | "ms" | "dr")
}

/// Cuts one line after the other.
#[derive(Debug)]
pub struct Scanner {
    opens: bool,
    after_title: bool,
}

impl Scanner {
    /// A scanner at the start of a text, where a sentence begins.
    pub const fn new() -> Self {
        Self { opens: true, after_title: false }
    }

    /// Calls `visit` with each word of a line, from left to right.
    pub fn line<'t>(&mut self, line: &'t str, visit: &mut impl FnMut(Token<'t>)) {
        if line.trim().is_empty() {
            self.opens = true;
        }
        let (mut end, mut column) = (0, 1);
        for (start, chunk) in line.unicode_word_indices() {
            let gap = &line[end..start];
            self.gap(gap, end == 0);
            column += gap.chars().count();
            self.chunk(&line[..start], chunk, column, visit);
            column += chunk.chars().count();
            end = start + chunk.len();
        }
        self.gap(&line[end..], end == 0);
    }

    /// Looks at the signs between two words for the start of a sentence.
    fn gap(&mut self, gap: &str, at_line_start: bool) {
        for c in gap.chars() {
            match c {
                '.' if self.after_title => {}
                '.' | '!' | '?' | '…' | ':' | '。' | '“' | '‘' | '„' | '‚' | '«' => self.opens = true,
                '•' | '·' | '*' | '-' | '–' | '—' | '#' | '>' if at_line_start => self.opens = true,
                _ => {}
            }
        }
        // A straight mark opens speech when it stands right before a word and does not follow one.
        let mut last = gap.chars().rev();
        if matches!(last.next(), Some('"' | '\'')) && (at_line_start || last.next().is_some()) {
            self.opens = true;
        }
    }

    /// Cuts what lies between word boundaries by Unicode (UAX #29), which joins more than words: `end.Then`, `e.g`, `a_b`.
    fn chunk<'t>(&mut self, before: &str, chunk: &'t str, column: usize, visit: &mut impl FnMut(Token<'t>)) {
        if chunk.chars().any(char::is_numeric) {
            self.give(chunk, chunk.to_owned(), column, Kind::Numeral, visit);
            return;
        }
        let parts = || chunk.split(|c| !in_word(c)).filter(|part| !part.is_empty());
        let initials = chunk.contains('.') && parts().all(|part| part.chars().filter(|c| !is_unseen(*c)).count() == 1);
        if initials {
            self.give(chunk, fold(chunk), column, Kind::Word, visit);
            return;
        }
        let mut mark = before.chars().next_back().is_some_and(is_apostrophe);
        let mut at = 0;
        let mut passed = 0;
        for part in parts() {
            let start = at + chunk[at..].find(part).unwrap_or_default();
            let between = &chunk[at..start];
            if between.contains('.') {
                self.opens = true;
            }
            passed += between.chars().count();
            self.part(part, std::mem::take(&mut mark), column + passed, visit);
            passed += part.chars().count();
            at = start + part.len();
        }
    }

    /// A part without signs other than apostrophes; `mark` says that an apostrophe stands right before it.
    fn part<'t>(&mut self, part: &'t str, mark: bool, column: usize, visit: &mut impl FnMut(Token<'t>)) {
        let mut spelling = fold(part);
        let kind = if part.chars().any(|c| c.is_alphabetic() && !is_latin(c)) {
            Kind::OtherScript
        } else if is_letter(&spelling) {
            Kind::Letter
        } else {
            Kind::Word
        };
        if mark && contraction::needs_mark(&spelling) {
            spelling.insert(0, '\'');
        }
        self.give(part, spelling, column, kind, visit);
    }

    fn give<'t>(
        &mut self,
        text: &'t str,
        spelling: String,
        column: usize,
        kind: Kind,
        visit: &mut impl FnMut(Token<'t>),
    ) {
        let mut letters = text.chars().filter(|c| c.is_alphabetic());
        let capital = letters.next().is_some_and(char::is_uppercase);
        let title_case = capital && letters.any(|c| !c.is_uppercase());
        self.after_title = is_title(&spelling);
        let opens = std::mem::take(&mut self.opens);
        visit(Token { text, spelling, column, kind, opens, title_case });
    }
}

fn in_word(c: char) -> bool {
    c.is_alphabetic() || is_apostrophe(c) || is_unseen(c)
}

/// A single letter, or more of them (*p's*), that is not the word *a* or *I*.
fn is_letter(spelling: &str) -> bool {
    let letter = spelling.strip_suffix("'s").unwrap_or(spelling);
    letter.len() == 1 && !matches!(letter, "a" | "i") || matches!(spelling, "a's" | "i's")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cut(text: &str) -> String {
        let mut scanner = Scanner::new();
        let mut found = Vec::new();
        for line in text.lines() {
            scanner.line(line, &mut |token| {
                let opens = if token.opens { "^" } else { "" };
                let kind = match token.kind {
                    Kind::Word => "",
                    Kind::Numeral => "#",
                    Kind::Letter => "=",
                    Kind::OtherScript => "~",
                };
                found.push(format!("{}{opens}{kind}{}", token.column, token.spelling));
            });
        }
        found.join(" ")
    }

    #[test]
    fn words_have_their_columns_in_characters() {
        for (text, expected) in [
            ("a dog", "1^a 3dog"),
            ("  “É” – dog", "4^=e 9dog"),
            ("犬 dog", "1^~犬 3dog"),
            ("ping-pong don’t", "1^ping 6pong 11don't"),
            ("end.Start", "1^end 5^start"),
            ("a_b", "1^a 3=b"),
            ("", ""),
            ("!? …", ""),
        ] {
            assert_eq!(cut(text), expected, "{text}");
        }
    }

    #[test]
    fn sentences_begin_where_a_reader_would_say_so() {
        for (text, expected) in [
            ("Sam ran. Sam hid", "1^sam 5ran 10^sam 14hid"),
            ("he said, “Sam” and “sat”", "1^he 4said 11^sam 16and 21^sat"),
            ("said \"Sam\" and", "1^said 7^sam 12and"),
            ("the dogs' bed", "1^the 5dogs 11bed"),
            ("Mr. Sam", "1^mr 5sam"),
            ("one\n\ntwo", "1^one 1^two"),
            ("one\ntwo", "1^one 1two"),
            ("one\n- two", "1^one 3^two"),
            ("1. Sam", "1^#1 4^sam"),
        ] {
            assert_eq!(cut(text), expected, "{text}");
        }
    }

    #[test]
    fn numerals_letters_and_marks() {
        for (text, expected) in [
            ("7 1,000 3.14 3rd ½", "1^#7 3#1,000 9#3.14 14#3rd 18#½"),
            ("b p's A I", "1^=b 3=p's 7a 9i"),
            ("U.S.A. fun", "1^u.s.a 8^fun"),
            ("get ’em 'til", "1^get 6'em 10^'til"),
            ("‘dog’", "2^dog"),
        ] {
            assert_eq!(cut(text), expected, "{text}");
        }
    }
}
