//! What each built-in sheet looks like on both papers, as its layout says and for each of the three bands, and its key, held against
//! the pictures in `tests/pages`: a folder for each layout, and in it `letter-sheet.png`, `letter-sheet-K.png`, `letter-key.png`
//! and so on, with the pages of a sheet side by side.
//!
//! `SHEAFLING_BLESS=1 cargo test --test pages` writes the pictures anew: look at each before it is committed.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]
#![allow(
    clippy::cast_precision_loss,
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a picture's dots are small whole numbers"
)]

#[path = "support/glyphs.rs"]
mod glyphs;
#[path = "support/picture.rs"]
mod picture;
#[path = "support/reference.rs"]
mod reference;
mod support;

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::sync::Mutex;

use sheafling::layout::{Layout, Options, Print, PrintBand, place};
use sheafling::packet::contents;
use sheafling::page::{Length, Mark, Paper};
use sheafling::sounds::Notation;
use support::{Ask, materials, pages};

/// The step of the pictures, unless the layout names one: everything on one syllable up to long a.
const STEP: &str = "ai-ay";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pages")
}

/// Every look of a sheet: as its layout says, for each band, and its key as its layout says; each with the end of its file's name.
fn looks() -> Vec<(String, bool, Print)> {
    let plain = Print::default();
    let of = |band: PrintBand| (format!("sheet-{}", band.name()), false, Print { band: Some(band), ..plain });
    let mut looks = vec![("sheet".to_owned(), false, plain), ("key".to_owned(), true, plain)];
    looks.extend(PrintBand::ALL.map(of));
    looks
}

/// Holds all pictures of a layout. Gives their names and what is wrong.
fn hold(layout: &Layout) -> (BTreeSet<String>, Vec<String>) {
    let ask = Ask {
        step: Some(layout.step.clone().unwrap_or_else(|| STEP.to_owned())),
        focus: Some(layout.focus.join(" ")),
        child: Some("Ada".to_owned()),
        ..Ask::new(&layout.name)
    };
    let sheet = contents(&ask.request(), materials()).unwrap().remove(0);
    let (mut known, mut wrong) = (BTreeSet::new(), Vec::new());
    for paper in Paper::ALL {
        for (look, key, print) in looks() {
            let options = Options { paper, key, notation: Notation::Teacher, print };
            let document = pages(place(layout, &sheet, options).unwrap());
            // Only a child's sheet has a key.
            if document.pages.is_empty() {
                continue;
            }
            let drawn: Vec<_> = document.pages.iter().map(picture::draw).collect();
            let name = format!("{}/{}-{look}.png", layout.name, paper.name());
            wrong.extend(reference::hold(&folder().join(&name), &name, &picture::Picture::in_a_row(&drawn)));
            known.insert(name);
        }
    }
    (known, wrong)
}

#[test]
fn sheets_look_as_they_did() {
    let next = Mutex::new(materials().library.all());
    let found = Mutex::new((BTreeSet::new(), Vec::new()));
    std::thread::scope(|scope| {
        for _ in 0..std::thread::available_parallelism().map_or(1, usize::from) {
            scope.spawn(|| {
                loop {
                    let Some(stored) = next.lock().unwrap().next() else { return };
                    let (known, wrong) = hold(&stored.layout);
                    let mut found = found.lock().unwrap();
                    found.0.extend(known);
                    found.1.extend(wrong);
                }
            });
        }
    });
    let (known, mut wrong) = found.into_inner().unwrap();
    for name in pictures(&folder(), "") {
        if !known.contains(&name) {
            wrong.push(format!("{name}: no sheet looks like that any more; delete it"));
        }
    }
    wrong.sort();
    assert!(
        wrong.is_empty(),
        "{}\nLook, and if it is meant: SHEAFLING_BLESS=1 cargo test --test pages",
        wrong.join("\n")
    );
}

/// Every file in a folder and in those within it, by its path from there.
fn pictures(folder: &Path, before: &str) -> Vec<String> {
    let mut names = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let entry = entry.unwrap();
        let name = format!("{before}{}", entry.file_name().to_string_lossy());
        if entry.path().is_dir() {
            names.extend(pictures(&entry.path(), &format!("{name}/")));
        } else {
            names.push(name);
        }
    }
    names
}

/// The pictures that the README shows are among those that are held.
#[test]
fn the_readme_shows_them() {
    let readme = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md")).unwrap();
    let shown: Vec<&str> = readme.split("](tests/pages/").skip(1).filter_map(|rest| rest.split(')').next()).collect();
    assert!(shown.len() > 3, "{shown:?}");
    for name in shown {
        assert!(folder().join(name).is_file(), "{name}");
    }
}

/// The comparison itself: a line moved by less than half a millimetre and a changed letter of the smallest print are both seen.
#[test]
fn small_changes_are_seen() {
    let made = sheafling::packet::make(&Ask::new("sound-boxes").request(), materials()).unwrap();
    let page = &made.document.pages[0];
    let before = picture::draw(page);
    assert_eq!(before.differing(&picture::draw(page)), 0);

    let mut moved = page.clone();
    let line = moved.marks.iter_mut().find_map(|mark| match mark {
        Mark::Line { from, to, .. } => Some((from, to)),
        _ => None,
    });
    let (from, to) = line.unwrap();
    (from.y, to.y) = (from.y + Length::um(400), to.y + Length::um(400));
    assert!(before.differing(&picture::draw(&moved)) > reference::FEW);

    let mut changed = page.clone();
    let small = changed.marks.iter_mut().rev().find_map(|mark| match mark {
        Mark::Text { text, size, .. } if *size == Length::pt(8) => Some(text),
        _ => None,
    });
    let text = small.unwrap();
    *text = text.replacen("calm", "balm", 1);
    assert!(before.differing(&picture::draw(&changed)) > reference::FEW);
}

#[test]
fn pictures_are_read_as_they_were_written() {
    let greys = (0..7 * 5).map(|at| at % picture::GREYS).collect();
    let odd = picture::Picture { width: 7, height: 5, greys };
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("odd.png");
    std::fs::write(&path, odd.to_png()).unwrap();
    assert_eq!(picture::Picture::from_png(&path), Some(odd));
}
