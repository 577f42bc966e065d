//! Placing a sheet's content on pages.

use super::area::Area;
use super::block::{Block, FooterBlock, FooterTexts, TooWide};
use super::paginate::{draw, draw_backs, group_height, slack, split};
use super::piece::Setting;
use super::print::{Fullness, Print};
use super::spec::Layout;
use crate::page::{Bookmark, Document, Face, Length, Mark, Page, Paper};
use crate::sheet::{ENGLISH, Labels, Reader, Sheet};
use crate::sounds::Notation;

/// How a sheet is to be placed.
#[derive(Clone, Copy, Debug)]
pub struct Options {
    /// The paper.
    pub paper: Paper,
    /// Whether the key is wanted: the same sheet filled in.
    pub key: bool,
    /// How sounds are written.
    pub notation: Notation,
    /// What is asked of the print.
    pub print: Print,
}

/// A sheet's pages without their footers, which need to know how many pages there are in all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Placed {
    paper: Paper,
    pages: Vec<Vec<Mark>>,
    /// Whether some of its pages are the backs of others, so that its first must be the front of a leaf.
    backs: bool,
    footer: FooterBlock,
    title: String,
    child: Option<String>,
    seed: String,
    set: Option<String>,
    code: Option<String>,
    language: String,
    labels: Labels,
    key: bool,
}

/// Why a sheet can't be placed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum PlaceError {
    /// Something is wider than the page.
    #[error(
        "{what} of the layout `{layout}` is {needs} mm wide and there are {has} mm\n\
         help: ask for fewer columns or a smaller size in the layout"
    )]
    TooWide {
        /// The layout.
        layout: String,
        /// What is too wide.
        what: String,
        /// Its width in whole millimetres, rounded up.
        needs: i64,
        /// The width there is in whole millimetres.
        has: i64,
    },
    /// A strip that can't be broken is higher than a page.
    #[error(
        "a block of the layout `{layout}` is higher than the page\nhelp: ask for less, or for smaller sizes, in the layout"
    )]
    TooHigh {
        /// The layout.
        layout: String,
    },
    /// A text has characters that the font can't draw.
    #[error("the font has no {character:?}, which stands in `{text}`\nhelp: write the text without it")]
    Undrawable {
        /// The first such character.
        character: char,
        /// The text.
        text: String,
    },
}

/// The sizes that are tried, from the fullest to the least, in per cent of the way between the limits that the layout states.
const PERCENTS: [i64; 11] = [100, 90, 80, 70, 60, 50, 40, 30, 20, 10, 0];

/// Places a sheet on as few pages as its smallest sizes need, as large as those pages allow. The key of a sheet that is not for a child
/// has no pages.
///
/// # Errors
/// When something does not fit the page, or the font can't draw a text.
pub fn place(layout: &Layout, sheet: &Sheet, options: Options) -> Result<Placed, PlaceError> {
    let body = body(options.paper);
    let setting = |percent, fewer_columns, plain_type| Setting {
        percent: Fullness { percent, print: options.print, plain_type },
        key: options.key,
        notation: options.notation,
        sheet,
        fewer_columns,
    };
    let tried = |fewer, plain| try_sizes(layout, &body, |percent| setting(percent, fewer, plain));
    let (pages, backs) = if options.key && layout.reader != Reader::Child {
        (Vec::new(), false)
    } else {
        tried(false, false).or_else(|_| tried(true, false)).or_else(|_| tried(true, true)).map_err(|wide| {
            PlaceError::TooWide {
                layout: layout.name.clone(),
                what: wide.what,
                needs: wide.needs.to_nm() / 1_000_000 + 1,
                has: wide.has.to_nm() / 1_000_000,
            }
        })?
    };
    let placed = Placed {
        paper: options.paper,
        pages,
        backs,
        footer: layout.footer(),
        title: sheet.title.clone(),
        child: sheet.child.clone(),
        seed: sheet.seed.clone(),
        set: sheet.set.as_ref().map(|set| format!("set {set}")),
        code: sheet.code.clone(),
        language: sheet.language.clone(),
        labels: sheet.labels.clone(),
        key: options.key,
    };
    check(layout, &placed, &body)?;
    Ok(placed)
}

/// The part of a page inside its margins and above its footer.
fn body(paper: Paper) -> Area {
    let size = paper.size();
    let margin = Paper::MARGIN;
    Area {
        x: margin,
        y: margin,
        width: size.width - margin * 2,
        height: size.height - margin * 2 - FooterBlock::HEIGHT,
    }
}

/// The pages at the largest sizes that need no more pages than the smallest.
fn try_sizes<'a>(
    layout: &Layout,
    body: &Area,
    setting: impl Fn(i64) -> Setting<'a>,
) -> Result<(Vec<Vec<Mark>>, bool), TooWide> {
    let bands_at = |percent| bands(layout, body, &setting(percent));
    let least = bands_at(0)?;
    let fewest = split(&least, body.height).len();
    for percent in PERCENTS {
        let Ok(bands) = bands_at(percent) else { continue };
        let pages = split(&bands, body.height);
        // What can't be broken may be too high for its page at a large size and fit at a smaller one.
        let overfull = pages.iter().any(|page| group_height(&bands[page.clone()], true) > body.height);
        if pages.len() > fewest || (overfull && percent > 0) {
            continue;
        }
        // The gaps of all pages but the last grow alike, so that rows are even from page to page.
        let full = pages.len().saturating_sub(1).max(1);
        let even = pages.iter().take(full).map(|page| slack(&bands[page.clone()], body.height)).min().unwrap_or(0);
        let mut drawn: Vec<Vec<Mark>> = Vec::with_capacity(pages.len());
        let mut backs = false;
        for page in &pages {
            let own = slack(&bands[page.clone()], body.height).min(even);
            let front = draw(&bands[page.clone()], body.y, own);
            let back = draw_backs(&bands[page.clone()], body.y, own);
            if back.is_some() && drawn.len() % 2 == 1 {
                // What has a back begins on a new leaf.
                drawn.push(Vec::new());
            }
            backs |= back.is_some();
            drawn.push(front);
            drawn.extend(back);
        }
        return Ok((drawn, backs));
    }
    Ok((Vec::new(), false))
}

