//! The same request and seed give the same bytes: again, in another process, in another order, on threads, alone and in a packet.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

mod support;

use std::path::{Path, PathBuf};

use sheafling::packet::{FocusNames, KeyPlace, Made, PacketRequest, Plan, PlanSheet, StepName, make, make_some};
use sheafling::pdf;
use sheafling::seed::Seed;
use support::{materials, printed};

const LAYOUTS: [&str; 3] = ["sound-boxes", "blend-sort", "word-ladder"];

/// The arguments for one sheet on standard output.
fn sheet<'a>(layout: &'a str, seed: &'a str, more: &[&'a str]) -> Vec<&'a str> {
    let usual = ["sheet", layout, "--seed", seed, "--step", "ai-ay", "--focus", "bl cl fl", "--out", "-"];
    usual.into_iter().chain(more.iter().copied()).collect()
}

fn pdf_of(args: &[&str]) -> Vec<u8> {
    let outcome = support::sheafling(args);
    assert_eq!(outcome.code, 0, "{args:?}: {}", outcome.err);
    assert!(outcome.out.starts_with(b"%PDF-"), "{args:?}");
    outcome.out
}

/// The same by a process of its own, in another folder and with other surroundings.
fn pdf_of_process(args: &[&str], zone: &str) -> Vec<u8> {
    let folder = tempfile::tempdir().unwrap();
    let mut command = assert_cmd::Command::new(env!("CARGO_BIN_EXE_sheafling"));
    command.args(args).current_dir(folder.path()).env("TZ", zone).env("LANG", "tr_TR.UTF-8").env("COLUMNS", "40");
    command.assert().success().get_output().stdout.clone()
}

#[test]
fn twice_in_one_process_and_in_two() {
    for layout in LAYOUTS {
        for more in [&[][..], &["--paper", "a4", "--child", "Ada", "--key", "none"][..]] {
            let args = sheet(layout, "calm-otter-42", more);
            let first = pdf_of(&args);
            assert!(first == pdf_of(&args), "{args:?} differs the second time");
            assert!(first == pdf_of_process(&args, "Asia/Tokyo"), "{args:?} differs in another process");
            assert!(first == pdf_of_process(&args, "UTC"), "{args:?} differs in a third process");
        }
    }
}

#[test]
fn in_another_order_and_with_others_in_between() {
    let each: Vec<Vec<u8>> = LAYOUTS.iter().map(|layout| pdf_of(&sheet(layout, "s", &[]))).collect();
    for at in [2, 0, 1] {
        pdf_of(&sheet(LAYOUTS[(at + 1) % 3], "another", &["--child", "Bo", "--count", "8", "--paper", "a4"]));
        assert!(each[at] == pdf_of(&sheet(LAYOUTS[at], "s", &[])), "{}", LAYOUTS[at]);
    }
}

#[test]
fn on_several_threads() {
    let expected: Vec<Vec<u8>> = LAYOUTS.iter().map(|layout| pdf_of(&sheet(layout, "threads", &[]))).collect();
    std::thread::scope(|scope| {
        let running: Vec<_> = (0..6)
            .map(|nth| (nth % 3, scope.spawn(move || pdf_of(&sheet(LAYOUTS[nth % 3], "threads", &[])))))
            .collect();
        for (at, thread) in running {
            assert!(thread.join().unwrap() == expected[at], "{}", LAYOUTS[at]);
        }
    });
}

#[test]
fn another_seed_child_step_or_focus_gives_other_words() {
    for layout in LAYOUTS {
        let words = |seed: &str, more: &[&str]| {
            let text = printed(&sheet(layout, seed, &[more, &["--format", "json"]].concat()));
            let sheet: serde_json::Value = serde_json::from_str(&text).unwrap();
            sheet["items"].as_array().unwrap().iter().map(|item| item["word"].to_string()).collect::<Vec<_>>()
        };
        let usual = words("one", &[]);
        assert_eq!(usual, words("  one ", &[]), "blanks around a seed do not matter");
        assert_ne!(usual, words("two", &[]));
        assert_ne!(usual, words("One", &[]));
        assert_ne!(usual, words("one", &["--child", "Ada"]));
        assert_ne!(words("one", &["--child", "Bo"]), words("one", &["--child", "Ada"]));
        // Nothing of the words hangs on the paper, the key or the notation.
        for more in [&["--paper", "a4"][..], &["--key", "none"], &["--notation", "ipa"]] {
            assert_eq!(usual, words("one", more), "{more:?}");
        }
    }
}

