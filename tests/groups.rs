//! A class of thirty at three steps: packets for all, matched, reported, and made again.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

#[path = "support/room.rs"]
mod room;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs;
use std::path::Path;

use room::Room;

const PLAN: &str = "title: Week of blends\nsheets:\n  - sound-boxes\n  - blend-sort\n  - first-blend\n  - where-is-the-blend\n  - word-ladder\n";

/// Thirty names of our own making, ten at each of three steps.
fn group() -> String {
    let mut text = String::from("name,step,focus,away\n");
    for number in 0..30 {
        let (step, focus) = [("l-blends", "bl cl fl"), ("a-e", "st sp sn"), ("ai-ay", "tr dr gr")][number % 3];
        let _ = writeln!(text, "Child {},{step},{focus},", number + 1);
    }
    text
}

/// A room with the plan and the class in it.
fn room() -> Room {
    let room = Room::new();
    fs::write(room.path("week.yaml"), PLAN).unwrap();
    fs::write(room.path("class.csv"), group()).unwrap();
    room
}

/// The files of a folder and the folders in it, by their paths within it.
fn tree(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut files = BTreeMap::new();
    let mut folders = vec![folder.to_owned()];
    while let Some(next) = folders.pop() {
        for entry in fs::read_dir(next).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else {
                let name = path.strip_prefix(folder).unwrap().to_string_lossy().into_owned();
                files.insert(name, fs::read(path).unwrap());
            }
        }
    }
    files
}

fn is_pdf(name: &str) -> bool {
    Path::new(name).extension().is_some_and(|extension| extension == "pdf")
}

fn pdfs(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    tree(folder).into_iter().filter(|(name, _)| is_pdf(name) && !name.contains("class-list")).collect()
}

const MAKE: &str = "packet @week.yaml --group @class.csv --seed calm-otter-5";

#[test]
fn a_class_of_thirty_is_made_matched_and_made_again() {
    let room = room();
    let told = room.done(&format!("{MAKE} --out @whole/ --report @report.json"));
    let whole = pdfs(&room.path("whole"));
    assert_eq!(whole.len(), 30, "{told}");

    // Alike in kind; of the sheets that are dealt word by word no set is rarer or commoner than the tolerance.
    let report: serde_json::Value = serde_json::from_slice(&fs::read(room.path("report.json")).unwrap()).unwrap();
    let cohorts = report["cohorts"].as_array().unwrap();
    assert_eq!(cohorts.len(), 3);
    for cohort in cohorts {
        assert_eq!(cohort["members"].as_array().unwrap().len(), 10);
        for sheet in cohort["sheets"].as_array().unwrap() {
            let layout = sheet["layout"].as_str().unwrap();
            assert_eq!(sheet["shared"].as_array().unwrap().len(), 10, "{layout}");
            if layout != "word-ladder" {
                assert_eq!(sheet["unlike"].as_array().unwrap().len(), 0, "{layout}: {sheet:#}");
            }
            // Words are shared only where a kind has run out, and the report says which.
            let shared = sheet["most_shared"][0].as_u64().unwrap();
            assert!(shared == 0 || !sheet["short"].as_array().unwrap().is_empty(), "{layout}");
            assert!(sheet["most_shared_by_neighbours"].as_u64().unwrap() <= shared);
        }
    }
    assert!(told.contains("10 sets, "), "{told}");

    // A child alone is the child in the group, and so are the parts of a run.
    room.done(&format!("{MAKE} --out @alone/ --child Child~7"));
    assert_eq!(pdfs(&room.path("alone")), BTreeMap::from([("child-7.pdf".to_owned(), whole["child-7.pdf"].clone())]));
    for part in ["1/4", "4/4", "3/4", "2/4"] {
        room.done(&format!("{MAKE} --out @parts/ --shard {part}"));
    }
    assert_eq!(tree(&room.path("parts")), tree(&room.path("whole")));

    // Again from the manifest, and from the code of one.
    room.done("reprint @whole/week.manifest.json --out @again/");
    assert_eq!(pdfs(&room.path("again")), whole);
    let list = fs::read_to_string(room.path("whole/week-class-list.csv")).unwrap();
    let row = list.lines().find(|line| line.starts_with("Child 12,")).unwrap();
    let code = row.split(',').nth(4).unwrap();
    room.done(&format!("reprint {} --in @whole/ --out @one/", code.to_lowercase()));
    assert_eq!(pdfs(&room.path("one")), BTreeMap::from([("child-12.pdf".to_owned(), whole["child-12.pdf"].clone())]));
    room.done("reprint @whole/week.manifest.json --child Child~3 --page 2 --out @page/");
    assert_eq!(pdfs(&room.path("page")).keys().collect::<Vec<_>>(), ["child-3-page-2.pdf"]);

    // A run that is broken off goes on to the same files.
    fs::remove_file(room.path("parts/child-9.pdf")).unwrap();
    fs::write(room.path("parts/child-10.pdf"), "half").unwrap();
    fs::write(room.path("parts/.child-9.pdf.77.part"), "half").unwrap();
    let told = room.done(&format!("{MAKE} --out @parts/ --resume"));
    assert!(told.contains("28 of 30 packets were there already"), "{told}");
    assert_eq!(tree(&room.path("parts")), tree(&room.path("whole")));
}

