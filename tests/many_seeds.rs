//! Many seeds: every sheet is made, or refused with a reason; what is made is solved afresh, can be read, and fits both papers.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

mod support;

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Mutex;

use sheafling::fill::{self, Fill, Filled};
use sheafling::layout::{Layout, Options, Print, place};
use sheafling::packet::{MakeError, contents, make};
use sheafling::page::Paper;
use sheafling::pdf;
use sheafling::seed::{Seed, Stream};
use sheafling::sequence::Step;
use sheafling::sheet::{Kind, Reader, Sheet};
use sheafling::sounds::{Blend, Notation};
use support::{Ask, materials};

/// How many seeds each layout gets at each step.
const SEEDS: usize = 200;

/// Before any blends, at the first and the last of two sounds at the start, among the vowels, and at the end.
const STEPS: [&str; 5] = ["sh-ch", "l-blends", "s-blends", "ai-ay", "rare-consonants"];

/// The built-in layouts, and how many of the [`SEEDS`] each may refuse at each of the [`STEPS`], as measured. A sort has no columns
/// before any blends are taught. A ladder refuses some of the blends that it takes unasked at the end: few words with three sounds at
/// the start lead on.
const REFUSED: [(&str, [usize; 5]); 3] =
    [("blend-sort", [SEEDS, 0, 0, 0, 0]), ("sound-boxes", [0, 0, 0, 0, 0]), ("word-ladder", [0, 0, 0, 0, 60])];

/// The blends that a sheet says it is about.
fn focus(sheet: &Sheet, fill: &Fill) -> Vec<&'static Blend> {
    let named = |name: &String| Blend::named(name).into_iter().find(|blend| blend.side == fill.side());
    sheet.focus.iter().map(|name| named(name).unwrap()).collect()
}

/// Solves a sheet by the library's own solver, from its printed content alone.
fn solve(layout: &Layout, sheet: &Sheet) -> Result<(), fill::Wrong> {
    let materials = materials();
    let step = materials.sequence.numbered(sheet.step.number.try_into().unwrap()).unwrap();
    let taught = materials.sequence.taught(step);
    let decodable = |word: &sheafling::bank::Word| taught.is_decodable(word, &materials.bank);
    let filled = Filled {
        items: sheet.items.clone(),
        columns: sheet.columns.clone(),
        word_bank: sheet.word_bank.clone(),
        tiles: sheet.tiles.clone(),
        boards: sheet.boards.clone(),
        letter_grid: sheet.letter_grid.clone(),
        parts: sheet.parts.clone(),
    };
    let request = fill::Request {
        bank: &materials.bank,
        decodable: &decodable,
        taught,
        step: String::new(),
        by_sight: Vec::new(),
        focus: focus(sheet, &layout.fill),
        count: None,
        avoid: Vec::new(),
        stream: Stream::new(&Seed::new("unused").unwrap(), &[]),
        notation: Notation::Teacher,
    };
    fill::check(&layout.fill, &filled, &request)
}

/// The words that a child reads or writes.
fn words(sheet: &Sheet) -> Vec<&str> {
    let answers = |item: &'_ sheafling::sheet::Item| item.kind == Kind::Rung;
    let items = sheet.items.iter().map(|item| if answers(item) { &item.answer[0] } else { &item.word });
    items
        .chain(&sheet.word_bank)
        .chain(sheet.columns.iter().flat_map(|column| &column.words))
        .map(String::as_str)
        .collect()
}

fn readable(sheet: &Sheet, step: &Step) {
    let materials = materials();
    for spelling in words(sheet) {
        let word = materials.bank.get(spelling).unwrap();
        let verdict = materials.sequence.taught(step).check(word, &materials.bank);
        assert!(
            materials.sequence.taught(step).is_decodable(word, &materials.bank),
            "{}: {spelling}: {verdict}",
            sheet.seed
        );
        assert!(!word.flags.heteronym && !word.flags.irregular, "{}: {spelling}", sheet.seed);
    }
}

/// Makes, solves and places one sheet. Gives the reason when it is refused.
fn one(layout: &Layout, step: &Step, seed: usize) -> Result<Sheet, String> {
    let ask = Ask { step: Some(step.name.clone()), seed: format!("seed {seed}"), ..Ask::new(&layout.name) };
    let sheet = match contents(&ask.request(), materials()) {
        Ok(mut sheets) => sheets.remove(0),
        Err(MakeError::Fill { source, .. }) => {
            let reason = source.to_string();
            assert!(!reason.contains("fault of the program"), "{ask:?}: {reason}");
            assert!(reason.len() > 40, "{ask:?}: {reason:?} is no reason");
            return Err(reason);
        }
        Err(other) => panic!("{ask:?}: {other}"),
    };
    readable(&sheet, step);
    if let Err(wrong) = solve(layout, &sheet) {
        panic!("{ask:?}: {wrong}");
    }
    for paper in Paper::ALL {
        for key in [false, true] {
            let placed =
                place(layout, &sheet, Options { paper, key, notation: Notation::Teacher, print: Print::default() });
            let pages = placed.unwrap_or_else(|error| panic!("{ask:?} on {}: {error}", paper.name())).len();
            assert_eq!(pages, 1, "{ask:?} on {}", paper.name());
        }
    }
    Ok(sheet)
}

