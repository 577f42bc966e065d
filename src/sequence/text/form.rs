//! Regular forms that the bank lacks, found by rule.
//!
//! The rules of spelling are common practice, no source; those of voicing are the trade's: *-s* is /z/ after a voiced sound, /s/
//! after an unvoiced one and a syllable of its own after a hiss; *-ed* is /d/, /t/, or a syllable after /t/ and /d/. A test
//! compares both with every form of the bank.

use crate::bank::{Bank, Class, Word};
use crate::sequence::Shape;
use crate::sequence::needs::Need;
use crate::sounds::{Blend, Phone, Phoneme, Side, Sound, Stress};

/// An ending that this module adds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Suffix {
    S,
    Ed,
    Ing,
    Er,
    Est,
}

impl Suffix {
    const ALL: [Self; 5] = [Self::S, Self::Ed, Self::Ing, Self::Er, Self::Est];

    const fn letters(self) -> &'static str {
        match self {
            Self::S => "s",
            Self::Ed => "ed",
            Self::Ing => "ing",
            Self::Er => "er",
            Self::Est => "est",
        }
    }

    /// Whether words of the base's classes take it. Grammar words and words that are forms already take none but *be*, *do*
    /// and *have*, which are verbs.
    fn fits(self, base: &Word) -> bool {
        let is = |class| base.classes.contains(&class);
        let flags = &base.flags;
        if flags.past || flags.plural || flags.form.is_some() {
            return false;
        }
        match self {
            Self::S => (is(Class::Noun) || is(Class::Verb)) && !flags.function,
            Self::Ing => is(Class::Verb),
            Self::Ed => is(Class::Verb) && !flags.function,
            Self::Er => (is(Class::Verb) || is(Class::Adjective)) && !flags.function,
            Self::Est => is(Class::Adjective) && !flags.function,
        }
    }
}

/// An ending as it stands in a form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Added {
    /// Which.
    pub suffix: Suffix,
    /// What it does to the spelling of the base.
    pub change: Option<Shape>,
    /// How many syllables the form has.
    pub syllables: usize,
    /// Whether it brings a syllable of its own.
    pub longer: bool,
}

impl Added {
    /// What it asks of a reader, beside the base.
    pub fn each_need(&self, visit: &mut impl FnMut(Need)) {
        match self.suffix {
            Suffix::S => visit(Need::Shape(if self.longer { Shape::Es } else { Shape::S })),
            Suffix::Ed => visit(Need::Shape(Shape::Ed)),
            Suffix::Ing => visit(Need::Shape(Shape::Ing)),
            Suffix::Er => {
                visit(Need::Pair { letters: "er", phonemes: &[Phoneme::Er] });
                visit(Need::Shape(Shape::of_count(self.syllables)));
            }
            Suffix::Est => {
                for (letters, phoneme) in [("e", Phoneme::Ah), ("s", Phoneme::S), ("t", Phoneme::T)] {
                    visit(Need::Pair { letters, phonemes: &[phoneme] });
                }
                if let Some(blend) = Blend::of_sounds(&[Sound::S, Sound::T], Side::Coda) {
                    visit(Need::Blend(blend));
                }
                visit(Need::Shape(Shape::of_count(self.syllables)));
            }
        }
        if let Some(change) = self.change {
            visit(Need::Shape(change));
        }
    }
}

/// A word of the bank with one ending or two (*jumpers*).
#[derive(Clone, Debug)]
pub struct Form<'b> {
    /// The word of the bank.
    pub base: &'b Word,
    /// The endings, in order.
    pub added: Vec<Added>,
    /// Its sounds.
    pub phones: Vec<Phone>,
}

impl Form<'_> {
    /// What it asks of a reader, beside the base.
    pub fn each_need(&self, visit: &mut impl FnMut(Need)) {
        self.added.iter().for_each(|added| added.each_need(visit));
    }
}

/// The word of the bank and the endings that a spelling is made of, when it is a regular form.
pub fn of<'b>(spelling: &str, bank: &'b Bank) -> Option<Form<'b>> {
    one_ending(spelling, bank).or_else(|| {
        // A second ending: "jumpers", "paintings".
        let form = one_ending(spelling.strip_suffix('s')?, bank)?;
        let named = matches!(form.added.first()?.suffix, Suffix::Er | Suffix::Ing);
        named.then(|| with_s(form))
    })
}

