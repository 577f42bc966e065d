//! The columns of a sort, with lines to write on.

use serde::Deserialize;

use super::TooWide;
use crate::layout::area::{Align, Area, Type, outline, text_at, text_line};
use crate::layout::band::Band;
use crate::layout::piece::{Setting, guide_lines, tail, written};
use crate::layout::unit::{In, Mm, Pt, Span};
use crate::page::{Face, Length, Stroke};

/// One column for each blend: a header, and as many lines as the longest column has words.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ColumnsBlock {
    /// Type size of the headers in points.
    pub header: Span<Pt>,
    /// From the top line to the base line of a write-on line, in millimetres.
    pub line: Span<Mm>,
    /// Space between lines in millimetres: it grows to fill the page.
    pub gap: Span<Mm>,
    /// Space between columns in millimetres.
    pub gutter: In<Mm>,
    /// Whether the top and the dashed middle line are drawn.
    pub guides: bool,
    /// How many lines more than words, 0 to 6.
    pub extra: u8,
}

impl Default for ColumnsBlock {
    fn default() -> Self {
        Self {
            header: Span::new(28, 36),
            line: Span::new(10, 13),
            gap: Span::new(5, 9),
            gutter: In::new(8),
            guides: true,
            extra: 0,
        }
    }
}

impl ColumnsBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let columns = &setting.sheet.columns;
        let count = i64::try_from(columns.len()).unwrap_or(1).max(1);
        let width = (body.width - self.gutter.0 * (count - 1)) / count;
        let header = Type::black(Face::Bold, self.header.at(setting.percent));
        let needs = columns.iter().map(|c| header.width(&c.blend)).max().unwrap_or_default() + Length::mm(4);
        if needs > width {
            return Err(TooWide { what: "a column's header".to_owned(), needs, has: width });
        }
        let areas: Vec<Area> = (0..count)
            .map(|nth| Area { x: body.x + (width + self.gutter.0) * nth, y: Length::ZERO, width, height: Length::ZERO })
            .collect();
        let head_height = header.line_height() + Length::mm(2);
        let mut marks = Vec::new();
        for (column, area) in columns.iter().zip(&areas) {
            let frame = Area { height: head_height, ..*area };
            marks.push(outline(&frame, Length::mm(2), Stroke::solid(Length::milli_pt(1_500))));
            marks.push(text_line(&column.blend, header, Align::Center, &frame, Length::mm(1)));
        }
        let head =
            Band { gap: Length::mm(5), stretch: Length::mm(3), keep_with_next: true, ..Band::new(head_height, marks) };
        let mut bands = vec![head];
        let lines = columns.iter().map(|c| c.words.len()).max().unwrap_or(0) + usize::from(self.extra.min(6));
        let height = setting.guides(self.line);
        // The tails of letters hang into the space between lines; the last line of a page needs room for its own.
        let tail = tail(height);
        let gap = (self.gap.least + Length::mm(1) - tail).at_least_zero();
        for nth in 0..lines {
            let mut marks = Vec::new();
            for (column, area) in columns.iter().zip(&areas) {
                guide_lines(area, height, self.guides, &mut marks);
                if let Some(word) = column.words.get(nth).filter(|_| setting.key) {
                    let kind = written(height).shrunk_to(word, width - Length::mm(2));
                    let inner = Area { x: area.x + Length::mm(1), ..*area };
                    marks.push(text_at(word, kind, Align::Left, &inner, height));
                }
            }
            bands.push(Band {
                gap: if nth == 0 { Length::mm(4) } else { gap },
                stretch: self.gap.most - self.gap.least,
                // The last two lines stay together, and the first two stay with the headers.
                keep_with_next: nth == 0 || nth + 2 == lines,
                ..Band::new(height + tail, marks)
            });
        }
        Ok(bands)
    }
}
