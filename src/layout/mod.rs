//! The layout language, and placing a sheet's content on pages.
//!
//! A [`Layout`] file has two halves: `fill` says how the content is chosen (see [`crate::fill`]), `page` lists [`Block`]s from
//! top to bottom; a grid's cells are made of [`Piece`]s. Sizes are written as ranges, `[least, most]`: [`place()`] takes the
//! largest that need no more pages than the smallest, spreads rows evenly, and leaves no row alone on a last page.
//! A key is the same page with the answers written in. [`bind`] adds the footers once the number of pages is known.
//!
//! All lengths are from the top left. How a page becomes a file is unknown here.

mod area;
mod band;
mod block;
mod language;
mod library;
mod paginate;
mod piece;
mod place;
mod print;
mod spec;
mod text;
mod unit;

pub(crate) use area::{Align, Area, Type, across, text_at, text_line};
pub use block::{Block, FooterBlock};
pub use language::{Language, LanguageError, Translated};
pub use library::{Library, LibraryError, Stored, is_yaml};
pub use piece::Piece;
pub use place::{Options, PlaceError, Placed, bind, drawable, place};
pub use print::{Fullness, Print, PrintBand};
pub use spec::{ITEM_TEXTS, Layout, SHEET_TEXTS};
pub use text::Template;
pub(crate) use text::wrap;