#[test]
fn every_sheet_is_made_or_refused_with_a_reason() {
    let names: Vec<&str> = materials().library.all().map(|stored| stored.layout.name.as_str()).collect();
    assert!(REFUSED.iter().all(|(name, _)| names.contains(name)), "say how many sheets each layout may refuse");
    let jobs: Vec<(usize, usize)> = (0..REFUSED.len()).flat_map(|l| (0..STEPS.len()).map(move |s| (l, s))).collect();
    let next = Mutex::new(jobs.iter());
    let refused = Mutex::new(BTreeMap::new());
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let Some(&(l, s)) = next.lock().unwrap().next() else { return };
                    let layout = &materials().library.get(REFUSED[l].0).unwrap().layout;
                    let step = materials().sequence.step(STEPS[s]).unwrap();
                    let reasons: Vec<String> = (0..SEEDS).filter_map(|seed| one(layout, step, seed).err()).collect();
                    refused.lock().unwrap().insert((l, s), reasons);
                }
            });
        }
    });
    let mut wrong = Vec::new();
    for ((l, s), reasons) in refused.into_inner().unwrap() {
        let (name, most) = (REFUSED[l].0, REFUSED[l].1[s]);
        println!("{name} at {}: {} of {SEEDS} refused", STEPS[s], reasons.len());
        if reasons.len() > most {
            wrong.push(format!(
                "{name} at {}: {} of {SEEDS} refused, at most {most} may be: {}",
                STEPS[s],
                reasons.len(),
                reasons[0]
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

/// How many seeds every built-in layout gets at each step.
const FEWER_SEEDS: usize = 10;

/// Every built-in layout is made or refused with a reason; what is made was solved back, and is placed on both papers. At the last
/// step none refuses more than a third.
#[test]
fn every_layout_is_made_or_refused_with_a_reason() {
    for stored in materials().library.all() {
        let layout = &stored.layout;
        for step in STEPS {
            let mut refused = 0;
            for seed in 0..FEWER_SEEDS {
                let ask = Ask { step: Some(step.to_owned()), seed: format!("seed {seed}"), ..Ask::new(&layout.name) };
                let sheet = match contents(&ask.request(), materials()) {
                    Ok(mut sheets) => sheets.remove(0),
                    Err(MakeError::Fill { source, .. }) => {
                        let reason = source.to_string();
                        assert!(reason.len() > 40 && !reason.contains("fault of the program"), "{ask:?}: {reason}");
                        refused += 1;
                        continue;
                    }
                    Err(other) => panic!("{ask:?}: {other}"),
                };
                for paper in Paper::ALL {
                    for key in [false, true] {
                        let placed = place(
                            layout,
                            &sheet,
                            Options { paper, key, notation: Notation::Teacher, print: Print::default() },
                        );
                        // Only a child's sheet has a key.
                        let none = key && layout.reader != Reader::Child;
                        assert!(placed.is_ok_and(|placed| placed.is_empty() == none), "{ask:?} on {}", paper.name());
                    }
                }
            }
            println!("{} at {step}: {refused} of {FEWER_SEEDS} refused", layout.name);
            assert!(step != STEPS[4] || refused * 3 <= FEWER_SEEDS + 5, "{} at {step}: {refused} refused", layout.name);
        }
    }
}

/// A sample is written as PDF too: whole files, in which every page of sheet and key is counted.
#[test]
fn a_sample_is_written() {
    for (name, _) in REFUSED {
        for (seed, paper) in (0..6).zip(Paper::ALL.into_iter().cycle()) {
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

/// Seeds differ in what they give: of thirty sheets nearly all are different. Ladders are the fewest; 28 were measured.
#[test]
fn seeds_give_different_sheets() {
    for (name, _) in REFUSED {
        let mut seen = BTreeSet::new();
        for seed in 0..30 {
            let focus = Some("bl cl fl".to_owned());
            let ask = Ask { step: Some("ai-ay".to_owned()), focus, seed: format!("seed {seed}"), ..Ask::new(name) };
            let sheet = contents(&ask.request(), materials()).unwrap().remove(0);
            seen.insert(words(&sheet).join(" "));
        }
        println!("{name}: {} different sheets of 30", seen.len());
        assert!(seen.len() >= 25, "{name}: {} different sheets of 30", seen.len());
    }
}
