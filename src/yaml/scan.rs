//! The first reading: the form of a text, whatever it is to fill.

use std::collections::BTreeSet;
use std::fmt;

use serde::de::{
    self, DeserializeSeed, Deserializer, EnumAccess, IgnoredAny, MapAccess, SeqAccess, VariantAccess, Visitor,
};

use super::file::too_long;
use super::{MAX_BYTES, YamlError, excerpt, syntax};

/// How deep `[` and `{` may nest: as deep as the second reading goes. The parser's time grows with its square.
const MAX_OPEN: usize = 128;

/// What a text may come to when aliases are followed: a byte for each byte of text, two for each value.
const MAX_SPENT: usize = 4 * MAX_BYTES;

/// Said by the visitor, understood by [`syntax::explain`].
pub const TOO_MUCH: &str = "aliases repeat too much";

/// Finds what is wrong with `text` as YAML, before any type is filled.
pub fn check(file: &str, text: &str) -> Result<(), YamlError> {
    if text.len() > MAX_BYTES {
        return Err(too_long(file));
    }
    characters(file, text)?;
    let mut spent = 0;
    Walk { spent: &mut spent }
        .deserialize(serde_yaml::Deserializer::from_str(text))
        .map_err(|error| syntax::explain(file, text, &error))
}

/// Finds characters that YAML does not allow (YAML 1.1, section 4.1.1) and brackets opened too often without an end.
fn characters(file: &str, text: &str) -> Result<(), YamlError> {
    let mut open = 0usize;
    for (number, line) in excerpt::lines(text).enumerate() {
        let is_comment = line.trim_start().starts_with('#');
        for (before, c) in line.chars().enumerate() {
            let error = |message: &str| YamlError::at(file, text, number + 1, before + 1, message);
            match c {
                '[' | '{' if !is_comment => open += 1,
                ']' | '}' if !is_comment => open = open.saturating_sub(1),
                '\t' => {}
                c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => {
                    return Err(error(&format!(
                        "there is a character here that YAML doesn't allow (U+{:04X})",
                        u32::from(c)
                    )));
                }
                _ => {}
            }
            if open > MAX_OPEN {
                return Err(error(&format!("more than {MAX_OPEN} brackets are open here")));
            }
        }
    }
    Ok(())
}

/// Walks through a value, counting it, and keeps nothing of it.
struct Walk<'a> {
    spent: &'a mut usize,
}

impl Walk<'_> {
    fn spend<E: de::Error>(&mut self, bytes: usize) -> Result<(), E> {
        *self.spent = self.spent.saturating_add(bytes).saturating_add(2);
        if *self.spent > MAX_SPENT { Err(E::custom(TOO_MUCH)) } else { Ok(()) }
    }
}

impl<'de> DeserializeSeed<'de> for Walk<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

/// Methods of a visitor for values that have no text worth counting.
macro_rules! small_values {
    ($($method:ident($value:ty)),+) => {
        $(fn $method<E: de::Error>(mut self, _: $value) -> Result<(), E> {
            self.spend(0)
        })+
    };
}

impl<'de> Visitor<'de> for Walk<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    small_values!(visit_bool(bool), visit_i64(i64), visit_u64(u64), visit_i128(i128), visit_u128(u128), visit_f64(f64));

    fn visit_str<E: de::Error>(mut self, text: &str) -> Result<(), E> {
        self.spend(text.len())
    }

    fn visit_unit<E: de::Error>(mut self) -> Result<(), E> {
        self.spend(0)
    }

    fn visit_none<E: de::Error>(mut self) -> Result<(), E> {
        self.spend(0)
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut list: A) -> Result<(), A::Error> {
        self.spend(0)?;
        while list.next_element_seed(Walk { spent: self.spent })?.is_some() {}
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut map: A) -> Result<(), A::Error> {
        self.spend(0)?;
        let mut seen = BTreeSet::new();
        while map.next_key_seed(Key { walk: Walk { spent: self.spent }, seen: &mut seen })?.is_some() {
            map.next_value_seed(Walk { spent: self.spent })?;
        }
        Ok(())
    }

    fn visit_enum<A: EnumAccess<'de>>(self, tagged: A) -> Result<(), A::Error> {
        let (_, value) = tagged.variant::<IgnoredAny>()?;
        value.newtype_variant_seed(self)
    }
}

/// Walks through a key and refuses it when the map has it already.
struct Key<'a> {
    walk: Walk<'a>,
    seen: &'a mut BTreeSet<String>,
}

impl<'de> DeserializeSeed<'de> for Key<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

/// Methods of a visitor for keys that are not text but can be written as one.
macro_rules! keys_as_text {
    ($($method:ident($value:ty)),+) => {
        $(fn $method<E: de::Error>(self, key: $value) -> Result<(), E> {
            self.visit_str(&key.to_string())
        })+
    };
}

impl<'de> Visitor<'de> for Key<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a key")
    }

    keys_as_text!(visit_bool(bool), visit_i64(i64), visit_u64(u64), visit_i128(i128), visit_u128(u128), visit_f64(f64));

    fn visit_str<E: de::Error>(mut self, key: &str) -> Result<(), E> {
        self.walk.spend(key.len())?;
        if self.seen.insert(key.to_owned()) { Ok(()) } else { Err(E::custom(format_args!("duplicate field `{key}`"))) }
    }

    fn visit_unit<E: de::Error>(self) -> Result<(), E> {
        self.visit_str("null")
    }

    fn visit_none<E: de::Error>(self) -> Result<(), E> {
        self.visit_str("null")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, list: A) -> Result<(), A::Error> {
        self.walk.visit_seq(list)
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<(), A::Error> {
        self.walk.visit_map(map)
    }

    fn visit_enum<A: EnumAccess<'de>>(self, tagged: A) -> Result<(), A::Error> {
        self.walk.visit_enum(tagged)
    }
}
