//! Many seeds: every built-in sheet is made, or refused with a reason that teaches; what is made is solved afresh, can be read at its
//! step, has no item twice, lists every right answer, and fits both papers.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

#[path = "support/sheets.rs"]
mod sheets;
mod support;

use std::collections::BTreeSet;
use std::sync::Mutex;

use sheafling::layout::{Layout, Options, Print, place};
use sheafling::packet::{MakeError, contents, make};
use sheafling::page::Paper;
use sheafling::pdf;
use sheafling::sheet::Sheet;
use sheafling::sounds::Notation;
use support::{Ask, materials};

/// How many seeds each layout gets, the same number at each of the [`STEPS`].
const SEEDS: usize = 100;

/// As many get those whose words hang together the most: each item on the one before, or all on the columns.
const MORE_SEEDS: (&[&str], usize) = (&["blend-sort", "sound-boxes", "word-ladder"], 500);

/// Before any blends, at those at the start, at the end and of three sounds, and among the vowels.
const STEPS: [&str; 10] = [
    "short-e",
    "sh-ch",
    "l-blends",
    "s-blends",
    "end-blends-s-t",
    "three-at-start",
    "a-e",
    "ai-ay",
    "ar-or",
    "rare-consonants",
];

/// How many of a hundred seeds a layout may refuse at each of the [`STEPS`], as measured; one that is not named may refuse none.
///
/// Before any blends are taught there are none to sort, to choose among or to write; the first at the end come later.
const REFUSED: &[(&str, [usize; STEPS.len()])] = &[
    ("add-a-sound", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("blend-sort", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("blend-strip", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("blend-strip-bare", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("first-blend", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("last-blend", [100, 100, 100, 100, 0, 0, 0, 0, 0, 0]),
    ("match-blends", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("sort-cards", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
    ("swap-the-blend", [100, 100, 0, 0, 0, 0, 0, 0, 0, 0]),
];

/// How many of a hundred sheets made are different at the least; ladders of the first words are the fewest, 64 were measured.
const DIFFERENT: usize = 60;

/// The layouts with more than one page, and the most that they may have.
const LONG: &[(&str, usize)] = &[("board-game", 3), ("sight-words", 2), ("word-cards", 2)];

/// What a reason tells at its end: what to do.
const HELPS: [&str; 3] = ["To get ", "help: ", "choose a later step"];

/// Makes one sheet, holds it to everything, and places it with its key on one of the papers. Gives the reason when it is refused.
fn one(layout: &Layout, step: &str, seed: usize) -> Result<Sheet, String> {
    let ask = Ask { step: Some(step.to_owned()), seed: format!("seed {seed}"), ..Ask::new(&layout.name) };
    let sheet = match contents(&ask.request(), materials()) {
        Ok(mut sheets) => sheets.remove(0),
        Err(MakeError::Fill { source, .. }) => {
            let reason = source.to_string();
            assert!(!reason.contains("fault of the program"), "{ask:?}: {reason}");
            assert!(reason.len() > 40 && HELPS.iter().any(|help| reason.contains(help)), "{ask:?}: {reason:?}");
            return Err(reason);
        }
        Err(other) => panic!("{ask:?}: {other}"),
    };
    let none: Vec<String> = Vec::new();
    assert_eq!(sheets::beyond_the_step(layout, &sheet), none, "beyond the step: {ask:?}");
    assert_eq!(sheets::twice(&sheet), none, "twice: {ask:?}");
    assert_eq!(sheets::wrongly_answered(layout, &sheet, &materials().bank), none, "answers: {ask:?}");
    if let Err(wrong) = sheets::solve(layout, &sheet) {
        panic!("{ask:?}: {wrong}");
    }
    let paper = Paper::ALL[seed % Paper::ALL.len()];
    for key in [false, true] {
        let options = Options { paper, key, notation: Notation::Teacher, print: Print::default() };
        let placed =
            place(layout, &sheet, options).unwrap_or_else(|error| panic!("{ask:?} on {}: {error}", paper.name()));
        let pages = placed.len();
        let most = LONG.iter().find(|(name, _)| *name == layout.name).map_or(1, |(_, most)| *most);
        assert!(pages <= most, "{ask:?} on {}: {pages} pages", paper.name());
    }
    Ok(sheet)
}

/// All seeds of a layout: what each step refuses, and how many different sheets there are among those made.
fn all_seeds(layout: &Layout) -> ([Vec<String>; STEPS.len()], usize, usize) {
    let mut refused: [Vec<String>; STEPS.len()] = Default::default();
    let mut seen = BTreeSet::new();
    let mut made = 0;
    let seeds = if MORE_SEEDS.0.contains(&layout.name.as_str()) { MORE_SEEDS.1 } else { SEEDS };
    for seed in 0..seeds {
        let at = seed * STEPS.len() / seeds;
        match one(layout, STEPS[at], seed) {
            Ok(sheet) => {
                made += 1;
                seen.insert(sheets::words(&sheet).join(" "));
            }
            Err(reason) => refused[at].push(reason),
        }
    }
    (refused, made, seen.len())
}

/// What is wrong with a layout: a step that refuses more than it may, or too few different sheets.
fn wrong_with(layout: &Layout) -> Vec<String> {
    let name = layout.name.as_str();
    let (refused, made, different) = all_seeds(layout);
    let counts = refused.each_ref().map(Vec::len);
    println!("{name}: refused {counts:?}, {different} different of {made}");
    let most = REFUSED.iter().find(|(known, _)| *known == name).map_or([0; STEPS.len()], |(_, most)| *most);
    let each = (made + counts.iter().sum::<usize>()) / STEPS.len();
    let mut wrong = Vec::new();
    for (at, reasons) in refused.iter().enumerate().filter(|(at, reasons)| reasons.len() * 100 > most[*at] * each) {
        let (step, count, most) = (STEPS[at], reasons.len(), most[at]);
        wrong.push(format!("{name} at {step}: {count} of {each} refused, {most} % may be: {}", reasons[0]));
    }
    if different * 100 < made * DIFFERENT {
        wrong.push(format!("{name}: {different} different sheets of {made}"));
    }
    wrong
}

#[test]
fn every_layout_is_made_or_refused_with_a_reason() {
    let names: Vec<&str> = materials().library.all().map(|stored| stored.layout.name.as_str()).collect();
    assert!(
        REFUSED.iter().all(|(name, _)| names.contains(name)) && MORE_SEEDS.0.iter().all(|name| names.contains(name))
    );
    let next = Mutex::new(materials().library.all());
    let wrong = Mutex::new(Vec::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let Some(stored) = next.lock().unwrap().next() else { return };
                    let found = wrong_with(&stored.layout);
                    wrong.lock().unwrap().extend(found);
                }
            });
        }
    });
    let wrong = wrong.into_inner().unwrap();
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// A sample is written as PDF too: whole files, in which every page of sheet and key is counted.
#[test]
fn a_sample_is_written() {
    for name in ["blend-sort", "sound-boxes", "word-ladder", "rhyme-riddles"] {
        for (seed, paper) in (0..4).zip(Paper::ALL.into_iter().cycle()) {
            let ask = Ask { step: Some("ai-ay".to_owned()), seed: format!("seed {seed}"), paper, ..Ask::new(name) };
            let made = make(&ask.request(), materials()).unwrap();
            for document in [&made.document, made.key.as_ref().unwrap()] {
                let bytes = pdf::write(document).unwrap();
                let file = lopdf::Document::load_mem(&bytes).unwrap();
                assert_eq!(file.get_pages().len(), document.pages.len());
                assert!(bytes.len() < 60_000, "{ask:?}: {} bytes", bytes.len());
            }
        }
    }
}
