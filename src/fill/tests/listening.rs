//! Words that are heard: choosing a blend, finding its place, putting sounds together.

use std::collections::BTreeMap;

use super::*;
use crate::fill::{Pick, Places, Spoken, Wrong, check};
use crate::sequence::Sequence;
use crate::sounds::Place;

/// The step from which each word can be read in the built-in sequence.
fn step_of(word: &Word) -> u16 {
    static STEPS: OnceLock<Vec<Option<u16>>> = OnceLock::new();
    let steps = STEPS.get_or_init(|| Sequence::builtin().unwrap().steps_of(bank()));
    bank().index_of(&word.spelling).and_then(|at| steps[at]).unwrap_or(u16::MAX)
}

/// Readers at steps of the built-in sequence: early, at the first blends, in the middle, at the end.
pub(super) const AT_STEPS: [(&str, Reader); 5] = [
    ("short-u", |word| step_of(word) <= 4),
    ("l-blends", |word| step_of(word) <= 13),
    ("s-blends", |word| step_of(word) <= 15),
    ("a-e", |word| step_of(word) <= 21),
    ("two-syllables", |word| step_of(word) <= 40),
];

/// What the solver says after `change` was made to good content.
pub(super) fn tampered(text: &str, names: &str, change: impl FnOnce(&mut Filled)) -> Result<(), Wrong> {
    let reader: Reader = |_| true;
    let fill = spec(text);
    let request = request(&reader, names, "a");
    let mut filled = fill.run(&request).unwrap();
    assert_eq!(check(&fill, &filled, &request), Ok(()));
    change(&mut filled);
    check(&fill, &filled, &request)
}

/// Runs a way over seeds, steps and focus sets; gives the content that was made. What is refused must say why.
pub(super) fn over_all(text: &str, focuses: &[&str], mut seen: impl FnMut(&str, Reader, Filled)) -> usize {
    let fill = spec(text);
    let mut made = 0;
    for (at, (name, reader)) in AT_STEPS.into_iter().enumerate() {
        for (nth, names) in focuses.iter().enumerate() {
            // A hundred seeds once, at the step a-e; a few for each other step and focus.
            for seed in 0..if at == 3 && nth == 1 { 100 } else { 4 } {
                match fill.run(&request(&reader, names, &seed.to_string())) {
                    Ok(filled) => {
                        made += 1;
                        seen(names, reader, filled);
                    }
                    Err(FillError::Wrong(wrong)) => panic!("{text} {name} {names} {seed}: {wrong}"),
                    Err(error) => {
                        assert!(error.to_string().len() > 40, "{error}");
                        break;
                    }
                }
            }
        }
    }
    made
}

#[test]
fn one_choice_fits_and_stands_at_each_place_equally_often() {
    for text in ["pick: {count: 9, choices: 3}", "pick: {count: 8, choices: 4, side: end}"] {
        let made = over_all(text, &["", "bl cl fl -nd -st", "str scr"], |_, _, filled| {
            assert_distinct(&filled);
            let mut places: BTreeMap<usize, usize> = BTreeMap::new();
            for item in &filled.items {
                let right = item.choices.iter().position(|choice| *choice == item.answer[0]).unwrap();
                *places.entry(right).or_default() += 1;
                let sounds = |name: &str| Blend::named(name).first().unwrap().sounds;
                let heard = &word(&item.word).sounds;
                let fitting =
                    item.choices.iter().filter(|name| heard.windows(sounds(name).len()).any(|w| w == sounds(name)));
                assert_eq!(fitting.count(), 1, "{} {:?}", item.word, item.choices);
            }
            assert!(places.values().max().unwrap() - places.values().min().unwrap() <= 1, "{places:?}");
        });
        assert!(made >= 100, "{text}: {made}");
    }
}

#[test]
fn the_other_choices_are_near_in_sound_where_they_can_be() {
    let filled = run(&spec("pick"), |_| true, "bl cl fl", "a").unwrap();
    for item in &filled.items {
        let sounds = |name: &str| Blend::named(name)[0].sounds;
        let right = sounds(&item.answer[0]);
        assert!(
            item.choices.iter().all(|choice| sounds(choice).iter().any(|sound| right.contains(sound))),
            "{:?}",
            item.choices
        );
    }
    // At the step of the first blends only those are choices, and the words need not be readable.
    let filled = run(&spec("pick: {count: 20}"), AT_STEPS[1].1, "bl cl fl", "a").unwrap();
    assert!(filled.items.iter().flat_map(|item| &item.choices).all(|choice| choice.ends_with('l')));
    assert!(filled.items.iter().any(|item| !AT_STEPS[1].1(word(&item.word))));
}

