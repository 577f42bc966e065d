//! Two columns to be joined by lines: words without their blends and blends, or words that rhyme.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::focus::{BadFocus, SortSide, is_heard, names, usable};
use super::near::{focus_and_taught, share_a_sound, spelled_as_named};
use super::pool::{Wanted, weight};
use super::{FillError, Filled, Problem, Request, Span};
use crate::bank::{Band, Word};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::{Blend, Sound};

/// What belongs together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum MatchBy {
    /// A word without its blend, and the blend.
    #[default]
    Blend,
    /// A word and one that rhymes with it.
    Rhyme,
}

/// Two columns to be joined by lines, in one way only.
///
/// With blends, most words fit one blend of the sheet alone; where another fits too, it is the only one for another word, so
/// that it is ruled out. Words outside the bank count as well. With rhymes, each word rhymes with exactly one.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Match {
    /// What belongs together: a word's rest and its `blend`, or words that `rhyme`. Default: `blend`.
    pub by: MatchBy,
    /// How many pairs: 2 to 10. With blends there may be fewer, at least three, when fewer blends are taught. Default: 6.
    pub count: usize,
    /// Which blend of a word is missing: the one at its `start` or at its `end`; with rhymes, where a focus blend stands that
    /// words at the left have if they can. Default: `start`.
    pub side: SortSide,
    /// The fewest and the most sounds: each 2 to 16. Default: `[3, 5]`.
    pub sounds: Span,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
}

impl Default for Match {
    fn default() -> Self {
        Self { by: MatchBy::Blend, count: 6, side: SortSide::Start, sounds: Span::new(3, 5), bands: Vec::new() }
    }
}

/// What is left of a word and can't stand on a page by itself.
const UNFIT_RESTS: [&str; 6] = ["ass", "issy", "itch", "um", "unt", "uck"];

/// The fewest pairs that make a sheet.
const FEWEST: usize = 3;

/// What is known of spellings beside the bank, so that what could be another word is not taken for none.
pub(super) const LISTED: &str = include_str!("../bank/spelled.txt");

impl Match {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(2, 10).admit("count", self.count, &mut problems);
        self.sounds.check("sounds", Span::new(2, 16), &mut problems);
        problems
    }
}

/// Chooses the pairs, and mixes the right column.
pub(super) fn choose(spec: &Match, request: &Request) -> Result<Filled, FillError> {
    let wanted = Wanted {
        sounds: spec.sounds,
        syllables: Span::new(1, 1),
        boxes: false,
        allow: &[],
        forms: false,
        bands: &spec.bands,
        categories: &[],
    };
    let words = wanted.filter(request).apply(request.bank.words());
    let mut stream = request.own("match");
    let (items, right) = match spec.by {
        MatchBy::Blend => gaps(spec, request, &words, &mut stream)?,
        MatchBy::Rhyme => rhymes(spec, request, &words, &mut stream)?,
    };
    Ok(Filled { word_bank: apart(&right, &mut stream), items, ..Filled::default() })
}

/// The right column in an order in which nothing stands beside what it belongs to, where there is one.
fn apart(right: &[String], stream: &mut Stream) -> Vec<String> {
    let mut mixed = right.to_vec();
    for _ in 0..64 {
        stream.shuffle(&mut mixed);
        if mixed.iter().zip(right).all(|(one, other)| one != other) {
            break;
        }
    }
    mixed
}

type Pairs = (Vec<Item>, Vec<String>);

