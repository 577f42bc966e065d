//! Pieces: what a cell of a grid is made of. One file each; they know one item at a time.

mod boxes;
mod choices;
mod frame;
mod group;
mod line;
mod panel;
mod places;
mod space;
mod text;

pub use boxes::BoxesPiece;
pub use choices::ChoicesPiece;
pub use frame::FramePiece;
pub use group::{RowPiece, StackPiece};
pub use line::{LinePiece, guide_lines, tail, written};
pub use panel::PanelPiece;
pub use places::PlacesPiece;
pub use space::SpacePiece;
pub use text::{On, TextPiece};

use super::area::Area;
use crate::page::{Length, Mark};
use crate::sheet::{Item, Sheet};
use crate::sounds::Notation;
use crate::yaml::named_choice;

named_choice! {
    /// A piece of a cell, as a layout writes it.
    #[derive(Clone, Debug, PartialEq)]
    pub enum Piece: "piece" {
        /// Words.
        Text(TextPiece) = "text",
        /// A row of sound boxes.
        Boxes(BoxesPiece) = "boxes",
        /// A line to write on.
        Line(LinePiece) = "line",
        /// A frame to draw in.
        Frame(FramePiece) = "frame",
        /// Pieces side by side.
        Row(RowPiece) = "row",
        /// Pieces one below the other.
        Stack(StackPiece) = "stack",
        /// Empty space.
        Space(SpacePiece) = "space",
        /// Choices in a row, one of which is to be circled.
        Choices(ChoicesPiece) = "choices",
        /// Three boxes for the beginning, the middle and the end of a word.
        Places(PlacesPiece) = "places",
        /// Pieces in a rounded frame.
        Panel(PanelPiece) = "panel",
    }
}

/// What pieces and blocks have to know beside their own numbers.
#[derive(Clone, Copy, Debug)]
pub struct Setting<'a> {
    /// How large things are between their least (0) and their most (100).
    pub percent: i64,
    /// Whether the key is drawn: the same page filled in.
    pub key: bool,
    /// How sounds are written.
    pub notation: Notation,
    /// The content.
    pub sheet: &'a Sheet,
    /// Whether a grid may have fewer columns than it asks for.
    pub fewer_columns: bool,
}

/// An item with its number on the sheet, from 1; the start of a ladder has none.
#[derive(Clone, Copy, Debug)]
pub struct Numbered<'a> {
    /// The item.
    pub item: &'a Item,
    /// Its number.
    pub number: Option<usize>,
}

/// How a piece is measured and drawn.
pub trait Shape {
    /// The width it needs for one item.
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length;

    /// Whether it takes up width that is left over in a row.
    fn grows(&self) -> bool {
        false
    }

    /// The greatest width that it needs for any of the items.
    fn widest(&self, items: &[Numbered<'_>], setting: &Setting<'_>) -> Length {
        items.iter().map(|item| self.width(*item, setting)).max().unwrap_or_default()
    }

    /// The height it needs for one item in a given width, lined up with `all` items.
    fn height(&self, item: Numbered<'_>, all: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Length;

    /// Draws it for one item. `all` are the items of the whole grid, by which pieces in a row are lined up.
    fn draw(&self, item: Numbered<'_>, all: &[Numbered<'_>], area: &Area, setting: &Setting<'_>, marks: &mut Vec<Mark>);
}

impl Piece {
    fn shape(&self) -> &dyn Shape {
        match self {
            Self::Text(piece) => piece,
            Self::Boxes(piece) => piece,
            Self::Line(piece) => piece,
            Self::Frame(piece) => piece,
            Self::Row(piece) => piece,
            Self::Stack(piece) => piece,
            Self::Space(piece) => piece,
            Self::Choices(piece) => piece,
            Self::Places(piece) => piece,
            Self::Panel(piece) => piece,
        }
    }

    /// The names of item texts that it prints, so that a layout can be checked before it is used.
    pub fn names(&self) -> Vec<String> {
        match self {
            Self::Text(text) => text.of.names().map(str::to_owned).collect(),
            Self::Line(line) => line.answer.names().map(str::to_owned).collect(),
            Self::Row(row) => row.of.iter().flat_map(Self::names).collect(),
            Self::Stack(stack) => stack.of.iter().flat_map(Self::names).collect(),
            Self::Panel(panel) => panel.of.iter().flat_map(Self::names).collect(),
            _ => Vec::new(),
        }
    }
}

impl Shape for Piece {
    fn width(&self, item: Numbered<'_>, setting: &Setting<'_>) -> Length {
        self.shape().width(item, setting)
    }

    fn grows(&self) -> bool {
        self.shape().grows()
    }

    fn widest(&self, items: &[Numbered<'_>], setting: &Setting<'_>) -> Length {
        self.shape().widest(items, setting)
    }

    fn height(&self, item: Numbered<'_>, all: &[Numbered<'_>], width: Length, setting: &Setting<'_>) -> Length {
        self.shape().height(item, all, width, setting)
    }

    fn draw(
        &self,
        item: Numbered<'_>,
        all: &[Numbered<'_>],
        area: &Area,
        setting: &Setting<'_>,
        marks: &mut Vec<Mark>,
    ) {
        self.shape().draw(item, all, area, setting, marks);
    }
}
