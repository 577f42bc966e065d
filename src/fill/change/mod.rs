//! Words that are heard and changed by ear: a sound taken away, a sound added, one blend for another.

mod advice;
mod clue;
mod pairs;

use serde::Deserialize;

use super::focus;
use super::near::taught;
use super::share::Homes;
use super::{FillError, Filled, Hand, Move, Problem, Request, Span};
use crate::bank::{Band, Word};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::{BLENDS, Blend, Place, Side};
use pairs::{Finder, Pair};

/// Which sounds of a blend come or go.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ChangePart {
    /// The first: *snow*, *no*.
    #[default]
    First,
    /// The second: *play*, *pay*.
    Second,
    /// All of it: *trace*, *ace*.
    Blend,
}

/// Words that the adult says, each with a change to its beginning; the child says the new word and writes or draws it.
///
/// The blend of the focus opens the word before the change where a sound goes, the word after it where one comes, and either of
/// them where one blend takes the place of another. Everything goes by sound: every word that sounds like the result is an
/// accepted answer. The expected one can be read at the step or is known by sight; the word that is said need not be. No word
/// comes twice on the sheet, nor two that sound alike or differ by an ending. A third of the pairs or more are spelled anew beyond
/// the sounds that move (*freight*, *rate*), where there are so many: letters alone do not give the answer away.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct SoundChange {
    /// What is done: `swap` a blend for another, `add`, or `take-away`. Default: `swap`.
    pub by: Move,
    /// Which sounds of the blend come or go: the `first`, the `second`, or the whole `blend`. A swap is of the whole. Default:
    /// `first`.
    pub part: ChangePart,
    /// How many words: 1 to 30. Default: 8.
    pub count: usize,
    /// The fewest and the most sounds of both words: each 1 to 16. Default: `[2, 6]`.
    pub sounds: Span,
    /// The fewest and the most syllables of both words: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// The age bands of both words, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
    /// Whether other blends take over when the focus has too few words. Default: false.
    pub review: bool,
}

impl Default for SoundChange {
    fn default() -> Self {
        Self {
            by: Move::Swap,
            part: ChangePart::First,
            count: 8,
            sounds: Span::new(2, 6),
            syllables: Span::new(1, 1),
            bands: Vec::new(),
            review: false,
        }
    }
}

/// Of a hundred pairs, how many are spelled anew, rounded up (common practice, no source): 3 of 8, 4 of 10.
const ANEW: usize = 33;

/// How often the pairs are drawn anew when words stand in each other's way.
const TRIES: usize = 24;

impl SoundChange {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 30).admit("count", self.count, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        if self.by == Move::Swap && self.part != ChangePart::First {
            problems
                .push(Problem::new("part", "a swap is of the whole blend, so `part` says nothing there; leave it out"));
        }
        problems
    }

    /// How many pairs are to be spelled anew.
    pub(super) const fn anew(&self) -> usize {
        (self.count * ANEW).div_ceil(100)
    }
}

/// Chooses the words.
pub(super) fn choose(spec: &SoundChange, request: &Request) -> Result<Filled, FillError> {
    let blends = match focus::usable(&request.focus, Some(Side::Onset))? {
        none if none.is_empty() => any_blends(request),
        some => some,
    };
    let by_sight = |word: &Word| request.by_sight.iter().any(|(known, _)| *known == word.spelling);
    let reads = |word: &Word| (request.decodable)(word) || by_sight(word);
    let find = |blends: &[&'static Blend]| Finder { spec, request, blends, reads: &reads }.find();
    let mut found = find(&blends);
    let mut stream = request.own("change");
    let mut pairs = without_repeats(spec, &found, &blends, &mut stream);
    if pairs.len() < spec.count && spec.review {
        let others = any_blends(request).into_iter().filter(|blend| !blends.contains(blend));
        found.extend(find(&others.collect::<Vec<_>>()));
        pairs = without_repeats(spec, &found, &blends, &mut stream);
    }
    if pairs.len() < spec.count {
        return Err(advice::too_few(spec, request, &blends, pairs.len()));
    }
    let (focus, others): (Vec<Pair>, Vec<Pair>) = pairs.into_iter().partition(|pair| blends.contains(&pair.blend));
    let mut chosen = share(&focus, spec.count.min(focus.len()), spec.anew(), &mut stream);
    let anew = chosen.iter().filter(|pair| pair.anew).count();
    chosen.extend(share(&others, spec.count - chosen.len(), spec.anew().saturating_sub(anew), &mut stream));
    stream.shuffle(&mut chosen);
    let items = chosen.iter().map(|pair| item(spec, pair, request));
    Ok(Filled { items: items.collect(), ..Filled::default() })
}

/// The blends of a sheet for which none are asked: those that are taught, or, before any are, all common ones, since the word that
/// is said need not be read.
fn any_blends(request: &Request) -> Vec<&'static Blend> {
    let known = taught(request, Side::Onset);
    if known.is_empty() { BLENDS.iter().filter(|b| b.taught && b.side == Side::Onset).collect() } else { known }
}