#[test]
fn who_comes_or_goes_changes_nobody_else() {
    let room = room();
    room.done(&format!("{MAKE} --out @before/"));
    let before = pdfs(&room.path("before"));

    // One comes at the end, and one is away: also in a new folder.
    let away = group().replace("Child 4,l-blends,bl cl fl,", "Child 4,l-blends,bl cl fl,yes");
    fs::write(room.path("class.csv"), away + "Newcomer,l-blends,bl cl fl,\n").unwrap();
    room.done(&format!("{MAKE} --out @after/"));
    let mut after = pdfs(&room.path("after"));
    assert!(after.remove("newcomer.pdf").is_some());
    assert_eq!(after.len(), 29);
    assert!(after.iter().all(|(name, bytes)| before[name] == *bytes));

    // One who is struck out changes nobody's in the same folder.
    let gone = group().replace("Child 4,l-blends,bl cl fl,\n", "");
    fs::write(room.path("class.csv"), "Early,l-blends,bl cl fl,\n".to_owned() + &gone).unwrap();
    fs::write(
        room.path("class.csv"),
        gone.replace("name,step,focus,away\n", "name,step,focus,away\nEarly,l-blends,bl cl fl,\n"),
    )
    .unwrap();
    room.done(&format!("{MAKE} --out @before/"));
    let same = pdfs(&room.path("before"));
    assert!(before.iter().all(|(name, bytes)| same[name] == *bytes));
}

#[test]
fn other_sheets_stay_when_one_is_added() {
    let room = room();
    let words = |folder: &str| -> Vec<serde_json::Value> {
        let record = fs::read(room.path(folder).join("made/week-child-5.json")).unwrap();
        let record: serde_json::Value = serde_json::from_slice(&record).unwrap();
        record["sheets"].as_array().unwrap().clone()
    };
    room.done(&format!("{MAKE} --out @before/ --child Child~5"));
    fs::write(room.path("week.yaml"), PLAN.replace("  - blend-sort\n", "  - blend-sort\n  - reading-rows\n")).unwrap();
    room.done(&format!("{MAKE} --out @after/ --child Child~5"));
    let mut after = words("after");
    after.remove(2);
    assert_eq!(after, words("before"));
}

#[test]
fn lettered_sets_and_one_file() {
    let room = room();
    let make = "packet @week.yaml --sets A,B,C --step a-e --focus st~sp~sn --seed calm-otter-5";
    room.done(&format!("{make} --out @sets/"));
    let sets = pdfs(&room.path("sets"));
    assert_eq!(sets.keys().collect::<Vec<_>>(), ["set-a.pdf", "set-b.pdf", "set-c.pdf"]);
    for bind in ["by-child", "by-sheet"] {
        for key in ["end", "apart", "none"] {
            room.done(&format!("{make} --bind {bind} --key {key} --out @{bind}-{key}/"));
            assert_eq!(pdfs(&room.path(&format!("{bind}-{key}"))).len(), 1 + usize::from(key == "apart"));
        }
    }
    // The same words for all, in other orders.
    room.done(&format!("{make} --same-words --out @same/"));
    let words = |letter: &str| -> (Vec<String>, Vec<String>) {
        let order = room.words("same", &format!("week-set-{letter}"), 0);
        let mut sorted = order.clone();
        sorted.sort();
        (order, sorted)
    };
    assert_eq!(words("a").1, words("b").1);
    assert_ne!(words("a").0, words("b").0);
}

