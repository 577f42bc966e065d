//! Imports go one way through the source: a folder uses only folders that stand above it in the list of DEVELOPERS.md.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

use std::fs;
use std::path::{Path, PathBuf};

/// The folders and files of `src/`, from top to bottom.
const ORDER: &[&str] = &[
    "sounds", "spelling", "nearest", "yaml", "rows", "seed", "bank", "sequence", "page", "sheet", "fill", "layout",
    "pdf", "record", "packet", "cli",
];

fn files(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
}

#[test]
fn imports_go_one_way() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut all = Vec::new();
    files(&src, &mut all);
    let mut wrong = Vec::new();
    for path in all {
        let inside = path.strip_prefix(&src).unwrap();
        let room = inside.components().next().unwrap().as_os_str().to_string_lossy().replace(".rs", "");
        let test = inside.to_string_lossy().contains("test");
        let Some(own) = ORDER.iter().position(|name| *name == room).filter(|_| !test) else { continue };
        for (number, line) in fs::read_to_string(&path).unwrap().lines().enumerate() {
            if line.contains("#[cfg(test)]") {
                break;
            }
            let code = line.split("//").next().unwrap_or_default();
            for used in code.split("crate::").skip(1) {
                let used: String = used.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
                if ORDER.iter().position(|name| *name == used).is_some_and(|other| other > own) {
                    wrong.push(format!("{}:{}: {room} uses {used}", inside.display(), number + 1));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_folder_is_in_the_order() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for entry in fs::read_dir(src).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().replace(".rs", "");
        assert!(["lib", "main"].contains(&name.as_str()) || ORDER.contains(&name.as_str()), "{name}");
    }
}
