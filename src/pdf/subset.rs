//! A font cut down to the glyphs in use.
//!
//! The crate `subsetter` picks and renumbers the glyphs. It keeps the tables `name` and `post` as well, which a PDF reader
//! does not look at (ISO 32000-1, 9.9) and which are half of a small subset, so they are taken out here.

use super::PdfError;
use super::text::FaceGlyphs;
use crate::page::Face;

/// Tables that a font inside a PDF file does without.
const LEFT_OUT: [&[u8]; 2] = [b"name", b"post"];

/// What the checksum of a whole font file comes to (OpenType, table `head`).
const WHOLE_CHECKSUM: u32 = 0xB1B0_AFBA;

/// The font program of `face` with the glyphs in use alone.
pub(super) fn subset(face: Face, glyphs: &FaceGlyphs) -> Result<Vec<u8>, PdfError> {
    let cut = subsetter::subset(face.bytes(), 0, &glyphs.remapper)
        .map_err(|error| PdfError::Font { face, reason: error.to_string() })?;
    without(&cut, &LEFT_OUT)
        .ok_or_else(|| PdfError::Font { face, reason: "its list of tables does not match its size".to_owned() })
}

/// `font` without some of its tables; `None` when its list of tables is broken.
fn without(font: &[u8], left_out: &[&[u8]]) -> Option<Vec<u8>> {
    let count = usize::from(u16::from_be_bytes(font.get(4..6)?.try_into().ok()?));
    let mut kept = Vec::new();
    for record in font.get(12..12 + 16 * count)?.chunks_exact(16) {
        let tag = record.get(..4)?;
        let (offset, length) = (number(record, 8)?, number(record, 12)?);
        if !left_out.contains(&tag) {
            kept.push((record.get(..8)?, font.get(offset..offset.checked_add(length)?)?));
        }
    }
    let directory = 12 + 16 * kept.len();
    let mut out = Vec::with_capacity(font.len());
    out.extend_from_slice(font.get(..4)?);
    out.extend(search_header(u16::try_from(kept.len()).ok()?)?);
    let (mut at, mut adjustment) = (directory, None);
    for (tag_and_checksum, table) in &kept {
        out.extend_from_slice(tag_and_checksum);
        out.extend(u32::try_from(at).ok()?.to_be_bytes());
        out.extend(u32::try_from(table.len()).ok()?.to_be_bytes());
        if tag_and_checksum.starts_with(b"head") {
            adjustment = Some(at + 8..at + 12);
        }
        at += table.len().next_multiple_of(4);
    }
    for (_, table) in &kept {
        out.extend_from_slice(table);
        out.resize(out.len().next_multiple_of(4), 0);
    }
    let adjustment = adjustment?;
    out.get_mut(adjustment.clone())?.fill(0);
    let sum = WHOLE_CHECKSUM.wrapping_sub(checksum(&out));
    out.get_mut(adjustment)?.copy_from_slice(&sum.to_be_bytes());
    Some(out)
}

/// The number of tables and what follows from it for a search by halves (OpenType, table directory).
fn search_header(tables: u16) -> Option<[u8; 8]> {
    let halvings = tables.checked_ilog2()?;
    let range = (1_u16.checked_shl(halvings)?).checked_mul(16)?;
    let rest = tables.checked_mul(16)?.checked_sub(range)?;
    let mut header = [0; 8];
    let numbers = [tables, range, u16::try_from(halvings).ok()?, rest];
    for (place, number) in header.chunks_exact_mut(2).zip(numbers) {
        place.copy_from_slice(&number.to_be_bytes());
    }
    Some(header)
}

/// The 32-bit number at `at`.
fn number(bytes: &[u8], at: usize) -> Option<usize> {
    usize::try_from(u32::from_be_bytes(bytes.get(at..at + 4)?.try_into().ok()?)).ok()
}

/// The sum of the 32-bit words; `bytes` is a whole number of them.
fn checksum(bytes: &[u8]) -> u32 {
    bytes.chunks_exact(4).fold(0, |sum, word| sum.wrapping_add(word.iter().fold(0, |w, b| w << 8 | u32::from(*b))))
}

#[cfg(test)]
mod tests {
    use super::{WHOLE_CHECKSUM, checksum, search_header, without};

    /// A font of three tables, of which the second is left out.
    fn tiny() -> Vec<u8> {
        let mut font = vec![0, 1, 0, 0, 0, 3, 0, 32, 0, 1, 0, 16];
        let tables: [(&[u8; 4], &[u8]); 3] = [(b"glyf", &[9; 6]), (b"head", &[1; 12]), (b"name", &[7; 4])];
        let mut at: u32 = 12 + 16 * 3;
        for (tag, table) in tables {
            font.extend_from_slice(tag);
            font.extend([0, 0, 0, 5]);
            font.extend(at.to_be_bytes());
            font.extend(u32::try_from(table.len()).unwrap_or(0).to_be_bytes());
            at += u32::try_from(table.len().next_multiple_of(4)).unwrap_or(0);
        }
        for (_, table) in tables {
            font.extend_from_slice(table);
            font.resize(font.len().next_multiple_of(4), 0);
        }
        font
    }

    #[test]
    fn tables_are_taken_out_and_the_rest_stays_whole() {
        let cut = without(&tiny(), &[b"name"]).unwrap_or_default();
        assert_eq!(cut[..12], [0, 1, 0, 0, 0, 2, 0, 32, 0, 1, 0, 0]);
        assert_eq!(cut[12..28], *b"glyf\0\0\0\x05\0\0\0\x2c\0\0\0\x06");
        assert_eq!(cut[28..44], *b"head\0\0\0\x05\0\0\0\x34\0\0\0\x0c");
        assert_eq!(cut[44..52], [9, 9, 9, 9, 9, 9, 0, 0]);
        assert_eq!(cut.len(), 64);
        assert_eq!(checksum(&cut), WHOLE_CHECKSUM);
    }

    #[test]
    fn a_broken_font_is_refused() {
        for length in 0..60 {
            assert_eq!(without(&tiny()[..length], &[]), None, "cut off at {length}");
        }
        assert_eq!(search_header(0), None);
    }
}
