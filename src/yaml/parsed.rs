//! Values written as text that have rules of their own.

use std::fmt;
use std::marker::PhantomData;
use std::str::FromStr;

use serde::de::{self, Deserializer, Visitor};

/// Reads text and parses it, so that what the parser objects to is said at the place of the text.
///
/// For `#[serde(deserialize_with = "crate::yaml::parsed")]`. A message of more than one line, the second beginning with
/// `help: `, becomes message and hint. In YAML a number counts as the text it is written as.
///
/// # Errors
/// When the value is not text, or `T` refuses it.
pub fn parsed<'de, D, T>(deserializer: D) -> Result<T, D::Error>
where
    D: Deserializer<'de>,
    T: FromStr<Err: fmt::Display>,
{
    struct Parse<T>(PhantomData<T>);
    impl<T: FromStr<Err: fmt::Display>> Visitor<'_> for Parse<T> {
        type Value = T;

        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("a string")
        }

        fn visit_str<E: de::Error>(self, text: &str) -> Result<T, E> {
            text.parse().map_err(E::custom)
        }
    }
    deserializer.deserialize_str(Parse(PhantomData))
}
