//! The record of practice through the program: several runs at once, runs that are killed, its messages, and its pages.
//!
//! Messages and pictures are made anew as in `tests/commands.rs` and `tests/pages.rs`.
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
#[path = "support/told.rs"]
#[macro_use]
mod told;

use std::fmt::Write as _;
use std::fs;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::thread::sleep;
use std::time::Duration;

use proptest::prelude::*;
use sheafling::page::{Document, Face, Length, Mark, Paper};
use sheafling::record::{Day, Row, children, load, pages, report};
use support::{materials, printed, sheafling};
use told::Place;

const HEADER: &str = "child,date,skill,item,right,note\n";

/// A table of so many rows for one child, no two alike.
fn table(child: &str, rows: usize) -> String {
    let mut text = HEADER.to_owned();
    for at in 0..rows {
        let right = if at % 3 == 0 { "no" } else { "yes" };
        let _ = writeln!(text, "{child},2025-03-{:02},sound-boxes,item {at},{right},try {at}", at % 28 + 1);
    }
    text
}

fn adding(record: &str, rows: &str) -> Child {
    let mut command = Command::new(env!("CARGO_BIN_EXE_sheafling"));
    command.args(["record", "add", record, rows]).stdout(Stdio::null()).stderr(Stdio::null()).spawn().unwrap()
}

#[test]
fn runs_at_once_lose_nothing() {
    let place = Place::new();
    let record = place.path("group.csv");
    let names: Vec<String> = (b'A'..=b'H').map(|letter| char::from(letter).to_string()).collect();
    let tables: Vec<String> = names.iter().map(|name| place.file(&format!("{name}.csv"), &table(name, 300))).collect();
    let runs: Vec<Child> = tables.iter().map(|rows| adding(&record, rows)).collect();
    for mut run in runs {
        assert!(run.wait().unwrap().success());
    }
    let found = load(Path::new(&record)).unwrap();
    assert_eq!((found.rows.len(), found.cut), (8 * 300, None));
    for name in &names {
        // Each run's rows stand together and in their order.
        let at = found.rows.iter().position(|row| row.child == *name).unwrap();
        let items: Vec<&str> = found.rows[at..at + 300].iter().map(|row| row.item.as_str()).collect();
        assert_eq!(items, (0..300).map(|at| format!("item {at}")).collect::<Vec<_>>());
    }
    assert_eq!(fs::read_to_string(&record).unwrap().matches("child,date").count(), 1);
}

#[test]
fn a_killed_run_leaves_a_record_that_the_next_completes() {
    let place = Place::new();
    let record = place.path("group.csv");
    let first = place.file("first.csv", &table("Ana", 50));
    printed(&["record", "add", &record, &first]);
    for round in 0..12_u64 {
        let rows = place.file("more.csv", &table(&format!("B{round}"), 4_000));
        let mut run = adding(&record, &rows);
        sleep(Duration::from_millis(round * 15));
        // It may be over already.
        let _ = run.kill();
        run.wait().unwrap();
        let left = load(Path::new(&record)).unwrap();
        assert!(left.rows.len() >= 50 + 4_000 * usize::try_from(round).unwrap(), "{round}");
        printed(&["record", "add", &record, &rows]);
        let whole = load(Path::new(&record)).unwrap();
        assert_eq!((whole.rows.len(), whole.cut), (50 + 4_000 * usize::try_from(round + 1).unwrap(), None), "{round}");
    }
}

/// A record of three days for two children, made of the sheets of a plan.
fn filled(place: &Place) -> String {
    let plan = concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/plans/l-blends-week.yaml");
    let (json, table, record) = (place.path("week.json"), place.path("fill.csv"), place.path("group.csv"));
    printed(&["packet", plan, "--format", "json", "--out", &json]);
    printed(&["record", "template", "--children", "Ana, Ben", "--items", &json, "--out", &table]);
    let empty = fs::read_to_string(&table).unwrap();
    for (nth, date) in ["2025-03-04", "2025-03-06", "2025-03-11"].iter().enumerate() {
        let fill = |(at, line): (usize, &str)| match line.strip_suffix(",,") {
            None => format!("{line}\n"),
            Some(line) => {
                let missed = (line.contains(",fl") && (at + nth) % 2 == 0) || (at + nth) % 11 == 0;
                format!("{line},{},\n", if missed { "no" } else { "yes" })
            }
        };
        let text: String = empty.lines().enumerate().map(fill).collect();
        printed(&["record", "add", &record, &place.file("day.csv", &text), "--date", date]);
    }
    record
}

