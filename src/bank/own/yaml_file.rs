//! Own words in YAML.

use std::fmt;

use serde::Deserialize;
use serde::de::{self, Deserializer, MapAccess, Visitor};

use super::check::{Checker, Field, Written};
use super::{OwnWords, OwnWordsError};
use crate::bank::Bank;
use crate::yaml::{self, YamlError};

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    add: Vec<Entry>,
    #[serde(default, rename = "leave-out")]
    leave_out: Vec<String>,
}

/// `zed`, or `quokka: {sounds: …}`.
#[derive(Debug)]
struct Entry {
    spelling: String,
    body: Option<Body>,
}

#[derive(Debug, Default, Deserialize)]
#[serde(default, deny_unknown_fields)]
struct Body {
    sounds: Option<String>,
    band: Option<String>,
    classes: Vec<String>,
    categories: Vec<String>,
    flags: Vec<String>,
}

impl<'de> Deserialize<'de> for Entry {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Read;
        impl<'de> Visitor<'de> for Read {
            type Value = Entry;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a word, or a word with what belongs to it, such as `quokka: {sounds: K W AA1 K AH0}`")
            }

            fn visit_str<E: de::Error>(self, spelling: &str) -> Result<Entry, E> {
                Ok(Entry { spelling: spelling.to_owned(), body: None })
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Entry, A::Error> {
                let spelling: String =
                    map.next_key()?.ok_or_else(|| de::Error::custom("there is no word in these braces"))?;
                let body = map.next_value()?;
                if let Some(other) = map.next_key::<String>()? {
                    let message = format!(
                        "`{other}` stands beside `{spelling}`, and a word stands alone\nhelp: indent what belongs to `{spelling}` under it"
                    );
                    return Err(de::Error::custom(message));
                }
                Ok(Entry { spelling, body })
            }
        }
        deserializer.deserialize_any(Read)
    }
}

impl OwnWords {
    /// Reads own words from YAML text; `file_name` is only for messages, `bank` tells which words there are.
    ///
    /// The file has the lists `add` and `leave-out`, either of which may be left out. An entry of `add` is a word, or a word with
    /// `sounds` (CMUdict's codes), `band`, `classes`, `categories` and `flags`.
    ///
    /// # Errors
    /// When the text is not YAML of this form, or else all of: words not in small letters a–z or longer than 24 letters, words
    /// that are never used, words there twice; unknown tags; sounds that are wrong, or that are not given and not certain.
    pub fn from_yaml(file_name: &str, text: &str, bank: &Bank) -> Result<Self, OwnWordsError> {
        let file: Option<File> =
            yaml::from_str(file_name, text).map_err(|error| OwnWordsError { problems: vec![error] })?;
        let Some(file) = file else { return Ok(Self::default()) };
        let mut checker = Checker::new(bank);
        for (at, entry) in file.add.into_iter().enumerate() {
            let Entry { spelling, body } = entry;
            let Body { sounds, band, classes, categories, flags } = body.unwrap_or_default();
            let base = format!("add[{at}]");
            // A path parts keys by dots, so a wrong word with a dot in it is only looked for as an entry.
            let under = if spelling.contains(['.', '[']) { base.clone() } else { format!("{base}.{spelling}") };
            let written = Written { spelling, sounds, band, classes, categories, flags };
            checker.add(&written, &|field, message| {
                let path = match field {
                    Field::Spelling => under.clone(),
                    Field::Sounds => format!("{under}.sounds"),
                    Field::Band => format!("{under}.band"),
                    Field::Classes(entry) => format!("{under}.classes[{entry}]"),
                    Field::Categories(entry) => format!("{under}.categories[{entry}]"),
                    Field::Flags(entry) => format!("{under}.flags[{entry}]"),
                };
                YamlError::in_file(file_name, text, &path, message)
            });
        }
        for (at, spelling) in file.leave_out.iter().enumerate() {
            let path = format!("leave-out[{at}]");
            checker.leave_out(spelling, &|message| YamlError::in_file(file_name, text, &path, message));
        }
        checker.done(file_name)
    }
}
