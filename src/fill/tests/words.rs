use std::collections::BTreeMap;

use super::*;
use crate::bank::Misfit;

const FOCUS: [&str; 6] = ["", "bl", "bl cl fl", "st sp -nd", "br cr dr fr gr pr tr", "spl thr sk"];

#[test]
fn words_are_distinct_even_and_solved() {
    for (name, reader) in READERS {
        for names in FOCUS {
            for seed in 0..6 {
                let fill = spec("words: {count: 6, boxes: true, sounds: [3, 6]}");
                let Ok(filled) = run(&fill, reader, names, &seed.to_string()) else {
                    assert!(names == "spl thr sk" || name != "everything", "{name} {names}");
                    continue;
                };
                assert_distinct(&filled);
                assert_eq!(filled.items.len(), 6);
                for item in &filled.items {
                    assert!(reader(word(&item.word)));
                    assert!(matches!(word(&item.word).boxes(), Ok((_, None))), "{}", item.word);
                }
            }
        }
    }
}

#[test]
fn blends_have_their_share_and_neighbours_differ() {
    for names in ["bl cl fl", "br cr dr fr gr pr tr", "bl st"] {
        for seed in 0..40 {
            let filled = run(&spec("words: {count: 10}"), |_| true, names, &seed.to_string()).unwrap();
            let blends: Vec<&str> = filled.items.iter().map(|item| item.blend.as_deref().unwrap()).collect();
            let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
            for blend in &blends {
                *counts.entry(blend).or_default() += 1;
            }
            assert_eq!(counts.len(), focus(names).len());
            assert!(counts.values().max().unwrap() - counts.values().min().unwrap() <= 1, "{counts:?}");
            assert!(blends.windows(2).all(|pair| pair[0] != pair[1]), "{blends:?}");
        }
    }
}

#[test]
fn a_blend_that_runs_short_is_filled_up_from_the_others_unless_they_must_be_even() {
    // Of words with three sounds to four, few begin with dw.
    let filled = run(&spec("words: {count: 12, sounds: [3, 5]}"), |_| true, "dw st", "a").unwrap();
    let dw = filled.items.iter().filter(|item| item.blend.as_deref() == Some("dw")).count();
    assert!(dw < 6 && filled.items.len() == 12);
    assert!(matches!(
        run(&spec("words: {count: 12, sounds: [3, 5], even: true}"), |_| true, "dw st", "a"),
        Err(FillError::TooFew(_))
    ));
}

#[test]
fn the_blend_is_heard_where_it_is_wanted() {
    for seed in 0..20 {
        let seed = seed.to_string();
        let start = run(&spec("words: {focus: start}"), |_| true, "sp -nd", &seed).unwrap();
        assert!(start.items.iter().all(|item| item.word.starts_with("sp")), "{:?}", shown(&start));
        let end = run(&spec("words: {focus: end}"), |_| true, "sk -nd", &seed).unwrap();
        let codas = [&["S", "K"][..], &["N", "D"]];
        assert!(end.items.iter().all(|item| codas.iter().any(|coda| item.sounds.ends_with(coda))), "{:?}", shown(&end));
        assert!(end.items.iter().all(|item| item.blend.is_some()));
        let any = run(&spec("words: {focus: any, syllables: [2, 2]}"), |_| true, "st -nd", &seed).unwrap();
        assert!(any.items.iter().all(|item| item.syllables() == 2));
        let none = run(&spec("words: {focus: none}"), |_| true, "bl", &seed).unwrap();
        assert!(none.items.iter().all(|item| item.blend.is_none()));
    }
}

impl crate::sheet::Item {
    fn syllables(&self) -> usize {
        word(&self.word).syllables.len()
    }
}

#[test]
fn boxes_are_written_as_a_teacher_fills_them() {
    let only = |spelling: &'static str, allow: &str| {
        let fill = spec(&format!("words: {{count: 1, boxes: true, allow: [{allow}]}}"));
        let request = Request {
            decodable: &|word: &Word| word.spelling == spelling,
            ..request(&(READERS[0].1 as Reader), "", "a")
        };
        fill.run(&request).map(|filled| filled.items[0].clone())
    };
    let answer = |spelling, allow| only(spelling, allow).unwrap().answer.join("|");
    assert_eq!(answer("blank", ""), "b l a n k");
    assert_eq!(answer("brave", ""), "b r a v (e)");
    assert_eq!(answer("queen", "qu"), "q u ee n");
    assert_eq!(answer("fox", "x"), "f o x");
    assert_eq!(only("fox", "x").unwrap().boxes.unwrap().letters, ["f", "o", "x", ""]);
    assert_eq!(answer("knee", "silent"), "kn ee");
    assert!(only("fox", "qu").is_err() && only("knee", "").is_err());
    // Every word that some `allow` lets into boxes comes out of them as the solver fills them.
    let all = [Misfit::X, Misfit::Qu, Misfit::TwoSounds, Misfit::Silent];
    for word in bank().words() {
        let row = crate::fill::boxes::row(word, &all).unwrap_or_else(|| panic!("{}", word.spelling));
        assert_eq!(row.letters.len(), word.sounds.len(), "{}", word.spelling);
        assert_eq!(crate::fill::boxes::written(&row), crate::fill::solve::box_key(word), "{}", word.spelling);
    }
}

#[test]
fn words_to_avoid_bands_and_kinds_are_heeded() {
    let reader: Reader = |_| true;
    let first = spec("words").run(&request(&reader, "bl", "a")).unwrap();
    let avoid: Vec<String> = first.items.iter().map(|item| item.word.clone()).collect();
    let second = spec("words").run(&Request { avoid: avoid.clone(), ..request(&reader, "bl", "a") }).unwrap();
    assert!(second.items.iter().all(|item| !avoid.contains(&item.word)));
    let animals = run(&spec("words: {bands: ['K'], categories: [animal]}"), reader, "", "a").unwrap();
    for item in &animals.items {
        assert_eq!(word(&item.word).band, crate::bank::Band::K);
        assert!(word(&item.word).categories.contains(&crate::bank::Category::Animal));
    }
}

#[test]
fn commoner_words_are_likelier() {
    let mut levels: Vec<u32> = Vec::new();
    let all: Vec<u32> = bank().words().iter().filter(|w| w.syllables.len() == 1).map(|w| w.level.into()).collect();
    for seed in 0..50 {
        let filled = run(&spec("words"), |_| true, "", &seed.to_string()).unwrap();
        levels.extend(filled.items.iter().map(|item| u32::from(word(&item.word).level)));
    }
    let mean = |levels: &[u32]| levels.iter().sum::<u32>() / u32::try_from(levels.len()).unwrap();
    assert!(mean(&levels) < mean(&all), "{} {}", mean(&levels), mean(&all));
}