/// One pair for each word with a blend, as many as do not stand in each other's way, with enough that are spelled anew; those of the
/// focus before others.
fn without_repeats<'a>(
    spec: &SoundChange,
    found: &[Pair<'a>],
    focus: &[&'static Blend],
    stream: &mut Stream,
) -> Vec<Pair<'a>> {
    let rank = |pairs: &[Pair]| {
        let anew = pairs.iter().filter(|pair| pair.anew).count();
        (pairs.len().min(spec.count), anew.min(spec.anew()), pairs.len())
    };
    let mut best: Vec<Pair<'a>> = Vec::new();
    for nth in 0..TRIES {
        let pairs = pairs::disjoint(found, focus, nth % 2 == 1, stream);
        if rank(&pairs) > rank(&best) {
            best = pairs;
        }
        let (enough, anew, _) = rank(&best);
        if enough == spec.count && anew == spec.anew() {
            break;
        }
    }
    best
}

/// Deals places to the blends of some pairs: first `anew` of those that are spelled anew, if there are so many, then any.
fn share<'a>(pairs: &[Pair<'a>], count: usize, anew: usize, stream: &mut Stream) -> Vec<Pair<'a>> {
    let mut blends: Vec<&'static Blend> = pairs.iter().map(|pair| pair.blend).collect();
    blends.sort_unstable();
    blends.dedup();
    let deal = |pairs: &[&Pair<'a>], count: usize, stream: &mut Stream| -> Vec<Pair<'a>> {
        let words: Vec<&Word> = pairs.iter().map(|pair| pair.focus).collect();
        let dealt = Homes::new(&words, &blends, Some(Place::Beginning)).deal(count, stream, &Hand::default());
        let of = |(_, word): (usize, &Word)| pairs.iter().find(|pair| pair.focus == word).map(|pair| (*pair).clone());
        dealt.into_iter().filter_map(of).collect()
    };
    let spelled_anew: Vec<&Pair> = pairs.iter().filter(|pair| pair.anew).collect();
    let mut chosen = deal(&spelled_anew, anew.min(count), stream);
    let rest: Vec<&Pair> = pairs.iter().filter(|pair| chosen.iter().all(|other| other.focus != pair.focus)).collect();
    let more = deal(&rest, count - chosen.len(), stream);
    chosen.extend(more);
    chosen
}

fn item(spec: &SoundChange, pair: &Pair, request: &Request) -> Item {
    let mut item = Item::about(Kind::Heard, pair.to);
    let clue = clue::written(spec, &pair.change, pair.from, request.notation);
    item.shown = vec![pair.from.spelling.clone(), clue.clone()];
    item.answer =
        std::iter::once(pair.to).chain(request.bank.homophones(pair.to)).map(|w| w.spelling.clone()).collect();
    item.blend = Some(pair.blend.name.to_owned());
    item.from = Some(pair.from.spelling.clone());
    item.to = Some(pair.to.spelling.clone());
    item.texts.insert("clue".to_owned(), clue);
    item.texts.insert("anew".to_owned(), if pair.anew { "spelled another way".to_owned() } else { String::new() });
    item
}
