//! The items in rows and columns.

use serde::Deserialize;

use super::TooWide;
use crate::layout::area::{Area, across};
use crate::layout::band::Band;
use crate::layout::piece::{Numbered, Piece, Setting, Shape, StackPiece};
use crate::layout::unit::{In, Mm, Span};
use crate::page::{Ink, Length, Stroke};
use crate::sheet::{Item, Kind};

/// The items in a grid of even cells, row by row.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GridBlock {
    /// What a cell is made of, from top to bottom.
    pub cell: Vec<Piece>,
    /// How many columns, 1 to 8; fewer are made when the items are too wide.
    #[serde(default = "two")]
    pub columns: u8,
    /// Space between columns in millimetres.
    #[serde(default = "gutter")]
    pub gutter: In<Mm>,
    /// Space between rows in millimetres: it grows to fill the page.
    #[serde(default = "row_gap")]
    pub gap: Span<Mm>,
    /// Whether a thin line stands between rows.
    #[serde(default)]
    pub rules: bool,
}

/// The items one below the other: a grid of one column.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RowsBlock {
    /// What a row is made of, from top to bottom.
    pub cell: Vec<Piece>,
    /// Space between rows in millimetres: it grows to fill the page.
    #[serde(default = "row_gap")]
    pub gap: Span<Mm>,
    /// Whether a thin line stands between rows.
    #[serde(default)]
    pub rules: bool,
    /// Whether the rows are drawn as the rungs of a ladder.
    #[serde(default)]
    pub ladder: bool,
}

fn two() -> u8 {
    2
}
fn gutter() -> In<Mm> {
    In::new(10)
}
fn row_gap() -> Span<Mm> {
    Span::new(4, 16)
}

/// The most columns of a grid.
pub const MOST_COLUMNS: u8 = 8;

/// How far the rails of a ladder stand in from the sides of the page's body, and its content from the rails.
const RAIL_INSET: Length = Length::mm(3);
const INSIDE_RAIL: Length = Length::mm(7);

/// Items with their numbers; the start of a ladder is not counted.
pub fn numbered(items: &[Item]) -> Vec<Numbered<'_>> {
    let mut next = 0;
    items
        .iter()
        .map(|item| {
            let number = (item.kind != Kind::Start).then(|| {
                next += 1;
                next
            });
            Numbered { item, number }
        })
        .collect()
}

fn stack(cell: &[Piece]) -> StackPiece {
    StackPiece { of: cell.to_vec(), gap: In::new(1) }
}

/// The height of a cell, which is the same for all items.
fn tallest(cell: &StackPiece, items: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Length {
    items.first().map_or(Length::ZERO, |item| cell.height(*item, items, width, setting))
}

impl GridBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let items = numbered(&setting.sheet.items);
        let cell = stack(&self.cell);
        let needs = cell.widest(&items, setting);
        let wanted = i64::from(self.columns.clamp(1, MOST_COLUMNS));
        let width_of = |columns: i64| (body.width - self.gutter.0 * (columns - 1)) / columns;
        let least = if setting.fewer_columns { 1 } else { wanted };
        let columns = (least..=wanted).rev().find(|columns| width_of(*columns) >= needs).ok_or_else(|| TooWide {
            what: "an item of the grid".to_owned(),
            needs,
            has: width_of(least),
        })?;
        let width = width_of(columns);
        let height = tallest(&cell, &items, width, setting);
        let per_row = usize::try_from(columns).unwrap_or(1);
        let mut bands = Vec::new();
        for row in items.chunks(per_row) {
            let mut marks = Vec::new();
            let mut x = body.x;
            for item in row {
                let area = Area { x, y: Length::ZERO, width, height };
                cell.draw(*item, &items, &area, setting, &mut marks);
                x += width + self.gutter.0;
            }
            bands.push(Band::new(height, marks));
        }
        let rule = self.rules.then_some((body.x, body.right()));
        Ok(spaced(bands, self.gap, rule))
    }
}

impl RowsBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let items = numbered(&setting.sheet.items);
        let cell = stack(&self.cell);
        let inset = if self.ladder { RAIL_INSET + INSIDE_RAIL } else { Length::ZERO };
        let width = body.width - inset * 2;
        let needs = cell.widest(&items, setting);
        if needs > width {
            return Err(TooWide { what: "an item of the rows".to_owned(), needs, has: width });
        }
        let height = tallest(&cell, &items, width, setting);
        let mut bands = Vec::new();
        for item in &items {
            let mut marks = Vec::new();
            let area = Area { x: body.x + inset, y: Length::ZERO, width, height };
            cell.draw(*item, &items, &area, setting, &mut marks);
            bands.push(Band::new(height, marks));
        }
        if self.ladder {
            return Ok(laddered(bands, self.gap, body));
        }
        let rule = self.rules.then_some((body.x, body.right()));
        Ok(spaced(bands, self.gap, rule))
    }
}

/// Rows between the rungs of a ladder: a rung above the first, and one below each, in the middle of the space between two.
fn laddered(rows: Vec<Band>, gap: Span<Mm>, body: &Area) -> Vec<Band> {
    let stroke = Stroke::solid(Length::milli_pt(2_500));
    let (left, right) = (body.x + RAIL_INSET, body.right() - RAIL_INSET);
    let half = gap.least.half().max(Length::mm(2));
    let stretch = (gap.most - gap.least).half();
    let rails = vec![(left, stroke), (right, stroke)];
    let rung = |keep_with_next| Band {
        gap: half,
        stretch,
        keep_with_next,
        rails: rails.clone(),
        ..Band::new(Length::ZERO, vec![across(left, right, Length::ZERO, stroke)])
    };
    let mut bands = vec![Band { gap: Length::mm(5), stretch: Length::mm(3), ..rung(true) }];
    for row in rows {
        let above_first = vec![across(left, right, Length::ZERO - half, stroke)];
        // A row that begins a page has no rung above it yet.
        let opening = if bands.len() == 1 { Vec::new() } else { above_first };
        bands.push(Band { gap: half, stretch, keep_with_next: true, opening, rails: rails.clone(), ..row });
        bands.push(rung(false));
    }
    bands
}

/// Rows with space between them that can grow, and a thin line in it if wanted.
fn spaced(mut bands: Vec<Band>, gap: Span<Mm>, rule: Option<(Length, Length)>) -> Vec<Band> {
    let rows = bands.len();
    for (at, band) in bands.iter_mut().enumerate() {
        band.gap = if at == 0 { Length::mm(4) } else { gap.least };
        band.stretch = if at == 0 { Length::mm(4) } else { gap.most - gap.least };
        if let Some((from, to)) = rule.filter(|_| at + 1 < rows) {
            let thin = Stroke::solid(Stroke::THINNEST).inked(Ink::MID);
            band.between.push(across(from, to, band.height + gap.least.half(), thin));
        }
    }
    bands
}