#[test]
fn keeping_a_record() {
    let place = Place::new();
    let record = filled(&place);
    let more = place.file("more.csv", "child,date,skill,item,right\nAna,2025-03-11,blend-sort,black,no\nAna,,,,\n");
    let anna = place.file("anna.csv", "\u{feff}child;date;skill;item;right\r\nAnna;2025-03-11;Blend sort;-nd;y\r\n");
    let say = [
        place.says(&["record", "show", &record]),
        place.says(&["record", "show", &record, "--child", "ana", "--format", "csv", "--since", "2025-03-06"]),
        place.says(&["record", "next", &record]),
        place.says(&["record", "next", &record, "--child", "Ben", "--format", "yaml", "--step", "l-blends"]),
        place.says(&["record", "add", &record, &more]),
        place.says(&["record", "add", &record, &more]),
        place.says(&["record", "add", &record, &more, "--again"]),
        place.says(&["record", "add", &record, &anna]),
        place.says(&[
            "record",
            "template",
            "--children",
            "Ana",
            "--words",
            "flag,-nd",
            "--separator",
            "tab",
            "--out",
            "-",
        ]),
    ];
    hold!("record", say.join("\n"));
    let json: serde_json::Value =
        serde_json::from_str(&printed(&["record", "show", &record, "--format", "json"])).unwrap();
    assert_eq!(json["children"][1]["child"], "Anna");
    assert!(json["caution"].as_str().unwrap().contains("licensed specialist"));
    let next: serde_json::Value =
        serde_json::from_str(&printed(&["record", "next", &record, "--format", "json"])).unwrap();
    assert_eq!(next[0]["packet"], 4);
}

#[test]
fn the_plan_of_a_record_makes_a_packet() {
    let place = Place::new();
    let record = filled(&place);
    let (plan, pdf) = (place.path("next.yaml"), place.path("next.pdf"));
    printed(&["record", "next", &record, "--child", "Ana", "--format", "yaml", "--out", &plan]);
    printed(&["packet", &plan, "--seed", "calm-otter-42", "--out", &pdf]);
    assert!(fs::read(&pdf).unwrap().starts_with(b"%PDF"));
}

