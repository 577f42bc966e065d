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
    let mut joined = BTreeSet::new();
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Match, &at.item.kind)?;
        let [shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("one entry", at.item.shown.len().to_string()));
        };
        let fitting: Vec<&String> = match spec.by {
            MatchBy::Blend => {
                printed(at, &at.item.word, request)?;
                right.iter().filter(|blend| is_word(&shown.replace("__", blend), request)).collect()
            }
            MatchBy::Rhyme => {
                let (word, _) = printed(at, shown, request)?;
                let mut fitting = Vec::new();
                for other in right {
                    let Some(other_word) = request.bank.words().iter().find(|w| &w.spelling == other) else {
                        return Err(at.wrong("a word of the bank", other.as_str()));
                    };
                    if !(request.decodable)(other_word) || request.avoid.contains(other) {
                        return Err(at.wrong(format!("a word that can be read at {}", request.step), other.as_str()));
                    }
                    if tail(word, request) == tail(other_word, request) && word.spelling != *other {
                        fitting.push(other);
                    }
                }
                fitting
            }
        };
        let [only] = fitting.as_slice() else {
            return Err(at.wrong("exactly one that belongs to it", format!("{fitting:?}")));
        };
        at.same("the answer", &at.item.answer, &vec![(*only).clone()])?;
        if spec.by == MatchBy::Blend {
            at.same("the word", &at.item.word, &shown.replace("__", only))?;
        }
        joined.insert(*only);
    }
    whole("entries that are joined", &right.len(), &joined.len())
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