fn bands(layout: &Layout, body: &Area, setting: &Setting<'_>) -> Result<Vec<super::band::Band>, TooWide> {
    let mut all = Vec::new();
    let mut new_page = false;
    for (run, block) in layout.page.iter().enumerate() {
        new_page |= matches!(block, Block::NewPage(_));
        let mut bands = block.bands(body, setting)?;
        for band in &mut bands {
            band.run = run;
            band.new_page |= std::mem::take(&mut new_page);
        }
        all.extend(bands);
    }
    Ok(all)
}

/// Nothing is printed outside the margins, and every text can be drawn.
fn check(layout: &Layout, placed: &Placed, body: &Area) -> Result<(), PlaceError> {
    for mark in placed.pages.iter().flatten() {
        if let Mark::Text { text, face, .. } = mark
            && let Some(&character) = face.missing(text).first()
        {
            return Err(PlaceError::Undrawable { character, text: text.clone() });
        }
        let (from, to) = mark.bounds();
        let hair = Length::mm(1);
        if to.y > body.bottom() + hair {
            return Err(PlaceError::TooHigh { layout: layout.name.clone() });
        }
        if from.x < body.x - hair || to.x > body.right() + hair {
            return Err(PlaceError::TooWide {
                layout: layout.name.clone(),
                what: match mark {
                    Mark::Text { text, .. } => format!("`{text}`"),
                    _ => "a drawing".to_owned(),
                },
                needs: (to.x - from.x).to_nm() / 1_000_000 + 1,
                has: body.width.to_nm() / 1_000_000,
            });
        }
    }
    Ok(())
}

impl Placed {
    /// How many pages it has.
    #[must_use]
    pub fn len(&self) -> usize {
        self.pages.len()
    }

    /// Whether it has no page.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.pages.is_empty()
    }
}

/// Binds placed sheets into one document: footers with page x of y, and a bookmark for each sheet and each key. Sheets that are
/// not `wanted` (by their place in `sheets`) are left out, and the others keep the page numbers that they have in the whole.
#[must_use]
pub fn bind(sheets: &[Placed], title: &str, wanted: impl Fn(usize) -> bool) -> Document {
    // A sheet whose cards have backs begins at the front of a leaf; where need be, the page before it is left empty.
    let empty_before = |number: usize, sheet: &Placed| sheet.backs && number % 2 == 1;
    let total = sheets.iter().fold(0, |sum, sheet| sum + usize::from(empty_before(sum, sheet)) + sheet.len());
    let mut pages = Vec::new();
    let mut own: Vec<String> = Vec::new();
    let mut bookmarks = Vec::new();
    let mut number = 0;
    for (at, sheet) in sheets.iter().enumerate() {
        if empty_before(number, sheet) {
            number += 1;
            // The empty page goes with the cards: alone, they begin the file.
            if wanted(at) && !pages.is_empty() {
                pages.push(sheet.page(&[], number, total));
                own.push(sheet.language.clone());
            }
        }
        if !wanted(at) {
            number += sheet.len();
            continue;
        }
        let name = if sheet.key { format!("{} (key)", sheet.title) } else { sheet.title.clone() };
        if !sheet.is_empty() {
            bookmarks.push(Bookmark { title: name, page: pages.len() });
        }
        for marks in &sheet.pages {
            number += 1;
            pages.push(sheet.page(marks, number, total));
            own.push(sheet.language.clone());
        }
    }
    // Where the sheets of a file have several languages, it has that of the words to practise, and the other pages say their own.
    let mut languages = sheets.iter().enumerate().filter(|(at, sheet)| wanted(*at) && !sheet.is_empty());
    let first = languages.next().map_or(ENGLISH, |(_, sheet)| &sheet.language);
    let language = if languages.all(|(_, sheet)| sheet.language == first) { first } else { ENGLISH };
    for (page, own) in pages.iter_mut().zip(own) {
        page.language = Some(own).filter(|own| own != language);
    }
    Document { title: title.to_owned(), language: language.to_owned(), pages, bookmarks }
}

impl Placed {
    /// One page with its footer.
    fn page(&self, marks: &[Mark], number: usize, total: usize) -> Page {
        let margin = Paper::MARGIN;
        let size = self.paper.size();
        let whole = Area { x: margin, y: margin, width: size.width - margin * 2, height: size.height - margin * 2 };
        let texts = FooterTexts {
            title: &self.title,
            child: self.child.as_deref().or(self.set.as_deref()),
            page: number,
            pages: total,
            seed: &self.seed,
            code: self.code.as_deref(),
            key: self.key,
            labels: &self.labels,
        };
        let mut marks = marks.to_vec();
        marks.extend(self.footer.marks(&texts, &whole));
        Page { size, marks, language: None }
    }
}

/// A text that all faces can draw, or `None`.
#[must_use]
pub fn drawable(text: &str) -> Option<&str> {
    Face::ALL.iter().all(|face| face.missing(text).is_empty()).then_some(text)
}
