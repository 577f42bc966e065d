//! What commands say, held against files: a folder for a test, and texts without what differs from run to run.
#![allow(dead_code, reason = "each test uses some of it")]

use std::fs;

use tempfile::TempDir;

use super::support::sheafling;

/// A folder for one test's files.
pub struct Place(pub TempDir);

impl Place {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self, name: &str) -> String {
        self.0.path().join(name).to_str().unwrap().to_owned()
    }

    pub fn file(&self, name: &str, text: &str) -> String {
        fs::write(self.path(name), text).unwrap();
        self.path(name)
    }

    /// What a command prints, and its exit code, with this folder's name left out.
    pub fn says(&self, args: &[&str]) -> String {
        let outcome = sheafling(args);
        let out = if outcome.out.starts_with(b"%PDF") {
            "(a PDF file)\n".into()
        } else {
            String::from_utf8(outcome.out).unwrap()
        };
        let text = format!("$ sheafling {}\n{out}{}[exit code {}]\n", args.join(" "), outcome.err, outcome.code);
        text.replace(self.0.path().to_str().unwrap(), "FOLDER")
    }

    /// The names of the files in a folder here.
    pub fn names(&self, folder: &str) -> Vec<String> {
        let entries = fs::read_dir(self.0.path().join(folder)).unwrap();
        let mut names: Vec<String> =
            entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }
}

/// A text with its numbers hidden and its columns drawn together.
pub fn counts_hidden(text: &str) -> String {
    let mut hidden = String::new();
    let mut chars = text.chars().peekable();
    while let Some(c) = chars.next() {
        if c.is_ascii_digit() {
            while chars.next_if(|c| c.is_ascii_digit() || *c == ',').is_some() {}
            hidden.push('#');
        } else if !(c == ' ' && hidden.ends_with("  ")) {
            hidden.push(c);
        }
    }
    hidden.lines().map(|line| line.trim_end().to_owned() + "\n").collect()
}

/// Holds a text against the file of a name in `tests/commands`.
#[macro_export]
macro_rules! hold {
    ($name:literal, $text:expr) => {
        let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/commands");
        insta::with_settings!({snapshot_path => path, prepend_module_to_snapshot => false, omit_expression => true}, {
            insta::assert_snapshot!($name, $text);
        });
    };
}

/// Options for a sheet that is the same each time.
pub const SHEET: [&str; 6] = ["--seed", "calm-otter-42", "--step", "ai-ay", "--focus", "bl cl fl"];

/// Those options between others.
pub fn with<'a>(head: &[&'a str], tail: &[&'a str]) -> Vec<&'a str> {
    [head, &SHEET, tail].concat()
}
