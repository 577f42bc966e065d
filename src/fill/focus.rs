//! Which of the blends asked for a sheet can be about, and the words that hold them.

use serde::Deserialize;

use super::error::listed;
use crate::bank::{Condition, Word};
use crate::sounds::{Blend, Place, Side};

/// Whether a sort is by the beginnings or by the ends of its words.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum SortSide {
    /// By the blend that opens the word.
    #[default]
    Start,
    /// By the blend that closes it.
    End,
}

impl SortSide {
    pub(super) const fn side(self) -> Side {
        match self {
            Self::Start => Side::Onset,
            Self::End => Side::Coda,
        }
    }

    pub(super) const fn place(self) -> Place {
        match self {
            Self::Start => Place::Beginning,
            Self::End => Place::End,
        }
    }
}

/// The focus names blends that a sheet can't be about.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{why}\nhelp: {hint}")]
pub struct BadFocus {
    /// What is wrong.
    pub why: String,
    /// What to do about it.
    pub hint: String,
}

/// The blends of `focus` that can be heard on `side` (anywhere, when it is `None`), each once, in order. A blend of the other
/// side whose sounds make one on this side too, as /s/ /k/ do, stands for that one.
pub(super) fn on_side(focus: &[&'static Blend], side: Option<Side>) -> Vec<&'static Blend> {
    let mut usable: Vec<&'static Blend> = Vec::with_capacity(focus.len());
    for &blend in focus {
        let wanted = match side {
            Some(side) if blend.side != side => Blend::of_sounds(blend.sounds, side),
            _ => Some(blend),
        };
        if let Some(wanted) = wanted
            && !usable.contains(&wanted)
        {
            usable.push(wanted);
        }
    }
    usable
}

/// A blend that stands in `focus` more than once, on the same side.
pub(super) fn doubled(focus: &[&'static Blend]) -> Option<&'static Blend> {
    focus.iter().enumerate().find(|(at, blend)| focus[..*at].contains(blend)).map(|(_, blend)| *blend)
}

/// As [`on_side`], where at least one blend has to remain unless none was asked for.
pub(super) fn usable(focus: &[&'static Blend], side: Option<Side>) -> Result<Vec<&'static Blend>, BadFocus> {
    let blends = on_side(focus, side);
    if blends.is_empty() && !focus.is_empty() {
        let (heard, ask) = match side {
            Some(Side::Coda) => ("end", "beginning"),
            _ => ("beginning", "end"),
        };
        return Err(BadFocus {
            why: format!("This sheet is about the {heard} of words, where {} can't be heard.", names(focus, "or")),
            hint: format!("choose a blend such as `{}`, or a sheet about the {ask} of words", example(heard)),
        });
    }
    Ok(blends)
}

const fn example(heard: &str) -> &'static str {
    if heard.len() == 3 { "nd" } else { "bl" }
}

/// `bl, cl or fl`.
pub(super) fn names(blends: &[&'static Blend], last: &str) -> String {
    listed(&blends.iter().map(|blend| blend.name.to_owned()).collect::<Vec<_>>(), last)
}

/// Whether a blend is heard in a word at a place (at any, when it is `None`). An ending makes no blend.
pub(super) fn is_heard(word: &Word, blend: &'static Blend, place: Option<Place>) -> bool {
    word.blends().any(|(heard, at)| heard == blend && place.is_none_or(|place| place == at))
}

/// The condition that one of `blends` is heard at `place`.
pub(super) fn condition(blends: Vec<&'static Blend>, place: Option<Place>) -> Condition<'static> {
    let names = names(&blends, "or");
    let asks = match place {
        Some(Place::Beginning) => format!("start with {names}"),
        Some(Place::End) => format!("end with {names}"),
        Some(Place::Middle) => format!("have {names} in the middle"),
        None => format!("have {names} in them"),
    };
    Condition::new(asks, "add another blend to the focus", move |word| {
        blends.iter().any(|blend| is_heard(word, blend, place))
    })
}
