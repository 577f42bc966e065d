//! What can stand on a page: marks with a place, and nothing that still has to be decided.

use super::{Face, Length};

/// A point, from the top left corner of the page: `x` to the right, `y` down.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Point {
    /// Distance from the left edge.
    pub x: Length,
    /// Distance from the top edge.
    pub y: Length,
}

impl Point {
    /// A point at `x` from the left and `y` from the top.
    #[must_use]
    pub const fn new(x: Length, y: Length) -> Self {
        Self { x, y }
    }
}

/// A width and a height.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Size {
    /// From left to right.
    pub width: Length,
    /// From top to bottom.
    pub height: Length,
}

impl Size {
    /// A size of `width` by `height`.
    #[must_use]
    pub const fn new(width: Length, height: Length) -> Self {
        Self { width, height }
    }
}

/// How dark a mark is, in per cent of black (0 is white, 100 black). Sheets use no colour, so that they survive a photocopier.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Ink(u8);

impl Ink {
    /// Full black.
    pub const BLACK: Self = Self(100);
    /// Dark grey, for small print that should step back.
    pub const DARK: Self = Self(70);
    /// Mid grey, for guide lines.
    pub const MID: Self = Self(45);
    /// Pale grey, for fills behind black text.
    pub const PALE: Self = Self(12);

    /// Ink of `percent` of black; more than 100 counts as 100.
    #[must_use]
    pub const fn percent(percent: u8) -> Self {
        Self(if percent > 100 { 100 } else { percent })
    }

    /// Per cent of black, 0 to 100.
    #[must_use]
    pub const fn to_percent(self) -> u8 {
        self.0
    }
}

/// A drawn line's look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Stroke {
    /// Width of the line; at least [`Stroke::THINNEST`].
    pub width: Length,
    /// How dark.
    pub ink: Ink,
    /// On and off lengths of a dashed line, or `None` for a solid one.
    pub dash: Option<(Length, Length)>,
}

impl Stroke {
    /// The thinnest line that a bad photocopy keeps: half a point.
    pub const THINNEST: Length = Length::milli_pt(500);

    /// A solid black line. Widths under [`Stroke::THINNEST`] are raised to it.
    #[must_use]
    pub fn solid(width: Length) -> Self {
        Self { width: width.max(Self::THINNEST), ink: Ink::BLACK, dash: None }
    }

    /// The same line in another ink.
    #[must_use]
    pub fn inked(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The same line dashed: `on` drawn, `off` left out.
    #[must_use]
    pub fn dashed(self, on: Length, off: Length) -> Self {
        Self { dash: Some((on, off)), ..self }
    }
}

/// A part of a drawn path.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Segment {
    /// Begins a new part here.
    Move(Point),
    /// A straight line to here.
    Line(Point),
    /// A quadratic curve by one handle to an end.
    Quad(Point, Point),
    /// A cubic curve by two handles to an end.
    Cubic(Point, Point, Point),
    /// A straight line back to where the part began.
    Close,
}

impl Segment {
    /// The same with its points moved elsewhere.
    #[must_use]
    pub fn map(self, to: impl Fn(Point) -> Point) -> Self {
        match self {
            Self::Move(end) => Self::Move(to(end)),
            Self::Line(end) => Self::Line(to(end)),
            Self::Quad(handle, end) => Self::Quad(to(handle), to(end)),
            Self::Cubic(first, second, end) => Self::Cubic(to(first), to(second), to(end)),
            Self::Close => Self::Close,
        }
    }

    /// Its points, handles and end.
    pub fn points(self) -> impl Iterator<Item = Point> {
        let points = match self {
            Self::Move(end) | Self::Line(end) => [Some(end), None, None],
            Self::Quad(handle, end) => [Some(handle), Some(end), None],
            Self::Cubic(first, second, end) => [Some(first), Some(second), Some(end)],
            Self::Close => [None; 3],
        };
        points.into_iter().flatten()
    }
}

/// One mark on a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A run of text on one line.
    Text {
        /// The left end of the baseline.
        at: Point,
        /// The text; one line, no control characters.
        text: String,
        /// The typeface.
        face: Face,
        /// The type size (em).
        size: Length,
        /// How dark.
        ink: Ink,
    },
    /// A straight line.
    Line {
        /// One end.
        from: Point,
        /// The other end.
        to: Point,
        /// Its look.
        stroke: Stroke,
    },
    /// A rectangle with sides along the page.
    Rect {
        /// Its top left corner.
        at: Point,
        /// Its size.
        size: Size,
        /// Radius of its rounded corners; zero for square ones.
        radius: Length,
        /// Its outline, if any.
        stroke: Option<Stroke>,
        /// Its filling, if any.
        fill: Option<Ink>,
    },
    /// An ellipse with axes along the page, given by the rectangle that it fills.
    Ellipse {
        /// The top left corner of that rectangle.
        at: Point,
        /// The size of that rectangle.
        size: Size,
        /// Its outline.
        stroke: Stroke,
    },
    /// Lines and curves, drawn but not filled, such as the outline of a letter to trace.
    Path {
        /// The parts, each beginning with [`Segment::Move`].
        segments: Vec<Segment>,
        /// Its look.
        stroke: Stroke,
    },
}

impl Mark {
    /// The rectangle that the mark covers, as its top left and bottom right corners: text from ascent to descent of its
    /// face, a path with its handles.
    #[must_use]
    pub fn bounds(&self) -> (Point, Point) {
        match self {
            Self::Text { at, text, face, size, .. } => (
                Point::new(at.x, at.y - face.ascent(*size)),
                Point::new(at.x + face.width(text, *size), at.y + face.descent(*size)),
            ),
            Self::Line { from, to, stroke } => {
                let pad = stroke.width.half();
                (
                    Point::new(from.x.min(to.x) - pad, from.y.min(to.y) - pad),
                    Point::new(from.x.max(to.x) + pad, from.y.max(to.y) + pad),
                )
            }
            Self::Rect { at, size, .. } | Self::Ellipse { at, size, .. } => {
                (*at, Point::new(at.x + size.width, at.y + size.height))
            }
            Self::Path { segments, stroke } => {
                let pad = stroke.width.half();
                let points = || segments.iter().flat_map(|segment| segment.points());
                let least = |side: fn(Point) -> Length| points().map(side).min().unwrap_or_default() - pad;
                let most = |side: fn(Point) -> Length| points().map(side).max().unwrap_or_default() + pad;
                (Point::new(least(|p| p.x), least(|p| p.y)), Point::new(most(|p| p.x), most(|p| p.y)))
            }
        }
    }
}

/// One page: a size and its marks, drawn in order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Page {
    /// The paper's size.
    pub size: Size,
    /// What stands on it, the first drawn first.
    pub marks: Vec<Mark>,
    /// The language of its text where it is another than the document's, a BCP 47 tag.
    pub language: Option<String>,
}

/// A place to jump to in the document's outline.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Bookmark {
    /// What the outline shows.
    pub title: String,
    /// The page, counted from 0.
    pub page: usize,
}

/// Pages in order, with what a reader program shows about them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Document {
    /// The document's title.
    pub title: String,
    /// The language of its text, a BCP 47 tag such as `en-US`.
    pub language: String,
    /// The pages.
    pub pages: Vec<Page>,
    /// The outline, in page order; may be empty.
    pub bookmarks: Vec<Bookmark>,
}
