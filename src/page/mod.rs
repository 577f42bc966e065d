//! Pages as flat lists of placed marks, and the fonts that measure them.
//!
//! All places are from the **top left** corner of the page, in [`Length`]s; they are turned into PDF points, from the bottom
//! left, once, in [`crate::pdf`]. Nothing here knows how a page came about.

mod font;
mod length;
mod mark;
mod paper;

pub use font::Face;
pub use length::Length;
pub use mark::{Bookmark, Document, Ink, Mark, Page, Point, Segment, Size, Stroke};
pub use paper::Paper;
