//! Words to be built of letter tiles, and the tiles that they take.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::words::{self, Words, WordsFocus};
use super::{FillError, Filled, Problem, Request, Span};
use crate::bank::{Band, Category, Word};
use crate::sheet::Item;

/// Words to be built one at a time, and exactly the tiles that they take: a tile for each letter group, such as *sh* and *ai*.
/// The two halves of a split vowel are two tiles, because a letter stands between them.
///
/// The words are chosen as [`Words`] chooses them. Each has the text `tiles`, its tiles in order.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Tiles {
    /// How many words: 1 to 60. Default: 8.
    pub count: usize,
    /// Whether all words can lie side by side: there is a tile for each letter group of each word. Otherwise one word is built at
    /// a time, and the tiles are used again. Default: false.
    pub all: bool,
    /// The fewest and the most sounds: each 1 to 16. Default: `[2, 5]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// Where the focus blend has to be heard: `start`, `end`, `any`, or `none`. Default: `start`.
    pub focus: WordsFocus,
    /// Whether it is an error when a blend has too few words; otherwise the others take over. Default: false.
    pub even: bool,
    /// Whether words may have endings. Default: false.
    pub forms: bool,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
    /// The kinds of thing of which each word has to be one. Default: all words.
    pub categories: Vec<Category>,
}

impl Default for Tiles {
    fn default() -> Self {
        let Words { count, syllables, focus, even, forms, bands, categories, .. } = Words::default();
        Self { count, all: false, sounds: Span::new(2, 5), syllables, focus, even, forms, bands, categories }
    }
}

impl Tiles {
    /// What is asked of the words.
    pub(super) fn words(&self) -> Words {
        Words {
            count: self.count,
            sounds: self.sounds,
            syllables: self.syllables,
            focus: self.focus,
            even: self.even,
            forms: self.forms,
            bands: self.bands.clone(),
            categories: self.categories.clone(),
            ..Words::default()
        }
    }

    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        self.words().validate()
    }
}

/// Chooses the words and counts the tiles.
pub(super) fn choose(spec: &Tiles, request: &Request) -> Result<Filled, FillError> {
    // A tile with *the* on it reads as the word, not as the sound that it has in *breathe*.
    let is_misread = |word: &&Word| word.alignment.units.iter().any(|unit| unit.letters == "the");
    let misread: Vec<String> =
        request.bank.words().iter().filter(is_misread).map(|word| word.spelling.clone()).collect();
    let mut filled = words::choose(&spec.words(), &request.avoiding(&misread))?;
    let mut needed: BTreeMap<String, usize> = BTreeMap::new();
    for item in &mut filled.items {
        if let Some(word) = request.bank.get(&item.word) {
            item.texts.insert("tiles".to_owned(), in_order(word).join(" · "));
        }
        for (tile, times) in counted(item) {
            let so_far = needed.entry(tile).or_default();
            *so_far = if spec.all { *so_far + times } else { times.max(*so_far) };
        }
    }
    filled.tiles = needed.into_iter().flat_map(|(tile, times)| std::iter::repeat_n(tile, times)).collect();
    Ok(filled)
}

/// The tiles of a word in the order in which they spell it.
fn in_order(word: &Word) -> Vec<&str> {
    let mut closings = word.alignment.closings.iter().copied().peekable();
    let mut halves = word.alignment.units.iter().map(|unit| unit.halves().1).filter(|half| !half.is_empty());
    let mut tiles = Vec::new();
    for (at, unit) in word.alignment.units.iter().enumerate() {
        while closings.next_if_eq(&at).is_some() {
            tiles.extend(halves.next());
        }
        tiles.push(unit.halves().0);
    }
    tiles.extend(halves);
    tiles
}

/// The tiles of one word, each with how often it is needed.
fn counted(item: &Item) -> BTreeMap<String, usize> {
    let mut counted = BTreeMap::new();
    for tile in item.letters.iter().flat_map(|group| group.split('_')).filter(|tile| !tile.is_empty()) {
        *counted.entry(tile.to_owned()).or_default() += 1;
    }
    counted
}
