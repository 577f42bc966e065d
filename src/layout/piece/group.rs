//! Pieces side by side and one below the other.

use serde::Deserialize;

use super::{Numbered, Piece, Setting, Shape};
use crate::layout::area::Area;
use crate::layout::unit::{In, Mm};
use crate::page::{Length, Mark};

/// Pieces side by side, each in the middle of the row's height. A piece is as wide in each row of a grid as its widest, so
/// that the rows line up; pieces that grow share what is left.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RowPiece {
    /// The pieces, from left to right.
    pub of: Vec<Piece>,
    /// Space between them in millimetres.
    #[serde(default = "default_gap")]
    pub gap: In<Mm>,
}

/// Pieces one below the other.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StackPiece {
    /// The pieces, from top to bottom.
    pub of: Vec<Piece>,
    /// Space between them in millimetres.
    #[serde(default = "small_gap")]
    pub gap: In<Mm>,
}

fn default_gap() -> In<Mm> {
    In::new(4)
}
fn small_gap() -> In<Mm> {
    In::new(1)
}

fn gaps(gap: Length, pieces: usize) -> Length {
    gap * i64::try_from(pieces.saturating_sub(1)).unwrap_or(0)
}

impl RowPiece {
    /// The width of each piece when the row has `width` in all.
    fn widths(&self, all: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Vec<Length> {
        let mut widths: Vec<Length> = self.of.iter().map(|piece| piece.widest(all, setting)).collect();
        let growers = self.of.iter().filter(|piece| piece.grows()).count();
        let spare = width - gaps(self.gap.0, widths.len()) - widths.iter().copied().sum();
        if growers > 0 && spare > Length::ZERO {
            let share = spare / i64::try_from(growers).unwrap_or(1);
            for (piece, width) in self.of.iter().zip(&mut widths) {
                if piece.grows() {
                    *width += share;
                }
            }
        }
        widths
    }
}

impl RowPiece {
    /// The places of the pieces from left to right. For a left hand what is to be copied stands at the right of where it is
    /// written; a number stays in front.
    fn order(&self, setting: &Setting<'_>) -> Vec<usize> {
        let mut order: Vec<usize> = (0..self.of.len()).collect();
        if setting.left_hand() {
            let numbers = self.of.iter().take_while(|piece| piece.is_number()).count();
            let rest = &self.of[numbers..];
            let model = rest.iter().position(Piece::is_model);
            let line = rest.iter().rposition(Shape::is_written_on);
            if model.zip(line).is_some_and(|(model, line)| model < line) {
                order[numbers..].reverse();
            }
        }
        order
    }
}

impl Shape for RowPiece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        self.of.iter().map(|piece| piece.width(item, setting)).sum::<Length>() + gaps(self.gap.0, self.of.len())
    }

    fn grows(&self) -> bool {
        self.of.iter().any(Shape::grows)
    }

    fn is_written_on(&self) -> bool {
        self.of.iter().any(Shape::is_written_on)
    }

    fn widest(&self, items: &[Numbered<'_>], setting: &Setting<'_>) -> Length {
        self.of.iter().map(|piece| piece.widest(items, setting)).sum::<Length>() + gaps(self.gap.0, self.of.len())
    }

    fn height(&self, item: Numbered<'_>, all: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Length {
        let widths = self.widths(all, width, setting);
        let heights = self.of.iter().zip(widths).map(|(piece, width)| piece.height(item, all, width, setting));
        heights.max().unwrap_or_default()
    }

    fn draw(
        &self,
        item: Numbered<'_>,
        all: &[Numbered<'_>],
        area: &Area,
        setting: &Setting<'_>,
        marks: &mut Vec<Mark>,
    ) {
        let mut x = area.x;
        let widths = self.widths(all, area.width, setting);
        for at in self.order(setting) {
            let width = widths[at];
            self.of[at].draw(item, all, &Area { x, width, ..*area }, setting, marks);
            x += width + self.gap.0;
        }
    }
}

impl StackPiece {
    /// The height of each piece, which is that of the tallest among all items, so that the pieces line up from cell to cell.
    fn heights(&self, all: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Vec<Length> {
        let of =
            |piece: &Piece| all.iter().map(|item| piece.height(*item, all, width, setting)).max().unwrap_or_default();
        self.of.iter().map(of).collect()
    }
}

impl Shape for StackPiece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        self.of.iter().map(|piece| piece.width(item, setting)).max().unwrap_or_default()
    }

    fn grows(&self) -> bool {
        self.of.iter().any(Shape::grows)
    }

    fn is_written_on(&self) -> bool {
        self.of.iter().any(Shape::is_written_on)
    }

    fn widest(&self, items: &[Numbered<'_>], setting: &Setting<'_>) -> Length {
        self.of.iter().map(|piece| piece.widest(items, setting)).max().unwrap_or_default()
    }

    fn height(&self, _: Numbered<'_>, all: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Length {
        self.heights(all, width, setting).into_iter().sum::<Length>() + gaps(self.gap.0, self.of.len())
    }

    fn draw(
        &self,
        item: Numbered<'_>,
        all: &[Numbered<'_>],
        area: &Area,
        setting: &Setting<'_>,
        marks: &mut Vec<Mark>,
    ) {
        let heights = self.heights(all, area.width, setting);
        let used = heights.iter().copied().sum::<Length>() + gaps(self.gap.0, heights.len());
        let mut y = area.y + (area.height - used).at_least_zero().half();
        for (piece, height) in self.of.iter().zip(heights) {
            piece.draw(item, all, &Area { y, height, ..*area }, setting, marks);
            y += height + self.gap.0;
        }
    }
}
