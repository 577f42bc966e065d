//! The parts of a lesson: what to say, the items, and their answers, for the teacher to read from.

use serde::Deserialize;

use super::TooWide;
use crate::layout::area::{Align, Area, Type, across, text_line};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::text::wrap;
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Stroke};
use crate::sheet::{Item, Part};

/// The parts of a lesson, each with its number and title at the left, what to say in quotation marks, and its items with their answers
/// in bold. At the end stands which parts were left out and why.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct LessonBlock {
    /// Type size in points; 11 or more.
    pub size: Span<Pt>,
    /// Space between parts in millimetres: it grows to fill the page.
    pub gap: Span<Mm>,
    /// The width of the column of titles in millimetres.
    pub side: Span<Mm>,
}

impl Default for LessonBlock {
    fn default() -> Self {
        Self { size: Span::new(11, 13), gap: Span::new(2, 6), side: Span::new(36, 40) }
    }
}

/// Space between items side by side, and between an item and its answer.
const GUTTER: Length = Length::mm(5);
const REPLY: Length = Length::mm(3);
/// The most items side by side.
const COLUMNS: i64 = 6;

/// Marks from the top down.
struct Column {
    area: Area,
    top: Length,
    marks: Vec<Mark>,
}

impl Column {
    fn new(area: Area) -> Self {
        Self { area, top: Length::ZERO, marks: Vec::new() }
    }

    fn wrapped(&mut self, text: &str, kind: Type) {
        for line in wrap(text, kind, self.area.width).iter().filter(|line| !line.is_empty()) {
            self.marks.push(text_line(line, kind, Align::Left, &self.area, self.top));
            self.top += kind.line_height();
        }
    }
}

fn text<'a>(item: &'a Item, name: &str) -> &'a str {
    item.texts.get(name).map_or("", String::as_str)
}

impl LessonBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let size = self.size.at(setting.percent);
        let mut bands: Vec<Band> = Vec::new();
        let mut section = "";
        let standing = setting.sheet.parts.iter().filter(|part| part.left_out.is_none());
        for (at, part) in standing.enumerate() {
            if part.section != section {
                section = &part.section;
                bands.push(heading(section, size, body));
            }
            bands.push(self.part(part, at + 1, body, setting)?);
        }
        bands.extend(remarks(body, setting));
        Ok(bands)
    }

    fn part(&self, part: &Part, number: usize, body: &Area, setting: &Setting<'_>) -> Result<Band, TooWide> {
        let size = self.size.at(setting.percent);
        let (plain, bold) = (Type::black(Face::Regular, size), Type::black(Face::Bold, size));
        let side = self.side.at(setting.percent);
        let mut title =
            Column::new(Area { x: body.x, y: Length::ZERO, width: side - Length::mm(3), height: body.height });
        title.wrapped(&format!("{number}. {}", part.title), bold);
        let right = Area { x: body.x + side, width: body.width - side, ..title.area };
        let mut column = Column::new(right);
        if !part.say.is_empty() {
            column.wrapped(&format!("“{}”", part.say), plain);
            column.top += Length::um(800);
        }
        items(&part.items, plain, bold, &mut column)?;
        let height = title.top.max(column.top);
        let marks = [title.marks, column.marks].concat();
        let stretch = self.gap.most - self.gap.least;
        Ok(Band { stretch, ..Band::new(height, marks).below(self.gap.at(0)) })
    }
}

/// Which parts were left out and why, and what else is to be said of the sheet, in small print.
pub(super) fn remarks(body: &Area, setting: &Setting<'_>) -> Option<Band> {
    let small = Type::black(Face::Regular, Length::pt(10)).inked(Ink::DARK);
    let mut end = Column::new(Area { y: Length::ZERO, ..*body });
    for part in &setting.sheet.parts {
        if let Some(why) = &part.left_out {
            end.wrapped(&format!("Left out at this step: {}. {why}", part.title), small);
        }
    }
    for remark in &setting.sheet.remarks {
        end.wrapped(remark, small);
    }
    (!end.marks.is_empty()).then(|| Band::new(end.top, end.marks).below(Length::mm(4)))
}

fn heading(section: &str, size: Length, body: &Area) -> Band {
    let kind = Type::black(Face::Bold, size + Length::pt(2));
    let rule = Stroke::solid(Length::milli_pt(750));
    let under = kind.line_height() + Length::um(300);
    let marks =
        vec![text_line(section, kind, Align::Left, body, Length::ZERO), across(body.x, body.right(), under, rule)];
    Band { keep_with_next: true, stretch: Length::mm(3), ..Band::new(under, marks).below(Length::mm(3)) }
}

/// The items in as many even columns as their widths allow, row by row; each on lines of its own where one is too long.
fn items(items: &[Item], plain: Type, bold: Type, column: &mut Column) -> Result<(), TooWide> {
    let area = column.area;
    let reply = |item: &Item| match text(item, "reply") {
        "" => Length::ZERO,
        reply => REPLY + bold.width(reply),
    };
    let widest = items.iter().map(|item| plain.width(text(item, "ask")) + reply(item)).max().unwrap_or_default();
    let line = plain.line_height() + Length::um(600);
    if widest > area.width {
        return long(items, plain, bold, column);
    }
    let count = i64::try_from(items.len()).unwrap_or(1).max(1);
    let most = (area.width + GUTTER).fits(widest + GUTTER).clamp(1, COLUMNS.min(count));
    let rows = (count + most - 1) / most;
    let columns = (count + rows - 1) / rows;
    let width = (area.width + GUTTER) / columns;
    for (at, item) in (0..).zip(items) {
        let cell = Area { x: area.x + width * (at % columns), width, ..area };
        let top = column.top + line * (at / columns);
        let ask = text(item, "ask");
        column.marks.push(text_line(ask, plain, Align::Left, &cell, top));
        if !text(item, "reply").is_empty() {
            let beside = Area { x: cell.x + plain.width(ask) + REPLY, ..cell };
            column.marks.push(text_line(text(item, "reply"), bold, Align::Left, &beside, top));
        }
    }
    column.top += line * rows;
    Ok(())
}

/// One item below the other, each over as many lines as it takes.
fn long(items: &[Item], plain: Type, bold: Type, column: &mut Column) -> Result<(), TooWide> {
    for item in items {
        let before = column.top;
        column.wrapped(text(item, "ask"), plain);
        let reply = text(item, "reply");
        if reply.is_empty() {
            continue;
        }
        let width = bold.width(reply);
        let last =
            wrap(text(item, "ask"), plain, column.area.width).last().map_or(Length::ZERO, |end| plain.width(end));
        let fits = column.top > before && last + REPLY + width <= column.area.width;
        let (x, top) = if fits { (last + REPLY, column.top - plain.line_height()) } else { (Length::ZERO, column.top) };
        if width > column.area.width {
            return Err(TooWide { what: format!("`{reply}`"), needs: width, has: column.area.width });
        }
        let area = Area { x: column.area.x + x, ..column.area };
        column.marks.push(text_line(reply, bold, Align::Left, &area, top));
        column.top = column.top.max(top + bold.line_height()) + Length::um(600);
    }
    Ok(())
}
