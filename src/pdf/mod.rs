//! Pages to PDF bytes: the same bytes for the same pages, every time.
//!
//! [`write`] takes placed [marks](crate::page::Mark) and nothing else. It measures no text, breaks no line and moves nothing;
//! a mark that lies off the page is drawn off the page. Places from the top left become PDF's points from the bottom left
//! here, once.
//!
//! How a file comes about:
//!
//! 1. `text` collects which characters each face has to draw, numbers their glyphs and refuses those without one;
//! 2. `content` turns each page's marks into drawing operators, with `shapes` for outlines, and the PDF library writes them;
//! 3. `subset` cuts each font down to its numbered glyphs, and `fonts` describes it so that text can be copied and searched;
//! 4. `file` puts the objects together in one fixed order, names them by our own numbers, and signs the file with a hash of
//!    its content.
//!
//! **What is promised**: PDF 1.7; pages exactly as large as asked for; grey only, never colour; only the faces and glyphs that
//! are used; no date, no random or counted name. **What is not**: no tags for screen readers, no PDF/A, no check that text
//! fits or that marks do not cover each other. Text is set glyph by glyph, as [`Face`](crate::page::Face) measures it.

mod content;
mod error;
mod file;
mod fonts;
mod shapes;
mod subset;
mod text;

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test that cannot go on fails")]
mod tests;

pub use error::PdfError;

use std::ops::RangeInclusive;

use crate::page::{Document, Length};

/// The sides of a page that PDF readers must take (ISO 32000-1, annex C).
const SIDES: RangeInclusive<Length> = Length::pt(3)..=Length::pt(14_400);

/// Writes `document` as a PDF file.
///
/// The result depends on `document` alone: not on the clock, the machine, the thread, or what was written before.
///
/// # Errors
/// * [`PdfError::NoPages`] when there is no page at all;
/// * [`PdfError::PageSize`] when a side of a page is less than 3 pt or more than 14 400 pt;
/// * [`PdfError::Undrawable`] when a text has a character that its face has no glyph for;
/// * [`PdfError::BookmarkPage`] when a bookmark points past the last page;
/// * [`PdfError::Font`], [`PdfError::Pages`] or [`PdfError::Write`] when a library fails, which no document should bring about.
pub fn write(document: &Document) -> Result<Vec<u8>, PdfError> {
    check(document)?;
    let glyphs = text::Glyphs::collect(document)?;
    let contents = content::streams(document, &glyphs)?;
    file::assemble(document, contents, &glyphs)
}

/// Refuses what a PDF file cannot hold.
fn check(document: &Document) -> Result<(), PdfError> {
    if document.pages.is_empty() {
        return Err(PdfError::NoPages);
    }
    for (at, page) in document.pages.iter().enumerate() {
        if !SIDES.contains(&page.size.width) || !SIDES.contains(&page.size.height) {
            return Err(PdfError::PageSize { page: at, width: page.size.width, height: page.size.height });
        }
    }
    match document.bookmarks.iter().find(|bookmark| bookmark.page >= document.pages.len()) {
        Some(wrong) => {
            Err(PdfError::BookmarkPage { title: wrong.title.clone(), page: wrong.page, pages: document.pages.len() })
        }
        None => Ok(()),
    }
}
