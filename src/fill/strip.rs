//! Blends to point at and say, each with a key word.

use serde::Deserialize;

use super::equal::hand_out;
use super::focus::{BadFocus, is_heard};
use super::hand::{Hand, Seat};
use super::near::{edge, focus_and_taught, share_a_sound, spelled_as_named};
use super::pool::{Wanted, weight};
use super::{FillError, Filled, Problem, Request, Span};
use crate::bank::{Band, Misfit, Word};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::{Blend, Side};

/// Which blends a strip shows.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum StripSide {
    /// Those that open words.
    #[default]
    Start,
    /// Those that close words.
    End,
    /// Both, those that open words first.
    Both,
}

/// Blends to point at and say, each with a key word that is common, can be read by now, and has no other blend and no silent
/// letter but *e*.
///
/// The focus comes first; the strip is filled up from the blends that are taught by now, those first that share a sound with
/// the focus. Where fewer are taught, the strip is shorter. A word for a thing, which can be pictured, is likelier.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Strip {
    /// How many blends, at most: 1 to 30. Default: 6.
    pub count: usize,
    /// Which blends: those that `start` words, those that `end` them, or `both`. Default: `start`.
    pub side: StripSide,
    /// The fewest and the most sounds of a key word: each 1 to 16. Default: `[3, 5]`.
    pub sounds: Span,
    /// The age bands of the key words, any of `"K"`, `"1"`, `"2"`, `"3"`; empty for all. Default: all; the earlier ones are likelier.
    pub bands: Vec<Band>,
}

impl Default for Strip {
    fn default() -> Self {
        Self { count: 6, side: StripSide::Start, sounds: Span::new(3, 5), bands: Vec::new() }
    }
}

impl Strip {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 30).admit("count", self.count, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        problems
    }
}

/// Chooses the blends and their key words.
pub(super) fn choose(spec: &Strip, request: &Request) -> Result<Filled, FillError> {
    let sides: &[Side] = match spec.side {
        StripSide::Start => &[Side::Onset],
        StripSide::End => &[Side::Coda],
        StripSide::Both => &[Side::Onset, Side::Coda],
    };
    let wanted = Wanted {
        sounds: spec.sounds,
        syllables: Span::new(1, 1),
        boxes: true,
        allow: &[Misfit::Qu],
        forms: false,
        bands: &spec.bands,
        categories: &[],
    };
    let words = wanted.filter(request).apply(request.bank.words());
    let blends = blends(spec, sides, request);
    let mut stream = request.stream.fork("strip");
    let mut items: Vec<Item> = Vec::with_capacity(blends.len());
    for (blend, asked) in blends {
        let Some(word) = key_word(&words, blend, &items, &mut stream, &request.hand) else {
            if asked {
                return Err(no_key_word(blend, request).into());
            }
            continue;
        };
        let mut item = Item::about(Kind::Word, word);
        item.shown = vec![blend.name.to_owned(), word.spelling.clone()];
        item.answer = vec![word.spelling.clone()];
        item.blend = Some(blend.name.to_owned());
        items.push(item);
    }
    if items.is_empty() {
        return Err(BadFocus {
            why: format!("No blend is taught by {}, and the focus names none for this strip.", request.step),
            hint: "choose a later step, or name blends (`--focus`)".to_owned(),
        }
        .into());
    }
    Ok(Filled { items, ..Filled::default() })
}

/// The blends of the strip in the order of the page, and whether each was asked for.
fn blends(spec: &Strip, sides: &[Side], request: &Request) -> Vec<(&'static Blend, bool)> {
    let asked = |blend: &'static Blend| request.focus.iter().any(|focus| focus.sounds == blend.sounds);
    let near = |blend: &Blend| request.focus.iter().any(|focus| share_a_sound(focus, blend));
    let mut all: Vec<(&'static Blend, bool)> =
        sides.iter().flat_map(|side| focus_and_taught(request, *side)).map(|blend| (blend, asked(blend))).collect();
    all.sort_by_key(|(blend, asked)| (!asked, !near(blend)));
    let asked = all.iter().filter(|(_, asked)| *asked).count();
    all.truncate(spec.count.max(asked));
    // On the page those that open words stand before those that close them.
    all.sort_by_key(|(blend, asked)| (blend.side, !asked));
    all
}

/// A key word for a blend: it holds no other blend, and is not yet the key word of another.
fn key_word<'w>(
    words: &[&'w Word],
    blend: &'static Blend,
    before: &[Item],
    stream: &mut Stream,
    hand: &Hand,
) -> Option<&'w Word> {
    let fits = |word: &&&Word| {
        is_heard(word, blend, Some(edge(blend.side)))
            && spelled_as_named(word, blend)
            && before.iter().all(|item| item.word != word.spelling)
    };
    let all: Vec<&'w Word> = words.iter().filter(fits).copied().collect();
    let alone: Vec<&'w Word> = all.iter().copied().filter(|word| word.clusters.len() == 1).collect();
    let pool = if alone.is_empty() { all } else { alone };
    if let Seat::Set(number) = hand.seat {
        // Things that can be drawn, where there are two or more, so that sets can differ.
        let things: Vec<&'w Word> = pool.iter().copied().filter(|word| !word.categories.is_empty()).collect();
        let kin: Vec<Vec<&'w Word>> =
            if things.len() > 1 { &things } else { &pool }.iter().map(|&word| vec![word]).collect();
        return hand_out(&kin, Some(blend), (before.len(), 1), number, &mut stream.fork(blend.name), hand).pop();
    }
    let likely = |word: &&Word| weight(word).pow(2) * if word.categories.is_empty() { 1 } else { 6 };
    stream.weighted(&pool.iter().map(likely).collect::<Vec<u32>>()).map(|at| pool[at])
}

fn no_key_word(blend: &Blend, request: &Request) -> BadFocus {
    BadFocus {
        why: format!("No word with {} can be read at {}, so it has no key word.", blend.name, request.step),
        hint: "choose a later step, or leave it out of the focus".to_owned(),
    }
}
