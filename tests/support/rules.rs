//! The rules of a printed page, each a function that gives what breaks it.

use std::collections::{BTreeMap, BTreeSet};

use sheafling::page::{Document, Ink, Length, Mark, Page, Point, Stroke};
use sheafling::sheet::Sheet;

use super::glyphs::inked;

/// The least margin: half an inch.
const MARGIN: Length = Length::um(12_700);

/// The smallest type that a child is given to read.
const CHILD: Length = Length::pt(18);

/// The type of the footer.
const FOOTER: Length = Length::pt(8);

/// Everything that breaks a rule on the pages of one sheet or key.
pub fn broken(document: &Document, sheet: &Sheet, key: bool) -> Vec<String> {
    let mut wrong = Vec::new();
    let total = document.pages.len();
    for (at, page) in document.pages.iter().enumerate() {
        let mut found = [outside(page), overlapping(page), crossed(page, sheet, key), looks(page)].concat();
        found.extend(footer(page, sheet, at + 1, total));
        if !key {
            found.extend(too_small(page, sheet));
        }
        wrong.extend(found.into_iter().map(|what| format!("page {}: {what}", at + 1)));
    }
    wrong.extend(lonely(document));
    wrong
}

/// What breaks the rules that every page keeps, whatever is on it.
pub fn off_the_page(document: &Document, sheet: &Sheet) -> Vec<String> {
    let total = document.pages.len();
    let of = |(at, page): (usize, &Page)| {
        // The back of a leaf of cards, or a page that lets one begin, carries no footer.
        let footer = if page.marks.is_empty() { Vec::new() } else { footer(page, sheet, at + 1, total) };
        [outside(page), overlapping(page), looks(page), footer]
            .concat()
            .into_iter()
            .map(move |what| format!("page {}: {what}", at + 1))
    };
    document.pages.iter().enumerate().flat_map(of).collect()
}

/// What a mark covers: text by its outlines, lines and boxes with half the width of their strokes.
fn covered(mark: &Mark) -> Option<(Point, Point)> {
    match mark {
        Mark::Text { at, text, face, size, .. } => inked(text, *face, *size, *at),
        Mark::Line { .. } => Some(mark.bounds()),
        Mark::Rect { stroke, .. } => Some(grown(mark.bounds(), stroke.map_or(Length::ZERO, |stroke| stroke.width))),
        Mark::Ellipse { stroke, .. } => Some(grown(mark.bounds(), stroke.width)),
    }
}

fn grown((from, to): (Point, Point), width: Length) -> (Point, Point) {
    let half = width.half();
    (Point::new(from.x - half, from.y - half), Point::new(to.x + half, to.y + half))
}

fn outside(page: &Page) -> Vec<String> {
    let inside = |(from, to): (Point, Point)| {
        from.x >= MARGIN && from.y >= MARGIN && to.x <= page.size.width - MARGIN && to.y <= page.size.height - MARGIN
    };
    page.marks
        .iter()
        .filter(|mark| covered(mark).is_some_and(|box_| !inside(box_)))
        .map(|mark| format!("in the margin: {mark:?}"))
        .collect()
}

fn meet((a_from, a_to): (Point, Point), (b_from, b_to): (Point, Point)) -> bool {
    a_from.x < b_to.x && b_from.x < a_to.x && a_from.y < b_to.y && b_from.y < a_to.y
}

fn texts(page: &Page) -> Vec<(&str, Length, Ink, (Point, Point))> {
    let text = |mark| match mark {
        &Mark::Text { at, ref text, face, size, ink } => {
            inked(text, face, size, at).map(|covered| (text.as_str(), size, ink, covered))
        }
        _ => None,
    };
    page.marks.iter().filter_map(text).collect()
}

fn overlapping(page: &Page) -> Vec<String> {
    let texts = texts(page);
    let mut wrong = Vec::new();
    for (at, one) in texts.iter().enumerate() {
        for other in &texts[at + 1..] {
            if meet(one.3, other.3) {
                wrong.push(format!("{:?} lies over {:?}", one.0, other.0));
            }
        }
    }
    wrong
}

