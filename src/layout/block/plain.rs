//! A text, empty space, a new page.

use serde::Deserialize;

use crate::layout::area::{Align, Area, Type, text_line};
use crate::layout::band::Band;
use crate::layout::piece::{On, Setting};
use crate::layout::text::{Template, wrap};
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length};

/// A text over the whole width. Names in braces are the layout's own `texts`; where one has nothing to say on this sheet, the block is
/// left out.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TextBlock {
    /// The text.
    #[serde(deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub of: Template,
    /// Type size in points.
    #[serde(default = "size")]
    pub size: Span<Pt>,
    /// Whether it is bold.
    #[serde(default)]
    pub bold: bool,
    /// Whether it is dark grey.
    #[serde(default)]
    pub grey: bool,
    /// Where it stands.
    #[serde(default)]
    pub align: Align,
    /// Space above it in millimetres.
    #[serde(default = "gap")]
    pub gap: Span<Mm>,
    /// On which pages it is printed.
    #[serde(default)]
    pub on: On,
}

fn size() -> Span<Pt> {
    Span::new(14, 14)
}
fn gap() -> Span<Mm> {
    Span::new(3, 3)
}

/// A text with the layout's own texts in it; `None` where one of them has nothing to say.
pub(super) fn said(of: &Template, setting: &Setting<'_>) -> Option<String> {
    let texts = &setting.sheet.texts;
    let missing = of.names().any(|name| texts.get(name).is_none_or(String::is_empty));
    (!missing).then(|| of.fill_with(|name| texts.get(name).cloned()))
}

impl TextBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
        if !self.on.printed(setting.key) {
            return Vec::new();
        }
        let face = if self.bold { Face::Bold } else { Face::Regular };
        let ink = if self.grey { Ink::DARK } else { Ink::BLACK };
        let kind = Type::black(face, self.size.at(setting.percent)).inked(ink);
        let mut marks = Vec::new();
        let mut top = Length::ZERO;
        let Some(text) = said(&self.of, setting) else { return Vec::new() };
        for line in wrap(&text, kind, body.width) {
            marks.push(text_line(&line, kind, self.align, body, top));
            top += kind.line_height();
        }
        vec![Band { keep_with_next: true, ..Band::new(top, marks).below(self.gap.at(setting.percent)) }]
    }
}

/// Empty space between blocks.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct SpaceBlock {
    /// How much, in millimetres: from the least to the most, as the page has room.
    pub of: Span<Mm>,
}

impl Default for SpaceBlock {
    fn default() -> Self {
        Self { of: Span::new(2, 6) }
    }
}

impl SpaceBlock {
    pub(super) fn bands(&self, _: &Setting<'_>) -> Vec<Band> {
        let stretch = self.of.most - self.of.least;
        vec![Band { stretch, keep_with_next: true, ..Band::new(self.of.least, Vec::new()) }]
    }
}

/// What follows begins on a new page.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct NewPageBlock {}