/// Words without their blends.
fn gaps(spec: &Match, request: &Request, words: &[&Word], stream: &mut Stream) -> Result<Pairs, FillError> {
    let side = spec.side.side();
    let asked = usable(&request.focus, Some(side))?;
    let all = focus_and_taught(request, side);
    let known: BTreeSet<&str> =
        LISTED.lines().chain(request.bank.words().iter().map(|w| w.spelling.as_str())).collect();
    let mut best: Vec<(&'static Blend, &Word)> = Vec::new();
    for _ in 0..40 {
        let blends = some_blends(&asked, &all, spec.count, stream);
        let pairs = by_elimination(spec, &fitting(spec, request, words, &blends, &known), stream);
        let rank = |pairs: &[(&'static Blend, &Word)]| {
            (pairs.len(), pairs.iter().filter(|(blend, _)| asked.contains(blend)).count())
        };
        if rank(&pairs) > rank(&best) {
            best = pairs;
        }
        if best.len() == spec.count && rank(&best).1 == asked.len().min(spec.count) {
            break;
        }
    }
    let found: Vec<&'static Blend> = best.iter().map(|(blend, _)| *blend).collect();
    let left_out: Vec<&'static Blend> = asked.into_iter().filter(|blend| !found.contains(blend)).collect();
    if best.len() < FEWEST.min(spec.count) || !left_out.is_empty() && found.len() < spec.count {
        return Err(no_gaps(&left_out, &found, request).into());
    }
    stream.shuffle(&mut best);
    let items = best.iter().map(|(blend, word)| {
        let mut item = Item::about(Kind::Match, word);
        item.shown = vec![gapped(&word.spelling, blend.name, spec.side)];
        item.answer = vec![blend.name.to_owned()];
        item.blend = Some(blend.name.to_owned());
        item
    });
    Ok((items.collect(), best.iter().map(|(blend, _)| blend.name.to_owned()).collect()))
}

fn no_gaps(left_out: &[&'static Blend], found: &[&'static Blend], request: &Request) -> BadFocus {
    let why = if left_out.is_empty() {
        format!(
            "At least {FEWEST} blends are needed, and {} are taught by {} with words of their own.",
            found.len(),
            request.step
        )
    } else {
        format!(
            "No word that can be read at {} fits {} and no other blend of the sheet.",
            request.step,
            names(left_out, "or")
        )
    };
    BadFocus { why, hint: "choose a later step, fewer pairs (`--count`) or other blends (`--focus`)".to_owned() }
}

/// The focus blends, as many as are wanted, and others that are taught, those near in sound first.
fn some_blends(
    asked: &[&'static Blend],
    all: &[&'static Blend],
    count: usize,
    stream: &mut Stream,
) -> Vec<&'static Blend> {
    let mut blends = all.to_vec();
    stream.shuffle(&mut blends);
    let near = |blend: &Blend| asked.iter().any(|other| share_a_sound(blend, other));
    // One in three of the others comes in by chance, so that there is a way out where near blends have no words of their own.
    let drawn: Vec<(bool, bool)> =
        blends.iter().map(|blend| (!asked.contains(blend), !near(blend) && stream.below(3) > 0)).collect();
    let mut ranked: Vec<_> = drawn.into_iter().zip(blends).collect();
    ranked.sort_by_key(|(rank, _)| *rank);
    ranked.into_iter().map(|(_, blend)| blend).take(count).collect()
}

/// For each blend, its words, each with the other blends of the sheet that would make a word of its rest too, by spelling or
/// by sound.
type Fitting<'w> = Vec<(&'static Blend, Vec<(&'w Word, Vec<&'static Blend>)>)>;

fn fitting<'w>(
    spec: &Match,
    request: &Request,
    words: &[&'w Word],
    blends: &[&'static Blend],
    known: &BTreeSet<&str>,
) -> Fitting<'w> {
    let others = |word: &Word, blend: &'static Blend| -> Option<Vec<&'static Blend>> {
        if !is_heard(word, blend, Some(spec.side.place())) || !spelled_as_named(word, blend) {
            return None;
        }
        let rest = rest(&word.spelling, blend.name, spec.side)?;
        if UNFIT_RESTS.contains(&rest) {
            return None;
        }
        let makes_a_word = |other: &Blend| {
            known.contains(joined(other.name, rest, spec.side).as_str())
                || request.bank.sounding(&exchanged(word, blend, other, spec.side)).next().is_some()
        };
        Some(blends.iter().copied().filter(|other| *other != blend && makes_a_word(other)).collect())
    };
    let of = |blend: &&'static Blend| {
        (*blend, words.iter().filter_map(|word| Some((*word, others(word, blend)?))).collect())
    };
    blends.iter().map(of).collect()
}

/// A word for each blend, such that there is one way to join them: first words that no other blend fits, then words that only
/// blends of those fit too, which are spoken for, and so on.
fn by_elimination<'w>(spec: &Match, fitting: &Fitting<'w>, stream: &mut Stream) -> Vec<(&'static Blend, &'w Word)> {
    let mut pairs: Vec<(&'static Blend, &'w Word)> = Vec::new();
    loop {
        let done: Vec<&'static Blend> = pairs.iter().map(|(blend, _)| *blend).collect();
        for (blend, words) in fitting.iter().filter(|(blend, _)| !done.contains(blend)) {
            let free: Vec<&'w Word> = words
                .iter()
                .filter(|(_, others)| others.iter().all(|other| done.contains(other)))
                .map(|(word, _)| *word)
                .collect();
            let weights: Vec<u32> = free.iter().map(|word| weight(word)).collect();
            pairs.extend(stream.weighted(&weights).map(|at| (*blend, free[at])));
        }
        if pairs.len() == done.len() || pairs.len() >= spec.count {
            return pairs;
        }
    }
}

