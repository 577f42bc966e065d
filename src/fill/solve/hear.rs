//! Hearing a word from its raw phones: the counting of sounds, written a second time.

use std::fmt;

use crate::bank::Word;
use crate::sounds::{Counting, Notation, Phone, Sound, Stress};

/// A sound as CMUdict's code, the schwa apart as `AH0`.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Code(&'static str);

impl Code {
    /// The code without stress, as an item has it.
    pub fn plain(self) -> &'static str {
        if self.0 == "AH0" { "AH" } else { self.0 }
    }

    /// Whether it is a vowel: the vowels' codes begin as vowels do in print, and so does the one that begins with /y/.
    pub fn is_vowel(self) -> bool {
        self.0.starts_with(['A', 'E', 'I', 'O', 'U']) || self.0 == "Y UW"
    }

    /// The sound that a symbol between slashes stands for.
    pub fn of_symbol(symbol: &str, notation: Notation) -> Option<Self> {
        let bare = symbol.strip_prefix('/')?.strip_suffix('/')?;
        let sound = Sound::ALL.iter().find(|sound| sound.symbol(notation) == bare)?;
        Some(if *sound == Sound::Schwa { Self("AH0") } else { Self(sound.code()) })
    }

    /// The codes of a blend's sounds.
    pub fn of_sounds(sounds: &[Sound]) -> Vec<Self> {
        sounds.iter().map(|sound| Self(sound.code())).collect()
    }
}

impl fmt::Debug for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0)
    }
}

/// The sounds of a word, counted anew.
pub(super) fn hear(word: &Word, counting: Counting) -> Vec<Code> {
    hear_at(word, counting).into_iter().map(|(code, _)| code).collect()
}

/// The sounds of a word, each with the number of its first phone.
pub(super) fn hear_at(word: &Word, counting: Counting) -> Vec<(Code, usize)> {
    // Each phone with the letters of its group and whether it is the group's first and only one.
    let phones: Vec<(Phone, &str, bool)> = word
        .alignment
        .units
        .iter()
        .flat_map(|unit| unit.phones.iter().map(|&phone| (phone, unit.letters.as_str(), unit.phones.len() == 1)))
        .collect();
    let code = |at: usize| phones.get(at).map_or("", |(phone, ..)| phone.phoneme.code());
    let vowel = |at: usize| phones.get(at).is_some_and(|(phone, ..)| phone.phoneme.is_vowel());
    let mut heard: Vec<(Code, usize)> = Vec::with_capacity(phones.len());
    let mut at = 0;
    while at < phones.len() {
        let (phone, letters, alone) = phones[at];
        let r_follows = code(at + 1) == "R";
        let r_closes = r_follows && !vowel(at + 2);
        let first = match code(at) {
            "AO" if counting.dog_as_hop && letters == "o" && alone && !r_follows => "AA",
            "AH" if phone.stress == Some(Stress::None) => "AH0",
            one => one,
        };
        let two = match first {
            "AA" if r_closes => Some("AA R"),
            "AO" if r_closes => Some("AO R"),
            "EH" if r_closes && counting.vowel_r_as_one => Some("EH R"),
            "IH" if r_closes && counting.vowel_r_as_one => Some("IH R"),
            "AY" if r_closes && counting.vowel_r_as_one => Some("AY R"),
            "AW" if r_closes && counting.vowel_r_as_one => Some("AW R"),
            "Y" if counting.yu_as_one && code(at + 1) == "UW" && at > 0 && !vowel(at - 1) => Some("Y UW"),
            _ => None,
        };
        let one = if first == "W" && letters == "wh" && counting.wh_as_hw { "HH W" } else { first };
        heard.push((Code(two.unwrap_or(one)), at));
        at += if two.is_some() { 2 } else { 1 };
    }
    heard
}

/// The consonants that open a word.
pub(super) fn opening(heard: &[Code]) -> &[Code] {
    let vowel = heard.iter().position(|code| code.is_vowel()).unwrap_or(heard.len());
    &heard[..vowel]
}

/// The consonants that close a word.
pub(super) fn closing(heard: &[Code]) -> &[Code] {
    let vowel = heard.iter().rposition(|code| code.is_vowel()).map_or(0, |at| at + 1);
    &heard[vowel..]
}
