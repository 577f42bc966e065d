//! Whatever stands in an option or a file, the program answers: with something made, or with an error that says why.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

mod support;

use std::panic::catch_unwind;

use proptest::prelude::*;
use sheafling::layout::Layout;
use sheafling::packet::{Materials, PacketRequest, Plan, make};
use sheafling::seed::Seed;
use support::{materials, sheafling};

/// Text that a person might type, and text that no one would.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        "\\PC{0,40}",
        any::<String>(),
        "[-a-z ,/.0-9]{0,12}",
        prop::sample::select(vec![
            "bl",
            "-nd",
            "st-",
            "bl cl fl",
            "scr,str",
            "a-e",
            "13",
            "0",
            "65536",
            "-1",
            "99999999999999999999",
            "",
            " ",
            "\u{0}",
            "\u{202e}",
            "ẞİ",
            "👩‍👧",
            "{word}",
            "\"",
            "'",
            "%s",
            "../..",
            "-",
            "--",
            "é",
            "e\u{301}",
        ])
        .prop_map(str::to_owned),
    ]
}

/// Runs a command. It must not panic; an error must have a reason and its exit code.
fn answers(args: &[&str]) -> Result<(), TestCaseError> {
    let outcome = catch_unwind(|| sheafling(args)).map_err(|_| TestCaseError::fail(format!("{args:?} panics")))?;
    let told = if outcome.code == 0 { !outcome.out.is_empty() } else { outcome.err.starts_with("error: ") };
    prop_assert!(outcome.code <= 2 && told, "{:?}: exit code {}, {:?}", args, outcome.code, outcome.err);
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn options_of_a_sheet(option in prop::sample::select(vec!["--focus", "--step", "--seed", "--child", "--count", "--layouts", "--sequence"]), value in text()) {
        let value = format!("{option}={value}");
        answers(&["sheet", "sound-boxes", &value, "--format", "json", "--out", "-"])?;
    }

    #[test]
    fn names_of_layouts(name in text(), seed in text()) {
        let seed = format!("--seed={seed}");
        answers(&["sheet", &name, &seed, "--format", "json", "--out", "-"])?;
    }

    #[test]
    fn groups_of_any_text(
        cells in prop::collection::vec(text(), 0..24),
        columns in prop::sample::subsequence(vec!["name", "step", "focus", "words", "leave-out", "large-print", "left-hand", "set", "away"], 1..9),
        raw in any::<bool>(),
    ) {
        let folder = tempfile::tempdir().unwrap();
        let width = columns.len();
        let rows: Vec<String> = cells.chunks(width).map(|row| row.join(if raw { "," } else { ";" })).collect();
        let text = format!("{}\n{}\n", columns.join(if raw { "," } else { ";" }), rows.join("\n"));
        let (plan, group) = (folder.path().join("plan.yaml"), folder.path().join("group.csv"));
        std::fs::write(&plan, "title: t\nstep: 13\nsheets: [reading-rows]\n").unwrap();
        std::fs::write(&group, text).unwrap();
        let out = folder.path().join("out");
        let path = |path: &std::path::Path| path.to_str().unwrap().to_owned();
        answers(&["packet", &path(&plan), "--group", &path(&group), "--seed", "s", "--out", &path(&out)])?;
    }

    #[test]
    fn manifests_with_any_change(at in 0_usize..4000, to in prop::collection::vec(any::<u8>(), 0..6), cut in any::<bool>()) {
        let folder = tempfile::tempdir().unwrap();
        let path = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
        prop_assert_eq!(sheafling(&["sheet", "reading-rows", "--seed", "s", "--step", "13", "--out", &path("a.pdf")]).code, 0);
        let manifest = path("a.manifest.json");
        let mut bytes = std::fs::read(&manifest).unwrap();
        let at = at % bytes.len();
        if cut {
            bytes.truncate(at);
        }
        bytes.splice(at.min(bytes.len())..at.min(bytes.len()), to);
        std::fs::write(&manifest, bytes).unwrap();
        answers(&["reprint", &manifest, "--anyway", "--out", &path("again")])?;
    }

    #[test]
    fn codes_of_any_text(code in text()) {
        let folder = tempfile::tempdir().unwrap();
        answers(&["reprint", "--in", folder.path().to_str().unwrap(), "--", &code])?;
    }

    #[test]
    fn names_on_pages(name in text()) {
        let child = format!("--child={name}");
        answers(&["sheet", "word-ladder", "--seed=s", &child, "--out=-"])?;
    }

    #[test]
    fn questions_about_words(option in prop::sample::select(vec!["--onset", "--coda", "--sounds", "--syllables", "--step", "--rhymes-with"]), value in text()) {
        answers(&["words", &format!("{option}={value}")])?;
        answers(&["explain", "--", &value])?;
    }

    #[test]
    fn anything_at_all(args in prop::collection::vec(text(), 0..5)) {
        let mut all: Vec<&str> = args.iter().map(String::as_str).collect();
        // What writes is given a place that can't be written.
        all.extend(["--out", "/dev/null/nowhere"]);
        answers(&all)?;
    }
}

