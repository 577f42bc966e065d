//! Words by sight, letter tiles, words to be heard, and reading aloud.

use std::collections::BTreeSet;

use super::*;
use crate::fill::check;
use crate::sequence::Sequence;
use crate::sheet::Kind;

/// What a child at a step of the built-in sequence can read: the words that can be sounded out, and those taught by sight.
struct At {
    decodable: Vec<bool>,
    by_sight: Vec<(String, usize)>,
}

fn at(name: &str) -> At {
    let sequence = Sequence::builtin().unwrap();
    let step = sequence.step(name).unwrap().number;
    let steps = sequence.steps_of(bank());
    let taught = sequence.steps().iter().rev().filter(|taught| taught.number <= step);
    At {
        decodable: steps.iter().map(|from| from.is_some_and(|from| from <= step)).collect(),
        by_sight: taught.flat_map(|t| t.words.iter().map(move |word| (word.clone(), t.number.into()))).collect(),
    }
}

const STEPS: [&str; 4] = ["first-words", "l-blends", "a-e", "two-syllables"];

/// Runs a fill for many seeds at each of some steps.
fn each(text: &str, seeds: u32, test: impl Fn(&str, &At, Result<Filled, FillError>)) {
    for name in STEPS {
        let at = at(name);
        let decodable = |word: &Word| bank().index_of(&word.spelling).is_some_and(|index| at.decodable[index]);
        for seed in 0..seeds {
            let reader: Reader = |_| true;
            let request = Request {
                decodable: &decodable,
                by_sight: at.by_sight.clone(),
                ..request(&reader, "pl sl", &seed.to_string())
            };
            test(name, &at, spec(text).run(&request));
        }
    }
}

#[test]
fn a_review_has_the_newest_words_first_and_none_twice() {
    each("review: {count: 20, newest: 40}", 100, |_, at, filled| {
        let words: Vec<String> = filled.unwrap().items.into_iter().map(|item| item.word).collect();
        let places: Vec<usize> =
            words.iter().map(|word| at.by_sight.iter().position(|(taught, _)| taught == word).unwrap()).collect();
        assert!(places.is_sorted() && places.iter().collect::<BTreeSet<_>>().len() == places.len());
        assert!(words.len() == 20 || at.by_sight.len() < 22, "{words:?}");
        assert!(words.iter().all(|word| bank().get(word).is_none_or(|word| !word.flags.heteronym)));
    });
}

#[test]
fn older_words_come_back_in_turn() {
    let at = at("two-syllables");
    let reader: Reader = |_| true;
    let mut seen = BTreeSet::new();
    for seed in 0..100 {
        let by_sight = at.by_sight.clone();
        let request = Request { by_sight, ..request(&reader, "", &seed.to_string()) };
        seen.extend(spec("review").run(&request).unwrap().items.into_iter().map(|item| item.word));
    }
    // All but the words that are read in two ways.
    assert!(seen.len() + 5 >= at.by_sight.len(), "{} of {}", seen.len(), at.by_sight.len());
}

#[test]
fn a_number_of_sight_words_that_were_not_taught_is_refused() {
    let reader: Reader = |_| true;
    let error = spec("review").run(&Request { count: Some(5), ..request(&reader, "", "a") }).unwrap_err();
    assert!(matches!(&error, FillError::TooFew(shortage) if shortage.found == 4), "{error}");
    assert!(spec("review").run(&Request { by_sight: Vec::new(), ..request(&reader, "", "a") }).is_err());
}

#[test]
fn tiles_are_as_many_as_the_words_take() {
    for (text, all) in [("tiles", false), ("tiles: {all: true}", true)] {
        each(text, 100, |name, _, filled| {
            let Ok(filled) = filled else {
                assert_eq!(name, "first-words");
                return;
            };
            let taken: usize = filled.items.iter().map(|item| item.texts["tiles"].split(" · ").count()).sum();
            assert!(if all { taken == filled.tiles.len() } else { taken > filled.tiles.len() });
            assert!(filled.items.iter().all(|item| item.texts["tiles"].replace(" · ", "") == item.word));
        });
    }
}

#[test]
fn a_tile_too_many_or_too_few_is_found() {
    let reader: Reader = |_| true;
    let request = request(&reader, "bl st", "a");
    let fill = spec("tiles");
    let filled = fill.run(&request).unwrap();
    for at in 0..filled.tiles.len() {
        let mut fewer = filled.clone();
        fewer.tiles.remove(at);
        assert!(check(&fill, &fewer, &request).is_err());
        let mut more = filled.clone();
        more.tiles.insert(at, more.tiles[at].clone());
        assert!(check(&fill, &more, &request).is_err());
    }
}

#[test]
fn words_that_are_heard_have_every_homophone_as_an_answer() {
    let reader: Reader = |_| true;
    let only = |word: &Word| word.spelling == "flee";
    let request = Request { decodable: &only, ..request(&reader, "", "a") };
    let fill = spec("words: {count: 1, heard: true}");
    let mut filled = fill.run(&request).unwrap();
    assert_eq!(filled.items[0].answer, ["flee", "flea"]);
    filled.items[0].answer.pop();
    assert!(check(&fill, &filled, &request).is_err());
    assert!(!spec("words: {heard: true, boxes: true}").validate().is_empty());
}

#[test]
fn phrases_are_readable_and_about_different_things() {
    each("reading: {rows: 3}", 100, |name, at, filled| {
        let Ok(filled) = filled else {
            assert_eq!(name, "first-words");
            return;
        };
        let phrases: Vec<&str> =
            filled.items.iter().filter(|item| item.kind == Kind::Phrase).map(|item| item.word.as_str()).collect();
        assert_eq!(phrases.len(), 6, "{name}");
        let about: BTreeSet<&str> = phrases.iter().filter_map(|phrase| phrase.split(' ').next_back()).collect();
        assert_eq!(about.len(), phrases.len(), "{phrases:?}");
        for word in phrases.iter().flat_map(|phrase| phrase.split(' ')) {
            let by_sight = at.by_sight.iter().any(|(taught, _)| taught == word);
            assert!(by_sight || at.decodable[bank().index_of(word).unwrap()], "{name} {word}");
        }
    });
}

#[test]
fn a_phrase_that_cannot_be_read_is_found() {
    let reader: Reader = |_| true;
    let request = request(&reader, "bl st", "a");
    let fill = spec("reading: {rows: 1}");
    let filled = fill.run(&request).unwrap();
    for wrong in ["a odd cat", "two cat", "live cats", "on the beds", "cat", "the blorp cat"] {
        let mut tampered = filled.clone();
        let last = tampered.items.last_mut().unwrap();
        (last.word, last.shown, last.answer) = (wrong.into(), vec![wrong.into()], vec![wrong.into()]);
        assert!(check(&fill, &tampered, &request).is_err(), "{wrong}");
    }
}

/// Words that the lists of phrases hope for and the bank has not would be lost without a word.
#[test]
fn most_words_of_the_phrases_are_in_the_bank() {
    use crate::fill::phrase_words::{DESCRIBING, NAMING, NUMBERS, PLACES};
    let words = DESCRIBING.iter().flat_map(|(_, words)| *words);
    let words =
        words.chain(NAMING.iter().flat_map(|(_, words)| *words)).chain(PLACES.iter().flat_map(|(_, words)| *words));
    let missing: BTreeSet<&str> =
        words.chain(NUMBERS).copied().filter(|word| bank().get(word).is_none_or(|word| word.flags.heteronym)).collect();
    assert_eq!(missing, BTreeSet::new());
}
