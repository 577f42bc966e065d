//! Lists of named things: `- title`, `- grid: {columns: 2}`.

use std::fmt;
use std::iter;
use std::marker::PhantomData;

use serde::de::value::MapDeserializer;
use serde::de::{self, DeserializeSeed, Deserializer, MapAccess, Visitor};

/// An enum whose variants go by names in a file and hold what stands under the name.
///
/// Made by [`named_choice!`](crate::yaml::named_choice).
pub trait NamedChoice: Sized {
    /// What one of them is called, in the singular, such as `block`.
    const NOUN: &'static str;
    /// The names, in the order of the variants.
    const NAMES: &'static [&'static str];

    /// The name of this one.
    fn name(&self) -> &'static str;

    /// The variant called `name`, filled from `value`.
    ///
    /// # Errors
    /// When no variant has that name, or its value doesn't fit.
    fn read<'de, D: Deserializer<'de>>(name: &str, value: D) -> Result<Self, D::Error>;
}

/// Declares an enum that is read from a name, or from a map with the name as its only key.
///
/// Each variant holds one type, which is filled from what stands under the name. The name alone stands for the name with no
/// keys under it, so a type whose keys all have defaults can be written as its name. An unknown name is said at its place
/// with the nearest known one; an unknown key within is said at its own.
///
/// ```
/// use schemars::JsonSchema;
/// use serde::Deserialize;
/// use sheafling::yaml::{from_str, named_choice};
///
/// #[derive(Debug, Default, PartialEq, Deserialize, JsonSchema)]
/// #[serde(default, deny_unknown_fields)]
/// struct Title {
///     size: u8,
/// }
///
/// #[derive(Debug, PartialEq, Deserialize, JsonSchema)]
/// #[serde(deny_unknown_fields)]
/// struct Grid {
///     columns: u8,
/// }
///
/// named_choice! {
///     /// A part of a page.
///     #[derive(Debug, PartialEq)]
///     enum Block: "block" {
///         /// The title line.
///         Title(Title) = "title",
///         /// Boxes in rows and columns.
///         Grid(Grid) = "grid",
///     }
/// }
///
/// let blocks: Vec<Block> = from_str("a.yaml", "- title\n- grid: {columns: 2}\n")?;
/// assert_eq!(blocks, [Block::Title(Title { size: 0 }), Block::Grid(Grid { columns: 2 })]);
///
/// let error = from_str::<Vec<Block>>("a.yaml", "- title\n- gird: {columns: 2}\n").unwrap_err();
/// assert_eq!((error.line(), error.column(), error.message()), (Some(2), Some(3), "there is no block `gird`"));
/// # Ok::<(), sheafling::yaml::YamlError>(())
/// ```
#[macro_export]
#[doc(hidden)]
macro_rules! __named_choice {
    (
        $(#[$attribute:meta])*
        $visible:vis enum $Choice:ident: $noun:literal {
            $($(#[$variant_attribute:meta])* $Variant:ident($Held:ty) = $name:literal),+ $(,)?
        }
    ) => {
        $(#[$attribute])*
        $visible enum $Choice {
            $($(#[$variant_attribute])* $Variant($Held)),+
        }

        impl $crate::yaml::NamedChoice for $Choice {
            const NOUN: &'static str = $noun;
            const NAMES: &'static [&'static str] = &[$($name),+];

            fn name(&self) -> &'static str {
                match self {
                    $(Self::$Variant(_) => $name),+
                }
            }

            fn read<'de, D: ::serde::Deserializer<'de>>(name: &str, value: D) -> ::std::result::Result<Self, D::Error> {
                match name {
                    $($name => <$Held as ::serde::Deserialize>::deserialize(value).map(Self::$Variant),)+
                    _ => Err($crate::yaml::unknown_name::<Self, D::Error>(name)),
                }
            }
        }

        impl<'de> ::serde::Deserialize<'de> for $Choice {
            fn deserialize<D: ::serde::Deserializer<'de>>(deserializer: D) -> ::std::result::Result<Self, D::Error> {
                $crate::yaml::deserialize_choice(deserializer)
            }
        }

        impl ::schemars::JsonSchema for $Choice {
            fn schema_name() -> ::std::borrow::Cow<'static, str> {
                stringify!($Choice).into()
            }

            fn json_schema(generator: &mut ::schemars::SchemaGenerator) -> ::schemars::Schema {
                let choices = vec![
                    $(($name, generator.subschema_for::<$Held>(), $crate::yaml::needs_nothing::<$Held>())),+
                ];
                $crate::yaml::choice_schema($noun, choices)
            }
        }
    };
}

#[doc(inline)]
pub use crate::__named_choice as named_choice;

/// Reads one entry of a list of named things. [`named_choice!`](crate::yaml::named_choice) uses it.
///
/// # Errors
/// When the entry is neither a name nor a map with one name as its key, the name is not known, or its value doesn't fit.
pub fn deserialize_choice<'de, D: Deserializer<'de>, C: NamedChoice>(deserializer: D) -> Result<C, D::Error> {
    deserializer.deserialize_any(Entry(PhantomData))
}

/// The error for a name that `C` has not, in the form that gets a hint.
#[doc(hidden)]
#[must_use]
pub fn unknown_name<C: NamedChoice, E: de::Error>(name: &str) -> E {
    let known = C::NAMES.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    E::custom(format_args!("unknown {} `{name}`, expected one of {known}", C::NOUN))
}

/// The whole entry.
struct Entry<C>(PhantomData<C>);

impl<'de, C: NamedChoice> Visitor<'de> for Entry<C> {
    type Value = C;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the name of a {}", C::NOUN)
    }

    fn visit_str<E: de::Error>(self, name: &str) -> Result<C, E> {
        C::read(name, MapDeserializer::<_, E>::new(iter::empty::<(&str, &str)>()))
    }

    fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<C, A::Error> {
        let Some(name) = map.next_key_seed(Name::<C>(PhantomData))? else {
            return Err(de::Error::custom(format_args!("there is no {} here, only empty brackets", C::NOUN)));
        };
        let choice = map.next_value_seed(Value::<C> { name, choice: PhantomData })?;
        map.next_key_seed(NoMore { name })?;
        Ok(choice)
    }
}

/// The name, which must be known; an error here has the name's place.
struct Name<C>(PhantomData<C>);

impl<'de, C: NamedChoice> DeserializeSeed<'de> for Name<C> {
    type Value = &'static str;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<&'static str, D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl<C: NamedChoice> Visitor<'_> for Name<C> {
    type Value = &'static str;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the name of a {}", C::NOUN)
    }

    fn visit_str<E: de::Error>(self, name: &str) -> Result<&'static str, E> {
        C::NAMES.iter().copied().find(|&known| known == name).ok_or_else(|| unknown_name::<C, E>(name))
    }
}

/// What stands under the name.
struct Value<C> {
    name: &'static str,
    choice: PhantomData<C>,
}

impl<'de, C: NamedChoice> DeserializeSeed<'de> for Value<C> {
    type Value = C;

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<C, D::Error> {
        C::read(self.name, deserializer)
    }
}

/// A second key in the entry, which is mostly one that was not moved in far enough.
struct NoMore {
    name: &'static str,
}

impl<'de> DeserializeSeed<'de> for NoMore {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, deserializer: D) -> Result<(), D::Error> {
        deserializer.deserialize_str(self)
    }
}

impl Visitor<'_> for NoMore {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("the end of this entry")
    }

    fn visit_str<E: de::Error>(self, key: &str) -> Result<(), E> {
        let name = self.name;
        Err(E::custom(format_args!(
            "`{key}` stands beside `{name}`, not in it\n\
             help: if it belongs to `{name}`, move it further in; if not, begin a new entry with `- {key}`"
        )))
    }
}
