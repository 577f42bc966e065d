//! One item of a sheet.

use std::collections::BTreeMap;

use serde::Serialize;

use crate::bank::{Bank, Word};
use crate::sounds::{Change, Notation, Place, Sound};

/// What kind of item it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// A word by itself.
    Word,
    /// A word to put into a column.
    Sort,
    /// The word at which a ladder starts; it is printed.
    Start,
    /// A rung of a ladder: the word before, changed in one sound.
    Rung,
    /// A word, or its sounds, that the child hears.
    Heard,
    /// An entry to be joined by a line with another.
    Match,
    /// A word taught by sight.
    Sight,
    /// A row of words to read aloud.
    Row,
    /// A few words to read aloud as one.
    Phrase,
    /// A nonsense word.
    Silly,
}

/// A row of sound boxes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BoxRow {
    /// The letters that belong in each box, one box a sound.
    pub letters: Vec<String>,
    /// The silent *e* after the last box, or nothing.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub after: String,
    /// The box that is marked, from 0.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub marked: Option<usize>,
}

/// The one sound that changes on a rung.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChangeShown {
    /// Which sound, from 0, in the word before the change.
    pub at: usize,
    /// The sound that goes, as CMUdict's code; none when a sound is added.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub old: Option<&'static str>,
    /// The sound that comes, as CMUdict's code; none when a sound is taken away.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub new: Option<&'static str>,
    /// The change itself.
    #[serde(skip)]
    pub change: Change,
}

impl ChangeShown {
    /// A change as it is printed.
    #[must_use]
    pub const fn new(change: Change) -> Self {
        let (at, old, new) = match change {
            Change::Swap { at, old, new } => (at, Some(old.code()), Some(new.code())),
            Change::Add { at, new } => (at, None, Some(new.code())),
            Change::TakeAway { at, old } => (at, Some(old.code()), None),
        };
        Self { at, old, new, change }
    }
}

/// One item: what the child sees or hears, and every accepted answer.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Item {
    /// What kind it is.
    pub kind: Kind,
    /// The word that it is about.
    pub word: String,
    /// The word's sounds: CMUdict's codes without stress, one entry a counted sound.
    pub sounds: Vec<&'static str>,
    /// The word's letter groups, a split vowel as `a_e`.
    pub letters: Vec<String>,
    /// What the child sees or hears, in order.
    pub shown: Vec<String>,
    /// All accepted answers, the expected one first.
    pub answer: Vec<String>,
    /// Its sound boxes.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub boxes: Option<BoxRow>,
    /// The blend that it practises.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub blend: Option<String>,
    /// What the child chooses among, in the order of the page.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub choices: Vec<String>,
    /// Where in the word the blend is heard.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub place: Option<Place>,
    /// The word before the change, on a rung or where a word is changed by ear.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub from: Option<String>,
    /// The word after the change, likewise.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
    /// The change, on a rung.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub change: Option<ChangeShown>,
    /// Further texts that a layout can print by name, such as `clue`.
    #[serde(flatten)]
    pub texts: BTreeMap<String, String>,
}

impl Item {
    /// An item about a word, with nothing shown and nothing to answer yet.
    #[must_use]
    pub fn about(kind: Kind, word: &Word) -> Self {
        Self { sounds: word.codes(), letters: word.groups(), ..Self::of_text(kind, &word.spelling) }
    }

    /// An item of words that are not all in the bank, or of several words; it has no sounds or letter groups.
    #[must_use]
    pub fn of_text(kind: Kind, text: &str) -> Self {
        Self {
            kind,
            word: text.to_owned(),
            sounds: Vec::new(),
            letters: Vec::new(),
            shown: Vec::new(),
            answer: Vec::new(),
            boxes: None,
            blend: None,
            choices: Vec::new(),
            place: None,
            from: None,
            to: None,
            change: None,
            texts: BTreeMap::new(),
        }
    }

    /// A text that a layout asks for by name: `word`, `sounds` (written out), `letters`, `answer`, `also` (`also: ` and the further answers),
    /// `blend`, `from`, `to`, `old`, `new` (sounds in the notation), or one of [`Item::texts`]. `None` for an unknown name.
    #[must_use]
    pub fn text(&self, name: &str, notation: Notation) -> Option<String> {
        let symbol = |code: Option<&'static str>| code.map_or(String::new(), |code| symbol_of(code, notation));
        Some(match name {
            "word" => self.word.clone(),
            "sounds" => self.sounds.iter().map(|s| symbol(Some(*s))).collect::<Vec<_>>().join(" "),
            "letters" => self.letters.join(" "),
            "answer" => self.answer.first().cloned().unwrap_or_default(),
            "also" => match self.answer.get(1..) {
                Some(further) if !further.is_empty() => format!("also: {}", further.join(", ")),
                _ => String::new(),
            },
            "shown" => self.shown.join(" "),
            "blend" => self.blend.clone().unwrap_or_default(),
            "from" => self.from.clone().unwrap_or_default(),
            "to" => self.to.clone().unwrap_or_default(),
            "old" => symbol(self.change.as_ref().and_then(|c| c.old)),
            "new" => symbol(self.change.as_ref().and_then(|c| c.new)),
            other => self.texts.get(other)?.clone(),
        })
    }
}

impl Item {
    /// The words of the bank that stand in it, seen, heard or answered, each once; a word taught by sight even where the bank has
    /// it not. Choices, clues, and answers that are no words (places, letters in boxes) are left aside.
    #[must_use]
    pub fn words(&self, bank: &Bank) -> Vec<String> {
        let sight = (self.kind == Kind::Sight).then_some(&self.word);
        let mut words: Vec<String> = sight.into_iter().cloned().collect();
        let clue = self.texts.get("clue");
        let shown = self.shown.iter().filter(|text| Some(*text) != clue);
        let of_words = self.boxes.is_none() && self.place.is_none() && self.choices.is_empty();
        let answer = self.answer.iter().filter(|_| of_words);
        let texts = [&self.word].into_iter().chain(shown).chain(answer).chain(&self.from).chain(&self.to);
        // Slashes stand around sounds, which are no words.
        for token in texts.flat_map(|text| text.split_whitespace()).filter(|token| !token.contains('/')) {
            let token = token.trim_matches(|c: char| !c.is_alphanumeric()).to_lowercase();
            if bank.get(&token).is_some() && !words.contains(&token) {
                words.push(token);
            }
        }
        words
    }
}

/// Words, and all of the bank's that sound like them: what is left aside where words have been used. Each once, in order.
#[must_use]
pub fn with_homophones(words: impl IntoIterator<Item = String>, bank: &Bank) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for word in words {
        let alike =
            bank.get(&word).into_iter().flat_map(|word| bank.homophones(word)).map(|other| other.spelling.clone());
        for word in std::iter::once(word.clone()).chain(alike) {
            if !all.contains(&word) {
                all.push(word);
            }
        }
    }
    all
}

fn symbol_of(code: &str, notation: Notation) -> String {
    let sound = Sound::ALL.iter().find(|sound| sound.code() == code);
    format!("/{}/", sound.map_or(code, |sound| sound.symbol(notation)))
}
