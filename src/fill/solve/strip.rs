//! Reading the key words of a strip again.

use super::hear::{closing, opening};
use super::{Numbered, Wrong, distinct, printed, whole};
use crate::fill::{Filled, Request, Strip, StripSide};
use crate::sheet::Kind;
use crate::sounds::Side;

pub(super) fn check(spec: &Strip, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    let asked = request.focus.len() * 2;
    whole("no more blends than asked for", &true, &(filled.items.len() <= spec.count.max(asked)))?;
    let mut words = Vec::with_capacity(filled.items.len());
    let mut seen: Vec<(&str, Side)> = Vec::new();
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Word, &at.item.kind)?;
        let [blend, shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("a blend and its key word", at.item.shown.len().to_string()));
        };
        let (word, heard) = printed(at, shown, request)?;
        let fits = |side: Side| {
            super::pick::codes(blend, side).is_some_and(|codes| match side {
                Side::Onset => spec.side != StripSide::End && opening(&heard) == codes,
                Side::Coda => spec.side != StripSide::Start && closing(&heard) == codes,
            })
        };
        let Some(side) = [Side::Onset, Side::Coda].into_iter().find(|side| fits(*side)) else {
            return Err(at.wrong(format!("a word with {blend}"), format!("{heard:?}")));
        };
        let spelled = match side {
            Side::Onset => shown.starts_with(blend.as_str()),
            Side::Coda => shown.trim_end_matches('e').ends_with(blend.as_str()),
        };
        at.same("a key word that is spelled with its blend", &true, &spelled)?;
        if seen.contains(&(blend, side)) {
            return Err(at.wrong("each blend once", blend.as_str()));
        }
        seen.push((blend, side));
        at.same("the answer", &at.item.answer, &vec![shown.clone()])?;
        at.same("the blend", &at.item.blend, &Some(blend.clone()))?;
        words.push((word, heard));
    }
    distinct(&words)
}
