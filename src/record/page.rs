//! The report as pages to print: for each child on pages of its own, so that no page tells of two.

use super::chart::{LINE_CHART, MOST_DAYS, SMALL, bar, line_chart};
use super::next::counted;
use super::report::{ChildReport, Report, SkillReport, Trend, Trouble};
use crate::layout::{Align, Area, Type, across, drawable, text_at, text_line, wrap};
use crate::page::{Bookmark, Document, Face, Ink, Length, Mark, Page, Paper, Stroke};

const TITLE: Type = Type::black(Face::Bold, Length::pt(20));
const NAME: Type = Type::black(Face::Bold, Length::pt(16));
const HEAD: Type = Type::black(Face::Bold, Length::pt(13));
const TEXT: Type = Type::black(Face::Regular, Length::pt(11));
const FOOT: Type = Type::black(Face::Regular, Length::pt(8)).inked(Ink::DARK);

/// The height of a row with a bar.
const ROW: Length = Length::mm(8);

/// Draws a report. `title_of` gives the title by which a skill is known. Words that the font can't draw have `?` for such letters, and a
/// name that it can't draw is left to write.
#[must_use]
pub fn pages(report: &Report, paper: Paper, title_of: &dyn Fn(&str) -> String) -> Document {
    let mut document = Document {
        title: "Practice record".to_owned(),
        language: "en-US".to_owned(),
        pages: Vec::new(),
        bookmarks: Vec::new(),
    };
    for child in &report.children {
        document.bookmarks.push(Bookmark { title: child.child.clone(), page: document.pages.len() });
        let drawn = Writer::new(paper, report).child(child, title_of);
        document.pages.extend(drawn.into_iter().map(|marks| Page { size: paper.size(), marks, language: None }));
    }
    document
}

/// The widths of the columns of a table of bars.
struct Columns {
    name: Length,
    bar: Length,
    numbers: Length,
}

/// Long titles, and little at the right.
const SKILLS: Columns = Columns { name: Length::mm(55), bar: Length::mm(60), numbers: Length::mm(40) };

/// Short names, and room for words at the right.
const PARTS: Columns = Columns { name: Length::mm(34), bar: Length::mm(42), numbers: Length::mm(27) };

/// Writes one child's pages from top to bottom.
struct Writer<'a> {
    report: &'a Report,
    body: Area,
    pages: Vec<Vec<Mark>>,
    y: Length,
}

impl<'a> Writer<'a> {
    fn new(paper: Paper, report: &'a Report) -> Self {
        let (size, margin) = (paper.size(), Paper::MARGIN);
        let body = Area { x: margin, y: margin, width: size.width - margin * 2, height: size.height - margin * 2 };
        Self { report, body, pages: vec![Vec::new()], y: body.y }
    }

    fn child(mut self, child: &ChildReport, title_of: &dyn Fn(&str) -> String) -> Vec<Vec<Mark>> {
        self.heading(child);
        self.title("By skill", ROW * 2);
        self.scale();
        for skill in &child.skills {
            self.skill(skill, &title_of(&skill.skill));
        }
        let shown = child.days.len().min(MOST_DAYS);
        let left_out = child.days.len() - shown;
        let title = match left_out {
            0 => "By day".to_owned(),
            _ => format!("By day (the last {shown} of {})", child.days.len()),
        };
        self.title(&title, LINE_CHART);
        let chart = Area { y: self.y, height: LINE_CHART, ..self.body };
        line_chart(child.days.get(left_out..).unwrap_or_default(), &chart, self.page());
        self.y += LINE_CHART;
        self.troubles("Blends in trouble", &child.blends);
        self.troubles("Letter groups in trouble", &child.letter_groups);
        self.finish(child)
    }

    fn page(&mut self) -> &mut Vec<Mark> {
        if self.pages.is_empty() {
            self.pages.push(Vec::new());
        }
        let last = self.pages.len() - 1;
        &mut self.pages[last]
    }

