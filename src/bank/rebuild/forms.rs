//! Regular forms of a base word: -s, -ed, -ing, when CMUdict says them as the rules of the trade do.

use sheafling::sounds::{Phone, Phoneme, Stress};
use sheafling::spelling::{Alignment, Unit};

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
            let rest: Vec<Phoneme> = said[phones.len()..].iter().map(|p| p.phoneme).collect();
            let groups = joined(alignment, &spelling, &rest);
            let (classes, categories) = tags(base, ending);
            let said = [phones.clone(), sounded(&rest)].concat();
            forms.push(Chosen {
                spelling,
                classes,
                categories,
                flags,
                said: Some(said),
                groups,
                band: base.band.clone(),
            });
        }
    }
    forms
}

/// The classes and categories of a form: what ends in -ed or -ing is a verb and no kind of thing; -s is for nouns and verbs, and
/// only a noun is still what its base is.
fn tags(base: &Chosen, ending: &str) -> (String, String) {
    if ending != "s" {
        return ("v".to_owned(), "-".to_owned());
    }
    let classes: Vec<&str> = base.classes.split(',').filter(|class| ["n", "v"].contains(class)).collect();
    let categories = if classes.contains(&"n") { base.categories.clone() } else { "-".to_owned() };
    (classes.join(","), categories)
}

/// An ending's phones. Its vowel is always that of *-ing*: CMUdict writes the *-es* of *dishes* with one vowel and that of *wishes* with
/// another, and they rhyme.
fn sounded(ending: &[Phoneme]) -> Vec<Phone> {
    let phone = |&phoneme: &Phoneme| match phoneme {
        Phoneme::Ah | Phoneme::Ih => Phone { phoneme: Phoneme::Ih, stress: Some(Stress::None) },
        other => Phone { phoneme: other, stress: None },
    };
    ending.iter().map(phone).collect()
}

/// The letter groups of a form: those of its base and those of the ending, so that what is taught of the base stays. `None` when the
/// base changes otherwise than by doubling a letter or dropping a silent *e*.
fn joined(base: &Alignment, spelling: &str, ending: &[Phoneme]) -> Option<Alignment> {
    let sounds = sounded(ending);
    let unit = |letters: &str, phones: &[Phone]| Unit { letters: letters.to_owned(), phones: phones.to_vec() };
    let endings: Vec<Vec<Unit>> = match sounds.as_slice() {
        [last] if last.phoneme == Phoneme::S || last.phoneme == Phoneme::Z => vec![vec![unit("s", &sounds)]],
        [_] => vec![vec![unit("ed", &sounds)], vec![unit("d", &sounds)]],
        [vowel, last] if last.phoneme == Phoneme::Ng => vec![vec![unit("i", &[*vowel]), unit("ng", &[*last])]],
        [vowel, last] if last.phoneme == Phoneme::D => vec![vec![unit("e", &[*vowel]), unit("d", &[*last])]],
        [vowel, last] => vec![vec![unit("e", &[*vowel]), unit("s", &[*last])]],
        _ => return None,
    };
    let bases = [Some(base.clone()), doubled(base), without_e(base)];
    for base in bases.into_iter().flatten() {
        for ending in &endings {
            let mut form = base.clone();
            form.units.extend(ending.iter().cloned());
            if form.spelling() == spelling {
                return Some(form);
            }
        }
    }
    None
}

/// With its last letter written twice: *hug*, *hugg-*.
fn doubled(base: &Alignment) -> Option<Alignment> {
    let mut form = base.clone();
    let last = form.units.last_mut()?;
    let letter = last.letters.chars().last()?;
    last.letters.push(letter);
    Some(form)
}

/// Without its silent *e*: *cage*, *cag-*; *nurse*, *nurs-*.
fn without_e(base: &Alignment) -> Option<Alignment> {
    let mut form = base.clone();
    if let Some(split) = form.units.iter_mut().find(|unit| unit.letters.ends_with("_e")) {
        split.letters.truncate(split.letters.len() - 2);
        form.closings.clear();
        return Some(form);
    }
    let last = form.units.last_mut()?;
    let kept = last.letters.strip_suffix('e').filter(|kept| !kept.is_empty())?.to_owned();
    last.letters = kept;
    Some(form)
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
