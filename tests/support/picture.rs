//! Pages as small grey pictures, drawn without any of the code that makes PDF files.

use super::glyphs::{dots, outlines};
use sheafling::page::{Ink, Mark, Page, Point, Segment, Size, Stroke};
use tiny_skia::{Color, FillRule, Paint, Path, PathBuilder, Pixmap, Rect, StrokeDash, Transform};

/// Dots per inch: a letter page is 408 by 528. At 40 a line that moved by less than half a millimetre would not be seen.
const DPI: f32 = 48.0;

/// How many greys a picture has; the lightest is white.
pub const GREYS: u8 = 16;

/// A picture: its width and height, and its greys row by row, 0 for black to [`GREYS`] - 1 for white.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Picture {
    pub width: usize,
    pub height: usize,
    pub greys: Vec<u8>,
}

/// Draws a page.
pub fn draw(page: &Page) -> Picture {
    let (width, height) = (dots(page.size.width, DPI).round() as u32, dots(page.size.height, DPI).round() as u32);
    let mut canvas = Pixmap::new(width, height).unwrap();
    canvas.fill(Color::WHITE);
    for mark in &page.marks {
        draw_mark(mark, &mut canvas);
    }
    let grey =
        |pixel: &tiny_skia::PremultipliedColorU8| ((u32::from(pixel.red()) * u32::from(GREYS - 1) + 127) / 255) as u8;
    let greys = canvas.pixels().iter().map(grey).collect();
    Picture { width: width as usize, height: height as usize, greys }
}

fn paint(ink: Ink) -> Paint<'static> {
    let grey = 1.0 - f32::from(ink.to_percent()) / 100.0;
    let mut paint = Paint::default();
    paint.set_color(Color::from_rgba(grey, grey, grey, 1.0).unwrap());
    paint
}

fn draw_mark(mark: &Mark, canvas: &mut Pixmap) {
    match mark {
        Mark::Text { at, text, face, size, ink } => {
            if let Some(path) = outlines(text, *face, *size, *at, DPI) {
                fill(&path, *ink, canvas);
            }
        }
        Mark::Line { from, to, stroke } => {
            let mut line = PathBuilder::new();
            line.move_to(dots(from.x, DPI), dots(from.y, DPI));
            line.line_to(dots(to.x, DPI), dots(to.y, DPI));
            outline(&line.finish().unwrap(), *stroke, canvas);
        }
        Mark::Rect { at, size, radius, stroke, fill: filling } => {
            let path = rounded(*at, *size, dots(*radius, DPI));
            if let Some(ink) = filling {
                fill(&path, *ink, canvas);
            }
            if let Some(stroke) = stroke {
                outline(&path, *stroke, canvas);
            }
        }
        Mark::Ellipse { at, size, stroke } => {
            let path = PathBuilder::from_oval(rect(*at, *size)).unwrap();
            outline(&path, *stroke, canvas);
        }
        Mark::Path { segments, stroke } => {
            if let Some(path) = path_of(segments) {
                outline(&path, *stroke, canvas);
            }
        }
    }
}

/// The path of its parts; none when there are none.
fn path_of(segments: &[Segment]) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let at = |point: Point| (dots(point.x, DPI), dots(point.y, DPI));
    for segment in segments {
        match segment {
            Segment::Move(to) => builder.move_to(at(*to).0, at(*to).1),
            Segment::Line(to) => builder.line_to(at(*to).0, at(*to).1),
            Segment::Quad(by, to) => builder.quad_to(at(*by).0, at(*by).1, at(*to).0, at(*to).1),
            Segment::Cubic(by, near, to) => {
                let (by, near, to) = (at(*by), at(*near), at(*to));
                builder.cubic_to(by.0, by.1, near.0, near.1, to.0, to.1);
            }
            Segment::Close => builder.close(),
        }
    }
    builder.finish()
}

fn fill(path: &Path, ink: Ink, canvas: &mut Pixmap) {
    canvas.fill_path(path, &paint(ink), FillRule::Winding, Transform::identity(), None);
}

fn outline(path: &Path, stroke: Stroke, canvas: &mut Pixmap) {
    let pen = tiny_skia::Stroke {
        width: dots(stroke.width, DPI),
        dash: stroke.dash.and_then(|(on, off)| StrokeDash::new(vec![dots(on, DPI), dots(off, DPI)], 0.0)),
        ..tiny_skia::Stroke::default()
    };
    canvas.stroke_path(path, &paint(stroke.ink), &pen, Transform::identity(), None);
}

fn rect(at: Point, size: Size) -> Rect {
    Rect::from_xywh(dots(at.x, DPI), dots(at.y, DPI), dots(size.width, DPI), dots(size.height, DPI)).unwrap()
}

/// A rectangle whose corners are rounded, each by one curve whose handles lie on the corner's sides.
fn rounded(at: Point, size: Size, radius: f32) -> Path {
    let bounds = rect(at, size);
    if radius <= 0.0 {
        return PathBuilder::from_rect(bounds);
    }
    let (left, top, right, bottom) = (bounds.left(), bounds.top(), bounds.right(), bounds.bottom());
    let mut path = PathBuilder::new();
    path.move_to(left + radius, top);
    path.line_to(right - radius, top);
    path.quad_to(right, top, right, top + radius);
    path.line_to(right, bottom - radius);
    path.quad_to(right, bottom, right - radius, bottom);
    path.line_to(left + radius, bottom);
    path.quad_to(left, bottom, left, bottom - radius);
    path.line_to(left, top + radius);
    path.quad_to(left, top, left + radius, top);
    path.close();
    path.finish().unwrap()
}
