//! Columns to be joined, and strips of blends.

use std::collections::BTreeSet;

use super::listening::{over_all, tampered};
use super::*;
use crate::fill::{Match, Strip};

#[test]
fn words_without_their_blends_are_joined_in_one_way() {
    for text in ["match: {count: 6}", "match: {count: 5, side: end}"] {
        let made = over_all(text, &["", "bl cl fl -nd -st", "st sp -mp"], |_, reader, filled| {
            assert_distinct(&filled);
            assert!((3..=6).contains(&filled.items.len()));
            assert_eq!(filled.items.len(), filled.word_bank.len());
            for item in &filled.items {
                assert!(reader(word(&item.word)), "{}", item.word);
                assert!(item.shown[0].contains("__"));
                assert_eq!(item.shown[0].replace("__", &item.answer[0]), item.word);
            }
        });
        assert!(made >= 100, "{text}: {made}");
    }
}

#[test]
fn nothing_stands_beside_what_it_belongs_to() {
    for by in ["blend", "rhyme"] {
        let fill = spec(&format!("match: {{by: {by}}}"));
        for seed in 0..30 {
            let filled = run(&fill, |_| true, "bl cl fl gl pl sl", &seed.to_string()).unwrap();
            assert!(filled.items.iter().zip(&filled.word_bank).all(|(item, right)| item.answer[0] != *right));
        }
    }
}

#[test]
fn each_word_rhymes_with_exactly_one() {
    let made = over_all("match: {by: rhyme, count: 7}", &["", "bl cl fl", "st sp"], |_, reader, filled| {
        let rhymes: BTreeSet<_> = filled.items.iter().map(|item| word(&item.word).rhyme_part()).collect();
        assert_eq!(rhymes.len(), 7);
        for item in &filled.items {
            let fitting: Vec<_> = filled.word_bank.iter().filter(|w| word(w).rhymes_with(word(&item.word))).collect();
            assert_eq!(fitting, [&item.answer[0]]);
            assert!(reader(word(&item.answer[0])) && reader(word(&item.word)));
        }
    });
    assert!(made >= 100, "{made}");
}

#[test]
fn columns_to_join_that_were_tampered_with_are_caught() {
    for text in ["match", "match: {by: rhyme}"] {
        let caught = |change: fn(&mut Filled)| assert!(tampered(text, "bl cl fl", change).is_err(), "{text}");
        caught(|f| drop(f.word_bank.pop()));
        caught(|f| f.word_bank[0] = f.word_bank[1].clone());
        caught(|f| f.items[0].answer = f.items[1].answer.clone());
        caught(|f| f.items[0].shown = f.items[1].shown.clone());
        caught(|f| f.items[0].word = "stop".into());
        caught(|f| f.items[0].answer.push("st".into()));
        caught(|f| f.items[1] = f.items[0].clone());
    }
    assert!(!Match { count: 11, ..Match::default() }.validate().is_empty());
}

#[test]
fn every_blend_of_a_strip_has_a_key_word_that_can_be_read() {
    for text in ["strip", "strip: {side: both, count: 12}", "strip: {side: end}"] {
        let made = over_all(text, &["", "bl cl fl -nd -st", "st sp -mp"], |names, reader, filled| {
            assert_distinct(&filled);
            for item in &filled.items {
                let word = word(&item.word);
                let blend = item.blend.as_deref().unwrap();
                assert!(reader(word) && word.spelling.contains(blend), "{}", word.spelling);
            }
            let shown: BTreeSet<_> = filled.items.iter().filter_map(|item| item.blend.as_deref()).collect();
            if text == "strip" {
                let asked = names.split_whitespace().filter(|name| !name.starts_with('-'));
                assert!(asked.into_iter().all(|name| shown.contains(name)));
            }
        });
        assert!(made >= 100, "{text}: {made}");
    }
}

#[test]
fn a_blend_without_a_key_word_is_said() {
    let error = run(&spec("strip"), |word| word.sounds.len() < 4, "str", "a").unwrap_err().to_string();
    assert!(error.contains("No word with str"), "{error}");
}

#[test]
fn strips_that_were_tampered_with_are_caught() {
    let caught = |change: fn(&mut Filled)| assert!(tampered("strip", "bl cl", change).is_err());
    caught(|f| f.items[0].shown.reverse());
    caught(|f| f.items[0].shown[0] = "gl".into());
    caught(|f| f.items[0].answer = vec!["stop".into()]);
    caught(|f| f.items[0].blend = None);
    caught(|f| f.items[1] = f.items[0].clone());
    assert!(!Strip { count: 0, ..Strip::default() }.validate().is_empty());
}
