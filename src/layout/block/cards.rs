//! Cards to cut.

use serde::Deserialize;

use super::TooWide;
use super::grid::numbered;
use crate::layout::area::{Align, Area, Type, across, down, outline, text_at, text_line};
use crate::layout::band::Band;
use crate::layout::piece::Setting;
use crate::layout::text::{Template, wrap};
use crate::layout::unit::{Mm, Pt, Span};
use crate::page::{Face, Ink, Length, Mark, Stroke};
use crate::sheet::Kind;

/// Cards of one size with dashed cutting lines. Neighbours share an edge, so that one cut serves two cards.
///
/// With `back` they have a text on their backs too: each page of cards is followed by a page of their backs in mirrored columns,
/// which lie behind their cards when the sheet is printed on both sides and turned on its long edge.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CardsBlock {
    /// What the cards are made from: the `items` or the letter `tiles`.
    #[serde(default)]
    pub from: From,
    /// What a card shows. A letter tile shows its letters.
    #[serde(default = "word", deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub of: Template,
    /// What stands on a card's back; nothing for cards with an empty back.
    #[serde(default = "nothing", deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub back: Template,
    /// What stands small on a card on the key; where nothing is stated, the header that a word of a sort belongs under, or the
    /// card's back.
    #[serde(default = "nothing", deserialize_with = "crate::yaml::parsed")]
    #[schemars(with = "String")]
    pub key: Template,
    /// Type size in points; 28 or more.
    #[serde(default = "size")]
    pub size: Span<Pt>,
    /// Type size of the backs in points.
    #[serde(default = "back_size")]
    pub back_size: Span<Pt>,
    /// How many columns, 1 to 10; fewer are made when the words are too wide.
    #[serde(default = "columns")]
    pub columns: u8,
    /// Height of a card in millimetres.
    #[serde(default = "height")]
    pub height: Span<Mm>,
    /// Whether a sort's headers come first, on cards of their own that share a row evenly. There are then as many columns as
    /// headers, or a multiple; or, where words are wide, a part of them.
    #[serde(default)]
    pub headers: bool,
    /// What the adult is told about cutting; leave it empty only when someone else cuts.
    #[serde(default = "caution")]
    pub caution: String,
}

/// What cards are made from.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum From {
    /// A card for each item.
    #[default]
    Items,
    /// A card for each letter tile.
    Tiles,
}

