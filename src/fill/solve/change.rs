//! Changing words by ear again: the clue is read from its text, and every word that it makes is looked for.

use super::hear::{Code, hear, hear_at, opening};
use super::{Numbered, Wrong, distinct, told, whole};
use crate::bank::Word;
use crate::fill::{ChangePart, Filled, Move, Request, SoundChange};
use crate::sheet::{Item, Kind};
use crate::sounds::{Blend, Notation, Side};

/// A clue as it is read.
struct Clue {
    by: Move,
    old: Vec<Code>,
    new: Vec<Code>,
    /// The sound after which something comes or goes; at the start when there is none.
    after: Option<Code>,
}

impl Clue {
    fn read(text: &str, notation: Notation) -> Option<Self> {
        let sounds = |text: &str| -> Option<Vec<Code>> {
            text.split(' ').map(|symbol| Code::of_symbol(symbol, notation)).collect()
        };
        let text = text.strip_suffix('.')?;
        if let Some((old, new)) = text.strip_prefix("Change ").and_then(|rest| rest.split_once(" to ")) {
            return Some(Self { by: Move::Swap, old: sounds(old)?, new: sounds(new)?, after: None });
        }
        let (by, rest) = match text.strip_prefix("Add ") {
            Some(rest) => (Move::Add, rest),
            None => (Move::TakeAway, text.strip_prefix("Take away ")?),
        };
        let (moved, after) = match rest.strip_suffix(" at the start") {
            Some(moved) => (moved, None),
            None => rest.split_once(" after ").map(|(moved, after)| (moved, Some(after)))?,
        };
        let after = after.map(|symbol| Code::of_symbol(symbol, notation).ok_or(())).transpose().ok()?;
        let moved = sounds(moved)?;
        let (old, new) = if by == Move::Add { (Vec::new(), moved) } else { (moved, Vec::new()) };
        Some(Self { by, old, new, after })
    }

    /// Every place of a word that it can mean.
    fn places(&self, heard: &[Code]) -> Vec<usize> {
        let starts = |at: usize| heard.get(at..).is_some_and(|rest| rest.starts_with(&self.old));
        let means = |at: usize| match (self.by, self.after) {
            (Move::Swap, _) => true,
            (_, None) => at == 0,
            (_, Some(after)) => at.checked_sub(1).is_some_and(|before| heard[before] == after),
        };
        (0..heard.len()).filter(|&at| means(at) && starts(at)).collect()
    }
}

pub(super) fn check(spec: &SoundChange, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of words", &spec.count, &filled.items.len())?;
    let counting = *request.bank.counting();
    let heard_all: Vec<Vec<Code>> = request.bank.words().iter().map(|word| hear(word, counting)).collect();
    let mut words = Vec::with_capacity(filled.items.len() * 2);
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Heard, &at.item.kind)?;
        let [said, clue] = at.item.shown.as_slice() else {
            return Err(at.wrong("a word and a clue", at.item.shown.len().to_string()));
        };
        at.same("the clue", &Some(clue), &at.item.texts.get("clue"))?;
        at.same("the word before", &Some(said), &at.item.from.as_ref())?;
        at.same("the word after", &at.item.answer.first(), &at.item.to.as_ref())?;
        let Some(from) = request.bank.words().iter().find(|word| word.spelling == *said) else {
            return Err(at.wrong("a word of the bank", format!("{said:?}")));
        };
        let alone = Item::about(Kind::Heard, from);
        let (_, heard) = told(Numbered { number: at.number, item: &alone }, said, request)?;
        let Some(read) = Clue::read(clue, request.notation).filter(|read| read.by == spec.by) else {
            return Err(at.wrong("a clue of the kind that was asked for", clue.as_str()));
        };
        let places = read.places(&heard);
        let &[place] = places.as_slice() else {
            return Err(at.wrong("a clue that means one place", format!("{places:?}")));
        };
        let result = [&heard[..place], &read.new, &heard[place + read.old.len()..]].concat();
        let fitting: Vec<&Word> =
            request.bank.words().iter().zip(&heard_all).filter(|(_, h)| **h == result).map(|(word, _)| word).collect();
        let mut key: Vec<&str> = at.item.answer.iter().map(String::as_str).collect();
        key.sort_unstable();
        let found: Vec<&str> = fitting.iter().map(|word| word.spelling.as_str()).collect();
        at.same("the answers", &key, &found)?;
        let to = written(at, request)?;
        blend(at, spec, [&heard, &result], &read, request)?;
        let before = kept(from, place..place + read.old.len(), request);
        let anew =
            fitting.iter().all(|word| before.is_none() || before != kept(word, place..place + read.new.len(), request));
        at.same("spelled anew", &at.item.texts.get("anew").is_some_and(|text| !text.is_empty()), &anew)?;
        words.push((from, heard));
        words.push((to, result));
    }
    distinct(&words)
}

