//! Solving a lesson: each part by its own way, as if it were a sheet, with the words of the parts that were chosen before it to
//! be avoided.

use std::collections::BTreeSet;

use super::{Wrong, check as solve, whole};
use crate::fill::{Filled, Lesson, Request, lesson};
use crate::sheet::Part;

pub(super) fn check(spec: &Lesson, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of parts", &spec.parts.len(), &filled.parts.len())?;
    let standing = filled.parts.iter().filter(|part| part.left_out.is_none()).count();
    whole("parts that are not left out, at the least", &true, &(standing >= spec.least))?;
    let turns: BTreeSet<usize> = filled.parts.iter().map(|part| part.turn).collect();
    whole("parts, each chosen in its turn", &filled.parts.len(), &turns.len())?;
    for (at, (asked, part)) in spec.parts.iter().zip(&filled.parts).enumerate() {
        whole("the part's title", &asked.title, &part.title)?;
        whole("the part's way of choosing", &asked.fill.name(), &part.way.as_str())?;
        whole("items, unless it is left out", &part.left_out.is_none(), &!part.items.is_empty())?;
        if part.left_out.is_some() {
            continue;
        }
        let before: Vec<&Part> = filled.parts.iter().filter(|other| other.turn < part.turn).collect();
        let own = lesson::for_part(at, &before, part.count, request);
        solve(&asked.fill.counting(part.count), &content(part), &own)?;
        for item in &part.items {
            for (name, text) in [("ask", &asked.ask), ("reply", &asked.answer)] {
                let line = lesson::written(text, item, request.notation);
                whole(name, &Some(&line), &item.texts.get(name))?;
            }
        }
    }
    Ok(())
}

/// The part as the content of a sheet.
fn content(part: &Part) -> Filled {
    let Part { items, columns, word_bank, tiles, .. } = part.clone();
    Filled { items, columns, word_bank, tiles, ..Filled::default() }
}
