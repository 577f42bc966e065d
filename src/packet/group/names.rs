//! Names of files for children: safe on every system, and unique whatever the children are called.

use std::collections::BTreeSet;

/// Names that some systems keep for devices (Microsoft Learn, "Naming Files, Paths, and Namespaces"; from memory).
const RESERVED: [&str; 4] = ["con", "prn", "aux", "nul"];

/// The longest part of a name that is kept, in characters.
const MOST: usize = 40;

/// A name for each child, without an ending, in the order of the names given: small letters, digits and hyphens.
///
/// The same name comes out as long as no other child has one like it: two that come out alike, and one of which nothing is
/// left (such as an emoji), get the first letters of their fingerprint, so that it does not matter in which order they stand.
#[must_use]
pub fn file_names<'a>(names: impl Iterator<Item = &'a str> + Clone) -> Vec<String> {
    let plain: Vec<String> = names.clone().map(slug).collect();
    let mut seen = BTreeSet::new();
    let mut twice = BTreeSet::new();
    for slug in &plain {
        if !seen.insert(slug.as_str()) {
            twice.insert(slug.as_str());
        }
    }
    let unique = |(name, slug): (&'a str, &String)| {
        let cut = name.chars().count() > MOST;
        if slug.is_empty() || twice.contains(slug.as_str()) || is_reserved(slug) || cut {
            let mark = &blake3::hash(name.as_bytes()).to_hex()[..8];
            format!("{}-{mark}", if slug.is_empty() { "child" } else { slug })
        } else {
            slug.clone()
        }
    };
    names.zip(&plain).map(unique).collect()
}

fn is_reserved(slug: &str) -> bool {
    let port =
        |kind: &str| slug.strip_prefix(kind).is_some_and(|rest| rest.len() == 1 && rest.as_bytes()[0].is_ascii_digit());
    RESERVED.contains(&slug) || port("com") || port("lpt")
}

/// A name as part of a file's name: small letters, digits and hyphens, at most [`MOST`].
#[must_use]
pub fn slug(name: &str) -> String {
    let mut slug = String::new();
    for c in name.chars().flat_map(char::to_lowercase) {
        if c.is_ascii_alphanumeric() {
            slug.push(c);
        } else if !slug.ends_with('-') && !slug.is_empty() {
            slug.push('-');
        }
        if slug.len() >= MOST {
            break;
        }
    }
    slug.trim_end_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_safe_and_unique() {
        let long = "long ".repeat(60);
        let names = ["Ana", "../x", "CON", "\u{1f98a}", "\u{1f9a6}", "ana!", "com1", "Łucja", "..", &long, "Ben"];
        let files = file_names(names.iter().copied());
        let unique: BTreeSet<&String> = files.iter().collect();
        assert_eq!(unique.len(), names.len(), "{files:?}");
        for file in &files {
            assert!(file.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-'), "{file}");
            assert!(!is_reserved(file) && file.len() <= MOST + 9 && !file.starts_with('-'), "{file}");
        }
        assert_eq!(files.last().map(String::as_str), Some("ben"));
        assert_eq!(files[1], "x");
        // Who else is in the group, and in which order, makes no difference.
        let turned = file_names(names.iter().rev().copied());
        assert_eq!(turned.iter().rev().collect::<Vec<_>>(), files.iter().collect::<Vec<_>>());
    }

    #[test]
    fn file_names_are_plain() {
        assert_eq!(slug("Ada"), "ada");
        assert_eq!(slug("../../Ö x"), "x");
        assert_eq!(slug("   "), "");
        assert!(slug(&"long ".repeat(90)).len() <= 40);
    }
}
