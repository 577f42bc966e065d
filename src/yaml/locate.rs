//! Where a key stands in a text that was read before.
//!
//! The parser tells a place only with an error. So the way to the key is walked, and on arrival an error is made.

use std::fmt;

use serde::de::{self, DeserializeSeed, Deserializer, IgnoredAny, MapAccess, SeqAccess, Visitor};

/// One step on a path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Step<'a> {
    Key(&'a str),
    Entry(usize),
}

/// The line and column, from 1, of what `path` leads to, or of the last part of it that is there.
///
/// A path of one key that is not at the top is looked for in the whole text.
pub fn locate(text: &str, path: &str) -> Option<(usize, usize)> {
    let steps = steps(path);
    if let Some(place) = find(text, Goal::Path(&steps)) {
        return Some(place);
    }
    if let [Step::Key(key)] = steps[..] {
        return find(text, Goal::Anywhere(key));
    }
    (1..steps.len()).rev().find_map(|length| find(text, Goal::Path(&steps[..length])))
}

/// The steps of `page[2].grid`.
fn steps(path: &str) -> Vec<Step<'_>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let (key, entries) = part.find('[').map_or((part, ""), |at| part.split_at(at));
        if !key.is_empty() {
            steps.push(Step::Key(key));
        }
        let numbers = entries.split(['[', ']']).filter_map(|number| number.parse().ok());
        steps.extend(numbers.map(Step::Entry));
    }
    steps
}

fn find(text: &str, goal: Goal<'_>) -> Option<(usize, usize)> {
    let error = goal.deserialize(serde_yaml::Deserializer::from_str(text)).err()?;
    let place = error.location()?;
    error.to_string().contains(ARRIVED).then_some((place.line(), place.column()))
}

/// The text of the error on arrival.
const ARRIVED: &str = "\u{1}arrived\u{1}";

/// What is looked for in the value at hand.
#[derive(Clone, Copy)]
enum Goal<'a> {
    Path(&'a [Step<'a>]),
    Anywhere(&'a str),
}

impl<'de> DeserializeSeed<'de> for Goal<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_any(self)
    }
}

/// Methods of a visitor for values that hold nothing.
macro_rules! dead_ends {
    ($($method:ident($value:ty)),+) => {
        $(fn $method<E: de::Error>(self, _: $value) -> Result<(), E> {
            self.arrive()
        })+
    };
}

impl Goal<'_> {
    /// An error when this value is what is looked for.
    fn arrive<E: de::Error>(self) -> Result<(), E> {
        if matches!(self, Goal::Path([])) { Err(E::custom(ARRIVED)) } else { Ok(()) }
    }
}

impl<'de> Visitor<'de> for Goal<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a value")
    }

    dead_ends!(visit_bool(bool), visit_i64(i64), visit_u64(u64), visit_i128(i128), visit_u128(u128));
    dead_ends!(visit_f64(f64), visit_str(&str));

    fn visit_unit<E: de::Error>(self) -> Result<(), E> {
        self.arrive()
    }

    fn visit_none<E: de::Error>(self) -> Result<(), E> {
        self.arrive()
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<(), A::Error> {
        self.arrive()?;
        let mut at = 0;
        loop {
            let found = match self {
                Goal::Path([Step::Entry(entry), rest @ ..]) if *entry == at => {
                    list.next_element_seed(Goal::Path(rest))?
                }
                Goal::Path(_) => list.next_element::<IgnoredAny>()?.map(|_| ()),
                Goal::Anywhere(_) => list.next_element_seed(self)?,
            };
            if found.is_none() {
                return Ok(());
            }
            at += 1;
        }
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<(), A::Error> {
        self.arrive()?;
        while let Some(is_key) = map.next_key_seed(KeySought(self))? {
            match self {
                Goal::Path([_, rest @ ..]) if is_key => map.next_value_seed(Goal::Path(rest))?,
                Goal::Path(_) => drop(map.next_value::<IgnoredAny>()?),
                Goal::Anywhere(_) => map.next_value_seed(self)?,
            }
        }
        Ok(())
    }

    fn visit_enum<A: de::EnumAccess<'de>>(self, tagged: A) -> Result<(), A::Error> {
        let (_, value) = tagged.variant::<IgnoredAny>()?;
        de::VariantAccess::newtype_variant_seed(value, self)
    }
}

/// Tells whether a key is the next of the path; arrives when it is the last, or is the one looked for anywhere.
struct KeySought<'a>(Goal<'a>);

impl<'de> DeserializeSeed<'de> for KeySought<'_> {
    type Value = bool;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<bool, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for KeySought<'_> {
    type Value = bool;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a key")
    }

    fn visit_str<E: de::Error>(self, key: &str) -> Result<bool, E> {
        let (sought, is_last) = match self.0 {
            Goal::Path([Step::Key(sought), rest @ ..]) => (*sought, rest.is_empty()),
            Goal::Anywhere(sought) => (sought, true),
            Goal::Path(_) => return Ok(false),
        };
        if sought == key && is_last { Err(E::custom(ARRIVED)) } else { Ok(sought == key) }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::locate;

    const TEXT: &str = "\
# gap: here it is only spoken of
title: 'gap: 1'
page:
  - title
  - grid:
      columns: 2
      gap: 4
  - grid: {gap: 5, columns: 3}
key: {columns: 1}
";

    #[test]
    fn a_path_is_followed() {
        assert_eq!(locate(TEXT, "title"), Some((2, 1)));
        assert_eq!(locate(TEXT, "page[1].grid.gap"), Some((7, 7)));
        assert_eq!(locate(TEXT, "page[2].grid.columns"), Some((8, 20)));
        assert_eq!(locate(TEXT, "page[0]"), Some((4, 5)));
        assert_eq!(locate(TEXT, "key.columns"), Some((9, 7)));
    }

    #[test]
    fn a_key_alone_is_found_wherever_it_first_stands() {
        assert_eq!(locate(TEXT, "gap"), Some((7, 7)));
        assert_eq!(locate(TEXT, "columns"), Some((6, 7)));
        assert_eq!(locate(TEXT, "key"), Some((9, 1)));
        assert_eq!(locate(TEXT, "rows"), None);
    }

    #[test]
    fn what_is_left_out_is_looked_for_where_it_would_be() {
        assert_eq!(locate(TEXT, "page[1].grid.rows"), Some((5, 5)));
        assert_eq!(locate(TEXT, "page[7].grid"), Some((3, 1)));
        assert_eq!(locate(TEXT, "fill.words"), None);
    }

    proptest! {
        #[test]
        fn any_path_into_any_text_is_some_place_or_none(text: String, path: String) {
            let _ = locate(&text, &path);
            let _ = locate(TEXT, &path);
        }
    }
}