    /// Where what is written must end: above the caution and the footer, which stand on every page.
    fn bottom(&self) -> Length {
        self.body.bottom() - caution_height(self.report, self.body.width) - Length::mm(9)
    }

    /// Begins a new page when less than `height` is left.
    fn room(&mut self, height: Length) {
        if self.y + height > self.bottom() {
            self.pages.push(Vec::new());
            self.y = self.body.y;
        }
    }

    /// A line of text.
    fn line(&mut self, text: &str, kind: Type, align: Align) {
        let mark = text_line(text, kind, align, &self.body, self.y);
        self.page().push(mark);
    }

    fn heading(&mut self, child: &ChildReport) {
        self.line("Practice record", TITLE, Align::Left);
        let right = Area { x: self.body.x + Length::mm(75), width: self.body.width - Length::mm(75), ..self.body };
        let baseline = self.y + TITLE.baseline();
        let name = match drawable(&child.child) {
            Some(name) => text_at(name, NAME.shrunk_to(name, right.width), Align::Right, &right, baseline),
            None => across(right.right() - Length::mm(60), right.right(), baseline, Stroke::solid(Stroke::THINNEST)),
        };
        self.page().push(name);
        self.y += TITLE.line_height() + Length::mm(2);
        let days = match (child.days.first(), child.days.last()) {
            (Some(first), Some(last)) if first.date != last.date => {
                format!("{}, {} to {}", counted(child.days.len(), "day"), first.date, last.date)
            }
            (Some(only), _) => only.date.to_string(),
            _ => String::new(),
        };
        let sum = child.sum;
        let tries = if sum.tries == 1 { "1 try".to_owned() } else { format!("{} tries", sum.tries) };
        self.line(&format!("{tries}, {} right ({} %)", sum.right, sum.percent()), TEXT, Align::Left);
        self.line(&days, TEXT, Align::Right);
        self.y += TEXT.line_height();
    }

    /// A heading that is not parted from the next `after`.
    fn title(&mut self, text: &str, after: Length) {
        let gap = Length::mm(5);
        self.room(gap + HEAD.line_height() + Length::mm(2) + after);
        if self.y > self.body.y {
            self.y += gap;
        }
        self.line(text, HEAD, Align::Left);
        self.y += HEAD.line_height() + Length::mm(1);
    }

    /// The areas of a row: its name, its bar, its numbers, and what stands at the right.
    fn areas(&self, columns: &Columns) -> [Area; 4] {
        let mut x = self.body.x;
        let mut next = |width: Length, gap: Length| {
            let area = Area { x, y: self.y, width, height: ROW };
            x += width + gap;
            area
        };
        let gap = Length::mm(3);
        let [name, bar, numbers] = [columns.name, columns.bar, columns.numbers].map(|width| next(width, gap));
        let last = next(Length::ZERO, Length::ZERO);
        [name, bar, numbers, Area { width: self.body.right() - last.x, ..last }]
    }

    /// What the bars of skills mean.
    fn scale(&mut self) {
        let [_, bar, _, last] = self.areas(&SKILLS);
        let middle = Area { x: bar.x - Length::mm(10), width: bar.width + Length::mm(20), ..bar };
        let right = Area { x: bar.right() - Length::mm(10), width: Length::mm(20), ..bar };
        let left = Area { x: bar.x - Length::mm(10), width: Length::mm(20), ..bar };
        let y = self.y;
        let marks = [
            text_line("0 %", SMALL, Align::Center, &left, y),
            text_line("50 %", SMALL, Align::Center, &middle, y),
            text_line("100 % right", SMALL, Align::Center, &right, y),
            text_line("trend", SMALL, Align::Right, &last, y),
        ];
        self.page().extend(marks);
        self.y += SMALL.line_height();
    }

    fn skill(&mut self, skill: &SkillReport, title: &str) {
        let last = skill.trend.map_or("too few to say", Trend::name);
        let numbers = format!("{} of {} ({} %)", skill.sum.right, skill.sum.tries, skill.accuracy);
        self.row(&SKILLS, &legible(title), (skill.sum.right, skill.sum.tries), &numbers, last);
    }

