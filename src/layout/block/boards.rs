//! Word boards for a group, and the order of calling.

use serde::Deserialize;

use super::TooWide;
use crate::layout::area::{Align, Area, Type, across as line_across, down, outline, text_at, text_line};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::text::wrap;
use crate::layout::unit::{Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Stroke};
use crate::sheet::Board;

/// How much of a page a board takes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Each {
    /// Two boards a page.
    #[default]
    Half,
    /// One board a page.
    Page,
}

/// Word boards, each with its number and the directions. On the key the order of calling stands instead, with a box to tick for
/// each word, and the board that wins on it.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct BoardsBlock {
    /// How much of a page a board takes: `half` or `page`.
    pub each: Each,
    /// Type size of the words in points; 18 or more.
    pub size: Span<Pt>,
    /// What stands in a free cell.
    pub free: String,
}

impl Default for BoardsBlock {
    fn default() -> Self {
        Self { each: Each::Half, size: Span::new(18, 30), free: "free".to_owned() }
    }
}

const HEAD: Length = Length::mm(14);

impl BoardsBlock {
    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        if setting.key {
            return Ok(calls(self.each, body, setting));
        }
        let words = setting.sheet.boards.iter().flat_map(|board| board.rows.iter().flatten());
        let widest = Type::black(Face::Regular, self.size.at(setting.percent));
        let needs = words.map(|word| widest.width(word)).max().unwrap_or_default() + Length::mm(4);
        let cells = setting.sheet.boards.first().map_or(1, |board| board.rows.len());
        let has = body.width / i64::try_from(cells).unwrap_or(1).max(1);
        if needs > has {
            return Err(TooWide { what: "a word of a board".to_owned(), needs, has });
        }
        // Two boards and the space between them fill a page of the smaller height, that of Letter.
        let (height, per_page) = match self.each {
            Each::Half => (Length::mm(112), 2),
            Each::Page => (Length::mm(210), 1),
        };
        let boards = setting.sheet.boards.iter().enumerate();
        Ok(boards
            .map(|(nth, board)| {
                let mut marks = Vec::new();
                let below = nth % per_page > 0;
                if below {
                    let cut = Stroke::solid(Length::milli_pt(750)).inked(Ink::DARK);
                    let cut = cut.dashed(Length::um(2_000), Length::um(1_500));
                    marks.push(line_across(body.x, body.right(), Length::ZERO - Length::mm(5), cut));
                }
                self.draw(board, nth + 1, body, height, setting, &mut marks);
                Band { gap: Length::mm(10), new_page: !below && nth > 0, ..Band::new(height, marks) }
            })
            .collect())
    }

    fn draw(
        &self,
        board: &Board,
        number: usize,
        body: &Area,
        height: Length,
        setting: &Setting<'_>,
        marks: &mut Vec<Mark>,
    ) {
        let title = Type::black(Face::Bold, Length::pt(16));
        let say = Type::black(Face::Regular, Length::pt(14));
        let name = format!("Board {number}");
        marks.push(text_line(&setting.sheet.title, title, Align::Left, body, Length::ZERO));
        marks.push(text_line(&name, title, Align::Right, body, Length::ZERO));
        let directions = say.shrunk_to(&setting.sheet.directions, body.width);
        marks.push(text_line(&setting.sheet.directions, directions, Align::Left, body, title.line_height()));
        let square = Area { y: HEAD, height: height - HEAD, ..*body };
        let size = i64::try_from(board.rows.len()).unwrap_or(1).max(1);
        let (width, tall) = (square.width / size, square.height / size);
        let thin = Stroke::solid(Length::milli_pt(1_000));
        for nth in 1..size {
            marks.push(down(square.x + width * nth, square.y, square.bottom(), thin));
            marks.push(line_across(square.x, square.right(), square.y + tall * nth, thin));
        }
        marks.push(outline(&square, Length::ZERO, Stroke::solid(Length::milli_pt(2_000))));
        let kind = Type::black(Face::Regular, self.size.at(setting.percent));
        for (row, words) in (0..size).zip(&board.rows) {
            for (column, word) in (0..size).zip(words) {
                let cell = Area { x: square.x + width * column, y: square.y + tall * row, width, height: tall };
                let baseline = cell.y + (tall + kind.face.x_height(kind.size)).half();
                if word.is_empty() {
                    let small = Type { size: kind.size.times(3, 4), ..kind }.inked(Ink::DARK);
                    marks.push(text_at(&self.free, small, Align::Center, &cell, baseline));
                } else {
                    marks.push(text_at(word, kind, Align::Center, &cell, baseline));
                }
            }
        }
    }
}

/// The order of calling, down one column after the other.
fn calls(each: Each, body: &Area, setting: &Setting<'_>) -> Vec<Band> {
    let kind = Type::black(Face::Regular, Length::pt(16));
    let small = Type::black(Face::Regular, Length::pt(11)).inked(Ink::DARK);
    let items = &setting.sheet.items;
    let columns = 3;
    let rows = items.len().div_ceil(3).max(1);
    let width = body.width / columns;
    let height = Length::mm(8);
    let intro = "Call the words in this order and check them off. A board's number after a word means that this board has its first \
                 full row, column or diagonal with it.";
    let cut = "For the adult: cut the boards apart along the dashed lines. Counters are not for children under three.";
    let intro = if each == Each::Half { format!("{cut} {intro}") } else { intro.to_owned() };
    let adult = Type::black(Face::Regular, Length::pt(11));
    let mut marks = Vec::new();
    let mut top = Length::ZERO;
    for line in wrap(&intro, adult, body.width) {
        marks.push(text_line(&line, adult, Align::Left, body, top));
        top += adult.line_height();
    }
    let mut bands = vec![Band { keep_with_next: true, ..Band::new(top, marks).below(Length::mm(3)) }];
    for row in 0..rows {
        let mut marks = Vec::new();
        for column in 0..columns {
            let at = row + rows * usize::try_from(column).unwrap_or(0);
            let Some(item) = items.get(at) else { continue };
            let area = Area { x: body.x + width * column, y: Length::ZERO, width, height };
            let tick = Area { x: area.x, y: Length::mm(2), width: Length::mm(4), height: Length::mm(4) };
            marks.push(outline(&tick, Length::ZERO, Stroke::solid(Length::milli_pt(750))));
            let baseline = Length::um(5_700);
            let text = Area { x: area.x + Length::mm(6), ..area };
            marks.push(text_at(&format!("{}.", at + 1), small, Align::Left, &text, baseline));
            let word = Area { x: area.x + Length::mm(14), ..area };
            marks.push(text_at(&item.word, kind, Align::Left, &word, baseline));
            let boards = setting.sheet.boards.iter().enumerate().filter(|(_, board)| board.wins_at == at + 1);
            let winning: Vec<String> = boards.map(|(nth, _)| (nth + 1).to_string()).collect();
            if !winning.is_empty() {
                let s = if winning.len() == 1 { "" } else { "s" };
                let text = format!("board{s} {}", winning.join(", "));
                let beside = Area { x: word.x + kind.width(&item.word) + Length::mm(3), ..area };
                let room = area.right() - beside.x - Length::mm(2);
                let bold = Type::black(Face::Bold, Length::pt(11)).shrunk_to(&text, room);
                marks.push(text_at(&text, bold, Align::Left, &beside, baseline));
            }
        }
        let (gap, stretch) = if row == 0 { (Length::mm(3), Length::mm(3)) } else { (Length::ZERO, Length::mm(8)) };
        bands.push(Band { gap, stretch, ..Band::new(height, marks) });
    }
    bands
}
