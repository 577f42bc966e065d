//! What is said when something is wrong, held against the files in `tests/commands`, and that nothing is half written then.
//!
//! `INSTA_UPDATE=always cargo test --test messages` writes them anew: read each difference before it is committed. Where a text
//! counts words of the bank, its numbers stand as `#`, so that a new word changes nothing here.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

mod support;
#[path = "support/told.rs"]
#[macro_use]
mod told;

use std::fs;

use support::sheafling;
use told::{Place, counts_hidden, with};

#[test]
fn wrong_options() {
    let place = Place::new();
    let sheet = |more: &[&str]| place.says(&[&["sheet", "sound-boxes", "--seed", "s"], more].concat());
    let say = [
        place.says(&["sheet", "sound-box"]),
        place.says(&["sheet", "zzzzzz"]),
        place.says(&["sheet", "missing.yaml"]),
        sheet(&["--step", "silent-e"]),
        sheet(&["--step", "0"]),
        sheet(&["--focus", "bl cll"]),
        sheet(&["--focus", "-bl"]),
        sheet(&["--focus", "nd"]),
        sheet(&["--count", "0"]),
        sheet(&["--count", "61"]),
        sheet(&["--count", "-1"]),
        sheet(&["--count", "many"]),
        place.says(&["sheet", "sound-boxes", "--seed", " "]),
        place.says(&["sheet", "sound-boxes", "--seed", &"x".repeat(61)]),
        sheet(&["--paper", "a5"]),
        sheet(&["--colour"]),
        place.says(&["sheet", "blend-sort", "--seed", "s", "--focus", "bl"]),
        place.says(&["sheet", "blend-sort", "--seed", "s", "--focus", "bl cl", "--count", "1"]),
        place.says(&["sheet", "word-ladder", "--seed", "s", "--count", "11"]),
        place.says(&["shet", "sound-boxes"]),
        place.says(&[]).lines().filter(|line| line.starts_with('[')).collect(),
    ];
    hold!("wrong-options", say.join("\n"));
}

#[test]
fn too_few_words() {
    let place = Place::new();
    let say = [
        place.says(&["sheet", "sound-boxes", "--seed", "s", "--focus", "spl", "--count", "30"]),
        place.says(&["sheet", "sound-boxes", "--seed", "s", "--focus", "bl", "--step", "first-words"]),
        place.says(&["sheet", "blend-sort", "--seed", "s", "--focus", "tw sm", "--step", "s-blends", "--count", "30"]),
        place.says(&[
            "sheet",
            "word-ladder",
            "--seed",
            "s",
            "--focus",
            "spl",
            "--step",
            "three-at-start",
            "--count",
            "10",
        ]),
    ];
    assert!(say.iter().all(|text| text.ends_with("[exit code 1]\n")), "{}", say.join("\n"));
    hold!("too-few-words", counts_hidden(&say.join("\n")));
}

#[test]
fn wrong_plans() {
    let place = Place::new();
    let packet = |name: &str, text: &str| place.says(&["packet", &place.file(name, text), "--seed", "s"]);
    let say = [
        place.says(&["packet", &place.path("missing.yaml")]),
        place.says(&["packet", &place.path("")]),
        packet("key.yaml", "title: Week\nsheet:\n  - sound-boxes\n"),
        packet("nested.yaml", "title: Week\nsheets:\n  - layout: sound-boxes\n    cuont: 8\n"),
        packet("type.yaml", "title: Week\nsheets:\n  - layout: sound-boxes\n    count: eight\n"),
        packet("twice.yaml", "title: Week\ntitle: Again\nsheets: [sound-boxes]\n"),
        packet("form.yaml", "title: Week\nsheets: [sound-boxes\n"),
        packet("tab.yaml", "title: Week\nsheets:\n\t- sound-boxes\n"),
        packet("none.yaml", "title: Week\nsheets: []\n"),
        packet("empty.yaml", ""),
        packet("layout.yaml", "title: Week\nsheets: [sound-boxes, word-lader]\n"),
        packet("step.yaml", "title: Week\nstep: silent\nsheets: [sound-boxes]\n"),
        packet("blend.yaml", "title: Week\nfocus: [bl, xl]\nsheets: [sound-boxes]\n"),
        packet("paper.yaml", "title: Week\npaper: a5\nsheets: [sound-boxes]\n"),
        packet("seed.yaml", "title: Week\nseed: ''\nsheets: [sound-boxes]\n"),
        packet("title.yaml", "title: ''\nsheets: [sound-boxes]\n"),
    ];
    assert!(say.iter().all(|text| text.ends_with("[exit code 2]\n")), "{}", say.join("\n"));
    hold!("wrong-plans", say.join("\n"));
    let few = packet("few.yaml", "title: Week\nsheets: [sound-boxes, {layout: sound-boxes, focus: spl, count: 40}]\n");
    hold!("packet-too-few-words", counts_hidden(&few));
}

