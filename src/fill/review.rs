//! High-frequency words taught by sight: the newest first, then older ones again.

use serde::Deserialize;

use super::{FillError, Filled, Problem, Request, Shortage, Span};
use crate::bank::{Bank, Cost};
use crate::sheet::{Item, Kind};

/// High-frequency words taught by sight up to the step: first the newest, step by step backwards, then older ones that are drawn
/// evenly from all steps before, again the newest first. So words come back long after they were new.
///
/// A word that is read in two ways is left out, because it stands alone. Where fewer words have been taught than the layout asks
/// for, all of them are taken.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Review {
    /// How many words at the most: 1 to 60. Default: 24.
    pub count: usize,
    /// How many of a hundred words are the newest: 0 to 100. Default: 50.
    pub newest: usize,
}

impl Default for Review {
    fn default() -> Self {
        Self { count: 24, newest: 50 }
    }
}

impl Review {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 60).admit("count", self.count, &mut problems);
        Span::new(0, 100).admit("newest", self.newest, &mut problems);
        problems
    }

    /// How many of `count` words are the newest.
    pub(super) const fn newest_of(&self, count: usize) -> usize {
        (count * self.newest).div_ceil(100)
    }
}

/// Whether a word is read in two ways, so that it can't be read alone.
fn two_ways(bank: &Bank, spelling: &str) -> bool {
    bank.get(spelling).is_some_and(|word| word.flags.heteronym)
}

/// As it is printed: the word for oneself is a capital wherever it stands.
pub(super) fn as_printed(spelling: &str) -> String {
    if spelling == "i" { "I".to_owned() } else { spelling.to_owned() }
}

/// Chooses the words.
pub(super) fn choose(spec: &Review, request: &Request) -> Result<Filled, FillError> {
    let words: Vec<(&str, usize)> = request
        .by_sight
        .iter()
        .filter(|(word, _)| !two_ways(request.bank, word) && !request.avoid.contains(word))
        .map(|(word, step)| (word.as_str(), *step))
        .collect();
    let count = if request.count.is_some() { spec.count } else { spec.count.min(words.len().max(1)) };
    if words.len() < count {
        return Err(shortage(count, words.len(), request));
    }
    let newest = spec.newest_of(count);
    let older = words.len() - newest;
    let mut chosen: Vec<usize> = (0..newest).collect();
    let mut drawn = request.own_words("review").sample(count - newest, older);
    drawn.sort_unstable();
    chosen.extend(drawn.into_iter().map(|at| newest + at));
    let items = chosen.into_iter().map(|at| item(words[at], request));
    Ok(Filled { items: items.collect(), ..Filled::default() })
}

fn item((spelling, step): (&str, usize), request: &Request) -> Item {
    let mut item = request
        .bank
        .get(spelling)
        .map_or_else(|| Item::of_text(Kind::Sight, spelling), |word| Item::about(Kind::Sight, word));
    item.shown = vec![as_printed(spelling)];
    item.answer = vec![as_printed(spelling)];
    item.texts.insert("taught".to_owned(), format!("step {step}"));
    item
}

fn shortage(needed: usize, found: usize, request: &Request) -> FillError {
    let cost = |asks: &str, leaves| Cost {
        asks: asks.to_owned(),
        loosen: "choose a later step".to_owned(),
        leaves,
        without: needed,
    };
    let costs = vec![cost(&format!("are taught by sight up to {} and read in one way", request.step), found)];
    FillError::TooFew(Box::new(Shortage {
        wanted: "the review".to_owned(),
        needed,
        found,
        at_most: found,
        of: request.bank.words().len(),
        costs,
        blends: Vec::new(),
    }))
}
