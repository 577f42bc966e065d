//! Words for sound boxes and for reading.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::pool::{Wanted, kin};
use super::share::{Homes, Need, shortage};
use super::{FillError, Filled, Hand, Problem, Request, Seat, Span, boxes, focus};
use crate::bank::{Band, Category, Misfit, Word};
use crate::seed::Stream;
use crate::sheet::{Item, Kind};
use crate::sounds::{Place, Side};

/// Where in a word the focus blend has to be heard.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum WordsFocus {
    /// At the beginning: an initial blend.
    #[default]
    Start,
    /// At the end: a final blend, not made by an ending.
    End,
    /// At the beginning, in the middle, or at the end.
    Any,
    /// The focus does not matter.
    None,
}

impl WordsFocus {
    /// The side of the vowel and the place at which the blend has to be heard.
    const fn place(self) -> (Option<Side>, Option<Place>) {
        match self {
            Self::Start => (Some(Side::Onset), Some(Place::Beginning)),
            Self::End => (Some(Side::Coda), Some(Place::End)),
            Self::Any | Self::None => (None, None),
        }
    }
}

/// Words for sound boxes or for reading, shared evenly among the focus blends.
///
/// No word is a heteronym or can't be sounded out, and no two of them sound alike or are forms of one word. Commoner words are
/// likelier, and neighbours have different blends where they can.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Words {
    /// How many words: 1 to 60. Default: 8.
    pub count: usize,
    /// The fewest and the most sounds: each 1 to 16. Default: `[2, 7]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// Whether each word has to fit sound boxes, and gets them. Default: false.
    pub boxes: bool,
    /// What boxes may hold beyond what beginners are taught: any of `x`, `qu`, `two-sounds`, `silent`. Default: nothing.
    pub allow: Vec<Misfit>,
    /// Where the focus blend has to be heard: `start`, `end`, `any`, or `none`. Without a focus it makes no difference.
    /// Default: `start`.
    pub focus: WordsFocus,
    /// Whether the words are heard and written: then every word of the bank that sounds the same is an accepted answer. It does not
    /// go with `boxes`. Default: false.
    pub heard: bool,
    /// Whether it is an error when a blend has too few words; otherwise the others take over. Default: false.
    pub even: bool,
    /// Whether other words that the child can read take over when the focus has too few. Not together with `even`. Default:
    /// false.
    pub review: bool,
    /// Whether words may have endings, such as *cups* and *hugged*. Default: false.
    pub forms: bool,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
    /// The kinds of thing of which each word has to be one, such as `animal`. Default: all words, of any kind or none.
    pub categories: Vec<Category>,
}

impl Default for Words {
    fn default() -> Self {
        Self {
            count: 8,
            sounds: Span::new(2, 7),
            syllables: Span::new(1, 1),
            boxes: false,
            allow: Vec::new(),
            focus: WordsFocus::Start,
            heard: false,
            even: false,
            review: false,
            forms: false,
            bands: Vec::new(),
            categories: Vec::new(),
        }
    }
}

impl Words {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 60).admit("count", self.count, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        if self.even && self.review {
            problems.push(Problem::new("review", "words beside the focus can't take over where `even` is true"));
        }
        if !self.boxes && !self.allow.is_empty() {
            problems.push(Problem::new("allow", "it says what sound boxes may hold, but `boxes` is not true"));
        }
        if self.boxes && self.heard {
            problems.push(Problem::new("heard", "words in sound boxes are read, so it can't be true with `boxes`"));
        }
        problems
    }
}

/// Chooses the words.
pub(super) fn choose(spec: &Words, request: &Request) -> Result<Filled, FillError> {
    let (side, place) = spec.focus.place();
    let blends = if spec.focus == WordsFocus::None { Vec::new() } else { focus::usable(&request.focus, side)? };
    let wanted = Wanted {
        sounds: spec.sounds,
        syllables: spec.syllables,
        boxes: spec.boxes,
        allow: &spec.allow,
        forms: spec.forms,
        bands: &spec.bands,
        categories: &spec.categories,
    };
    let mut filter = wanted.filter(request);
    let focus_at = (!blends.is_empty()).then(|| filter.len());
    let readable = filter.apply(request.bank.words());
    if !blends.is_empty() {
        filter.require(focus::condition(blends.clone(), place));
    }
    let words = filter.apply(request.bank.words());
    let homes = Homes::new(&words, &blends, place);
    let mut stream = request.stream.fork("words");
    let dealt = if homes.at_most(spec.even && !blends.is_empty()) >= spec.count {
        homes.deal(spec.count, &mut stream, &request.hand)
    } else if let Some(dealt) =
        spec.review.then(|| with_review(spec.count, homes, &readable, &mut stream, &request.hand)).flatten()
    {
        dealt
    } else {
        let need = Need {
            wanted: if spec.boxes { "the sound boxes" } else { "reading" },
            count: spec.count,
            even: spec.even && !blends.is_empty(),
            fewer: true,
            blends: &blends,
            place,
            focus_at,
            blends_allowed: Span::new(1, usize::MAX),
        };
        return Err(shortage(&filter, request.bank.words(), &need));
    };
    let items = dealt.into_iter().map(|(home, word)| {
        let mut item = Item::about(Kind::Word, word);
        item.shown = vec![word.spelling.clone()];
        item.blend = blends.get(home).map(|blend| blend.name.to_owned());
        item.boxes = if spec.boxes { boxes::row(word, &spec.allow) } else { None };
        item.answer = vec![item.boxes.as_ref().map_or_else(|| word.spelling.clone(), boxes::written)];
        if spec.heard {
            let bank = request.bank.words().iter();
            let alike = bank.filter(|other| other.sounds == word.sounds && other.spelling != word.spelling);
            item.answer.extend(alike.map(|other| other.spelling.clone()));
        }
        item
    });
    Ok(Filled { items: items.collect(), ..Filled::default() })
}

/// The home of words that are not about the focus: no blend has that number.
const NO_HOME: usize = usize::MAX;

/// All words of the focus, and other words in the places that are left; nothing when both are too few.
fn with_review<'w>(
    count: usize,
    homes: Homes<'w>,
    readable: &[&'w Word],
    stream: &mut Stream,
    hand: &Hand,
) -> Option<Vec<(usize, &'w Word)>> {
    let mut shared = stream.fork("review");
    let mut dealt = homes.deal(count, stream, hand);
    let numbers = kin(readable);
    let taken: BTreeSet<usize> = readable
        .iter()
        .zip(&numbers)
        .filter(|(word, _)| dealt.iter().any(|(_, of)| of.spelling == word.spelling))
        .map(|(_, &number)| number)
        .collect();
    let rest = readable.iter().zip(&numbers).filter(|(_, number)| !taken.contains(number)).map(|(word, _)| *word);
    let others = Homes::new(&rest.collect::<Vec<_>>(), &[], None);
    let left = count - dealt.len();
    if others.at_most(false) < left {
        return None;
    }
    dealt.extend(
        others
            .deal(left, if hand.seat == Seat::Alone { stream } else { &mut shared }, hand)
            .into_iter()
            .map(|(_, word)| (NO_HOME, word)),
    );
    stream.shuffle(&mut dealt);
    Some(dealt)
}
