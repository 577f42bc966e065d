//! Listening again for where in a word a blend is.

use super::hear::Code;
use super::{Numbered, Wrong, distinct, even, told, whole};
use crate::fill::{Filled, Places, Request};
use crate::sheet::Kind;
use crate::sounds::{Blend, Place};

pub(super) fn check(spec: &Places, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of words", &spec.count, &filled.items.len())?;
    let mut words = Vec::with_capacity(filled.items.len());
    let mut counts = [0; Place::ALL.len()];
    for at in Numbered::all(&filled.items) {
        at.same("the kind", &Kind::Heard, &at.item.kind)?;
        let [blend, said] = at.item.shown.as_slice() else {
            return Err(at.wrong("a blend and a word", at.item.shown.len().to_string()));
        };
        at.same("the blend", &at.item.blend, &Some(blend.clone()))?;
        let (word, heard) = told(at, said, request)?;
        let Some(named) = Blend::named(blend).first().copied() else {
            return Err(at.wrong("a blend", blend.as_str()));
        };
        let codes = Code::of_sounds(named.sounds);
        let listen = at.item.texts.get("listen").map_or("", String::as_str);
        let listened: Option<Vec<Code>> =
            listen.split(' ').map(|symbol| Code::of_symbol(symbol, request.notation)).collect();
        at.same("the sounds to listen for", &listened.unwrap_or_default(), &codes)?;
        let found: Vec<usize> =
            heard.windows(codes.len()).enumerate().filter(|(_, part)| *part == codes).map(|(from, _)| from).collect();
        let &[from] = found.as_slice() else {
            return Err(at.wrong(format!("{blend} once"), format!("{found:?}")));
        };
        let vowels: Vec<usize> = (0..heard.len()).filter(|&nth| heard[nth].is_vowel()).collect();
        let (first, last) = (vowels.first().copied().unwrap_or(0), vowels.last().copied().unwrap_or(0));
        let place = if from < first {
            Place::Beginning
        } else if from > last {
            Place::End
        } else {
            Place::Middle
        };
        // The blend is the whole of what opens or closes the word, not a part of three sounds.
        let whole_edge = match place {
            Place::Beginning => first == codes.len(),
            Place::End => last + codes.len() + 1 == heard.len(),
            Place::Middle => true,
        };
        at.same("a blend that is all that opens or closes the word", &true, &whole_edge)?;
        at.same("the place", &at.item.place, &Some(place))?;
        at.same("the answer", &at.item.answer, &vec![place.name().to_owned()])?;
        counts[place as usize] += 1;
        words.push((word, heard));
    }
    even(&counts)?;
    distinct(&words)
}