fn word() -> Template {
    Template::of_name("word")
}
fn nothing() -> Template {
    Template::default()
}
fn size() -> Span<Pt> {
    Span::new(28, 36)
}
fn back_size() -> Span<Pt> {
    Span::new(18, 24)
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

/// What stands on one card: a text, one on its back, and on the key a small one.
struct Card {
    text: String,
    back: String,
    key: String,
}

/// The size of the cards.
struct Cut {
    columns: i64,
    width: Length,
    height: Length,
}

impl CardsBlock {
    /// The texts that it prints.
    pub(super) fn names(&self) -> impl Iterator<Item = &str> {
        [&self.of, &self.back, &self.key].into_iter().flat_map(Template::names)
    }

    fn cards(&self, setting: &Setting<'_>) -> Vec<Card> {
        if self.from == From::Tiles {
            let tile = |text: &String| Card { text: text.clone(), back: String::new(), key: String::new() };
            return setting.sheet.tiles.iter().map(tile).collect();
        }
        let card = |item: crate::layout::piece::Numbered<'_>| {
            let fill = |template: &Template| template.fill(item.item, item.number, setting.notation);
            let back = fill(&self.back);
            let key = match fill(&self.key) {
                stated if !stated.is_empty() => stated,
                _ if item.item.kind == Kind::Sort => format!("under {}", item.item.answer.join(", ")),
                _ => back.clone(),
            };
            Card { text: fill(&self.of), back, key }
        };
        numbered(&setting.sheet.items).into_iter().map(card).collect()
    }

    pub(super) fn bands(&self, body: &Area, setting: &Setting<'_>) -> Result<Vec<Band>, TooWide> {
        let cards = self.cards(setting);
        let headers: Vec<&str> = setting.sheet.columns.iter().map(|column| column.blend.as_str()).collect();
        let headers = if self.headers { headers } else { Vec::new() };
        let size = Type::black(Face::Regular, self.size.at(setting.percent));
        let back = Type::black(Face::Regular, self.back_size.at(setting.percent));
        let cut = self.cut(&cards, headers.len(), body, setting)?;
        let mut bands = Vec::new();
        if !self.caution.is_empty() && !setting.key {
            bands.push(self.caution_band(body));
        }
        let first = bands.len();
        if !headers.is_empty() {
            // With few columns, the headers take more rows, each of them full.
            let in_row = headers.len().min(usize::try_from(cut.columns).unwrap_or(1));
            bands.extend(headers.chunks(in_row).map(|row| header_band(row, size, &cut, body)));
        }
        let has_back = !setting.key && cards.iter().any(|card| !card.back.is_empty());
        for row in cards.chunks(usize::try_from(cut.columns).unwrap_or(1)) {
            let mut marks = edges(row.len(), cut.width, cut.height, body);
            let mut backs = Vec::new();
            for (nth, card) in (0..).zip(row) {
                let area = Area { x: body.x + cut.width * nth, y: Length::ZERO, width: cut.width, height: cut.height };
                let noted = setting.key && !card.key.is_empty();
                let room = if noted { cut.height - Length::mm(6) } else { cut.height };
                marks.push(middle(&card.text, size, &area, room));
                if noted {
                    let small =
                        Type::black(Face::Regular, Length::pt(12)).shrunk_to(&card.key, cut.width - Length::mm(3));
                    marks.push(text_at(&card.key, small, Align::Center, &area, cut.height - Length::mm(3)));
                }
                if has_back {
                    // Turned on the long edge, what is printed at the right lies behind what is printed at the left.
                    let behind = Area { x: body.x + body.right() - area.right(), ..area };
                    backs.extend(lines(&card.back, back, &behind));
                }
            }
            let opening = top_edge(row.len(), cut.width, body);
            bands.push(Band { opening, back: has_back.then_some(backs), ..Band::new(cut.height, marks) });
        }
        if let Some(band) = bands.get_mut(first) {
            band.gap = Length::mm(3);
            // What stands above it belongs to the same block, so it can't wait to be the first on a page.
            band.marks.append(&mut band.opening);
        }
        Ok(bands)
    }

    /// The size of the cards: as many columns as wanted, or fewer where a text is too wide.
    fn cut(&self, cards: &[Card], headers: usize, body: &Area, setting: &Setting<'_>) -> Result<Cut, TooWide> {
        let size = Type::black(Face::Regular, self.size.at(setting.percent));
        let back = Type::black(Face::Regular, self.back_size.at(setting.percent));
        let pad = if self.from == From::Tiles { Length::mm(3) } else { Length::mm(6) };
        // Backs may run over more lines; their longest piece counts.
        let longest = |text: &str| text.split(' ').map(|piece| back.width(piece)).max().unwrap_or_default();
        let width = |card: &Card| size.width(&card.text).max(longest(&card.back));
        let needs = cards.iter().map(width).max().unwrap_or_default() + pad;
        let wanted = i64::from(self.columns.clamp(1, 10));
        let headers = i64::try_from(headers).unwrap_or(1).max(1);
        let wanted = (wanted + headers - 1) / headers * headers;
        let least = if setting.fewer_columns { 1 } else { wanted };
        let fits = |columns: &i64| (columns % headers == 0 || headers % columns == 0) && body.width / *columns >= needs;
        let columns = (least..=wanted).rev().find(fits).ok_or_else(|| TooWide {
            what: "a card".to_owned(),
            needs,
            has: body.width / least,
        })?;
        Ok(Cut { columns, width: body.width / columns, height: self.height.at(setting.percent) })
    }

    fn caution_band(&self, body: &Area) -> Band {
        let kind = Type::black(Face::Regular, Length::pt(12));
        let mut text = self.caution.clone();
        if self.back.names().next().is_some() {
            text.push_str(" Print on both sides, turned on the long edge, at full size.");
        }
        let mut marks = Vec::new();
        let mut top = Length::ZERO;
        for line in wrap(&text, kind, body.width) {
            marks.push(text_line(&line, kind, Align::Left, body, top));
            top += kind.line_height();
        }
        Band { keep_with_next: true, ..Band::new(top, marks).below(Length::mm(2)) }
    }
}

/// The cutting line.
fn dashes() -> Stroke {
    Stroke::solid(Length::milli_pt(750)).inked(Ink::DARK).dashed(Length::um(2_000), Length::um(1_500))
}

/// The edges of a row of cards, without the upper one, which the row above has drawn.
fn edges(cards: usize, width: Length, height: Length, body: &Area) -> Vec<Mark> {
    let count = i64::try_from(cards).unwrap_or(1);
    let mut marks = vec![across(body.x, body.x + width * count, height, dashes())];
    marks.extend((0..=count).map(|nth| down(body.x + width * nth, Length::ZERO, height, dashes())));
    marks
}

/// The upper edge of the first row on a page.
fn top_edge(cards: usize, width: Length, body: &Area) -> Vec<Mark> {
    vec![across(body.x, body.x + width * i64::try_from(cards).unwrap_or(1), Length::ZERO, dashes())]
}

/// A text in the middle of a card's width, and of its height down to `room`.
fn middle(text: &str, kind: Type, area: &Area, room: Length) -> Mark {
    text_at(text, kind, Align::Center, area, area.y + (room + kind.face.x_height(kind.size)).half())
}

/// A text on as many lines as it needs, in the middle of a card.
fn lines(text: &str, kind: Type, area: &Area) -> Vec<Mark> {
    let lines = wrap(text, kind, area.width - Length::mm(6));
    let height = kind.line_height() * i64::try_from(lines.len()).unwrap_or(1);
    let top = area.y + (area.height - height).half();
    let at = |nth: i64| top + kind.line_height() * nth;
    (0..).zip(&lines).map(|(nth, line)| text_line(line, kind, Align::Center, area, at(nth))).collect()
}