#[test]
fn too_few_taught_blends_are_said() {
    let error = run(&spec("pick: {side: end}"), AT_STEPS[1].1, "", "a").unwrap_err().to_string();
    assert!(error.contains("only nk is taught"), "{error}");
}

#[test]
fn choices_that_were_tampered_with_are_caught() {
    let caught = |change: fn(&mut Filled)| assert!(tampered("pick", "bl cl", change).is_err());
    caught(|f| f.items[0].answer = vec!["st".into()]);
    caught(|f| f.items[0].shown = vec!["stop".into()]);
    caught(|f| drop(f.items[0].choices.pop()));
    caught(|f| f.items[0].choices[0] = f.items[0].choices[1].clone());
    caught(|f| f.items[0].choices[0] = "blorp".into());
    caught(|f| f.items[1] = f.items[0].clone());
    assert!(Pick { choices: 5, ..Pick::default() }.validate().len() == 1);
}

#[test]
fn each_place_has_a_third_and_the_blend_is_heard_once() {
    let made = over_all("places: {count: 12}", &["", "bl cl fl", "st sk -mp", "str"], |_, _, filled| {
        assert_distinct(&filled);
        for place in Place::ALL {
            assert_eq!(filled.items.iter().filter(|item| item.place == Some(place)).count(), 4);
        }
        for item in &filled.items {
            let word = word(&item.word);
            let blend = item.blend.as_deref().unwrap();
            assert!(word.blends().any(|(b, place)| b.name == blend && Some(place) == item.place), "{}", item.word);
            assert!(!word.spelling.contains('x'));
        }
    });
    assert_eq!(made, 19 * 4 + 100);
}

#[test]
fn a_place_of_its_own_is_for_the_focus_where_it_can_stand() {
    let filled = run(&spec("places: {count: 12}"), |_| true, "st sp", "a").unwrap();
    let beginnings = filled.items.iter().filter(|item| item.place == Some(Place::Beginning));
    assert!(beginnings.into_iter().all(|item| ["st", "sp"].contains(&item.blend.as_deref().unwrap())));
    let filled = run(&spec("places: {count: 12}"), |_| true, "bl cl fl", "a").unwrap();
    assert!(filled.items.iter().all(|item| item.place != Some(Place::End) || !["bl", "cl", "fl"].contains(&item.blend.as_deref().unwrap())));
}

#[test]
fn places_that_were_tampered_with_are_caught() {
    let caught = |change: fn(&mut Filled)| assert!(tampered("places", "st sp", change).is_err());
    caught(|f| f.items[0].answer = vec!["nowhere".into()]);
    caught(|f| f.items[0].place = None);
    caught(|f| f.items[0].shown.reverse());
    caught(|f| drop(f.items[0].texts.insert("listen".into(), "/z/".into())));
    caught(|f| f.items[0].blend = Some("gl".into()));
    caught(|f| drop(f.items.pop()));
    assert!(!Places { syllables: crate::fill::Span::new(1, 1), ..Places::default() }.validate().is_empty());
}

#[test]
fn sounds_make_one_word_or_all_that_sound_alike() {
    let mut also = 0;
    let made = over_all("spoken: {count: 8}", &["", "bl cl fl", "st sp"], |_, reader, filled| {
        assert_distinct(&filled);
        for item in &filled.items {
            assert!(reader(word(&item.word)), "{}", item.word);
            assert!(item.answer.iter().all(|answer| word(answer).sounds == word(&item.word).sounds));
            also += usize::from(item.answer.len() > 1);
        }
    });
    assert!(made >= 100 && also > 5, "{made} {also}");
}

#[test]
fn sounds_that_were_tampered_with_are_caught() {
    let caught = |change: fn(&mut Filled)| assert!(tampered("spoken", "bl cl", change).is_err());
    caught(|f| f.items[0].answer.push("stop".into()));
    caught(|f| f.items[0].answer.clear());
    caught(|f| f.items[0].shown.reverse());
    caught(|f| f.items[0].shown[0] = "b".into());
    caught(|f| f.items.swap_remove(0).answer.clear());
    assert!(!Spoken { count: 0, ..Spoken::default() }.validate().is_empty());
}
