//! The heading of a sheet, and the mark of a key.

use serde::Deserialize;

use crate::layout::area::{Align, Area, Type, outline, text_line};
use crate::layout::band::Band;
use crate::layout::piece::{On, Setting};
use crate::layout::text::wrap;
use crate::layout::unit::{Pt, Span};
use crate::page::{Face, Ink, Length, Stroke};

/// The sheet's title in bold. On a key, `KEY` and the seed stand in a frame at the right.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct TitleBlock {
    /// Type size in points.
    pub size: Span<Pt>,
    /// Where it stands; on a key it is always at the left.
    pub align: Align,
    /// On which pages it is printed.
    pub on: On,
}

impl Default for TitleBlock {
    fn default() -> Self {
        Self { size: Span::new(22, 24), align: Align::Left, on: On::Both }
    }
}

impl TitleBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
        if !self.on.printed(setting.key) {
            return Vec::new();
        }
        let kind = Type::black(Face::Bold, self.size.at(setting.percent));
        let mut marks = Vec::new();
        let mut width = body.width;
        if setting.key {
            let badge = Type::black(Face::Bold, Length::pt(16));
            let seed = Type::black(Face::Regular, Length::pt(9)).inked(Ink::DARK);
            let text = format!("seed {}", setting.sheet.seed);
            let inner = badge.width("KEY");
            let frame = Area {
                x: body.right() - inner - Length::mm(8),
                y: Length::ZERO,
                width: inner + Length::mm(8),
                height: Length::mm(9),
            };
            marks.push(outline(&frame, Length::um(1_500), Stroke::solid(Length::milli_pt(1_500))));
            let top = frame.y + (frame.height - badge.line_height()).half();
            marks.push(text_line("KEY", badge, Align::Center, &frame, top));
            let shown = seed.shrunk_to(&text, Length::mm(60));
            let beside = Area { width: frame.x - Length::mm(3) - body.x, ..frame };
            let beside = Area { x: body.x, ..beside };
            marks.push(text_line(&text, shown, Align::Right, &beside, (frame.height - shown.line_height()).half()));
            width = frame.x - body.x - Length::mm(8) - shown.width(&text);
        }
        let align = if setting.key { Align::Left } else { self.align };
        let area = Area { width, ..*body };
        let mut top = Length::ZERO;
        for line in wrap(&setting.sheet.title, kind, width) {
            marks.push(text_line(&line, kind.shrunk_to(&line, width), align, &area, top));
            top += kind.line_height();
        }
        vec![Band { keep_with_next: true, ..Band::new(top.max(Length::mm(9)), marks).below(Length::mm(3)) }]
    }
}