const PLAN: &str = include_str!("../layouts/plans/l-blends-week.yaml");
/// A change to a file's text.
#[derive(Clone, Debug)]
enum Slip {
    TakeAway(usize, usize),
    PutIn(usize, String),
    Swap(usize, usize),
    Number(usize, String),
}

fn slip() -> impl Strategy<Value = Slip> {
    let place = 0_usize..2_000;
    let words = prop::sample::select(vec![
        ":",
        "- ",
        "{",
        "}",
        "[",
        "]",
        "\n",
        "  ",
        "\t",
        "#",
        "&a ",
        "*a",
        "!!",
        "'",
        "\"",
        "|",
        ">",
        "0",
        "-1",
        "1e9",
        ".nan",
        "~",
        "null",
        "{{",
        "{n}",
        "{clue}",
        "count",
        "columns",
        "page:",
        "- cards",
        "- lines: {count: 255}",
        "- footer: {show: []}",
        "- new-page",
        "- frame: {height: 300}",
        "\u{0}",
        "\u{feff}",
        "é",
    ])
    .prop_map(str::to_owned);
    let numbers = prop::sample::select(vec![
        "0",
        "1",
        "255",
        "256",
        "-3",
        "300",
        "1e300",
        "18446744073709551615",
        "0.0001",
        "[9, 1]",
        "[0, 0]",
    ]);
    prop_oneof![
        (place.clone(), 1_usize..30).prop_map(|(at, length)| Slip::TakeAway(at, length)),
        (place.clone(), words).prop_map(|(at, text)| Slip::PutIn(at, text)),
        (place.clone(), place.clone()).prop_map(|(one, other)| Slip::Swap(one, other)),
        (place, numbers).prop_map(|(nth, number)| Slip::Number(nth, number.to_owned())),
    ]
}

fn slipped(text: &str, slips: &[Slip]) -> String {
    let mut chars: Vec<char> = text.chars().collect();
    for slip in slips {
        if chars.is_empty() {
            break;
        }
        match slip {
            Slip::TakeAway(at, length) => {
                let at = at % chars.len();
                chars.drain(at..(at + length).min(chars.len()));
            }
            Slip::PutIn(at, text) => {
                let at = at % (chars.len() + 1);
                chars.splice(at..at, text.chars());
            }
            Slip::Swap(one, other) => {
                let lines: String = chars.iter().collect();
                let mut lines: Vec<&str> = lines.lines().collect();
                let count = lines.len();
                if count > 0 {
                    lines.swap(one % count, other % count);
                }
                chars = (lines.join("\n") + "\n").chars().collect();
            }
            Slip::Number(nth, number) => {
                let digits: Vec<usize> = (0..chars.len()).filter(|at| chars[*at].is_ascii_digit()).collect();
                if let Some(&at) = (!digits.is_empty()).then(|| &digits[nth % digits.len()]) {
                    chars.splice(at..=at, number.chars());
                }
            }
        }
    }
    chars.into_iter().collect()
}

/// Makes a packet as a plan says, when it says anything that can be made.
fn made(plan: &Plan, materials: &Materials) -> Result<(), TestCaseError> {
    let run = || {
        let request =
            PacketRequest::new(plan, materials, Seed::new("s").unwrap()).map_err(|error| error.to_string())?;
        make(&request, materials).map(|_| ()).map_err(|error| error.to_string())
    };
    match catch_unwind(std::panic::AssertUnwindSafe(run)) {
        Ok(Ok(())) => Ok(()),
        Ok(Err(message)) => {
            prop_assert!(message.len() > 10 && !message.contains("fault of the program"), "{}", message);
            Ok(())
        }
        Err(_) => Err(TestCaseError::fail("making the packet panics")),
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn plans_with_slips(slips in prop::collection::vec(slip(), 1..4)) {
        let text = slipped(PLAN, &slips);
        match Plan::read("plan.yaml", &text) {
            Ok(mut plan) => {
                plan.sheets.truncate(4);
                made(&plan, materials())?;
            }
            Err(error) => prop_assert!(error.to_string().starts_with("plan.yaml"), "{}", error),
        }
    }

    #[test]
    fn layouts_with_slips(which in 0_usize..1_000, slips in prop::collection::vec(slip(), 1..4)) {
        let all: Vec<_> = materials().library.all().collect();
        let text = slipped(&all[which % all.len()].text, &slips);
        let Err(errors) = Layout::read("layout.yaml", &text) else {
            let folder = tempfile::tempdir().unwrap();
            let file = folder.path().join("layout.yaml");
            std::fs::write(&file, &text).unwrap();
            return answers(&["sheet", file.to_str().unwrap(), "--seed=s", "--out=-"]);
        };
        prop_assert!(!errors.is_empty());
        for error in errors {
            prop_assert!(error.to_string().starts_with("layout.yaml"), "{}", error);
        }
    }
}
