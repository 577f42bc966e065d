//! Every consonant cluster that opens a syllable of the bank is an English onset.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

use std::collections::{BTreeMap, BTreeSet};

use sheafling::bank::Bank;
use sheafling::sounds::{Counting, Side, is_onset};

/// Clusters of the bank that are no onsets by the table, which is that of phonology handbooks such as Giegerich, *English
/// Phonology* (1992), ch. 6 (from memory); each with the words that have it and the reason.
const EXCEPTIONS: &[(&str, &[&str], &str)] = &[
    ("K Y", &["cure", "curious"], "/y/ stands in an onset where the vowel after it is not that of cube"),
    ("M Y", &["mural"], "/y/ as in cure"),
    ("P Y", &["pure"], "/y/ as in cure"),
    ("V R", &["vroom"], "the noise of an engine, no word by its sounds"),
];

#[test]
fn clusters_that_open_a_syllable_are_english_onsets() {
    let bank = Bank::builtin(Counting::default()).unwrap();
    let mut found: BTreeMap<String, BTreeSet<&str>> = BTreeMap::new();
    let mut onsets = BTreeSet::new();
    for word in bank.words() {
        for cluster in word.clusters.iter().filter(|cluster| cluster.side == Side::Onset) {
            let sounds = &word.sounds[cluster.from..cluster.from + cluster.len];
            if is_onset(sounds) {
                onsets.insert(sounds);
            } else {
                let codes: Vec<_> = sounds.iter().map(|sound| sound.code()).collect();
                found.entry(codes.join(" ")).or_default().insert(&word.spelling);
            }
        }
    }
    assert!(onsets.len() >= 29, "{} onsets", onsets.len());
    let expected: BTreeMap<String, BTreeSet<&str>> =
        EXCEPTIONS.iter().map(|(codes, words, _)| ((*codes).to_owned(), words.iter().copied().collect())).collect();
    assert_eq!(found, expected);
    assert!(EXCEPTIONS.iter().all(|(_, _, reason)| !reason.is_empty()));
}
