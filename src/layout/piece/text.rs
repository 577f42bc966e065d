//! Words in a cell.

use serde::Deserialize;

use super::{Numbered, Setting, Shape};
use crate::layout::area::{Align, Area, Type, text_line};
use crate::layout::text::{Template, wrap};
use crate::layout::unit::{Pt, Span};
use crate::page::{Face, Ink, Length, Mark};

/// A text, such as `{word}` or `{n}. {clue}`.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TextPiece {
    /// The text; names in braces are filled from the item.
    #[serde(deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub of: Template,
    /// Type size in points. Words that a child reads are 18 pt or more.
    #[serde(default = "default_size")]
    pub size: Span<Pt>,
    /// Whether it is bold.
    #[serde(default)]
    pub bold: bool,
    /// Whether it is dark grey, for what should step back.
    #[serde(default)]
    pub grey: bool,
    /// Where it stands in its width.
    #[serde(default)]
    pub align: Align,
    /// Whether it may run over more lines; it then takes up the width that is left.
    #[serde(default)]
    pub wrap: bool,
    /// On which pages it is printed.
    #[serde(default)]
    pub on: On,
}

/// On which of the two pages something is printed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum On {
    /// On the sheet and on its key.
    #[default]
    Both,
    /// On the sheet only.
    Sheet,
    /// On the key only.
    Key,
}

impl On {
    /// Whether it is printed on the page that is drawn.
    #[must_use]
    pub const fn printed(self, key: bool) -> bool {
        match self {
            Self::Both => true,
            Self::Sheet => !key,
            Self::Key => key,
        }
    }
}

fn default_size() -> Span<Pt> {
    Span::new(20, 24)
}

impl TextPiece {
    fn kind(&self, setting: &Setting<'_>) -> Type {
        let face = if self.bold { Face::Bold } else { Face::Regular };
        let kind = Type::black(face, self.size.at(setting.percent));
        if self.grey { kind.inked(Ink::DARK) } else { kind }
    }

    fn text(&self, item: Numbered<'_>, setting: &Setting<'_>) -> String {
        self.of.fill(item.item, item.number, setting.notation)
    }
}

impl Shape for TextPiece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        if !self.on.printed(setting.key) {
            return Length::ZERO;
        }
        let kind = self.kind(setting);
        let text = self.text(item, setting);
        if self.wrap {
            return text.split_whitespace().map(|word| kind.width(word)).max().unwrap_or_default();
        }
        kind.width(&text)
    }

    fn grows(&self) -> bool {
        self.wrap
    }

    fn height(&self, item: Numbered<'_>, _: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Length {
        let kind = self.kind(setting);
        let text = self.text(item, setting);
        // What no item has on this page takes no room on it.
        if text.is_empty() || !self.on.printed(setting.key) {
            return Length::ZERO;
        }
        let lines = if self.wrap { wrap(&text, kind, width).len().max(1) } else { 1 };
        kind.line_height() * i64::try_from(lines).unwrap_or(1)
    }

    fn draw(&self, item: Numbered<'_>, _: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>) {
        if !self.on.printed(setting.key) {
            return;
        }
        let kind = self.kind(setting);
        let text = self.text(item, setting);
        let lines = if self.wrap { wrap(&text, kind, area.width) } else { vec![text] };
        let height = kind.line_height() * i64::try_from(lines.len()).unwrap_or(1);
        let mut top = area.y + (area.height - height).half();
        for line in lines.iter().filter(|line| !line.is_empty()) {
            marks.push(text_line(line, kind, self.align, area, top));
            top += kind.line_height();
        }
    }
}
