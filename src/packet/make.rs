//! Making a packet: content, then pages.

use std::collections::BTreeMap;

use super::KeyPlace;
use super::request::{Materials, PacketRequest, SheetRequest};
use super::together::{self, Given};
use crate::bank::Word;
use crate::fill::{self, FillError, Hand, Seat};
use crate::layout::{Options, PlaceError, Placed, Template, bind, place};
use crate::page::Document;
use crate::seed::Stream;
use crate::sheet::{Reader, Sheet, StepShown};
use crate::sounds::Blend;

/// A packet that is made and not yet written.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Made {
    /// The content of its sheets, in order.
    pub sheets: Vec<Sheet>,
    /// The pages; with the key at the end when it was asked for there.
    pub document: Document,
    /// The key, when it was asked for apart.
    pub key: Option<Document>,
}

/// Why a packet can't be made.
#[derive(Debug, thiserror::Error)]
pub enum MakeError {
    /// A sheet can't be filled.
    #[error("sheet {number} of the packet, `{layout}`: {source}")]
    Fill {
        /// The sheet's place in the packet, from 1.
        number: usize,
        /// Its layout.
        layout: String,
        /// Why.
        source: Box<FillError>,
    },
    /// A sheet can't be placed on its page.
    #[error("sheet {number} of the packet: {source}")]
    Place {
        /// The sheet's place in the packet, from 1.
        number: usize,
        /// Why.
        source: PlaceError,
    },
}

/// Chooses the content of every sheet of a packet. Each is solved back before it is given out.
///
/// # Errors
/// The first sheet that can't be filled, and why.
pub fn contents(request: &PacketRequest, materials: &Materials) -> Result<Vec<Sheet>, MakeError> {
    let one = |sheet: &SheetRequest, given: &Given| content(request, sheet, given, materials);
    together::all(&request.sheets, &materials.bank, &one).map_err(|(at, source)| MakeError::Fill {
        number: at + 1,
        layout: request.sheets[at].layout.name.clone(),
        source: Box::new(source),
    })
}

