//! `ear`: pairs of words by one change of sounds, rhymes, nonsense words and riddles.

use serde::Serialize;

use super::args::{EarArgs, EarShared, EarWork, WordsFormat};
use super::table::table;
use super::{Failure, Outcome, query};
use crate::bank::{Bank, EarPair, Part, SillyMaker, Slot, Word};
use crate::sequence::{Sequence, Step};
use crate::sounds::{Counting, Notation, Side, Sound, spell_out};

pub(super) fn ear(args: &EarArgs) -> Result<Outcome, Failure> {
    match &args.work {
        EarWork::TakeAway { part, end, shared } => with(shared, |room| {
            let part = Room::part(part, *end)?;
            Ok(room.pairs(&room.bank.take_away(&part)))
        }),
        EarWork::Add { part, end, shared } => with(shared, |room| {
            let part = Room::part(part, *end)?;
            Ok(room.pairs(&room.bank.add(&part)))
        }),
        EarWork::Swap { from, to, end, shared } => with(shared, |room| {
            let side = side(*end);
            let slot = |option: &str, text: &Option<String>, otherwise| match text {
                Some(text) => query::sounds(option, text, side).map(Slot::Given),
                None => Ok(otherwise),
            };
            let (old, new) = (slot("from", from, Slot::Cluster)?, slot("to", to, Slot::Any)?);
            Ok(room.pairs(&room.bank.swap_clusters(side, &old, &new)))
        }),
        EarWork::Rhyme { word, shared } => with(shared, |room| room.rhymes(word)),
        EarWork::Silly { onset, rhymes_with, shared } => {
            with(shared, |room| room.silly(onset.as_deref(), rhymes_with.as_deref()))
        }
        EarWork::Riddle { onset, shared } => with(shared, |room| room.riddles(onset.as_deref())),
    }
}

const fn side(end: bool) -> Side {
    if end { Side::Coda } else { Side::Onset }
}

/// What is answered: a heading and rows for a table, and the same for a program.
struct Answer {
    head: &'static [&'static str],
    rows: Vec<Vec<String>>,
    json: serde_json::Value,
}

impl Answer {
    fn new(head: &'static [&'static str], rows: Vec<Vec<String>>, data: impl Serialize) -> Result<Self, Failure> {
        Ok(Self { head, rows, json: serde_json::to_value(data).map_err(Failure::usage)? })
    }
}

/// What an answer is worked out from.
struct Room<'a> {
    bank: &'a Bank,
    sequence: &'a Sequence,
    step: Option<&'a Step>,
    steps: Vec<Option<u16>>,
    notation: Notation,
    most: usize,
}

fn with(shared: &EarShared, answer: impl FnOnce(&Room<'_>) -> Result<Answer, Failure>) -> Result<Outcome, Failure> {
    let bank = shared.words_of.bank(Counting::default())?;
    let sequence = query::sequence(shared.sequence.as_deref())?;
    let step = shared.step.as_deref().map(|name| sequence.step(name)).transpose().map_err(Failure::usage)?;
    let room = Room {
        steps: sequence.steps_of(&bank),
        bank: &bank,
        sequence: &sequence,
        step,
        notation: shared.notation.map_or(Notation::Teacher, Into::into),
        most: shared.most,
    };
    let answer = answer(&room)?;
    if answer.rows.is_empty() && shared.format == WordsFormat::Table {
        let hint = if step.is_some() { "\nhelp: choose a later --step, or leave it out" } else { "" };
        return Err(Failure::unfilled(format!("nothing fits{hint}")));
    }
    let out = match shared.format {
        WordsFormat::Table => {
            let head = answer.head.iter().map(|&name| name.to_owned()).collect();
            table(&[vec![head], answer.rows].concat()).into_bytes()
        }
        WordsFormat::Json => (serde_json::to_string_pretty(&answer.json).map_err(Failure::usage)? + "\n").into_bytes(),
        WordsFormat::Csv => csv_of(&answer).map_err(Failure::usage)?,
    };
    Ok(Outcome::printing(out))
}

fn csv_of(answer: &Answer) -> Result<Vec<u8>, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(answer.head)?;
    for row in &answer.rows {
        writer.write_record(row)?;
    }
    writer.into_inner().map_err(|error| csv::Error::from(std::io::Error::other(error.to_string())))
}

/// A pair in JSON.
#[derive(Serialize)]
struct PairJson {
    from: String,
    from_sounds: Vec<&'static str>,
    goes: Vec<&'static str>,
    comes: Vec<&'static str>,
    to: Vec<String>,
    to_sounds: Vec<&'static str>,
    spelling_changes: bool,
}

