use super::*;
use crate::fill::Shortage;

fn message(text: &str, reader: Reader, names: &str) -> String {
    run(&spec(text), reader, names, "a").unwrap_err().to_string()
}

const EARLY: Reader = |word| short_vowels(word) && word.sounds.len() <= 4;

#[test]
fn too_few_words_say_what_each_condition_leaves() {
    insta::assert_snapshot!(message("columns: {count: 24}", EARLY, "bl cl fl"));
    insta::assert_snapshot!(message("words: {count: 40, boxes: true}", EARLY, "bl"));
    insta::assert_snapshot!(message("words: {count: 8, even: true}", EARLY, "bl dw"));
    insta::assert_snapshot!(message("words: {categories: [weather], bands: ['K']}", EARLY, "cl"));
    insta::assert_snapshot!(message("chain", |word| word.spelling.starts_with("bli"), "bl"));
}

/// What a message says gives enough does.
#[test]
fn what_is_advised_helps() {
    let Err(FillError::TooFew(shortage)) = run(&spec("columns: {count: 24}"), EARLY, "bl cl fl", "a") else { panic!() };
    let reader = EARLY;
    let fewer = Request { count: Some(shortage.at_most), ..request(&reader, "bl cl fl", "a") };
    assert!(spec("columns").run(&fewer).is_ok());
    let one_more = Request { count: Some(shortage.at_most + 1), ..request(&reader, "bl cl fl", "a") };
    assert!(spec("columns").run(&one_more).is_err());
    let without = |shortage: &Shortage, loosen: &str| {
        shortage.costs.iter().find(|cost| cost.loosen.contains(loosen)).unwrap().without
    };
    let (two, three) = (without(&shortage, "leave bl out"), without(&shortage, "add "));
    let added = shortage.costs.iter().find_map(|cost| cost.loosen.strip_prefix("add ")?.split(' ').next()).unwrap();
    let with = |names: &str, count: usize, reader: Reader| {
        run(&spec(&format!("columns: {{count: {count}}}")), reader, names, "a").is_ok()
    };
    assert!(with("cl fl", two, EARLY) && !with("cl fl", two + 1, EARLY));
    let names = format!("bl cl fl {added}");
    assert!(with(&names, three, EARLY) && !with(&names, three + 1, EARLY));
    let Err(FillError::TooFew(shortage)) = run(&spec("columns: {count: 24}"), EARLY, "gl cl", "a") else { panic!() };
    let later = without(&shortage, "later");
    assert!(with("gl cl", later, |_| true) && !with("gl cl", later + 1, |_| true), "{later}");
}

#[test]
fn no_ladder_says_how_far_the_words_go() {
    let few: Reader = |word| {
        ["cat", "cot", "cod", "rod", "fish", "milk", "lamp", "nest", "drum", "jump", "blip"].contains(&&*word.spelling)
    };
    insta::assert_snapshot!(message("chain", few, "bl"));
    insta::assert_snapshot!(message("chain", few, ""));
    insta::assert_snapshot!(message("chain: {rungs: 10}", EARLY, "dw"));
}

#[test]
fn a_focus_that_cannot_be_used_is_explained() {
    insta::assert_snapshot!(message("columns", |_| true, "bl"));
    insta::assert_snapshot!(message("columns", |_| true, "-nd -nt bl"));
    insta::assert_snapshot!(message("columns", |_| true, "sc sk"));
    insta::assert_snapshot!(message("columns", |_| true, "bl cl fl gl pl"));
    insta::assert_snapshot!(message("columns", |_| true, ""));
    insta::assert_snapshot!(message("words", |_| true, "-nd -nt"));
    insta::assert_snapshot!(message("words: {focus: end}", |_| true, "bl"));
}

#[test]
fn numbers_out_of_range_are_all_said() {
    insta::assert_snapshot!(message("words: {count: 0, sounds: [5, 3], syllables: [0, 1], allow: [x]}", |_| true, ""));
    insta::assert_snapshot!(message(
        "chain: {rungs: 11, moves: [], sounds: [1, 9], boxes: true, allow: [qu], clue: 'Say {nwe}', add_clue: '{new}{place}'}",
        |_| true,
        ""
    ));
    insta::assert_snapshot!(message("columns: {count: 2}", |_| true, "bl cl fl"));
    let reader: Reader = |_| true;
    let asked = spec("chain").run(&Request { count: Some(3), ..request(&reader, "", "a") }).unwrap_err();
    insta::assert_snapshot!(asked);
}
