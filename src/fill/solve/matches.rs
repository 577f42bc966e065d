//! Joining two columns again, each entry with each.

use std::collections::BTreeSet;

use super::hear::Code;
use super::{Numbered, Wrong, hear, printed, whole};
use crate::bank::Word;
use crate::fill::{Filled, Match, MatchBy, Request};
use crate::sheet::Kind;

pub(super) fn check(spec: &Match, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    let right = &filled.word_bank;
    whole("entries on both sides", &filled.items.len(), &right.len())?;
    let enough = match spec.by {
        MatchBy::Blend => (spec.count.min(3)..=spec.count).contains(&right.len()),
        MatchBy::Rhyme => right.len() == spec.count,
    };
    whole("as many pairs as asked for", &true, &enough)?;
    whole("different entries", &right.len(), &right.iter().collect::<BTreeSet<_>>().len())?;
    let mut fits: Vec<Vec<usize>> = Vec::with_capacity(right.len());
    let mut key: Vec<usize> = Vec::with_capacity(right.len());
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Match, &at.item.kind)?;
        let [shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("one entry", at.item.shown.len().to_string()));
        };
        let [answer] = at.item.answer.as_slice() else {
            return Err(at.wrong("one answer", at.item.answer.len().to_string()));
        };
        let (word, _) = printed(at, &at.item.word, request)?;
        let fitting = match spec.by {
            MatchBy::Blend => {
                at.same("the word", &at.item.word, &shown.replace("__", answer))?;
                at.same("the blend", &at.item.blend.as_ref(), &Some(answer))?;
                (0..right.len()).filter(|&nth| is_word(&shown.replace("__", &right[nth]), request)).collect()
            }
            MatchBy::Rhyme => {
                at.same("the word", &at.item.word, shown)?;
                let fitting = rhyming(at, word, right, request)?;
                at.same("words that rhyme with it", &1, &fitting.len())?;
                fitting
            }
        };
        let Some(to) = right.iter().position(|entry| entry == answer) else {
            return Err(at.wrong("an answer at the right", answer.as_str()));
        };
        fits.push(fitting);
        key.push(to);
    }
    let mut found = Vec::new();
    join(&fits, &mut Vec::new(), &mut found);
    whole("the ways to join the columns", &vec![key], &found)
}

/// The entries at the right that rhyme with a word; they can be read as well.
fn rhyming(at: Numbered, word: &Word, right: &[String], request: &Request) -> Result<Vec<usize>, Wrong> {
    let mut fitting = Vec::new();
    for (nth, other) in right.iter().enumerate() {
        let Some(other) = request.bank.words().iter().find(|entry| entry.spelling == *other) else {
            return Err(at.wrong("a word of the bank", other.as_str()));
        };
        if !(request.decodable)(other) || other.flags.heteronym || request.avoid.contains(&other.spelling) {
            let wanted = format!("a word that can be read at {}", request.step);
            return Err(at.wrong(wanted, other.spelling.as_str()));
        }
        if tail(word, request) == tail(other, request) && word.spelling != other.spelling {
            fitting.push(nth);
        }
    }
    Ok(fitting)
}

/// All ways to join each entry at the left with one of its own at the right; no more than two are looked for.
fn join(fits: &[Vec<usize>], taken: &mut Vec<usize>, found: &mut Vec<Vec<usize>>) {
    let Some(here) = fits.get(taken.len()) else {
        found.push(taken.clone());
        return;
    };
    for &to in here {
        if found.len() < 2 && !taken.contains(&to) {
            taken.push(to);
            join(fits, taken, found);
            taken.pop();
        }
    }
}

/// Whether a spelling is a word of the bank or of the list of spellings.
fn is_word(spelling: &str, request: &Request) -> bool {
    request.bank.words().iter().any(|word| word.spelling == spelling)
        || crate::fill::matches::LISTED.lines().any(|line| line == spelling)
}

/// The last vowel of a word of one syllable and what follows.
fn tail(word: &Word, request: &Request) -> Vec<Code> {
    let heard = hear(word, *request.bank.counting());
    let vowel = heard.iter().rposition(|code| code.is_vowel()).unwrap_or(0);
    heard[vowel..].to_vec()
}
