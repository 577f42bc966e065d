//! The short code at the foot of a page, by which a packet is found again.
//!
//! Eight signs and a check sign, in threes: `7HK-M2P-X4C`. The 23 signs leave out what looks alike on a bad copy (0 and O, 1, I
//! and L, B, G, Q, S, U, Z) and the vowels, so that no code is a word. The check sign is the sum of the others, each times its place,
//! modulo 23: as 23 is a prime, it catches every sign that is wrong and every two that changed places, as the check digit of
//! ISBN-10 does (ISO 2108:1992).

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// The signs, each with its value.
const SIGNS: &[u8; 23] = b"23456789CDFHJKMNPRTVWXY";

/// How many signs come before the check sign.
const LENGTH: usize = 8;

/// The code of a packet. It is a fingerprint of what was asked for: 23^8, about 78 thousand million, so that of ten thousand
/// packets two have the same code once in about 1500 times.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Code([u8; LENGTH]);

/// Why a text is no code.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CodeError {
    /// Too short or too long.
    #[error("a code has nine signs in threes, such as 7HK-M2P-X4{check}, not {found}", check = 'C')]
    Length {
        /// How many signs there are.
        found: usize,
    },
    /// A sign that no code has.
    #[error(
        "no code has the sign `{sign}`\nhelp: there are 2 to 9 and C D F H J K M N P R T V W X Y; what looks like another sign is one of these"
    )]
    Sign {
        /// The sign.
        sign: char,
    },
    /// The check sign does not fit.
    #[error(
        "`{typed}` is no code: one of its signs is wrong, or two changed places\nhelp: read it again from the foot of the page"
    )]
    Check {
        /// What was typed.
        typed: String,
    },
}

impl Code {
    /// The code of a packet of which these parts tell all.
    #[must_use]
    pub fn of(parts: &[&str]) -> Self {
        let mut hasher = blake3::Hasher::new();
        for part in parts {
            hasher.update(&(part.len() as u64).to_le_bytes());
            hasher.update(part.as_bytes());
        }
        let hash = hasher.finalize();
        let mut number = hash.as_bytes()[..16].iter().fold(0u128, |sum, &byte| sum << 8 | u128::from(byte));
        Self(std::array::from_fn(|_| {
            let sign = number % 23;
            number /= 23;
            u8::try_from(sign).unwrap_or_default()
        }))
    }

    fn check(signs: &[u8; LENGTH]) -> u8 {
        let sum: usize = signs.iter().enumerate().map(|(at, &sign)| (at + 1) * usize::from(sign)).sum();
        u8::try_from(sum % 23).unwrap_or_default()
    }
}

impl fmt::Display for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let all = self.0.into_iter().chain([Self::check(&self.0)]);
        for (at, sign) in all.enumerate() {
            if at > 0 && at % 3 == 0 {
                f.write_str("-")?;
            }
            write!(f, "{}", char::from(SIGNS[usize::from(sign)]))?;
        }
        Ok(())
    }
}

impl fmt::Debug for Code {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        fmt::Display::fmt(self, f)
    }
}

impl FromStr for Code {
    type Err = CodeError;

    /// Reads a code as it may be typed: in small letters, without hyphens, with blanks.
    fn from_str(typed: &str) -> Result<Self, CodeError> {
        let mut values = Vec::new();
        for sign in typed.chars().filter(|c| !c.is_whitespace() && !matches!(c, '-' | '\u{2010}'..='\u{2015}')) {
            let upper = sign.to_ascii_uppercase();
            let value = SIGNS.iter().position(|&known| char::from(known) == upper).ok_or(CodeError::Sign { sign })?;
            values.push(u8::try_from(value).unwrap_or_default());
        }
        let found = values.len();
        let Some((&check, signs)) = values.split_last() else { return Err(CodeError::Length { found }) };
        let signs: [u8; LENGTH] = signs.try_into().map_err(|_| CodeError::Length { found })?;
        if Self::check(&signs) != check {
            return Err(CodeError::Check { typed: typed.trim().to_owned() });
        }
        Ok(Self(signs))
    }
}

impl Serialize for Code {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Code {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::{Code, CodeError, SIGNS};

    #[test]
    fn a_code_is_read_as_it_may_be_typed() {
        for seed in 0..200 {
            let code = Code::of(&["packet", &seed.to_string()]);
            let text = code.to_string();
            assert_eq!(text.len(), 11);
            assert_eq!(text.parse(), Ok(code));
            assert_eq!(text.to_lowercase().replace('-', " ").parse(), Ok(code));
            assert_eq!(text.replace('-', "").parse(), Ok(code));
        }
        assert_ne!(Code::of(&["ab", "c"]), Code::of(&["a", "bc"]));
    }

    /// ISO 2108 (1992 edition): a weighted sum modulo a prime catches each wrong sign and each exchange of two.
    #[test]
    fn every_slip_of_one_sign_and_every_exchange_is_caught() {
        for seed in 0..20 {
            let text: Vec<u8> = Code::of(&[&seed.to_string()]).to_string().bytes().filter(|b| *b != b'-').collect();
            let read = |signs: &[u8]| String::from_utf8(signs.to_vec()).unwrap().parse::<Code>();
            for at in 0..text.len() {
                for &sign in SIGNS.iter().filter(|sign| **sign != text[at]) {
                    let mut wrong = text.clone();
                    wrong[at] = sign;
                    assert!(matches!(read(&wrong), Err(CodeError::Check { .. })));
                }
                for other in at + 1..text.len() {
                    let mut wrong = text.clone();
                    wrong.swap(at, other);
                    assert!(wrong == text || read(&wrong).is_err(), "{}", String::from_utf8_lossy(&wrong));
                }
            }
        }
    }

    #[test]
    fn what_is_no_code_is_told() {
        assert_eq!("7HK".parse::<Code>(), Err(CodeError::Length { found: 3 }));
        assert_eq!("".parse::<Code>(), Err(CodeError::Length { found: 0 }));
        assert_eq!("7HK-M2P-X4O".parse::<Code>(), Err(CodeError::Sign { sign: 'O' }));
        // No sign looks like another, and none is a vowel that could make a word.
        assert!(SIGNS.iter().all(|sign| !b"01AEIOULQSBZG".contains(sign)));
    }
}
