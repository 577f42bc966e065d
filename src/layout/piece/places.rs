//! Three boxes in a row for the beginning, the middle and the end of a word.

use serde::Deserialize;

use super::{Numbered, Setting, Shape};
use crate::layout::area::{Align, Area, Type, outline, text_line};
use crate::layout::unit::{Mm, Span};
use crate::page::{Face, Ink, Length, Mark, Point, Size, Stroke};
use crate::sounds::Place;

/// Three boxes in a row. A small row of dots in each, with one of them filled, shows the beginning, the middle or the end to a
/// child who can't read yet. On the key the right box is crossed.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PlacesPiece {
    /// Width of a box in millimetres.
    pub width: Span<Mm>,
    /// Height of a box in millimetres.
    pub height: Span<Mm>,
    /// Whether the words *beginning*, *middle* and *end* stand under the boxes.
    pub words: bool,
}

impl Default for PlacesPiece {
    fn default() -> Self {
        Self { width: Span::new(22, 28), height: Span::new(11, 14), words: false }
    }
}

const WORDS: Length = Length::pt(11);
const DOT: Length = Length::um(2_200);
const DOT_STEP: Length = Length::um(4_200);

impl PlacesPiece {
    fn words_kind() -> Type {
        Type::black(Face::Regular, WORDS).inked(Ink::DARK)
    }

    fn words_height(&self) -> Length {
        if self.words { Self::words_kind().line_height() } else { Length::ZERO }
    }
}

impl Shape for PlacesPiece {
    fn width(&self, _: Numbered<'_>, setting: &Setting<'_>) -> Length {
        self.width.at(setting.percent) * 3
    }

    fn height(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: Length, setting: &Setting<'_>) -> Length {
        self.height.at(setting.percent) + self.words_height()
    }

    fn draw(&self, item: Numbered<'_>, _: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>) {
        let (width, height) = (self.width.at(setting.percent), self.height.at(setting.percent));
        let top = area.y + (area.height - height - self.words_height()).half();
        for (nth, place) in (0..).zip(Place::ALL) {
            let frame = Area { x: area.x + width * nth, y: top, width, height };
            marks.push(outline(&frame, Length::ZERO, Stroke::solid(Length::milli_pt(1_000))));
            dots(&frame, nth, marks);
            if self.words {
                marks.push(text_line(place.name(), Self::words_kind(), Align::Center, &frame, frame.bottom()));
            }
            if setting.key && item.item.place == Some(place) {
                cross(&frame, marks);
            }
        }
    }
}

/// Three dots in the upper part of a box; the one at `filled` is filled.
fn dots(frame: &Area, filled: i64, marks: &mut Vec<Mark>) {
    let left = frame.x + (frame.width - DOT_STEP * 2 - DOT).half();
    for nth in 0..3 {
        let at = Point::new(left + DOT_STEP * nth, frame.y + Length::um(1_300));
        let size = Size::new(DOT, DOT);
        if nth == filled {
            marks.push(Mark::Rect { at, size, radius: DOT.half(), stroke: None, fill: Some(Ink::BLACK) });
        } else {
            marks.push(Mark::Ellipse { at, size, stroke: Stroke::solid(Length::milli_pt(500)) });
        }
    }
}

/// A cross in the lower part of a box, below the dots.
fn cross(frame: &Area, marks: &mut Vec<Mark>) {
    let stroke = Stroke::solid(Length::milli_pt(2_500));
    let top = frame.y + Length::um(1_300) + DOT + Length::um(1_200);
    let side = frame.bottom() - top - Length::um(1_200);
    let left = frame.x + (frame.width - side).half();
    let (right, bottom) = (left + side, top + side);
    marks.push(Mark::Line { from: Point::new(left, top), to: Point::new(right, bottom), stroke });
    marks.push(Mark::Line { from: Point::new(left, bottom), to: Point::new(right, top), stroke });
}
