//! A rectangle to draw in, and drawing in it.

use crate::page::{Face, Ink, Length, Mark, Point, Size, Stroke};

/// A rectangle on a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Area {
    /// Its left edge.
    pub x: Length,
    /// Its top edge.
    pub y: Length,
    /// Its width.
    pub width: Length,
    /// Its height.
    pub height: Length,
}

impl Area {
    /// The right edge.
    #[must_use]
    pub fn right(&self) -> Length {
        self.x + self.width
    }

    /// The bottom edge.
    #[must_use]
    pub fn bottom(&self) -> Length {
        self.y + self.height
    }

    /// Its top left corner.
    #[must_use]
    pub const fn corner(&self) -> Point {
        Point::new(self.x, self.y)
    }

    /// Its size.
    #[must_use]
    pub const fn size(&self) -> Size {
        Size::new(self.width, self.height)
    }
}

/// Where text stands between left and right.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Align {
    /// At the left.
    #[default]
    Left,
    /// In the middle.
    Center,
    /// At the right.
    Right,
}

/// How a text looks.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Type {
    /// The typeface.
    pub face: Face,
    /// The type size.
    pub size: Length,
    /// How dark.
    pub ink: Ink,
}

impl Type {
    /// Black type.
    #[must_use]
    pub const fn black(face: Face, size: Length) -> Self {
        Self { face, size, ink: Ink::BLACK }
    }

    /// The same in another ink.
    #[must_use]
    pub const fn inked(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The height of a line: 1.25 of the type size, room for ascenders and descenders without touching the next.
    #[must_use]
    pub const fn line_height(self) -> Length {
        self.size.times(5, 4)
    }

    /// The width of a text.
    #[must_use]
    pub fn width(self, text: &str) -> Length {
        self.face.width(text, self.size)
    }

    /// How far below the top of a line of [`line_height`](Self::line_height) the baseline is, so that small letters and capitals stand evenly in it.
    #[must_use]
    pub fn baseline(self) -> Length {
        // Half the line, and half of what lies between a cap's top and the baseline.
        (self.line_height() + self.face.cap_height(self.size)).half()
    }

    /// This type, smaller where `text` would be wider than `width`.
    #[must_use]
    pub fn shrunk_to(self, text: &str, width: Length) -> Self {
        let natural = self.width(text);
        if natural <= width || natural <= Length::ZERO {
            return self;
        }
        Self { size: self.size.times(width.at_least_zero().to_nm() / 1000, natural.to_nm() / 1000 + 1), ..self }
    }
}

/// A text on a line whose top is `top`, aligned between the sides of an area.
#[must_use]
pub fn text_line(text: &str, kind: Type, align: Align, area: &Area, top: Length) -> Mark {
    text_at(text, kind, align, area, top + kind.baseline())
}

/// A text with its baseline at `baseline`, aligned between the sides of an area.
#[must_use]
pub fn text_at(text: &str, kind: Type, align: Align, area: &Area, baseline: Length) -> Mark {
    let spare = area.width - kind.width(text);
    let x = match align {
        Align::Left => area.x,
        Align::Center => area.x + spare.half(),
        Align::Right => area.x + spare,
    };
    Mark::Text { at: Point::new(x, baseline), text: text.to_owned(), face: kind.face, size: kind.size, ink: kind.ink }
}

/// A horizontal line.
#[must_use]
pub const fn across(x: Length, to: Length, y: Length, stroke: Stroke) -> Mark {
    Mark::Line { from: Point::new(x, y), to: Point::new(to, y), stroke }
}

/// A vertical line.
#[must_use]
pub const fn down(x: Length, y: Length, to: Length, stroke: Stroke) -> Mark {
    Mark::Line { from: Point::new(x, y), to: Point::new(x, to), stroke }
}

/// An outlined rectangle.
#[must_use]
pub const fn outline(area: &Area, radius: Length, stroke: Stroke) -> Mark {
    Mark::Rect { at: area.corner(), size: area.size(), radius, stroke: Some(stroke), fill: None }
}
