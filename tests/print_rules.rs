//! What must hold of every printed page, looked up in its marks: with long names, the widest words, and as many items as there are.
//!
//! The numbers are common practice, no source, except for the papers (ANSI/ASME Y14.1, ISO 216).
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]
#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    reason = "lengths on a page are far below 2^52 nanometres, and outlines are measured in small dots"
)]

#[path = "support/glyphs.rs"]
mod glyphs;
#[path = "support/rules.rs"]
mod rules;
mod support;

use sheafling::bank::Word;
use sheafling::layout::{Layout, Options, place};
use sheafling::packet::contents;
use sheafling::page::{Document, Face, Length, Paper};
use sheafling::sheet::{BoxRow, Sheet};
use sheafling::sounds::Notation;
use support::{Ask, materials, pages};

/// As wide as twenty-five letters get.
const WIDE_NAME: &str = "WWWWWWWWWWWWWWWWWWWWWWWWW";

/// As long a seed as there can be.
const WIDE_SEED: &str = "mmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmmm";

/// The layouts whose every page is held to all rules, with as many items and as wide words as there are.
const STRICT: [&str; 3] = ["blend-sort", "sound-boxes", "word-ladder"];

fn layouts() -> impl Iterator<Item = &'static Layout> {
    STRICT.iter().map(|name| &materials().library.get(name).unwrap().layout)
}

/// Every built-in layout: nothing in the margins, no text over another, no ink or line that a copy loses, and a footer on each page.
#[test]
fn every_layout_keeps_to_the_page() {
    for stored in materials().library.all() {
        let layout = &stored.layout;
        for (seed, name) in [("calm-otter-42", "Ada"), (WIDE_SEED, WIDE_NAME)] {
            let ask = Ask { child: Some(name.to_owned()), seed: seed.to_owned(), ..Ask::new(&layout.name) };
            let sheet = sheet(&ask);
            for paper in Paper::ALL {
                for key in [false, true] {
                    let wrong = rules::off_the_page(&placed(layout, &sheet, paper, key), &sheet);
                    let what = if key { "key" } else { "sheet" };
                    assert!(wrong.is_empty(), "{} {what} on {}:\n{}", layout.name, paper.name(), wrong.join("\n"));
                }
            }
        }
    }
}

fn placed(layout: &Layout, sheet: &Sheet, paper: Paper, key: bool) -> Document {
    pages(place(layout, sheet, Options { paper, key, notation: Notation::Teacher }).unwrap())
}

/// Holds a sheet and its key on both papers to all rules. Gives the most pages of any.
#[track_caller]
fn holds(layout: &Layout, sheet: &Sheet, case: &str) -> usize {
    let mut most = 0;
    for paper in Paper::ALL {
        for key in [false, true] {
            let document = placed(layout, sheet, paper, key);
            let what = if key { "key" } else { "sheet" };
            let wrong = rules::broken(&document, sheet, key);
            assert!(wrong.is_empty(), "{} {what} on {}, {case}:\n{}", layout.name, paper.name(), wrong.join("\n"));
            most = most.max(document.pages.len());
        }
    }
    most
}

fn sheet(ask: &Ask) -> Sheet {
    contents(&ask.request(), materials()).unwrap().remove(0)
}

#[test]
fn usual_sheets_fit_one_page() {
    for layout in layouts() {
        for seed in ["calm-otter-42", "7", "brisk-barn-10"] {
            let sheet = sheet(&Ask { seed: seed.to_owned(), ..Ask::new(&layout.name) });
            assert_eq!(holds(layout, &sheet, seed), 1, "{} with seed {seed}", layout.name);
        }
    }
}

#[test]
fn long_names_and_seeds_fit() {
    for layout in layouts() {
        for name in ["Maximiliana-Josephine-Ada", WIDE_NAME, &"W".repeat(40), "j", "Ada ĕ Ĝ Å"] {
            let ask = Ask { child: Some(name.to_owned()), seed: WIDE_SEED.to_owned(), ..Ask::new(&layout.name) };
            holds(layout, &sheet(&ask), name);
        }
    }
}

/// The words of one syllable that the bank has, the widest in print first.
fn widest(fits: impl Fn(&Word) -> bool) -> Vec<&'static Word> {
    let mut words: Vec<&Word> =
        materials().bank.words().iter().filter(|word| word.syllables.len() == 1 && fits(word)).collect();
    words.sort_by_key(|word| std::cmp::Reverse(Face::Regular.width(&word.spelling, Length::pt(20))));
    words
}

/// The same sheet with the widest words of the bank in place of its own, with `sounds` sounds or fewer.
fn widened(sheet: &Sheet, sounds: usize) -> Sheet {
    let boxed = sheet.items.iter().any(|item| item.boxes.is_some());
    let words = widest(|word| word.sounds.len() <= sounds && (!boxed || matches!(word.boxes(), Ok((_, None)))));
    let mut wide = sheet.clone();
    for (item, word) in wide.items.iter_mut().zip(&words) {
        item.word.clone_from(&word.spelling);
        item.letters = word.groups();
        item.sounds = word.codes();
        item.boxes = item.boxes.as_ref().and_then(|before| {
            let (boxes, _) = word.boxes().ok()?;
            Some(BoxRow { letters: boxes.letters, after: boxes.after, marked: before.marked })
        });
    }
    let mut spellings = words.iter().map(|word| word.spelling.clone());
    for word in &mut wide.word_bank {
        *word = spellings.next().unwrap();
    }
    let mut spellings = words.iter().map(|word| word.spelling.clone());
    for word in wide.columns.iter_mut().flat_map(|column| &mut column.words) {
        *word = spellings.next().unwrap();
    }
    wide
}

#[test]
fn the_widest_words_fit() {
    for layout in layouts() {
        // Boxes are wider with more sounds, letters with fewer: both ends of what the built-in layouts ask for.
        for sounds in [5, 4] {
            let wide = widened(&sheet(&Ask::new(&layout.name)), sounds);
            holds(layout, &wide, &format!("the widest words of up to {sounds} sounds"));
        }
    }
}

#[test]
fn the_widest_headers_fit() {
    for layout in layouts().filter(|layout| layout.fill.name() == "columns") {
        let ask = Ask { focus: Some("scr spl str spr".to_owned()), count: Some(8), ..Ask::new(&layout.name) };
        let sheet = sheet(&ask);
        assert_eq!(sheet.columns.len(), 4);
        holds(layout, &sheet, "four wide headers");
    }
}

/// As many items as each way of choosing allows, or as there are words for.
#[test]
fn as_many_items_as_can_be_asked_for_fit() {
    for layout in layouts() {
        let (most, focus) = match layout.fill.name() {
            "words" => (60, "bl cl fl gl pl sl br cr dr fr gr pr tr st sp sn"),
            "columns" => (60, "br cr gr tr"),
            "chain" => (10, "bl cl fl br cr gr st"),
            other => panic!("say how many items {other} can have"),
        };
        let counts: Vec<usize> =
            if most == 60 { vec![13, 16, 17, 21, 26, 30, 41, 59, 60] } else { (7..=most).collect() };
        for count in counts {
            let ask = Ask { focus: Some(focus.to_owned()), count: Some(count), ..Ask::new(&layout.name) };
            let sheet = sheet(&ask);
            let long = holds(layout, &sheet, &format!("{count} items"));
            if count == 60 {
                assert!(long > 1, "{}: {count} items on one page", layout.name);
            }
            holds(layout, &widened(&sheet, 5), &format!("{count} wide items"));
        }
    }
}
