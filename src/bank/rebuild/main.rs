//! Rebuilds the word bank's file from its sources.
//!
//! `cargo run --release --example rebuild-bank -- CMUDICT SCOWL_DIR` reads `src/bank/chosen.tsv` (the words, each judged by a
//! reader), `src/bank/overrides.tsv`, CMUdict's `cmudict.dict` and the SCOWL lists, and writes `src/bank/words.txt`,
//! `src/bank/heard.txt` and `src/bank/spelled.txt`. A word that can't be built is an error that names it. The same sources give
//! the same bytes.

mod forms;
mod sources;

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;
use std::process::ExitCode;

use sheafling::sounds::{Phone, Phoneme, Stress, parse_phones};
use sheafling::spelling::{Alignment, align};
use sources::{Chosen, Cmudict, Levels, Listed, is_blocked};

const BANK: &str = "src/bank";

/// Words above this SCOWL level are too rare to be inflected.
const FORMS_UP_TO: u8 = 50;

fn main() -> ExitCode {
    let args: Vec<String> = std::env::args().skip(1).collect();
    let [cmudict, scowl] = args.as_slice() else {
        eprintln!("usage: rebuild-bank PATH/TO/cmudict.dict PATH/TO/scowl  (run at the top of the repository)");
        return ExitCode::from(2);
    };
    match rebuild(Path::new(cmudict), Path::new(scowl)) {
        Ok(report) => {
            println!("{report}");
            ExitCode::SUCCESS
        }
        Err(problems) => {
            eprintln!("{problems}");
            ExitCode::FAILURE
        }
    }
}