#[test]
fn what_is_wrong_is_told_and_nothing_is_changed() {
    let place = Place::new();
    let record = filled(&place);
    let before = fs::read(&record).unwrap();
    let add = |name: &str, text: &str| place.says(&["record", "add", &record, &place.file(name, text)]);
    let say = [
        add(
            "rows.csv",
            "child;date;skill;item;right;note\nAna;3/4/2025;sound-box;flag;yes;\n;2025-02-30;sound-boxes;flag;x;\n\
             Ana;2025-03-12;sound-boxes;flag;yes;fine\nAna;45000;sound-boxes;\"flag;yes;\n",
        ),
        add("columns.csv", "child,day,skill,item,right\n"),
        add("few.csv", "child,date,skill\n"),
        add("empty.csv", ""),
        add("more.csv", "child,date,skill,item,right\nAna,2025-03-12,sound-boxes,flag,yes,slowly, but well\n"),
        place.says(&["record", "add", &record, &place.path("missing.csv")]),
        place.says(&["record", "add", &place.path("rows.csv"), &place.path("group.csv")]),
        place.says(&["record", "add", &record, &record, "--date", "4.3.2025"]),
        place.says(&["record", "show", &place.path("missing.csv")]),
        place.says(&["record", "show", &record, "--child", "Aan"]),
        place.says(&["record", "show", &record, "--since", "2025-04-01"]),
        place.says(&["record", "next", &record, "--format", "yaml"]),
        place.says(&["record", "next", &record, "--review", "2"]),
        place.says(&["record", "next", &record, "--step", "l-blend"]),
        place.says(&["record", "template", "--skill", "sound box", "--out", "-"]),
        place.says(&["record", "template", "--items", &place.path("rows.csv"), "--out", "-"]),
    ];
    hold!("record-wrong", say.join("\n"));
    assert!(say.iter().all(|text| !text.ends_with("[exit code 0]\n")), "{}", say.join("\n"));
    assert_eq!(fs::read(&record).unwrap(), before);
    let made = place.path("new.csv");
    assert_ne!(sheafling(&["record", "add", &made, &place.path("columns.csv")]).code, 0);
    assert!(!Path::new(&made).exists());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    /// Any bytes, as a table and as a record, are taken or refused with a reason; a record that refuses stays as it is.
    #[test]
    fn any_bytes_do_no_harm(
        head in prop::sample::select(vec!["", HEADER, "child;date;skill;item;right\n", "\u{feff}right,item,skill,date,child\r\n"]),
        bytes in prop_oneof![
            prop::collection::vec(any::<u8>(), 0..80),
            "([A-Za-z'=\"]{0,6}[,;]20[0-9]{2}-0[0-9]-[0-3][0-9][,;]sound-boxes[,;](flag|-nd|ai|=1|[a-z \"]{0,8})[,;](yes|no|x|1|)[,;]?\r?\n?){0,6}"
                .prop_map(String::into_bytes),
        ],
    ) {
        let place = Place::new();
        let bytes = [head.as_bytes(), &bytes].concat();
        for name in ["rows.csv", "record.csv"] {
            fs::write(place.path(name), &bytes).unwrap();
        }
        let (rows, record) = (place.path("rows.csv"), place.path("record.csv"));
        let good = place.file("good.csv", &format!("{HEADER}Ana,2025-03-04,sound-boxes,flag,yes,\n"));
        for (args, kept) in [
            (vec!["record", "add", &place.path("new.csv"), &rows], true),
            (vec!["record", "show", &record], true),
            (vec!["record", "next", &record], true),
            (vec!["record", "add", &record, &good], false),
            (vec!["record", "show", &record, "--format", "csv"], true),
        ] {
            let before = fs::read(&record).unwrap();
            let outcome = sheafling(&args);
            prop_assert!(outcome.code == 0 || outcome.err.starts_with("error: "), "{args:?}: {}", outcome.err);
            prop_assert!(!kept && outcome.code == 0 || fs::read(&record).unwrap() == before, "{args:?}");
        }
    }
}

#[test]
fn a_line_cut_off_is_told() {
    let place = Place::new();
    let cut = format!("{HEADER}Ana,2025-03-04,sound-boxes,flag,yes,\nAna,2025-03-04,sound-boxes,clap,n");
    let record = place.file("group.csv", &cut);
    let rows = place.file("rows.csv", "child,date,skill,item,right\nAna,2025-03-04,sound-boxes,clap,no\n");
    let say =
        [place.says(&["record", "show", &record, "--format", "csv"]), place.says(&["record", "add", &record, &rows])];
    hold!("record-cut", say.join("\n"));
    assert_eq!(fs::read_to_string(place.path("group.csv.cut")).unwrap(), "Ana,2025-03-04,sound-boxes,clap,n\n");
}

fn row(child: &str, date: Day, skill: &str, item: &str, right: bool) -> Row {
    let (child, skill, item) = (child.to_owned(), skill.to_owned(), item.to_owned());
    Row { child, date, skill, item, right, note: String::new() }
}

fn drawn(rows: &[Row], paper: Paper) -> Document {
    let said = report(rows, &children(rows), None, &materials().bank, &materials().sequence);
    let title = |skill: &str| materials().library.get(skill).unwrap().layout.title.clone();
    pages(&said, paper, &title)
}

