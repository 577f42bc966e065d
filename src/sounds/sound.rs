//! The sounds that a teacher counts: mostly one phoneme each, a few of them two.

use std::fmt;

use super::{Phoneme, Phoneme::*};

macro_rules! sounds {
    ($($name:ident [$($phone:ident)+] $vowel:literal $teacher:literal $ipa:literal $word:literal),+ $(,)?) => {
        /// One counted sound: what gets one box in a row of sound boxes.
        ///
        /// The teacher's notation is that of American school dictionaries (common practice, no single source); the IPA
        /// symbols are those that the Handbook of the International Phonetic Association (1999) uses for American English.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Sound {
            $(#[doc = concat!("/", $teacher, "/ as in *", $word, "*.")] $name),+
        }

        impl Sound {
            /// All sounds: consonants, vowels, then those made of two phonemes.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// Its phonemes, one or two.
            #[must_use]
            pub const fn phonemes(self) -> &'static [Phoneme] {
                match self { $(Self::$name => &[$($phone),+]),+ }
            }

            /// Whether it is the vowel of a syllable.
            #[must_use]
            pub const fn is_vowel(self) -> bool {
                match self { $(Self::$name => $vowel),+ }
            }

            /// The teacher's notation, without slashes. The voiced *th* of "this" is underlined: `t͟h`.
            #[must_use]
            pub const fn teacher(self) -> &'static str {
                match self { $(Self::$name => $teacher),+ }
            }

            /// The IPA symbol, without slashes.
            #[must_use]
            pub const fn ipa(self) -> &'static str {
                match self { $(Self::$name => $ipa),+ }
            }

            /// A word in which it is heard.
            #[must_use]
            pub const fn key_word(self) -> &'static str {
                match self { $(Self::$name => $word),+ }
            }
        }
    };
}

sounds! {
    B [B] false "b" "b" "bat",
    Ch [Ch] false "ch" "tʃ" "chin",
    D [D] false "d" "d" "dig",
    Dh [Dh] false "t\u{35f}h" "ð" "this",
    F [F] false "f" "f" "fan",
    G [G] false "g" "ɡ" "go",
    H [Hh] false "h" "h" "hat",
    J [Jh] false "j" "dʒ" "jam",
    K [K] false "k" "k" "kit",
    L [L] false "l" "l" "leg",
    M [M] false "m" "m" "map",
    N [N] false "n" "n" "net",
    Ng [Ng] false "ng" "ŋ" "sing",
    P [P] false "p" "p" "pig",
    R [R] false "r" "ɹ" "run",
    S [S] false "s" "s" "sun",
    Sh [Sh] false "sh" "ʃ" "ship",
    T [T] false "t" "t" "top",
    Th [Th] false "th" "θ" "thin",
    V [V] false "v" "v" "van",
    W [W] false "w" "w" "web",
    Y [Y] false "y" "j" "yes",
    Z [Z] false "z" "z" "zip",
    Zh [Zh] false "zh" "ʒ" "treasure",
    ShortA [Ae] true "ă" "æ" "cat",
    ShortE [Eh] true "ĕ" "ɛ" "bed",
    ShortI [Ih] true "ĭ" "ɪ" "pig",
    ShortO [Aa] true "ŏ" "ɑ" "hop",
    ShortU [Ah] true "ŭ" "ʌ" "cup",
    Schwa [Ah] true "ə" "ə" "about",
    LongA [Ey] true "ā" "eɪ" "rain",
    LongE [Iy] true "ē" "i" "tree",
    LongI [Ay] true "ī" "aɪ" "kite",
    LongO [Ow] true "ō" "oʊ" "boat",
    Oo [Uh] true "oo" "ʊ" "book",
    LongOo [Uw] true "ōō" "u" "moon",
    Aw [Ao] true "aw" "ɔ" "saw",
    Oy [Oy] true "oi" "ɔɪ" "boy",
    Ow [Aw] true "ow" "aʊ" "cow",
    Er [Er] true "er" "ɝ" "bird",
    Ar [Aa R] true "ar" "ɑɹ" "car",
    Or [Ao R] true "or" "ɔɹ" "fork",
    LongU [Y Uw] true "yū" "ju" "cube",
    Air [Eh R] true "air" "ɛɹ" "chair",
    Ear [Ih R] true "ear" "ɪɹ" "deer",
    Ire [Ay R] true "ire" "aɪɹ" "fire",
    Our [Aw R] true "our" "aʊɹ" "hour",
    Hw [Hh W] false "hw" "ʍ" "when",
}

