//! A seed that a teacher wrote down goes on giving the same words. `promises/v1.tsv` has fingerprints of contents that were chosen
//! by version 1 of the rules, from a bank, a sequence and layouts that are kept beside it and never change. A fingerprint that
//! comes out otherwise means that the rules of choosing have changed: that takes a new version (`seed::Rules`), under which the
//! old rules stay callable, and a file of its own here. The lines of a version are never changed once they are released.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

use std::fmt::Write as _;
use std::fs;
use std::path::{Path, PathBuf};

use sheafling::bank::Bank;
use sheafling::fill::{Hand, Seat};
use sheafling::layout::Library;
use sheafling::packet::{Materials, PacketRequest, Plan, contents};
use sheafling::seed::Rules;
use sheafling::sequence::Sequence;
use sheafling::sheet::Sheet;
use sheafling::sounds::Counting;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/promises")
}

/// The bank, sequence and layouts as they were when the promises were made.
fn kept() -> Materials {
    let text = |name: &str| fs::read_to_string(folder().join(name)).unwrap();
    let mut library = Library::default();
    library.lay_over(&folder().join("layouts")).unwrap();
    let bank = Bank::read(&text("bank.txt"), Counting::default()).unwrap();
    Materials::new(bank, Sequence::from_text("sequence.yaml", &text("sequence.yaml")).unwrap(), library)
}

/// The chosen content alone, in a form that does not change when titles, directions or further fields do.
fn told(sheet: &Sheet) -> String {
    let mut text = String::new();
    for item in &sheet.items {
        let part = |parts: &[String]| parts.join(",");
        let _ = writeln!(
            text,
            "{}|{}|{}|{}|{}",
            item.word,
            part(&item.shown),
            part(&item.answer),
            part(&item.choices),
            item.blend.as_deref().unwrap_or_default()
        );
    }
    for column in &sheet.columns {
        let _ = writeln!(text, "{}: {}", column.blend, column.words.join(","));
    }
    let _ = writeln!(text, "{}\n{}", sheet.word_bank.join(","), sheet.tiles.join(","));
    for board in &sheet.boards {
        let _ = writeln!(text, "{:?} {}", board.rows, board.wins_at);
    }
    if let Some(grid) = &sheet.letter_grid {
        let _ = writeln!(text, "{:?}", grid.rows);
    }
    text
}

const SEATS: [(&str, Seat); 4] =
    [("alone", Seat::Alone), ("set 1", Seat::Set(0)), ("set 6", Seat::Set(5)), ("same 3", Seat::Same(2))];

fn made(rules: Rules) -> String {
    let materials = kept();
    let mut lines = String::from("layout\tstep\tfocus\tseed\tseat\tfingerprint\n");
    let layouts: Vec<String> = materials.library.all().map(|stored| stored.layout.name.clone()).collect();
    for layout in layouts {
        for (step, focus, seed) in [("a-e", "bl cl fl", "calm-otter-42"), ("40", "st tr sp", "Week 7")] {
            for (name, seat) in SEATS {
                let text = format!("title: t\nstep: {step}\nfocus: {focus}\nseed: {seed}\nsheets: [{layout}]\n");
                let plan = Plan::read("plan.yaml", &text).unwrap();
                let seed = plan.seed.clone().unwrap();
                let mut request = PacketRequest::new(&plan, &materials, seed.clone()).unwrap();
                request.rules = rules;
                request.hand = Hand { seat, ..Hand::default() };
                let fingerprint = match contents(&request, &materials) {
                    Ok(sheets) => blake3::hash(told(&sheets[0]).as_bytes()).to_hex()[..16].to_owned(),
                    Err(_) => "refused".to_owned(),
                };
                let _ = writeln!(lines, "{layout}\t{step}\t{focus}\t{seed}\t{name}\t{fingerprint}");
            }
        }
    }
    lines
}

#[test]
fn promised_contents_come_out_again() {
    let file = folder().join("v1.tsv");
    let now = made(Rules::One);
    // Written once, when a version of the rules is new.
    #[allow(clippy::disallowed_methods, reason = "a test is told what to do by the environment; a sheet is not")]
    if std::env::var("PROMISES").is_ok_and(|value| value == "write") && !file.exists() {
        fs::write(&file, &now).unwrap();
    }
    let then = fs::read_to_string(&file).unwrap();
    let broken: Vec<&str> =
        now.lines().zip(then.lines()).filter(|(now, then)| now != then).map(|(now, _)| now).collect();
    assert!(broken.is_empty(), "these are not what version 1 of the rules promised:\n{}", broken.join("\n"));
    assert_eq!(now.lines().count(), then.lines().count());
}

/// The promises are of content, not of refusals.
#[test]
fn most_promises_are_of_content() {
    let then = fs::read_to_string(folder().join("v1.tsv")).unwrap();
    let refused = then.lines().filter(|line| line.ends_with("refused")).count();
    assert!(refused * 20 <= then.lines().count(), "{refused} refused");
}
