//! Rows of words to read aloud with boxes for the time of each try, and phrases below.

use serde::Deserialize;

use super::TooWide;
use super::grid::numbered;
use crate::layout::area::{Align, Area, Type, across, outline, text_at, text_line};
use crate::layout::band::Band;
use crate::layout::piece::{Numbered, Setting};
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Stroke};
use crate::sheet::Kind;

/// The rows of a reading sheet, with a box for the seconds of each try; then its phrases, with a box to tick for each try. On the
/// key, the boxes of the rows say how many words there are up to the end of the row.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ReadingBlock {
    /// Type size of the words and the phrases in points; 18 or more.
    pub size: Span<Pt>,
    /// How many tries, 0 to 4.
    pub tries: u8,
    /// Space between rows in millimetres: it grows to fill the page.
    pub gap: Span<Mm>,
    /// What stands above the boxes.
    pub label: String,
}

impl Default for ReadingBlock {
    fn default() -> Self {
        Self { size: Span::new(18, 24), tries: 3, gap: Span::new(3, 11), label: "Seconds".to_owned() }
    }
}

/// The height of a row, the size of a box for seconds, and the side of a box to tick.
const ROW: Length = Length::mm(11);
const BOX: Length = Length::mm(13);
const TICK: Length = Length::mm(6);
const BETWEEN: Length = Length::mm(2);

/// The height of a row: that of its boxes, or of its words where they are larger.
fn tall(kind: Type) -> Length {
    ROW.max(kind.line_height())
}

impl ReadingBlock {
    fn tries(&self) -> i64 {
        i64::from(self.tries.min(4))
    }