fn plan_file(folder: &Path) -> PathBuf {
    let path = folder.join("week.yaml");
    let text = "title: Week\nstep: ai-ay\nfocus: bl cl fl\nseed: calm-otter-42\nsheets:\n\
                - sound-boxes\n- {layout: blend-sort, count: 9}\n- word-ladder\n- {layout: sound-boxes, count: 24}\n";
    std::fs::write(&path, text).unwrap();
    path
}

#[test]
fn a_sheet_alone_is_the_sheet_of_a_packet() {
    let folder = tempfile::tempdir().unwrap();
    let plan = plan_file(folder.path());
    let packet = printed(&["packet", plan.to_str().unwrap(), "--format", "json", "--out", "-"]);
    let packet: serde_json::Value = serde_json::from_str(&packet).unwrap();
    let sheets = packet["sheets"].as_array().unwrap();
    assert_eq!(sheets.len(), 4);
    for (at, more) in [(0, &[][..]), (1, &["--count", "9"][..]), (2, &[][..])] {
        let layout = sheets[at]["layout"].as_str().unwrap();
        let alone = printed(&sheet(layout, "calm-otter-42", &[more, &["--format", "json"]].concat()));
        // The code at the foot is that of the sheet's packet, and so another one.
        let coded = |value: &serde_json::Value| {
            let mut value = value.clone();
            value.as_object_mut().unwrap().remove("code").map(|_| value)
        };
        let alone: serde_json::Value = serde_json::from_str(&alone).unwrap();
        assert!(coded(&alone).is_some() && coded(&alone) == coded(&sheets[at]), "{layout}");
    }
    assert_ne!(sheets[0]["items"][0], sheets[3]["items"][0], "the second sheet of a layout has words of its own");
}

fn plan(key: KeyPlace) -> PacketRequest {
    let sheet = |layout: &str, count| PlanSheet { layout: layout.to_owned(), count, ..PlanSheet::default() };
    let plan = Plan {
        title: "Week".to_owned(),
        step: Some(StepName("ai-ay".to_owned())),
        focus: Some(FocusNames::parse("bl cl fl")),
        key: Some(key),
        // The first sheet has more pages than one, so that the second's numbers are not the usual ones.
        sheets: vec![sheet("sound-boxes", Some(30)), sheet("blend-sort", None), sheet("word-ladder", None)],
        ..Plan::default()
    };
    PacketRequest::new(&plan, materials(), Seed::new("calm-otter-42").unwrap()).unwrap()
}

#[test]
fn sheets_made_alone_have_the_pages_of_the_whole_packet() {
    for key in [KeyPlace::End, KeyPlace::Apart, KeyPlace::None] {
        let request = plan(key);
        let whole = make(&request, materials()).unwrap();
        let parts: Vec<Made> = (1..=3).map(|only| make_some(&request, materials(), Some(&[only])).unwrap()).collect();
        assert!(parts[0].document.pages.len() > 1);
        let pages: Vec<_> = parts.iter().flat_map(|part| &part.document.pages).collect();
        assert_eq!(pages.len(), whole.document.pages.len());
        assert!(whole.document.pages.iter().all(|page| pages.contains(&page)), "{key:?}");
        let sheets: Vec<_> = parts.iter().flat_map(|part| &part.sheets).collect();
        assert_eq!(sheets, whole.sheets.iter().collect::<Vec<_>>());
        if let Some(key) = &whole.key {
            let pages: Vec<_> = parts.iter().flat_map(|part| &part.key.as_ref().unwrap().pages).collect();
            assert_eq!(pages, key.pages.iter().collect::<Vec<_>>());
        }
        let two = make_some(&request, materials(), Some(&[3, 1])).unwrap();
        assert_eq!(two.document.pages.len(), parts[0].document.pages.len() + parts[2].document.pages.len());
    }
}

/// The file's identity is made of its content alone, so it is the same for the same pages and another for others.
#[test]
fn the_identity_of_a_file_is_that_of_its_content() {
    let id = |bytes: &[u8]| format!("{:?}", lopdf::Document::load_mem(bytes).unwrap().trailer.get(b"ID").unwrap());
    let one = pdf_of(&sheet("sound-boxes", "one", &[]));
    let two = pdf_of(&sheet("sound-boxes", "two", &[]));
    assert_ne!(id(&one), id(&two));
    let document = make(&plan(KeyPlace::End), materials()).unwrap().document;
    let mut renamed = document.clone();
    renamed.title.push('!');
    assert_ne!(id(&pdf::write(&document).unwrap()), id(&pdf::write(&renamed).unwrap()));
}
