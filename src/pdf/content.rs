//! Marks to drawing operators.
//!
//! Only operators that change something are written: a page keeps its ink, line width, dashes and font from mark to mark.

use printpdf::{
    Codepoint, Color, FontId, Greyscale, Line, LineDashPattern, Op, PaintMode, PdfDocument, PdfFontHandle, PdfPage,
    PdfSaveOptions, Pt, TextItem,
};

use super::PdfError;
use super::shapes::{self, Placer};
use super::text::Glyphs;
use crate::page::{Document, Face, Ink, Length, Mark, Page, Stroke};

/// The name by which pages call a face.
pub(super) const fn resource_name(face: Face) -> &'static str {
    match face {
        Face::Regular => "R",
        Face::Bold => "B",
    }
}

/// The content streams of all pages, in order, uncompressed.
///
/// The library also builds a file around them, with counted names, a random identity and dates: only the streams are used.
pub(super) fn streams(document: &Document, glyphs: &Glyphs) -> Result<Vec<Vec<u8>>, PdfError> {
    let mut library = PdfDocument::new("");
    for page in &document.pages {
        let placer = Placer::new(page);
        library.pages.push(PdfPage {
            media_box: placer.page_box(),
            trim_box: placer.page_box(),
            crop_box: placer.page_box(),
            ops: operators(page, placer, glyphs),
        });
    }
    let mut built = library.to_lopdf_document(&PdfSaveOptions::default(), &mut Vec::new());
    let ids: Vec<_> = built.get_pages().into_values().flat_map(|page| built.get_page_contents(page)).collect();
    if ids.len() != document.pages.len() {
        return Err(PdfError::Pages { pages: document.pages.len(), written: ids.len() });
    }
    let taken = ids.into_iter().filter_map(|id| match built.objects.remove(&id) {
        Some(lopdf::Object::Stream(stream)) => Some(stream.content),
        _ => None,
    });
    Ok(document.pages.iter().zip(taken).map(|(page, stream)| in_language(page, stream)).collect())
}

/// A page's content, marked as of its own language where it has one (ISO 32000-1, 14.9.2).
fn in_language(page: &Page, stream: Vec<u8>) -> Vec<u8> {
    // A tag has letters, digits and hyphens only, which stand for themselves in a PDF string.
    let plain = |tag: &&String| tag.chars().all(|c| c.is_ascii_alphanumeric() || c == '-');
    let Some(tag) = page.language.as_ref().filter(plain) else { return stream };
    [format!("/Span <</Lang ({tag})>> BDC\n").as_bytes(), &stream, b"\nEMC\n"].concat()
}

/// The operators that draw `page`.
fn operators(page: &Page, placer: Placer, glyphs: &Glyphs) -> Vec<Op> {
    let mut pen = Pen { placer, ops: Vec::new(), fill: Ink::BLACK, stroke: START, font: None };
    for mark in &page.marks {
        pen.draw(mark, glyphs);
    }
    pen.ops
}

/// What a line looks like before anything is said about it (ISO 32000-1, 8.4.1): 1 pt, black, solid.
const START: Stroke = Stroke { width: Length::pt(1), ink: Ink::BLACK, dash: None };

/// The operators so far, and what they have set.
struct Pen {
    placer: Placer,
    ops: Vec<Op>,
    fill: Ink,
    stroke: Stroke,
    font: Option<(Face, Length)>,
}

