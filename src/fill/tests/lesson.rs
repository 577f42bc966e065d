//! Lessons: parts that share the focus and no word, that are left out where they can't be had, and that are solved by their own ways.

use super::*;
use crate::fill::check;
use crate::sheet::{Kind, Part};

const LESSON: &str = "
lesson:
  least: 2
  parts:
    - {title: Blend, fill: {spoken: {focus: any}}, count: 4, ask: '{shown}', answer: '{answer}', mark: sound}
    - {title: Segment, say: Say it., fill: {words: {focus: any}}, count: 4, answer: '{sounds}'}
    - {title: Ladder, fill: chain, count: 4, ask: '{clue}', answer: '{word}'}
    - {title: Place, fill: places, count: 3, ask: '{listen} in {word}', answer: '{answer}'}
    - {title: Strip, fill: {strip: {count: 4, side: both}}, ask: '{blend}', answer: '{word}'}
    - {title: Sight, fill: review, ask: '{shown}'}
    - {title: Read, fill: {reading: {rows: 1, focus: none}}, ask: '{shown}'}
";

fn words_of(part: &Part) -> Vec<String> {
    // The frames of phrases may come again.
    part.items.iter().filter(|item| item.kind != Kind::Phrase).flat_map(|item| item.words(bank())).collect()
}

#[test]
fn parts_share_no_word() {
    let lesson = spec(LESSON);
    for (name, reader) in READERS {
        for seed in 0..8 {
            for blends in ["bl st", "cl gr -nd", ""] {
                let Ok(filled) = run(&lesson, reader, blends, &seed.to_string()) else { continue };
                let mut seen: Vec<String> = Vec::new();
                for part in &filled.parts {
                    let mut words = words_of(part);
                    words.sort();
                    words.dedup();
                    assert!(
                        words.iter().all(|word| !seen.contains(word)),
                        "{name} {seed} {blends}: {words:?} {seen:?}"
                    );
                    seen.extend(words);
                }
            }
        }
    }
}

#[test]
fn lines_and_marks_are_those_of_the_items() {
    let filled = run(&spec(LESSON), |_| true, "bl st", "a").unwrap();
    assert!(filled.items.is_empty() && filled.parts.iter().all(|part| part.left_out.is_none()));
    let blend = &filled.parts[0];
    let item = &blend.items[0];
    assert_eq!((item.texts["ask"].as_str(), item.texts["reply"].as_str()), (&*item.shown.join(" "), &*item.answer[0]));
    assert_eq!(blend.marks(item), item.sounds.len());
    let row = filled.parts[6].items.iter().find(|item| item.kind == Kind::Row).unwrap();
    assert_eq!(filled.parts[6].marks(row), 4);
}

/// A step at which only these can be read.
const FEW: [&str; 10] = ["black", "blot", "bled", "block", "bluff", "clap", "click", "clock", "club", "clip"];

#[test]
fn what_can_not_be_had_is_left_out_with_the_reason() {
    let lesson = spec(LESSON);
    let few: Reader = |word| FEW.contains(&word.spelling.as_str());
    let filled = run(&lesson, few, "bl cl", "a").unwrap();
    let left: Vec<&str> = filled.parts.iter().filter(|part| part.left_out.is_some()).map(|p| &*p.title).collect();
    assert!(left.contains(&"Ladder"), "{left:?}");
    assert!(filled.parts.iter().all(|part| part.left_out.is_some() == part.items.is_empty()));
    // The strip asks for a key word of each blend: it is chosen before the parts that would take the words.
    assert!(!left.contains(&"Strip"), "{left:?}");

    let least = spec(&LESSON.replace("least: 2", "least: 7"));
    let error = run(&least, few, "bl cl", "a").unwrap_err();
    assert!(matches!(&error, FillError::TooFewParts { least: 7, .. }));
    let told = error.to_string();
    assert!(told.contains("\n  Ladder: ") && told.contains("--focus"), "{told}");
}

#[test]
fn a_count_is_of_each_part() {
    let reader: Reader = |_| true;
    let lesson = spec("lesson: {parts: [{title: a, fill: words}, {title: b, fill: spoken}]}");
    let filled = lesson.run(&Request { count: Some(3), ..request(&reader, "bl st", "a") }).unwrap();
    assert!(filled.parts.iter().all(|part| part.items.len() == 3));
}

#[test]
fn wrong_values_are_told_with_their_place() {
    let wrong = |text: &str| {
        let problems = spec(text).validate();
        problems
            .into_iter()
            .map(|problem| format!("{}: {}", problem.key, problem.message))
            .collect::<Vec<_>>()
            .join("\n")
    };
    assert!(wrong("lesson: {parts: []}").starts_with("parts: 0 is out of range"));
    let nested = wrong("lesson: {parts: [{title: a, fill: words}, {title: b, fill: {words: {count: 99}}}]}");
    assert!(nested.starts_with("parts[1].fill.words.count: 99"), "{nested}");
    assert!(wrong("lesson: {parts: [{title: a, fill: words, count: 99}]}").starts_with("parts[0].count: 99"));
    assert!(wrong("lesson: {parts: [{title: a, fill: lesson}]}").contains("parts[0].fill: `lesson`"));
    assert!(wrong("lesson: {parts: [{title: a, fill: words, ask: '{wrod}'}]}").contains("{word}"));
    assert!(wrong("lesson: {least: 2, parts: [{title: a, fill: words}]}").starts_with("least: 2"));
    assert!(wrong("lesson: {parts: [{title: ' ', fill: words}]}").starts_with("parts[0].title"));
}

type Tamper = fn(&mut Filled);

/// Each part is held to its own way, and to the words of those before it.
#[test]
fn the_solver_notices() {
    let lesson = spec(LESSON);
    let reader: Reader = |_| true;
    let request = request(&reader, "bl st", "a");
    let good = lesson.run(&request).unwrap();
    assert!(check(&lesson, &good, &request).is_ok());
    let changes: [(&str, Tamper); 8] = [
        ("an answer", |filled| filled.parts[0].items[0].answer = vec!["cat".to_owned()]),
        ("an item too few", |filled| drop(filled.parts[1].items.pop())),
        ("a part too few", |filled| drop(filled.parts.pop())),
        ("an item of another part", |filled| filled.parts[1].items[0] = filled.parts[0].items[0].clone()),
        ("a line", |filled| drop(filled.parts[2].items[1].texts.insert("reply".to_owned(), "cat".to_owned()))),
        ("a part left out that has items", |filled| filled.parts[3].left_out = Some("so".to_owned())),
        ("a title", |filled| filled.parts[4].title = "Other".to_owned()),
        ("two parts in one turn", |filled| filled.parts[4].turn = 0),
    ];
    for (what, change) in changes {
        let mut changed = good.clone();
        change(&mut changed);
        assert!(check(&lesson, &changed, &request).is_err(), "{what}");
    }
}
