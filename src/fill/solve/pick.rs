//! Choosing again: which of the printed blends the word that is heard starts or ends with.

use super::hear::{Code, closing, opening};
use super::{Numbered, Wrong, distinct, told, whole};
use crate::fill::{Filled, Pick, Request, SortSide};
use crate::sheet::Kind;
use crate::sounds::{Blend, Side};

pub(super) fn check(spec: &Pick, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of words", &spec.count, &filled.items.len())?;
    let side = match spec.side {
        SortSide::Start => Side::Onset,
        SortSide::End => Side::Coda,
    };
    let mut words = Vec::with_capacity(filled.items.len());
    let mut at_place = vec![0; spec.choices];
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Heard, &at.item.kind)?;
        let [said] = at.item.shown.as_slice() else {
            return Err(at.wrong("one word", at.item.shown.len().to_string()));
        };
        let (word, heard) = told(at, said, request)?;
        let cluster = match spec.side {
            SortSide::Start => opening(&heard),
            SortSide::End => closing(&heard),
        };
        at.same("the number of choices", &spec.choices, &at.item.choices.len())?;
        let mut fitting = Vec::new();
        for (nth, name) in at.item.choices.iter().enumerate() {
            let codes = codes(name, side).ok_or_else(|| at.wrong("a blend", name.as_str()))?;
            if at.item.choices[..nth].contains(name) {
                return Err(at.wrong("each choice once", name.as_str()));
            }
            if codes == cluster {
                fitting.push(nth);
            } else if heard.windows(codes.len()).any(|part| part == codes) {
                return Err(at.wrong("no other choice that is heard in the word", name.as_str()));
            }
        }
        let &[right] = fitting.as_slice() else {
            return Err(at.wrong("exactly one choice that fits", format!("{fitting:?}")));
        };
        at.same("the answer", &at.item.answer, &vec![at.item.choices[right].clone()])?;
        at.same("the blend", &at.item.blend, &Some(at.item.choices[right].clone()))?;
        at_place[right] += 1;
        words.push((word, heard));
    }
    super::even(&at_place)?;
    distinct(&words)
}

/// The codes of a blend of one side.
pub(super) fn codes(name: &str, side: Side) -> Option<Vec<Code>> {
    let blend = Blend::named(name).into_iter().find(|blend| blend.side == side)?;
    Some(Code::of_sounds(blend.sounds))
}
