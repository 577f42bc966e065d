//! The two embedded typefaces and their measures; the only file that knows the font reader.
//!
//! Everything is read in whole font units and scaled to a [`Length`] once, so that a line of text is as wide on one machine
//! as on any other. Text is measured and set glyph by glyph, without kerning, ligatures or placing of combining marks: what
//! is printed with an accent must be written with its one-character form.

use std::sync::OnceLock;

use rusttype::{Font, GlyphId, OutlineBuilder, Scale};

use super::{Length, Point, Segment};

/// The characters below this one (Basic Latin to Latin Extended-A) are looked up once and kept.
const KEPT: u32 = 0x180;

/// A typeface of the family Andika.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// For the running text.
    Regular,
    /// For titles and for what has to stand out.
    Bold,
}

/// A character's glyph, and how far it moves the pen in font units.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Drawn {
    /// The glyph's number in the whole font.
    pub(crate) glyph: u16,
    /// Advance width in font units.
    pub(crate) advance: i64,
}

/// A face's measures in font units; `descent` is positive downwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Metrics {
    pub(crate) units_per_em: i64,
    pub(crate) ascent: i64,
    pub(crate) descent: i64,
    pub(crate) cap_height: i64,
    pub(crate) x_height: i64,
}

/// A glyph's outline box in font units, `y` upwards.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct GlyphBox {
    pub(crate) left: i64,
    pub(crate) bottom: i64,
    pub(crate) right: i64,
    pub(crate) top: i64,
}

impl Face {
    /// Both faces, in the order in which they are listed.
    pub const ALL: [Self; 2] = [Self::Regular, Self::Bold];

    /// The face's `PostScript` name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Regular => "Andika",
            Self::Bold => "Andika-Bold",
        }
    }

    /// The whole font file (`TrueType`), as it is embedded in the program.
    #[must_use]
    pub const fn bytes(self) -> &'static [u8] {
        match self {
            Self::Regular => include_bytes!("../../fonts/Andika-Regular.ttf"),
            Self::Bold => include_bytes!("../../fonts/Andika-Bold.ttf"),
        }
    }

    /// How wide `text` is at type size `size`: the sum of its glyphs' advance widths, unkerned, rounded down to a nanometre.
    ///
    /// A character that the face [cannot draw](Self::can_draw) counts as wide as the font's box for missing glyphs.
    #[must_use]
    pub fn width(self, text: &str, size: Length) -> Length {
        let loaded = self.loaded();
        let units = text.chars().map(|c| loaded.drawn(c).map_or(loaded.missing_advance, |drawn| drawn.advance)).sum();
        loaded.scale(units, size)
    }

    /// How far the face reaches above the baseline at type size `size`, with room for accents (`hhea` ascender).
    #[must_use]
    pub fn ascent(self, size: Length) -> Length {
        let loaded = self.loaded();
        loaded.scale(loaded.metrics.ascent, size)
    }

    /// How far the face reaches below the baseline at type size `size`, as a positive length (`hhea` descender).
    #[must_use]
    pub fn descent(self, size: Length) -> Length {
        let loaded = self.loaded();
        loaded.scale(loaded.metrics.descent, size)
    }

    /// The height of a flat capital above the baseline at type size `size`, measured on *H*.
    #[must_use]
    pub fn cap_height(self, size: Length) -> Length {
        let loaded = self.loaded();
        loaded.scale(loaded.metrics.cap_height, size)
    }

    /// The height of a flat small letter above the baseline at type size `size`, measured on *x*.
    #[must_use]
    pub fn x_height(self, size: Length) -> Length {
        let loaded = self.loaded();
        loaded.scale(loaded.metrics.x_height, size)
    }

    /// Whether the face has a glyph for `c`. Control characters have none; a space has one.
    #[must_use]
    pub fn can_draw(self, c: char) -> bool {
        self.loaded().drawn(c).is_some()
    }

    /// The characters of `text` that the face cannot draw, each once, in the order in which they first appear.
    #[must_use]
    pub fn missing(self, text: &str) -> Vec<char> {
        let mut missing = Vec::new();
        for c in text.chars() {
            if !self.can_draw(c) && !missing.contains(&c) {
                missing.push(c);
            }
        }
        missing
    }

    /// The outlines of the letters of `text`, with the left end of the baseline at `at`: the curves of the font itself, for
    /// letters that are traced. A character that the face [cannot draw](Self::can_draw) has none.
    #[must_use]
    pub fn outlines(self, text: &str, size: Length, at: Point) -> Vec<Segment> {
        let loaded = self.loaded();
        let mut outlines = Vec::new();
        let mut pen = 0;
        for c in text.chars() {
            let Some(drawn) = loaded.drawn(c) else {
                pen += loaded.missing_advance;
                continue;
            };
            let mut contours = Contours(Vec::new());
            loaded.font.glyph(GlyphId(drawn.glyph)).scaled(loaded.unscaled).build_outline(&mut contours);
            let halves = |units: i64| size.times(units, loaded.metrics.units_per_em * 2);
            let placed = |p: (i64, i64)| Point::new(at.x + halves(p.0 + pen * 2), at.y + halves(p.1));
            outlines.extend(contours.0.into_iter().map(|raw| match raw {
                Raw::Move(end) => Segment::Move(placed(end)),
                Raw::Line(end) => Segment::Line(placed(end)),
                Raw::Quad(handle, end) => Segment::Quad(placed(handle), placed(end)),
                Raw::Cubic(first, second, end) => Segment::Cubic(placed(first), placed(second), placed(end)),
                Raw::Close => Segment::Close,
            }));
            pen += drawn.advance;
        }
        outlines
    }

    /// The glyph for `c`, or `None` when the face cannot draw it.
    pub(crate) fn drawn(self, c: char) -> Option<Drawn> {
        self.loaded().drawn(c)
    }

    /// The face's measures.
    pub(crate) fn metrics(self) -> Metrics {
        self.loaded().metrics
    }

    /// The outline box of a glyph from [`Face::drawn`], or `None` when it has no outline, as a space.
    pub(crate) fn glyph_box(self, glyph: u16) -> Option<GlyphBox> {
        self.loaded().glyph_box(GlyphId(glyph))
    }

    /// The face, read on first use.
    fn loaded(self) -> &'static Loaded {
        static REGULAR: OnceLock<Loaded> = OnceLock::new();
        static BOLD: OnceLock<Loaded> = OnceLock::new();
        let slot = match self {
            Self::Regular => &REGULAR,
            Self::Bold => &BOLD,
        };
        slot.get_or_init(|| Loaded::read(self.bytes()))
    }
}

