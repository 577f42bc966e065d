//! A folder of its own in which commands are run.
#![allow(clippy::unwrap_used, reason = "a test may stop where something is missing")]

use std::ffi::OsString;
use std::path::PathBuf;

use sheafling::cli::{Outcome, run};

/// A folder that goes with the test.
pub struct Room(tempfile::TempDir);

impl Room {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    /// Runs a command; `@name` stands for a path in the room, and `~` for a blank.
    pub fn run(&self, line: &str) -> Outcome {
        let word = |word: &str| -> OsString {
            word.strip_prefix('@').map_or_else(|| word.replace('~', " ").into(), |name| self.path(name).into())
        };
        run(std::iter::once("sheafling".into()).chain(line.split(' ').map(word)))
    }

    /// Runs a command that must do. Gives what it prints.
    pub fn done(&self, line: &str) -> String {
        let outcome = self.run(line);
        assert_eq!(outcome.code, 0, "{line}: {}", outcome.err);
        String::from_utf8(outcome.out).unwrap() + &outcome.err
    }

    /// What the records of a run say of one sheet of a packet, counted from 0: its words in their order.
    pub fn words(&self, run: &str, packet: &str, sheet: usize) -> Vec<String> {
        let record = std::fs::read(self.path(&format!("{run}/made/{packet}.json"))).unwrap();
        let record: serde_json::Value = serde_json::from_slice(&record).unwrap();
        let words = record["sheets"][sheet]["words"].as_array().unwrap();
        words.iter().map(|word| word[0].as_str().unwrap().to_owned()).collect()
    }
}
