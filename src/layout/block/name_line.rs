//! The line for the child's name.

use serde::Deserialize;

use crate::layout::area::{Align, Area, Type, across, text_at};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::page::{Face, Length, Stroke};

/// A line for the name, and one for the date. A name that is known is printed on the line; on a key there is none.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct NameLineBlock {
    /// The word before the line; *Name* in the sheet's language when nothing is said.
    pub label: Option<String>,
    /// The word before the line for the date; leave it empty (`""`) for none. *Date* in the sheet's language when nothing is said.
    pub date: Option<String>,
}

const HEIGHT: Length = Length::mm(9);

impl NameLineBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
        if setting.key {
            return Vec::new();
        }
        let labels = &setting.sheet.labels;
        let name = self.label.as_ref().unwrap_or(&labels.name);
        let date = self.date.as_ref().unwrap_or(&labels.date);
        let label = Type::black(Face::Regular, Length::pt(12));
        let stroke = Stroke::solid(Length::milli_pt(750));
        let baseline = HEIGHT - Length::mm(2);
        let mut marks = vec![text_at(name, label, Align::Left, body, baseline)];
        let from = body.x + label.width(name) + Length::mm(3);
        let mut to = body.right();
        if !date.is_empty() {
            let date_from = body.right() - Length::mm(38);
            marks.push(across(date_from, body.right(), baseline + Length::mm(1), stroke));
            let words = Area { width: date_from - Length::mm(2) - body.x, ..*body };
            marks.push(text_at(date, label, Align::Right, &words, baseline));
            to = date_from - label.width(date) - Length::mm(6);
        }
        marks.push(across(from, to, baseline + Length::mm(1), stroke));
        if let Some(child) = &setting.sheet.child {
            let line = Area { x: from + Length::mm(1), width: to - from - Length::mm(2), ..*body };
            let kind = Type::black(Face::Regular, Length::pt(18));
            marks.push(text_at(child, kind.shrunk_to(child, line.width), Align::Left, &line, baseline));
        }
        vec![Band { keep_with_next: true, ..Band::new(HEIGHT, marks).below(Length::mm(2)) }]
    }
}