/// A layout file that is right, to be made wrong.
const LAYOUT: &str = "\
name: mine
title: My sheet
directions: Read each word.
skill: Reads words.
focus: [bl, cl]
fill:
  words: {count: 6, boxes: true}
page:
  - title
  - grid:
      columns: 2
      cell:
        - text: {of: \"{n}. {word}\", size: 24}
        - boxes: {size: [14, 17]}
";

#[test]
fn wrong_layouts() {
    let place = Place::new();
    let out = place.path("right.pdf");
    let right = place.file("right.yaml", LAYOUT);
    assert_eq!(sheafling(&["sheet", &right, "--seed", "s", "--out", &out]).code, 0);
    let changed = |name: &str, from: &str, to: &str| {
        assert!(LAYOUT.contains(from));
        let file = place.file(name, &LAYOUT.replacen(from, to, 1));
        place.says(&["sheet", &file, "--seed", "s", "--out", &out])
    };
    let say = [
        changed("key.yaml", "skill:", "skil:"),
        changed("nested-key.yaml", "columns: 2", "colums: 2"),
        changed("deep-key.yaml", "size: 24}", "siez: 24}"),
        changed("block.yaml", "- title", "- titel"),
        changed("piece.yaml", "- boxes:", "- box:"),
        changed("way.yaml", "words: {count: 6, boxes: true}", "word: {count: 6}"),
        changed("count.yaml", "count: 6", "count: 90"),
        changed("count-type.yaml", "count: 6", "count: six"),
        changed("size.yaml", "size: 24}", "size: 240}"),
        changed("range.yaml", "[14, 17]", "[17, 14]"),
        changed("text.yaml", "{word}", "{wrod}"),
        changed("brace.yaml", "{word}", "{word"),
        changed("name.yaml", "name: mine", "name: My Sheet"),
        changed("missing.yaml", "title: My sheet\n", ""),
        changed("undrawable.yaml", "My sheet", "My 言葉"),
    ];
    assert!(say.iter().all(|text| text.ends_with("[exit code 2]\n")), "{}", say.join("\n"));
    hold!("wrong-layouts", say.join("\n"));
    let folder = place.path("missing-folder");
    hold!("wrong-layouts-folder", place.says(&["list", "layouts", "--layouts", &folder]));
}

#[test]
fn too_wide_for_the_page() {
    let place = Place::new();
    let wide = LAYOUT.replace("[14, 17]", "60");
    let file = place.file("wide.yaml", &wide);
    hold!("too-wide", place.says(&["sheet", &file, "--seed", "s", "--out", &place.path("wide.pdf")]));
}

/// Root may write into any folder, so a place that can't be written is one below a file.
#[test]
fn places_that_cannot_be_written() {
    let place = Place::new();
    let file = place.file("file", "former");
    let below = place.path("file/deep/a.pdf");
    fs::create_dir(place.path("taken-key.pdf")).unwrap();
    let taken = place.file("taken.pdf", "former");
    let say = [
        place.says(&with(&["sheet", "sound-boxes"], &["--out", &below])),
        place.says(&with(&["sheet", "sound-boxes"], &["--out", &taken, "--key", "apart"])),
        place.says(&with(&["sheet", "sound-boxes"], &["--out", &place.path("taken-key.pdf/"), "--format", "json"])),
    ];
    hold!("unwritable", say.join("\n"));
    assert_eq!(fs::read_to_string(&file).unwrap(), "former");
    assert_eq!(fs::read_to_string(&taken).unwrap(), "former", "the sheet must not be there without its key");
    assert_eq!(place.names(""), ["file", "taken-key.pdf", "taken.pdf"]);
    assert_eq!(place.names("taken-key.pdf"), [""; 0]);
}

/// A run that fails changes nothing: not the former file, and no file that is half written is left.
#[test]
fn a_run_that_fails_leaves_the_former_file() {
    let place = Place::new();
    let former = place.file("a.pdf", "former");
    for more in [&["--count", "60"][..], &["--focus", "zz"], &["--step", "zz"]] {
        let outcome = sheafling(&[&["sheet", "word-ladder", "--seed", "s", "--out", &former], more].concat());
        assert_ne!(outcome.code, 0);
        assert!(outcome.out.is_empty() && outcome.err.starts_with("error: "), "{}", outcome.err);
        assert_eq!(fs::read_to_string(&former).unwrap(), "former");
    }
    assert_eq!(place.names(""), ["a.pdf"]);
    assert_eq!(sheafling(&with(&["sheet", "word-ladder"], &["--out", &former])).code, 0);
    assert!(fs::read(&former).unwrap().starts_with(b"%PDF-"));
    assert_eq!(place.names(""), ["a.manifest.json", "a.pdf"]);
}
