//! The parts of an item that may be in trouble: its blends by sound, and its letter groups with their sounds.

use std::collections::BTreeSet;
use std::fmt;

use crate::bank::{Bank, Word};
use crate::sequence::Sequence;
use crate::sounds::{Blend, Notation, Place, Side, Sound, spell_out};
use crate::spelling::Pair;

/// A part of an item.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Part {
    /// A blend.
    Blend(&'static Blend),
    /// A letter group and the sounds that it spells.
    Letters(Pair),
}

impl fmt::Display for Part {
    /// `bl-` for a blend, `ai for /ā/` for a letter group.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Blend(blend) => write!(f, "{blend}"),
            Self::Letters(pair) => write!(f, "{} for {}", pair.letters, said(pair)),
        }
    }
}

/// The sounds of a pair, `/ar/` for the two phonemes of *ar*.
fn said(pair: &Pair) -> String {
    let one = Sound::ALL.iter().copied().find(|sound| sound.phonemes() == pair.phonemes);
    let apart = || pair.phonemes.iter().map(|&phoneme| Sound::of_phoneme(phoneme, false)).collect();
    spell_out(&one.map_or_else(apart, |sound| vec![sound]), Notation::Teacher)
}

/// The parts of an item, each once. A word of the bank has its blends and its letter groups; the letters of a blend count with the
/// blend and not by themselves, so that trouble with *bl* is not told as trouble with *l*. Another item may be a blend (`bl`, `-nd`) or
/// a letter group (`ai`, with the first sound that the sequence teaches for it; `ai=EY`). Other texts have none.
#[must_use]
pub fn parts(item: &str, bank: &Bank, sequence: &Sequence) -> BTreeSet<Part> {
    let folded = item.to_lowercase();
    match bank.get(&folded) {
        Some(word) => of_word(word),
        // The codes of sounds are capitals.
        None => item.parse().ok().map(Part::Letters).or_else(|| of_text(&folded, sequence)).into_iter().collect(),
    }
}

fn of_word(word: &Word) -> BTreeSet<Part> {
    let mut found = BTreeSet::new();
    let mut in_blends = Vec::new();
    let units = || {
        word.alignment.units.iter().scan(0, |phone, unit| {
            let from = *phone;
            *phone += unit.phones.len();
            Some((from..*phone, unit))
        })
    };
    for cluster in &word.clusters {
        let ending = word.is_form() && cluster.side == Side::Coda && cluster.place == Place::End;
        let (Some(blend), false) = (cluster.blend, ending) else { continue };
        let sounds = word.heard.get(cluster.from..cluster.from + cluster.len).unwrap_or_default();
        let (Some(first), Some(last)) = (sounds.first(), sounds.last()) else { continue };
        let phones = first.from..last.from + last.phones;
        // One letter group for the whole cluster, as x and qu, is a letter group and no blend.
        if units().any(|(range, _)| range.start <= phones.start && phones.end <= range.end) {
            continue;
        }
        found.insert(Part::Blend(blend));
        in_blends.push(phones);
    }
    for (range, unit) in units() {
        if !in_blends.iter().any(|blend| blend.start <= range.start && range.end <= blend.end) {
            let phonemes = unit.phones.iter().map(|phone| phone.phoneme).collect();
            found.insert(Part::Letters(Pair { letters: unit.letters.clone(), phonemes }));
        }
    }
    found
}

fn of_text(item: &str, sequence: &Sequence) -> Option<Part> {
    let (plain, side) = match (item.strip_suffix('-'), item.strip_prefix('-')) {
        (Some(plain), _) => (plain, Some(Side::Onset)),
        (None, Some(plain)) => (plain, Some(Side::Coda)),
        (None, None) => (item, None),
    };
    let named = Blend::named(plain);
    if let Some(blend) = named.into_iter().find(|blend| side.is_none_or(|side| blend.side == side)) {
        return Some(Part::Blend(blend));
    }
    let mut taught = sequence.steps().iter().flat_map(|step| &step.pairs);
    taught.find(|pair| pair.letters == item).cloned().map(Part::Letters)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sounds::Counting;

    fn of(item: &str) -> Vec<String> {
        let (bank, sequence) = (Bank::builtin(Counting::default()).unwrap(), Sequence::builtin().unwrap());
        parts(item, &bank, &sequence).iter().map(ToString::to_string).collect()
    }

    #[test]
    fn the_letters_of_a_blend_count_with_it() {
        assert_eq!(of("Black"), ["bl-", "a for /ă/", "ck for /k/"]);
        assert_eq!(of("stamp"), ["-mp", "st-", "a for /ă/"]);
        assert_eq!(of("brave"), ["br-", "a_e for /ā/", "v for /v/"]);
        assert_eq!(of("shark"), ["ar for /ar/", "k for /k/", "sh for /sh/"]);
    }

    #[test]
    fn endings_x_and_qu_are_no_blends() {
        assert!(of("cups").iter().all(|part| !part.starts_with('-')), "{:?}", of("cups"));
        assert!(of("fox").contains(&"x for /k/ /s/".to_owned()), "{:?}", of("fox"));
        assert!(of("quick").contains(&"qu for /k/ /w/".to_owned()), "{:?}", of("quick"));
    }

    #[test]
    fn an_item_may_be_a_part_itself() {
        assert_eq!(of("bl"), ["bl-"]);
        assert_eq!(of("-nd"), ["-nd"]);
        assert_eq!(of("st-"), ["st-"]);
        assert_eq!(of("ai"), ["ai for /ā/"]);
        assert_eq!(of("ea=EH"), ["ea for /ĕ/"]);
        assert!(of("reads the page").is_empty());
        assert!(of("=SUM(A1)").is_empty());
    }
}