impl Pen {
    fn draw(&mut self, mark: &Mark, glyphs: &Glyphs) {
        match mark {
            Mark::Text { at, text, face, size, ink } => {
                let codes = glyphs.encode(*face, text);
                if codes.is_empty() {
                    return;
                }
                self.fill(*ink);
                self.ops.push(Op::StartTextSection);
                if self.font != Some((*face, *size)) {
                    self.font = Some((*face, *size));
                    let font = PdfFontHandle::External(FontId(resource_name(*face).to_owned()));
                    self.ops.push(Op::SetFont { font, size: shapes::points(*size) });
                }
                self.ops.push(Op::SetTextCursor { pos: self.placer.point(*at) });
                let codes = codes.into_iter().map(|code| Codepoint::new(code, 0.0)).collect();
                self.ops.push(Op::ShowText { items: vec![TextItem::GlyphIds(codes)] });
                self.ops.push(Op::EndTextSection);
            }
            Mark::Line { from, to, stroke } => {
                self.stroke(*stroke);
                let points = vec![self.placer.corner(*from), self.placer.corner(*to)];
                self.ops.push(Op::DrawLine { line: Line { points, is_closed: false } });
            }
            Mark::Rect { at, size, radius, stroke, fill } => {
                let mode = match (stroke, fill) {
                    (Some(_), Some(_)) => PaintMode::FillStroke,
                    (Some(_), None) => PaintMode::Stroke,
                    (None, Some(_)) => PaintMode::Fill,
                    (None, None) => return,
                };
                if let Some(ink) = fill {
                    self.fill(*ink);
                }
                if let Some(stroke) = stroke {
                    self.stroke(*stroke);
                }
                self.ops.push(self.placer.rectangle(*at, *size, *radius, mode));
            }
            Mark::Ellipse { at, size, stroke } => {
                self.stroke(*stroke);
                self.ops.push(self.placer.ellipse(*at, *size, PaintMode::Stroke));
            }
            Mark::Path { segments, stroke } => {
                self.stroke(*stroke);
                self.ops.extend(self.placer.path(segments));
            }
        }
    }

    fn fill(&mut self, ink: Ink) {
        if self.fill != ink {
            self.fill = ink;
            self.ops.push(Op::SetFillColor { col: grey(ink) });
        }
    }

    fn stroke(&mut self, stroke: Stroke) {
        let before = std::mem::replace(&mut self.stroke, stroke);
        if before.ink != stroke.ink {
            self.ops.push(Op::SetOutlineColor { col: grey(stroke.ink) });
        }
        if before.width != stroke.width {
            self.ops.push(Op::SetOutlineThickness { pt: shapes::points(stroke.width) });
        }
        if before.dash != stroke.dash {
            self.ops.push(Op::SetLineDashPattern { dash: dashes(stroke) });
        }
    }
}

/// A line's dashes; a line without gaps is solid.
fn dashes(stroke: Stroke) -> LineDashPattern {
    match stroke.dash.map(|(on, off)| (shapes::points(on.at_least_zero()), shapes::points(off.at_least_zero()))) {
        Some((Pt(on), Pt(off))) if off > 0.0 => LineDashPattern::new(0.0, &[on, off]),
        _ => LineDashPattern::solid(),
    }
}

/// An ink in PDF's grey, where 0 is black and 1 is white.
fn grey(ink: Ink) -> Color {
    Color::Greyscale(Greyscale::new(f32::from(100 - ink.to_percent()) / 100.0, None))
}

#[cfg(test)]
#[allow(clippy::unwrap_used, reason = "a test that cannot go on fails")]
mod tests {
    use super::{Glyphs, streams};
    use crate::page::{Document, Face, Ink, Length, Mark, Page, Point, Segment, Size, Stroke};

    /// The operators of one page of 100 by 200 pt, on one line.
    fn drawn(marks: Vec<Mark>) -> String {
        let page = Page { size: Size::new(Length::pt(100), Length::pt(200)), marks, language: None };
        let document = Document { title: String::new(), language: String::new(), pages: vec![page], bookmarks: vec![] };
        let glyphs = Glyphs::collect(&document).unwrap();
        let stream = streams(&document, &glyphs).unwrap().remove(0);
        String::from_utf8(stream).unwrap().replace('\n', " ").trim().to_owned()
    }

    fn at(x: i64, y: i64) -> Point {
        Point::new(Length::pt(x), Length::pt(y))
    }

    fn rect(radius: i64, stroke: Option<Stroke>, fill: Option<Ink>) -> Mark {
        let size = Size::new(Length::pt(40), Length::pt(20));
        Mark::Rect { at: at(10, 30), size, radius: Length::pt(radius), stroke, fill }
    }

    const LINE: Stroke = Stroke { width: Length::pt(1), ink: Ink::BLACK, dash: None };

