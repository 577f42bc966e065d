//! The phonemes of General American, as the CMU Pronouncing Dictionary writes them.

use std::fmt;
use std::str::FromStr;

macro_rules! phonemes {
    ($($name:ident $code:literal $vowel:literal),+ $(,)?) => {
        /// One of CMUdict's 39 phonemes (`cmudict.phones`), without stress.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Phoneme {
            $(#[doc = concat!("CMUdict's ", $code, ".")] $name),+
        }

        impl Phoneme {
            /// All phonemes, in the order of their codes.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];

            /// CMUdict's code, such as `CH` or `AE`.
            #[must_use]
            pub const fn code(self) -> &'static str {
                match self { $(Self::$name => $code),+ }
            }

            /// Whether it is a vowel (and so carries a stress digit in CMUdict).
            #[must_use]
            pub const fn is_vowel(self) -> bool {
                match self { $(Self::$name => $vowel),+ }
            }

            fn from_code(code: &str) -> Option<Self> {
                let at = KEYS.binary_search(&key(code)?).ok()?;
                Self::ALL.get(at).copied()
            }
        }
    };
}

phonemes! {
    Aa "AA" true, Ae "AE" true, Ah "AH" true, Ao "AO" true, Aw "AW" true, Ay "AY" true,
    B "B" false, Ch "CH" false, D "D" false, Dh "DH" false,
    Eh "EH" true, Er "ER" true, Ey "EY" true,
    F "F" false, G "G" false, Hh "HH" false,
    Ih "IH" true, Iy "IY" true,
    Jh "JH" false, K "K" false, L "L" false, M "M" false, N "N" false, Ng "NG" false,
    Ow "OW" true, Oy "OY" true,
    P "P" false, R "R" false, S "S" false, Sh "SH" false, T "T" false, Th "TH" false,
    Uh "UH" true, Uw "UW" true,
    V "V" false, W "W" false, Y "Y" false, Z "Z" false, Zh "ZH" false,
}

/// A code of one or two letters as a number that sorts as it does.
const fn key(code: &str) -> Option<u16> {
    match *code.as_bytes() {
        [one] => Some((one as u16) << 8),
        [one, two] => Some((one as u16) << 8 | two as u16),
        _ => None,
    }
}

/// The codes as numbers, in the order of [`Phoneme::ALL`]. Looked up for every sound of the bank at each start.
const KEYS: [u16; Phoneme::ALL.len()] = {
    let mut keys = [0; Phoneme::ALL.len()];
    let mut at = 0;
    while at < keys.len() {
        if let Some(key) = key(Phoneme::ALL[at].code()) {
            keys[at] = key;
        }
        at += 1;
    }
    keys
};

/// How strongly a vowel is spoken. It is kept in the bank and never shown to a child.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Stress {
    /// CMUdict's 0.
    None,
    /// CMUdict's 1.
    Primary,
    /// CMUdict's 2.
    Secondary,
}

/// A phoneme as spoken in a word: with its stress when it is a vowel.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Phone {
    /// Which phoneme.
    pub phoneme: Phoneme,
    /// The stress of a vowel; `None` for a consonant, and for a vowel written without a digit.
    pub stress: Option<Stress>,
}

impl Phone {
    /// Whether it is a vowel without stress.
    #[must_use]
    pub fn is_unstressed(self) -> bool {
        self.stress == Some(Stress::None)
    }
}

/// A code that CMUdict does not have.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("`{0}` is not one of CMUdict's sound codes (such as B, CH, AE1)")]
pub struct UnknownCode(pub String);

impl FromStr for Phone {
    type Err = UnknownCode;

    /// Reads a code such as `CH`, `AE` or `AE1`.
    fn from_str(code: &str) -> Result<Self, UnknownCode> {
        let unknown = || UnknownCode(code.to_owned());
        let (letters, stress) = match code.as_bytes().last() {
            Some(b'0') => (&code[..code.len() - 1], Some(Stress::None)),
            Some(b'1') => (&code[..code.len() - 1], Some(Stress::Primary)),
            Some(b'2') => (&code[..code.len() - 1], Some(Stress::Secondary)),
            _ => (code, None),
        };
        let phoneme = Phoneme::from_code(letters).ok_or_else(unknown)?;
        if stress.is_some() && !phoneme.is_vowel() {
            return Err(unknown());
        }
        Ok(Self { phoneme, stress })
    }
}

impl fmt::Display for Phone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let digit = match self.stress {
            None => "",
            Some(Stress::None) => "0",
            Some(Stress::Primary) => "1",
            Some(Stress::Secondary) => "2",
        };
        write!(f, "{}{digit}", self.phoneme.code())
    }
}

impl fmt::Debug for Phone {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

/// Reads codes parted by blanks, such as `B L AE1 NG K`.
///
/// # Errors
/// [`UnknownCode`] for the first code that CMUdict does not have.
pub fn parse_phones(codes: &str) -> Result<Vec<Phone>, UnknownCode> {
    codes.split_whitespace().map(str::parse).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn codes_come_back() {
        let text = "B L AE1 NG K";
        let phones = parse_phones(text).unwrap();
        assert_eq!(phones.iter().map(ToString::to_string).collect::<Vec<_>>().join(" "), text);
    }

    #[test]
    fn every_phoneme_is_found_by_its_code() {
        assert!(Phoneme::ALL.is_sorted_by_key(|phoneme| phoneme.code()));
        for &phoneme in Phoneme::ALL {
            assert_eq!(Phoneme::from_code(phoneme.code()), Some(phoneme));
        }
    }

    #[test]
    fn wrong_codes_are_named() {
        for code in ["", "XX", "B1", "AE3", "é", "1"] {
            assert_eq!(code.parse::<Phone>(), Err(UnknownCode(code.to_owned())));
        }
    }

    /// CMUdict 0.7b, file `cmudict.phones`, lists 39 phonemes, 15 of them vowels.
    #[test]
    fn as_many_as_cmudict_lists() {
        assert_eq!(Phoneme::ALL.len(), 39);
        assert_eq!(Phoneme::ALL.iter().filter(|p| p.is_vowel()).count(), 15);
    }
}
