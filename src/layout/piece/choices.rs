//! Choices in a row, one of which is to be circled.

use serde::Deserialize;

use super::{Numbered, Setting, Shape};
use crate::layout::area::{Align, Area, Type, text_at};
use crate::layout::unit::{In, Mm, Pt, Span};
use crate::page::{Face, Length, Mark, Point, Size, Stroke};

/// The item's choices in a row, evenly spread, each with room for a ring around it. On the key the right one has its ring.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ChoicesPiece {
    /// Type size in points; 24 or more for beginners.
    pub size: Span<Pt>,
    /// The least space between two choices in millimetres; they spread over the width that is left.
    pub gap: In<Mm>,
}

impl Default for ChoicesPiece {
    fn default() -> Self {
        Self { size: Span::new(24, 30), gap: In::new(6) }
    }
}

/// The line of a ring.
const RING: Length = Length::milli_pt(2_000);

impl ChoicesPiece {
    fn kind(&self, setting: &Setting<'_>) -> Type {
        Type::black(Face::Regular, self.size.at(setting.percent))
    }

    /// The width of a ring around a text, wider than high so that letters with tails and heads stand free in it.
    fn ring_width(kind: Type, text: &str) -> Length {
        kind.width(text).max(kind.size) + kind.size
    }

    /// The height of a ring.
    fn ring_height(kind: Type) -> Length {
        kind.size.times(33, 20)
    }
}

impl Shape for ChoicesPiece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        let kind = self.kind(setting);
        let choices = &item.item.choices;
        let widest = choices.iter().map(|text| Self::ring_width(kind, text)).max().unwrap_or_default();
        let count = i64::try_from(choices.len()).unwrap_or(0);
        widest * count + self.gap.0 * (count - 1).max(0)
    }

    fn grows(&self) -> bool {
        true
    }

    fn height(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: Length, setting: &Setting<'_>) -> Length {
        Self::ring_height(self.kind(setting)) + RING
    }

    fn draw(&self, item: Numbered<'_>, _: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>) {
        let kind = self.kind(setting);
        let choices = &item.item.choices;
        let cell_width = area.width / i64::try_from(choices.len()).unwrap_or(1).max(1);
        let middle = area.y + area.height.half();
        let baseline = middle + kind.face.x_height(kind.size).half();
        for (nth, text) in choices.iter().enumerate() {
            let x = area.x + cell_width * i64::try_from(nth).unwrap_or(0);
            let cell = Area { x, width: cell_width, ..*area };
            marks.push(text_at(text, kind, Align::Center, &cell, baseline));
            if setting.key && item.item.answer.first() == Some(text) {
                let size = Size::new(Self::ring_width(kind, text), Self::ring_height(kind));
                let at = Point::new(x + (cell_width - size.width).half(), middle - size.height.half());
                marks.push(Mark::Ellipse { at, size, stroke: Stroke::solid(RING) });
            }
        }
    }
}
