//! What a reader must have been taught to decode a word.

use crate::bank::{Bank, Ending, Word};
use crate::sounds::{Blend, Cluster, Phoneme, Place, Side, Sound};

use super::Shape;

/// One thing that a word asks of its reader.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Need<'a> {
    /// A letter group and its sounds.
    Pair { letters: &'a str, phonemes: &'a [Phoneme] },
    /// A blend.
    Blend(&'static Blend),
    /// A cluster that is no known blend.
    Cluster(&'a [Sound]),
    /// A shape.
    Shape(Shape),
    /// The word can't be sounded out.
    Irregular,
}

/// A base of a base and so on is followed so far: the bank is not known to be free of circles.
const MAX_BASES: usize = 4;

/// Calls `visit` with each need of a word, from left to right, its shape last. A need may come more than once.
pub fn each_need(word: &Word, bank: &Bank, visit: &mut impl FnMut(Need)) {
    visit_needs(word, bank, MAX_BASES, visit);
}

fn visit_needs(word: &Word, bank: &Bank, bases: usize, visit: &mut impl FnMut(Need)) {
    if word.flags.irregular {
        visit(Need::Irregular);
        return;
    }
    let Some((base, ending)) = &word.flags.form else { return visit_own(word, visit) };
    let known = bank.get(base).filter(|found| bases > 0 && found.spelling != word.spelling);
    let added = known.and_then(|found| Added::of(word, found, *ending));
    if let (Some(base), Some(added)) = (known, added) {
        visit_needs(base, bank, bases - 1, visit);
        visit(Need::Shape(added.ending));
        if let Some(change) = added.change {
            visit(Need::Shape(change));
        }
    } else {
        visit_own(word, visit);
        if let Some(ending) = shape_of(*ending) {
            visit(Need::Shape(ending));
        }
    }
}

/// What an ending adds to a base.
struct Added {
    ending: Shape,
    change: Option<Shape>,
}

impl Added {
    /// The ending by its flag, or by the spelling when the flag does not say which; `None` when the spelling is not a base
    /// and an ending.
    fn of(form: &Word, base: &Word, ending: Ending) -> Option<Self> {
        // "pages" is page + s, not pag + es: the shorter ending is tried first.
        [("ing", Shape::Ing), ("ed", Shape::Ed), ("s", Shape::S), ("es", Shape::S)]
            .into_iter()
            .filter(|(_, shape)| shape_of(ending).is_none_or(|wanted| wanted == *shape))
            .find_map(|(letters, shape)| {
                let longer = form.syllables.len() > base.syllables.len();
                let ending = if shape == Shape::S && longer { Shape::Es } else { shape };
                Self::before(&base.spelling, form.spelling.strip_suffix(letters)?, ending)
            })
    }

    /// An ending after a stem, which is the base or a change of it.
    fn before(base: &str, stem: &str, ending: Shape) -> Option<Self> {
        let swapped = |old, new| base.strip_suffix(old).is_some_and(|front| stem.strip_suffix(new) == Some(front));
        let change = if stem == base {
            None
        } else if swapped("e", "") || swapped("ie", "y") {
            Some(Shape::DropE)
        } else if swapped("y", "i") {
            Some(Shape::YToI)
        } else if stem.strip_prefix(base).is_some_and(|more| more.len() == 1 && base.ends_with(more)) {
            Some(Shape::Doubling)
        } else {
            return None;
        };
        Some(Self { ending, change })
    }
}

const fn shape_of(ending: Ending) -> Option<Shape> {
    match ending {
        Ending::S => Some(Shape::S),
        Ending::Ed => Some(Shape::Ed),
        Ending::Ing => Some(Shape::Ing),
        Ending::Other => None,
    }
}

/// The needs of a word by its own letters and sounds.
fn visit_own(word: &Word, visit: &mut impl FnMut(Need)) {
    let phonemes = phonemes(word);
    let mut at = 0;
    for unit in &word.alignment.units {
        let end = (at + unit.phones.len()).min(phonemes.len());
        visit(Need::Pair { letters: &unit.letters, phonemes: &phonemes[at..end] });
        at = end;
    }
    for cluster in &word.clusters {
        let ending = word.is_form() && cluster.side == Side::Coda && cluster.place == Place::End;
        if !ending && !in_one_group(word, cluster) {
            let sounds = &word.sounds[cluster.from..cluster.from + cluster.len];
            visit(cluster.blend.map_or(Need::Cluster(sounds), Need::Blend));
        }
    }
    match &word.flags.compound {
        Some((first, _)) => {
            visit(Need::Shape(Shape::Compound));
            let longest = longest_part(word, first.len());
            if longest > 1 {
                visit(Need::Shape(Shape::of_count(longest)));
            }
        }
        None => visit(Need::Shape(Shape::of_syllables(word))),
    }
}

/// The word's phonemes as its switches want them said: the *o* of dog may be that of hop.
fn phonemes(word: &Word) -> Vec<Phoneme> {
    let written = word.alignment.phones();
    let mut said = Vec::with_capacity(written.len());
    for (heard, sound) in word.heard.iter().zip(&word.sounds) {
        let counted = sound.phonemes();
        if counted.len() == heard.phones {
            said.extend_from_slice(counted);
        } else {
            said.extend(written[heard.from..heard.from + heard.phones].iter().map(|phone| phone.phoneme));
        }
    }
    said
}

/// Whether one letter group spells a whole cluster, as *x* and *qu* do.
fn in_one_group(word: &Word, cluster: &Cluster) -> bool {
    let heard = &word.heard[cluster.from..cluster.from + cluster.len];
    let (Some(first), Some(last)) = (heard.first(), heard.last()) else { return false };
    let mut from = 0;
    word.alignment.units.iter().any(|unit| {
        let range = from..from + unit.phones.len();
        from = range.end;
        range.contains(&first.from) && last.from + last.phones <= range.end
    })
}

/// How many syllables the longer part of a compound has, when its first part has so many letters.
fn longest_part(word: &Word, letters: usize) -> usize {
    let units = word.alignment.letter_starts().iter().take_while(|&&start| start < letters).count();
    let phones: usize = word.alignment.units[..units].iter().map(|unit| unit.phones.len()).sum();
    let first = word.syllables.iter().filter(|syllable| word.heard[syllable.vowel].from < phones).count();
    first.max(word.syllables.len() - first)
}
