use super::*;
use crate::fill::{Chain, Columns, Words, Wrong, check};

/// What the solver says after `change` was made to good content.
fn tampered(fill: &Fill, names: &str, change: impl FnOnce(&mut Filled)) -> Result<(), Wrong> {
    let reader: Reader = |_| true;
    let request = request(&reader, names, "a");
    let mut filled = fill.run(&request).unwrap();
    assert_eq!(check(fill, &filled, &request), Ok(()));
    change(&mut filled);
    check(fill, &filled, &request)
}

fn assert_caught(fill: &Fill, names: &str, what: &str, change: impl FnOnce(&mut Filled)) -> Wrong {
    match tampered(fill, names, change) {
        Err(wrong) => wrong,
        Ok(()) => panic!("not caught: {what}"),
    }
}

#[test]
fn words_that_were_tampered_with_are_caught() {
    let fill = Fill::Words(Words { boxes: true, ..Words::default() });
    let caught = |what: &str, change: fn(&mut Filled)| assert_caught(&fill, "bl cl", what, change);
    caught("an answer", |f| f.items[3].answer[0].push('e'));
    caught("a further answer", |f| f.items[3].answer.push("blue".into()));
    caught("a box's letters", |f| f.items[0].boxes.as_mut().unwrap().letters[1] = "r".into());
    caught("a box less", |f| drop(f.items[0].boxes.as_mut().unwrap().letters.pop()));
    caught("no boxes", |f| f.items[0].boxes = None);
    caught("a silent e", |f| f.items[0].boxes.as_mut().unwrap().after.push('e'));
    caught("a marked box", |f| f.items[0].boxes.as_mut().unwrap().marked = Some(0));
    caught("another word shown", |f| f.items[0].shown = vec!["stop".into()]);
    caught("a word that is none", |f| f.items[0].shown = vec!["blorp".into()]);
    caught("the blend", |f| f.items[0].blend = Some("st".into()));
    caught("the sounds", |f| f.items[0].sounds.reverse());
    caught("the letters", |f| f.items[0].letters.reverse());
    caught("an item less", |f| drop(f.items.pop()));
    caught("an item twice", |f| f.items[1] = f.items[0].clone());
}

#[test]
fn a_sort_that_was_tampered_with_is_caught() {
    let fill = Fill::Columns(Columns::default());
    let caught = |what: &str, change: fn(&mut Filled)| assert_caught(&fill, "bl cl fl", what, change);
    caught("an answer", |f| f.items[0].answer = vec!["gl".into()]);
    caught("two answers changed about", |f| {
        let other = f.items.iter().position(|item| item.answer != f.items[0].answer).unwrap();
        let answer = f.items[other].answer.clone();
        f.items[other].answer = std::mem::replace(&mut f.items[0].answer, answer);
    });
    caught("a word in the wrong column", |f| {
        let word = f.columns[0].words.remove(0);
        f.columns[1].words.insert(0, word);
    });
    caught("a column out of order", |f| f.columns[0].words.reverse());
    caught("two headers that are one", |f| f.columns[1] = f.columns[0].clone());
    caught("a header's name", |f| f.columns[1].blend = "gl".into());
    caught("a header's sounds", |f| f.columns[1].sounds = vec!["G", "L"]);
    caught("a column less", |f| drop(f.columns.pop()));
    caught("a word bank with a word less", |f| drop(f.word_bank.pop()));
    caught("a word bank with another word", |f| f.word_bank[0] = "stop".into());
    caught("an item less", |f| drop(f.items.pop()));
}

#[test]
fn a_ladder_that_was_tampered_with_is_caught() {
    let fill = Fill::Chain(Chain { boxes: true, ..Chain::default() });
    let caught = |what: &str, change: fn(&mut Filled)| assert_caught(&fill, "bl st", what, change);
    let wrong = caught("an answer", |f| f.items[2].answer[0] = "stop".into());
    assert_eq!(wrong.item, Some(3));
    assert!(wrong.to_string().starts_with("Item 3 (Change /"), "{wrong}");
    caught("an answer more", |f| f.items[2].answer.push("stop".into()));
    caught("no answer", |f| f.items[2].answer.clear());
    caught("a printed clue", |f| f.items[1].shown = vec!["Change /z/ to /b/.".into()]);
    caught("a clue in both places", |f| {
        let clue = "Change /z/ to /b/.".to_owned();
        f.items[1].texts.insert("clue".into(), clue.clone());
        f.items[1].shown = vec![clue];
    });
    caught("a clue's text alone", |f| drop(f.items[1].texts.insert("clue".into(), String::new())));
    caught("a change's old sound", |f| f.items[1].change.as_mut().unwrap().old = Some("ZH"));
    caught("a change's new sound", |f| f.items[1].change.as_mut().unwrap().new = Some("ZH"));
    caught("a change's kind", |f| f.items[1].change.as_mut().unwrap().new = None);
    caught("a change's place", |f| f.items[1].change.as_mut().unwrap().at += 1);
    caught("the marked box", |f| {
        let boxes = f.items[1].boxes.as_mut().unwrap();
        boxes.marked = boxes.marked.map(|at| (at + 1) % boxes.letters.len());
    });
    caught("a mark in the first word", |f| f.items[0].boxes.as_mut().unwrap().marked = Some(0));
    caught("another first word", |f| f.items[0].shown = vec!["fish".into()]);
    caught("a rung less", |f| drop(f.items.remove(3)));
    caught("rungs changed about", |f| f.items.swap(2, 3));
    caught("the word before", |f| f.items[2].from = Some("stop".into()));
    caught("the word after", |f| f.items[2].to = None);
}

#[test]
fn a_homophone_left_out_is_caught() {
    let reader: Reader = |_| true;
    let fill = spec("chain: {sounds: [3, 3]}");
    let caught = (0..40).filter(|seed: &u32| {
        let request = request(&reader, "", &seed.to_string());
        let mut filled = fill.run(&request).unwrap();
        let Some(item) = filled.items.iter_mut().find(|item| item.answer.len() > 1) else { return false };
        item.answer.pop();
        assert!(check(&fill, &filled, &request).is_err());
        true
    });
    assert!(caught.count() > 5);
}

#[test]
fn what_cannot_be_read_at_the_step_is_caught() {
    let (all, none): (Reader, Reader) = (|_| true, |_| false);
    for name in ["words", "columns", "chain"] {
        let fill = spec(name);
        let filled = fill.run(&request(&all, "bl st", "a")).unwrap();
        let wrong = check(&fill, &filled, &request(&none, "bl st", "a")).unwrap_err();
        assert!(wrong.to_string().contains("a word that can be read at step 12"), "{wrong}");
        let avoid = vec![filled.items[0].word.clone()];
        assert!(check(&fill, &filled, &Request { avoid, ..request(&all, "bl st", "a") }).is_err());
    }
}

/// The solver's ear is written apart from the bank's; over the whole bank and all switches they must agree.
#[test]
fn the_second_ear_hears_what_the_bank_does() {
    for switches in 0..16u8 {
        let on = |bit: u8| switches >> bit & 1 == 1;
        let counting = Counting { dog_as_hop: on(0), vowel_r_as_one: on(1), yu_as_one: on(2), wh_as_hw: on(3) };
        let bank = Bank::builtin(counting).unwrap();
        for word in bank.words() {
            assert_eq!(crate::fill::solve::heard_plain(word, counting), word.codes(), "{} {counting:?}", word.spelling);
        }
    }
}
