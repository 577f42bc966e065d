//! What a nonsense word must not sound or look like: the embedded lists.
//!
//! Words are packed into numbers, so that thousands of candidates can be looked up for one sheet.

use std::sync::OnceLock;

use crate::bank::own::left_out_words;
use crate::sounds::{Phoneme, parse_phones};

/// The files of words that are known beside the bank.
pub(in crate::bank) const LISTS: [&str; 3] = [HEARD, SPELLED, RUDE];

const HEARD: &str = include_str!("../heard.txt");
const SPELLED: &str = include_str!("../spelled.txt");
const RUDE: &str = include_str!("../rude-sounds.txt");

/// One number for the sounds of a one-syllable word. The *o* of dog is that of hop (but not before /r/), and *wh* is /w/, so
/// that no accent hears a word. `None` for more than ten sounds.
pub(super) fn phoneme_key(phonemes: impl Iterator<Item = Phoneme>) -> Option<u64> {
    let mut phonemes = phonemes.peekable();
    let mut key = 0;
    let mut count = 0;
    while let Some(phoneme) = phonemes.next() {
        let next = phonemes.peek().copied();
        let phoneme = match (phoneme, next) {
            (Phoneme::Hh, Some(Phoneme::W)) => continue,
            (Phoneme::Ao, next) if next != Some(Phoneme::R) => Phoneme::Aa,
            _ => phoneme,
        };
        count += 1;
        key = key << 6 | (phoneme as u64 + 1);
    }
    (count <= 10).then_some(key)
}

/// One number for a spelling of at most twelve small letters.
fn letter_key(letters: impl Iterator<Item = u8>) -> Option<u64> {
    let mut key = 0;
    for (at, letter) in letters.enumerate() {
        if at == 12 || !letter.is_ascii_lowercase() {
            return None;
        }
        key = key << 5 | u64::from(letter - b'a' + 1);
    }
    Some(key)
}

fn lines(text: &'static str) -> impl Iterator<Item = &'static str> {
    text.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with('#'))
}

fn sorted(keys: impl Iterator<Item = u64>) -> Vec<u64> {
    let mut keys: Vec<u64> = keys.collect();
    keys.sort_unstable();
    keys.dedup();
    keys
}

fn sound_keys(text: &'static str) -> Vec<u64> {
    let key = |codes| phoneme_key(parse_phones(codes).ok()?.into_iter().map(|phone| phone.phoneme));
    sorted(lines(text).filter_map(key))
}

/// Whether a pronunciation in CMUdict has these sounds.
pub(super) fn is_heard(key: u64) -> bool {
    static READ: OnceLock<Vec<u64>> = OnceLock::new();
    READ.get_or_init(|| sound_keys(HEARD)).binary_search(&key).is_ok()
}

/// Whether SCOWL has a spelling up to level 70.
pub(super) fn is_spelled_like_a_word(spelling: &str) -> bool {
    static READ: OnceLock<Vec<u64>> = OnceLock::new();
    let known = READ.get_or_init(|| sorted(lines(SPELLED).filter_map(|word| letter_key(word.bytes()))));
    letter_key(spelling.bytes()).is_some_and(|key| known.binary_search(&key).is_ok())
}

fn rude_sounds() -> &'static [u64] {
    static READ: OnceLock<Vec<u64>> = OnceLock::new();
    READ.get_or_init(|| sound_keys(RUDE))
}

/// Whether a one-syllable word sounds exactly like something rude and is no everyday word for all that, as *dam* is.
pub(in crate::bank) fn sounds_rude(phonemes: impl Iterator<Item = Phoneme>, spelling: &str) -> bool {
    let rude = phoneme_key(phonemes).is_some_and(|key| rude_sounds().binary_search(&key).is_ok());
    rude && !is_spelled_like_a_word(spelling)
}

/// Whether a one-syllable word ends in rude sounds, an /s/ or /z/ after them set aside, or is written nearly like a word that
/// is never used.
pub(super) fn is_rude(phonemes: impl Iterator<Item = Phoneme>, spelling: &str) -> bool {
    static LETTERS: OnceLock<Vec<u64>> = OnceLock::new();
    let sounds = rude_sounds();
    let phonemes: Vec<Phoneme> = phonemes.collect();
    let without_s = match phonemes.split_last() {
        Some((Phoneme::S | Phoneme::Z, before)) => before,
        _ => &phonemes,
    };
    let ends_in_rude = |phonemes: &[Phoneme]| {
        (0..phonemes.len()).any(|from| {
            let key = phoneme_key(phonemes[from..].iter().copied());
            key.is_some_and(|key| sounds.binary_search(&key).is_ok())
        })
    };
    if ends_in_rude(&phonemes) || ends_in_rude(without_s) {
        return true;
    }
    let letters = LETTERS.get_or_init(|| sorted(left_out_words().iter().filter_map(|word| plain_key(word))));
    plain_key(spelling).is_some_and(|key| letters.binary_search(&key).is_ok())
}

/// The key of a spelling without what hardly changes it: doubled letters, *ck* and *ph*, a final *s*, *z* or *e*.
fn plain_key(spelling: &str) -> Option<u64> {
    let respelled = spelling.replace("ck", "k").replace("ph", "f");
    let body = respelled.trim_end_matches(['s', 'z', 'e']);
    let body = if body.len() < 2 { respelled.as_str() } else { body };
    let bytes = body.as_bytes();
    let doubled = |at: usize| at > 0 && bytes[at] == bytes[at - 1];
    letter_key((0..bytes.len()).filter(|&at| !doubled(at)).map(|at| bytes[at]))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(codes: &str) -> Option<u64> {
        phoneme_key(parse_phones(codes).unwrap().into_iter().map(|phone| phone.phoneme))
    }

    #[test]
    fn keys_are_the_same_for_what_an_accent_may_merge() {
        assert_eq!(key("D AO G"), key("D AA G"));
        assert_eq!(key("HH W IH CH"), key("W IH CH"));
        assert_ne!(key("F AO R"), key("F AA R"));
        assert_ne!(key("K AE T"), key("T AE K"));
    }

    #[test]
    fn every_line_of_the_lists_is_read() {
        for codes in lines(HEARD).chain(lines(RUDE)) {
            let phones = parse_phones(codes).unwrap_or_else(|error| panic!("{codes}: {error}"));
            assert_eq!(phones.iter().filter(|phone| phone.phoneme.is_vowel()).count(), 1, "{codes}");
            assert!(key(codes).is_some(), "{codes}");
        }
        assert!(lines(SPELLED).all(|word| letter_key(word.bytes()).is_some()));
        assert!(is_heard(key("K AE T").unwrap()) && is_spelled_like_a_word("cat"));
        assert!(!is_heard(key("B L AE M P").unwrap()) && !is_spelled_like_a_word("blamp"));
    }
}
