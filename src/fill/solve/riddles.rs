//! Solving riddles again: every word of the kind is listened to for the rhyme.

use super::hear::{Code, hear_at, opening};
use super::pick::codes;
use super::{Numbered, Wrong, distinct, silly, told, whole};
use crate::bank::{SillyMaker, Word};
use crate::fill::riddles::KINDS;
use crate::fill::{Filled, Request, Riddles};
use crate::sheet::Kind;
use crate::sounds::{Side, Stress};
use crate::spelling::pairs;

pub(super) fn check(spec: &Riddles, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of riddles", &spec.count, &filled.items.len())?;
    let maker = SillyMaker::new(request.bank, pairs(), |_, _| true);
    let mut words = Vec::with_capacity(filled.items.len());
    let mut nonsense: Vec<&str> = Vec::with_capacity(filled.items.len());
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Heard, &at.item.kind)?;
        let [clue] = at.item.shown.as_slice() else {
            return Err(at.wrong("one clue", at.item.shown.len().to_string()));
        };
        at.same("the clue", &Some(clue), &at.item.texts.get("clue"))?;
        let Some((kind, rhymes_with)) = read(clue) else {
            return Err(at.wrong("a kind and a rhyme", clue.as_str()));
        };
        let Some((category, _)) = KINDS.iter().find(|(_, said)| *said == kind) else {
            return Err(at.wrong("a kind of thing", kind));
        };
        let fitting = |sounds: &[Code]| -> Vec<&str> {
            let rime = &sounds[opening(sounds).len()..];
            let all = request.bank.words().iter().chain(request.bank.left_out());
            let of_kind = all.filter(|word| word.categories.contains(category));
            of_kind.filter(|word| tail(word, request) == rime).map(|word| word.spelling.as_str()).collect()
        };
        // Where the o of dog and that of hop are told apart, one spelling may be said with either.
        let mut said = no_word(at, rhymes_with, &maker, request)?;
        said.sort_by_key(|sounds| fitting(sounds) != at.item.answer);
        let sounds = said.swap_remove(0);
        at.same("the answers", &at.item.answer.iter().map(String::as_str).collect(), &fitting(&sounds))?;
        let [answer] = at.item.answer.as_slice() else {
            return Err(at.wrong("one answer", at.item.answer.len().to_string()));
        };
        let (word, heard) = told(at, answer, request)?;
        let known = (request.decodable)(word) || request.by_sight.iter().any(|(known, _)| known == answer);
        at.same("an answer that the child can write", &true, &(known || !spec.written))?;
        let blend = at.item.blend.as_deref().and_then(|name| codes(name, Side::Onset));
        at.same("the blend", &blend.as_deref(), &Some(opening(&sounds)))?;
        nonsense.push(rhymes_with);
        words.push((word, heard));
    }
    nonsense.sort_unstable();
    nonsense.dedup();
    whole("nonsense words, each once", &filled.items.len(), &nonsense.len())?;
    distinct(&words)
}

/// The kind and the nonsense word of a clue.
fn read(clue: &str) -> Option<(&str, &str)> {
    clue.strip_prefix("I am thinking of ")?.strip_suffix('.')?.split_once(". It rhymes with ")
}

/// The ways to say a nonsense word, one or more: it can be read and is no word.
fn no_word(at: Numbered, spelling: &str, maker: &SillyMaker, request: &Request) -> Result<Vec<Vec<Code>>, Wrong> {
    let found = maker.candidates().iter().filter(|silly| silly.spelling == spelling);
    let said: Vec<Vec<Code>> = found.map(|silly| Code::of_sounds(&silly.sounds)).collect();
    let is_nonsense = |heard: &Vec<Code>| {
        let codes: Vec<&str> = heard.iter().map(|code| code.plain()).collect();
        !silly::is_heard(&codes) && silly::can_be_read(spelling, &codes, pairs())
    };
    if said.is_empty() || silly::is_spelled(spelling, request) || !said.iter().all(is_nonsense) {
        return Err(at.wrong("a nonsense word that can be read", spelling));
    }
    Ok(said)
}

/// What a word rhymes by: from its stressed vowel to its end.
fn tail(word: &Word, request: &Request) -> Vec<Code> {
    let phones = word.alignment.phones();
    let heard = hear_at(word, *request.bank.counting());
    let stressed = |phone: usize| phones.get(phone).is_some_and(|phone| phone.stress == Some(Stress::Primary));
    let last = heard.iter().rposition(|(code, _)| code.is_vowel()).unwrap_or(0);
    let from = heard.iter().position(|&(code, phone)| code.is_vowel() && stressed(phone)).unwrap_or(last);
    heard[from..].iter().map(|(code, _)| *code).collect()
}
