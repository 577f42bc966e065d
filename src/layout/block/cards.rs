//! Cards to cut.

use serde::Deserialize;

use super::TooWide;
use super::grid::numbered;
use crate::layout::area::{Align, Area, Type, across, down, text_at, text_line};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::text::{Template, wrap};
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Stroke};

/// Cards of one size with dashed cutting lines. Neighbours share an edge, so that one cut serves two cards.
#[derive(Clone, Debug, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CardsBlock {
    /// What a card shows.
    #[serde(default = "word", deserialize_with = "crate::yaml::parsed")]
    pub of: Template,
    /// Type size in points; 28 or more.
    #[serde(default = "size")]
    pub size: Span<Pt>,
    /// How many columns, 1 to 6; fewer are made when the words are too wide.
    #[serde(default = "columns")]
    pub columns: u8,
    /// Height of a card in millimetres.
    #[serde(default = "height")]
    pub height: Span<Mm>,
    /// Whether a sort's headers come first, on cards of their own.
    #[serde(default)]
    pub headers: bool,
    /// What the adult is told about cutting; leave it empty only when someone else cuts.
    #[serde(default = "caution")]
    pub caution: String,
}

fn word() -> Template {
    Template::of_name("word")
}
fn size() -> Span<Pt> {
    Span::new(28, 36)
}
fn columns() -> u8 {
    3
}
fn height() -> Span<Mm> {
    Span::new(24, 34)
}
fn caution() -> String {
    "For the adult: cut along the dashed lines, or watch while the child cuts. Small pieces are not for children under three."
        .to_owned()
}

/// What stands on one card: a text, whether it is a header, and on the key where it belongs.
struct Card {
    text: String,
    header: bool,
    belongs: String,
}

impl CardsBlock {
    fn cards(&self, setting: &Setting<'_>) -> Vec<Card> {
        let mut cards = Vec::new();
        if self.headers {
            let header = |text: &String| Card { text: text.clone(), header: true, belongs: String::new() };
            cards.extend(setting.sheet.columns.iter().map(|column| header(&column.blend)));
        }
        cards.extend(numbered(&setting.sheet.items).into_iter().map(|item| Card {
            text: self.of.fill(item.item, item.number, setting.notation),
            header: false,
            belongs: item.item.answer.join(", "),
        }));
        cards
    }

    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let cards = self.cards(setting);
        let size = self.size.at(setting.percent);
        let kind = |card: &Card| Type::black(if card.header { Face::Bold } else { Face::Regular }, size);
        let needs = cards.iter().map(|card| kind(card).width(&card.text)).max().unwrap_or_default() + Length::mm(6);
        let wanted = i64::from(self.columns.clamp(1, 6));
        let least = if setting.fewer_columns { 1 } else { wanted };
        let columns = (least..=wanted).rev().find(|columns| body.width / *columns >= needs).ok_or_else(|| TooWide {
            what: "a card".to_owned(),
            needs,
            has: body.width / least,
        })?;
        let width = body.width / columns;
        let height = self.height.at(setting.percent);
        let cut = Stroke::solid(Length::milli_pt(750)).inked(Ink::DARK).dashed(Length::um(2_000), Length::um(1_500));
        let mut bands = Vec::new();
        if !self.caution.is_empty() && !setting.key {
            bands.push(self.caution_band(body));
        }
        for (nth, row) in cards.chunks(usize::try_from(columns).unwrap_or(1)).enumerate() {
            let in_row = i64::try_from(row.len()).unwrap_or(1);
            let right = body.x + width * in_row;
            let mut marks: Vec<Mark> = vec![across(body.x, right, height, cut)];
            for (at, card) in row.iter().enumerate() {
                let x = body.x + width * i64::try_from(at).unwrap_or(0);
                if at == 0 {
                    marks.push(down(x, Length::ZERO, height, cut));
                }
                marks.push(down(x + width, Length::ZERO, height, cut));
                let area = Area { x, y: Length::ZERO, width, height };
                let baseline = (height + kind(card).face.x_height(size)).half();
                marks.push(text_at(&card.text, kind(card), Align::Center, &area, baseline));
                if setting.key && !card.header {
                    let small = Type::black(Face::Bold, Length::pt(12));
                    let corner = Area { width: width - Length::mm(2), ..area };
                    marks.push(text_at(&card.belongs, small, Align::Right, &corner, height - Length::mm(2)));
                }
            }
            let opening = vec![across(body.x, right, Length::ZERO, cut)];
            let gap = if nth == 0 { Length::mm(3) } else { Length::ZERO };
            bands.push(Band { gap, opening, ..Band::new(height, marks) });
        }
        Ok(bands)
    }

    fn caution_band(&self, body: &Area) -> Band {
        let kind = Type::black(Face::Regular, Length::pt(9)).inked(Ink::DARK);
        let mut marks = Vec::new();
        let mut top = Length::ZERO;
        for line in wrap(&self.caution, kind, body.width) {
            marks.push(text_line(&line, kind, Align::Left, body, top));
            top += kind.line_height();
        }
        Band { keep_with_next: true, ..Band::new(top, marks).below(Length::mm(2)) }
    }
}
