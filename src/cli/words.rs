//! `words`: finding words by sound.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use serde::Serialize;

use super::args::{WithArg, WordsArgs, WordsFormat};
use super::query;
use super::table::table;
use super::{Failure, Outcome};
use crate::bank::{Bank, Condition, Filter, Misfit, Word};
use crate::sounds::{Counting, Notation, Place, Side, spell_out};

/// A word as it is listed.
#[derive(Serialize)]
struct Row<'a> {
    word: &'a str,
    sounds: Vec<&'static str>,
    letters: Vec<String>,
    syllables: usize,
    band: &'static str,
    level: u8,
    blends: Vec<String>,
    step: Option<u16>,
}

impl<'a> Row<'a> {
    fn new(word: &'a Word, step: Option<u16>) -> Self {
        Self {
            word: &word.spelling,
            sounds: word.codes(),
            letters: word.groups(),
            syllables: word.syllables.len(),
            band: word.band.name(),
            level: word.level,
            blends: word.blends().map(|(blend, _)| blend.to_string()).collect(),
            step,
        }
    }
}

pub(super) fn words(args: &WordsArgs) -> Result<Outcome, Failure> {
    let bank = args.words_of.bank(Counting::default())?;
    let sequence = query::sequence(args.sequence.as_deref())?;
    let step_of = |word: &Word| sequence.step_of(word, &bank);
    let mut filter = Filter::new();
    if let Some(text) = &args.onset {
        let wanted = query::sounds("onset", text, Side::Onset)?;
        filter.require(Condition::new(format!("begin with {text}"), "take away --onset", move |w| w.onset() == wanted));
    }
    if let Some(text) = &args.coda {
        let wanted = query::sounds("coda", text, Side::Coda)?;
        filter.require(Condition::new(format!("end with {text}"), "take away --coda", move |w| w.coda() == wanted));
    }
    if let Some(text) = &args.sounds {
        let range = query::range("sounds", text)?;
        let asks = format!("have {text} sounds");
        filter.require(Condition::new(asks, "ask for other --sounds", move |w| range.contains(&w.sounds.len())));
    }
    if let Some(text) = &args.syllables {
        let range = query::range("syllables", text)?;
        let asks = format!("have {text} syllables");
        filter.require(Condition::new(asks, "ask for other --syllables", move |w| range.contains(&w.syllables.len())));
    }
    if let Some(spelling) = &args.rhymes_with {
        let word = query::word(&bank, spelling)?;
        let asks = format!("rhyme with {spelling}");
        filter.require(Condition::new(asks, "take away --rhymes-with", move |other| other.rhymes_with(word)));
    }
    spelled_and_tagged(args, &bank, &mut filter)?;
    if !args.forms {
        filter.require(Condition::new("have no ending", "add --forms", |w| !w.is_form()));
    }
    if let Some(name) = &args.step {
        let step = sequence.step(name).map_err(Failure::usage)?;
        let asks = format!("can be read at step {} ({})", step.number, step.name);
        filter.require(Condition::new(asks, "choose a later --step", move |w| {
            step_of(w).is_some_and(|at| at <= step.number)
        }));
    }
    let found = filter.apply(bank.words());
    if found.is_empty() && args.format == WordsFormat::Table {
        return Err(nothing(&filter, bank.words()));
    }
    let rows: Vec<Row<'_>> = found.iter().map(|word| Row::new(word, step_of(word))).collect();
    let notation = args.notation.map_or(Notation::Teacher, Into::into);
    match args.format {
        WordsFormat::Table => Ok(Outcome {
            err: format!("{} {}\n", rows.len(), if rows.len() == 1 { "word" } else { "words" }),
            ..Outcome::printing(as_table(&found, &rows, notation))
        }),
        WordsFormat::Json => {
            let text = serde_json::to_string_pretty(&rows).map_err(Failure::usage)?;
            Ok(Outcome::printing(text + "\n"))
        }
        WordsFormat::Csv => as_csv(&rows).map(Outcome::printing).map_err(Failure::usage),
    }
}

