//! A frame to draw in.

use serde::Deserialize;

use super::{Numbered, Setting, Shape};
use crate::layout::area::{Area, outline};
use crate::layout::unit::{In, Mm, Span};
use crate::page::{Length, Mark, Stroke};

/// An empty frame.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct FramePiece {
    /// Its height in millimetres.
    pub height: Span<Mm>,
    /// Its least width in millimetres.
    pub width: In<Mm>,
    /// Whether it takes up width that is left over.
    pub grow: bool,
}

impl Default for FramePiece {
    fn default() -> Self {
        Self { height: Span::new(25, 40), width: In::new(25), grow: true }
    }
}

impl Shape for FramePiece {
    fn width(&self, _: Numbered<'_>, _: &Setting<'_>) -> Length {
        self.width.0
    }

    fn grows(&self) -> bool {
        self.grow
    }

    fn is_written_on(&self) -> bool {
        true
    }

    fn height(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: Length, setting: &Setting<'_>) -> Length {
        self.height.at(setting.percent)
    }

    fn draw(&self, _: Numbered<'_>, _: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>) {
        let height = self.height.at(setting.percent);
        let frame = Area { y: area.y + (area.height - height).half(), height, ..*area };
        marks.push(outline(&frame, Length::mm(2), Stroke::solid(Length::milli_pt(750))));
    }
}
