//! Outlines in PDF's points, from the bottom left corner of the page.
//!
//! All arithmetic is on whole thousandths of a point, so that a number in the file has at most three decimals and is the same
//! on every machine.

use printpdf::{Line, LinePoint, Op, PaintMode, Point as PdfPoint, Polygon, PolygonRing, Pt, Rect, WindingOrder};

use crate::page::{Length, Page, Point, Segment, Size};

/// How far a Bézier curve's handles reach along the radius to draw a quarter of an ellipse, in 100 000ths:
/// 4/3 · (√2 − 1), which is off by at most 0.03 % of the radius.
const KAPPA: i64 = 55_228;

/// A length in points, with at most three decimals.
pub(super) fn points(length: Length) -> Pt {
    milli(length.to_milli_pt())
}

/// Thousandths of a point, in points.
///
/// A division of two whole numbers that a float holds exactly is rounded in the same way everywhere.
#[expect(clippy::cast_precision_loss, reason = "exact up to 16 777 pt, more than the side of the largest page")]
pub(super) fn milli(milli_pt: i64) -> Pt {
    Pt(milli_pt as f32 / 1000.0)
}

/// Turns places on one page into PDF's.
#[derive(Clone, Copy)]
pub(super) struct Placer {
    /// The page's width and height in thousandths of a point.
    page: (i64, i64),
}

/// A rectangle in thousandths of a point: left, bottom, right, top.
#[derive(Clone, Copy)]
struct Sides {
    left: i64,
    bottom: i64,
    right: i64,
    top: i64,
}

impl Placer {
    pub(super) fn new(page: &Page) -> Self {
        Self { page: (page.size.width.to_milli_pt(), page.size.height.to_milli_pt()) }
    }

    /// The page from corner to corner.
    pub(super) fn page_box(self) -> Rect {
        Rect::from_wh(milli(self.page.0), milli(self.page.1))
    }

    /// A place on the page.
    pub(super) fn point(self, at: Point) -> PdfPoint {
        PdfPoint { x: points(at.x), y: milli(self.page.1 - at.y.to_milli_pt()) }
    }

    /// A place on the page as a corner of a line.
    pub(super) fn corner(self, at: Point) -> LinePoint {
        LinePoint { p: self.point(at), bezier: false }
    }

    /// A rectangle, with its corners rounded by `radius` but never by more than half of its shorter side.
    pub(super) fn rectangle(self, at: Point, size: Size, radius: Length, mode: PaintMode) -> Op {
        let sides = self.sides(at, size);
        let (width, height) = (sides.right - sides.left, sides.top - sides.bottom);
        let radius = radius.to_milli_pt().min(width / 2).min(height / 2);
        if radius > 0 {
            return sides.rounded(radius, radius, mode);
        }
        Op::DrawRectangle {
            rectangle: Rect {
                x: milli(sides.left),
                y: milli(sides.bottom),
                width: milli(width),
                height: milli(height),
                mode: Some(mode),
                winding_order: None,
            },
        }
    }

    /// The ellipse that fills a rectangle.
    pub(super) fn ellipse(self, at: Point, size: Size, mode: PaintMode) -> Op {
        let sides = self.sides(at, size);
        sides.rounded((sides.right - sides.left) / 2, (sides.top - sides.bottom) / 2, mode)
    }

    /// The parts of a path, each drawn by itself. What stands before a part begins is left out.
    pub(super) fn path(self, segments: &[Segment]) -> Vec<Op> {
        let mut ops = Vec::new();
        let mut ring = Ring(Vec::new());
        let mut pen = (0, 0);
        for segment in segments {
            let place = |p: Point| (p.x.to_milli_pt(), self.page.1 - p.y.to_milli_pt());
            if ring.0.is_empty() && !matches!(segment, Segment::Move(_)) {
                continue;
            }
            match *segment {
                Segment::Move(start) => {
                    ring.end(&mut ops, false);
                    pen = place(start);
                    ring.push(pen, false);
                }
                Segment::Line(end) => {
                    pen = place(end);
                    ring.line(pen.0, pen.1);
                }
                Segment::Quad(handle, end) => {
                    let (handle, end) = (place(handle), place(end));
                    // The same curve as a cubic one: its handles lie two thirds of the way to the one handle.
                    let third = |from: i64, to: i64| from + (2 * (to - from) + 1).div_euclid(3);
                    let towards = |from: (i64, i64)| (third(from.0, handle.0), third(from.1, handle.1));
                    ring.curve(towards(pen), towards(end), end);
                    pen = end;
                }
                Segment::Cubic(first, second, end) => {
                    pen = place(end);
                    ring.curve(place(first), place(second), pen);
                }
                Segment::Close => ring.end(&mut ops, true),
            }
        }
        ring.end(&mut ops, false);
        ops
    }

    fn sides(self, at: Point, size: Size) -> Sides {
        let (left, top) = (at.x.to_milli_pt(), self.page.1 - at.y.to_milli_pt());
        // Each side is rounded by itself, so that boxes that touch share their edge to the last digit.
        let right = (at.x + size.width).to_milli_pt();
        let bottom = self.page.1 - (at.y + size.height).to_milli_pt();
        Sides { left, bottom, right, top }
    }
}

impl Sides {
    /// The rectangle with each corner replaced by a quarter of an ellipse with half axes `across` and `up`.
    fn rounded(self, across: i64, up: i64, mode: PaintMode) -> Op {
        let Self { left, bottom, right, top } = self;
        // From a curve's end back to the corner, as far as its handle lies short of the corner.
        let short = |radius: i64| radius - (radius * KAPPA + 50_000).div_euclid(100_000);
        let (short_x, short_y) = (short(across), short(up));
        let mut ring = Ring(Vec::with_capacity(17));
        ring.line(left + across, top);
        ring.line(right - across, top);
        ring.curve((right - short_x, top), (right, top - short_y), (right, top - up));
        ring.line(right, bottom + up);
        ring.curve((right, bottom + short_y), (right - short_x, bottom), (right - across, bottom));
        ring.line(left + across, bottom);
        ring.curve((left + short_x, bottom), (left, bottom + short_y), (left, bottom + up));
        ring.line(left, top - up);
        ring.curve((left, top - short_y), (left + short_x, top), (left + across, top));
        let rings = vec![PolygonRing { points: ring.0 }];
        Op::DrawPolygon { polygon: Polygon { rings, mode, winding_order: WindingOrder::NonZero } }
    }
}

/// An outline under way.
struct Ring(Vec<LinePoint>);

impl Ring {
    fn push(&mut self, (x, y): (i64, i64), bezier: bool) {
        self.0.push(LinePoint { p: PdfPoint { x: milli(x), y: milli(y) }, bezier });
    }

    /// A straight side, left out when it would have no length.
    fn line(&mut self, x: i64, y: i64) {
        let end = PdfPoint { x: milli(x), y: milli(y) };
        if self.0.last().is_none_or(|last| last.p != end) {
            self.push((x, y), false);
        }
    }

    /// Draws what there is and begins anew. One point alone draws nothing.
    fn end(&mut self, ops: &mut Vec<Op>, is_closed: bool) {
        let points = std::mem::take(&mut self.0);
        if points.len() > 1 {
            ops.push(Op::DrawLine { line: Line { points, is_closed } });
        }
    }

    fn curve(&mut self, first: (i64, i64), second: (i64, i64), end: (i64, i64)) {
        self.push(first, true);
        self.push(second, true);
        self.push(end, false);
    }
}