fn rebuild(cmudict: &Path, scowl: &Path) -> Result<String, String> {
    let cmudict = Cmudict::read(cmudict)?;
    let levels = Levels::read(scowl)?;
    let overrides = Listed::read(Path::new(BANK).join("overrides.tsv").as_path())?;
    let groups = Listed::read(Path::new(BANK).join("groups.tsv").as_path())?;
    let sources = Sources { cmudict, levels, overrides, groups };
    let Sources { cmudict, levels, .. } = &sources;
    let chosen = sources::read_chosen(Path::new(BANK).join("chosen.tsv").as_path())?;
    let blocked = sources::read_blocked(Path::new(BANK).join("left-out.txt").as_path())?;

    let unmade = sources::read_blocked(Path::new(BANK).join("no-forms.txt").as_path())?;
    let mut problems = String::new();
    let mut rows: BTreeMap<String, String> = BTreeMap::new();
    for word in chosen.values() {
        if blocked.contains(&word.spelling) {
            let _ = writeln!(problems, "{}: chosen, but on the list of words to leave out", word.spelling);
            continue;
        }
        match sources.built(word) {
            Ok((row, _)) => {
                rows.insert(word.spelling.clone(), row);
            }
            Err(why) => {
                let _ = writeln!(problems, "{}: {why}", word.spelling);
            }
        }
    }
    let base = rows.len();
    for word in chosen.values().filter(|word| forms::takes_endings(word)) {
        let Ok((_, alignment)) = sources.built(word) else { continue };
        for form in forms::of(word, &alignment, cmudict, levels, FORMS_UP_TO) {
            if is_blocked(&form.spelling, &blocked)
                || unmade.contains(&form.spelling)
                || rows.contains_key(&form.spelling)
            {
                continue;
            }
            if let Ok((row, _)) = sources.built(&form) {
                rows.insert(form.spelling.clone(), row);
            }
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut text = String::from(sources::HEADER);
    for row in rows.values() {
        text.push_str(row);
        text.push('\n');
    }
    write(&Path::new(BANK).join("words.txt"), &text)?;
    let heard = sources::heard(cmudict);
    write(&Path::new(BANK).join("heard.txt"), &heard)?;
    let spelled = sources::spelled(levels);
    write(&Path::new(BANK).join("spelled.txt"), &spelled)?;
    Ok(format!(
        "{} words: {base} chosen and {} with an ending; words.txt has {} bytes, heard.txt {}, spelled.txt {}",
        rows.len(),
        rows.len() - base,
        text.len(),
        heard.len(),
        spelled.len()
    ))
}

fn write(path: &Path, text: &str) -> Result<(), String> {
    std::fs::write(path, text).map_err(|error| format!("{}: {error}", path.display()))
}

/// Everything a row is built from.
struct Sources {
    cmudict: Cmudict,
    levels: Levels,
    overrides: Listed,
    groups: Listed,
}

impl Sources {
    /// The row of a word in the bank's file, and its alignment.
    fn built(&self, word: &Chosen) -> Result<(String, Alignment), String> {
        let alignment = self.alignment(word)?;
        let level = self.levels.of(&word.spelling).map_or("-".to_owned(), |level| level.to_string());
        let syllables = alignment.phones().iter().filter(|p| p.phoneme.is_vowel()).count();
        let row = format!(
            "{}\t{alignment}\t{syllables}\t{level}\t{}\t{}\t{}\t{}",
            word.spelling, word.band, word.classes, word.categories, word.flags,
        );
        Ok((row, alignment))
    }

    /// The word's letter groups: listed by hand, or aligned with the sounds that are listed or that CMUdict has.
    fn alignment(&self, word: &Chosen) -> Result<Alignment, String> {
        let said = match self.overrides.get(&word.spelling) {
            Some(sounds) => vec![parse_phones(sounds).map_err(|e| e.to_string())?],
            None if word.said.is_some() => word.said.iter().cloned().collect(),
            None => self.cmudict.of(&word.spelling).ok_or("not in CMUdict, and there is no override")?.to_vec(),
        };
        if let Some(groups) = self.groups.get(&word.spelling) {
            let listed: Alignment = groups.parse()?;
            if listed.spelling() != word.spelling || !said.contains(&listed.phones()) {
                return Err(format!(
                    "the listed letter groups `{groups}` do not give back its letters and sounds {said:?}"
                ));
            }
            return Ok(listed);
        }
        if let Some(groups) = &word.groups {
            return Ok(groups.clone());
        }
        choose(word, &said).ok_or_else(|| format!("no alignment for {said:?}"))
    }
}

/// Of CMUdict's pronunciations, the one to teach: the first that can be aligned and is stressed somewhere; before it one that says
/// -ire and -our in one syllable, and one that says *wh* as /w/.
fn choose(word: &Chosen, said: &[Vec<Phone>]) -> Option<Alignment> {
    let syllables = |phones: &[Phone]| phones.iter().filter(|p| p.phoneme.is_vowel()).count();
    let stressed = |phones: &[Phone]| phones.iter().any(|p| p.stress == Some(Stress::Primary));
    let one_syllable_first = ["ire", "our", "ires", "ours", "ired", "oured"].iter().any(|e| word.spelling.ends_with(e));
    let has_hw =
        |phones: &[Phone]| phones.windows(2).any(|two| two[0].phoneme == Phoneme::Hh && two[1].phoneme == Phoneme::W);
    let mut order: Vec<&Vec<Phone>> = said.iter().collect();
    order.sort_by_key(|phones| {
        let length = if one_syllable_first { syllables(phones) } else { 0 };
        (!stressed(phones), has_hw(phones), length)
    });
    order.into_iter().find_map(|phones| aligned(word, phones))
}

/// Aligns a word; a compound part by part where its sounds allow it, so that no letter group crosses the seam.
fn aligned(word: &Chosen, phones: &[Phone]) -> Option<Alignment> {
    if let Some((first, second)) = word.seam() {
        let parts = (1..phones.len()).find_map(|at| {
            let mut left = align(first, &phones[..at])?;
            let right = align(second, &phones[at..])?;
            let shift = left.units.len();
            left.units.extend(right.units);
            left.closings.extend(right.closings.iter().map(|closing| closing + shift));
            Some(left)
        });
        if parts.is_some() {
            return parts;
        }
    }
    align(&word.spelling, phones)
}
