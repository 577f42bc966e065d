//! What too few pairs are due to; each way to get more is tried before it is told.

use super::pairs::{Finder, disjoint};
use super::{SoundChange, Span};
use crate::bank::{Cost, Word};
use crate::fill::{FillError, Move, Request, Shortage, focus};
use crate::sounds::{BLENDS, Blend, Side};

/// How many words with a blend have a pair of their own.
fn count(
    spec: &SoundChange,
    request: &Request,
    blends: &[&'static Blend],
    reads: &(dyn Fn(&Word) -> bool + Sync),
) -> usize {
    let found = Finder { spec, request, blends, reads }.find();
    let mut stream = request.stream.fork("advice");
    (0..4).map(|_| disjoint(&found, blends, false, &mut stream).len()).max().unwrap_or(0)
}

/// Says what leaves how many, and what gives enough.
pub(super) fn too_few(spec: &SoundChange, request: &Request, blends: &[&'static Blend], found: usize) -> FillError {
    // With other blends that take over there are as many as with all of them.
    let blends = if spec.review { &super::any_blends(request)[..] } else { blends };
    let by_sight = |word: &Word| request.by_sight.iter().any(|(known, _)| *known == word.spelling);
    let reads = |word: &Word| (request.decodable)(word) || by_sight(word);
    let all = |_: &Word| true;
    let any: Vec<&'static Blend> = BLENDS.iter().filter(|blend| blend.taught && blend.side == Side::Onset).collect();
    let wide = SoundChange { sounds: Span::new(1, 16), syllables: Span::new(1, 6), bands: Vec::new(), ..spec.clone() };
    let pairs = |spec: &SoundChange, blends: &[&'static Blend], reads: &(dyn Fn(&Word) -> bool + Sync)| {
        count(spec, request, blends, reads)
    };
    let (what, place) = match spec.by {
        Move::Swap => ("become another word when a blend changes", "before or after it"),
        Move::Add => ("come of another word by a sound that is added", "at their beginning"),
        Move::TakeAway => ("become another word when a sound is taken away", "at their beginning"),
    };
    let cost = |asks: String, loosen: String, leaves, without| Cost { asks, loosen, leaves, without };
    // Where other blends take over there may be all of them.
    let named = if blends.len() > 8 { "a blend".to_owned() } else { focus::names(blends, "or") };
    let (more, most) = one_more(blends, &any, |blends| pairs(spec, blends, &reads));
    let mut costs = vec![cost(what.to_owned(), String::new(), pairs(&wide, &any, &all), found)];
    costs.push(cost(format!("have {named} {place}"), more, pairs(&wide, blends, &all), most));
    let wider = Span::new(1, (spec.sounds.max + 2).min(16));
    let longer = pairs(&SoundChange { sounds: wider, syllables: Span::new(1, 2), ..spec.clone() }, blends, &reads);
    let size = SoundChange { bands: Vec::new(), ..spec.clone() };
    costs.push(cost(
        format!("have {} sounds and {}, before and after", spec.sounds, in_syllables(spec.syllables)),
        "allow more `sounds` or `syllables`".to_owned(),
        pairs(&size, blends, &all),
        longer,
    ));
    if !spec.bands.is_empty() {
        let names: Vec<_> = spec.bands.iter().map(|band| band.name()).collect();
        let asks = format!("belong to the age bands {}", names.join(", "));
        let without = pairs(&size, blends, &reads);
        costs.push(cost(asks, "allow more `bands`".to_owned(), pairs(spec, blends, &all), without));
    }
    let later = pairs(spec, blends, &all);
    let asks = format!("make a word that can be read at {}", request.step);
    costs.push(cost(asks, "choose a later step".to_owned(), found, later));
    let (needed, of) = (spec.count, request.bank.words().len());
    let wanted = "work by ear".to_owned();
    FillError::TooFew(Box::new(Shortage { wanted, needed, found, at_most: found, of, costs, blends: Vec::new() }))
}

fn in_syllables(span: Span) -> String {
    if span == Span::new(1, 1) { "1 syllable".to_owned() } else { format!("{span} syllables") }
}

/// The one further blend that gives the most, and how many there are with it.
fn one_more(
    blends: &[&'static Blend],
    any: &[&'static Blend],
    count: impl Fn(&[&'static Blend]) -> usize,
) -> (String, usize) {
    let others = any.iter().filter(|blend| !blends.contains(blend));
    let with = |blend: &'static Blend| count(&blends.iter().copied().chain([blend]).collect::<Vec<_>>());
    let best = others.map(|&blend| (with(blend), blend)).max_by_key(|(count, _)| *count);
    best.map_or_else(|| (String::new(), 0), |(count, blend)| (format!("add {} to the focus", blend.name), count))
}
