//! The sources of the bank, as they are read.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use sheafling::sounds::{Phone, Phoneme, parse_phones};
use sheafling::spelling::Alignment;

/// The head of the built file.
pub const HEADER: &str = "\
# The word bank. Built by `rebuild-bank` from chosen.tsv, overrides.tsv, CMUdict and SCOWL: change those, not this file.
# One word a line, columns parted by tabs:
# spelling, letter groups with their sounds, syllables, SCOWL level, age band, word classes, categories, flags.
";

/// A word that a reader has chosen.
#[derive(Clone)]
pub struct Chosen {
    pub spelling: String,
    pub band: String,
    pub classes: String,
    pub categories: String,
    pub flags: String,
    /// The pronunciation to take, when it is known which of CMUdict's.
    pub said: Option<Vec<Phone>>,
    /// The letter groups to take, when they are known.
    pub groups: Option<Alignment>,
}

impl Chosen {
    /// The two parts of a compound.
    pub fn seam(&self) -> Option<(&str, &str)> {
        self.flags.split(',').find_map(|flag| flag.strip_prefix("compound=")?.split_once('+'))
    }
}

fn read(path: &Path) -> Result<String, String> {
    std::fs::read_to_string(path).map_err(|error| format!("{}: {error}", path.display()))
}

/// Reads `chosen.tsv`: spelling, band, classes, categories, flags.
pub fn read_chosen(path: &Path) -> Result<BTreeMap<String, Chosen>, String> {
    let mut words = BTreeMap::new();
    for (number, line) in read(path)?.lines().enumerate() {
        if line.starts_with('#') || line.is_empty() {
            continue;
        }
        let columns: Vec<&str> = line.split('\t').collect();
        let [spelling, band, classes, categories, flags] = columns.as_slice() else {
            return Err(format!("{}:{}: 5 columns are needed", path.display(), number + 1));
        };
        let word = Chosen {
            spelling: (*spelling).to_owned(),
            band: (*band).to_owned(),
            classes: (*classes).to_owned(),
            categories: (*categories).to_owned(),
            flags: (*flags).to_owned(),
            said: None,
            groups: None,
        };
        if words.insert(word.spelling.clone(), word).is_some() {
            return Err(format!("{}:{}: {spelling} is there twice", path.display(), number + 1));
        }
    }
    Ok(words)
}

