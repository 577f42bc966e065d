//! The outlines of printed text.
//!
//! They come from the font files and are set by the advance widths found there, by none of the library's own measuring, so that a
//! wrong measure shows.

use rusttype::{Font, OutlineBuilder, Scale};
use sheafling::page::{Face, Length, Point};
use tiny_skia::{Path, PathBuilder};

/// A length in dots, of which there are `dpi` to the inch.
pub fn dots(length: Length, dpi: f32) -> f32 {
    length.to_nm() as f32 / 25_400_000.0 * dpi
}

/// The outlines of a text; `None` when it has none, as a space.
pub fn outlines(text: &str, face: Face, size: Length, at: Point, dpi: f32) -> Option<Path> {
    let font = Font::try_from_bytes(face.bytes()).unwrap();
    let measures = font.v_metrics_unscaled();
    // The reader takes the height from descender to ascender for the size of a font.
    let scale = Scale::uniform(dots(size, dpi) * (measures.ascent - measures.descent) / f32::from(font.units_per_em()));
    let mut pen = Pen { x: dots(at.x, dpi), y: dots(at.y, dpi), path: PathBuilder::new() };
    for c in text.chars() {
        let glyph = font.glyph(c).scaled(scale);
        glyph.build_outline(&mut pen);
        pen.x += glyph.h_metrics().advance_width;
    }
    pen.path.finish()
}

/// The box around the outlines of a text, its top left and bottom right corners; `None` for blanks.
#[allow(dead_code, reason = "pictures need outlines only")]
pub fn inked(text: &str, face: Face, size: Length, at: Point) -> Option<(Point, Point)> {
    const FINE: f32 = 7_200.0;
    let bounds = outlines(text, face, size, at, FINE)?.bounds();
    let length = |dots: f32| Length::nm((f64::from(dots) / f64::from(FINE) * 25_400_000.0) as i64);
    let corner = |x, y| Point::new(length(x), length(y));
    Some((corner(bounds.left(), bounds.top()), corner(bounds.right(), bounds.bottom())))
}

struct Pen {
    x: f32,
    y: f32,
    path: PathBuilder,
}

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to(self.x + x, self.y + y);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to(self.x + x, self.y + y);
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.path.quad_to(self.x + x1, self.y + y1, self.x + x, self.y + y);
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.path.cubic_to(self.x + x1, self.y + y1, self.x + x2, self.y + y2, self.x + x, self.y + y);
    }
    fn close(&mut self) {
        self.path.close();
    }
}