/// A font file, opened, with what is asked for most often.
struct Loaded {
    font: Font<'static>,
    /// The scale at which the font reader's numbers are font units.
    unscaled: Scale,
    metrics: Metrics,
    missing_advance: i64,
    kept: Vec<Option<Drawn>>,
}

impl Loaded {
    /// Opens one of the two embedded files.
    fn read(bytes: &'static [u8]) -> Self {
        #[expect(clippy::expect_used, reason = "the file is part of the program and every test opens it")]
        let font = Font::try_from_bytes(bytes).expect("the embedded font is a TrueType font");
        let vertical = font.v_metrics_unscaled();
        let metrics = Metrics {
            units_per_em: i64::from(font.units_per_em()),
            ascent: whole(vertical.ascent),
            descent: whole(-vertical.descent),
            cap_height: 0,
            x_height: 0,
        };
        // The reader takes the height from descender to ascender for the size of a font.
        let unscaled = Scale::uniform(vertical.ascent - vertical.descent);
        let mut loaded = Self { font, unscaled, metrics, missing_advance: 0, kept: Vec::new() };
        let top = |c| loaded.glyph_box(loaded.font.glyph(c).id()).map_or(0, |b| b.top);
        (loaded.metrics.cap_height, loaded.metrics.x_height) = (top('H'), top('x'));
        loaded.missing_advance = loaded.advance(GlyphId(0));
        loaded.kept = (0..KEPT).map(|c| char::from_u32(c).and_then(|c| loaded.look_up(c))).collect();
        loaded
    }

    /// `units` font units at type size `size`.
    fn scale(&self, units: i64, size: Length) -> Length {
        size.times(units, self.metrics.units_per_em)
    }

    fn drawn(&self, c: char) -> Option<Drawn> {
        match usize::try_from(u32::from(c)).ok().and_then(|at| self.kept.get(at)) {
            Some(kept) => *kept,
            None => self.look_up(c),
        }
    }

    fn look_up(&self, c: char) -> Option<Drawn> {
        let id = self.font.glyph(c).id();
        (id.0 != 0 && !c.is_control()).then(|| Drawn { glyph: id.0, advance: self.advance(id) })
    }

    fn advance(&self, id: GlyphId) -> i64 {
        whole(self.font.glyph(id).scaled(self.unscaled).h_metrics().advance_width)
    }

    fn glyph_box(&self, id: GlyphId) -> Option<GlyphBox> {
        let found = self.font.glyph(id).scaled(self.unscaled).exact_bounding_box()?;
        Some(GlyphBox {
            left: whole(found.min.x),
            bottom: whole(-found.max.y),
            right: whole(found.max.x),
            top: whole(-found.min.y),
        })
    }
}

/// Outlines as the font reader hands them out, in halves of font units, `y` downwards: points between two handles lie on halves.
struct Contours(Vec<Raw>);

/// A [`Segment`] whose points are in halves of font units.
enum Raw {
    Move((i64, i64)),
    Line((i64, i64)),
    Quad((i64, i64), (i64, i64)),
    Cubic((i64, i64), (i64, i64), (i64, i64)),
    Close,
}

/// A point in halves of font units.
fn doubled(x: f32, y: f32) -> (i64, i64) {
    (whole(x * 2.0), whole(y * 2.0))
}