/// A word with the *'s* of *dog's* and *let's*: any word of the bank, or a regular form.
pub fn with_mark<'b>(spelling: &str, bank: &'b Bank) -> Option<Form<'b>> {
    let bare = |base: &'b Word| Form { base, added: Vec::new(), phones: base.alignment.phones() };
    bank.get(spelling).map(bare).or_else(|| of(spelling, bank)).map(with_s)
}

fn with_s(mut form: Form) -> Form {
    let before = form.added.last().map_or(form.base.syllables.len(), |added| added.syllables);
    let longer = extend(&mut form.phones, Suffix::S);
    form.added.push(Added { suffix: Suffix::S, change: None, syllables: before + usize::from(longer), longer });
    form
}

fn one_ending<'b>(spelling: &str, bank: &'b Bank) -> Option<Form<'b>> {
    Suffix::ALL.into_iter().find_map(|suffix| {
        // Where two bases fit (put and putt), the commoner one is meant.
        let base = bases(spelling, suffix)
            .into_iter()
            .filter_map(|base| bank.get(&base))
            .filter(|base| suffix.fits(base) && spelled(base, suffix).iter().any(|way| way == spelling))
            .min_by_key(|base| base.level)?;
        let mut phones = base.alignment.phones();
        let longer = extend(&mut phones, suffix);
        let syllables = base.syllables.len() + usize::from(longer);
        let added = Added { suffix, change: change(&base.spelling, spelling, suffix), syllables, longer };
        Some(Form { base, added: vec![added], phones })
    })
}

/// The spellings that a base may have, the likeliest first.
fn bases(spelling: &str, suffix: Suffix) -> Vec<String> {
    let mut found = Vec::new();
    let letters = suffix.letters();
    if let Some(stem) = spelling.strip_suffix(letters) {
        found.push(stem.to_owned());
        if suffix != Suffix::S {
            found.push(format!("{stem}e"));
        }
        if let Some(front) = stem.strip_suffix('i') {
            found.push(format!("{front}y"));
        }
        if let (Suffix::Ing, Some(front)) = (suffix, stem.strip_suffix('y')) {
            found.push(format!("{front}ie"));
        }
        if let Some(single) = single(stem) {
            found.push(single.to_owned());
        }
    }
    if let Some(stem) = spelling.strip_suffix("es").filter(|_| suffix == Suffix::S) {
        found.push(stem.to_owned());
        if let Some(front) = stem.strip_suffix('i') {
            found.push(format!("{front}y"));
        }
        if let Some(single) = single(stem) {
            found.push(single.to_owned());
        }
    }
    found
}

/// A stem without the doubling of its last letter.
fn single(stem: &str) -> Option<&str> {
    let bytes = stem.as_bytes();
    let (&last, rest) = bytes.split_last()?;
    (last.is_ascii_lowercase() && rest.last() == Some(&last)).then(|| &stem[..stem.len() - 1])
}

/// How a base is written with an ending.
fn spelled(base: &Word, suffix: Suffix) -> Vec<String> {
    let word = base.spelling.as_str();
    let cut = &word[..word.len().saturating_sub(1)];
    let letters = suffix.letters();
    let ends = |options: &[&str]| options.iter().any(|end| word.ends_with(end));
    let before = word.bytes().rev().nth(1).unwrap_or_default();
    let doubled = || format!("{word}{}{letters}", &word[cut.len()..]);
    if word.ends_with('y') && !is_vowel(before) {
        return vec![match suffix {
            Suffix::S => format!("{cut}ies"),
            Suffix::Ing => format!("{word}ing"),
            _ => format!("{cut}i{letters}"),
        }];
    }
    if suffix == Suffix::S {
        let hiss = base.alignment.phones().last().is_some_and(|phone| is_hiss(phone.phoneme));
        return match word.as_bytes().last() {
            Some(b'z') if doubles(base) => vec![format!("{word}zes")],
            Some(b's') if doubles(base) => vec![format!("{word}es"), format!("{word}ses")],
            Some(b'o') if !is_vowel(before) => vec![format!("{word}es"), format!("{word}s")],
            _ if hiss && !word.ends_with('e') => vec![format!("{word}es")],
            _ => vec![format!("{word}s")],
        };
    }
    if word.ends_with('e') {
        return match suffix {
            Suffix::Ing if word.ends_with("ie") => vec![format!("{}ying", &cut[..cut.len() - 1])],
            Suffix::Ing if ends(&["ee", "oe", "ye", "nge"]) => vec![format!("{word}ing"), format!("{cut}ing")],
            _ => vec![format!("{cut}{letters}")],
        };
    }
    if doubles(base) {
        // Of two syllables, those stressed on the first keep one letter, but for l and p, which are written either way.
        return match base.syllables.len() {
            1 => vec![doubled()],
            count if base.syllables.get(count - 1).is_some_and(|last| last.vowel == base.stressed) => vec![doubled()],
            _ if ends(&["l", "p"]) => vec![format!("{word}{letters}"), doubled()],
            _ if base.flags.compound.is_some() => vec![doubled()],
            _ => vec![format!("{word}{letters}")],
        };
    }
    vec![format!("{word}{letters}")]
}

