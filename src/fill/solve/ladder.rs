//! Solving a ladder: from the word before and the printed clue to every word of the bank that fits.

use std::collections::{BTreeMap, BTreeSet};

use super::hear::{Code, hear};
use super::{Numbered, Wrong, boxes, distinct, printed, whole};
use crate::bank::{Bank, Word};
use crate::fill::{Chain, Filled, Move, Request};
use crate::sheet::{ChangeShown, Kind};
use crate::sounds::Notation;

/// A clue as a child reads it.
enum Clue {
    Swap { old: Code, new: Code },
    Add { new: Code, place: Place },
    TakeAway { old: Code },
}

/// Where a clue says that a sound comes in.
enum Place {
    Start,
    End,
    After(Code),
}

pub(super) fn check(spec: &Chain, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of rungs", &(spec.rungs + 1), &filled.items.len())?;
    let ear = Ear::new(request.bank);
    let mut words: Vec<(&Word, Vec<Code>)> = Vec::with_capacity(filled.items.len());
    let mut places: Vec<usize> = Vec::with_capacity(spec.rungs);
    for at in Numbered::all(&filled.items) {
        let [shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("one line", at.item.shown.len().to_string()));
        };
        let (word, heard) = match words.last() {
            None => {
                at.same("the kind", &Kind::Start, &at.item.kind)?;
                at.same("the answer", at.item.answer.as_slice(), std::slice::from_ref(shown))?;
                at.same("the line beside it", at.item.texts.get("clue").map_or("", String::as_str), &spec.start)?;
                printed(at, shown, request)?
            }
            Some((before, heard)) => {
                at.same("the kind", &Kind::Rung, &at.item.kind)?;
                at.same("the clue", at.item.texts.get("clue").map_or("", String::as_str), shown)?;
                at.same("the word before", &at.item.from, &Some(before.spelling.clone()))?;
                let Some(change) = &at.item.change else { return Err(at.wrong("a change", "none")) };
                let clue = read(spec, shown, change, request.notation)
                    .ok_or_else(|| at.wrong("a clue that tells the change", format!("{shown:?}")))?;
                let found = ear.words(&clue.results(heard));
                let expected = at.item.answer.first().map_or("", String::as_str);
                let also = found.iter().copied().filter(|word| *word != expected);
                let answer: Vec<&str> = found.iter().copied().filter(|word| *word == expected).chain(also).collect();
                at.same("the answers", &at.item.answer.iter().map(String::as_str).collect(), &answer)?;
                at.same("the word after", &at.item.to, &Some(expected.to_owned()))?;
                places.push(place_of(at, change, &clue, heard)?);
                printed(at, expected, request)?
            }
        };
        at.same("boxes", &spec.boxes, &at.item.boxes.is_some())?;
        if let Some(row) = &at.item.boxes {
            boxes::check(at, row, word, *request.bank.counting())?;
            at.same("the marked box", &row.marked, &places.last().copied())?;
        }
        words.push((word, heard));
    }
    let often = places.windows(3).any(|three| three[0] == three[1] && three[1] == three[2]);
    whole("one place changes three times in a row", &false, &often)?;
    distinct(&words)
}

/// Every word of the bank as it is heard, in the order of spelling.
struct Ear<'a> {
    words: Vec<(Vec<Code>, &'a str)>,
}

impl<'a> Ear<'a> {
    fn new(bank: &'a Bank) -> Self {
        let heard = |word: &'a Word| (hear(word, *bank.counting()), word.spelling.as_str());
        Self { words: bank.words().iter().map(heard).collect() }
    }

    /// The words that are heard as one of `results`, by going through them all.
    fn words(&self, results: &BTreeSet<Vec<Code>>) -> Vec<&'a str> {
        self.words.iter().filter(|(heard, _)| results.contains(heard)).map(|(_, spelling)| *spelling).collect()
    }
}

