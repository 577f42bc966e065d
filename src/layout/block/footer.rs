//! What stands at the foot of each page.

use serde::Deserialize;

use crate::layout::area::{Align, Area, Type, across, text_at};
use crate::page::{Face, Ink, Length, Mark, Stroke};
use crate::sheet::Labels;

/// A part of the footer.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FooterPart {
    /// The sheet's title.
    Title,
    /// The child's name or the set's letter.
    Child,
    /// Page x of y.
    Page,
    /// The seed, and the packet's code.
    Seed,
}

/// The footer of each page: small, in one line, the title and the child at the left, the page and the seed at the right.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct FooterBlock {
    /// Which parts are printed. The seed should stay, so that a lost sheet can be made again.
    pub show: Vec<FooterPart>,
}

impl Default for FooterBlock {
    fn default() -> Self {
        Self { show: vec![FooterPart::Title, FooterPart::Child, FooterPart::Page, FooterPart::Seed] }
    }
}

/// What the footer's parts say on one page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct FooterTexts<'a> {
    /// The sheet's title.
    pub title: &'a str,
    /// The child's name or set letter.
    pub child: Option<&'a str>,
    /// The page, from 1.
    pub page: usize,
    /// How many pages there are.
    pub pages: usize,
    /// The seed.
    pub seed: &'a str,
    /// The code by which the packet is found again; printed with the seed.
    pub code: Option<&'a str>,
    /// Whether it is a key.
    pub key: bool,
    /// The words around them.
    pub labels: &'a Labels,
}

const SIZE: Length = Length::pt(8);

impl FooterBlock {
    /// The height at the foot of the page's body that the footer takes.
    pub const HEIGHT: Length = Length::mm(9);

    /// The footer's marks in the lowest part of `body`.
    #[must_use]
    pub fn marks(&self, texts: &FooterTexts<'_>, body: &Area) -> Vec<Mark> {
        let kind = Type::black(Face::Regular, SIZE).inked(Ink::DARK);
        let has = |part: FooterPart| self.show.contains(&part);
        let mut left = Vec::new();
        if has(FooterPart::Title) {
            left.push(if texts.key { format!("{} (key)", texts.title) } else { texts.title.to_owned() });
        }
        if let Some(child) = texts.child.filter(|_| has(FooterPart::Child)) {
            left.push(child.to_owned());
        }
        let mut right = Vec::new();
        if has(FooterPart::Page) {
            right.push(texts.labels.page_of(texts.page, texts.pages));
        }
        if has(FooterPart::Seed) {
            right.push(format!("{} {}", texts.labels.seed, texts.seed));
            right.extend(texts.code.map(str::to_owned));
        }
        let (left, right) = (left.join("  ·  "), right.join("  ·  "));
        let baseline = body.bottom() - kind.face.descent(SIZE);
        let rule = baseline - Length::mm(4);
        let mut marks = vec![across(body.x, body.right(), rule, Stroke::solid(Stroke::THINNEST).inked(Ink::MID))];
        let right_width = kind.width(&right).min(body.width.times(2, 3));
        let room = Area { width: body.width - right_width - Length::mm(5), ..*body };
        for (text, area, align) in [(&left, &room, Align::Left), (&right, body, Align::Right)] {
            if !text.is_empty() {
                let most = if align == Align::Left { room.width } else { right_width };
                marks.push(text_at(text, kind.shrunk_to(text, most), align, area, baseline));
            }
        }
        marks
    }
}