/// Whether a base ends in one consonant letter after one vowel letter, so that it may be doubled.
fn doubles(base: &Word) -> bool {
    let mut letters = base.spelling.bytes().rev();
    let (last, vowel, before) = (letters.next(), letters.next(), letters.next());
    let (Some(last), Some(vowel)) = (last, vowel) else { return false };
    let after_qu = before == Some(b'u') && letters.next() == Some(b'q');
    let vowel_before = before.is_some_and(is_vowel) && !after_qu;
    !is_vowel(last) && !b"wxyh".contains(&last) && is_vowel(vowel) && !vowel_before
}

/// What the ending did to the base's spelling.
fn change(base: &str, form: &str, suffix: Suffix) -> Option<Shape> {
    let letters = suffix.letters();
    let stem = form.strip_suffix(letters).unwrap_or(form);
    let stem = if suffix == Suffix::S && stem != base { stem.strip_suffix('e').unwrap_or(stem) } else { stem };
    if stem == base {
        None
    } else if base.ends_with('y') && stem.ends_with('i') {
        Some(Shape::YToI)
    } else if base.ends_with('e') {
        Some(Shape::DropE)
    } else {
        Some(Shape::Doubling)
    }
}

/// Adds the sounds of an ending; says whether they make a syllable more.
fn extend(phones: &mut Vec<Phone>, suffix: Suffix) -> bool {
    use Phoneme::{Ah, D, Er, Ih, Ng, S, T, Z};
    let last = phones.last().map_or(Ah, |phone| phone.phoneme);
    let added: &[Phoneme] = match suffix {
        Suffix::S if is_hiss(last) => &[Ih, Z],
        Suffix::S if is_voiced(last) => &[Z],
        Suffix::S => &[S],
        Suffix::Ed if matches!(last, T | D) => &[Ih, D],
        Suffix::Ed if is_voiced(last) => &[D],
        Suffix::Ed => &[T],
        Suffix::Ing => &[Ih, Ng],
        Suffix::Er => &[Er],
        Suffix::Est => &[Ah, S, T],
    };
    let stress = |phoneme: Phoneme| phoneme.is_vowel().then_some(Stress::None);
    phones.extend(added.iter().map(|&phoneme| Phone { phoneme, stress: stress(phoneme) }));
    added.first().is_some_and(|first| first.is_vowel())
}

const fn is_vowel(letter: u8) -> bool {
    matches!(letter, b'a' | b'e' | b'i' | b'o' | b'u')
}

const fn is_hiss(phoneme: Phoneme) -> bool {
    matches!(phoneme, Phoneme::S | Phoneme::Z | Phoneme::Sh | Phoneme::Zh | Phoneme::Ch | Phoneme::Jh)
}