/// The expected answer: it can be read at the step or is known by sight.
fn written<'a>(at: Numbered, request: &Request<'a>) -> Result<&'a Word, Wrong> {
    let Some(first) = at.item.answer.first() else {
        return Err(at.wrong("an answer", "none"));
    };
    let (word, _) = told(at, first, request)?;
    if (request.decodable)(word) || request.by_sight.iter().any(|(known, _)| known == first) {
        Ok(word)
    } else {
        Err(at.wrong(format!("a word that can be read at {}", request.step), format!("{first:?}")))
    }
}

/// The blend opens the word in which the sheet wants it, is asked for, and is what the clue is about.
fn blend(
    at: Numbered,
    spec: &SoundChange,
    [before, after]: [&Vec<Code>; 2],
    read: &Clue,
    request: &Request,
) -> Result<(), Wrong> {
    let named = at.item.blend.as_deref().unwrap_or_default();
    let Some(blend) = Blend::named(named).into_iter().find(|blend| blend.side == Side::Onset) else {
        return Err(at.wrong("a blend", named));
    };
    let asked =
        spec.review || request.focus.is_empty() || request.focus.iter().any(|focus| focus.sounds == blend.sounds);
    at.same("a blend of the focus", &true, &asked)?;
    let codes = Code::of_sounds(blend.sounds);
    let moved = if spec.by == Move::Add { &read.new } else { &read.old };
    let holds = match spec.by {
        Move::Add => opening(after) == codes,
        Move::TakeAway => opening(before) == codes,
        Move::Swap => {
            opening(before) == read.old && opening(after) == read.new && [&read.old, &read.new].contains(&&codes)
        }
    };
    let part = match (spec.by, spec.part) {
        (Move::Swap, _) => true,
        (_, ChangePart::First) => moved[..] == codes[..1],
        (_, ChangePart::Second) => moved[..] == codes[1..2],
        (_, ChangePart::Blend) => *moved == codes,
    };
    at.same("the blend where it has to be, and the part of it that moves", &(true, true), &(holds, part))
}

/// The letter groups of the sounds outside a range; none when one group spells sounds on both sides of its border.
fn kept(word: &Word, moved: std::ops::Range<usize>, request: &Request) -> Option<Vec<String>> {
    let heard = hear_at(word, *request.bank.counting());
    let all: usize = word.alignment.units.iter().map(|unit| unit.phones.len()).sum();
    let phone = |sound: usize| heard.get(sound).map_or(all, |(_, from)| *from);
    let (first, last) = (phone(moved.start), phone(moved.end));
    let mut at = 0;
    let mut letters = Vec::new();
    for unit in &word.alignment.units {
        let next = at + unit.phones.len();
        let inside = at >= first && next <= last && at < last;
        let outside = next <= first || at >= last;
        if !inside && !outside {
            return None;
        }
        if !inside {
            letters.push(unit.letters.clone());
        }
        at = next;
    }
    Some(letters)
}
