//! Words changed by ear, and what holds for all that is made of sounds or nonsense.

use std::collections::BTreeSet;

use super::listening::{AT_STEPS, over_all, tampered};
use super::*;
use crate::bank::{Part, Slot};
use crate::fill::{RealOrSilly, Riddles, SoundChange, check};
use crate::sheet::{Item, Kind};

const WAYS: [(&str, &[&str]); 6] = [
    ("change: {by: swap}", &["", "bl cl fl", "st sp sk", "-nd str thr"]),
    ("change: {by: add}", &["", "bl cl fl", "st sp sk", "str scr thr spr"]),
    ("change: {by: take-away}", &["", "bl cl fl", "st sp sk", "str scr thr spr"]),
    ("change: {by: take-away, part: second, count: 4}", &["", "bl cl fl", "st sp sk"]),
    ("change: {by: take-away, part: blend, count: 4}", &["", "bl cl fl", "st sp sk"]),
    ("change: {by: add, part: blend, count: 4}", &["", "bl cl fl", "st sp sk"]),
];

/// What a word is after its clue, by the bank's own relations.
fn result(item: &Item, text: &str) -> Vec<Sound> {
    let (from, to) = (&word(item.from.as_ref().unwrap()).sounds, &word(&item.word).sounds);
    let blend = Blend::named(item.blend.as_ref().unwrap())[0].sounds;
    let keep = |word: &[Sound], part: &str| match part {
        "second" => [&word[..1], &word[2..]].concat(),
        "blend" => word[blend.len()..].to_vec(),
        _ => word[1..].to_vec(),
    };
    let part = ["second", "blend"].into_iter().find(|part| text.contains(&format!("part: {part}"))).unwrap_or("first");
    if text.contains("take-away") {
        assert!(from.starts_with(blend), "{item:?}");
        keep(from, part)
    } else if text.contains("add") {
        assert!(to.starts_with(blend) && keep(to, part) == *from, "{item:?}");
        to.clone()
    } else {
        assert!(from.starts_with(blend) || to.starts_with(blend), "{item:?}");
        let onset = |word: &[Sound]| word.iter().position(|sound| sound.is_vowel()).unwrap();
        [&to[..onset(to)], &from[onset(from)..]].concat()
    }
}

#[test]
fn a_change_gives_its_answers_and_no_word_comes_twice() {
    let mut also = 0;
    for (text, focuses) in WAYS {
        let made = over_all(text, focuses, |names, reader, filled| {
            let mut sounds = BTreeSet::new();
            for item in &filled.items {
                let by_sight = ["new", "said", "live", "i", "the"].contains(&item.word.as_str());
                assert!(reader(word(&item.word)) || by_sight, "{text} {names} {}", item.word);
                let result = result(item, text);
                assert!(item.answer.iter().all(|answer| word(answer).sounds == result), "{item:?}");
                let alike = bank().words().iter().filter(|word| word.sounds == result).count();
                assert_eq!(alike, item.answer.len(), "{item:?}");
                also += usize::from(alike > 1);
                for one in [item.from.as_ref().unwrap(), &item.word] {
                    assert!(sounds.insert(&word(one).sounds), "{one} twice");
                }
                assert!(names.is_empty() || names.contains(item.blend.as_deref().unwrap()));
            }
        });
        assert!(made >= 100, "{text}: {made}");
    }
    assert!(also > 50, "{also} with more than one answer");
}

/// Whether the letters of the sounds that stay differ, told by the words' letter groups; `qu` and `x` are two sounds in one group.
fn is_anew(item: &Item, answer: &str, swap: bool) -> Option<bool> {
    let (from, to) = (word(item.from.as_ref().unwrap()), word(answer));
    if [from, to].iter().any(|word| word.spelling.contains("qu") || word.spelling.contains('x')) {
        return None;
    }
    let kept = |word: &Word, other: &Word| {
        let moved = if swap { word.onset().len() } else { word.sounds.len().saturating_sub(other.sounds.len()) };
        word.groups()[moved..].to_vec()
    };
    Some(kept(from, to) != kept(to, from))
}

