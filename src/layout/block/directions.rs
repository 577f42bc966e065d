//! What to do: a short line for the child, a smaller one for the adult.

use serde::Deserialize;

use crate::layout::area::{Align, Area, Type, text_line};
use crate::layout::band::Band;
use crate::layout::piece::{On, Setting};
use crate::layout::text::wrap;
use crate::layout::unit::{In, Pt};
use crate::page::{Face, Ink, Length};
use crate::sheet::Reader;

/// The sheet's directions and its note for the adult. On a key, what the sheet practises and the standards stand here; on a sheet for
/// the teacher, which has no key, below them.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct DirectionsBlock {
    /// Type size of the line for the child, in points; 12 to 14.
    pub size: In<Pt>,
    /// Type size of the note for the adult, in points.
    pub note_size: In<Pt>,
    /// On which pages it is printed.
    pub on: On,
}

impl Default for DirectionsBlock {
    fn default() -> Self {
        Self { size: In::new(14), note_size: In::new(10), on: On::Both }
    }
}

impl DirectionsBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
        if !self.on.printed(setting.key) {
            return Vec::new();
        }
        let sheet = setting.sheet;
        let child = Type::black(Face::Regular, setting.percent.directions(self.size.0));
        let adult = Type::black(Face::Regular, self.note_size.0).inked(Ink::DARK);
        let mut texts = vec![(sheet.directions.clone(), child), (sheet.note.clone(), adult)];
        if setting.key {
            texts = vec![(skill_line(sheet), adult)];
        } else if sheet.reader == Reader::Teacher {
            texts.push((skill_line(sheet), adult));
        }
        let mut marks = Vec::new();
        let mut top = Length::ZERO;
        for (text, kind) in texts.into_iter().filter(|(text, _)| !text.is_empty()) {
            for line in wrap(&text, kind, body.width) {
                marks.push(text_line(&line, kind, Align::Left, body, top));
                top += kind.line_height();
            }
            top += Length::um(500);
        }
        if marks.is_empty() {
            return Vec::new();
        }
        vec![Band { keep_with_next: true, ..Band::new(top, marks).below(Length::mm(2)) }]
    }
}

/// What the sheet practises, at which step, and the standards that it serves.
fn skill_line(sheet: &crate::sheet::Sheet) -> String {
    let mut parts = Vec::new();
    if !sheet.skill.is_empty() {
        parts.push(sheet.skill.clone());
    }
    parts.push(format!("Step {}: {}.", sheet.step.number, sheet.step.title));
    if !sheet.standards.is_empty() {
        parts.push(format!("Standards: {}.", sheet.standards.join(", ")));
    }
    parts.join(" ")
}