const fn is_voiced(phoneme: Phoneme) -> bool {
    use Phoneme::{Ch, F, Hh, K, P, S, Sh, T, Th};
    !matches!(phoneme, Ch | F | Hh | K | P | S | Sh | T | Th)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sequence::needs::each_need;
    use crate::sounds::Counting;

    fn bank() -> Bank {
        Bank::builtin(Counting::default()).unwrap()
    }

    /// The bank's forms were taken from CMUdict, in which unstressed IH and AH, and AO and AA, vary from word to word: these
    /// aside, the rules have to make the same sounds, and to ask for the same.
    ///
    /// Not by rule: *paths* has a voiced *th*. The others are said by CMUdict otherwise than their bases.
    #[test]
    fn the_rules_make_the_forms_that_the_bank_has() {
        let bank = bank();
        let plain = |phones: &[Phone]| -> Vec<_> {
            let one = |phone: &Phone| match phone.phoneme {
                Phoneme::Ah => Phoneme::Ih,
                Phoneme::Ao => Phoneme::Aa,
                other => other,
            };
            phones.iter().map(one).collect()
        };
        let (mut compared, mut wrong) = (0, Vec::new());
        for word in bank.words() {
            let Some((base, ending)) = &word.flags.form else { continue };
            if ["paths", "hoofs", "leaped", "putting"].contains(&word.spelling.as_str()) {
                continue;
            }
            let Some(base) = bank.get(base).filter(|_| *ending != crate::bank::Ending::Other) else { continue };
            compared += 1;
            let Some(form) = of(&word.spelling, &bank) else {
                wrong.push(format!("{} is not found", word.spelling));
                continue;
            };
            let (mut asked, mut made) = (Vec::new(), Vec::new());
            each_need(word, &bank, &mut |need| asked.push(format!("{need:?}")));
            each_need(base, &bank, &mut |need| made.push(format!("{need:?}")));
            form.each_need(&mut |need| made.push(format!("{need:?}")));
            let alike = form.base.spelling == base.spelling
                && plain(&form.phones) == plain(&word.alignment.phones())
                && made == asked;
            if !alike {
                wrong.push(format!("{}: {} {:?}", word.spelling, form.base.spelling, form.phones));
            }
        }
        assert!(wrong.is_empty(), "{wrong:#?}");
        assert!(compared > 1900, "{compared}");
    }

    fn made(spelling: &str) -> String {
        let bank = bank();
        let Some(form) = of(spelling, &bank) else { return "-".to_owned() };
        let mut said = form.base.spelling.clone();
        for added in &form.added {
            said += &format!(" {}", added.suffix.letters());
            if let Some(change) = added.change {
                said += &format!(" ({change})");
            }
        }
        let phones: Vec<_> = form.phones.iter().map(ToString::to_string).collect();
        format!("{said}: {}", phones.join(" "))
    }

    #[test]
    fn forms_of_longer_words_and_comparisons() {
        for (spelling, expected) in [
            ("bigger", "big er (doubling): B IH1 G ER0"),
            ("nicest", "nice est (drop-e): N AY1 S AH0 S T"),
            ("happier", "happy er (y-to-i): HH AE1 P IY0 ER0"),
            ("taller", "tall er: T AO1 L ER0"),
            ("kickers", "kick er s: K IH1 K ER0 Z"),
            ("rabbits", "rabbit s: R AE1 B AH0 T S"),
            ("sandwiches", "sandwich s: S AE1 N D W IH0 CH IH0 Z"),
            ("puppies", "puppy s (y-to-i): P AH1 P IY0 Z"),
            ("rainbows", "rainbow s: R EY1 N B OW2 Z"),
        ] {
            assert_eq!(made(spelling), expected);
        }
    }

    #[test]
    fn what_is_not_spelled_by_rule_is_no_form() {
        for spelling in
            ["hoped1", "hopeing", "biger", "bigest", "boxs", "happyer", "rans", "zorps", "s", "ed", "ing", "", "é"]
        {
            assert_eq!(made(spelling), "-", "{spelling}");
        }
    }

    #[test]
    fn any_word_takes_the_mark() {
        let bank = bank();
        let last = |spelling: &str| {
            let form = with_mark(spelling, &bank).unwrap();
            let phones: Vec<_> = form.phones.iter().map(ToString::to_string).collect();
            (phones.join(" "), form.added.last().unwrap().longer)
        };
        assert_eq!(last("it"), ("IH1 T S".to_owned(), false));
        assert_eq!(last("dog").0, "D AO1 G Z");
        assert!(last("fox").1);
        assert!(with_mark("zorp", &bank).is_none());
    }
}