/// The content of one sheet. It depends on the sheet's request, the seed and the child alone, and on what the other sheets give it;
/// without a lesson script they give nothing, so that it is the same alone and in a packet.
fn content(
    request: &PacketRequest,
    sheet: &SheetRequest,
    given: &Given,
    materials: &Materials,
) -> Result<Sheet, FillError> {
    let (bank, steps) = (&materials.bank, materials.steps());
    let nth = sheet.nth.to_string();
    // Equal sets are dealt from one stream for a cohort, so a child's name can't be in its path. What the teacher or the family reads is the same
    // for all of them.
    let (child, hand) = match request.hand.seat {
        Seat::Alone => (request.child.as_deref().unwrap_or_default(), request.hand.clone()),
        Seat::Set(_) | Seat::Same(_) if sheet.layout.reader == Reader::Child => {
            (request.cohort.as_str(), request.hand.clone())
        }
        Seat::Set(_) | Seat::Same(_) => (request.cohort.as_str(), Hand::default()),
    };
    let stream = Stream::under(request.rules, &request.seed, &[child, &sheet.layout.name, &nth]);
    let decodable = |word: &Word| {
        let at = bank.index_of(&word.spelling);
        let known = at.and_then(|at| steps.get(at).copied().flatten()).is_some_and(|step| step <= sheet.step)
            || request.extra.contains(&word.spelling);
        known && (given.among.is_empty() || given.among.contains(&word.spelling))
    };
    let mut drawn = sheet.focus.is_none().then(|| newest_blends(materials, sheet, &decodable, stream.fork("focus")));
    let newest = || drawn.as_mut().and_then(Iterator::next).unwrap_or_default();
    let focus = sheet.focus.clone().unwrap_or_else(newest);
    let step = materials.sequence.numbered(sheet.step);
    let shown = StepShown {
        number: sheet.step.into(),
        name: step.map(|step| step.name.clone()).unwrap_or_default(),
        title: step.map(|step| step.title.clone()).unwrap_or_default(),
    };
    let mut asked = fill::Request {
        bank,
        decodable: &decodable,
        taught: materials.sequence.taught_at(sheet.step),
        step: format!("step {} ({})", shown.number, shown.name),
        focus: focus.clone(),
        count: given.count.or(sheet.count),
        avoid: given.avoid.clone(),
        hand,
        by_sight: by_sight(materials, sheet.step),
        stream,
        notation: request.notation,
    };
    // Words that are not for this child are spared first: so the rest of its set stays as it is dealt to the others.
    asked.hand.spare.extend_from_slice(&request.leave_out);
    let mut filled = sheet.layout.fill.run(&asked);
    // Blends that nobody asked for give way to those taught before them when they have too few words for this sheet.
    while filled.is_err()
        && let Some(before) = drawn.as_mut().and_then(Iterator::next)
    {
        asked.focus = before;
        filled = sheet.layout.fill.run(&asked).or(filled);
    }
    let mut filled = filled?;
    if filled.words().iter().any(|word| request.leave_out.contains(word)) {
        asked.avoid.extend_from_slice(&request.leave_out);
        filled = sheet.layout.fill.run(&asked)?;
    }
    let focus: Vec<String> = asked.focus.iter().map(|blend| blend.name.to_owned()).collect();
    let child = request.printed_child().map(str::to_owned);
    Ok(Sheet {
        layout: sheet.layout.name.clone(),
        title: sheet.title.clone(),
        directions: sheet.texts.directions.clone(),
        note: sheet.texts.note.clone(),
        skill: sheet.layout.skill.clone(),
        standards: sheet.layout.standards.clone(),
        texts: told(&sheet.texts.texts, &focus, child.as_deref(), &shown),
        step: shown,
        focus,
        seed: request.seed.to_string(),
        child,
        set: request.set.clone(),
        code: request.code.map(|code| match &request.mark {
            Some(mark) => format!("{code} ({mark})"),
            None => code.to_string(),
        }),
        items: filled.items,
        columns: filled.columns,
        word_bank: filled.word_bank,
        tiles: filled.tiles,
        boards: filled.boards,
        letter_grid: filled.letter_grid,
        parts: filled.parts,
        practised: Vec::new(),
        remarks: Vec::new(),
        reader: sheet.layout.reader,
        language: sheet.language.clone(),
        labels: sheet.texts.labels.clone(),
    })
}

/// A layout's own texts with the facts of the sheet in them; one that tells of a fact the sheet has not is empty.
fn told(
    texts: &BTreeMap<String, String>,
    focus: &[String],
    child: Option<&str>,
    step: &StepShown,
) -> BTreeMap<String, String> {
    let fact = |name: &str| match name {
        "focus" => Some(focus.join(", ")).filter(|focus| !focus.is_empty()),
        "child" => child.map(str::to_owned),
        "step" => Some(step.number.to_string()),
        _ => None,
    };
    let tell = |text: &String| {
        let template: Template = text.parse().unwrap_or_default();
        if template.names().any(|name| fact(name).is_none()) { String::new() } else { template.fill_with(fact) }
    };
    texts.iter().map(|(key, text)| (key.clone(), tell(text))).collect()
}

/// The words taught by sight up to a step, the newest step first, each with the number of its step.
fn by_sight(materials: &Materials, step: u16) -> Vec<(String, usize)> {
    let mut words = Vec::new();
    for taught in materials.sequence.steps().iter().rev().filter(|taught| taught.number <= step) {
        words.extend(taught.words.iter().map(|word| (word.clone(), taught.number.into())));
    }
    words
}

/// How many blends are taken when none are asked for.
const NEWEST: usize = 3;

/// How many steps with blends are looked at when none are asked for.
const STEPS_BACK: usize = 4;

/// How many words of one syllable a blend must have by then to be taken unasked: enough for its share of a page.
const ENOUGH: usize = 6;

