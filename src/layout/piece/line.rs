//! A line to write on: top, dashed middle, base.

use serde::Deserialize;

use super::{Numbered, Setting, Shape};
use crate::layout::area::{Align, Area, Type, across, text_at};
use crate::layout::text::Template;
use crate::layout::unit::{In, Mm, Span};
use crate::page::{Face, Ink, Length, Mark, Stroke};
use crate::sheet::Kind;

/// A line to write one answer on.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LinePiece {
    /// What stands on the line on the key.
    #[serde(default = "default_answer", deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub answer: Template,
    /// Its least width in millimetres; it grows where there is room.
    #[serde(default = "default_width")]
    pub width: In<Mm>,
    /// From the top line to the base line in millimetres: 16 to 20 for five-year-olds, 10 to 13 for seven-year-olds.
    #[serde(default = "default_height")]
    pub height: Span<Mm>,
    /// Whether the top and the dashed middle line are drawn, or the base line alone.
    #[serde(default = "yes")]
    pub guides: bool,
    /// Whether the further accepted answers stand beside the answer on the key.
    #[serde(default = "yes")]
    pub also: bool,
}

fn default_answer() -> Template {
    Template::of_name("answer")
}
fn default_width() -> In<Mm> {
    In::new(45)
}
fn default_height() -> Span<Mm> {
    Span::new(10, 13)
}
fn yes() -> bool {
    true
}

/// What descends below the base line has a third of the line's height, and somewhat more where letters are as large as for the
/// youngest.
#[must_use]
pub fn tail(height: Length) -> Length {
    height.times(1, 3).max(height.times(2, 5) - Length::mm(1))
}

/// Draws a write-on line whose top line is at the top of `area`, over its whole width.
pub fn guide_lines(area: &Area, height: Length, guides: bool, marks: &mut Vec<Mark>) {
    let base = area.y + height;
    if guides {
        let thin = Stroke::solid(Length::milli_pt(500)).inked(Ink::MID);
        marks.push(across(area.x, area.right(), area.y, thin));
        let dashed = thin.dashed(Length::um(1_500), Length::um(1_500));
        marks.push(across(area.x, area.right(), area.y + height.half(), dashed));
    }
    marks.push(across(area.x, area.right(), base, Stroke::solid(Length::milli_pt(1_000))));
}

/// Type for writing between guide lines: small letters reach the middle line.
#[must_use]
pub fn written(height: Length) -> Type {
    let probe = Length::pt(100);
    let x_height = Face::Regular.x_height(probe).to_nm().max(1);
    Type::black(Face::Regular, probe.times(height.half().to_nm() / 1000, x_height / 1000))
}

impl Shape for LinePiece {
    fn width(&self, _: Numbered<'_>, _: &Setting<'_>) -> Length {
        self.width.0
    }

    fn grows(&self) -> bool {
        true
    }

    fn is_written_on(&self) -> bool {
        true
    }

    fn height(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: Length, setting: &Setting<'_>) -> Length {
        let height = setting.guides(self.height);
        height + tail(height)
    }

    fn draw(&self, item: Numbered<'_>, _: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>) {
        let height = setting.guides(self.height);
        let top = area.y + (area.height - height - tail(height)).half();
        let line = Area { y: top, ..*area };
        guide_lines(&line, height, self.guides, marks);
        if !(setting.key || item.item.kind == Kind::Start) {
            return;
        }
        let text = self.answer.fill(item.item, item.number, setting.notation);
        let also = match item.item.answer.get(1..) {
            Some(more) if self.also && !more.is_empty() => format!("also: {}", more.join(", ")),
            _ => String::new(),
        };
        let small = Type::black(Face::Regular, Length::pt(11));
        let beside = if also.is_empty() { Length::ZERO } else { small.width(&also) + Length::mm(2) };
        let kind = written(height).shrunk_to(&text, line.width - beside - Length::mm(2));
        let inner = Area { x: line.x + Length::mm(1), width: line.width - Length::mm(2), ..line };
        marks.push(text_at(&text, kind, Align::Left, &inner, top + height));
        if !also.is_empty() {
            marks.push(text_at(&also, small, Align::Right, &inner, top + height - Length::mm(1)));
        }
    }
}
