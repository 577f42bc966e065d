//! Texts with gaps to fill, and breaking them into lines.

use textwrap::core::Fragment;
use textwrap::wrap_algorithms::{Penalties, wrap_optimal_fit};

use super::area::Type;
use crate::page::Length;
use crate::sheet::Item;
use crate::sounds::Notation;

/// A text such as `{n}. {word}`: names in braces are filled from an item. `{{` and `}}` are braces.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Template {
    parts: Vec<Part>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
enum Part {
    Words(String),
    Name(String),
}

impl std::str::FromStr for Template {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let mut parts = Vec::new();
        let mut words = String::new();
        let mut rest = text;
        while let Some(at) = rest.find(['{', '}']) {
            words.push_str(&rest[..at]);
            let brace = &rest[at..=at];
            let after = &rest[at + 1..];
            if let Some(doubled) = after.strip_prefix(brace) {
                words.push_str(brace);
                rest = doubled;
                continue;
            }
            let Some((name, after)) = after.split_once('}').filter(|_| brace == "{") else {
                return Err(format!(
                    "`{text}` has a `{brace}` without its partner\nhelp: write a name in braces, such as {{word}}"
                ));
            };
            parts.push(Part::Words(std::mem::take(&mut words)));
            parts.push(Part::Name(name.trim().to_owned()));
            rest = after;
        }
        words.push_str(rest);
        parts.push(Part::Words(words));
        Ok(Self { parts })
    }
}

impl Template {
    /// The names in it.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.parts.iter().filter_map(|part| match part {
            Part::Name(name) => Some(name.as_str()),
            Part::Words(_) => None,
        })
    }

    /// A template of one name.
    #[must_use]
    pub fn of_name(name: &str) -> Self {
        Self { parts: vec![Part::Name(name.to_owned())] }
    }

    /// The text for an item; `number` is its number on the sheet. A name that the item has not is left empty.
    #[must_use]
    pub fn fill(&self, item: &Item, number: Option<usize>, notation: Notation) -> String {
        self.fill_with(|name| match name {
            "n" => number.map(|number| number.to_string()),
            other => item.text(other, notation),
        })
    }

    /// The text with names looked up by `find`.
    pub fn fill_with(&self, find: impl Fn(&str) -> Option<String>) -> String {
        let text = |part: &Part| match part {
            Part::Words(words) => words.clone(),
            Part::Name(name) => find(name).unwrap_or_default(),
        };
        self.parts.iter().map(text).collect()
    }
}

/// A word with the space after it, measured.
#[derive(Debug)]
struct Piece<'a> {
    word: &'a str,
    width: f64,
    space: f64,
}

impl Fragment for Piece<'_> {
    fn width(&self) -> f64 {
        self.width
    }
    fn whitespace_width(&self) -> f64 {
        self.space
    }
    fn penalty_width(&self) -> f64 {
        0.0
    }
}

/// Breaks a text into lines of at most `width`, as evenly as can be. A word wider than that gets a line of its own.
#[must_use]
pub fn wrap(text: &str, kind: Type, width: Length) -> Vec<String> {
    // Micrometres are whole numbers far below 2^53, so that the sums are exact.
    #[allow(clippy::cast_precision_loss, reason = "see above")]
    let number = |length: Length| (length.to_nm() / 1000) as f64;
    let space = number(kind.width(" "));
    let pieces: Vec<Piece<'_>> =
        text.split_whitespace().map(|word| Piece { word, width: number(kind.width(word)), space }).collect();
    // Widths are thousands of times those of characters, for which the default penalty of an overfull line is meant.
    let penalties = Penalties { overflow_penalty: 1_000_000_000_000, ..Penalties::new() };
    let lines = wrap_optimal_fit(&pieces, &[number(width)], &penalties);
    let join = |line: &[Piece<'_>]| line.iter().map(|piece| piece.word).collect::<Vec<_>>().join(" ");
    lines.map_or_else(|_| vec![text.to_owned()], |lines| lines.into_iter().map(join).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::page::Face;

    #[test]
    fn names_are_filled_and_braces_kept() {
        let fill =
            |text: &str| text.parse::<Template>().unwrap().fill_with(|name| (name == "word").then(|| "cat".into()));
        assert_eq!(fill("a {word}!"), "a cat!");
        assert_eq!(fill("{word}{word} {other}"), "catcat ");
        assert_eq!(fill("{{word}}"), "{word}");
        assert_eq!(fill(""), "");
        for wrong in ["{", "}", "{word", "a } b"] {
            assert!(wrong.parse::<Template>().is_err(), "{wrong}");
        }
    }

    #[test]
    fn lines_are_no_wider_than_asked() {
        let kind = Type::black(Face::Regular, Length::pt(14));
        let text = "Say each word. Write the letters for each sound in its own box.";
        let lines = wrap(text, kind, Length::mm(80));
        assert!(lines.len() > 1);
        assert!(lines.iter().all(|line| kind.width(line) <= Length::mm(80)));
        assert_eq!(lines.join(" "), text);
        assert!(wrap("", kind, Length::mm(80)).concat().is_empty());
    }
}
