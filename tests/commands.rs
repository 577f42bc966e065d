//! What each command prints, held against the files in `tests/commands`; the help, and the program itself.
//!
//! `INSTA_UPDATE=always cargo test --test commands` writes them anew: read each difference before it is committed. Where a text
//! counts words of the bank, its numbers stand as `#`, so that a new word changes nothing here.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

mod support;
#[path = "support/told.rs"]
#[macro_use]
mod told;

use std::fs;
use std::path::PathBuf;

use clap::CommandFactory;
use sheafling::cli::Cli;
use support::{printed, sheafling};
use told::{Place, counts_hidden, with};

#[test]
fn making_a_sheet() {
    let place = Place::new();
    let out = place.path("pages/");
    let file = place.path("mine.pdf");
    let say = [
        place.says(&with(&["sheet", "sound-boxes"], &["--out", &out])),
        place.says(&with(&["sheet", "blend-sort"], &["--out", &out, "--child", "Ada B."])),
        place.says(&with(&["sheet", "word-ladder"], &["--out", &file, "--key", "apart"])),
        place.says(&with(&["sheet", "word-ladder"], &["--out", "-"])),
        place.says(&with(&["sheet", "word-ladder"], &["--out", "-", "--key", "apart"])),
        place.says(&with(&["sheet", "sound-boxes"], &["--out", &out, "--child", "言葉"])),
    ];
    hold!("sheet", say.join("\n"));
    assert_eq!(
        place.names("pages"),
        ["blend-sort-ada-b.manifest.json", "blend-sort-ada-b.pdf", "sound-boxes.manifest.json", "sound-boxes.pdf"]
    );
    assert_eq!(place.names(""), ["mine-key.pdf", "mine.manifest.json", "mine.pdf", "pages"]);
}

#[test]
fn a_drawn_seed_is_told_and_makes_the_same_sheet_again() {
    let args = ["sheet", "sound-boxes", "--format", "json", "--out", "-"];
    let first = sheafling(&args);
    let seed = first.err.strip_prefix("seed: ").unwrap().trim();
    assert_eq!(first.out, printed(&[&args[..], &["--seed", seed]].concat()).into_bytes());
    assert_ne!(first.err, sheafling(&args).err);
}

#[test]
fn making_a_packet() {
    let place = Place::new();
    let plan = concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/plans/l-blends-week.yaml");
    let copy = place.file("week.yaml", &fs::read_to_string(plan).unwrap());
    let out = place.path("");
    let say = [
        place.says(&["packet", &copy, "--out", &out]),
        place.says(&["packet", &copy, "--out", &out, "--only", "2,3", "--key", "apart", "--child", "Bo"]),
        place.says(&["packet", &copy, "--out", &out, "--only", "4"]),
        place.says(&["packet", &copy, "--out", &out, "--only", "0"]),
    ];
    hold!("packet", say.join("\n"));
    assert_eq!(
        place.names(""),
        ["week-bo-key.pdf", "week-bo.manifest.json", "week-bo.pdf", "week.manifest.json", "week.pdf", "week.yaml"]
    );
}

#[test]
fn looking_up_words() {
    let place = Place::new();
    let say = [
        place.says(&["words", "--onset", "spl", "--step", "three-at-start"]),
        place.says(&["words", "--coda", "lch", "--format", "csv"]),
        place.says(&["words", "--rhymes-with", "brake", "--onset", "fl", "--format", "json"]),
        place.says(&["words", "--onset", "spl", "--notation", "ipa", "--step", "three-at-start"]),
    ];
    hold!("words", say.join("\n"));
    let nothing = [
        place.says(&["words", "--onset", "spl", "--sounds", "3", "--step", "l-blends"]),
        place.says(&["words", "--onset", "spl", "--sounds", "3", "--format", "json"]),
    ];
    hold!("words-none", counts_hidden(&nothing.join("\n")));
    let wrong = [
        place.says(&["words", "--onset", "bll"]),
        place.says(&["words", "--coda", "qqq"]),
        place.says(&["words", "--sounds", "four"]),
        place.says(&["words", "--sounds", "5-3"]),
        place.says(&["words", "--rhymes-with", "brakke"]),
        place.says(&["words", "--step", "l-blend"]),
        place.says(&["words", "--step", "400"]),
        place.says(&["words", "--format", "xml"]),
    ];
    hold!("words-wrong", wrong.join("\n"));
}

#[test]
fn explaining_words() {
    let place = Place::new();
    let say = [
        place.says(&["explain", "brave", "knee"]),
        place.says(&["explain", "Fox", "blakn", "cups"]),
        place.says(&["explain", "read", "--notation", "ipa"]),
        place.says(&["explain"]),
    ];
    hold!("explain", say.join("\n"));
}