/// Text that a line or the side of a box runs through. Words on a key and the child's name stand on lines to write on, and
/// their tails go through.
fn crossed(page: &Page, sheet: &Sheet, key: bool) -> Vec<String> {
    let mut wrong = Vec::new();
    for (text, _, _, covered) in texts(page) {
        let written = key || Some(text) == sheet.child.as_deref();
        for mark in &page.marks {
            let sides = match mark {
                Mark::Line { from, to, .. } if written && from.y == to.y => Vec::new(),
                Mark::Line { .. } => vec![mark.bounds()],
                Mark::Rect { at, size, stroke: Some(stroke), .. } => {
                    let (right, bottom) = (at.x + size.width, at.y + size.height);
                    let side = |from, to| Mark::Line { from, to, stroke: *stroke }.bounds();
                    let corner = Point::new;
                    vec![
                        side(*at, corner(right, at.y)),
                        side(*at, corner(at.x, bottom)),
                        side(corner(right, at.y), corner(right, bottom)),
                        side(corner(at.x, bottom), corner(right, bottom)),
                    ]
                }
                _ => Vec::new(),
            };
            if sides.into_iter().any(|side| meet(covered, side)) {
                wrong.push(format!("{text:?} is crossed by {mark:?}"));
            }
        }
    }
    wrong
}

/// Greys and lines that a photocopy may lose.
fn looks(page: &Page) -> Vec<String> {
    let inks = [Ink::BLACK, Ink::DARK, Ink::MID, Ink::PALE, Ink::percent(0)];
    let thick = |stroke: &Stroke| stroke.width >= Length::milli_pt(500) && inks.contains(&stroke.ink);
    let good = |mark: &&Mark| match mark {
        Mark::Text { ink, .. } => [Ink::BLACK, Ink::DARK].contains(ink),
        Mark::Line { stroke, .. } | Mark::Ellipse { stroke, .. } => thick(stroke),
        Mark::Rect { stroke, fill, .. } => {
            stroke.as_ref().is_none_or(thick) && fill.is_none_or(|ink| inks.contains(&ink))
        }
    };
    page.marks.iter().filter(|mark| !good(mark)).map(|mark| format!("its look: {mark:?}")).collect()
}

/// Every page says which sheet it is of, which page of how many, and by which seed it can be made again.
fn footer(page: &Page, sheet: &Sheet, number: usize, total: usize) -> Vec<String> {
    let foot: Vec<&str> =
        texts(page).into_iter().filter(|text| text.1 <= FOOTER && text.2 == Ink::DARK).map(|text| text.0).collect();
    let foot = foot.join(" | ");
    let mut wanted = vec![format!("page {number} of {total}"), format!("seed {}", sheet.seed), sheet.title.clone()];
    wanted.extend(sheet.child.clone());
    wanted.into_iter().filter(|part| !foot.contains(part)).map(|part| format!("no {part:?} in {foot:?}")).collect()
}

/// Words for the child that are too small. What is known to be for the adult, and the sheet's own furniture, is left aside.
fn too_small(page: &Page, sheet: &Sheet) -> Vec<String> {
    let aside = |text: &str, size: Length, ink: Ink| {
        ink == Ink::DARK
            || text == "Name"
            || text == "Date"
            || Some(text) == sheet.child.as_deref()
            || (sheet.directions.contains(text) && size >= Length::pt(12))
    };
    texts(page)
        .into_iter()
        .filter(|(text, size, ink, _)| *size < CHILD && !aside(text, *size, *ink))
        .map(|(text, size, _, _)| format!("{text:?} is {} thousandths of a point", size.to_milli_pt()))
        .collect()
}

/// How many rows a page has to work on: boxes with square corners and lines to write on, by their height on the page.
fn rows(page: &Page) -> usize {
    let solid = |stroke: &Stroke| stroke.width == Length::pt(1) && stroke.dash.is_none() && stroke.ink == Ink::BLACK;
    let row = |mark: &Mark| match mark {
        Mark::Rect { at, radius: Length::ZERO, stroke: Some(stroke), .. } if solid(stroke) => Some(at.y),
        Mark::Line { from, to, stroke } if from.y == to.y && solid(stroke) => Some(from.y),
        _ => None,
    };
    page.marks.iter().filter_map(row).collect::<BTreeSet<_>>().len()
}

/// A page after the first with a single row, though another page has two to give; and pages of very different fullness.
fn lonely(document: &Document) -> Vec<String> {
    let rows: BTreeMap<usize, usize> = document.pages.iter().map(rows).enumerate().collect();
    let most = rows.values().copied().max().unwrap_or(0);
    rows.iter()
        .filter(|(page, rows)| **page > 0 && **rows < 2 && most > 2)
        .map(|(page, rows)| format!("page {} has only {rows} of the rows, and another has {most}", page + 1))
        .collect()
}