    /// A row: a name, a bar, the numbers, and one thing more.
    fn row(&mut self, columns: &Columns, name: &str, (part, whole): (usize, usize), numbers: &str, last: &str) {
        self.room(ROW);
        let [names, bars, beside, end] = self.areas(columns);
        let baseline = self.y + (ROW + TEXT.face.cap_height(TEXT.size)).half();
        let text =
            |text: &str, align, area: &Area| text_at(text, TEXT.shrunk_to(text, area.width), align, area, baseline);
        let mut marks =
            vec![text(name, Align::Left, &names), text(numbers, Align::Left, &beside), text(last, Align::Right, &end)];
        let pad = Length::um(1_750);
        bar(&Area { y: self.y + pad, height: ROW - pad * 2, ..bars }, part, whole, &mut marks);
        self.page().append(&mut marks);
        self.y += ROW;
    }

    fn troubles(&mut self, title: &str, troubles: &[Trouble]) {
        self.title(title, ROW * 2);
        if troubles.is_empty() {
            self.line("None.", TEXT, Align::Left);
            self.y += TEXT.line_height();
        }
        for trouble in troubles {
            self.room(ROW);
            let [_, _, _, beside] = self.areas(&PARTS);
            let lines = wrap(&legible(&trouble.items.join(", ")), SMALL, beside.width);
            let shown = lines.len().min(2);
            let mut y = self.y + (ROW - SMALL.line_height() * i64::try_from(shown).unwrap_or_default()).half();
            for (at, line) in lines.iter().take(shown).enumerate() {
                let more = at + 1 == shown && lines.len() > shown;
                let line = if more { format!("{line} …") } else { line.clone() };
                let mark = text_line(&line, SMALL.shrunk_to(&line, beside.width), Align::Left, &beside, y);
                self.page().push(mark);
                y += SMALL.line_height();
            }
            let told = format!("missed {} of {}", trouble.missed, trouble.tries);
            self.row(&PARTS, &legible(&trouble.part.to_string()), (trouble.missed, trouble.tries), &told, "");
        }
    }

    /// Puts the rules, the caution and the footer on every page.
    fn finish(mut self, child: &ChildReport) -> Vec<Vec<Mark>> {
        let (body, total) = (self.body, self.pages.len());
        let name = drawable(&child.child).map_or_else(String::new, |name| format!("  ·  {name}"));
        for (at, marks) in self.pages.iter_mut().enumerate() {
            let baseline = body.bottom() - FOOT.face.descent(FOOT.size);
            let rule = baseline - Length::mm(4);
            marks.push(across(body.x, body.right(), rule, Stroke::solid(Stroke::THINNEST).inked(Ink::DARK)));
            marks.push(text_at(&format!("Practice record{name}"), FOOT, Align::Left, &body, baseline));
            marks.push(text_at(&format!("page {} of {total}", at + 1), FOOT, Align::Right, &body, baseline));
            let mut y = body.bottom() - Length::mm(9) - caution_height(self.report, body.width) + Length::mm(3);
            for text in [self.report.caution, self.report.rules] {
                for line in wrap(text, SMALL, body.width) {
                    marks.push(text_line(&line, SMALL, Align::Left, &body, y));
                    y += SMALL.line_height();
                }
                y += Length::mm(1);
            }
        }
        self.pages
    }
}

/// The height that the caution and the rules take at the foot of each page.
fn caution_height(report: &Report, width: Length) -> Length {
    let lines: usize = [report.caution, report.rules].iter().map(|text| wrap(text, SMALL, width).len()).sum();
    SMALL.line_height() * i64::try_from(lines).unwrap_or_default() + Length::mm(5)
}

/// A text with `?` for what the font can't draw.
fn legible(text: &str) -> String {
    text.chars().map(|c| if Face::ALL.iter().all(|face| face.can_draw(c)) { c } else { '?' }).collect()
}
