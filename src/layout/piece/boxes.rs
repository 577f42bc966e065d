//! Sound boxes (after D. B. Elkonin, 1963): one square a sound, touching.

use serde::Deserialize;

use super::{Numbered, Setting, Shape};
use crate::layout::area::{Align, Area, Type, down, outline, text_at};
use crate::layout::unit::{Mm, Span};
use crate::page::{Face, Length, Mark, Stroke};
use crate::sheet::Kind;

/// A row of sound boxes for the item's word.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct BoxesPiece {
    /// The side of a box in millimetres; 14 to 18 suit beginners.
    pub size: Span<Mm>,
    /// Whether the letters are printed on the sheet too, to point at or trace.
    pub given: bool,
    /// Whether the box that changes is drawn thick.
    pub mark: bool,
    /// How many boxes more than sounds there are, so that the number gives nothing away; 0 to 3.
    pub extra: u8,
}

impl Default for BoxesPiece {
    fn default() -> Self {
        Self { size: Span::new(14, 18), given: false, mark: true, extra: 0 }
    }
}

/// The most boxes that `extra` adds.
const MOST_EXTRA: u8 = 3;

impl BoxesPiece {
    fn count(&self, item: Numbered<'_>) -> i64 {
        let sounds = item.item.boxes.as_ref().map_or(item.item.sounds.len(), |row| row.letters.len());
        i64::try_from(sounds).unwrap_or(0) + i64::from(self.extra.min(MOST_EXTRA))
    }

    /// Type for letters in a box of this side.
    fn kind(side: Length) -> Type {
        Type::black(Face::Regular, side.times(5, 8))
    }
}

impl Shape for BoxesPiece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        let side = setting.box_side(self.size);
        let after = item.item.boxes.as_ref().map_or(0, |row| row.after.len());
        side * self.count(item) + side.times(i64::try_from(after).unwrap_or(0), 2)
    }

    fn is_written_on(&self) -> bool {
        !self.given
    }

    fn height(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: Length, setting: &Setting<'_>) -> Length {
        setting.box_side(self.size)
    }

    fn draw(&self, item: Numbered<'_>, _: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>) {
        let side = setting.box_side(self.size);
        let count = self.count(item);
        let top = area.y + (area.height - side).half();
        let row = Area { x: area.x, y: top, width: side * count, height: side };
        let stroke = Stroke::solid(Length::milli_pt(1_000));
        marks.push(outline(&row, Length::ZERO, stroke));
        for nth in 1..count {
            let x = row.x + side * nth;
            marks.push(down(x, row.y, row.bottom(), stroke));
        }
        let Some(boxes) = &item.item.boxes else { return };
        if let Some(marked) = boxes.marked.filter(|_| self.mark) {
            let inset = Length::milli_pt(1_250);
            let x = row.x + side * i64::try_from(marked).unwrap_or(0) + inset;
            let thick = Area { x, y: row.y + inset, width: side - inset * 2, height: side - inset * 2 };
            marks.push(outline(&thick, Length::ZERO, Stroke::solid(Length::milli_pt(2_500))));
        }
        if !(setting.key || self.given || item.item.kind == Kind::Start) {
            return;
        }
        let kind = Self::kind(side);
        // Small letters stand in the middle of the box, their tails and heads inside it.
        let baseline = row.y + (side + kind.face.x_height(kind.size)).half() + kind.size.times(1, 25);
        for (nth, letters) in boxes.letters.iter().enumerate() {
            let x = row.x + side * i64::try_from(nth).unwrap_or(0);
            let cell = Area { x, width: side, ..row };
            let fitted = kind.shrunk_to(letters, side.times(7, 8));
            marks.push(text_at(letters, fitted, Align::Center, &cell, baseline));
        }
        if !boxes.after.is_empty() {
            let small = Type { size: kind.size.times(3, 4), ..kind };
            let beyond = Area { x: row.right() + side.times(1, 10), width: side, ..row };
            marks.push(text_at(&boxes.after, small, Align::Left, &beyond, baseline));
        }
    }
}
