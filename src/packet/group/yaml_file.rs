//! A group as YAML.

use std::fmt;

use serde::de::{self, Deserialize, Deserializer, MapAccess, Visitor};

use super::check::{Checker, Known};
use super::{Child, Group, GroupError};
use crate::packet::plan::{FocusNames, StepName};
use crate::yaml::{self, YamlError};

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    #[serde(default)]
    title: String,
    children: Vec<Written>,
}

/// A child as written: a name, or a map.
struct Written(Child);

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Keys {
    name: Name,
    #[serde(default)]
    step: Option<StepName>,
    #[serde(default)]
    focus: Option<FocusNames>,
    #[serde(default)]
    words: Vec<String>,
    #[serde(default, alias = "leave_out")]
    leave_out: Vec<String>,
    #[serde(default, alias = "large_print")]
    large_print: bool,
    #[serde(default, alias = "left_hand")]
    left_hand: bool,
    #[serde(default)]
    set: Option<usize>,
    #[serde(default)]
    away: bool,
}

/// A name, which may look like a number.
struct Name(String);

impl<'de> Deserialize<'de> for Name {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Typed;
        impl Visitor<'_> for Typed {
            type Value = Name;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a name")
            }
            fn visit_str<E: de::Error>(self, name: &str) -> Result<Name, E> {
                Ok(Name(name.to_owned()))
            }
        }
        deserializer.deserialize_str(Typed)
    }
}

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct OneChild;
        impl<'de> Visitor<'de> for OneChild {
            type Value = Written;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a child's name, or a map with the key `name`")
            }
            fn visit_str<E: de::Error>(self, name: &str) -> Result<Written, E> {
                Ok(Written(Child { name: name.to_owned(), ..Child::default() }))
            }
            fn visit_u64<E: de::Error>(self, number: u64) -> Result<Written, E> {
                self.visit_str(&number.to_string())
            }
            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<Written, A::Error> {
                let keys = Keys::deserialize(de::value::MapAccessDeserializer::new(map))?;
                let Keys { name, step, focus, words, leave_out, large_print, left_hand, set, away } = keys;
                let name = name.0;
                Ok(Written(Child { name, step, focus, words, leave_out, large_print, left_hand, set, away }))
            }
        }
        deserializer.deserialize_any(OneChild)
    }
}

pub(super) fn read(file: &str, text: &str, known: &Known) -> Result<Group, GroupError> {
    let File { title, children } = yaml::from_str(file, text)?;
    let mut checker = Checker::new(known);
    for (at, Written(child)) in children.into_iter().enumerate() {
        checker.add(child, &|field, place, message| {
            let entry = place.map_or_else(String::new, |place| format!("[{place}]"));
            YamlError::in_file(file, text, &format!("children[{at}].{field}{entry}"), message)
        });
    }
    Ok(Group { title, children: checker.done(file).map_err(GroupError)? })
}
