//! How phonemes are counted as sounds: the switches on which teachers differ, in one place.

use serde::{Deserialize, Serialize};

use super::{Phone, Phoneme, Sound};

/// The switches of accent and counting. They change how the bank is seen, never the bank's file.
///
/// All rules are common practice without a single source. `Default` is what most American classrooms do:
///
/// | switch | default | the other way |
/// |---|---|---|
/// | `dog_as_hop` | the *o* of dog, frog, off, long is /ŏ/ | it is /aw/, as CMUdict mostly writes it |
/// | `vowel_r_as_one` | air, ear, ire, our are a vowel and then /r/ | each is one sound |
/// | `yu_as_one` | the /yū/ of cube, mule is one sound | it is /y/ and then /ōō/ |
/// | `wh_as_hw` | *wh* is /w/ | *wh* is /hw/ |
///
/// *ar*, *or* and *er* are one sound always.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Counting {
    /// Hear the *o* of dog, frog, off and long as the *o* of hop.
    pub dog_as_hop: bool,
    /// Count air, ear, ire and our as one sound each.
    pub vowel_r_as_one: bool,
    /// Count /yū/ after a consonant as one sound.
    pub yu_as_one: bool,
    /// Say *wh* as /hw/.
    pub wh_as_hw: bool,
}

impl Default for Counting {
    fn default() -> Self {
        Self { dog_as_hop: true, vowel_r_as_one: false, yu_as_one: true, wh_as_hw: false }
    }
}

/// A counted sound as it stands in a word.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Heard {
    /// The sound.
    pub sound: Sound,
    /// The index of its first phone in the word.
    pub from: usize,
    /// How many phones it takes: 1 or 2.
    pub phones: usize,
}

/// Counts the sounds of a word given as phones. Together they cover every phone, in order.
#[must_use]
pub fn count_sounds(phones: &[Phone], counting: &Counting) -> Vec<Heard> {
    let mut heard = Vec::with_capacity(phones.len());
    let mut at = 0;
    while at < phones.len() {
        let (sound, taken) = match pair_at(phones, at, counting) {
            Some(sound) => (sound, 2),
            None => (Sound::of_phoneme(phones[at].phoneme, phones[at].is_unstressed()), 1),
        };
        heard.push(Heard { sound, from: at, phones: taken });
        at += taken;
    }
    heard
}

/// The two-phoneme sound that starts at a phone, if the switches make it one. An /r/ before a vowel opens the next syllable
/// (*story*, *carrot*), so it is not part of a vowel + r.
fn pair_at(phones: &[Phone], at: usize, counting: &Counting) -> Option<Sound> {
    let first = phones[at].phoneme;
    let second = phones.get(at + 1)?.phoneme;
    if second == Phoneme::R {
        if phones.get(at + 2).is_some_and(|next| next.phoneme.is_vowel()) {
            return None;
        }
        return match first {
            Phoneme::Aa => Some(Sound::Ar),
            Phoneme::Ao => Some(Sound::Or),
            Phoneme::Eh if counting.vowel_r_as_one => Some(Sound::Air),
            Phoneme::Ih if counting.vowel_r_as_one => Some(Sound::Ear),
            Phoneme::Ay if counting.vowel_r_as_one => Some(Sound::Ire),
            Phoneme::Aw if counting.vowel_r_as_one => Some(Sound::Our),
            _ => None,
        };
    }
    let after_consonant = at > 0 && !phones[at - 1].phoneme.is_vowel();
    (counting.yu_as_one && after_consonant && first == Phoneme::Y && second == Phoneme::Uw).then_some(Sound::LongU)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sounds::parse_phones;

    fn sounds(codes: &str, counting: Counting) -> String {
        let phones = parse_phones(codes).unwrap();
        count_sounds(&phones, &counting).iter().map(|h| h.sound.code()).collect::<Vec<_>>().join("-")
    }

    /// Common practice, no source: the counting rules of the trade.
    #[test]
    fn counts_as_teachers_do() {
        let count = |codes| sounds(codes, Counting::default());
        assert_eq!(count("T R EY1"), "T-R-EY"); // tray
        assert_eq!(count("K AA1 R"), "K-AA R"); // car
        assert_eq!(count("S T AO1 R IY0"), "S-T-AO-R-IY"); // story
        assert_eq!(count("CH EH1 R"), "CH-EH-R"); // chair
        assert_eq!(count("K Y UW1 B"), "K-Y UW-B"); // cube
        assert_eq!(count("Y UW1 Z"), "Y-UW-Z"); // use
        assert_eq!(count("F AA1 K S"), "F-AA-K-S"); // fox
    }

    #[test]
    fn switches_change_the_count() {
        let one = Counting { vowel_r_as_one: true, yu_as_one: false, ..Counting::default() };
        assert_eq!(sounds("CH EH1 R", one), "CH-EH R");
        assert_eq!(sounds("F AY1 R", one), "F-AY R");
        assert_eq!(sounds("K Y UW1 B", one), "K-Y-UW-B");
    }
}
