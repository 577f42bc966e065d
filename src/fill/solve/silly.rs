//! Nonsense words again: whether letters can be read with some sounds, and whether anything sounds or is spelled so.

use std::collections::BTreeSet;
use std::sync::OnceLock;

use crate::fill::Request;
use crate::spelling::Pair;

/// Every one-syllable pronunciation of CMUdict.
const HEARD: &str = include_str!("../../bank/heard.txt");

/// The codes of phonemes, one each, with the *o* of dog as that of hop and *wh* as /w/.
fn plain<'c>(codes: impl IntoIterator<Item = &'c str>) -> Vec<&'c str> {
    let codes: Vec<&str> = codes.into_iter().flat_map(str::split_whitespace).collect();
    let of = |(at, code): (usize, &&'c str)| match (*code, codes.get(at + 1).copied()) {
        ("HH", Some("W")) => None,
        ("AO", next) if next != Some("R") => Some("AA"),
        (code, _) => Some(code),
    };
    codes.iter().enumerate().filter_map(of).collect()
}

/// Whether a word of CMUdict sounds so.
pub(super) fn is_heard(codes: &[&str]) -> bool {
    static ALL: OnceLock<BTreeSet<Vec<&'static str>>> = OnceLock::new();
    let all =
        ALL.get_or_init(|| HEARD.lines().filter(|line| !line.starts_with('#')).map(|line| plain([line])).collect());
    all.contains(&plain(codes.iter().copied()))
}

/// Whether letters are a word of the bank, or of the list of spellings.
pub(super) fn is_spelled(letters: &str, request: &Request) -> bool {
    let listed = || crate::fill::matches::LISTED.lines().any(|line| line == letters);
    request.bank.words().iter().any(|word| word.spelling == letters) || listed()
}

/// Whether letters can be read as sounds by some letter groups, taken one after the other.
pub(super) fn can_be_read<'p>(letters: &str, codes: &[&str], pairs: impl IntoIterator<Item = &'p Pair>) -> bool {
    let of = |pair: &'p Pair| (pair.letters.as_str(), plain(pair.phonemes.iter().map(|phoneme| phoneme.code())));
    let pairs: Vec<(&str, Vec<&str>)> = pairs.into_iter().map(of).collect();
    read_on(letters, &plain(codes.iter().copied()), "", &pairs)
}

/// Reads on; `open` is what has still to close the word, as the *e* of a split vowel.
fn read_on(letters: &str, codes: &[&str], open: &str, pairs: &[(&str, Vec<&str>)]) -> bool {
    if codes.is_empty() {
        return letters == open;
    }
    pairs.iter().any(|(group, sounds)| {
        let (head, tail) = group.split_once('_').unwrap_or((group, ""));
        let rest = letters.strip_prefix(head).zip(codes.strip_prefix(sounds.as_slice()));
        let split = if tail.is_empty() { open } else { tail };
        (tail.is_empty() || open.is_empty())
            && rest.is_some_and(|(letters, codes)| read_on(letters, codes, split, pairs))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bank::{Bank, SillyMaker};
    use crate::sounds::Counting;
    use crate::spelling::pairs;

    /// The reader here is written apart from the maker's; it reads everything that the maker makes, and hears no word in it.
    #[test]
    fn it_reads_what_is_made() {
        let bank = Bank::builtin(Counting::default()).unwrap();
        let mut short = 0;
        for silly in SillyMaker::new(&bank, pairs(), |_, _| true).candidates() {
            let codes: Vec<&str> = silly.sounds.iter().map(|sound| sound.code()).collect();
            assert!(can_be_read(&silly.spelling, &codes, pairs()), "{}", silly.spelling);
            assert!(!is_heard(&codes), "{}", silly.spelling);
            short += usize::from(can_be_read(&silly.spelling, &codes[1..], pairs()));
        }
        // Without its first sound it is read only where a letter may be silent, as the h of honest.
        assert!(short < 300, "{short}");
    }

    #[test]
    fn words_are_heard() {
        for codes in [&["D", "AO", "G"][..], &["D", "AA", "G"], &["K", "AA R"], &["HH W", "EH", "N"], &["W", "EH", "N"]]
        {
            assert!(is_heard(codes), "{codes:?}");
        }
    }
}
