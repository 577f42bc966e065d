//! Solving a sort: each word is put under the headers whose blend it begins or ends with.

use super::hear::{Code, closing, opening};
use super::{Numbered, Wrong, distinct, even, printed, whole};
use crate::fill::{Columns, Filled, Request, SortSide};
use crate::sheet::{Column, Kind};
use crate::sounds::{Blend, Side};

pub(super) fn check(spec: &Columns, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    let headers: Vec<Vec<Code>> =
        filled.columns.iter().map(|column| header(column, spec.side)).collect::<Result<_, _>>()?;
    whole("number of words", &spec.count, &filled.items.len())?;
    let mut columns: Vec<Vec<&str>> = vec![Vec::new(); headers.len()];
    let mut words = Vec::with_capacity(filled.items.len());
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Sort, &at.item.kind)?;
        let [shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("one word", at.item.shown.len().to_string()));
        };
        let (word, heard) = printed(at, shown, request)?;
        let cluster = match spec.side {
            SortSide::Start => opening(&heard),
            SortSide::End => closing(&heard),
        };
        let fits: Vec<usize> = (0..headers.len()).filter(|&column| headers[column] == cluster).collect();
        let &[column] = fits.as_slice() else {
            return Err(at.wrong("exactly one column", format!("{} that fit {cluster:?}", fits.len())));
        };
        let name = &filled.columns[column].blend;
        at.same("the column", &at.item.answer, &vec![name.clone()])?;
        at.same("the blend", &at.item.blend, &Some(name.clone()))?;
        columns[column].push(shown);
        words.push((word, heard));
    }
    distinct(&words)?;
    for (said, found) in filled.columns.iter().zip(&mut columns) {
        found.sort_unstable();
        whole(&format!("the words under {}", said.blend), &said.words.iter().map(String::as_str).collect(), found)?;
        whole(&format!("words under {}", said.blend), &true, &!found.is_empty())?;
    }
    if spec.even {
        even(&columns.iter().map(Vec::len).collect::<Vec<_>>())?;
    }
    let mut word_bank: Vec<&str> = filled.word_bank.iter().map(String::as_str).collect();
    let mut sorted: Vec<&str> = columns.concat();
    word_bank.sort_unstable();
    sorted.sort_unstable();
    whole("the words of the word bank", &word_bank, &sorted)
}

/// The sounds that a header asks for, which must be those that the column says.
fn header(column: &Column, side: SortSide) -> Result<Vec<Code>, Wrong> {
    let side = match side {
        SortSide::Start => Side::Onset,
        SortSide::End => Side::Coda,
    };
    let named = Blend::named(&column.blend).into_iter().find(|blend| blend.side == side);
    let codes = named.map_or(Vec::new(), |blend| Code::of_sounds(blend.sounds));
    let plain: Vec<&str> = codes.iter().map(|code| code.plain()).collect();
    whole(&format!("the sounds of the column {}", column.blend), &column.sounds, &plain)?;
    Ok(codes)
}
