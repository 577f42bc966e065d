//! Words said as separate sounds, to be put together and written.

use serde::Deserialize;

use super::words::{self, Words};
use super::{FillError, Filled, Problem, Request, Span, WordsFocus};
use crate::bank::{Band, Category, Misfit};
use crate::sheet::Kind;

/// Words of which the teacher says the sounds one by one; the child says the word and writes it.
///
/// Every word that sounds the same is an accepted answer. The words can be read at the step, since the child spells them.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Spoken {
    /// How many words: 1 to 60. Default: 10.
    pub count: usize,
    /// The fewest and the most sounds: each 1 to 16. Default: `[3, 5]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// Where the focus blend has to be heard: `start`, `end`, `any`, or `none`. Default: `start`.
    pub focus: WordsFocus,
    /// Whether words with x, qu or another letter group of two sounds are left out. Default: true.
    pub plain: bool,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
    /// The kinds of thing of which each word has to be one, such as `animal`. Default: all words.
    pub categories: Vec<Category>,
}

impl Default for Spoken {
    fn default() -> Self {
        Self {
            count: 10,
            sounds: Span::new(3, 5),
            syllables: Span::new(1, 1),
            focus: WordsFocus::Start,
            plain: true,
            bands: Vec::new(),
            categories: Vec::new(),
        }
    }
}

impl Spoken {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        self.as_words().validate()
    }

    /// The same as words for sound boxes (where they have to be plain) or for reading.
    fn as_words(&self) -> Words {
        Words {
            count: self.count,
            sounds: self.sounds,
            syllables: self.syllables,
            boxes: self.plain,
            allow: if self.plain { vec![Misfit::Silent] } else { Vec::new() },
            focus: self.focus,
            heard: false,
            even: false,
            review: false,
            forms: false,
            bands: self.bands.clone(),
            categories: self.categories.clone(),
        }
    }
}

/// Chooses the words.
pub(super) fn choose(spec: &Spoken, request: &Request) -> Result<Filled, FillError> {
    let mut filled = words::choose(&spec.as_words(), request)?;
    for item in &mut filled.items {
        item.kind = Kind::Heard;
        item.boxes = None;
        item.answer = vec![item.word.clone()];
        if let Some(word) = request.bank.get(&item.word) {
            item.shown = word.sounds.iter().map(|sound| format!("/{}/", sound.symbol(request.notation))).collect();
            item.answer.extend(request.bank.homophones(word).map(|other| other.spelling.clone()));
        }
    }
    Ok(filled)
}