impl Room<'_> {
    fn readable(&self, word: &Word) -> bool {
        let from = self.bank.index_of(&word.spelling).and_then(|at| self.steps[at]);
        self.step.is_none_or(|step| from.is_some_and(|from| from <= step.number))
    }

    fn part(name: &str, end: bool) -> Result<Part, Failure> {
        Ok(match name {
            "first" => Part::First,
            "onset" => Part::Onset,
            "second" => Part::Second,
            "last" => Part::Last,
            "before-last" => Part::BeforeLast,
            "coda" => Part::Coda,
            sounds => Part::Given(side(end), query::sounds("part", sounds, side(end))?),
        })
    }

    /// Pairs whose words can all be read, or all pairs; those that only add or drop an ending are left out.
    fn pairs(&self, pairs: &[EarPair<'_>]) -> Answer {
        let fits = |pair: &EarPair<'_>| {
            !pair.ending && self.readable(pair.from) && pair.answers.iter().any(|answer| self.readable(answer.word))
        };
        let said = |sounds: &[Sound]| if sounds.is_empty() { "-".to_owned() } else { spell_out(sounds, self.notation) };
        let mut rows = Vec::new();
        let mut json = Vec::new();
        for pair in pairs.iter().filter(|pair| fits(pair)).take(self.most) {
            let to: Vec<String> = pair.spellings().into_iter().map(str::to_owned).collect();
            rows.push(vec![
                pair.from.spelling.clone(),
                said(&pair.change.old),
                said(&pair.change.new),
                to.join(", "),
                if pair.spelling_changes { "yes".to_owned() } else { String::new() },
            ]);
            json.push(PairJson {
                from: pair.from.spelling.clone(),
                from_sounds: pair.from.codes(),
                goes: pair.change.old.iter().map(|sound| sound.code()).collect(),
                comes: pair.change.new.iter().map(|sound| sound.code()).collect(),
                to_sounds: pair.answers.first().map(|answer| answer.word.codes()).unwrap_or_default(),
                to,
                spelling_changes: pair.spelling_changes,
            });
        }
        let head = &["word", "goes", "comes", "becomes", "spelled anew"];
        Answer { head, rows, json: serde_json::to_value(json).unwrap_or_default() }
    }

    fn rhymes(&self, spelling: &str) -> Result<Answer, Failure> {
        let word = query::word(self.bank, spelling)?;
        let mut groups: std::collections::BTreeMap<&str, Vec<&str>> = std::collections::BTreeMap::new();
        let words = self.bank.rhymes(word).filter(|other| !other.is_form() && self.readable(other));
        for other in words.take(self.most) {
            groups.entry(other.rhyme_letters()).or_default().push(&other.spelling);
        }
        let rows = groups.iter().map(|(letters, words)| vec![format!("-{letters}"), words.join(", ")]).collect();
        Answer::new(&["spelled", "words"], rows, &groups)
    }

    /// The nonsense words of the step, or of the last one.
    fn maker(&self) -> Result<SillyMaker<'_>, Failure> {
        let step = self.step.or_else(|| self.sequence.steps().last());
        let step = step.ok_or_else(|| Failure::usage("the sequence has no steps"))?;
        Ok(self.sequence.taught(step).silly(self.bank))
    }

    fn silly(&self, onset: Option<&str>, rhymes_with: Option<&str>) -> Result<Answer, Failure> {
        let maker = self.maker()?;
        let onset = onset.map(|text| query::sounds("onset", text, Side::Onset)).transpose()?;
        let word = rhymes_with.map(|spelling| query::word(self.bank, spelling)).transpose()?;
        let found = maker.candidates().iter().filter(|silly| {
            onset.as_ref().is_none_or(|onset| silly.onset() == onset.as_slice())
                && word.is_none_or(|word| silly.rime() == word.rhyme_part())
        });
        let rows: Vec<Vec<String>> = found
            .take(self.most)
            .map(|silly| {
                let groups: Vec<&str> = silly.groups().collect();
                vec![silly.spelling.clone(), spell_out(&silly.sounds, self.notation), groups.join("-")]
            })
            .collect();
        let names: Vec<String> = rows.iter().map(|row| row[0].clone()).collect();
        Answer::new(&["silly word", "sounds", "letters"], rows, names)
    }

    fn riddles(&self, onset: Option<&str>) -> Result<Answer, Failure> {
        let maker = self.maker()?;
        let slot = match onset {
            Some(text) => Slot::Given(query::sounds("onset", text, Side::Onset)?),
            None => Slot::Cluster,
        };
        let riddles = self.bank.riddles(&maker, &slot);
        let rows: Vec<Vec<String>> = riddles
            .iter()
            .take(self.most)
            .filter_map(|riddle| {
                let silly = riddle.silly.iter().max_by_key(|silly| silly.words_with_its_rime())?;
                Some(vec![riddle.category.to_string(), silly.spelling.clone(), riddle.answer.spelling.clone()])
            })
            .collect();
        let json = rows.clone();
        Answer::new(&["kind", "rhymes with", "answer"], rows, json)
    }
}