/// How many pairs that are spelled anew there are at the most, by the bank's relations: of different words before, and of different
/// words after the change.
fn anew_at_most(text: &str, reader: Reader, names: &str) -> usize {
    let opens = |word: &Word| focus(names).iter().any(|blend| word.onset() == blend.sounds);
    let known = |word: &Word| Blend::of_sounds(word.onset(), Side::Onset).is_some_and(|blend| blend.taught);
    let (pairs, swap) = match text {
        "change: {by: add}" => (bank().add(&Part::First), false),
        "change: {by: take-away}" => (bank().take_away(&Part::First), false),
        _ => (bank().swap_clusters(Side::Onset, &Slot::Cluster, &Slot::Cluster), true),
    };
    let alone = |word: &Word| !word.flags.heteronym && !word.flags.irregular;
    let size = |word: &Word| word.syllables.len() == 1 && (2..=6).contains(&word.sounds.len());
    let (mut before, mut after) = (BTreeSet::new(), BTreeSet::new());
    for pair in pairs.iter().filter(|pair| pair.spelling_changes && !pair.ending) {
        for to in pair.answers.iter().map(|answer| answer.word) {
            let about = opens(pair.from) || opens(to);
            let both = [pair.from, to].into_iter().all(|word| alone(word) && size(word) && (!swap || known(word)));
            let clear =
                !swap || pair.from.sounds.windows(pair.change.old.len()).filter(|w| *w == pair.change.old).count() == 1;
            if about && both && clear && reader(to) && !(pair.from.is_form() && to.is_form()) {
                before.insert(&pair.from.sounds);
                after.insert(&to.sounds);
            }
        }
    }
    before.len().min(after.len())
}

/// A third is spelled anew where there are so many, and the mark says which.
#[test]
fn a_third_is_spelled_anew() {
    let mut a_third = 0;
    for (text, focuses) in &WAYS[..3] {
        for (name, reader) in &AT_STEPS[2..] {
            for names in focuses.iter().filter(|names| !names.is_empty() && !names.contains("str")) {
                let at_most = anew_at_most(text, *reader, names);
                for seed in 0..10 {
                    let Ok(filled) = spec(text).run(&request(reader, names, &seed.to_string())) else { continue };
                    let anew = filled.items.iter().filter(|item| !item.texts["anew"].is_empty()).count();
                    for item in &filled.items {
                        let each = item.answer.iter().map(|answer| is_anew(item, answer, text.contains("swap")));
                        if let Some(each) = each.collect::<Option<Vec<bool>>>() {
                            assert_eq!(!item.texts["anew"].is_empty(), each.iter().all(|&anew| anew), "{item:?}");
                        }
                    }
                    // One may be lost to words that stand in each other's way.
                    assert!(anew >= 3.min(at_most.saturating_sub(1)), "{text} {name} {names}: {anew} of {at_most}");
                    a_third += usize::from(anew >= 3);
                }
            }
        }
    }
    assert!(a_third >= 100, "{a_third}");
}

/// Where the focus has too few words, all of them come, and others take over when they may.
#[test]
fn other_blends_take_over() {
    for text in ["change: {by: take-away, count: 12", "change: {by: add, count: 12", "change: {by: swap, count: 24"] {
        let refused = spec(&format!("{text}}}")).run(&request(&AT_STEPS[3].1, "spl tw", "a")).unwrap_err();
        let FillError::TooFew(shortage) = refused else { panic!("{refused}") };
        let filled = spec(&format!("{text}, review: true}}")).run(&request(&AT_STEPS[3].1, "spl tw", "a")).unwrap();
        let asked = filled.items.iter().filter(|item| ["spl", "tw"].contains(&item.blend.as_deref().unwrap())).count();
        assert!(asked > 0 && asked == shortage.found, "{text}: {asked} of {}", shortage.found);
    }
}

#[test]
fn the_words_of_the_trade_are_found() {
    let pairs = [
        ("change: {by: take-away, count: 1}", "sn", "sneeze", "knees", true),
        ("change: {by: take-away, count: 1}", "fr", "freight", "rate", true),
        ("change: {by: take-away, count: 1}", "sn", "snow", "no", true),
        ("change: {by: add, count: 1}", "tr", "rain", "train", false),
        ("change: {by: add, count: 1}", "cr", "rest", "crest", false),
        ("change: {by: swap, count: 1}", "bl", "blank", "drank", false),
        ("change: {by: swap, count: 1}", "gr", "flow", "grow", false),
    ];
    for (text, blend, from, to, anew) in pairs {
        let reader: Reader = |_| true;
        let words = [from, to];
        let avoid = bank().words().iter().map(|word| word.spelling.clone());
        let avoid = avoid.filter(|spelling| !words.contains(&spelling.as_str())).collect();
        let request = Request { avoid, ..request(&reader, blend, "a") };
        let item = spec(text).run(&request).unwrap().items.remove(0);
        let (swapped, said) = ((item.word.as_str(), item.from.as_deref()), (to, Some(from)));
        assert!(swapped == said || (text.contains("swap") && swapped == (from, Some(to))), "{item:?}");
        assert_eq!(!item.texts["anew"].is_empty(), anew, "{item:?}");
    }
}

