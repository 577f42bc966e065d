//! How an ending changes the spelling of its base: doubling, dropped *e*, *y* to *i*. Common practice, no source.

use crate::bank::Word;
use crate::sequence::Shape;

use super::form::{Suffix, is_hiss};

/// The spellings that a base may have, the likeliest first.
pub fn bases(spelling: &str, suffix: Suffix) -> Vec<String> {
    let mut found = Vec::new();
    let letters = suffix.letters();
    if let Some(stem) = spelling.strip_suffix(letters) {
        found.push(stem.to_owned());
        if suffix != Suffix::S {
            found.push(format!("{stem}e"));
        }
        if let Some(front) = stem.strip_suffix('i') {
            found.push(format!("{front}y"));
        }
        if let (Suffix::Ing, Some(front)) = (suffix, stem.strip_suffix('y')) {
            found.push(format!("{front}ie"));
        }
        if let Some(single) = single(stem) {
            found.push(single.to_owned());
        }
    }
    if let Some(stem) = spelling.strip_suffix("es").filter(|_| suffix == Suffix::S) {
        found.push(stem.to_owned());
        if let Some(front) = stem.strip_suffix('i') {
            found.push(format!("{front}y"));
        }
        if let Some(single) = single(stem) {
            found.push(single.to_owned());
        }
    }
    found
}

/// A stem without the doubling of its last letter.
fn single(stem: &str) -> Option<&str> {
    let bytes = stem.as_bytes();
    let (&last, rest) = bytes.split_last()?;
    (last.is_ascii_lowercase() && rest.last() == Some(&last)).then(|| &stem[..stem.len() - 1])
}

/// How a base is written with an ending.
pub fn spelled(base: &Word, suffix: Suffix) -> Vec<String> {
    let word = base.spelling.as_str();
    let cut = &word[..word.len().saturating_sub(1)];
    let letters = suffix.letters();
    let ends = |options: &[&str]| options.iter().any(|end| word.ends_with(end));
    let before = word.bytes().rev().nth(1).unwrap_or_default();
    let doubled = || format!("{word}{}{letters}", &word[cut.len()..]);
    if word.ends_with('y') && !is_vowel(before) {
        return vec![match suffix {
            Suffix::S => format!("{cut}ies"),
            Suffix::Ing => format!("{word}ing"),
            _ => format!("{cut}i{letters}"),
        }];
    }
    if suffix == Suffix::S {
        let hiss = base.alignment.phones().last().is_some_and(|phone| is_hiss(phone.phoneme));
        return match word.as_bytes().last() {
            Some(b'z') if doubles(base) => vec![format!("{word}zes")],
            Some(b's') if doubles(base) => vec![format!("{word}es"), format!("{word}ses")],
            Some(b'o') if !is_vowel(before) => vec![format!("{word}es"), format!("{word}s")],
            _ if hiss && !word.ends_with('e') => vec![format!("{word}es")],
            _ => vec![format!("{word}s")],
        };
    }
    if word.ends_with('e') {
        return match suffix {
            Suffix::Ing if word.ends_with("ie") => vec![format!("{}ying", &cut[..cut.len() - 1])],
            Suffix::Ing if ends(&["ee", "oe", "ye", "nge"]) => vec![format!("{word}ing"), format!("{cut}ing")],
            _ => vec![format!("{cut}{letters}")],
        };
    }
    if doubles(base) {
        // Of two syllables, those stressed on the first keep one letter, but for l and p, which are written either way.
        return match base.syllables.len() {
            1 => vec![doubled()],
            count if base.syllables.get(count - 1).is_some_and(|last| last.vowel == base.stressed) => vec![doubled()],
            _ if ends(&["l", "p"]) => vec![format!("{word}{letters}"), doubled()],
            _ if base.flags.compound.is_some() => vec![doubled()],
            _ => vec![format!("{word}{letters}")],
        };
    }
    vec![format!("{word}{letters}")]
}

/// Whether a base ends in one consonant letter after one vowel letter, so that it may be doubled.
fn doubles(base: &Word) -> bool {
    let mut letters = base.spelling.bytes().rev();
    let (last, vowel, before) = (letters.next(), letters.next(), letters.next());
    let (Some(last), Some(vowel)) = (last, vowel) else { return false };
    let after_qu = before == Some(b'u') && letters.next() == Some(b'q');
    let vowel_before = before.is_some_and(is_vowel) && !after_qu;
    !is_vowel(last) && !b"wxyh".contains(&last) && is_vowel(vowel) && !vowel_before
}

/// What the ending did to the base's spelling.
pub fn change(base: &str, form: &str, suffix: Suffix) -> Option<Shape> {
    let letters = suffix.letters();
    let stem = form.strip_suffix(letters).unwrap_or(form);
    let stem = if suffix == Suffix::S && stem != base { stem.strip_suffix('e').unwrap_or(stem) } else { stem };
    if stem == base {
        None
    } else if base.ends_with('y') && stem.ends_with('i') {
        Some(Shape::YToI)
    } else if base.ends_with('e') {
        Some(Shape::DropE)
    } else {
        Some(Shape::Doubling)
    }
}

const fn is_vowel(letter: u8) -> bool {
    matches!(letter, b'a' | b'e' | b'i' | b'o' | b'u')
}
