//! Which characters a document draws in which face, and the numbers that stand for them in the file.

use std::collections::{BTreeMap, BTreeSet};

use subsetter::GlyphRemapper;

use super::PdfError;
use crate::page::{Document, Face, Mark};

/// The glyphs of one face that a document uses.
pub(super) struct FaceGlyphs {
    /// Each character with its glyph's number in the file.
    numbers: BTreeMap<char, u16>,
    /// Numbers in the whole font to numbers in the file; number 0 is the box for missing glyphs in both.
    pub(super) remapper: GlyphRemapper,
}

/// One glyph in the file, as [`FaceGlyphs::in_order`] lists them.
pub(super) struct Used {
    /// What it draws.
    pub(super) character: char,
    /// Its number in the whole font.
    pub(super) glyph: u16,
    /// Its advance width in font units.
    pub(super) advance: i64,
}

/// The glyphs that a document uses, for each face that it uses.
pub(super) struct Glyphs(BTreeMap<Face, FaceGlyphs>);

impl Glyphs {
    /// Collects the glyphs of `document`. They are numbered from 1 in the order of their characters, so that the numbers
    /// depend on which characters there are but not on where they stand.
    pub(super) fn collect(document: &Document) -> Result<Self, PdfError> {
        let mut characters: BTreeMap<Face, BTreeSet<char>> = BTreeMap::new();
        for (page, mark) in
            document.pages.iter().enumerate().flat_map(|(at, page)| page.marks.iter().map(move |m| (at, m)))
        {
            let Mark::Text { text, face, .. } = mark else { continue };
            if let Some(character) = text.chars().find(|c| !face.can_draw(*c)) {
                return Err(PdfError::Undrawable { character, text: text.clone(), face: *face, page });
            }
            if !text.is_empty() {
                characters.entry(*face).or_default().extend(text.chars());
            }
        }
        let number = |(face, set): (Face, BTreeSet<char>)| {
            let mut remapper = GlyphRemapper::new();
            let numbers = set.into_iter().filter_map(|c| Some((c, remapper.remap(face.drawn(c)?.glyph)))).collect();
            (face, FaceGlyphs { numbers, remapper })
        };
        Ok(Self(characters.into_iter().map(number).collect()))
    }

    /// The faces in use, in their order, each with its glyphs.
    pub(super) fn faces(&self) -> impl Iterator<Item = (Face, &FaceGlyphs)> {
        self.0.iter().map(|(face, glyphs)| (*face, glyphs))
    }

    /// The numbers in the file of the glyphs that draw `text`.
    pub(super) fn encode(&self, face: Face, text: &str) -> Vec<u16> {
        let numbers = self.0.get(&face).map(|glyphs| &glyphs.numbers);
        text.chars().filter_map(|c| numbers.and_then(|numbers| numbers.get(&c)).copied()).collect()
    }
}

impl FaceGlyphs {
    /// The glyphs in the order of their numbers in the file, from 1 on.
    ///
    /// When two characters share a glyph, the first one in Unicode stands for both.
    pub(super) fn in_order(&self, face: Face) -> Vec<Used> {
        let mut by_number = BTreeMap::new();
        for (character, number) in &self.numbers {
            if let Some(drawn) = face.drawn(*character) {
                by_number.entry(*number).or_insert(Used {
                    character: *character,
                    glyph: drawn.glyph,
                    advance: drawn.advance,
                });
            }
        }
        by_number.into_values().collect()
    }
}
