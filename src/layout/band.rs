//! Bands: strips of a page that are never broken, which blocks are made of and pages are filled with.

use crate::page::{Length, Mark, Point, Stroke};

/// A strip across the page.
#[derive(Clone, Debug, Default)]
pub struct Band {
    /// How high it is.
    pub height: Length,
    /// The least space above it, dropped at the top of a page.
    pub gap: Length,
    /// How much more space above it may take when the page has room.
    pub stretch: Length,
    /// Whether it must not be the last on a page.
    pub keep_with_next: bool,
    /// Whether it begins on a new page.
    pub new_page: bool,
    /// Which run of bands it belongs to (rows of one block); rails join the bands of one run on one page.
    pub run: usize,
    /// Its marks, with y from its own top.
    pub marks: Vec<Mark>,
    /// Marks for when it is the first of its run on a page, with y from its own top.
    pub opening: Vec<Mark>,
    /// Marks in the space below it, for when another band follows on the page, with y from its own top.
    pub between: Vec<Mark>,
    /// What stands behind it, with y from its own top: a page with such bands is followed by one of their backs.
    pub back: Option<Vec<Mark>>,
    /// Vertical lines, at x, from the top of the first band of its run on a page to the bottom of the last.
    pub rails: Vec<(Length, Stroke)>,
}

impl Band {
    /// A band of some height with marks.
    #[must_use]
    pub fn new(height: Length, marks: Vec<Mark>) -> Self {
        Self { height, marks, ..Self::default() }
    }

    /// The same with space above it.
    #[must_use]
    pub fn below(self, gap: Length) -> Self {
        Self { gap, ..self }
    }
}

/// A mark moved down.
#[must_use]
pub fn moved(mark: &Mark, by: Length) -> Mark {
    let lower = |p: Point| Point::new(p.x, p.y + by);
    let mut mark = mark.clone();
    match &mut mark {
        Mark::Text { at, .. } | Mark::Rect { at, .. } | Mark::Ellipse { at, .. } => *at = lower(*at),
        Mark::Path { segments, .. } => {
            for segment in segments {
                *segment = segment.map(lower);
            }
        }
        Mark::Line { from, to, .. } => (*from, *to) = (lower(*from), lower(*to)),
    }
    mark
}
