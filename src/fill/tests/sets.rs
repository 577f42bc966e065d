//! Equal sets: alike in kind, different in words; words put first, words spared.

use std::collections::{BTreeMap, BTreeSet};

use super::{READERS, Reader, bank, request, spec};
use crate::fill::equal::Likeness;
use crate::fill::pool::weight;
use crate::fill::{Filled, Hand, Request, Seat};

/// The first reader: everything can be read.
fn all() -> Reader {
    READERS[0].1
}

fn made(fill: &str, names: &str, hand: Hand) -> Filled {
    let reader = all();
    let request = Request { hand, ..request(&reader, names, "calm otter") };
    spec(fill).run(&request).unwrap_or_else(|error| panic!("{fill}: {error}"))
}

fn set(fill: &str, names: &str, number: usize) -> Filled {
    made(fill, names, Hand { seat: Seat::Set(number), ..Hand::default() })
}

/// How many items there are of each blend and kind.
fn make_up(filled: &Filled) -> BTreeMap<(Option<String>, Likeness), usize> {
    let mut counts = BTreeMap::new();
    for item in &filled.items {
        let word = bank().get(&item.word).unwrap();
        let blend = crate::sounds::BLENDS.iter().find(|blend| Some(blend.name) == item.blend.as_deref());
        let blends = crate::sounds::Blend::named(blend.map_or("", |blend| blend.name));
        let heard = blends.into_iter().find(|blend| word.blends().any(|(of, _)| of == *blend));
        *counts.entry((item.blend.clone(), Likeness::of(word, heard))).or_default() += 1;
    }
    counts
}

fn mean_weight(filled: &Filled) -> f64 {
    let sum: u32 = filled.items.iter().map(|item| weight(bank().get(&item.word).unwrap())).sum();
    f64::from(sum) / f64::from(u32::try_from(filled.items.len()).unwrap())
}

/// The ways that deal word by word, with a focus for which the bank has words enough for six sets.
const DEALT: [(&str, &str); 7] = [
    ("words: {count: 9}", "st tr gr"),
    ("columns: {count: 9}", "st tr gr"),
    ("pick: {count: 6, bands: []}", "st tr gr"),
    ("places: {count: 6, bands: [], syllables: [1, 3]}", "st"),
    ("spoken: {count: 9}", "st tr gr"),
    ("tiles: {count: 6}", "st tr gr"),
    ("words: {count: 10, focus: none}", ""),
];

#[test]
fn sets_are_alike_in_kind_and_differ_in_every_word() {
    for (fill, names) in DEALT {
        let first = set(fill, names, 0);
        let mut used: BTreeSet<String> = BTreeSet::new();
        for number in 0..6 {
            let one = set(fill, names, number);
            assert_eq!(make_up(&one), make_up(&first), "{fill}: set {number}");
            let ratio = mean_weight(&one) / mean_weight(&first);
            assert!((0.7..1.43).contains(&ratio), "{fill}: set {number} is {ratio} times as common as the first");
            for word in one.words() {
                assert!(used.insert(word.clone()), "{fill}: {word} is in set {number} and in one before");
            }
        }
    }
}

/// Twenty words of a kind, five to a set: four sets of their own, and from the fifth on two sets share few.
#[test]
fn a_second_round_shares_its_repeats_evenly() {
    let sets: Vec<BTreeSet<String>> =
        (0..40).map(|number| set("words: {count: 8}", "bl", number).words().into_iter().collect()).collect();
    let shared = |a: usize, b: usize| sets[a].intersection(&sets[b]).count();
    let pairs: Vec<usize> = (0..40).flat_map(|a| (0..a).map(move |b| (a, b))).map(|(a, b)| shared(a, b)).collect();
    let words: BTreeSet<&String> = sets.iter().flatten().collect();
    // The bank has some forty words with bl that fit: each of the kinds that a set has must be in use.
    assert!(words.len() >= 20, "{} words in use", words.len());
    // Forty sets of eight can't differ in every word; no two neighbours are nearly the same.
    assert!(
        (1..40).all(|at| shared(at, at - 1) <= 4),
        "{:?}",
        (1..40).map(|at| shared(at, at - 1)).collect::<Vec<_>>()
    );
    assert!(pairs.iter().filter(|&&n| n == 8).count() <= pairs.len() / 20, "{pairs:?}");
}

#[test]
fn the_same_words_come_in_an_order_of_their_own() {
    for (fill, names) in DEALT {
        let of = |number| made(fill, names, Hand { seat: Seat::Same(number), ..Hand::default() });
        let (one, other) = (of(0), of(1));
        assert_eq!(one.words(), other.words(), "{fill}");
        let order = |filled: &Filled| filled.items.iter().map(|item| item.word.clone()).collect::<Vec<_>>();
        assert_ne!(order(&one), order(&other), "{fill}");
    }
}

#[test]
fn neighbouring_ladders_and_pairs_share_no_word() {
    for fill in ["chain", "match: {count: 4}", "match: {by: rhyme, count: 4}"] {
        for number in 0..6 {
            let here: BTreeSet<String> = set(fill, "st tr", number).words().into_iter().collect();
            let next = set(fill, "st tr", number + 1).words();
            assert!(next.iter().all(|word| !here.contains(word)), "{fill} {number}: {here:?} {next:?}");
        }
    }
}

#[test]
fn wanted_words_come_first_and_spared_words_only_in_need() {
    for seat in [Seat::Alone, Seat::Set(3)] {
        let plain = made("words: {count: 8}", "st", Hand { seat, ..Hand::default() }).words();
        let spare = plain.clone();
        let other = made("words: {count: 8}", "st", Hand { seat, spare, ..Hand::default() }).words();
        assert!(other.iter().all(|word| !plain.contains(word)), "{seat:?}: {plain:?} {other:?}");

        let wants: Vec<String> = ["stump", "stork", "frog", "stove"].map(str::to_owned).to_vec();
        let hand = Hand { seat, wants, wanted: 25, ..Hand::default() };
        let words = made("words: {count: 8}", "st", hand).words();
        // A quarter of eight is two; a frog does not fit.
        let held = ["stump", "stork", "stove"].map(|word| words.contains(&word.to_owned()));
        assert_eq!(held, [true, true, false], "{seat:?}: {words:?}");
        assert_eq!(words.len(), 8);
    }
}
