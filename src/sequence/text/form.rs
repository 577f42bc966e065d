//! Regular forms that the bank lacks, found by rule.
//!
//! The rules of voicing are the trade's: *-s* is /z/ after a voiced sound, /s/ after an unvoiced one and a syllable of its own
//! after a hiss; *-ed* is /d/, /t/, or a syllable after /t/ and /d/. A test compares them, and those of spelling, with every
//! form of the bank.

use crate::bank::{Bank, Class, Word};
use crate::sequence::Shape;
use crate::sequence::needs::Need;
use crate::sounds::{Blend, Phone, Phoneme, Side, Sound, Stress};

use super::respell::{bases, change, spelled};

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

    pub(super) const fn letters(self) -> &'static str {
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

pub(super) const fn is_hiss(phoneme: Phoneme) -> bool {
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
        let mut parts = vec![form.base.spelling.clone()];
        for added in &form.added {
            parts.push(added.suffix.letters().to_owned());
            parts.extend(added.change.map(|change| format!("({change})")));
        }
        let phones: Vec<_> = form.phones.iter().map(ToString::to_string).collect();
        format!("{}: {}", parts.join(" "), phones.join(" "))
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
