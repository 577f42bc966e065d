//! What every written file must be, whatever is on its pages.

use lopdf::{Dictionary, Object, ObjectId, decode_text_string};

use super::{PdfError, write};
use crate::page::{Bookmark, Document, Face, Ink, Length, Mark, Page, Paper, Point, Size, Stroke};

/// The characters of sound notation, beyond plain letters.
const NOTATION: &str = "ă ĕ ĭ ŏ ŭ ā ē ī ō ū ə ’ – • ✓ ( \\ )";

fn at(x: i64, y: i64) -> Point {
    Point::new(Length::mm(x), Length::mm(y))
}

fn text(text: &str, face: Face) -> Mark {
    Mark::Text { at: at(20, 30), text: text.to_owned(), face, size: Length::pt(18), ink: Ink::BLACK }
}

fn page(paper: Paper, marks: Vec<Mark>) -> Page {
    Page { size: paper.size(), marks, language: None }
}

fn document(pages: Vec<Page>) -> Document {
    Document { title: "Blends".to_owned(), language: "en-US".to_owned(), pages, bookmarks: Vec::new() }
}

/// A document with every kind of mark, and with a number in it.
fn sample(number: usize) -> Document {
    let (line, size) = (Stroke::solid(Length::pt(1)), Size::new(Length::mm(40), Length::mm(20)));
    let marks = vec![
        text(&format!("Sheet {number}"), Face::Bold),
        text(NOTATION, Face::Regular),
        Mark::Line { from: at(20, 40), to: at(190, 40), stroke: line.inked(Ink::MID) },
        Mark::Rect { at: at(20, 50), size, radius: Length::mm(3), stroke: Some(line), fill: Some(Ink::PALE) },
        Mark::Ellipse { at: at(70, 50), size, stroke: line.dashed(Length::mm(2), Length::mm(1)) },
    ];
    let pages = vec![page(Paper::Letter, marks), page(Paper::A4, vec![text("stamp", Face::Regular)])];
    let bookmarks = ["First", "Zoë ✓"].into_iter().zip(0..);
    let bookmarks = bookmarks.map(|(title, page)| Bookmark { title: title.to_owned(), page }).collect();
    Document { title: format!("Blends – {number}"), bookmarks, ..document(pages) }
}

fn bytes(document: &Document) -> Vec<u8> {
    write(document).unwrap()
}

fn read(document: &Document) -> lopdf::Document {
    lopdf::Document::load_mem(&bytes(document)).unwrap()
}

fn follow<'a>(file: &'a lopdf::Document, from: &'a Dictionary, key: &str) -> &'a Dictionary {
    file.get_dict_in_dict(from, key.as_bytes()).unwrap()
}

fn page_ids(file: &lopdf::Document) -> Vec<ObjectId> {
    file.get_pages().into_values().collect()
}

/// The first font of a file, and what describes its glyphs.
fn font(file: &lopdf::Document) -> (&Dictionary, &Dictionary) {
    let (_, font) = file.get_page_fonts(page_ids(file)[0]).unwrap().into_iter().next().unwrap();
    let below = font.get(b"DescendantFonts").unwrap().as_array().unwrap()[0].as_reference().unwrap();
    (font, file.get_dictionary(below).unwrap())
}

/// Pinned, so that another process, another machine and another day must write these bytes too. It may change when a page is
/// meant to look different or when a library packs the same page differently; then put in the new hash that the test names.
#[test]
fn a_sheet_is_these_bytes() {
    assert_eq!(
        blake3::hash(&bytes(&sample(1))).to_hex().as_str(),
        "0293ab78398e25f39aba330ed8bfdae816c36c60cdd2ba04d9e4444e240472f1"
    );
}

#[test]
fn bytes_depend_on_the_document_alone() {
    let alone: Vec<_> = (0..6).map(|number| bytes(&sample(number))).collect();
    for number in (0..6).rev() {
        assert_eq!(bytes(&sample(number)), alone[number], "written again, after others");
    }
    std::thread::scope(|scope| {
        let writers: Vec<_> = (0..24).map(|at| (at % 6, scope.spawn(move || bytes(&sample(at % 6))))).collect();
        for (number, writer) in writers {
            assert_eq!(writer.join().unwrap(), alone[number], "written beside others");
        }
    });
    assert_ne!(alone[0], alone[1]);
}

#[test]
fn the_file_says_what_it_is_and_not_when() {
    let file = read(&sample(7));
    assert_eq!(file.version, "1.7");
    let catalog = file.catalog().unwrap();
    assert_eq!(decode_text_string(catalog.get(b"Lang").unwrap()).unwrap(), "en-US");
    assert_eq!(follow(&file, catalog, "ViewerPreferences").get(b"DisplayDocTitle").unwrap(), &Object::Boolean(true));
    let information = follow(&file, &file.trailer, "Info");
    assert_eq!(decode_text_string(information.get(b"Title").unwrap()).unwrap(), "Blends – 7");
    assert_eq!(information.iter().map(|(key, _)| key.as_slice()).collect::<Vec<_>>(), [&b"Title"[..], b"Producer"]);
    let identity = file.trailer.get(b"ID").unwrap().as_array().unwrap();
    assert_eq!(identity[0].as_str().unwrap().len(), 16);
}

