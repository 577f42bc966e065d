//! Letters in which words are hidden; on the key the words are ringed.

use serde::Deserialize;

use crate::layout::area::{Align, Area, Type, outline, text_at};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Length, Mark, Point, Stroke};
use crate::sheet::Hidden;

/// A square of letters in a frame.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LetterGridBlock {
    /// Type size of the letters in points; 18 or more.
    pub size: Span<Pt>,
    /// Height of a row in millimetres; the columns are as wide, or as wide as the page allows.
    pub cell: Span<Mm>,
}

impl Default for LetterGridBlock {
    fn default() -> Self {
        Self { size: Span::new(20, 26), cell: Span::new(11, 16) }
    }
}

const PAD: Length = Length::mm(3);

impl LetterGridBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
        let Some(grid) = &setting.sheet.letter_grid else { return Vec::new() };
        let count = i64::try_from(grid.rows.len()).unwrap_or(1).max(1);
        let side = self.cell.at(setting.percent).min((body.width - PAD * 2) / count);
        let kind = Type::black(Face::Regular, self.size.at(setting.percent).min(side.times(4, 5)));
        let whole = side * count;
        let square = Area { x: body.x + (body.width - whole).half(), y: PAD, width: whole, height: whole };
        let frame = Area { x: square.x - PAD, y: Length::ZERO, width: whole + PAD * 2, height: whole + PAD * 2 };
        let mut marks = vec![outline(&frame, Length::mm(2), Stroke::solid(Length::milli_pt(1_500)))];
        let mut top = square.y;
        for row in &grid.rows {
            let mut cell = Area { x: square.x, y: top, width: side, height: side };
            // Heads and tails are about as long, so that small letters stand in the middle.
            let baseline = top + (side + kind.face.x_height(kind.size)).half();
            for letter in row.chars() {
                marks.push(text_at(&letter.to_string(), kind, Align::Center, &cell, baseline));
                cell.x += side;
            }
            top += side;
        }
        if setting.key {
            for hidden in &grid.hidden {
                ring(hidden, square.corner(), side, &mut marks);
            }
        }
        vec![Band {
            keep_with_next: true,
            stretch: Length::mm(5),
            ..Band::new(frame.height, marks).below(Length::mm(3))
        }]
    }
}

/// A ring around a word.
fn ring(hidden: &Hidden, corner: Point, side: Length, marks: &mut Vec<Mark>) {
    let stroke = Stroke::solid(Length::milli_pt(1_250));
    let number = |n: usize| i64::try_from(n).unwrap_or(0);
    let reach = number(hidden.word.chars().count().saturating_sub(1));
    let (down, right) = (number(hidden.down), number(hidden.right));
    let first = Point::new(corner.x + side * number(hidden.column), corner.y + side * number(hidden.row));
    if down + right == 1 {
        let inset = side.times(1, 12);
        let area = Area {
            x: first.x + inset,
            y: first.y + inset,
            width: side * (1 + reach * right) - inset * 2,
            height: side * (1 + reach * down) - inset * 2,
        };
        marks.push(outline(&area, side.half() - inset, stroke));
        return;
    }
    // Aslant: the middles of the first and the last letter, and eight corners around them. Numbers are hundredths of a side,
    // small enough that rings of neighbouring diagonals, 71 apart, do not touch.
    let last = Point::new(first.x + side * reach, first.y + side * reach);
    let around = |middle: Point, (x, y): (i64, i64)| {
        Point::new(middle.x + side.times(50 + x, 100), middle.y + side.times(50 + y, 100))
    };
    let begin = [(23, -23), (0, -34), (-25, -25), (-34, 0), (-23, 23)].map(|by| around(first, by));
    let end = [(-23, 23), (0, 34), (25, 25), (34, 0), (23, -23)].map(|by| around(last, by));
    let corners: Vec<Point> = begin.into_iter().chain(end).collect();
    let next = corners.iter().cycle().skip(1);
    marks.extend(corners.iter().zip(next).map(|(&from, &to)| Mark::Line { from, to, stroke }));
}