#[test]
fn a_change_that_was_tampered_with_is_caught() {
    for text in
        ["change: {by: swap}", "change: {by: add}", "change: {by: take-away}", "change: {by: take-away, part: second}"]
    {
        let caught =
            |what: &str, change: fn(&mut Filled)| assert!(tampered(text, "bl cl", change).is_err(), "{text}: {what}");
        caught("an answer", |f| f.items[0].answer[0] = "stop".into());
        caught("an answer more", |f| f.items[0].answer.push("stop".into()));
        caught("no answer", |f| f.items[0].answer.clear());
        caught("the word that is said", |f| f.items[0].shown[0] = "stop".into());
        caught("the word before", |f| f.items[0].from = Some("stop".into()));
        caught("the word after", |f| f.items[0].to = None);
        caught("a clue", |f| f.items[0].shown[1] = "Change /z/ to /b/.".into());
        caught("a clue in both places", |f| {
            let clue = "Take away /z/ at the start.".to_owned();
            f.items[0].texts.insert("clue".into(), clue.clone());
            f.items[0].shown[1] = clue;
        });
        caught("the blend", |f| f.items[0].blend = Some("st".into()));
        caught("the mark", |f| {
            let mark = if f.items[0].texts["anew"].is_empty() { "spelled anew" } else { "" };
            f.items[0].texts.insert("anew".into(), mark.into());
        });
        caught("an item less", |f| drop(f.items.pop()));
        caught("an item twice", |f| f.items[1] = f.items[0].clone());
        caught("the kind", |f| f.items[0].kind = Kind::Word);
    }
}

#[test]
fn an_answer_that_cannot_be_written_is_caught() {
    let (all, none): (Reader, Reader) = (|_| true, |_| false);
    for text in ["change: {by: add}", "riddles", "real-or-silly"] {
        let fill = spec(text);
        let filled = fill.run(&request(&all, "bl st", "a")).unwrap();
        assert!(check(&fill, &filled, &request(&none, "bl st", "a")).is_err(), "{text}");
        let avoid = vec![filled.items.iter().find(|item| item.kind != Kind::Silly).unwrap().word.clone()];
        assert!(check(&fill, &filled, &Request { avoid, ..request(&all, "bl st", "a") }).is_err(), "{text}");
    }
    // Words known by sight count: "no" at a step at which nothing can be sounded out.
    let by_sight = vec![("no".to_owned(), 1)];
    let request = Request { by_sight, ..request(&none, "sn", "a") };
    let filled = spec("change: {by: take-away, count: 1}").run(&request).unwrap();
    assert_eq!(filled.items[0].answer, ["no", "know"]);
}

#[test]
fn what_is_too_few_is_said_with_what_helps() {
    let reader: Reader = AT_STEPS[0].1;
    let error = spec("change: {by: add}").run(&request(&reader, "bl cl", "a")).unwrap_err().to_string();
    insta::assert_snapshot!(error);
    let error = spec("riddles: {count: 20}").run(&request(&reader, "bl", "a")).unwrap_err().to_string();
    insta::assert_snapshot!(error);
    assert!(!SoundChange { part: crate::fill::ChangePart::Blend, ..SoundChange::default() }.validate().is_empty());
    let categories = vec![crate::bank::Category::Talk];
    assert!(!Riddles { categories, ..Riddles::default() }.validate().is_empty());
    let focus = crate::fill::WordsFocus::End;
    assert!(!RealOrSilly { focus, ..RealOrSilly::default() }.validate().is_empty());
}

/// With every switch of counting the other way, content is made and solved all the same.
#[test]
fn it_works_however_sounds_are_counted() {
    let counting = Counting { dog_as_hop: false, vowel_r_as_one: true, yu_as_one: false, wh_as_hw: true };
    let other = Bank::builtin(counting).unwrap();
    let reader: Reader = |_| true;
    for text in ["change: {by: swap}", "change: {by: add}", "change: {by: take-away}", "riddles", "real-or-silly"] {
        for seed in 0..10 {
            let request = Request { bank: &other, ..request(&reader, "fr st bl", &seed.to_string()) };
            if let Err(error) = spec(text).run(&request) {
                panic!("{text} {seed}: {error}");
            }
        }
    }
}