/// Two children: a usual one, and one with every skill, many days, and a name as wide as there can be.
fn two() -> Vec<Row> {
    let day = |at: u8| Day::new(2025, 3 + at / 28, at % 28 + 1).unwrap();
    let words: Vec<&str> = materials().bank.words().iter().step_by(7).map(|word| word.spelling.as_str()).collect();
    let few = ["flag", "flat", "black", "clap", "club", "flock", "plum", "glad", "slip", "block"];
    let mut rows = Vec::new();
    for at in 0..60_usize {
        let right = !(few[at % 10].starts_with("fl") && at % 4 < 3) && at % 13 > 0;
        rows.push(row(
            "Ada",
            day(u8::try_from(at / 12).unwrap() * 2),
            ["sound-boxes", "blend-sort"][at % 2],
            few[at % 10],
            right,
        ));
    }
    let wide = "W".repeat(40);
    let skills: Vec<&str> = materials().library.all().map(|stored| stored.layout.name.as_str()).collect();
    for at in 0..900 {
        rows.push(row(
            &wide,
            day(u8::try_from(at / 20).unwrap()),
            skills[at % skills.len()],
            words[at % 400],
            at % 2 == 0,
        ));
    }
    rows
}

#[test]
fn pages_keep_to_the_paper_and_carry_the_caution() {
    for paper in Paper::ALL {
        let document = drawn(&two(), paper);
        assert!(document.pages.len() > 2 && document.bookmarks.len() == 2);
        for (at, page) in document.pages.iter().enumerate() {
            let mut all = String::new();
            for mark in &page.marks {
                let (from, to) = mark.bounds();
                let least = Length::um(12_700);
                let inside = from.x >= least && to.x <= page.size.width - least && from.y >= Length::ZERO;
                assert!(inside && to.y <= page.size.height - least, "page {}: {mark:?}", at + 1);
                if let Mark::Text { text, face, .. } = mark {
                    assert!(face.missing(text).is_empty(), "{text}");
                    all += text;
                    all += " ";
                }
                if let Mark::Line { stroke, .. } = mark {
                    assert!(stroke.width >= Length::milli_pt(500));
                }
            }
            assert!(all.contains("licensed specialist should look"), "page {}", at + 1);
            // No page tells of two children.
            assert!(all.contains("Ada") != all.contains("WWW"), "page {}: {all}", at + 1);
        }
    }
}

#[test]
fn texts_lie_apart() {
    for page in &drawn(&two(), Paper::A4).pages {
        let texts: Vec<_> = page
            .marks
            .iter()
            .filter_map(|mark| match mark {
                &Mark::Text { at, ref text, face, size, .. } => Some((text, glyphs::inked(text, face, size, at)?)),
                _ => None,
            })
            .collect();
        for (at, (one, (from, to))) in texts.iter().enumerate() {
            for (other, (from_other, to_other)) in &texts[at + 1..] {
                let meet = from.x < to_other.x && from_other.x < to.x && from.y < to_other.y && from_other.y < to.y;
                assert!(!meet, "{one:?} lies over {other:?}");
            }
        }
    }
}

#[test]
fn letters_that_the_font_lacks_do_no_harm() {
    let date = Day::new(2025, 3, 4).unwrap();
    let rows: Vec<Row> = (0..5).map(|_| row("言葉", date, "sound-boxes", "語", false)).collect();
    let document = drawn(&rows, Paper::Letter);
    for mark in &document.pages[0].marks {
        if let Mark::Text { text, .. } = mark {
            assert!(Face::ALL.iter().all(|face| face.missing(text).is_empty()), "{text}");
        }
    }
}

#[test]
fn pages_look_as_they_did() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/record");
    let mut wrong = Vec::new();
    for paper in Paper::ALL {
        let page = &drawn(&two(), paper).pages[0];
        let name = format!("{}.png", paper.name());
        wrong.extend(reference::hold(
            &folder.join(&name),
            &format!("record/{name}"),
            &picture::Picture::in_a_row(&[picture::draw(page)]),
        ));
    }
    assert!(
        wrong.is_empty(),
        "{}\nLook, and if it is meant: SHEAFLING_BLESS=1 cargo test --test record",
        wrong.join("\n")
    );
}