/// ISO 216 A4 is 595.2756 by 841.8898 pt; US Letter is 612 by 792 pt.
#[test]
fn pages_are_as_large_as_the_paper() {
    let file = read(&sample(1));
    let sides = |id| {
        let sides = file.get_dictionary(id).unwrap().get(b"MediaBox").unwrap().as_array().unwrap();
        sides.iter().map(|side| side.as_float().unwrap()).collect::<Vec<_>>()
    };
    let pages = page_ids(&file);
    assert_eq!(sides(pages[0]), [0.0, 0.0, 612.0, 792.0]);
    assert_eq!(sides(pages[1]), [0.0, 0.0, 595.276, 841.89]);
}

#[test]
fn bookmarks_lead_to_their_pages_in_order() {
    let file = read(&sample(1));
    let outline = follow(&file, file.catalog().unwrap(), "Outlines");
    let first = follow(&file, outline, "First");
    let second = follow(&file, first, "Next");
    for (entry, title, page) in [(first, "First", 0), (second, "Zoë ✓", 1)] {
        assert_eq!(decode_text_string(entry.get(b"Title").unwrap()).unwrap(), title);
        let goal = entry.get(b"Dest").unwrap().as_array().unwrap()[0].as_reference().unwrap();
        assert_eq!(goal, page_ids(&file)[page]);
    }
    assert!(second.get(b"Next").is_err());
    assert!(!read(&document(vec![page(Paper::A4, vec![])])).catalog().unwrap().has(b"Outlines"));
}

#[test]
fn only_faces_and_glyphs_in_use_are_embedded() {
    let file = read(&document(vec![page(Paper::Letter, vec![text("bbabba", Face::Bold)])]));
    let fonts = file.get_page_fonts(page_ids(&file)[0]).unwrap();
    assert_eq!(fonts.len(), 1);
    let (font, below) = font(&file);
    let base = std::str::from_utf8(font.get(b"BaseFont").unwrap().as_name().unwrap()).unwrap();
    let (tag, name) = base.split_once('+').unwrap();
    assert!(tag.len() == 6 && tag.bytes().all(|letter| letter.is_ascii_uppercase()), "{base}");
    assert_eq!(name, "Andika-Bold");
    let widths = below.get(b"W").unwrap().as_array().unwrap()[1].as_array().unwrap();
    // hmtx of Andika-Bold: a is 1256 wide and b 1215, of 2048 to the em; thousandths of an em are written.
    assert_eq!(widths.iter().map(|w| w.as_float().unwrap()).collect::<Vec<_>>(), [613.281_25, 593.261_7]);
    assert!(bytes(&document(vec![page(Paper::Letter, vec![])])).len() < 1000);
    assert!(bytes(&sample(1)).len() < 20_000);
}

#[test]
fn text_can_be_copied_out() {
    let file = read(&document(vec![page(Paper::Letter, vec![text(NOTATION, Face::Regular)])]));
    let table = font(&file).0.get(b"ToUnicode").unwrap().as_reference().unwrap();
    let table = file.get_object(table).unwrap().as_stream().unwrap().decompressed_content().unwrap();
    let table = String::from_utf8(table).unwrap();
    let mut characters: Vec<char> = NOTATION.chars().collect();
    characters.sort_unstable();
    characters.dedup();
    for (c, number) in characters.iter().zip(1..) {
        assert!(table.contains(&format!("<{number:04X}> <{:04X}>\n", u32::from(*c))), "{c}");
    }
    assert_eq!(file.extract_text(&[1]).unwrap().trim(), NOTATION);
}

#[test]
fn what_cannot_be_written_is_refused_by_name() {
    let refused = |document: &Document| write(document).unwrap_err();
    assert!(matches!(refused(&document(vec![])), PdfError::NoPages));
    let wrong = document(vec![page(Paper::A4, vec![]), page(Paper::A4, vec![text("a語", Face::Bold)])]);
    assert_eq!(
        refused(&wrong).to_string(),
        "the font Andika-Bold has no glyph for '語' (U+8A9E), in the text \"a語\" on page 2"
    );
    let mut wrong = sample(1);
    wrong.bookmarks[1].page = 2;
    assert_eq!(refused(&wrong).to_string(), "the bookmark \"Zoë ✓\" points to page 3, and there are 2");
    let flat = Page { size: Size::new(Length::mm(100), Length::ZERO), marks: vec![], language: None };
    assert_eq!(
        refused(&document(vec![flat])).to_string(),
        "page 1 is 100.000mm by 0.000mm; each side must be from 3 to 14400 pt"
    );
}
