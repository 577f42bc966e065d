//! Solving a review: each word is looked up in the list of what was taught, and the order is made anew.

use std::collections::BTreeSet;

use super::{Numbered, Wrong, whole};
use crate::fill::{Filled, Request, Review};
use crate::sheet::Kind;

pub(super) fn check(spec: &Review, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    let alone = |word: &str| !request.bank.words().iter().any(|other| other.spelling == word && other.flags.heteronym);
    let taught: Vec<&(String, usize)> = request
        .by_sight
        .iter()
        .filter(|(word, _)| alone(word) && request.avoid.iter().all(|avoid| avoid != word))
        .collect();
    let count = if request.count.is_some() { spec.count } else { spec.count.min(taught.len()) };
    whole("number of words", &count, &filled.items.len())?;
    let mut places = Vec::new();
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Sight, &at.item.kind)?;
        let [shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("one word", at.item.shown.len().to_string()));
        };
        // A capital I is the word i; no other word is printed otherwise than it was taught.
        let as_taught = if shown == "I" { "i" } else { shown };
        let Some(place) = taught.iter().position(|(word, _)| word == as_taught) else {
            return Err(at.wrong(format!("a word taught by sight up to {}", request.step), format!("{shown:?}")));
        };
        at.same("the word", at.item.word.as_str(), as_taught)?;
        at.same("the answer", &at.item.answer, &vec![shown.clone()])?;
        let told = format!("step {}", taught[place].1);
        at.same("where it is taught", &at.item.texts.get("taught"), &Some(&told))?;
        places.push(place);
    }
    whole("words, each once", &filled.items.len(), &places.iter().collect::<BTreeSet<_>>().len())?;
    whole("the newest first", &true, &places.is_sorted())?;
    let newest = places.iter().enumerate().take_while(|(at, place)| at == *place).count();
    whole("the share of the newest", &true, &(newest * 100 >= count * spec.newest))
}