#[test]
fn earlier_words_are_spared_and_it_is_said_where_they_cannot_be() {
    let room = room();
    let make = |week: usize, extra: &str| {
        room.done(&format!(
            "packet @week.yaml --group @class.csv --child Child~2 --seed week-{week} --out @weeks/{week}/ {extra}"
        ))
    };
    let words = |week: usize| room.words(&format!("weeks/{week}"), "week-child-2", 1);
    make(1, "--same-words");
    let told = make(2, "--earlier @weeks/ --last 4");
    let (first, second) = (words(1), words(2));
    let again: Vec<&String> = second.iter().filter(|word| first.contains(word)).collect();
    for word in again {
        assert!(told.contains(word.as_str()), "{word} came again, and it was not said: {told}");
    }
    // And the manifest knows what was spared, so that it comes out again.
    room.done("reprint @weeks/2/week.manifest.json --child Child~2 --out @again/");
    assert_eq!(fs::read(room.path("again/child-2.pdf")).unwrap(), fs::read(room.path("weeks/2/child-2.pdf")).unwrap());
}

#[test]
fn what_has_changed_is_told_and_marked() {
    let room = room();
    room.done(&format!("{MAKE} --out @whole/ --child Child~1"));
    let path = room.path("whole/week.manifest.json");
    let text = fs::read_to_string(&path).unwrap();
    let manifest: serde_json::Value = serde_json::from_str(&text).unwrap();
    let bank = manifest["made_with"]["bank"].as_str().unwrap();
    fs::write(&path, text.replace(bank, &"0".repeat(64))).unwrap();
    let refused = room.run("reprint @whole/week.manifest.json --child Child~1 --out @again/");
    assert_eq!(refused.code, 1);
    assert!(refused.err.contains("the word bank: its fingerprint was 00000000…"), "{}", refused.err);
    assert!(!room.path("again").exists());
    let told = room.done("reprint @whole/week.manifest.json --child Child~1 --out @again/ --anyway");
    assert!(told.contains("no longer the same: the word bank"), "{told}");
    assert_ne!(fs::read(room.path("again/child-1.pdf")).unwrap(), fs::read(room.path("whole/child-1.pdf")).unwrap());
    // Other words by another seed are no matter of sameness.
    room.done("reprint @whole/week.manifest.json --child Child~1 --out @other/ --seed another");
}

#[test]
fn names_of_any_kind_are_safe() {
    let room = room();
    let long = "long ".repeat(60);
    let text = format!("name,step\n../x,13\nCON,13\n\u{1f98a},13\n\u{1f9a6},13\n{long},13\nŁucja,13\n二,13\n");
    fs::write(room.path("class.csv"), text).unwrap();
    fs::write(room.path("week.yaml"), "title: Week\nsheets: [sound-boxes]\n").unwrap();
    let told = room.done(&format!("{MAKE} --out @names/"));
    assert_eq!(pdfs(&room.path("names")).len(), 7, "{told}");
    assert!(told.contains("their lines are left to write on"), "{told}");
    assert!(!room.path("x.pdf").exists());
}

#[test]
fn errors_say_what_to_do() {
    let room = room();
    for (line, part) in [
        (format!("{MAKE} --out @o/ --child Chidl~7"), "did you mean `Child 7`?"),
        (format!("{MAKE} --out @o/ --format json"), "--report FILE.json"),
        ("reprint 7HK-M2P-X4D --in @.".to_owned(), "one of its signs is wrong"),
        ("reprint nothing --in @.".to_owned(), "is neither a manifest nor a code"),
        ("match @week.yaml".to_owned(), "it is not JSON"),
    ] {
        let outcome = room.run(&line);
        assert_ne!(outcome.code, 0, "{line}");
        assert!(outcome.err.contains(part), "{line}: {}", outcome.err);
    }
}
