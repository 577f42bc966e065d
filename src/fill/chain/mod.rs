//! A word ladder: each word is the one before with exactly one sound changed.

mod advice;
mod clue;
mod graph;
mod search;

use serde::Deserialize;

use super::pool::Wanted;
use super::share::{Need, shortage};
use super::{FillError, Filled, Problem, Request, Span, boxes, focus};
use crate::bank::{Band, Filter, Misfit, Word};
use crate::sheet::{ChangeShown, Item, Kind};
use crate::sounds::{Blend, Change};

use graph::Graph;
use search::{Found, Ladder, Rules};

/// A way in which a rung may change a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Move {
    /// One sound becomes another.
    Swap,
    /// A sound comes in.
    Add,
    /// A sound goes.
    TakeAway,
}

/// Which words of a ladder have to hold a focus blend.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum ChainFocus {
    /// The first word, and at least half of all.
    #[default]
    Most,
    /// The first word.
    Start,
    /// None has to.
    None,
}

/// A word ladder.
///
/// No word comes twice, nor a word that sounds like one before it or is a form of it. The same place does not change more than
/// twice in a row. A sound that goes stands only once in its word, and where a sound comes in is told, so that the clue leads
/// to one word; every word of the bank that sounds like it is accepted. Ladders that change first, middle and last sounds are
/// preferred.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Chain {
    /// How many rungs after the first word: 4 to 10. Default: 6.
    pub rungs: usize,
    /// How a rung may change a word: one or more of `swap`, `add`, `take-away`. Default: `[swap]`.
    pub moves: Vec<Move>,
    /// The fewest and the most sounds in a word: each 2 to 8. Default: `[3, 5]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 3. Default: `[1, 1]`.
    pub syllables: Span,
    /// Whether each word has to fit sound boxes, and gets them, with the changed box marked. Only for ladders that swap.
    /// Default: false.
    pub boxes: bool,
    /// What boxes may hold beyond what beginners are taught: `silent`. Default: nothing.
    pub allow: Vec<Misfit>,
    /// Which words have to hold a focus blend: `most`, `start`, or `none`. Without a focus it makes no difference.
    /// Default: `most`.
    pub focus: ChainFocus,
    /// Whether words may have endings, such as *cups*. Default: false.
    pub forms: bool,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
    /// What stands beside the first word, which is printed. Default: `Start with this word.`
    pub start: String,
    /// The clue of a swap, with `{old}` and `{new}` for the sounds. Default: `Change {old} to {new}.`
    pub clue: String,
    /// The clue when a sound comes in, with `{new}` for the sound and `{place}` for where: `at the start`, `at the end`, or
    /// `after` a sound. Default: `Add {new} {place}.`
    pub add_clue: String,
    /// The clue when a sound goes, with `{old}` for the sound. Default: `Take away {old}.`
    pub take_away_clue: String,
}

impl Default for Chain {
    fn default() -> Self {
        Self {
            rungs: 6,
            moves: vec![Move::Swap],
            sounds: Span::new(3, 5),
            syllables: Span::new(1, 1),
            boxes: false,
            allow: Vec::new(),
            focus: ChainFocus::Most,
            forms: false,
            bands: Vec::new(),
            start: "Start with this word.".to_owned(),
            clue: "Change {old} to {new}.".to_owned(),
            add_clue: "Add {new} {place}.".to_owned(),
            take_away_clue: "Take away {old}.".to_owned(),
        }
    }
}

