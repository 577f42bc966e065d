//! A word that the child hears, and blends that are near in sound, one of which it starts or ends with.

use serde::Deserialize;

use super::focus::{self, BadFocus, SortSide, names};
use super::near::{by_ear, focus_and_taught, share_a_sound, spelled_as_named, taught, times_in};
use super::pool::Wanted;
use super::share::{Homes, Need, shortage};
use super::{FillError, Filled, Problem, Request, Span};
use crate::bank::{Band, Condition, Word};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::Blend;

/// Words to hear, each with choices, exactly one of which is the blend that it starts or ends with.
///
/// The choices are the focus blends and those that are taught by now; those that share a sound with the right one come first.
/// None of the wrong ones is heard anywhere in the word. The right one stands at each place equally often. The words are
/// heard, not read, so they need not be readable; but the blend is spelled in them as it is printed.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Pick {
    /// How many words: 1 to 40. Default: 10.
    pub count: usize,
    /// Whether the blend opens the word (`start`) or closes it (`end`). Default: `start`.
    pub side: SortSide,
    /// How many choices: 2 to 4. Default: 3.
    pub choices: usize,
    /// The fewest and the most sounds: each 1 to 16. Default: `[3, 6]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`; empty for all. Default: `["K", "1"]`, words that children know by ear.
    pub bands: Vec<Band>,
}

impl Default for Pick {
    fn default() -> Self {
        Self {
            count: 10,
            side: SortSide::Start,
            choices: 3,
            sounds: Span::new(3, 6),
            syllables: Span::new(1, 1),
            bands: vec![Band::K, Band::One],
        }
    }
}

impl Pick {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 40).admit("count", self.count, &mut problems);
        Span::new(2, 4).admit("choices", self.choices, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        problems
    }
}

/// Chooses the words and their choices.
pub(super) fn choose(spec: &Pick, request: &Request) -> Result<Filled, FillError> {
    let side = spec.side.side();
    let place = Some(spec.side.place());
    let blends = match focus::usable(&request.focus, Some(side))? {
        none if none.is_empty() => taught(request, side),
        some => some,
    };
    let all = focus_and_taught(request, side);
    if all.len() < spec.choices {
        return Err(too_few_choices(spec, request, &all).into());
    }
    let hearing = by_ear(request);
    let wanted = Wanted {
        sounds: spec.sounds,
        syllables: spec.syllables,
        boxes: false,
        allow: &[],
        forms: false,
        bands: &spec.bands,
        categories: &[],
    };
    let mut filter = wanted.filter(&hearing);
    let focus_at = Some(filter.len());
    filter.require(focus::condition(blends.clone(), place));
    let named = blends.clone();
    filter.require(Condition::new("spell the blend as it is printed", "", move |word| {
        named.iter().any(|blend| focus::is_heard(word, blend, place) && spelled_as_named(word, blend))
    }));
    let choices = all.clone();
    let fewest = spec.choices - 1;
    filter.require(Condition::new(
        "leave enough of the other blends to choose among",
        "ask for fewer `choices`",
        move |word| wrong_ones(word, &choices).len() >= fewest,
    ));
    let homes = Homes::new(&filter.apply(request.bank.words()), &blends, place);
    if homes.at_most(false) < spec.count {
        let need = Need {
            wanted: "the choices",
            count: spec.count,
            even: false,
            fewer: true,
            blends: &blends,
            place,
            focus_at,
            blends_allowed: Span::new(1, usize::MAX),
        };
        return Err(shortage(&filter, request.bank.words(), &need));
    }
    let mut stream = request.stream.fork("pick");
    let dealt = homes.deal(spec.count, &mut stream, &request.hand);
    let places = even_places(dealt.len(), spec.choices, &mut stream);
    let item = |((home, word), at): ((usize, &Word), usize)| {
        let right = blends[home];
        let mut shown = among(word, right, &all, spec.choices - 1, &mut stream);
        shown.insert(at, right);
        let mut item = Item::about(Kind::Heard, word);
        item.shown = vec![word.spelling.clone()];
        item.choices = shown.into_iter().map(|blend| blend.name.to_owned()).collect();
        item.answer = vec![right.name.to_owned()];
        item.blend = Some(right.name.to_owned());
        item
    };
    Ok(Filled { items: dealt.into_iter().zip(places).map(item).collect(), ..Filled::default() })
}

fn too_few_choices(spec: &Pick, request: &Request, all: &[&'static Blend]) -> BadFocus {
    let word = match spec.side {
        SortSide::Start => "start",
        SortSide::End => "end",
    };
    let has = match all {
        [] => "none is".to_owned(),
        [one] => format!("only {} is", one.name),
        more => format!("only {} are", names(more, "and")),
    };
    BadFocus {
        why: format!(
            "Each word has {} blends that words can {word} with to choose from, and {has} taught by {} or in the focus.",
            spec.choices, request.step
        ),
        hint: "choose a later step, or name more blends (`--focus`)".to_owned(),
    }
}

/// The blends that are heard nowhere in a word.
fn wrong_ones(word: &Word, all: &[&'static Blend]) -> Vec<&'static Blend> {
    all.iter().copied().filter(|blend| times_in(blend.sounds, &word.sounds) == 0).collect()
}

/// Some wrong choices in an order of chance: those near in sound to the right one before the others.
fn among(word: &Word, right: &Blend, all: &[&'static Blend], count: usize, stream: &mut Stream) -> Vec<&'static Blend> {
    let mut wrong = wrong_ones(word, all);
    stream.shuffle(&mut wrong);
    wrong.sort_by_key(|blend| !share_a_sound(blend, right));
    wrong.truncate(count);
    stream.shuffle(&mut wrong);
    wrong
}

/// A place for each of some items, each of `places` as often as any other and never three times in a row.
pub(super) fn even_places(items: usize, places: usize, stream: &mut Stream) -> Vec<usize> {
    let mut numbers: Vec<usize> = (0..places).collect();
    stream.shuffle(&mut numbers);
    let mut at: Vec<usize> = (0..items).map(|nth| numbers[nth % places]).collect();
    for _ in 0..64 {
        stream.shuffle(&mut at);
        if at.windows(3).all(|run| run[0] != run[1] || run[1] != run[2]) {
            break;
        }
    }
    at
}
