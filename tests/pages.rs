//! What each built-in sheet and its key look like on both papers, held against pictures in `tests/pages`.
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

use sheafling::page::{Length, Mark, Paper};
use support::{Ask, materials};

/// The step of the pictures, unless the layout names one: everything on one syllable up to long a.
const STEP: &str = "ai-ay";

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/pages")
}

#[test]
fn sheets_look_as_they_did() {
    let mut wrong = Vec::new();
    let mut known = BTreeSet::new();
    for stored in materials().library.all() {
        let layout = &stored.layout;
        for paper in Paper::ALL {
            let ask = Ask {
                step: Some(layout.step.clone().unwrap_or_else(|| STEP.to_owned())),
                focus: Some(layout.focus.join(" ")),
                child: Some("Ada".to_owned()),
                paper,
                ..Ask::new(&layout.name)
            };
            let made = sheafling::packet::make(&ask.request(), materials()).unwrap();
            // A page for the teacher or the family has no key.
            let key = made.key.as_ref().map(|key| ("key", key));
            for (kind, document) in [("sheet", &made.document)].into_iter().chain(key) {
                for (at, page) in document.pages.iter().enumerate() {
                    let number = if at == 0 { String::new() } else { format!("-{}", at + 1) };
                    let name = format!("{}-{}-{kind}{number}.png", layout.name, paper.name());
                    wrong.extend(reference::hold(&folder().join(&name), &picture::draw(page)));
                    known.insert(name);
                }
            }
        }
    }
    for entry in std::fs::read_dir(folder()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        if !known.contains(&name) {
            wrong.push(format!("{name}: no page looks like that any more; delete it"));
        }
    }
    assert!(
        wrong.is_empty(),
        "{}\nLook, and if it is meant: SHEAFLING_BLESS=1 cargo test --test pages",
        wrong.join("\n")
    );
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
