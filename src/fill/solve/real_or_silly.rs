//! Reading words and nonsense words again.

use super::{Numbered, Wrong, distinct, printed, silly, whole};
use crate::bank::Silly;
use crate::fill::real_or_silly::SILLY;
use crate::fill::{Filled, RealOrSilly, Request};
use crate::sheet::Kind;

pub(super) fn check(spec: &RealOrSilly, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    whole("number of words", &spec.count, &filled.items.len())?;
    let maker = request.taught.silly(request.bank);
    let mut words = Vec::new();
    let mut nonsense: Vec<String> = Vec::new();
    for at in Numbered::all(&filled.items) {
        at.same("what is to be ringed", &at.item.shown, &at.item.choices)?;
        let [shown] = at.item.shown.as_slice() else {
            return Err(at.wrong("one word", at.item.shown.len().to_string()));
        };
        match at.item.kind {
            Kind::Word => {
                at.same("the answer", &at.item.answer, &at.item.shown)?;
                words.push(printed(at, shown, request)?);
            }
            Kind::Silly => {
                at.same("the answer", &at.item.answer, &vec![SILLY.to_owned()])?;
                at.same("the word", &at.item.word, shown)?;
                let codes = &at.item.sounds;
                if silly::is_heard(codes) || silly::is_spelled(shown, request) || request.avoid.contains(shown) {
                    return Err(at.wrong("a nonsense word", format!("{shown:?}")));
                }
                // Where the o of dog and that of hop are told apart, one spelling may be said with either.
                let said = |read: &&Silly| read.sounds.iter().map(|sound| sound.code()).eq(codes.iter().copied());
                let read = maker.candidates().iter().filter(|read| read.spelling == *shown).find(said);
                let taught = silly::can_be_read(shown, codes, request.taught.pairs())
                    && read.is_some_and(|read| {
                        request.taught.is_decodable(&read.to_word(request.bank.counting()), request.bank)
                    });
                if !taught {
                    let wanted = format!("a nonsense word that can be read in one way at {}", request.step);
                    return Err(at.wrong(wanted, format!("{shown:?}")));
                }
                nonsense.push(codes.join(" "));
            }
            other => return Err(at.wrong("a word or a nonsense word", format!("{other:?}"))),
        }
    }
    whole("nonsense words", &spec.nonsense(), &nonsense.len())?;
    nonsense.sort_unstable();
    nonsense.dedup();
    whole("nonsense words that sound different", &spec.nonsense(), &nonsense.len())?;
    distinct(&words)
}
