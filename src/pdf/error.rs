//! Why a document cannot be written as a PDF file.

use crate::page::{Face, Length};

/// Why a document cannot be written as a PDF file.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum PdfError {
    /// The document has no pages; a PDF file must have one.
    #[error("a PDF file needs at least one page, and this document has none")]
    NoPages,
    /// A page has a side of less than 3 pt or more than 14 400 pt.
    #[error("page {page} is {width:?} by {height:?}; each side must be from 3 to 14400 pt", page = .page + 1)]
    PageSize {
        /// The page, counted from 0.
        page: usize,
        /// Its width.
        width: Length,
        /// Its height.
        height: Length,
    },
    /// A text has a character that its face has no glyph for.
    #[error("the font {name} has no glyph for {character:?} (U+{code:04X}), in the text {text:?} on page {page}", name = .face.name(), code = u32::from(*.character), page = .page + 1)]
    Undrawable {
        /// The first such character.
        character: char,
        /// The whole text that it stands in.
        text: String,
        /// The face that the text asks for.
        face: Face,
        /// The page, counted from 0.
        page: usize,
    },
    /// A bookmark points past the last page.
    #[error("the bookmark {title:?} points to page {page}, and there are {pages}", page = .page + 1)]
    BookmarkPage {
        /// The bookmark's title.
        title: String,
        /// The page that it points to, counted from 0.
        page: usize,
        /// How many pages there are.
        pages: usize,
    },
    /// An embedded font cannot be cut down to the glyphs in use.
    #[error("the font {name} cannot be cut down: {reason}", name = .face.name())]
    Font {
        /// The face.
        face: Face,
        /// What is wrong with it.
        reason: String,
    },
    /// The PDF library did not hand back every page.
    #[error("the PDF library wrote {written} of {pages} pages")]
    Pages {
        /// How many pages there are.
        pages: usize,
        /// How many came back.
        written: usize,
    },
    /// The finished objects cannot be written out.
    #[error("the PDF objects cannot be written: {0}")]
    Write(#[from] std::io::Error),
}
