//! The PDF objects that describe an embedded face (ISO 32000-1, 9.7): text shows glyph numbers of two bytes, and a table says
//! which character each of them stands for.

use std::fmt::Write as _;

use lopdf::{Dictionary, Object, StringFormat, dictionary};

use super::PdfError;
use super::file::{Parts, name};
use super::subset::subset;
use super::text::{FaceGlyphs, Used};
use crate::page::Face;

/// Font flag "symbolic" (ISO 32000-1, table 123): the glyphs are not those of one of the old Latin sets.
const SYMBOLIC: i64 = 4;

/// Adds the objects of one face and returns the reference that pages use.
pub(super) fn add(parts: &mut Parts, face: Face, glyphs: &FaceGlyphs) -> Result<Object, PdfError> {
    let program = subset(face, glyphs)?;
    let used = glyphs.in_order(face);
    let base = format!("{}+{}", tag(face, &program), face.name());
    let mut program_entries = Dictionary::new();
    program_entries.set("Length1", i64::try_from(program.len()).unwrap_or(i64::MAX));
    let program = parts.stream(program_entries, program)?;
    let to_unicode = parts.stream(Dictionary::new(), to_unicode(&used).into_bytes())?;
    let descriptor = parts.add(descriptor(face, &base, &used, program));
    let descendant = parts.add(dictionary! {
        "Type" => name("Font"),
        "Subtype" => name("CIDFontType2"),
        "BaseFont" => name(&base),
        "CIDSystemInfo" => dictionary! {
            "Registry" => ascii("Adobe"),
            "Ordering" => ascii("Identity"),
            "Supplement" => 0,
        },
        "FontDescriptor" => descriptor,
        "DW" => 0,
        "W" => widths(face, &used),
        "CIDToGIDMap" => name("Identity"),
    });
    Ok(parts.add(dictionary! {
        "Type" => name("Font"),
        "Subtype" => name("Type0"),
        "BaseFont" => name(&base),
        "Encoding" => name("Identity-H"),
        "DescendantFonts" => vec![descendant],
        "ToUnicode" => to_unicode,
    }))
}

/// Six capitals that stand for one subset of one face (ISO 32000-1, 9.6.4), from a hash of its font program.
fn tag(face: Face, program: &[u8]) -> String {
    let mut hasher = blake3::Hasher::new();
    hasher.update(face.name().as_bytes());
    hasher.update(program);
    hasher.finalize().as_bytes().iter().take(6).map(|byte| char::from(b'A' + byte % 26)).collect()
}

/// Font units in thousandths of the type size, rounded to a whole number.
fn thousandths(face: Face, units: i64) -> i64 {
    let em = face.metrics().units_per_em;
    (units * 1000 + em / 2).div_euclid(em)
}

/// The widths of the glyphs from number 1 on.
///
/// An advance in thousandths of an em of 2048 units has at most eight binary places, so that a float holds it exactly.
fn widths(face: Face, used: &[Used]) -> Vec<Object> {
    #[expect(clippy::cast_precision_loss, reason = "advances have at most 16 bits, and 125 another 7")]
    let width = |glyph: &Used| Object::Real((glyph.advance * 1000) as f32 / face.metrics().units_per_em as f32);
    vec![1.into(), Object::Array(used.iter().map(width).collect())]
}

/// The face's measures as PDF readers want them, for the box that the used glyphs fill.
fn descriptor(face: Face, base: &str, used: &[Used], program: Object) -> Dictionary {
    let metrics = face.metrics();
    let boxes: Vec<_> = used.iter().filter_map(|glyph| face.glyph_box(glyph.glyph)).collect();
    let thousandths = |units| thousandths(face, units);
    let lowest = |side: fn(&_) -> i64| thousandths(boxes.iter().map(side).min().unwrap_or(0));
    let highest = |side: fn(&_) -> i64| thousandths(boxes.iter().map(side).max().unwrap_or(0));
    let bounds: Vec<Object> = vec![
        lowest(|b| b.left).into(),
        lowest(|b| b.bottom).into(),
        highest(|b| b.right).into(),
        highest(|b| b.top).into(),
    ];
    dictionary! {
        "Type" => name("FontDescriptor"),
        "FontName" => name(base),
        "Flags" => SYMBOLIC,
        "FontBBox" => bounds,
        "ItalicAngle" => 0,
        "Ascent" => thousandths(metrics.ascent),
        "Descent" => -thousandths(metrics.descent),
        "CapHeight" => thousandths(metrics.cap_height),
        "XHeight" => thousandths(metrics.x_height),
        "StemV" => stem(face),
        "FontFile2" => program,
    }
}

/// How thick an upright stroke is, in thousandths of the type size, for readers that have to replace the font.
const fn stem(face: Face) -> i64 {
    match face {
        Face::Regular => 88,
        Face::Bold => 150,
    }
}

/// The table from glyph numbers to characters (ISO 32000-1, 9.10.3), in blocks of at most a hundred.
fn to_unicode(used: &[Used]) -> String {
    let mut table = String::from(
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n\
         /CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n\
         /CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n\
         1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n",
    );
    let mut number = 0_u32;
    for block in used.chunks(100) {
        // Writing to a String cannot fail.
        let _ = writeln!(table, "{} beginbfchar", block.len());
        for glyph in block {
            number += 1;
            let _ = write!(table, "<{number:04X}> <");
            for unit in glyph.character.encode_utf16(&mut [0; 2]) {
                let _ = write!(table, "{unit:04X}");
            }
            table.push_str(">\n");
        }
        table.push_str("endbfchar\n");
    }
    table.push_str("endcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n");
    table
}

/// A byte string of plain letters.
fn ascii(text: &str) -> Object {
    Object::String(text.into(), StringFormat::Literal)
}