/// Which symbols to write sounds with.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    serde::Serialize,
    serde::Deserialize,
    schemars::JsonSchema,
)]
#[serde(rename_all = "lowercase")]
pub enum Notation {
    /// The notation of American school dictionaries: `/shĭp/`.
    #[default]
    Teacher,
    /// The International Phonetic Alphabet: `/ʃɪp/`.
    Ipa,
}

impl Sound {
    /// CMUdict's codes without stress, parted by a blank when there are two: `CH`, `AA R`.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Ar => "AA R",
            Self::Or => "AO R",
            Self::LongU => "Y UW",
            Self::Air => "EH R",
            Self::Ear => "IH R",
            Self::Ire => "AY R",
            Self::Our => "AW R",
            Self::Hw => "HH W",
            one => one.phonemes()[0].code(),
        }
    }

    /// The symbol in a notation, without slashes.
    #[must_use]
    pub const fn symbol(self, notation: Notation) -> &'static str {
        match notation {
            Notation::Teacher => self.teacher(),
            Notation::Ipa => self.ipa(),
        }
    }

    /// The sound of a single phoneme; an unstressed `AH` is the schwa.
    #[must_use]
    pub const fn of_phoneme(phoneme: Phoneme, unstressed: bool) -> Self {
        if unstressed && matches!(phoneme, Ah) { Self::Schwa } else { OF_PHONEME[phoneme as usize] }
    }
}

/// The sound that each phoneme is by itself, in the order of the phonemes. Looked up for every sound of the bank at each start.
const OF_PHONEME: [Sound; Phoneme::ALL.len()] = {
    let mut of = [Sound::Schwa; Phoneme::ALL.len()];
    let mut at = 0;
    while at < Sound::ALL.len() {
        let sound = Sound::ALL[at];
        if let [phoneme] = sound.phonemes()
            && !matches!(sound, Sound::Schwa)
        {
            of[*phoneme as usize] = sound;
        }
        at += 1;
    }
    of
};

impl fmt::Display for Sound {
    /// The teacher's notation between slashes: `/sh/`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "/{}/", self.teacher())
    }
}

/// Writes sounds one by one, each between slashes: `/b/ /l/ /ă/`.
#[must_use]
pub fn spell_out(sounds: &[Sound], notation: Notation) -> String {
    sounds.iter().map(|s| format!("/{}/", s.symbol(notation))).collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use std::collections::BTreeSet;

    use super::*;

    #[test]
    fn codes_are_those_of_the_phonemes() {
        for sound in Sound::ALL {
            let codes: Vec<_> = sound.phonemes().iter().map(|p| p.code()).collect();
            assert_eq!(sound.code(), codes.join(" "));
        }
    }

    #[test]
    fn every_phoneme_is_a_sound_of_its_own() {
        for &phoneme in Phoneme::ALL {
            let sound = Sound::of_phoneme(phoneme, false);
            assert_eq!(sound.phonemes(), [phoneme]);
            assert_eq!(sound.is_vowel(), phoneme.is_vowel());
        }
        assert_eq!(Sound::of_phoneme(Phoneme::Ah, true), Sound::Schwa);
    }

    #[test]
    fn symbols_are_distinct_in_both_notations() {
        for notation in [Notation::Teacher, Notation::Ipa] {
            let symbols: BTreeSet<_> = Sound::ALL.iter().map(|s| s.symbol(notation)).collect();
            assert_eq!(symbols.len(), Sound::ALL.len());
        }
    }
}
