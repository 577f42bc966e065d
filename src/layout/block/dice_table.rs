//! Words in columns headed by the faces of a die.

use serde::{Deserialize, Deserializer};

use super::TooWide;
use crate::layout::area::{Align, Area, Type, across, down, outline, text_at};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Point, Size, Stroke};

/// A table of the items, row by row, whose columns are headed by the faces of a die: 6 columns with a face each, or 3 or 2 with
/// two or three faces each.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct DiceTableBlock {
    /// How many columns: 2, 3 or 6.
    #[serde(deserialize_with = "columns")]
    #[schemars(extend("enum" = [2, 3, 6]))]
    pub columns: u8,
    /// Type size of the words in points; 18 or more.
    pub size: Span<Pt>,
    /// Height of a row in millimetres.
    pub height: Span<Mm>,
    /// Side of a die in millimetres.
    pub die: Span<Mm>,
}

impl Default for DiceTableBlock {
    fn default() -> Self {
        Self { columns: 6, size: Span::new(18, 24), height: Span::new(16, 28), die: Span::new(13, 16) }
    }
}

fn columns<'de, D: Deserializer<'de>>(from: D) -> Result<u8, D::Error> {
    let columns = u8::deserialize(from)?;
    if [2, 3, 6].contains(&columns) {
        return Ok(columns);
    }
    let message = format!("a die's six faces can't be shared evenly by {columns} columns\nhelp: write 2, 3 or 6");
    Err(serde::de::Error::custom(message))
}

/// The dots of each face in a square of three by three places.
const DOTS: [&[(i64, i64)]; 6] = [
    &[(1, 1)],
    &[(2, 0), (0, 2)],
    &[(2, 0), (1, 1), (0, 2)],
    &[(0, 0), (2, 0), (0, 2), (2, 2)],
    &[(0, 0), (2, 0), (1, 1), (0, 2), (2, 2)],
    &[(0, 0), (2, 0), (0, 1), (2, 1), (0, 2), (2, 2)],
];

/// A die that shows a face, from 0, in a square.
fn die(face: usize, square: &Area, marks: &mut Vec<Mark>) {
    let side = square.width;
    marks.push(outline(square, side.times(1, 6), Stroke::solid(Length::milli_pt(1_250))));
    let dot = side.times(1, 5);
    for (across, along) in DOTS.get(face).copied().unwrap_or_default() {
        let place = |nth: &i64| side.times(1 + nth, 4) - dot.half();
        let at = Point::new(square.x + place(across), square.y + place(along));
        // A square whose corners are as round as can be is a full dot.
        let size = Size::new(dot, dot);
        marks.push(Mark::Rect { at, size, radius: dot.half(), stroke: None, fill: Some(Ink::BLACK) });
    }
}

impl DiceTableBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let items = &setting.sheet.items;
        let least = Type::black(Face::Regular, self.size.at(setting.percent.least()));
        let narrow = |columns: &i64| body.width / *columns - Length::mm(4);
        let widest = |kind: Type| items.iter().map(|item| kind.width(&item.word)).max().unwrap_or_default();
        // Two or three faces share a column where words in a print that was asked for are too wide for one each.
        let fitting = [6, 3, 2].into_iter().find(|columns| narrow(columns) >= widest(least));
        let stated = i64::from(self.columns);
        let columns = fitting.filter(|fitting| setting.fewer_columns && *fitting < stated).unwrap_or(stated);
        let width = body.width / columns;
        // The words may stay smaller than the rows, which have room whatever the longest word is.
        let room = width - Length::mm(4);
        let full = Type { size: self.size.at(setting.percent), ..least };
        let longest = items.iter().max_by_key(|item| full.width(&item.word)).map_or("", |item| item.word.as_str());
        let fitted = full.shrunk_to(longest, room);
        let kind = if fitted.size < least.size { least } else { fitted };
        if widest(kind) > room {
            return Err(TooWide { what: "a word of the dice table".to_owned(), needs: widest(kind), has: room });
        }
        let side = self.die.at(setting.percent);
        let head = side + Length::mm(6);
        let thick = Stroke::solid(Length::milli_pt(1_500));
        let thin = Stroke::solid(Length::milli_pt(750));
        let sides = |height: Length, marks: &mut Vec<Mark>| {
            for nth in 0..=columns {
                let stroke = if nth == 0 || nth == columns { thick } else { thin };
                marks.push(down(body.x + width * nth, Length::ZERO, height, stroke));
            }
        };
        let fill = Some(Ink::PALE);
        let at = Point::new(body.x, Length::ZERO);
        let mut marks =
            vec![Mark::Rect { at, size: Size::new(body.width, head), radius: Length::ZERO, stroke: None, fill }];
        sides(head, &mut marks);
        let faces = 6 / columns;
        for column in 0..columns {
            let gap = Length::mm(3);
            let together = side * faces + gap * (faces - 1);
            let left = body.x + width * column + (width - together).half();
            for nth in 0..faces {
                let square = Area { x: left + (side + gap) * nth, y: Length::mm(3), width: side, height: side };
                let white = Some(Ink::percent(0));
                let (at, size, radius) = (square.corner(), square.size(), side.times(1, 6));
                marks.push(Mark::Rect { at, size, radius, stroke: None, fill: white });
                die(usize::try_from(column * faces + nth).unwrap_or(0), &square, &mut marks);
            }
        }
        marks.push(across(body.x, body.right(), Length::ZERO, thick));
        marks.push(across(body.x, body.right(), head, thick));
        let mut bands =
            vec![Band { keep_with_next: true, stretch: Length::mm(4), ..Band::new(head, marks).below(Length::mm(4)) }];
        // Fewer columns are more rows.
        let low = kind.line_height() + Length::mm(1);
        let height = self.height.at(setting.percent);
        let height = if columns < stated { height.min(low) } else { height };
        let rows = items.chunks(usize::try_from(columns).unwrap_or(1));
        let last = rows.len();
        for (nth, row) in rows.enumerate() {
            let mut marks = Vec::new();
            sides(height, &mut marks);
            marks.push(across(body.x, body.right(), height, if nth + 1 == last { thick } else { thin }));
            for (column, item) in (0..columns).zip(row) {
                let cell = Area { x: body.x + width * column, y: Length::ZERO, width, height };
                let baseline = (height + kind.face.x_height(kind.size)).half();
                marks.push(text_at(&item.word, kind, Align::Center, &cell, baseline));
            }
            bands.push(Band { keep_with_next: nth + 1 < last, ..Band::new(height, marks) });
        }
        Ok(bands)
    }
}
