//! Solving words by themselves: reading each, and filling its boxes.

use std::collections::BTreeMap;

use super::hear::{Code, closing, hear, opening};
use super::{Numbered, Wrong, boxes, distinct, even, printed, whole};
use crate::fill::{Filled, Request, Words, WordsFocus};
use crate::sheet::Kind;
use crate::sounds::{Blend, Side};

pub(super) fn check(spec: &Words, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of words", &spec.count, &filled.items.len())?;
    let mut words = Vec::with_capacity(filled.items.len());
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Word, &at.item.kind)?;
        let [shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("one word", at.item.shown.len().to_string()));
        };
        let (word, heard) = printed(at, shown, request)?;
        at.same("boxes", &spec.boxes, &at.item.boxes.is_some())?;
        let answer = match &at.item.boxes {
            Some(row) => {
                boxes::check(at, row, word, *request.bank.counting())?;
                at.same("a marked box", &row.marked, &None)?;
                boxes::key(word, *request.bank.counting())
            }
            None => shown.clone(),
        };
        let mut answers = vec![answer];
        if spec.heard {
            let counting = *request.bank.counting();
            let others = request.bank.words().iter().filter(|other| hear(other, counting) == heard);
            answers.extend(others.map(|other| other.spelling.clone()).filter(|other| other != shown));
        }
        at.same("the answer", &at.item.answer, &answers)?;
        if let Some(blend) = &at.item.blend {
            if !holds(blend, &heard, spec.focus) {
                return Err(at.wrong(format!("a word with {blend}"), format!("{heard:?}")));
            }
            *counts.entry(blend).or_default() += 1;
        }
        words.push((word, heard));
    }
    if spec.even {
        even(&counts.into_values().collect::<Vec<_>>())?;
    }
    distinct(&words)
}

/// Whether the blend of a name is heard where the sheet wants it.
fn holds(name: &str, heard: &[Code], focus: WordsFocus) -> bool {
    Blend::named(name).into_iter().any(|blend| {
        let codes = Code::of_sounds(blend.sounds);
        match focus {
            WordsFocus::Start => blend.side == Side::Onset && opening(heard) == codes,
            WordsFocus::End => blend.side == Side::Coda && closing(heard) == codes,
            WordsFocus::Any => heard.windows(codes.len()).any(|part| part == codes),
            WordsFocus::None => false,
        }
    })
}
