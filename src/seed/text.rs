//! The seed as it is typed and printed.

use std::fmt;
use std::str::FromStr;

use serde::de::{self, Deserializer, Visitor};
use serde::{Deserialize, Serialize};

/// A short text that, with the request, decides every choice on every page.
///
/// Spaces at the ends are dropped and runs of white space within become one space, so that a seed copied from paper need not
/// be spaced as it was. Nothing else is changed: `Otter` and `otter` are two seeds.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(transparent)]
pub struct Seed(String);

impl Seed {
    /// The longest seed, in characters: one line of a page's footer.
    pub const MAX_CHARS: usize = 60;

    /// A seed from what was typed.
    ///
    /// # Errors
    /// When nothing is left after trimming, when more than [`Seed::MAX_CHARS`] characters are left, or when a character is a
    /// control character or can't be seen: the seed is printed on the page and must be typed from it again.
    pub fn new(typed: &str) -> Result<Self, SeedError> {
        let text = typed.split_whitespace().collect::<Vec<_>>().join(" ");
        if text.is_empty() {
            return Err(SeedError::Empty);
        }
        if let Some(found) = text.chars().find(|&c| unseen(c)) {
            return Err(SeedError::Unprintable { code: found.into() });
        }
        let chars = text.chars().count();
        if chars > Self::MAX_CHARS {
            return Err(SeedError::TooLong { chars });
        }
        Ok(Self(text))
    }

    /// The seed's text.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// A seed from text that is known to be good.
    pub(super) fn trusted(text: String) -> Self {
        Self(text)
    }
}

/// Whether `c` leaves no mark on paper, or turns the direction of the text around it.
fn unseen(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{ad}' | '\u{61c}' | '\u{180e}' | '\u{feff}')
        || matches!(c, '\u{200b}'..='\u{200f}' | '\u{202a}'..='\u{202e}' | '\u{2060}'..='\u{206f}')
        || matches!(c, '\u{fff9}'..='\u{fffb}' | '\u{e0000}'..='\u{e007f}')
}

impl fmt::Display for Seed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl FromStr for Seed {
    type Err = SeedError;

    fn from_str(typed: &str) -> Result<Self, SeedError> {
        Self::new(typed)
    }
}

impl schemars::JsonSchema for Seed {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "seed".into()
    }

    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({"description": "Any text of at most 60 characters.", "type": ["string", "number"]})
    }
}

/// Read as text, whatever it looks like: in YAML `seed: 007` is the seed `007`.
impl<'de> Deserialize<'de> for Seed {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Typed;
        impl Visitor<'_> for Typed {
            type Value = Seed;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a string")
            }

            fn visit_str<E: de::Error>(self, typed: &str) -> Result<Seed, E> {
                Seed::new(typed).map_err(E::custom)
            }
        }
        deserializer.deserialize_str(Typed)
    }
}

/// Why a text can't be a seed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SeedError {
    /// Nothing but white space.
    #[error("the seed is empty")]
    Empty,
    /// Longer than [`Seed::MAX_CHARS`].
    #[error("the seed has {chars} characters; the most is {max}", max = Seed::MAX_CHARS)]
    TooLong {
        /// How many characters there are.
        chars: usize,
    },
    /// A character that can't be seen on paper.
    #[error("the seed has a character that can't be printed (U+{code:04X})")]
    Unprintable {
        /// The character's number in Unicode.
        code: u32,
    },
}

#[cfg(test)]
#[allow(clippy::expect_used, reason = "a test may stop at once")]
mod tests {
    use super::{Seed, SeedError};

    #[test]
    fn white_space_is_evened_out_and_nothing_else() {
        let seed = Seed::new("  Week\t 3 \n Ärger  ").expect("a seed");
        assert_eq!(seed.to_string(), "Week 3 Ärger");
        assert_eq!(Seed::new(seed.as_str()), Ok(seed));
        assert_ne!(Seed::new("Otter"), Seed::new("otter"));
    }

    #[test]
    fn what_a_footer_cannot_show_is_refused() {
        assert_eq!(Seed::new(" \t\n"), Err(SeedError::Empty));
        assert_eq!(Seed::new("a\u{7}b"), Err(SeedError::Unprintable { code: 7 }));
        assert_eq!(Seed::new("a\u{200b}b"), Err(SeedError::Unprintable { code: 0x200b }));
        assert_eq!(Seed::new("a\u{202e}b"), Err(SeedError::Unprintable { code: 0x202e }));
    }

    #[test]
    fn length_is_in_characters_not_bytes() {
        assert!(Seed::new(&"é".repeat(60)).is_ok());
        assert_eq!(Seed::new(&"é".repeat(61)), Err(SeedError::TooLong { chars: 61 }));
    }

    #[test]
    fn json_text_is_checked_as_typed_text_is() {
        assert_eq!(serde_json::from_str::<Seed>("\" a  b \"").ok(), Seed::new("a b").ok());
        assert_eq!(serde_json::to_string(&Seed::new("a b").expect("a seed")).ok().as_deref(), Some("\"a b\""));
        assert!(serde_json::from_str::<Seed>("\"\"").is_err());
    }
}