/// Reads the words to leave out, one a line.
pub fn read_blocked(path: &Path) -> Result<BTreeSet<String>, String> {
    let text = read(path)?;
    Ok(text.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#')).map(str::to_owned).collect())
}

/// Whether a word is on the list, as it stands or as the base of a plural.
pub fn is_blocked(spelling: &str, blocked: &BTreeSet<String>) -> bool {
    blocked.contains(spelling) || spelling.strip_suffix('s').is_some_and(|base| blocked.contains(base))
}

/// Something listed for single words, each with its reason: their sounds, or their letter groups.
pub struct Listed(BTreeMap<String, String>);

impl Listed {
    /// Reads a file of three columns: spelling, what is listed, reason.
    pub fn read(path: &Path) -> Result<Self, String> {
        let mut found = BTreeMap::new();
        for (number, line) in read(path)?.lines().enumerate() {
            if line.starts_with('#') || line.is_empty() {
                continue;
            }
            let columns: Vec<&str> = line.split('\t').collect();
            let [spelling, sounds, reason] = columns.as_slice() else {
                return Err(format!("{}:{}: 3 columns are needed", path.display(), number + 1));
            };
            if reason.trim().is_empty() {
                return Err(format!("{}:{}: {spelling} has no reason", path.display(), number + 1));
            }
            found.insert((*spelling).to_owned(), (*sounds).to_owned());
        }
        Ok(Self(found))
    }

    pub fn get(&self, spelling: &str) -> Option<&str> {
        self.0.get(spelling).map(String::as_str)
    }
}

/// CMUdict: all pronunciations of each lower-case word, in the dictionary's order.
pub struct Cmudict(BTreeMap<String, Vec<Vec<Phone>>>);

impl Cmudict {
    /// Reads `cmudict.dict`: `word SOUNDS`, `word(2) SOUNDS`, comments after `#`.
    pub fn read(path: &Path) -> Result<Self, String> {
        let mut found: BTreeMap<String, Vec<Vec<Phone>>> = BTreeMap::new();
        for (number, line) in read(path)?.lines().enumerate() {
            let line = line.split('#').next().unwrap_or_default();
            let Some((word, codes)) = line.split_once(' ') else { continue };
            let word = word.split('(').next().unwrap_or_default();
            let phones = parse_phones(codes).map_err(|e| format!("{}:{}: {e}", path.display(), number + 1))?;
            found.entry(word.to_owned()).or_default().push(phones);
        }
        Ok(Self(found))
    }

    pub fn of(&self, word: &str) -> Option<&[Vec<Phone>]> {
        self.0.get(word).map(Vec::as_slice)
    }
}

/// SCOWL: the least level at which a word is listed.
pub struct Levels(BTreeMap<String, u8>);

impl Levels {
    /// Reads the `english-words.*` and `american-words.*` lists of a folder.
    pub fn read(folder: &Path) -> Result<Self, String> {
        let mut found: BTreeMap<String, u8> = BTreeMap::new();
        for kind in ["english-words", "american-words"] {
            for level in [10_u8, 20, 35, 40, 50, 55, 60, 70, 80, 95] {
                let path = folder.join(format!("{kind}.{level}"));
                let bytes = std::fs::read(&path).map_err(|error| format!("{}: {error}", path.display()))?;
                // The lists are in Latin-1; words with a letter outside a–z are not for beginners.
                for line in bytes.split(|b| *b == b'\n') {
                    if !line.is_empty() && line.iter().all(u8::is_ascii_lowercase) {
                        let word = String::from_utf8_lossy(line).into_owned();
                        found.entry(word).and_modify(|known| *known = (*known).min(level)).or_insert(level);
                    }
                }
            }
        }
        Ok(Self(found))
    }

    pub fn of(&self, word: &str) -> Option<u8> {
        self.0.get(word).copied()
    }
}

/// Every one-syllable pronunciation in CMUdict, without stress, sorted: what a nonsense word must not sound like.
pub fn heard(cmudict: &Cmudict) -> String {
    let mut all = BTreeSet::new();
    for phones in cmudict.0.values().flatten() {
        if phones.iter().filter(|p| p.phoneme.is_vowel()).count() == 1 {
            let codes: Vec<&str> = phones.iter().map(|p| p.phoneme.code()).collect();
            all.insert(codes.join(" "));
        }
    }
    listed("Every one-syllable pronunciation in CMUdict, without stress: a nonsense word may not sound like one.", &all)
}

/// Every SCOWL word up to level 70 with one group of vowel letters and at most 8 letters, silent e aside, sorted: what a nonsense
/// word must not be spelled like.
pub fn spelled(levels: &Levels) -> String {
    let one_vowel_group = |word: &str| {
        let body = word.strip_suffix('e').filter(|b| b.contains(is_vowel_letter)).unwrap_or(word);
        let groups = body.split(|c| !is_vowel_letter(c)).filter(|group| !group.is_empty()).count();
        groups == 1 && word.len() <= 8
    };
    let all: BTreeSet<String> = levels
        .0
        .iter()
        .filter(|(word, level)| **level <= 70 && one_vowel_group(word))
        .map(|(w, _)| w.clone())
        .collect();
    listed(
        "SCOWL words up to level 70 with one group of vowel letters: a nonsense word may not be spelled like one.",
        &all,
    )
}

fn is_vowel_letter(c: char) -> bool {
    "aeiouy".contains(c)
}

fn listed(title: &str, lines: &BTreeSet<String>) -> String {
    let mut text = format!("# {title} Built by `rebuild-bank`.\n");
    for line in lines {
        text.push_str(line);
        text.push('\n');
    }
    text
}

/// Whether the last sound of a word is voiced.
pub fn ends_voiced(phones: &[Phone]) -> bool {
    use Phoneme::{Ch, F, Hh, K, P, S, Sh, T, Th};
    phones.last().is_some_and(|p| ![Ch, F, Hh, K, P, S, Sh, T, Th].contains(&p.phoneme))
}
