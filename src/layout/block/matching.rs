//! Two columns to be joined by lines.

use serde::Deserialize;

use super::TooWide;
use crate::layout::area::{Align, Area, Type, text_at};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::text::Template;
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Point, Size, Stroke};

/// The items at the left and what belongs to them at the right, in a mixed order, with a dot at each. On the key the dots are
/// joined.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct MatchingBlock {
    /// What stands at the left.
    #[serde(deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub of: Template,
    /// Type size in points; 18 or more for words that a child reads.
    pub size: Span<Pt>,
    /// Height of a row in millimetres.
    pub row: Span<Mm>,
    /// Space between the two columns of dots in millimetres.
    pub between: Span<Mm>,
}

impl Default for MatchingBlock {
    fn default() -> Self {
        Self {
            of: Template::of_name("shown"),
            size: Span::new(26, 32),
            row: Span::new(16, 32),
            between: Span::new(45, 60),
        }
    }
}

const DOT: Length = Length::um(2_600);
const BESIDE: Length = Length::mm(6);

impl MatchingBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let kind = Type::black(Face::Regular, self.size.at(setting.percent));
        let between = self.between.at(setting.percent);
        let items = &setting.sheet.items;
        let right = &setting.sheet.word_bank;
        let left: Vec<String> =
            items.iter().enumerate().map(|(at, item)| self.of.fill(item, Some(at + 1), setting.notation)).collect();
        let widest = left.iter().chain(right).map(|text| kind.width(text)).max().unwrap_or_default();
        let needs = (widest + BESIDE) * 2 + between;
        if needs > body.width {
            return Err(TooWide { what: "a pair to be joined".to_owned(), needs, has: body.width });
        }
        let row = self.row.at(setting.percent).max(kind.line_height());
        let side = (body.width - between).half();
        let left_dots = body.x + side;
        let right_dots = body.right() - side;
        let middle = |at: usize| row * i64::try_from(at).unwrap_or(0) + row.half();
        let mut marks = Vec::new();
        let mut dot = |x: Length, at: usize| {
            let at = Point::new(x - DOT.half(), middle(at) - DOT.half());
            let size = Size::new(DOT, DOT);
            marks.push(Mark::Rect { at, size, radius: DOT.half(), stroke: None, fill: Some(Ink::BLACK) });
        };
        (0..left.len()).for_each(|at| dot(left_dots, at));
        (0..right.len()).for_each(|at| dot(right_dots, at));
        let baseline = |at: usize| middle(at) + kind.face.x_height(kind.size).half();
        let at_left = Area { width: side - BESIDE, ..*body };
        let at_right = Area { x: right_dots + BESIDE, width: side - BESIDE, ..*body };
        for (at, text) in left.iter().enumerate() {
            marks.push(text_at(text, kind, Align::Right, &at_left, baseline(at)));
        }
        for (at, text) in right.iter().enumerate() {
            marks.push(text_at(text, kind, Align::Left, &at_right, baseline(at)));
        }
        for (at, item) in items.iter().enumerate().filter(|_| setting.key) {
            if let Some(to) = right.iter().position(|text| Some(text) == item.answer.first()) {
                let (from, to) = (Point::new(left_dots, middle(at)), Point::new(right_dots, middle(to)));
                marks.push(Mark::Line { from, to, stroke: Stroke::solid(Length::milli_pt(1_500)) });
            }
        }
        let rows = i64::try_from(left.len().max(right.len())).unwrap_or(0);
        Ok(vec![Band { gap: Length::mm(4), stretch: Length::mm(6), ..Band::new(row * rows, marks) }])
    }
}