impl OutlineBuilder for Contours {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.push(Raw::Move(doubled(x, y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.push(Raw::Line(doubled(x, y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.push(Raw::Quad(doubled(x1, y1), doubled(x, y)));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.0.push(Raw::Cubic(doubled(x1, y1), doubled(x2, y2), doubled(x, y)));
    }
    fn close(&mut self) {
        self.0.push(Raw::Close);
    }
}

/// A number of font units, which the font reader hands out as a float.
#[expect(clippy::cast_possible_truncation, reason = "font units are whole numbers of at most 16 bits")]
fn whole(units: f32) -> i64 {
    units as i64
}

#[cfg(test)]
mod tests {
    use super::{Drawn, Face, GlyphBox, Metrics};
    use crate::page::{Length, Point, Segment};

    /// A type size at which a font unit is a thousand nanometres.
    const EM: Length = Length::nm(2_048_000);

    /// `unitsPerEm`, `hhea` and the `glyf` boxes of H and x, as fontTools reads them from the two files.
    #[test]
    fn measures_are_those_of_the_font_files() {
        for face in Face::ALL {
            let metrics = face.metrics();
            assert_eq!(
                metrics,
                Metrics { units_per_em: 2048, ascent: 2500, descent: 800, cap_height: 1460, x_height: 1020 }
            );
            assert_eq!(face.ascent(EM).to_nm(), 2_500_000);
            assert_eq!(face.descent(EM).to_nm(), 800_000);
            assert_eq!(face.cap_height(EM).to_nm(), 1_460_000);
            assert_eq!(face.x_height(EM).to_nm(), 1_020_000);
        }
    }

    /// `hmtx` advance widths, as fontTools reads them from the two files.
    #[test]
    fn widths_are_the_sums_of_hmtx() {
        let table = [
            ('a', 1150, 1256),
            ('H', 1475, 1515),
            ('x', 1085, 1185),
            (' ', 550, 550),
            ('ă', 1150, 1256),
            ('ĭ', 565, 645),
            ('ū', 1185, 1245),
            ('ə', 1078, 1085),
            ('’', 545, 775),
            ('–', 1055, 1105),
            ('•', 940, 940),
            ('✓', 1772, 1772),
        ];
        let mut all = (String::new(), 0, 0);
        for (c, regular, bold) in table {
            assert_eq!(Face::Regular.width(&c.to_string(), EM).to_nm(), regular * 1000, "{c}");
            assert_eq!(Face::Bold.width(&c.to_string(), EM).to_nm(), bold * 1000, "{c} in bold");
            all = (format!("{}{c}", all.0), all.1 + regular, all.2 + bold);
        }
        assert_eq!(Face::Regular.width(&all.0, EM).to_nm(), all.1 * 1000);
        assert_eq!(Face::Bold.width(&all.0, EM).to_nm(), all.2 * 1000);
        assert_eq!(Face::Regular.width("", EM), Length::ZERO);
    }

    /// Widths are rounded once for the whole text: 24 letters of 1150 units at 7 pt are not 24 rounded letters.
    #[test]
    fn width_rounds_once() {
        let seven = Length::pt(7);
        assert_eq!(Face::Regular.width(&"a".repeat(24), seven), seven.times(24 * 1150, 2048));
    }

    #[test]
    fn glyphs_have_the_numbers_and_boxes_of_the_file() {
        assert_eq!(Face::Regular.drawn('H'), Some(Drawn { glyph: 43, advance: 1475 }));
        assert_eq!(Face::Regular.glyph_box(43), Some(GlyphBox { left: 160, bottom: 0, right: 1290, top: 1460 }));
        let space = Face::Regular.drawn(' ').map(|space| space.glyph);
        assert_eq!(space.and_then(|glyph| Face::Regular.glyph_box(glyph)), None);
    }

    /// The `glyf` table of H, as fontTools reads it, is one contour of twelve corners within the box (160, 0) to (1290, 1460).
    #[test]
    fn outlines_are_those_of_the_font() {
        let at = Point::new(Length::mm(10), Length::mm(50));
        let outline = Face::Regular.outlines("H", EM, at);
        assert!(matches!(outline.first(), Some(Segment::Move(_))) && outline.last() == Some(&Segment::Close));
        let corners: Vec<Point> = outline.iter().flat_map(|segment| segment.points()).collect();
        let bounds = |side: fn(&Point) -> Length| {
            (corners.iter().map(side).min().unwrap().to_nm(), corners.iter().map(side).max().unwrap().to_nm())
        };
        assert_eq!(bounds(|p| p.x), (10_160_000, 11_290_000));
        assert_eq!(bounds(|p| p.y), (48_540_000, 50_000_000));
        // The second letter stands as far to the right as the first is wide.
        let two = Face::Regular.outlines("aH", EM, at);
        let last: Vec<Point> = two.iter().flat_map(|segment| segment.points()).collect();
        assert_eq!(last.last().unwrap().x, corners.last().unwrap().x + Length::nm(1_150_000));
        assert!(Face::Regular.outlines(" 語", EM, at).is_empty());
    }

    #[test]
    fn missing_characters_are_named_once_in_order() {
        for face in Face::ALL {
            assert_eq!(face.missing("ă ĕ ĭ ŏ ŭ ā ē ī ō ū ə ’ – • ✓"), []);
            assert_eq!(face.missing("語a\t語言"), ['語', '\t', '言']);
            assert!(!face.can_draw('\n'));
        }
    }
}
