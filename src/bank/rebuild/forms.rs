//! Regular forms of a base word: -s, -ed, -ing, when CMUdict says them as the rules of the trade do.

use sheafling::sounds::{Phone, Phoneme};
use sheafling::spelling::Alignment;

use crate::sources::{Chosen, Cmudict, Levels, ends_voiced};

/// Whether endings are added to a word: a noun or a verb of one syllable or two, in its base form, not a grammar word.
pub fn takes_endings(word: &Chosen) -> bool {
    let unfit = ["past", "plural", "form", "function", "interjection", "heteronym", "irregular", "compound"];
    word.band != "3" && !word.flags.split(',').any(|flag| unfit.contains(&flag.split('=').next().unwrap_or_default()))
}

/// The regular forms that both SCOWL (up to a level) and CMUdict have.
pub fn of(base: &Chosen, alignment: &Alignment, cmudict: &Cmudict, levels: &Levels, up_to: u8) -> Vec<Chosen> {
    let phones = alignment.phones();
    if phones.iter().filter(|p| p.phoneme.is_vowel()).count() != 1 {
        return Vec::new();
    }
    let is = |class: &str| base.classes.split(',').any(|c| c == class);
    let mut endings = Vec::new();
    if is("n") || is("v") {
        endings.push("s");
    }
    if is("v") {
        endings.extend(["ed", "ing"]);
    }
    let mut forms = Vec::new();
    for ending in endings {
        // Of CMUdict's pronunciations, the one that goes on from the base: *putting* from put, not from putt.
        let goes_on = |spelling: &String| {
            let common = levels.of(spelling).is_some_and(|level| level <= up_to);
            let said = cmudict.of(spelling)?.iter().find(|said| says_ending(said, &phones, ending))?;
            common.then(|| said.clone())
        };
        let written = spellings(&base.spelling, ending);
        if let Some((spelling, said)) = written.into_iter().find_map(|s| goes_on(&s).map(|said| (s, said))) {
            let flags = format!("form={}+{ending}", base.spelling);
            forms.push(Chosen { spelling, flags, said: Some(said), ..base.clone() });
        }
    }
    forms
}

/// The ways to write a base with an ending, the likeliest first.
fn spellings(base: &str, ending: &str) -> Vec<String> {
    let bytes = base.as_bytes();
    let last = bytes.last().copied().unwrap_or_default();
    let before = bytes.len().checked_sub(2).map_or(0, |i| bytes[i]);
    let is_vowel = |b: u8| b"aeiou".contains(&b);
    let cut = &base[..base.len().saturating_sub(1)];
    if last == b'y' && !is_vowel(before) {
        return match ending {
            "s" => vec![format!("{cut}ies")],
            "ed" => vec![format!("{cut}ied")],
            _ => vec![format!("{base}ing")],
        };
    }
    if ending == "s" {
        let hisses = ["s", "x", "z", "ch", "sh"].iter().any(|e| base.ends_with(e));
        return if hisses { vec![format!("{base}es")] } else { vec![format!("{base}s"), format!("{base}es")] };
    }
    if last == b'e' {
        return vec![format!("{cut}{ending}"), format!("{base}{ending}")];
    }
    let doubled = format!("{base}{}{ending}", last as char);
    let plain = format!("{base}{ending}");
    if is_vowel(before) && !is_vowel(last) { vec![doubled, plain] } else { vec![plain, doubled] }
}

/// Whether a pronunciation is the base's sounds and the ending's, voiced as the sound before it asks.
fn says_ending(said: &[Phone], base: &[Phone], ending: &str) -> bool {
    let same = |a: &[Phone], b: &[Phone]| a.len() == b.len() && a.iter().zip(b).all(|(a, b)| a.phoneme == b.phoneme);
    if said.len() <= base.len() || !same(&said[..base.len()], base) {
        return false;
    }
    let rest: Vec<Phoneme> = said[base.len()..].iter().map(|p| p.phoneme).collect();
    let last = base.last().map(|p| p.phoneme);
    let hiss = [Phoneme::S, Phoneme::Z, Phoneme::Sh, Phoneme::Zh, Phoneme::Ch, Phoneme::Jh];
    match ending {
        "s" if last.is_some_and(|l| hiss.contains(&l)) => matches!(rest[..], [Phoneme::Ih | Phoneme::Ah, Phoneme::Z]),
        "s" => rest == [if ends_voiced(base) { Phoneme::Z } else { Phoneme::S }],
        "ed" if matches!(last, Some(Phoneme::T | Phoneme::D)) => {
            matches!(rest[..], [Phoneme::Ih | Phoneme::Ah, Phoneme::D])
        }
        "ed" => rest == [if ends_voiced(base) { Phoneme::D } else { Phoneme::T }],
        _ => rest == [Phoneme::Ih, Phoneme::Ng],
    }
}
