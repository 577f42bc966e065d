//! The sounds of a teacher's own word: as they are given, or as they can be known for certain.

use crate::bank::silly::sounds_rude;
use crate::bank::{Bank, Flags};
use crate::sounds::{Phone, Stress, parse_phones};
use crate::spelling::{Alignment, align};

/// Why a word's sounds are not known.
pub(super) struct Unsure {
    pub message: String,
    pub hint: String,
    /// Whether the sounds that were given are at fault.
    pub of_sounds: bool,
}

/// The letter groups with their sounds of a word; `Ok(None)` when it is in the bank and no sounds are given.
pub(super) fn sounds_of(
    bank: &Bank,
    spelling: &str,
    given: Option<&str>,
    flags: &Flags,
) -> Result<Option<Alignment>, Unsure> {
    let found = match given {
        Some(codes) => given_sounds(spelling, codes, flags)?,
        None if bank.get(spelling).is_some() => return Ok(None),
        None => match of_compound(bank, flags) {
            Some(alignment) => alignment,
            None => certain(bank, spelling)?,
        },
    };
    if bank.get(spelling).is_none() && sounds_rude(found.phones().iter().map(|phone| phone.phoneme), spelling) {
        return Err(Unsure {
            message: format!("`{spelling}` sounds like a word that is never used"),
            hint: "take the word out of this file".to_owned(),
            of_sounds: given.is_some(),
        });
    }
    Ok(Some(found))
}

const GROUPS: &str = "write which letters spell which sounds: `sounds: qu=K+W o=AA1 kk=K a=AH0`";

fn given_sounds(spelling: &str, codes: &str, flags: &Flags) -> Result<Alignment, Unsure> {
    let unsure = |message: String, hint: &str| Unsure { message, hint: hint.to_owned(), of_sounds: true };
    if codes.contains('=') {
        let groups: Alignment = codes.parse().map_err(|error: String| unsure(error, GROUPS))?;
        if groups.spelling() != spelling {
            return Err(unsure(
                format!("the letter groups spell `{}` and not `{spelling}`", groups.spelling()),
                GROUPS,
            ));
        }
        stressed(spelling, codes, groups.phones())?;
        return Ok(groups);
    }
    let phones = parse_phones(codes).map_err(|error| {
        unsure(error.to_string(), "the codes are those of the CMU Pronouncing Dictionary: `sounds: K W AA1 K AH0`")
    })?;
    let phones = stressed(spelling, codes, phones)?;
    aligned(spelling, &phones, flags).ok_or_else(|| {
        let message = format!("the letters of `{spelling}` can't be matched to the sounds `{codes}`");
        unsure(message, &format!("look whether a sound is missing or one too many; or {GROUPS}"))
    })
}

/// The sounds with a stress on every vowel, one of them the main one.
fn stressed(spelling: &str, codes: &str, mut phones: Vec<Phone>) -> Result<Vec<Phone>, Unsure> {
    let unsure = |message: String, hint: &str| Unsure { message, hint: hint.to_owned(), of_sounds: true };
    let vowels = phones.iter().filter(|phone| phone.phoneme.is_vowel()).count();
    if vowels == 0 {
        return Err(unsure(format!("the sounds `{codes}` have no vowel"), "a word has one vowel sound or more"));
    }
    if vowels == 1 {
        for phone in phones.iter_mut().filter(|phone| phone.phoneme.is_vowel()) {
            phone.stress = Some(Stress::Primary);
        }
    }
    if phones.iter().filter(|phone| phone.stress == Some(Stress::Primary)).count() != 1 {
        let hint = "write 1 after its vowel, and 0 after the vowels of the others: `K W AA1 K AH0`";
        return Err(unsure(format!("which syllable of `{spelling}` is the loudest in `{codes}`?"), hint));
    }
    for phone in phones.iter_mut().filter(|phone| phone.phoneme.is_vowel()) {
        phone.stress.get_or_insert(Stress::None);
    }
    Ok(phones)
}

/// Aligns a word; a compound part by part, so that no letter group crosses its seam.
fn aligned(spelling: &str, phones: &[Phone], flags: &Flags) -> Option<Alignment> {
    let parts = flags.compound.as_ref().and_then(|(first, second)| {
        (1..phones.len()).find_map(|at| Some(side_by_side(align(first, &phones[..at])?, align(second, &phones[at..])?)))
    });
    parts.or_else(|| align(spelling, phones))
}

fn side_by_side(mut left: Alignment, right: Alignment) -> Alignment {
    let shift = left.units.len();
    left.units.extend(right.units);
    left.closings.extend(right.closings.iter().map(|closing| closing + shift));
    left
}

/// The sounds of a compound whose two parts the bank has; the second is less loud.
fn of_compound(bank: &Bank, flags: &Flags) -> Option<Alignment> {
    let (first, second) = flags.compound.as_ref()?;
    let (first, second) = (bank.get(first)?, bank.get(second)?);
    if first.flags.heteronym || second.flags.heteronym {
        return None;
    }
    let mut right = second.alignment.clone();
    for phone in right.units.iter_mut().flat_map(|unit| &mut unit.phones) {
        if phone.stress == Some(Stress::Primary) {
            phone.stress = Some(Stress::Secondary);
        }
    }
    Some(side_by_side(first.alignment.clone(), right))
}

/// The sounds of a one-syllable word that can be read in one way only, as the bank's words are read.
fn certain(bank: &Bank, spelling: &str) -> Result<Alignment, Unsure> {
    let mut readings = bank.attested().readings(spelling);
    let codes = |reading: &Alignment| {
        let codes: Vec<_> = reading.phones().iter().map(ToString::to_string).collect();
        codes.join(" ")
    };
    if readings.len() == 1 {
        return Ok(readings.remove(0));
    }
    let said: Vec<String> = readings.iter().map(|reading| format!("`{}`", codes(reading))).collect();
    let (message, hint) = match readings.first() {
        None => (
            format!("how does `{spelling}` sound? Its letters do not tell for certain"),
            "write its sounds in the codes of the CMU Pronouncing Dictionary, with 1 after the vowel of the loudest \
             syllable: `sounds: K W AA1 K AH0`"
                .to_owned(),
        ),
        Some(first) => (
            format!("`{spelling}`: does it sound like {}?", said.join(" or ")),
            format!("write the right one under it, such as `sounds: {}`", codes(first)),
        ),
    };
    Err(Unsure { message, hint, of_sounds: false })
}
