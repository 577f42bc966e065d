//! The list of a class: who has which set, step, focus and code, as a page to print and as a table for a spreadsheet.

use super::class::Member;
use super::manifest::Manifest;
use super::request::{Materials, RequestError};
use crate::layout::{Align, Area, Type, across, drawable, text_at};
use crate::page::{Document, Face, Ink, Length, Mark, Page, Paper, Point, Size, Stroke};
use crate::pdf;
use crate::record::guarded;

/// What the list says of each packet.
const HEADS: [&str; 6] = ["name", "set", "step", "focus", "code", "file"];

/// Why there is no list.
#[derive(Debug, thiserror::Error)]
pub enum ListError {
    /// A step or a blend is unknown.
    #[error(transparent)]
    Request(#[from] RequestError),
    /// It can't be drawn.
    #[error(transparent)]
    Pdf(#[from] pdf::PdfError),
}

/// The list's files by name: a page to print and a table for a spreadsheet.
///
/// # Errors
/// When a step or a blend is unknown.
pub fn files(manifest: &Manifest, materials: &Materials) -> Result<Vec<(String, Vec<u8>)>, ListError> {
    let rows: Result<Vec<[String; 6]>, RequestError> =
        manifest.members.iter().map(|member| row(manifest, member, materials)).collect();
    let rows = rows?;
    let mut writer = csv::Writer::from_writer(Vec::new());
    let all = std::iter::once(HEADS.map(str::to_owned)).chain(rows.iter().cloned());
    let written = all.map(|row| row.map(|cell| guarded(&cell))).try_for_each(|row| writer.write_record(row));
    // Writing to memory does not fail.
    let text = if written.is_ok() { writer.into_inner().unwrap_or_default() } else { Vec::new() };
    let mut files = vec![(format!("{}-class-list.csv", manifest.name), text)];
    if rows.len() <= MOST_DRAWN {
        files.push((format!("{}-class-list.pdf", manifest.name), pdf::write(&document(manifest, &rows))?));
    }
    Ok(files)
}

/// The most packets of which a page to print is made: a school, not a town.
const MOST_DRAWN: usize = 2000;

const TITLE: Type = Type::black(Face::Bold, Length::pt(18));
const HEAD: Type = Type::black(Face::Bold, Length::pt(10));
const TEXT: Type = Type::black(Face::Regular, Length::pt(10));
const FOOT: Type = Type::black(Face::Regular, Length::pt(8)).inked(Ink::DARK);

/// The height of a row.
const ROW: Length = Length::mm(8);

/// The columns: their headings, their widths in hundredths of the page's, and which cell of a row stands there. The last two are left to
/// tick.
const COLUMNS: [(&str, i64, Option<usize>); 7] = [
    ("Name", 30, Some(0)),
    ("Set", 7, Some(1)),
    ("Step", 18, Some(2)),
    ("Blends", 15, Some(3)),
    ("Code", 16, Some(4)),
    ("Given", 7, None),
    ("Back", 7, None),
];

fn document(manifest: &Manifest, rows: &[[String; 6]]) -> Document {
    let paper = manifest.plan.paper.unwrap_or_default();
    let (size, margin) = (paper.size(), Paper::MARGIN);
    let body = Area { x: margin, y: margin, width: size.width - margin * 2, height: size.height - margin * 2 };
    let title =
        if manifest.group.is_empty() { "Class list".to_owned() } else { format!("Class list: {}", manifest.group) };
    let mut pages: Vec<Vec<Mark>> = Vec::new();
    let mut y = body.bottom();
    for row in rows {
        if y + ROW > body.bottom() - Length::mm(10) {
            pages.push(head(&title, &manifest.plan.title, &body));
            y = body.y + Length::mm(26);
        }
        if let Some(marks) = pages.last_mut() {
            cells(row, y, &body, marks);
        }
        y += ROW;
    }
    let count = pages.len();
    let foot = format!("seed {}  ·  Names stay with the class: follow your school's rules on privacy.", manifest.seed);
    let finish = |(at, mut marks): (usize, Vec<Mark>)| {
        let baseline = body.bottom() - FOOT.face.descent(FOOT.size);
        let page = format!("page {} of {count}", at + 1);
        let room = Area { width: body.width - Length::mm(30), ..body };
        marks.push(text_at(&foot, FOOT.shrunk_to(&foot, room.width), Align::Left, &room, baseline));
        marks.push(text_at(&page, FOOT, Align::Right, &body, baseline));
        Page { size, marks, language: None }
    };
    let pages = pages.into_iter().enumerate().map(finish).collect();
    Document { title, language: "en-US".to_owned(), pages, bookmarks: Vec::new() }
}

/// The top of a page: what it lists, and the columns' headings.
fn head(title: &str, plan: &str, body: &Area) -> Vec<Mark> {
    let drawn = drawable(title).unwrap_or("Class list");
    let mut marks =
        vec![text_at(drawn, TITLE.shrunk_to(drawn, body.width), Align::Left, body, body.y + TITLE.baseline())];
    marks.push(text_at(plan, TEXT.shrunk_to(plan, body.width), Align::Left, body, body.y + Length::mm(14)));
    let baseline = body.y + Length::mm(23);
    for ((head, ..), area) in COLUMNS.iter().zip(columns(body)) {
        marks.push(text_at(head, HEAD.shrunk_to(head, area.width), Align::Left, &area, baseline));
    }
    marks.push(across(body.x, body.right(), body.y + Length::mm(26), Stroke::solid(Stroke::THINNEST)));
    marks
}

fn cells(row: &[String; 6], top: Length, body: &Area, marks: &mut Vec<Mark>) {
    let baseline = top + Length::mm(5) + Length::pt(1);
    for ((_, _, cell), area) in COLUMNS.iter().zip(columns(body)) {
        match cell.map(|at| row[at].as_str()) {
            // A name that can't be drawn is left to write.
            Some(text) if drawable(text).is_some() => {
                marks.push(text_at(text, TEXT.shrunk_to(text, area.width), Align::Left, &area, baseline));
            }
            Some(_) => {}
            None => {
                let side = Length::mm(4);
                marks.push(Mark::Rect {
                    at: Point { x: area.x, y: top + Length::mm(2) },
                    size: Size { width: side, height: side },
                    radius: Length::ZERO,
                    stroke: Some(Stroke::solid(Stroke::THINNEST)),
                    fill: None,
                });
            }
        }
    }
    marks.push(across(body.x, body.right(), top + ROW, Stroke::solid(Stroke::THINNEST).inked(Ink::MID)));
}

/// The columns' places, with a little room between them.
fn columns(body: &Area) -> impl Iterator<Item = Area> + use<> {
    let body = *body;
    let mut x = body.x;
    COLUMNS.iter().map(move |(_, share, _)| {
        let width = body.width.times(*share, 100);
        let area = Area { x, width: width - Length::mm(2), ..body };
        x += width;
        area
    })
}

fn row(manifest: &Manifest, member: &Member, materials: &Materials) -> Result<[String; 6], RequestError> {
    let child = member.child.as_ref();
    let step = child.and_then(|child| child.step.as_ref()).or(manifest.plan.step.as_ref());
    let step = match step {
        Some(step) => {
            let step = materials.sequence.step(&step.0)?;
            format!("{} {}", step.number, step.name)
        }
        None => String::new(),
    };
    let focus = child.and_then(|child| child.focus.as_ref()).or(manifest.plan.focus.as_ref());
    let file = if manifest.binding == super::Binding::Each { &member.file } else { &manifest.name };
    Ok([
        member.label(),
        member.set.map(|set| set.to_string()).unwrap_or_default(),
        step,
        focus.map(|focus| focus.0.join(" ")).unwrap_or_default(),
        member.code.map(|code| code.to_string()).unwrap_or_default(),
        format!("{file}.pdf"),
    ])
}
