use std::collections::BTreeSet;

use super::*;
use crate::sheet::Kind;
use crate::sounds::Change;

/// All that a ladder has to be, looked at from outside.
fn assert_is_ladder(filled: &Filled, reader: Reader) {
    assert_distinct(filled);
    let words: Vec<&Word> = filled.items.iter().map(|item| word(&item.word)).collect();
    assert!(words.iter().all(|word| reader(word)));
    assert_eq!(filled.items[0].kind, Kind::Start);
    let mut places = Vec::new();
    for (pair, item) in words.windows(2).zip(&filled.items[1..]) {
        assert_eq!(item.kind, Kind::Rung);
        let change = item.change.as_ref().unwrap().change;
        assert_eq!(change.apply(&pair[0].sounds).as_deref(), Some(&pair[1].sounds[..]));
        if let Change::Swap { old, .. } | Change::TakeAway { old, .. } = change {
            assert_eq!(pair[0].sounds.iter().filter(|s| **s == old).count(), 1);
        }
        let accepted: BTreeSet<&str> = item.answer.iter().map(String::as_str).collect();
        let sounding: BTreeSet<&str> = bank().sounding(&pair[1].sounds).map(|w| w.spelling.as_str()).collect();
        assert_eq!(accepted, sounding);
        assert_eq!(item.answer[0], pair[1].spelling);
        assert!(item.answer[1..].is_sorted());
        places.push(change.at());
    }
    assert!(places.windows(3).all(|p| !(p[0] == p[1] && p[1] == p[2])), "{places:?}");
}

#[test]
fn ladders_change_one_sound_a_rung() {
    for (name, reader) in READERS {
        for names in ["", "bl cl fl", "st -nd -nt", "br tr"] {
            for (text, seeds) in [
                ("chain: {rungs: 7, boxes: true}", 0..6),
                ("chain: {rungs: 10, moves: [swap, add, take-away], focus: start}", 6..10),
            ] {
                for seed in seeds {
                    match run(&spec(text), reader, names, &seed.to_string()) {
                        Ok(filled) => assert_is_ladder(&filled, reader),
                        Err(FillError::NoLadder(_)) if name == "short vowels" || name == "every third word" => {}
                        Err(error) => panic!("{name} {names} {seed}: {error}"),
                    }
                }
            }
        }
    }
}

#[test]
fn the_focus_is_in_the_first_word_and_in_half_of_them() {
    for seed in 0..15 {
        let filled = run(&spec("chain: {rungs: 7}"), |_| true, "bl fl pl sl", &seed.to_string()).unwrap();
        let holding = filled.items.iter().filter(|item| item.blend.is_some()).count();
        assert!(filled.items[0].blend.is_some() && holding >= 4, "{:?}", shown(&filled));
        let filled = run(&spec("chain: {focus: start}"), |_| true, "gl", &seed.to_string()).unwrap();
        assert_eq!(filled.items[0].blend.as_deref(), Some("gl"));
    }
}

#[test]
fn the_changed_place_varies() {
    let mut all_three = 0;
    for seed in 0..20 {
        let filled = run(&spec("chain: {rungs: 6}"), |_| true, "", &seed.to_string()).unwrap();
        let part = |pair: &[crate::sheet::Item]| match pair[1].change.as_ref().unwrap().at {
            0 => "first",
            at if at + 1 == pair[0].sounds.len() => "last",
            _ => "middle",
        };
        let parts: BTreeSet<&str> = filled.items.windows(2).map(part).collect();
        all_three += usize::from(parts.len() == 3);
    }
    assert!(all_three >= 19, "{all_three} of 20");
}

#[test]
fn a_ladder_is_found_among_sixty_words_when_there_is_one() {
    // Short words that someone who has had a few steps can read, chosen by hand; nothing joins most of them.
    const FEW: &str = "bad bag bat bed bell big bit bug bus but cab can cap cat cub cup cut dad dig dip dog dot fan fat fed fin fit \
        fog fun gum gun hat hen hid hit hop hot hug hum jam jet kid kit lap leg let lid log mad man map mat men mop mud mug nap";
    let reader: Reader = |word| FEW.split_whitespace().any(|few| few == word.spelling);
    assert!(bank().words().iter().filter(|word| reader(word)).count() >= 55);
    for seed in 0..12 {
        let filled = run(&spec("chain: {rungs: 7, boxes: true}"), reader, "", &seed.to_string()).unwrap();
        assert_is_ladder(&filled, reader);
    }
    // One way and no other: the search must not depend on luck.
    let line: Reader = |word| {
        ["cat", "cot", "cod", "rod", "red", "bed", "beg", "big", "fish", "milk", "lamp", "nest", "drum", "plum", "jump"]
            .contains(&word.spelling.as_str())
    };
    let filled = run(&spec("chain: {rungs: 7}"), line, "", "a").unwrap();
    let words = shown(&filled);
    assert!(words == ["cat", "cot", "cod", "rod", "red", "bed", "beg", "big"] || words[0] == "big", "{words:?}");
}

#[test]
fn clues_tell_the_sound_and_where_it_comes_in() {
    let only = |words: &str, text: &str, seed: &str| {
        let request = Request {
            decodable: &|word: &Word| words.split_whitespace().any(|one| one == word.spelling),
            ..request(&(READERS[0].1 as Reader), "", seed)
        };
        spec(text).run(&request)
    };
    let text = "chain: {rungs: 4, sounds: [2, 4], moves: [swap, add, take-away], clue: 'Not {old} but {new}!'}";
    let mut clues: BTreeSet<String> = BTreeSet::new();
    // A few words each, that can be climbed in few ways.
    for words in
        ["rain train tray ray pay", "pay play plate late lay", "train tray ray pay play", "ray pay play plate late"]
    {
        for seed in 0..20 {
            let Ok(filled) = only(words, text, &seed.to_string()) else { continue };
            for pair in filled.items.windows(2) {
                clues.insert(format!("{} {} {}", pair[0].word, pair[1].texts["clue"], pair[1].word));
            }
        }
    }
    for clue in [
        "train Take away /n/. tray",
        "tray Take away /t/. ray",
        "ray Not /r/ but /p/! pay",
        "pay Add /l/ after /p/. play",
        "play Add /t/ at the end. plate",
        "rain Add /t/ at the start. train",
    ] {
        assert!(clues.contains(clue), "{clue} {clues:#?}");
    }
}

#[test]
fn homophones_are_accepted() {
    let mut also = 0;
    for seed in 0..60 {
        let filled = run(&spec("chain: {sounds: [3, 3]}"), |_| true, "", &seed.to_string()).unwrap();
        also += filled.items.iter().filter(|item| item.answer.len() > 1).count();
    }
    assert!(also > 10, "{also}");
}

#[test]
fn seeds_give_different_ladders() {
    let ladders: BTreeSet<String> = (0..20)
        .map(|seed| shown(&run(&spec("chain"), |_| true, "bl cl fl", &seed.to_string()).unwrap()).join(" "))
        .collect();
    assert!(ladders.len() >= 18, "{ladders:#?}");
}