#[test]
fn working_by_ear() {
    let place = Place::new();
    let say = [
        place.says(&["ear", "swap", "--from", "bl", "--to", "dr", "--step", "ai-ay"]),
        place.says(&["ear", "rhyme", "brake", "--step", "a-e"]),
        place.says(&["ear", "take-away", "zz"]),
        place.says(&["ear", "rhyme", "brakke"]),
    ];
    hold!("ear", say.join("\n"));
}

#[test]
fn checking_a_text() {
    let place = Place::new();
    let text = place.file("text.txt", "The black cat sat.\nA zebra and Blurple flew.\n");
    let say = [
        place.says(&["check", &text, "--step", "l-blends"]),
        place.says(&["check", &text, "--step", "l-blends", "--at-least", "90"]),
        place.says(&["check", &text, "--step", "l-blends", "--at-least", "most"]),
        place.says(&["check", &place.path("missing.txt"), "--step", "l-blends"]),
    ];
    hold!("check", say.join("\n"));
}

#[test]
fn listing() {
    let place = Place::new();
    hold!("list-layouts", place.says(&["list", "layouts"]));
    hold!("list-steps", counts_hidden(&place.says(&["list", "steps"])));
    hold!("list-blends", counts_hidden(&place.says(&["list", "blends"])));
    hold!("list-wrong", place.says(&["list", "sheets"]));
}

/// All commands with the words that lead to them: `sheet`, `ear rhyme` and so on.
fn commands(of: &clap::Command, path: &[String]) -> Vec<(Vec<String>, clap::Command)> {
    let mut all = vec![(path.to_vec(), of.clone())];
    for sub in of.get_subcommands().filter(|sub| sub.get_name() != "help") {
        all.extend(commands(sub, &[path, &[sub.get_name().to_owned()]].concat()));
    }
    all
}

#[test]
fn help_tells_every_option() {
    for (path, command) in commands(&Cli::command(), &[]) {
        for flag in ["--help", "-h"] {
            let mut args: Vec<&str> = path.iter().map(String::as_str).collect();
            args.push(flag);
            let help = printed(&args);
            assert!(help.contains("Usage: "), "{args:?}");
            for option in command.get_arguments().filter(|option| !option.is_hide_set()) {
                let name = option
                    .get_long()
                    .map_or_else(|| option.get_id().to_string().to_uppercase(), |long| format!("--{long}"));
                assert!(help.contains(&name), "{args:?} does not mention {name}");
                assert!(
                    option.get_help().is_some_and(|help| help.to_string().len() > 4),
                    "{path:?}: {name} has no help"
                );
            }
            for sub in command.get_subcommands() {
                assert!(help.contains(sub.get_name()), "{args:?} does not mention {}", sub.get_name());
            }
        }
    }
}

#[test]
fn the_version_is_the_packages() {
    assert_eq!(printed(&["--version"]), format!("sheafling {}\n", env!("CARGO_PKG_VERSION")));
}

#[test]
fn shells_get_completions() {
    for shell in ["bash", "zsh", "fish", "powershell", "elvish"] {
        let script = printed(&["completions", shell]);
        for word in ["sheafling", "packet", "notation"] {
            assert!(script.contains(word), "{shell}: {word}");
        }
    }
    let tree = Cli::command();
    let names: Vec<_> = tree.get_subcommands().map(clap::Command::get_name).collect();
    assert!(names.iter().all(|name| printed(&["completions", "fish"]).contains(name)));
    assert_eq!(sheafling(&["completions", "csh"]).code, 2);
}

/// The program itself: what the library gives goes to the two streams and the exit code.
#[test]
fn the_program_prints_and_exits_as_the_library_says() {
    let program = || assert_cmd::Command::new(env!("CARGO_BIN_EXE_sheafling"));
    let right = program().args(["explain", "blank"]).assert().code(0);
    assert_eq!(String::from_utf8_lossy(&right.get_output().stdout), printed(&["explain", "blank"]));
    let wrong = program().args(["sheet", "sound-box"]).assert().code(2);
    assert!(wrong.get_output().stdout.is_empty());
    assert_eq!(String::from_utf8_lossy(&wrong.get_output().stderr), sheafling(&["sheet", "sound-box"]).err);
    program().args(["words", "--onset", "spl", "--sounds", "3"]).assert().code(1);
    let place = Place::new();
    program()
        .args(with(&["sheet", "sound-boxes"], &[]))
        .current_dir(place.0.path())
        .assert()
        .code(0)
        .stdout(PathBuf::from("out").join("sound-boxes.pdf").display().to_string() + "\n");
    assert_eq!(place.names("out"), ["sound-boxes.manifest.json", "sound-boxes.pdf"]);
}