/// The conditions on a blend's place, on other words, and on what a reader has judged.
fn spelled_and_tagged<'a>(args: &'a WordsArgs, bank: &'a Bank, filter: &mut Filter<'a>) -> Result<(), Failure> {
    if let Some(name) = &args.blend {
        let blends = query::blends(name)?;
        let place = args.place.map(Place::from);
        let at = place.map_or(String::new(), |place| format!(" at the {}", place.name()));
        filter.require(Condition::new(format!("have {name}{at}"), "ask for another --blend or --place", move |word| {
            word.blends().any(|(blend, at)| blends.contains(&blend) && place.is_none_or(|place| place == at))
        }));
    }
    if let Some(spelling) = &args.sounds_like {
        let word = query::word(bank, spelling)?;
        filter.require(Condition::new(format!("sound like {spelling}"), "take away --sounds-like", move |other| {
            other.sounds == word.sounds && other.spelling != word.spelling
        }));
    }
    if let Some(spelling) = &args.near {
        let word = query::word(bank, spelling)?;
        let near: BTreeSet<&str> = bank.swaps(&word.sounds).map(|(_, other)| other.spelling.as_str()).collect();
        filter.require(Condition::new(format!("are one swap from {spelling}"), "take away --near", move |other| {
            near.contains(other.spelling.as_str())
        }));
    }
    if !args.category.is_empty() {
        let names: Vec<_> = args.category.iter().map(|one| one.name()).collect();
        let asks = format!("are of the kind {}", names.join(" or "));
        filter.require(Condition::new(asks, "ask for another --category", |word| {
            args.category.iter().any(|one| word.categories.contains(one))
        }));
    }
    if !args.class.is_empty() {
        let names: Vec<_> = args.class.iter().map(|one| one.name()).collect();
        let asks = format!("are of the class {}", names.join(" or "));
        filter.require(Condition::new(asks, "ask for another --class", |word| {
            args.class.iter().any(|one| word.classes.contains(one))
        }));
    }
    if !args.band.is_empty() {
        let names: Vec<_> = args.band.iter().map(|one| one.name()).collect();
        let asks = format!("are of the band {}", names.join(" or "));
        filter.require(Condition::new(asks, "ask for another --band", |word| args.band.contains(&word.band)));
    }
    if args.compound {
        let compound = |word: &Word| word.flags.compound.is_some();
        filter.require(Condition::new("are compounds", "take away --compound", compound));
    }
    if let Some(with) = args.with {
        filter.require(Condition::new("are spelled so", "take away --with", move |word| is_spelled(word, with)));
    }
    Ok(())
}

/// Whether a word's spelling is special in the way asked for.
fn is_spelled(word: &Word, with: WithArg) -> bool {
    let misfit = word.boxes().map_or_else(Some, |(_, misfit)| misfit);
    match with {
        WithArg::X => word.alignment.units.iter().any(|unit| unit.letters == "x"),
        WithArg::Qu => word.alignment.units.iter().any(|unit| unit.letters == "qu"),
        WithArg::Silent => misfit == Some(Misfit::Silent),
        WithArg::TwoSounds => misfit == Some(Misfit::TwoSounds),
        WithArg::Irregular => word.flags.irregular,
        WithArg::Heteronym => word.flags.heteronym,
    }
}

/// No word meets the conditions: says what each leaves and which to loosen.
fn nothing(filter: &Filter<'_>, words: &[Word]) -> Failure {
    let all: Vec<&Word> = words.iter().collect();
    let costs = filter.account(&all);
    let mut text = format!("no words fit\n  {} words in the bank", all.len());
    for cost in &costs {
        let _ = write!(text, "\n  {} of them {}", cost.leaves, cost.asks);
    }
    for cost in costs.iter().filter(|cost| cost.without > 0) {
        let _ = write!(text, "\nhelp: {} (gives {})", cost.loosen, cost.without);
    }
    Failure::unfilled(text)
}

fn as_table(found: &[&Word], rows: &[Row<'_>], notation: Notation) -> String {
    let head = ["word", "sounds", "letters", "syllables", "blends", "step"].map(str::to_owned).to_vec();
    let mut lines = vec![head];
    for (word, row) in found.iter().zip(rows) {
        lines.push(vec![
            row.word.to_owned(),
            spell_out(&word.sounds, notation),
            row.letters.join("-"),
            row.syllables.to_string(),
            row.blends.join(" "),
            row.step.map_or("-".to_owned(), |step| step.to_string()),
        ]);
    }
    table(&lines)
}

fn as_csv(rows: &[Row<'_>]) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["word", "sounds", "letters", "syllables", "band", "level", "blends", "step"])?;
    for row in rows {
        writer.write_record([
            row.word,
            &row.sounds.join(" "),
            &row.letters.join(" "),
            &row.syllables.to_string(),
            row.band,
            &row.level.to_string(),
            &row.blends.join(" "),
            &row.step.map_or(String::new(), |step| step.to_string()),
        ])?;
    }
    writer.into_inner().map_err(|error| csv::Error::from(std::io::Error::other(error.to_string())))
}
