//! A table to write down what was right: a row for each item, and boxes to mark for each try.

use serde::Deserialize;

use super::TooWide;
use super::grid::numbered;
use super::lesson::remarks;
use crate::layout::area::{Align, Area, Type, across, outline, text_at, text_line};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::text::Template;
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Stroke};
use crate::sheet::{Item, Part};

/// A row for each item with a box for each of its sounds or words in the column of each try, and room for a note. The items are those
/// of the sheet's parts, each part with a heading and a place for its total; or those of the sheet itself, with one box each. A part
/// stays on one page.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct TableBlock {
    /// What stands for an item of a sheet without parts; names in braces are filled from the item. Those of parts say it themselves.
    #[serde(deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub item: Template,
    /// How many tries, 1 to 4.
    pub tries: u8,
    /// Type size in points.
    pub size: Span<Pt>,
    /// The side of a box in millimetres.
    pub boxes: Span<Mm>,
    /// What stands above each try, before its number.
    pub label: String,
    /// What stands above the last column; leave it empty for none.
    pub note: String,
}

impl Default for TableBlock {
    fn default() -> Self {
        Self {
            item: Template::of_name("word"),
            tries: 3,
            size: Span::new(11, 14),
            boxes: Span::new(4, 7),
            label: "Try".to_owned(),
            note: "Note".to_owned(),
        }
    }
}

/// Space at the sides of a column, and the least width of the column of notes.
const PAD: Length = Length::mm(2);
const NOTE: Length = Length::mm(20);

/// The rows under one heading.
struct Group<'a> {
    part: Option<&'a Part>,
    rows: Vec<(String, i64)>,
}

impl Group<'_> {
    fn total(&self) -> i64 {
        self.rows.iter().map(|(_, marks)| marks).sum()
    }
}

/// Where the columns stand, and how things look.
struct Columns<'a> {
    body: &'a Area,
    tries: i64,
    item: Length,
    each: Length,
    side: Length,
    kind: Type,
    bold: Type,
    small: Type,
}

impl Columns<'_> {
    fn at(&self, nth: i64) -> Area {
        let x = self.body.x + self.item + self.each * nth;
        Area { x, y: Length::ZERO, width: self.each, height: Length::ZERO }
    }

    fn note(&self) -> Area {
        let x = self.at(self.tries).x;
        Area { x, width: self.body.right() - x, ..self.at(0) }
    }

    /// A band closed by a line below, with a line between each two columns.
    fn band(&self, height: Length, mut marks: Vec<Mark>, note: bool) -> Band {
        let thin = Stroke::solid(Stroke::THINNEST).inked(Ink::MID);
        marks.push(across(self.body.x, self.body.right(), height, thin));
        let rails = (0..self.tries + i64::from(note)).map(|nth| (self.at(nth).x, thin)).collect();
        Band { rails, ..Band::new(height, marks) }
    }
}

