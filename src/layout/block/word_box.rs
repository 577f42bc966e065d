//! The words to use, in a box.

use serde::Deserialize;

use super::TooWide;
use crate::layout::area::{Align, Area, Type, outline, text_line};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::unit::{Pt, Span};
use crate::page::{Face, Length, Stroke};

/// A rounded box with the word bank's words in even columns.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct WordBoxBlock {
    /// Type size in points; 18 or more for words that a child reads.
    pub size: Span<Pt>,
    /// The most columns of words, 1 to 8.
    pub columns: u8,
}

impl Default for WordBoxBlock {
    fn default() -> Self {
        Self { size: Span::new(18, 22), columns: 5 }
    }
}

const PAD: Length = Length::mm(4);

impl WordBoxBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let words = &setting.sheet.word_bank;
        if words.is_empty() {
            return Ok(Vec::new());
        }
        let kind = Type::black(Face::Regular, self.size.at(setting.percent));
        let inner = body.width - PAD * 2;
        let widest = words.iter().map(|word| kind.width(word)).max().unwrap_or_default() + Length::mm(4);
        let most = i64::from(self.columns.clamp(1, 8)).min(i64::try_from(words.len()).unwrap_or(8));
        let fits = inner.fits(widest).min(most);
        if fits < 1 {
            return Err(TooWide { what: "a word in the box".to_owned(), needs: widest, has: inner });
        }
        let count = i64::try_from(words.len()).unwrap_or(1);
        let rows = (count + fits - 1) / fits;
        // Even rows: as many columns as leave the last row the fullest.
        let columns = (count + rows - 1) / rows;
        let width = inner / columns;
        let line = kind.line_height() + Length::mm(1);
        let height = line * rows + PAD;
        let frame = Area { y: Length::ZERO, height, ..*body };
        let mut marks = vec![outline(&frame, Length::mm(3), Stroke::solid(Length::milli_pt(1_000)))];
        for (at, word) in words.iter().enumerate() {
            let at = i64::try_from(at).unwrap_or(0);
            let cell = Area { x: body.x + PAD + width * (at % columns), width, ..frame };
            marks.push(text_line(
                word,
                kind,
                Align::Center,
                &cell,
                PAD.half() + Length::um(500) + line * (at / columns),
            ));
        }
        Ok(vec![Band { keep_with_next: true, stretch: Length::mm(3), ..Band::new(height, marks).below(Length::mm(4)) }])
    }
}
