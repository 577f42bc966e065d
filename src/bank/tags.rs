//! What a reader has judged of a word: age band, class, category, flags.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

macro_rules! named {
    ($(#[$doc:meta])* $type:ident, $what:literal { $($(#[$case_doc:meta])* $case:ident $name:literal),+ $(,)? }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema)]
        pub enum $type {
            $($(#[$case_doc])* #[serde(rename = $name)] $case),+
        }

        impl $type {
            /// All of them, in order.
            pub const ALL: &'static [Self] = &[$(Self::$case),+];

            /// The name used in files and on the command line.
            #[must_use]
            pub const fn name(self) -> &'static str {
                match self { $(Self::$case => $name),+ }
            }
        }

        impl fmt::Display for $type {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.pad(self.name())
            }
        }

        impl FromStr for $type {
            type Err = String;

            fn from_str(text: &str) -> Result<Self, String> {
                match text {
                    $($name => Ok(Self::$case),)+
                    other => {
                        let names: Vec<_> = Self::ALL.iter().map(|one| one.name()).collect();
                        Err(format!("there is no {} `{other}`; there are: {}", $what, names.join(", ")))
                    }
                }
            }
        }
    };
}

named! {
    /// The age at which most children know a word by ear, as American school years.
    Band, "age band" {
        /// Five years and younger.
        K "K",
        /// Six years.
        One "1",
        /// Seven years.
        Two "2",
        /// Eight years.
        Three "3",
    }
}

named! {
    /// The word class that a child would use a word in.
    Class, "word class" {
        /// A noun.
        Noun "n",
        /// A verb.
        Verb "v",
        /// An adjective.
        Adjective "a",
        /// Anything else.
        Other "o",
    }
}

named! {
    /// A kind of thing that a child would say a word is.
    Category, "category" {
        /// Any creature.
        Animal "animal",
        /// Part of a body.
        Body "body",
        /// A kind or a part of a building.
        Building "building",
        /// Worn.
        Clothes "clothes",
        /// A colour.
        Colour "colour",
        /// It holds things.
        Container "container",
        /// Something to drink.
        Drink "drink",
        /// A relation.
        Family "family",
        /// On a farm.
        Farm "farm",
        /// A feeling.
        Feeling "feeling",
        /// Something to eat.
        Food "food",
        /// A thing in a house.
        House "house",
        /// Used in a kitchen.
        Kitchen "kitchen",
        /// What hands do to make or mend.
        Make "make",
        /// A way to move.
        Move "move",
        /// Instruments and music.
        Music "music",
        /// Land, water and sky.
        Nature "nature",
        /// Numbers and amounts.
        Number "number",
        /// Jobs and roles.
        People "people",
        /// Somewhere to go.
        Place "place",
        /// Plants and their parts.
        Plant "plant",
        /// Something to ride in or on.
        Ride "ride",
        /// In a classroom.
        School "school",
        /// At or in the sea.
        Sea "sea",
        /// A shape.
        Shape "shape",
        /// A size.
        Size "size",
        /// A noise.
        Sound "sound",
        /// Sports, and what belongs to them.
        Sport "sport",
        /// In tales.
        Story "story",
        /// What things are made of.
        Stuff "stuff",
        /// What one does with food at the table.
        Table "table",
        /// A way to speak.
        Talk "talk",
        /// A taste.
        Taste "taste",
        /// A time.
        Time "time",
        /// A tool.
        Tool "tool",
        /// How a thing feels.
        Touch "touch",
        /// Something to play with.
        Toy "toy",
        /// Weather.
        Weather "weather",
    }
}

named! {
    /// An ending that does not make a new word.
    Ending, "ending" {
        /// *-s*, *-es*.
        S "s",
        /// *-ed*.
        Ed "ed",
        /// *-ing*.
        Ing "ing",
        /// Another one.
        Other "other",
    }
}

/// What is special about a word.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Flags {
    /// One spelling with two everyday pronunciations.
    pub heteronym: bool,
    /// Its spelling can't be sounded out.
    pub irregular: bool,
    /// An irregular past form.
    pub past: bool,
    /// An irregular plural.
    pub plural: bool,
    /// A grammar word.
    pub function: bool,
    /// A call or a noise.
    pub interjection: bool,
    /// The two parts of a compound.
    pub compound: Option<(String, String)>,
    /// The base and the ending of an inflected form.
    pub form: Option<(String, Ending)>,
}

impl FromStr for Flags {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let mut flags = Self::default();
        for flag in text.split(',').filter(|flag| *flag != "-" && !flag.is_empty()) {
            match flag.split_once('=') {
                None => match flag {
                    "heteronym" => flags.heteronym = true,
                    "irregular" => flags.irregular = true,
                    "past" => flags.past = true,
                    "plural" => flags.plural = true,
                    "function" => flags.function = true,
                    "interjection" => flags.interjection = true,
                    other => return Err(format!("there is no flag `{other}`")),
                },
                Some(("compound", parts)) => {
                    let (first, second) =
                        parts.split_once('+').ok_or_else(|| format!("`{flag}` needs two parts: compound=rain+bow"))?;
                    flags.compound = Some((first.to_owned(), second.to_owned()));
                }
                Some(("form", base)) => {
                    let (base, ending) = base.split_once('+').unwrap_or((base, "other"));
                    flags.form = Some((base.to_owned(), ending.parse()?));
                }
                Some((other, _)) => return Err(format!("there is no flag `{other}`")),
            }
        }
        Ok(flags)
    }
}

/// Reads a comma-separated list of names; `-` is an empty one.
///
/// # Errors
/// The first name that is not known.
pub(super) fn list<T: FromStr<Err = String>>(text: &str) -> Result<Vec<T>, String> {
    text.split(',').map(str::trim).filter(|name| *name != "-" && !name.is_empty()).map(str::parse).collect()
}
