//! Letters to trace.

use serde::Deserialize;

use super::line::tail;
use super::{Numbered, Setting, Shape, guide_lines, written};
use crate::layout::area::{Area, Type};
use crate::layout::text::Template;
use crate::layout::unit::{Mm, Span};
use crate::page::{Ink, Length, Mark, Point, Stroke};

/// A text in dashed or dotted outlines of its letters, for tracing; by default on lines to write on, as large as it is written.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct TracePiece {
    /// The text; names in braces are filled from the item.
    #[serde(deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub of: Template,
    /// From the top line to the base line in millimetres; small letters reach the middle.
    pub height: Span<Mm>,
    /// Whether the lines to write on are drawn.
    pub guides: bool,
    /// How the outlines are drawn.
    pub outline: Outline,
    /// How often the text stands side by side, 1 to 6.
    pub times: u8,
    /// Whether the lines take up width that is left over, so that there is room to write after tracing.
    pub grow: bool,
}

/// How the outlines of letters are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Outline {
    /// With short dashes.
    #[default]
    Dashes,
    /// With dots.
    Dots,
}

impl Outline {
    /// The look of the outline; dots are as long as the line is wide.
    fn stroke(self) -> Stroke {
        match self {
            Self::Dashes => {
                Stroke::solid(Length::milli_pt(750)).inked(Ink::DARK).dashed(Length::um(1_500), Length::um(800))
            }
            Self::Dots => {
                let width = Length::milli_pt(1_250);
                Stroke::solid(width).inked(Ink::DARK).dashed(width, Length::um(1_000))
            }
        }
    }
}

impl Default for TracePiece {
    fn default() -> Self {
        Self {
            of: Template::of_name("word"),
            height: Span::new(13, 16),
            guides: true,
            outline: Outline::Dashes,
            times: 1,
            grow: false,
        }
    }
}

/// The most times that a text stands side by side.
const MOST_TIMES: u8 = 6;

/// Space at both ends of the lines.
const PAD: Length = Length::mm(2);

impl TracePiece {
    fn kind(&self, setting: &Setting<'_>) -> Type {
        written(setting.guides(self.height))
    }

    fn text(&self, item: Numbered<'_>, setting: &Setting<'_>) -> String {
        self.of.fill(item.item, item.number, setting.notation)
    }

    /// How far one text lies from the next.
    fn pitch(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        let kind = self.kind(setting);
        kind.width(&self.text(item, setting)) + kind.size.times(1, 2)
    }

    fn times(&self) -> i64 {
        i64::from(self.times.clamp(1, MOST_TIMES))
    }
}

impl Shape for TracePiece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        let kind = self.kind(setting);
        self.pitch(item, setting) * self.times() - kind.size.times(1, 2) + PAD * 2
    }

    fn grows(&self) -> bool {
        self.grow
    }

    fn height(&self, _: Numbered<'_>, _: &[Numbered<'_>], _: Length, setting: &Setting<'_>) -> Length {
        let height = setting.guides(self.height);
        height + tail(height)
    }

    fn draw(&self, item: Numbered<'_>, _: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>) {
        let height = setting.guides(self.height);
        let top = area.y + (area.height - height - tail(height)).half();
        if self.guides {
            guide_lines(&Area { y: top, ..*area }, height, true, marks);
        }
        let kind = self.kind(setting);
        let text = self.text(item, setting);
        let pitch = self.pitch(item, setting);
        for nth in 0..self.times() {
            let at = Point::new(area.x + PAD + pitch * nth, top + height);
            // A pale letter beneath keeps the lines behind it apart from the dashes, and the word can be searched for.
            let (face, size) = (kind.face, kind.size);
            marks.push(Mark::Text { at, text: text.clone(), face, size, ink: Ink::PALE });
            let segments = kind.face.outlines(&text, kind.size, at);
            if !segments.is_empty() {
                marks.push(Mark::Path { segments, stroke: self.outline.stroke() });
            }
        }
    }
}
