//! `words`: finding words by sound.

use std::fmt::Write as _;

use serde::Serialize;

use super::args::{WordsArgs, WordsFormat};
use super::query;
use super::table::table;
use super::{Failure, Outcome};
use crate::bank::{Condition, Filter, Word};
use crate::sounds::{Counting, Notation, Side, spell_out};

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
    let bank = query::bank(args.switches.over(Counting::default())?)?;
    let sequence = query::sequence(args.sequence.as_deref())?;
    let steps = sequence.steps_of(&bank);
    let step_of = |word: &Word| bank.index_of(&word.spelling).and_then(|at| steps[at]);
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