impl Clue {
    /// All that a child may come to who follows the clue from a word, wherever in the word it fits.
    fn results(&self, before: &[Code]) -> BTreeSet<Vec<Code>> {
        let mut results = BTreeSet::new();
        let (old, new, place) = match self {
            Self::Swap { old, new } => (Some(old), Some(new), None),
            Self::TakeAway { old } => (Some(old), None, None),
            Self::Add { new, place } => (None, Some(new), Some(place)),
        };
        for at in 0..=before.len() {
            let fits = match (old, place) {
                (Some(old), _) => before.get(at) == Some(old),
                (None, Some(Place::Start)) => at == 0,
                (None, Some(Place::End)) => at == before.len(),
                (None, Some(Place::After(last))) => at > 0 && before[at - 1] == *last,
                (None, None) => false,
            };
            if fits {
                let kept = at + usize::from(old.is_some());
                results.insert(before[..at].iter().chain(new).chain(&before[kept..]).copied().collect());
            }
        }
        results
    }
}

/// Checks the change that the item tells against its clue, and gives the place of it.
fn place_of(at: Numbered, change: &ChangeShown, clue: &Clue, before: &[Code]) -> Result<usize, Wrong> {
    let (old, new) = match clue {
        Clue::Swap { old, new } => (Some(old.plain()), Some(new.plain())),
        Clue::Add { new, .. } => (None, Some(new.plain())),
        Clue::TakeAway { old } => (Some(old.plain()), None),
    };
    at.same("the change", &(change.old, change.new), &(old, new))?;
    if let Some(old) = old {
        let place: Vec<usize> = (0..before.len()).filter(|&at| before[at].plain() == old).collect();
        at.same("the place of the change", &vec![change.at], &place)?;
    }
    if let Clue::Add { place, .. } = clue {
        let after = change.at.checked_sub(1).and_then(|last| before.get(last));
        let told = match place {
            Place::Start => change.at == 0,
            Place::End => change.at == before.len(),
            Place::After(last) => after == Some(last),
        };
        at.same("the place is told truly", &true, &told)?;
    }
    Ok(change.at)
}

/// Reads a printed clue back by the template of its kind.
fn read(spec: &Chain, text: &str, change: &ChangeShown, notation: Notation) -> Option<Clue> {
    let kind = match (change.old, change.new) {
        (Some(_), Some(_)) => Move::Swap,
        (None, Some(_)) => Move::Add,
        (Some(_), None) => Move::TakeAway,
        (None, None) => return None,
    };
    if !spec.moves.contains(&kind) {
        return None;
    }
    let template = match kind {
        Move::Swap => &spec.clue,
        Move::Add => &spec.add_clue,
        Move::TakeAway => &spec.take_away_clue,
    };
    let values = values(template, text)?;
    let sound = |name: &str| Code::of_symbol(values.get(name)?, notation);
    Some(match kind {
        Move::Swap => Clue::Swap { old: sound("old")?, new: sound("new")? },
        Move::TakeAway => Clue::TakeAway { old: sound("old")? },
        Move::Add => {
            let place = match *values.get("place")? {
                "at the start" => Place::Start,
                "at the end" => Place::End,
                other => Place::After(Code::of_symbol(other.strip_prefix("after ")?, notation)?),
            };
            Clue::Add { new: sound("new")?, place }
        }
    })
}

/// What stands in a text where a template has names in braces, if it can be read so.
fn values<'a>(template: &'a str, text: &'a str) -> Option<BTreeMap<&'a str, &'a str>> {
    let Some((head, rest)) = template.split_once('{') else {
        return (template == text).then(BTreeMap::new);
    };
    let text = text.strip_prefix(head)?;
    let (name, rest) = rest.split_once('}')?;
    (1..=text.len()).filter(|&end| text.is_char_boundary(end)).find_map(|end| {
        let (value, after) = text.split_at(end);
        if !is_value(name, value) {
            return None;
        }
        let mut values = values(rest, after)?;
        values.insert(name, value);
        Some(values)
    })
}

/// Whether a text is a place, or one sound between slashes.
fn is_value(name: &str, text: &str) -> bool {
    let is_sound = |text: &str| {
        let inner = text.strip_prefix('/').and_then(|rest| rest.strip_suffix('/'));
        inner.is_some_and(|inner| !inner.is_empty() && !inner.contains('/'))
    };
    match name {
        "place" => matches!(text, "at the start" | "at the end") || text.strip_prefix("after ").is_some_and(is_sound),
        _ => is_sound(text),
    }
}
