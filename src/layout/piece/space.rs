//! Empty space in a cell.

use serde::Deserialize;

use super::{Numbered, Setting, Shape};
use crate::layout::area::Area;
use crate::layout::unit::{Mm, Span};
use crate::page::{Length, Mark};

/// Empty space.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct SpacePiece {
    /// How much, in millimetres, in both directions.
    pub of: Span<Mm>,
    /// Whether it takes up width that is left over, so that what follows stands at the right.
    pub grow: bool,
}

impl Default for SpacePiece {
    fn default() -> Self {
        Self { of: Span::new(2, 4), grow: false }
    }
}

impl Shape for SpacePiece {
    fn width(&self, _: Numbered<'_>, setting: &Setting<'_>) -> Length {
        self.of.at(setting.percent)
    }

    fn grows(&self) -> bool {
        self.grow
    }

    fn height(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: Length, setting: &Setting<'_>) -> Length {
        self.of.at(setting.percent)
    }

    fn draw(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: &Area, _: &Setting<'_>, _: &mut Vec<Mark>) {}
}