/// The blends that a step teaches, or the last step before it that teaches two or more with enough words that the child can
/// read, three of them when there are more; and after them those of the steps before, for sheets that need more words.
fn newest_blends(
    materials: &Materials,
    sheet: &SheetRequest,
    decodable: &dyn Fn(&Word) -> bool,
    mut stream: Stream,
) -> impl Iterator<Item = Vec<&'static Blend>> {
    let side = sheet.layout.fill.side();
    let has =
        move |word: &Word, blend: &'static Blend| word.syllables.len() == 1 && word.blends().any(|(b, _)| b == blend);
    let fits = |word: &&Word| !word.is_form() && decodable(word);
    let words: Vec<&Word> = materials.bank.words().iter().filter(fits).collect();
    let enough = move |blend: &&'static Blend| words.iter().filter(|word| has(word, blend)).count() >= ENOUGH;
    let usable = move |blends: &[&'static Blend]| -> Vec<&'static Blend> {
        blends.iter().copied().filter(|blend| blend.side == side && blend.taught).filter(&enough).collect()
    };
    let steps = materials.sequence.steps().iter().rev().filter(|step| step.number <= sheet.step);
    let some = move |newest: Vec<&'static Blend>| {
        let mut chosen = stream.sample(NEWEST.min(newest.len()), newest.len());
        chosen.sort_unstable();
        chosen.into_iter().map(|at| newest[at]).collect()
    };
    steps.map(move |step| usable(&step.blends)).filter(|blends| blends.len() > 1).take(STEPS_BACK).map(some)
}

/// Makes a packet.
///
/// # Errors
/// The first sheet that can't be filled or placed, and why.
pub fn make(request: &PacketRequest, materials: &Materials) -> Result<Made, MakeError> {
    make_some(request, materials, None)
}

/// Makes only some sheets of a packet, counted from 1, with the page numbers that they have in the whole; all when `only` is `None`.
///
/// # Errors
/// The first sheet that can't be filled or placed, and why.
pub fn make_some(request: &PacketRequest, materials: &Materials, only: Option<&[usize]>) -> Result<Made, MakeError> {
    Ok(Laid::new(request, materials)?.bound(only))
}

/// A packet whose sheets are chosen and placed, and not yet bound: any of them can be taken without making it again.
pub(super) struct Laid<'a> {
    request: &'a PacketRequest,
    sheets: Vec<Sheet>,
    pages: Vec<Placed>,
    keys: Vec<Placed>,
}

impl<'a> Laid<'a> {
    /// Chooses and places every sheet, and its key when one is asked for.
    ///
    /// # Errors
    /// The first sheet that can't be filled or placed, and why.
    pub fn new(request: &'a PacketRequest, materials: &Materials) -> Result<Self, MakeError> {
        let sheets = contents(request, materials)?;
        let placed = |key: bool| -> Result<Vec<Placed>, MakeError> {
            let options = Options { paper: request.paper, key, notation: request.notation, print: request.print };
            let of = |(at, (sheet, of)): (usize, (&Sheet, &SheetRequest))| {
                place(&of.layout, sheet, options).map_err(|source| MakeError::Place { number: at + 1, source })
            };
            sheets.iter().zip(&request.sheets).enumerate().map(of).collect()
        };
        let pages = placed(false)?;
        let keys = if request.key == KeyPlace::None { Vec::new() } else { placed(true)? };
        Ok(Self { request, sheets, pages, keys })
    }

    /// Binds some sheets, counted from 1, with the page numbers that they have in the whole; all when `only` is `None`.
    pub fn bound(&self, only: Option<&[usize]>) -> Made {
        let title = &self.request.title;
        let wanted = |at: usize| only.is_none_or(|only| only.contains(&(at + 1)));
        let (document, key) = if self.request.key == KeyPlace::Apart {
            // A packet for the teacher and the family alone has no key.
            let any = self.keys.iter().any(|sheet| !sheet.is_empty());
            let key = any.then(|| bind(&self.keys, &format!("{title} (key)"), wanted));
            (bind(&self.pages, title, wanted), key)
        } else {
            let whole = [&self.pages[..], &self.keys].concat();
            (bind(&whole, title, |at| wanted(at % self.pages.len().max(1))), None)
        };
        let sheets = self.sheets.iter().enumerate().filter(|(at, _)| wanted(*at)).map(|(_, sheet)| sheet.clone());
        Made { sheets: sheets.collect(), document, key }
    }
}