/// The headers on a row of cards, each as wide as the columns that it stands over, in a thick frame.
fn header_band(headers: &[&str], size: Type, cut: &Cut, body: &Area) -> Band {
    let count = i64::try_from(headers.len()).unwrap_or(1).max(1);
    let width = cut.width * (cut.columns / count);
    let kind = Type { face: Face::Bold, ..size };
    let mut marks = edges(headers.len(), width, cut.height, body);
    for (nth, header) in (0..).zip(headers) {
        let area = Area { x: body.x + width * nth, y: Length::ZERO, width, height: cut.height };
        let inset = Length::mm(2);
        let frame = Area { x: area.x + inset, y: inset, width: width - inset * 2, height: cut.height - inset * 2 };
        marks.push(outline(&frame, Length::mm(2), Stroke::solid(Length::milli_pt(2_000))));
        marks.push(middle(header, kind, &area, cut.height));
    }
    Band { opening: top_edge(headers.len(), width, body), ..Band::new(cut.height, marks) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::{Layout, Options, Print, bind, place};
    use crate::page::{Document, Paper};
    use crate::sheet::{Item, Sheet, StepShown};
    use crate::sounds::Notation;

    /// Cards of a front and a back each, told apart by their numbers.
    fn document(cards: usize, columns: u8, paper: Paper, before: usize) -> Document {
        let layout = format!(
            "name: test\ntitle: Test\nskill: Test.\nfill: words\npage:\n  - title\n  - cards: {{of: \"f{{n}}\", back: \"b{{n}}\", \
             columns: {columns}}}\n"
        );
        let layout = Layout::read("test.yaml", &layout).unwrap();
        let sheet = Sheet {
            layout: "test".into(),
            title: "Test".into(),
            step: StepShown { number: 1, ..StepShown::default() },
            seed: "a".into(),
            items: (0..cards).map(|_| Item::of_text(Kind::Word, "cat")).collect(),
            ..Sheet::default()
        };
        let options = |key| Options { paper, key, notation: Notation::Teacher, print: Print::default() };
        let mut sheets = vec![place(&layout, &sheet, options(true)).unwrap(); before];
        sheets.push(place(&layout, &sheet, options(false)).unwrap());
        bind(&sheets, "test", |at| at == before || before == 1)
    }

    /// The middle and the baseline of each text of a page that begins with a letter and a number, by its number.
    fn texts(document: &Document, page: usize, letter: char) -> Vec<(usize, Length, Length)> {
        let mut found = Vec::new();
        for mark in &document.pages[page].marks {
            if let Mark::Text { at, text, .. } = mark
                && let Some(number) = text.strip_prefix(letter).and_then(|number| number.parse().ok())
            {
                let (from, to) = mark.bounds();
                found.push((number, (from.x + to.x).half(), at.y));
            }
        }
        found
    }

    #[test]
    fn backs_lie_behind_their_cards() {
        for paper in [Paper::Letter, Paper::A4] {
            for (cards, columns) in [(1, 3), (12, 3), (17, 3), (40, 4), (7, 2), (10, 1)] {
                let document = document(cards, columns, paper, 0);
                let width = paper.size().width;
                let mut seen = 0;
                for leaf in 0..document.pages.len() / 2 {
                    let (fronts, backs) = (texts(&document, leaf * 2, 'f'), texts(&document, leaf * 2 + 1, 'b'));
                    assert_eq!(fronts.len(), backs.len());
                    for ((front, x, y), (back, behind, height)) in fronts.iter().zip(&backs) {
                        assert_eq!(front, back);
                        // Seen through the paper, a back is as far from one edge as its front is from the other.
                        let off = (*x + *behind - width).to_nm().abs();
                        assert!(off < 20_000, "card {front} is {off} nm off");
                        assert!((*y - *height).to_nm().abs() < Length::mm(4).to_nm());
                    }
                    seen += fronts.len();
                }
                assert_eq!(seen, cards, "{columns} columns");
                assert_eq!(document.pages.len() % 2, 0);
            }
        }
    }

    /// After a sheet of one page, the cards begin on the next leaf.
    #[test]
    fn cards_with_backs_begin_on_the_front_of_a_leaf() {
        let document = document(6, 3, Paper::Letter, 1);
        let first = (0..document.pages.len()).rfind(|&page| !texts(&document, page, 'b').is_empty()).unwrap();
        assert_eq!(first % 2, 1);
        assert_eq!(document.pages.len(), 4);
    }

    #[test]
    fn an_edge_is_drawn_once() {
        let document = document(9, 3, Paper::Letter, 0);
        let lines = document.pages[0]
            .marks
            .iter()
            .filter(|mark| matches!(mark, Mark::Line { stroke, .. } if *stroke == dashes()));
        // Four edges down for each of three rows, and four across.
        assert_eq!(lines.count(), 16);
    }
}
