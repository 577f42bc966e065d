//! Blocks: what a page is made of, from top to bottom. One file each.

mod boards;
mod cards;
mod columns;
mod dice_table;
mod directions;
mod footer;
mod grid;
mod lesson;
mod letter_grid;
mod lines;
mod matching;
mod name_line;
mod path;
mod plain;
mod practised;
mod reading;
mod table;
mod title;
mod word_box;

pub use boards::BoardsBlock;
pub use cards::CardsBlock;
pub use columns::ColumnsBlock;
pub use dice_table::DiceTableBlock;
pub use directions::DirectionsBlock;
pub use footer::{FooterBlock, FooterTexts};
pub use grid::{GridBlock, RowsBlock};
pub use lesson::LessonBlock;
pub use letter_grid::LetterGridBlock;
pub use lines::LinesBlock;
pub use matching::MatchingBlock;
pub use name_line::NameLineBlock;
pub use path::PathBlock;
pub use plain::{NewPageBlock, SpaceBlock, TextBlock};
pub use practised::PractisedBlock;
pub use reading::ReadingBlock;
pub use table::TableBlock;
pub use title::TitleBlock;
pub use word_box::WordBoxBlock;

use std::collections::BTreeSet;

use super::area::Area;
use super::band::Band;
use super::piece::Setting;
use crate::page::Length;
use crate::yaml::named_choice;

named_choice! {
    /// A block of a page, as a layout writes it.
    #[derive(Clone, Debug, PartialEq)]
    pub enum Block: "block" {
        /// The heading.
        Title(TitleBlock) = "title",
        /// A line for the child's name.
        NameLine(NameLineBlock) = "name-line",
        /// What to do, for the child and for the adult.
        Directions(DirectionsBlock) = "directions",
        /// The items in rows and columns.
        Grid(GridBlock) = "grid",
        /// The items one below the other.
        Rows(RowsBlock) = "rows",
        /// The columns of a sort, with lines to write on.
        Columns(ColumnsBlock) = "columns",
        /// The words to use, in a box.
        WordBox(WordBoxBlock) = "word-box",
        /// Cards to cut.
        Cards(CardsBlock) = "cards",
        /// Lines to write on.
        Lines(LinesBlock) = "lines",
        /// Two columns to be joined by lines.
        Matching(MatchingBlock) = "matching",
        /// Rows of words and phrases to read aloud.
        Reading(ReadingBlock) = "reading",
        /// A text.
        Text(TextBlock) = "text",
        /// Word boards for a group; on the key the order of calling.
        Boards(BoardsBlock) = "boards",
        /// The words in columns headed by the faces of a die.
        DiceTable(DiceTableBlock) = "dice-table",
        /// A winding path of words.
        Path(PathBlock) = "path",
        /// Letters in which words are hidden.
        LetterGrid(LetterGridBlock) = "letter-grid",
        /// The parts of a lesson, with what to say and the answers.
        Lesson(LessonBlock) = "lesson",
        /// Rows of items with boxes to mark for each try.
        Table(TableBlock) = "table",
        /// What the other sheets of the packet practise.
        Practised(PractisedBlock) = "practised",
        /// Empty space.
        Space(SpaceBlock) = "space",
        /// The rest begins on a new page.
        NewPage(NewPageBlock) = "new-page",
        /// What stands at the foot of each page.
        Footer(FooterBlock) = "footer",
    }
}

/// Something that is wider than the page has room for, even at its smallest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TooWide {
    /// What it is.
    pub what: String,
    /// The width it needs.
    pub needs: Length,
    /// The width there is.
    pub has: Length,
}

impl Block {
    /// The bands of the block between the sides of `body` (its top and height do not matter).
    ///
    /// # Errors
    /// When something does not fit into the width.
    pub fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        match self {
            Self::Title(block) => Ok(block.bands(body, setting)),
            Self::NameLine(block) => Ok(block.bands(body, setting)),
            Self::Directions(block) => Ok(block.bands(body, setting)),
            Self::Grid(block) => block.bands(body, setting),
            Self::Rows(block) => block.bands(body, setting),
            Self::Columns(block) => block.bands(body, setting),
            Self::WordBox(block) => block.bands(body, setting),
            Self::Cards(block) => block.bands(body, setting),
            Self::Lines(block) => Ok(block.bands(body, setting)),
            Self::Matching(block) => block.bands(body, setting),
            Self::Reading(block) => block.bands(body, setting),
            Self::Text(block) => Ok(block.bands(body, setting)),
            Self::Boards(block) => block.bands(body, setting),
            Self::DiceTable(block) => block.bands(body, setting),
            Self::Path(block) => block.bands(body, setting),
            Self::LetterGrid(block) => Ok(block.bands(body, setting)),
            Self::Lesson(block) => block.bands(body, setting),
            Self::Table(block) => block.bands(body, setting),
            Self::Practised(block) => Ok(block.bands(body, setting)),
            Self::Space(block) => Ok(block.bands(setting)),
            Self::NewPage(_) | Self::Footer(_) => Ok(Vec::new()),
        }
    }

    /// The names of item texts that it prints, each once.
    #[must_use]
    pub fn names(&self) -> BTreeSet<String> {
        match self {
            Self::Grid(block) => block.cell.iter().flat_map(super::piece::Piece::names).collect(),
            Self::Rows(block) => block.cell.iter().flat_map(super::piece::Piece::names).collect(),
            Self::Matching(block) => block.of.names().map(str::to_owned).collect(),
            Self::Cards(block) => block.names().map(str::to_owned).collect(),
            Self::Table(block) => block.item.names().map(str::to_owned).collect(),
            _ => BTreeSet::new(),
        }
    }

    /// The names of the layout's own texts that it prints.
    pub fn texts(&self) -> impl Iterator<Item = &str> {
        let of = match self {
            Self::Text(block) => Some(&block.of),
            Self::Practised(block) => Some(&block.heading),
            _ => None,
        };
        of.into_iter().flat_map(super::text::Template::names)
    }
}