impl TableBlock {
    fn groups<'a>(&self, setting: &Setting<'a>) -> Vec<Group<'a>> {
        let sheet = setting.sheet;
        if sheet.parts.is_empty() {
            let row = |item: &Item, number| (self.item.fill(item, number, setting.notation), 1);
            let rows = numbered(&sheet.items).into_iter().map(|numbered| row(numbered.item, numbered.number)).collect();
            return vec![Group { part: None, rows }];
        }
        let row = |part: &Part, item: &Item| {
            let ask = item.texts.get("ask").cloned().unwrap_or_default();
            (ask, i64::try_from(part.marks(item)).unwrap_or(1))
        };
        let group =
            |part: &'a Part| Group { part: Some(part), rows: part.items.iter().map(|item| row(part, item)).collect() };
        sheet.parts.iter().filter(|part| part.left_out.is_none()).map(group).collect()
    }

    fn columns<'a>(&self, groups: &[Group], body: &'a Area, setting: &Setting<'_>) -> Result<Columns<'a>, TooWide> {
        let size = self.size.at(setting.percent);
        let kind = Type::black(Face::Regular, size);
        let small = Type::black(Face::Regular, Length::pt(10)).inked(Ink::DARK);
        let side = self.boxes.at(setting.percent);
        let tries = i64::from(self.tries.clamp(1, 4));
        let rows = || groups.iter().flat_map(|group| &group.rows);
        let most = rows().map(|(_, marks)| *marks).max().unwrap_or(1);
        let label = small.width(&format!("{} {tries}", self.label)).max(small.width("____ of 99"));
        let each = (side * most).max(label) + PAD * 2;
        let bold = Type::black(Face::Bold, size);
        let titles = groups.iter().filter_map(|group| group.part).map(|part| bold.width(&part.title));
        let item = rows().map(|(text, _)| kind.width(text)).chain(titles).max().unwrap_or_default() + PAD;
        let note = if self.note.is_empty() { Length::ZERO } else { NOTE };
        let needs = item + each * tries + note;
        if needs > body.width {
            return Err(TooWide { what: "the table".to_owned(), needs, has: body.width });
        }
        // Without a column of notes the items take what is left.
        let item = if self.note.is_empty() { body.width - each * tries } else { item };
        Ok(Columns { body, tries, item, each, side, kind, bold, small })
    }

    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let groups = self.groups(setting);
        let columns = self.columns(&groups, body, setting)?;
        let mut bands = vec![self.head(&columns)];
        for group in groups.iter().filter(|group| !group.rows.is_empty()) {
            bands.extend(self.heading(group, &columns));
            for (at, (text, marks)) in group.rows.iter().enumerate() {
                let last = at + 1 == group.rows.len();
                bands.push(Band { keep_with_next: !last, ..self.row(text, *marks, &columns) });
            }
        }
        bands.extend(remarks(body, setting));
        Ok(bands)
    }

    /// The numbers of the tries, with a line for the date of each.
    fn head(&self, columns: &Columns) -> Band {
        let Columns { small, tries, .. } = *columns;
        let mut marks = Vec::new();
        let line = small.line_height();
        for nth in 0..tries {
            let cell = columns.at(nth);
            marks.push(text_line(&format!("{} {}", self.label, nth + 1), small, Align::Center, &cell, Length::ZERO));
        }
        let date = Area { width: columns.item - PAD, ..*columns.body };
        marks.push(text_line("Date", small, Align::Right, &date, line + Length::mm(1)));
        if !self.note.is_empty() {
            marks.push(text_line(&self.note, small, Align::Center, &columns.note(), Length::ZERO));
        }
        let band = columns.band(line * 2 + Length::mm(2), marks, !self.note.is_empty());
        Band { keep_with_next: true, ..band.below(Length::mm(3)) }
    }

    /// The heading of a part with a place for the total of each try.
    fn heading(&self, group: &Group, columns: &Columns) -> Option<Band> {
        let Columns { bold, small, .. } = *columns;
        let part = group.part?;
        let height = bold.line_height() + Length::mm(2);
        let title = Area { width: columns.item - PAD, ..*columns.body };
        let top = (height - bold.line_height()).half();
        let mut marks = vec![text_line(&part.title, bold, Align::Left, &title, top)];
        for nth in 0..columns.tries {
            let total = format!("____ of {}", group.total());
            let baseline = top + bold.baseline();
            marks.push(text_at(&total, small, Align::Center, &columns.at(nth), baseline));
        }
        let band = columns.band(height, marks, !self.note.is_empty());
        Some(Band { keep_with_next: true, stretch: Length::mm(2), ..band.below(Length::um(500)) })
    }

    fn row(&self, text: &str, marks: i64, columns: &Columns) -> Band {
        let Columns { kind, side, .. } = *columns;
        let height = (side + Length::um(1_500)).max(kind.line_height() + Length::um(500));
        let mut drawn = vec![text_line(text, kind, Align::Left, columns.body, (height - kind.line_height()).half())];
        for nth in 0..columns.tries {
            let cell = columns.at(nth);
            for mark in 0..marks {
                let x = cell.x + PAD + side * mark;
                let area = Area { x, y: (height - side).half(), width: side, height: side };
                drawn.push(outline(&area, Length::ZERO, Stroke::solid(Length::milli_pt(750))));
            }
        }
        columns.band(height, drawn, !self.note.is_empty())
    }
}