impl Chain {
    /// How many sounds a word of a ladder can have.
    const SOUNDS: Span = Span::new(2, Graph::MOST_SOUNDS);

    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(4, 10).admit("rungs", self.rungs, &mut problems);
        self.sounds.check("sounds", Self::SOUNDS, &mut problems);
        self.syllables.check("syllables", Span::new(1, 3), &mut problems);
        if self.moves.is_empty() {
            problems.push(Problem::new("moves", "a ladder needs one at least: `swap`, `add` or `take-away`"));
        }
        if self.boxes && self.moves.iter().any(|&one| one != Move::Swap) {
            let message = "a ladder in sound boxes can only `swap`: other moves change how many boxes there are";
            problems.push(Problem::new("moves", message));
        }
        if !self.boxes && !self.allow.is_empty() {
            problems.push(Problem::new("allow", "it says what sound boxes may hold, but `boxes` is not true"));
        }
        if self.allow.iter().any(|&kind| kind != Misfit::Silent) {
            let message = "only `silent` can be allowed: the marked box of a ladder must hold the letters of its sound";
            problems.push(Problem::new("allow", message));
        }
        problems.extend(clue::problems("clue", &self.clue, &["old", "new"]));
        problems.extend(clue::problems("add_clue", &self.add_clue, &["new", "place"]));
        problems.extend(clue::problems("take_away_clue", &self.take_away_clue, &["old"]));
        problems
    }

    fn filter<'a>(&'a self, request: &'a Request<'a>) -> Filter<'a> {
        let wanted = Wanted {
            sounds: self.sounds,
            syllables: self.syllables,
            boxes: self.boxes,
            allow: &self.allow,
            forms: self.forms,
            bands: &self.bands,
            categories: &[],
        };
        wanted.filter(request)
    }

    /// The words that may stand on the ladder, with how one becomes another.
    fn graph<'a>(&self, words: &[&'a Word], blends: &[&'static Blend]) -> Graph<'a> {
        Graph::new(words, &self.moves, |word| blends.iter().any(|blend| focus::is_heard(word, blend, None)))
    }

    /// What a ladder has to be, when its focus is these blends.
    fn rules(&self, blends: &[&'static Blend]) -> Rules {
        let half = (self.rungs + 1).div_ceil(2);
        let holding = match self.focus {
            _ if blends.is_empty() => 0,
            ChainFocus::Most => half,
            ChainFocus::Start => 1,
            ChainFocus::None => 0,
        };
        Rules { rungs: self.rungs, holding }
    }

    fn find(&self, graph: &Graph, blends: &[&'static Blend], request: &Request) -> Found {
        search::ladder(graph, self.rules(blends), &mut request.own("chain"))
    }
}

/// Chooses the ladder's words and writes its clues.
pub(super) fn choose(spec: &Chain, request: &Request) -> Result<Filled, FillError> {
    let blends = if spec.focus == ChainFocus::None { Vec::new() } else { focus::usable(&request.focus, None)? };
    let filter = spec.filter(request);
    let words = filter.apply(request.bank.words());
    if words.len() <= spec.rungs {
        let need = Need {
            wanted: "the ladder",
            count: spec.rungs + 1,
            even: false,
            // A count is of rungs here, and there is no ladder of so few words.
            fewer: false,
            blends: &[],
            place: None,
            focus_at: None,
            blends_allowed: Span::new(0, usize::MAX),
        };
        return Err(shortage(&filter, request.bank.words(), &need));
    }
    let graph = spec.graph(&words, &blends);
    match spec.find(&graph, &blends, request) {
        Found { ladder: Some(ladder), .. } => Ok(written(spec, request, &graph, &ladder, &blends)),
        Found { ladder: None, longest } => {
            Err(Box::new(advice::no_ladder(spec, request, &graph, &blends, longest)).into())
        }
    }
}

fn written(spec: &Chain, request: &Request, graph: &Graph, ladder: &Ladder, blends: &[&'static Blend]) -> Filled {
    let start = graph.word(ladder.start);
    let mut items = vec![about(Kind::Start, start, spec, blends)];
    items[0].shown = vec![start.spelling.clone()];
    items[0].answer = vec![start.spelling.clone()];
    items[0].texts.insert("clue".to_owned(), spec.start.clone());
    let mut before = start;
    for &(to, change) in &ladder.rungs {
        let word = graph.word(to);
        let mut item = about(Kind::Rung, word, spec, blends);
        let clue = clue::written(spec, change, &before.sounds, request.notation);
        item.shown = vec![clue.clone()];
        item.texts.insert("clue".to_owned(), clue);
        item.answer = vec![word.spelling.clone()];
        item.answer.extend(request.bank.homophones(word).map(|also| also.spelling.clone()));
        item.from = Some(before.spelling.clone());
        item.to = Some(word.spelling.clone());
        item.change = Some(ChangeShown::new(change));
        if let (Some(row), Change::Swap { at, .. }) = (&mut item.boxes, change) {
            row.marked = Some(at);
        }
        items.push(item);
        before = word;
    }
    Filled { items, ..Filled::default() }
}

fn about(kind: Kind, word: &Word, spec: &Chain, blends: &[&'static Blend]) -> Item {
    let mut item = Item::about(kind, word);
    item.blend = word.blends().find(|(blend, _)| blends.contains(blend)).map(|(blend, _)| blend.name.to_owned());
    item.boxes = if spec.boxes { boxes::row(word, &spec.allow) } else { None };
    item
}
