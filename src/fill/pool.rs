//! Which words may be used at all, how likely each is, and which may not stand on one sheet together.

use std::collections::BTreeMap;

use super::{Request, Span, boxes};
use crate::bank::{Band, Category, Condition, Filter, Misfit, Word};

/// What a layout asks of every word, whatever the way of choosing.
pub(super) struct Wanted<'a> {
    /// How many sounds.
    pub sounds: Span,
    /// How many syllables.
    pub syllables: Span,
    /// Whether it has to fit sound boxes.
    pub boxes: bool,
    /// What boxes may hold beyond what beginners are taught.
    pub allow: &'a [Misfit],
    /// Whether it may have an ending.
    pub forms: bool,
    /// The age bands; empty for all.
    pub bands: &'a [Band],
    /// The kinds of thing, one of which it has to be; empty for all words.
    pub categories: &'a [Category],
}

impl<'a> Wanted<'a> {
    /// The conditions, with how each is loosened. The condition of the focus is not among them.
    pub fn filter(&self, request: &'a Request<'a>) -> Filter<'a> {
        let Self { sounds, syllables, boxes, allow, forms, bands, categories } = *self;
        let mut filter = Filter::new();
        let mut require = |asks: String, loosen: &str, test: Box<dyn Fn(&Word) -> bool + Send + Sync + 'a>| {
            filter.require(Condition::new(asks, loosen, test));
        };
        require("can be read alone in one way, as they are spelled".into(), "", Box::new(stands_alone));
        if !forms {
            let asks = "have no ending such as -s, -ed or -ing".into();
            require(asks, "let words have endings (`forms: true`)", Box::new(|word| !word.is_form()));
        }
        let s = if syllables == Span::new(1, 1) { "" } else { "s" };
        require(
            format!("have {syllables} syllable{s}"),
            "allow more or fewer `syllables`",
            Box::new(move |word| syllables.holds(word.syllables.len())),
        );
        require(
            format!("have {sounds} sounds"),
            "allow more or fewer `sounds`",
            Box::new(move |word| sounds.holds(word.sounds.len())),
        );
        if !bands.is_empty() {
            let names: Vec<_> = bands.iter().map(|band| band.name()).collect();
            require(
                format!("belong to the age bands {}", names.join(", ")),
                "allow more `bands`",
                Box::new(|word| bands.contains(&word.band)),
            );
        }
        if !categories.is_empty() {
            let names: Vec<_> = categories.iter().map(|category| category.name()).collect();
            require(
                format!("are of the kinds {}", names.join(", ")),
                "allow more `categories`",
                Box::new(|word| word.categories.iter().any(|category| categories.contains(category))),
            );
        }
        if boxes {
            require(
                "fit sound boxes".into(),
                "let boxes hold x, qu and silent letters (`allow`)",
                Box::new(|word| boxes::row(word, allow).is_some()),
            );
        }
        let decodable = request.decodable;
        require(
            format!("can be read at {}", request.step),
            "choose a later step",
            Box::new(move |word| decodable(word)),
        );
        if !request.avoid.is_empty() {
            require(
                "are not among the words to avoid".into(),
                "avoid fewer words",
                Box::new(|word| !request.avoid.contains(&word.spelling)),
            );
        }
        filter
    }
}

/// Whether a word can be read by itself: it is heard in one way, and its spelling can be sounded out.
fn stands_alone(word: &Word) -> bool {
    !word.flags.heteronym && !word.flags.irregular
}

/// How likely a word is to be taken: the product of a number for its age band and one for SCOWL's level. The numbers are our own
/// choice: a word that five-year-olds know and everyone writes is sixteen times as likely as one at the other end.
#[must_use]
pub fn weight(word: &Word) -> u32 {
    let by_band = match word.band {
        Band::K => 8,
        Band::One => 5,
        Band::Two => 3,
        Band::Three => 2,
    };
    let by_level = match word.level {
        0..=10 => 4,
        11..=20 => 3,
        21..=35 => 2,
        _ => 1,
    };
    by_band * by_level
}

/// For each word, the number of its kin: homophones are kin, and so are a word and its forms, and the kin of kin. No two of
/// them stand on one sheet. Numbers count from 0 in the order in which the kin first come up.
pub(super) fn kin(words: &[&Word]) -> Vec<usize> {
    let mut parent: Vec<usize> = (0..words.len()).collect();
    let mut by_sound = BTreeMap::new();
    let mut by_stem = BTreeMap::new();
    for (at, word) in words.iter().enumerate() {
        let stem = word.flags.form.as_ref().map_or(word.spelling.as_str(), |(base, _)| base.as_str());
        for other in [*by_sound.entry(&word.sounds).or_insert(at), *by_stem.entry(stem).or_insert(at)] {
            let (one, other) = (root(&parent, at), root(&parent, other));
            parent[one.max(other)] = one.min(other);
        }
    }
    let mut numbers = BTreeMap::new();
    (0..words.len())
        .map(|at| {
            let next = numbers.len();
            *numbers.entry(root(&parent, at)).or_insert(next)
        })
        .collect()
}

fn root(parent: &[usize], mut at: usize) -> usize {
    while parent[at] != at {
        at = parent[at];
    }
    at
}
