//! A blend sort: columns with a blend each, and words that fit exactly one of them.

use serde::Deserialize;

use super::focus::{self, BadFocus, SortSide, doubled, names, on_side};
use super::pool::Wanted;
use super::share::{Homes, Need, shortage};
use super::{FillError, Filled, Problem, Request, Span};
use crate::bank::{Band, Condition, Word};
use crate::seed::Stream;
use crate::sheet::{Column, Item, Kind};
use crate::sounds::{Blend, spell_out};

/// How many columns a sort can have.
const COLUMNS: Span = Span::new(2, 4);

/// A blend sort: one column for each focus blend, two to four of them.
///
/// Each word holds exactly one of the columns' blends, once, on the side by which the words are sorted.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Columns {
    /// How many words in all columns together: 2 to 60. Default: 12.
    pub count: usize,
    /// Whether words are sorted by how they `start` or how they `end`. It also says which of the two is meant by a blend that
    /// can be either: `sk`, `sp`, `st`. Default: `start`.
    pub side: SortSide,
    /// Whether it is an error when a blend has too few words; otherwise the others take over, with at least one word in each
    /// column. Default: true.
    pub even: bool,
    /// The fewest and the most sounds: each 1 to 16. Default: `[2, 7]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// Whether words may have endings, such as *flags*. Default: false.
    pub forms: bool,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
}

impl Default for Columns {
    fn default() -> Self {
        Self {
            count: 12,
            side: SortSide::Start,
            even: true,
            sounds: Span::new(2, 7),
            syllables: Span::new(1, 1),
            forms: false,
            bands: Vec::new(),
        }
    }
}

impl Columns {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(2, 60).admit("count", self.count, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        problems
    }
}

/// Chooses the columns' words.
pub(super) fn choose(spec: &Columns, request: &Request) -> Result<Filled, FillError> {
    let blends = headers(spec.side, request)?;
    if spec.count < blends.len() {
        let message = format!("{} words can't fill {} columns: ask for at least one each", spec.count, blends.len());
        return Err(FillError::OutOfRange { way: "columns", problems: vec![Problem::new("count", message)] });
    }
    let place = Some(spec.side.place());
    let wanted = Wanted {
        sounds: spec.sounds,
        syllables: spec.syllables,
        boxes: false,
        allow: &[],
        forms: spec.forms,
        bands: &spec.bands,
        categories: &[],
    };
    let mut filter = wanted.filter(request);
    let focus_at = Some(filter.len());
    filter.require(focus::condition(blends.clone(), place));
    let once = blends.clone();
    filter.require(Condition::new("hold no other of them, nor one twice", "", move |word| {
        holds_one_at_most(word, &once)
    }));

    let homes = Homes::new(&filter.apply(request.bank.words()), &blends, place);
    let some_empty = homes.counts().contains(&0);
    if some_empty || homes.at_most(spec.even) < spec.count {
        let need = Need {
            wanted: "the sort",
            count: spec.count,
            even: spec.even || some_empty,
            fewer: true,
            blends: &blends,
            place,
            focus_at,
            blends_allowed: COLUMNS,
        };
        return Err(shortage(&filter, request.bank.words(), &need));
    }
    let mut stream = request.stream.fork("columns");
    let mut dealt = homes.deal(spec.count, &mut stream, &request.hand);
    hide_order(&mut dealt, &mut stream);
    Ok(laid_out(&dealt, &blends))
}

/// The blends of the columns, or why there are no such columns.
fn headers(side: SortSide, request: &Request) -> Result<Vec<&'static Blend>, FillError> {
    let blends = on_side(&request.focus, Some(side.side()));
    let hint = |hint: &str| hint.to_owned();
    if let Some(blend) = doubled(&request.focus) {
        let mut spellings = vec![blend.name];
        spellings.extend(blend.also.iter().filter(|name| !name.contains('/')));
        return Err(BadFocus {
            why: format!(
                "Two columns of the sort would be the same: {} is one blend, however it is spelled or asked for ({}).",
                spell_out(blend.sounds, request.notation),
                spellings.join(", ")
            ),
            hint: hint("a sort is by sound: choose another blend instead of one of the two"),
        }
        .into());
    }
    if COLUMNS.holds(blends.len()) {
        return Ok(blends);
    }
    let (this, other) = match side {
        SortSide::Start => ("start", "end"),
        SortSide::End => ("end", "start"),
    };
    let aside: Vec<&'static Blend> =
        request.focus.iter().copied().filter(|blend| on_side(&[blend], Some(side.side())).is_empty()).collect();
    let named = match blends.as_slice() {
        [] => format!("no blend that words can {this} with"),
        [one] => format!("only one blend that words can {this} with: {}", one.name),
        many => format!("{} blends that words can {this} with: {}", many.len(), names(many, "and")),
    };
    let mut why = format!("A sort has {COLUMNS} columns, and the focus names {named}");
    if !aside.is_empty() {
        why = format!("{why} ({} can't stand there)", names(&aside, "and"));
    }
    let advice = if blends.len() > COLUMNS.max {
        hint("choose at most four of them for this sheet")
    } else if aside.len() >= COLUMNS.min {
        format!("add a blend that words {this} with, or sort by the {other} of the words (`side: {other}`)")
    } else {
        format!("add a blend that words {this} with, so that there are at least two")
    };
    Err(BadFocus { why: format!("{why}."), hint: advice }.into())
}

/// Whether no more than one of the columns' blends stands on their side of a syllable, in one place.
fn holds_one_at_most(word: &Word, blends: &[&'static Blend]) -> bool {
    word.clusters.iter().filter(|cluster| cluster.blend.is_some_and(|blend| blends.contains(&blend))).count() <= 1
}

/// Shuffles the words until their order does not give the columns away: not column by column, not in turn, not by the alphabet.
/// With very few words there may be no such order; after some tries it is left at that.
fn hide_order(dealt: &mut [(usize, &Word)], stream: &mut Stream) {
    for _ in 0..64 {
        stream.shuffle(dealt);
        let homes: Vec<usize> = dealt.iter().map(|(home, _)| *home).collect();
        let columns = homes.iter().collect::<std::collections::BTreeSet<_>>().len();
        let by_column = homes.windows(2).filter(|pair| pair[0] != pair[1]).count() < columns;
        let in_turn = homes.len() > columns && homes.iter().zip(&homes[columns..]).all(|(one, other)| one == other);
        let by_alphabet = dealt.is_sorted_by_key(|(_, word)| &word.spelling);
        if !(by_column || in_turn || by_alphabet) {
            return;
        }
    }
}

fn laid_out(dealt: &[(usize, &Word)], blends: &[&'static Blend]) -> Filled {
    let columns = blends.iter().enumerate().map(|(home, blend)| {
        let mut words: Vec<String> =
            dealt.iter().filter(|(at, _)| *at == home).map(|(_, word)| word.spelling.clone()).collect();
        words.sort();
        Column { blend: blend.name.to_owned(), sounds: blend.sounds.iter().map(|sound| sound.code()).collect(), words }
    });
    let items = dealt.iter().map(|&(home, word)| {
        let mut item = Item::about(Kind::Sort, word);
        item.shown = vec![word.spelling.clone()];
        item.answer = vec![blends[home].name.to_owned()];
        item.blend = Some(blends[home].name.to_owned());
        item
    });
    Filled {
        items: items.collect(),
        columns: columns.collect(),
        word_bank: dealt.iter().map(|(_, word)| word.spelling.clone()).collect(),
        ..Filled::default()
    }
}