    /// The `nth` box of a row of boxes that ends at `right`.
    fn box_at(&self, nth: i64, right: Length, width: Length, height: Length, row: Length) -> Area {
        let x = right - width * (self.tries() - nth) - BETWEEN * (self.tries() - nth - 1);
        Area { x, y: (row - height).half(), width, height }
    }

    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let items = numbered(&setting.sheet.items);
        let of = |kind: Kind| items.iter().copied().filter(move |item| item.item.kind == kind).collect::<Vec<_>>();
        let (rows, phrases) = (of(Kind::Row), of(Kind::Phrase));
        let kind = Type::black(Face::Regular, self.size.at(setting.percent));
        let mut bands = self.rows(&rows, kind, body, setting)?;
        bands.extend(self.phrases(&phrases, kind, body)?);
        Ok(bands)
    }

    fn rows(
        &self,
        rows: &[Numbered<'_>],
        kind: Type,
        body: &Area,
        setting: &Setting<'_>,
    ) -> Result<Vec<Band>, TooWide> {
        let boxes = (BOX + BETWEEN) * self.tries();
        let tall = tall(kind);
        let count = i64::try_from(rows.iter().map(|row| row.item.shown.len()).max().unwrap_or(1)).unwrap_or(1).max(1);
        let room = body.width - boxes - BETWEEN;
        let widest = rows.iter().flat_map(|row| &row.item.shown).map(|word| kind.width(word)).max().unwrap_or_default();
        let needs = widest + Length::mm(6);
        // Large words of one row may stand on two lines or more.
        let least = if setting.fewer_columns { 1 } else { count };
        let fits = (least..=count).rev().find(|words| room / *words >= needs);
        let Some(per_line) = fits else {
            return Err(TooWide { what: "a word of the rows".to_owned(), needs, has: room / least });
        };
        let lines = (count + per_line - 1) / per_line;
        let width = room / per_line;
        let thin = Stroke::solid(Length::milli_pt(750));
        // The boxes are filled in by the adult, whose texts are dark grey.
        let small = Type::black(Face::Regular, Length::pt(12)).inked(Ink::DARK);
        let mut bands = Vec::new();
        if self.tries() > 0 && !rows.is_empty() {
            let label = if setting.key { "Words so far" } else { &self.label };
            let over = Area { x: body.right() - boxes + BETWEEN, width: boxes - BETWEEN, ..*body };
            let mut marks = vec![text_line(label, small, Align::Center, &over, Length::ZERO)];
            for nth in (0..self.tries()).filter(|_| !setting.key) {
                let column = self.box_at(nth, body.right(), BOX, Length::mm(9), tall);
                marks.push(text_line(&(nth + 1).to_string(), small, Align::Center, &column, small.line_height()));
            }
            let height = small.line_height() * if setting.key { 1 } else { 2 };
            bands.push(Band { gap: Length::mm(5), keep_with_next: true, ..Band::new(height, marks) });
        }
        let mut so_far = 0;
        for (at, row) in rows.iter().enumerate() {
            let mut marks: Vec<Mark> = Vec::new();
            for (nth, word) in (0..).zip(&row.item.shown) {
                let cell = Area { x: body.x + width * (nth % per_line), width, ..*body };
                let baseline = tall * (nth / per_line) + (tall + kind.face.x_height(kind.size)).half();
                marks.push(text_at(word, kind, Align::Left, &cell, baseline));
            }
            so_far += row.item.shown.len();
            for nth in 0..self.tries() {
                let area = self.box_at(nth, body.right(), BOX, Length::mm(9), tall);
                if !setting.key {
                    marks.push(outline(&area, Length::mm(1), thin));
                } else if nth + 1 == self.tries() {
                    let over = Area { x: body.right() - boxes + BETWEEN, width: boxes - BETWEEN, ..area };
                    let baseline = (tall + small.face.x_height(small.size)).half();
                    marks.push(text_at(&so_far.to_string(), small, Align::Center, &over, baseline));
                }
            }
            let gap = if at == 0 { Length::mm(1) } else { self.gap.least };
            let stretch = if at == 0 { Length::ZERO } else { self.gap.most - self.gap.least };
            bands.push(Band { gap, stretch, ..Band::new(tall * lines, marks) });
        }
        Ok(bands)
    }

    /// The phrases in two columns, each with boxes to tick, below a thin line.
    fn phrases(&self, phrases: &[Numbered<'_>], kind: Type, body: &Area) -> Result<Vec<Band>, TooWide> {
        let gutter = Length::mm(10);
        let tall = tall(kind);
        let ticks = (TICK + BETWEEN) * self.tries();
        let widest = phrases.iter().map(|phrase| kind.width(&phrase.item.word)).max().unwrap_or_default();
        let needs = widest + ticks;
        let columns = if (body.width - gutter).half() >= needs { 2 } else { 1 };
        if needs > body.width {
            return Err(TooWide { what: "a phrase".to_owned(), needs, has: body.width });
        }
        let width = (body.width - gutter * (columns - 1)) / columns;
        let mut bands = Vec::new();
        for (at, row) in phrases.chunks(usize::try_from(columns).unwrap_or(1)).enumerate() {
            let mut marks = Vec::new();
            for (nth, phrase) in (0..).zip(row) {
                let x = body.x + (width + gutter) * nth;
                let cell = Area { x, width, ..*body };
                let baseline = (tall + kind.face.x_height(kind.size)).half();
                marks.push(text_at(&phrase.item.word, kind, Align::Left, &cell, baseline));
                for tick in 0..self.tries() {
                    let area = self.box_at(tick, x + width, TICK, TICK, tall);
                    marks.push(outline(&area, Length::mm(1), Stroke::solid(Length::milli_pt(750))));
                }
            }
            let stretch = self.gap.most - self.gap.least;
            if at == 0 {
                let rule = Stroke::solid(Stroke::THINNEST).inked(Ink::MID);
                let line = vec![across(body.x, body.right(), Length::ZERO, rule)];
                let gap = Length::mm(4);
                bands.push(Band { gap, stretch, keep_with_next: true, ..Band::new(Length::ZERO, line) });
            }
            let gap = if at == 0 { Length::mm(4) } else { self.gap.least };
            bands.push(Band {
                gap,
                stretch,
                keep_with_next: at == 0 && phrases.len() > row.len(),
                ..Band::new(tall, marks)
            });
        }
        Ok(bands)
    }
}
