//! Pieces in a rounded frame.

use serde::Deserialize;

use super::{Numbered, Piece, Setting, Shape, StackPiece};
use crate::layout::area::{Area, outline};
use crate::layout::unit::{In, Mm, Span};
use crate::page::{Length, Mark, Stroke};

/// Pieces one below the other in a rounded frame of its own.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PanelPiece {
    /// The pieces, from top to bottom.
    pub of: Vec<Piece>,
    /// Space between them in millimetres.
    #[serde(default = "small")]
    pub gap: In<Mm>,
    /// Space between the frame and what is in it, in millimetres.
    #[serde(default = "pad")]
    pub pad: Span<Mm>,
}

fn small() -> In<Mm> {
    In::new(1)
}
fn pad() -> Span<Mm> {
    Span::new(3, 8)
}

impl PanelPiece {
    fn stack(&self) -> StackPiece {
        StackPiece { of: self.of.clone(), gap: self.gap }
    }

    fn pad(&self, setting: &Setting<'_>) -> Length {
        self.pad.at(setting.percent)
    }
}

impl Shape for PanelPiece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        self.stack().width(item, setting) + self.pad(setting) * 2
    }

    fn grows(&self) -> bool {
        true
    }

    fn height(&self, item: Numbered<'_>, all: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Length {
        let pad = self.pad(setting) * 2;
        self.stack().height(item, all, width - pad, setting) + pad
    }

    fn draw(
        &self,
        item: Numbered<'_>,
        all: &[Numbered<'_>],
        area: &Area,
        setting: &Setting<'_>,
        marks: &mut Vec<Mark>,
    ) {
        let pad = self.pad(setting);
        marks.push(outline(area, Length::mm(3), Stroke::solid(Length::milli_pt(1_000))));
        let inner =
            Area { x: area.x + pad, y: area.y + pad, width: area.width - pad * 2, height: area.height - pad * 2 };
        self.stack().draw(item, all, &inner, setting, marks);
    }
}