fn rest<'s>(spelling: &'s str, blend: &str, side: SortSide) -> Option<&'s str> {
    match side {
        SortSide::Start => spelling.strip_prefix(blend),
        SortSide::End => spelling.strip_suffix(blend),
    }
}

fn joined(blend: &str, rest: &str, side: SortSide) -> String {
    match side {
        SortSide::Start => format!("{blend}{rest}"),
        SortSide::End => format!("{rest}{blend}"),
    }
}

/// A word's sounds with another blend in the place of its own.
fn exchanged(word: &Word, blend: &Blend, other: &Blend, side: SortSide) -> Vec<Sound> {
    let kept = word.sounds.len() - blend.sounds.len();
    match side {
        SortSide::Start => [other.sounds, &word.sounds[blend.sounds.len()..]].concat(),
        SortSide::End => [&word.sounds[..kept], other.sounds].concat(),
    }
}

/// A word with a gap of two lines for its blend, however many letters that has.
fn gapped(spelling: &str, blend: &str, side: SortSide) -> String {
    joined("__", rest(spelling, blend, side).unwrap_or_default(), side)
}

/// Words that rhyme in pairs, each pair with a rhyme of its own.
fn rhymes(spec: &Match, request: &Request, words: &[&Word], stream: &mut Stream) -> Result<Pairs, FillError> {
    let asked = usable(&request.focus, None)?;
    let holds = |word: &Word| asked.iter().any(|blend| is_heard(word, blend, None));
    let mut pairs: Vec<(&Word, &Word)> = Vec::new();
    let mut used: BTreeSet<&[Sound]> = BTreeSet::new();
    let partners = |one: &Word| words.iter().any(|other| other.rhymes_with(one));
    let paired: Vec<&Word> = words.iter().copied().filter(|word| partners(word)).collect();
    while pairs.len() < spec.count {
        let open: Vec<&Word> = paired.iter().copied().filter(|word| !used.contains(word.rhyme_part())).collect();
        let with: Vec<&Word> = open.iter().copied().filter(|word| holds(word)).collect();
        let pool = if with.is_empty() { open } else { with };
        let draw = |pool: &[&Word], stream: &mut Stream| {
            stream.weighted(&pool.iter().map(|word| weight(word)).collect::<Vec<u32>>())
        };
        let Some(left) = draw(&pool, stream).map(|at| pool[at]) else { break };
        let fits: Vec<&Word> = words.iter().copied().filter(|other| other.rhymes_with(left)).collect();
        let Some(right) = draw(&fits, stream).map(|at| fits[at]) else { break };
        used.insert(left.rhyme_part());
        pairs.push((left, right));
    }
    if pairs.len() < spec.count {
        return Err(BadFocus {
            why: format!(
                "{} pairs of rhyming words are wanted, and {} with different rhymes can be read at {}.",
                spec.count,
                pairs.len(),
                request.step
            ),
            hint: "choose a later step, or ask for fewer pairs (`--count`)".to_owned(),
        }
        .into());
    }
    stream.shuffle(&mut pairs);
    let items = pairs.iter().map(|(left, right)| {
        let mut item = Item::about(Kind::Match, left);
        item.shown = vec![left.spelling.clone()];
        item.answer = vec![right.spelling.clone()];
        item.blend = asked.iter().find(|blend| is_heard(left, blend, None)).map(|blend| blend.name.to_owned());
        item
    });
    Ok((items.collect(), pairs.iter().map(|(_, right)| right.spelling.clone()).collect()))
}
