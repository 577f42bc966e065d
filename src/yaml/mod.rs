//! Reading YAML, with errors that a teacher can act on.
//!
//! This is the only module that knows the YAML package. [`from_str`] and [`read_file`] fill any type that derives
//! `Deserialize`; what goes wrong comes back as one [`YamlError`] with file, line, column, the line itself, and a hint:
//!
//! ```
//! #[derive(Debug, serde::Deserialize)]
//! #[serde(deny_unknown_fields)]
//! struct Grid {
//!     columns: u8,
//!     gap: Option<u8>,
//! }
//!
//! let error = sheafling::yaml::from_str::<Grid>("layouts/mine.yaml", "gap: 4\ncolums: 2\n").unwrap_err();
//! assert_eq!(
//!     error.to_string(),
//!     "layouts/mine.yaml:2:1: there is no key `colums` here\n  |\n2 | colums: 2\n  | ^^^^^^\n\
//!      help: did you mean `columns`? The keys are: `columns`, `gap`."
//! );
//! ```
//!
//! A text is read twice. The first reading looks at its form alone: syntax, keys given twice, nesting, and how much there is
//! once aliases are followed. So the second, which fills the type, is bounded in time, memory and stack.
//!
//! # Types that keep positions
//! An error has the place of the innermost value being read when it was made. So:
//! - a check of one value belongs in a `Visitor` or in [`parsed`], not in `#[serde(try_from)]`, whose errors are made after
//!   the value was left and get the place of the map around it;
//! - `#[serde(untagged)]`, `#[serde(tag)]` and `#[serde(flatten)]` read into a buffer first, which has no places: for a list
//!   of named things use [`named_choice!`](crate::yaml::named_choice), which has them;
//! - a check that needs the whole file is made later and says where by [`YamlError::in_file`].
//!
//! Keys of a struct not known to it are errors only with `#[serde(deny_unknown_fields)]`.

mod choice;
mod error;
mod excerpt;
mod file;
mod hint;
mod locate;
mod parsed;
mod scan;
mod schema;
mod syntax;
#[cfg(test)]
mod tests;
mod wording;

use serde::de::DeserializeOwned;

#[doc(hidden)]
pub use choice::unknown_name;
pub use choice::{NamedChoice, deserialize_choice, named_choice};
pub use error::YamlError;
pub use file::{read_file, read_text};
pub use hint::did_you_mean;
pub use parsed::parsed;
pub use schema::{choice_schema, needs_nothing, schema_of, text_schema};

/// The longest text that is read, in bytes: 4 MiB.
pub const MAX_BYTES: usize = 4 << 20;

/// Fills a `T` from YAML text. `file_name` is only for messages. A byte order mark at the beginning is skipped.
///
/// # Errors
/// When the text is longer than [`MAX_BYTES`], is not one YAML document, gives a key twice in one map, nests deeper than 128,
/// comes to more than four times [`MAX_BYTES`] when its aliases are followed, or does not fit `T`.
pub fn from_str<T: DeserializeOwned>(file_name: &str, text: &str) -> Result<T, YamlError> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    scan::check(file_name, text)?;
    serde_yaml::from_str(text).map_err(|error| wording::explain(file_name, text, &error))
}