    #[test]
    fn lines_turn_upside_down_once_and_say_only_what_changes() {
        let line = |stroke| Mark::Line { from: at(10, 20), to: at(90, 20), stroke };
        let dashed = LINE.inked(Ink::percent(50)).dashed(Length::pt(3), Length::milli_pt(1_500));
        assert_eq!(
            drawn(vec![line(LINE), line(dashed), line(dashed), line(LINE)]),
            "10 180 m 90 180 l S 0.5 G [3 1.5] 0 d 10 180 m 90 180 l S 10 180 m 90 180 l S \
             0 G [] 0 d 10 180 m 90 180 l S"
        );
        let gapless = LINE.dashed(Length::pt(3), Length::ZERO);
        assert_eq!(drawn(vec![line(gapless)]), "[] 0 d 10 180 m 90 180 l S");
    }

    #[test]
    fn boxes_are_filled_and_outlined_in_grey() {
        assert_eq!(drawn(vec![rect(0, Some(LINE), None)]), "10 150 40 20 re S");
        assert_eq!(drawn(vec![rect(0, None, Some(Ink::PALE))]), "0.88 g 10 150 40 20 re f");
        assert_eq!(drawn(vec![rect(0, Some(LINE), Some(Ink::PALE))]), "0.88 g 10 150 40 20 re B");
        assert_eq!(drawn(vec![rect(0, None, None)]), "");
    }

    #[test]
    fn corners_are_rounded_by_half_of_the_shorter_side_at_most() {
        let pill = "20 170 m 40 170 l 45.523 170 50 165.523 50 160 c 50 154.477 45.523 150 40 150 c \
                    20 150 l 14.477 150 10 154.477 10 160 c 10 165.523 14.477 170 20 170 c h S";
        assert_eq!(drawn(vec![rect(10, Some(LINE), None)]), pill);
        assert_eq!(drawn(vec![rect(99, Some(LINE), None)]), pill);
        assert!(drawn(vec![rect(4, Some(LINE), None)]).starts_with("14 170 m 46 170 l 48.209 170 50 168.209 50 166 c"));
    }

    #[test]
    fn an_ellipse_fills_its_rectangle() {
        let size = Size::new(Length::pt(40), Length::pt(20));
        assert_eq!(
            drawn(vec![Mark::Ellipse { at: at(10, 30), size, stroke: LINE }]),
            "30 170 m 41.046 170 50 165.523 50 160 c 50 154.477 41.046 150 30 150 c \
             18.954 150 10 154.477 10 160 c 10 165.523 18.954 170 30 170 c h S"
        );
    }

    /// The handles of a quadratic curve are drawn out to two thirds: ISO 32000-1 has cubic curves only.
    #[test]
    fn paths_are_drawn_part_by_part() {
        use Segment::{Close, Cubic, Line, Move, Quad};
        let segments = vec![
            Move(at(10, 20)),
            Line(at(40, 20)),
            Quad(at(40, 50), at(10, 50)),
            Close,
            Move(at(50, 60)),
            Cubic(at(60, 60), at(70, 70), at(70, 80)),
        ];
        assert_eq!(
            drawn(vec![Mark::Path { segments, stroke: LINE }]),
            "10 180 m 40 180 l 40 160 30 150 10 150 c h S 50 140 m 60 140 70 130 70 120 c S"
        );
        assert_eq!(drawn(vec![Mark::Path { segments: vec![Line(at(1, 1)), Close], stroke: LINE }]), "");
    }

    /// Glyphs are numbered in the order of their characters: a is 1, b is 2.
    #[test]
    fn text_stands_on_its_baseline() {
        let text = |text: &str| Mark::Text {
            at: at(10, 50),
            text: text.to_owned(),
            face: Face::Bold,
            size: Length::pt(18),
            ink: Ink::BLACK,
        };
        assert_eq!(
            drawn(vec![text("ba"), text(""), text("a")]),
            "BT /B 18 Tf 10 150 Td [<0002><0001>] TJ ET BT 10 150 Td [<0001>] TJ ET"
        );
    }
}
