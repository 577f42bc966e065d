//! What the other sheets of the packet practise, for the family.

use serde::Deserialize;

use super::plain::said;
use crate::layout::area::{Align, Area, Type, text_line};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::text::{Template, wrap};
use crate::layout::unit::{Pt, Span};
use crate::page::{Face, Length};

/// The other sheets of the packet, each by its title with what it practises. Without other sheets there is nothing, and no heading.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct PractisedBlock {
    /// A heading above; names in braces are the layout's own texts.
    #[serde(deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub heading: Template,
    /// Type size in points.
    pub size: Span<Pt>,
}

impl Default for PractisedBlock {
    fn default() -> Self {
        Self { heading: Template::default(), size: Span::new(11, 12) }
    }
}

/// How far lines stand in from the left edge.
const INDENT: Length = Length::mm(5);

impl PractisedBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
        let practised = &setting.sheet.practised;
        if practised.is_empty() {
            return Vec::new();
        }
        let size = self.size.at(setting.percent);
        let (plain, bold) = (Type::black(Face::Regular, size), Type::black(Face::Bold, size));
        let mut bands = Vec::new();
        if let Some(heading) = said(&self.heading, setting).filter(|heading| !heading.is_empty()) {
            let kind = Type { size: size + Length::pt(2), ..bold };
            let marks =
                vec![text_line(&heading, kind.shrunk_to(&heading, body.width), Align::Left, body, Length::ZERO)];
            bands.push(Band { keep_with_next: true, ..Band::new(kind.line_height(), marks).below(Length::mm(4)) });
        }
        for sheet in practised {
            let line = Area { x: body.x + INDENT, width: body.width - INDENT, ..*body };
            let mut marks = vec![text_line("•", bold, Align::Left, body, Length::ZERO)];
            let mut top = Length::ZERO;
            let title = format!("{}:", sheet.title);
            // The skill goes on beside the title, and below it where it is long.
            let beside = bold.width(&title) + plain.width(" ");
            if beside + plain.width(&sheet.skill) <= line.width {
                marks.push(text_line(&title, bold, Align::Left, &line, top));
                let rest = Area { x: line.x + beside, width: line.width - beside, ..line };
                marks.push(text_line(&sheet.skill, plain, Align::Left, &rest, top));
                top += plain.line_height();
            } else {
                for (text, kind) in [(&title, bold), (&sheet.skill, plain)] {
                    for words in wrap(text, kind, line.width) {
                        marks.push(text_line(&words, kind, Align::Left, &line, top));
                        top += kind.line_height();
                    }
                }
            }
            bands.push(Band::new(top, marks).below(Length::um(1_200)));
        }
        bands
    }
}
