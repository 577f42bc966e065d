//! Rhyme riddles, and words and nonsense words to tell apart.

use std::collections::{BTreeMap, BTreeSet};

use super::listening::{AT_STEPS, over_all, tampered};
use super::*;
use crate::bank::Class;
use crate::sheet::{Item, Kind};

#[test]
fn riddles_have_one_answer_and_rhyme_with_no_word() {
    let made = over_all("riddles", &["", "bl fl st", "str scr thr"], |names, reader, filled| {
        assert_distinct(&filled);
        let mut rhymes = BTreeSet::new();
        for item in &filled.items {
            assert!(reader(word(&item.word)), "{names} {}", item.word);
            assert!(rhymes.insert(word(&item.word).rhyme_part()), "{}", item.word);
            let number = item.shown[0].contains("how many");
            assert!(number || word(&item.word).classes.contains(&Class::Noun), "{}", item.word);
            let nonsense = item.shown[0].strip_suffix('.').unwrap().rsplit(' ').next().unwrap();
            assert!(bank().get(nonsense).is_none(), "{nonsense}");
        }
    });
    assert!(made >= 100, "{made}");
    let text = "riddles: {written: false, count: 3, categories: [animal]}";
    let filled = run(&spec(text), AT_STEPS[0].1, "bl fl", "a").unwrap();
    assert!(filled.items.iter().all(|item| word(&item.word).categories.contains(&crate::bank::Category::Animal)));
}

#[test]
fn riddles_that_were_tampered_with_are_caught() {
    let caught = |what: &str, change: fn(&mut Filled)| {
        assert!(tampered("riddles", "bl cl", change).is_err(), "not caught: {what}");
    };
    let clue = |f: &mut Filled, clue: &str| {
        f.items[0].texts.insert("clue".into(), clue.into());
        f.items[0].shown = vec![clue.into()];
    };
    caught("an answer", |f| f.items[0].answer[0] = "stop".into());
    caught("an answer more", |f| f.items[0].answer.push("stop".into()));
    caught("the blend", |f| f.items[0].blend = Some("st".into()));
    caught("an item twice", |f| f.items[1] = f.items[0].clone());
    caught("an item less", |f| drop(f.items.pop()));
    caught("the clue alone", |f| drop(f.items[0].texts.insert("clue".into(), String::new())));
    for text in [
        "I am thinking of an animal. It rhymes with black.",
        "I am thinking of an animal. It rhymes with blxn.",
        "I am thinking of an animal. It rhymes with blish",
        "I am thinking of a thing. It rhymes with blish.",
        "fish",
    ] {
        assert!(tampered("riddles", "bl cl", |f| clue(f, text)).is_err(), "{text}");
    }
}

/// The nonsense words of a sheet.
fn silly(filled: &Filled) -> Vec<&Item> {
    filled.items.iter().filter(|item| item.kind == Kind::Silly).collect()
}

#[test]
fn half_are_nonsense_and_can_be_read() {
    let made = over_all("real-or-silly", &["", "bl cl fl", "st sp sk"], |names, reader, filled| {
        let nonsense = silly(&filled);
        assert_eq!(nonsense.len(), 6);
        let mut by_blend: BTreeMap<&str, usize> = BTreeMap::new();
        for item in nonsense {
            assert!(bank().get(&item.word).is_none() && item.sounds.len() >= 3, "{}", item.word);
            *by_blend.entry(item.blend.as_deref().unwrap_or_default()).or_default() += 1;
        }
        assert!(names.is_empty() || by_blend.values().all(|&count| count == 2), "{by_blend:?}");
        let real = filled.items.iter().filter(|item| item.kind == Kind::Word);
        assert!(real.into_iter().all(|item| reader(word(&item.word)) && item.answer == item.choices));
        let runs = filled.items.windows(3).filter(|run| run.iter().all(|item| item.kind == run[0].kind)).count();
        assert_eq!(runs, 0, "{:?}", shown(&filled));
        let left = filled.items.iter().step_by(2).filter(|item| item.kind == Kind::Silly).count();
        assert!((2..=4).contains(&left), "{:?}", shown(&filled));
    });
    assert!(made >= 100, "{made}");
}

#[test]
fn nonsense_is_of_what_is_taught() {
    let sequence = Sequence::builtin().unwrap();
    for (name, reader) in [("short-u", AT_STEPS[0].1), ("l-blends", AT_STEPS[1].1), ("a-e", AT_STEPS[3].1)] {
        let taught = sequence.taught(sequence.step(name).unwrap());
        for seed in 0..10 {
            let request = Request { taught, ..request(&reader, "", &seed.to_string()) };
            let filled = spec("real-or-silly: {focus: none}").run(&request).unwrap();
            for item in silly(&filled) {
                assert!(name != "short-u" || item.word.len() == 3, "{}", item.word);
                assert!(name == "a-e" || !item.word.ends_with('e'), "{}", item.word);
            }
        }
    }
}

#[test]
fn real_or_silly_that_was_tampered_with_is_caught() {
    fn first(f: &mut Filled, kind: Kind) -> &mut Item {
        f.items.iter_mut().find(|item| item.kind == kind).unwrap()
    }
    let caught = |what: &str, change: fn(&mut Filled)| {
        assert!(tampered("real-or-silly", "bl cl", change).is_err(), "not caught: {what}");
    };
    caught("a word said to be nonsense", |f| first(f, Kind::Word).kind = Kind::Silly);
    caught("nonsense said to be a word", |f| first(f, Kind::Silly).kind = Kind::Word);
    caught("an answer", |f| first(f, Kind::Silly).answer = vec!["blimp".into()]);
    caught("the sounds", |f| first(f, Kind::Silly).sounds.reverse());
    caught("what is ringed", |f| first(f, Kind::Word).choices.clear());
    caught("an item less", |f| drop(f.items.pop()));
    caught("nonsense twice", |f| {
        let one = first(f, Kind::Silly).clone();
        let other = f.items.iter_mut().rev().find(|item| item.kind == Kind::Silly).unwrap();
        *other = one;
    });
    caught("another spelling", |f| {
        let item = first(f, Kind::Silly);
        item.word = "blorph".into();
        item.shown = vec!["blorph".into()];
        item.choices = vec!["blorph".into()];
    });
}
