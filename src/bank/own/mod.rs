//! A teacher's own words: words to add to the bank, and words that are not for this class.
//!
//! They come from YAML ([`OwnWords::from_yaml`]) or a table ([`OwnWords::from_csv`]) and are laid over a bank by
//! [`Bank::with_own`]; from then on they take part in everything.
//!
//! ```yaml
//! add:
//!   - quokka: {sounds: qu=K+W o=AA1 kk=K a=AH0, categories: [animal], classes: [n], band: "1"}
//!   - zed            # its sounds are certain, and it needs nothing else
//! leave-out: [witch, ghost]
//! ```
//!
//! ```csv
//! spelling,sounds,categories,classes,band,flags,leave-out
//! quokka,qu=K+W o=AA1 kk=K a=AH0,animal,n,1,,
//! witch,,,,,,yes
//! ```
//!
//! What is left out has its defaults: the sounds where they can be known for certain, no category, class `o`, band `K`. A word
//! that the bank has gets the tags in addition to its own, and keeps its sounds and its band unless they are given. Leaving out
//! a word leaves out its forms with endings.
//!
//! ```
//! use sheafling::bank::{Bank, OwnWords};
//! use sheafling::sounds::Counting;
//!
//! let bank = Bank::builtin(Counting::default()).unwrap();
//! let own = OwnWords::from_yaml("own.yaml", "add: [zed]\nleave-out: [witch]\n", &bank).unwrap();
//! let bank = bank.with_own(&own);
//! assert!(bank.get("zed").unwrap().rhymes_with(bank.get("red").unwrap()));
//! assert!(bank.get("witch").is_none());
//! ```

mod check;
mod csv_file;
mod sounds;
#[cfg(test)]
mod tests;
mod yaml_file;

use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::sync::OnceLock;

use super::{Band, Bank, Category, Class, Flags, Tags, Word};
use crate::spelling::Alignment;
use crate::yaml::YamlError;

const LEFT_OUT: &str = include_str!("../left-out.txt");

/// All that is wrong with a file of own words, in the order of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct OwnWordsError {
    /// The problems, at least one, each with its place.
    pub problems: Vec<YamlError>,
}

impl fmt::Display for OwnWordsError {
    /// The problems, an empty line between them.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let texts: Vec<_> = self.problems.iter().map(ToString::to_string).collect();
        f.write_str(&texts.join("\n\n"))
    }
}

impl std::error::Error for OwnWordsError {}

/// Words to add and words to leave out, all checked.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OwnWords {
    add: BTreeMap<String, OwnWord>,
    leave_out: BTreeSet<String>,
}

/// A word to add, or what is added to a word that the bank has.
#[derive(Clone, Debug, PartialEq, Eq)]
struct OwnWord {
    /// `None` for a word that keeps the sounds it has in the bank.
    alignment: Option<Alignment>,
    band: Option<Band>,
    classes: Vec<Class>,
    categories: Vec<Category>,
    flags: Flags,
}

impl OwnWords {
    /// The spellings of the words to add, in order.
    pub fn added(&self) -> impl Iterator<Item = &str> {
        self.add.keys().map(String::as_str)
    }

    /// The spellings of the words to leave out, in order. They need not be in the bank.
    pub fn left_out(&self) -> impl Iterator<Item = &str> {
        self.leave_out.iter().map(String::as_str)
    }

    /// A fingerprint (BLAKE3, 64 hexadecimal digits) of what the words are, whatever file and order they came in.
    #[must_use]
    pub fn fingerprint(&self) -> String {
        let mut hasher = blake3::Hasher::new();
        for (spelling, word) in &self.add {
            let alignment = word.alignment.as_ref().map_or_else(|| "-".to_owned(), ToString::to_string);
            let band = word.band.map_or("-", Band::name);
            let classes = names(word.classes.iter().map(|class| class.name()));
            let categories = names(word.categories.iter().map(|category| category.name()));
            let flags = flag_names(&word.flags);
            let row = format!("add\t{spelling}\t{alignment}\t{band}\t{classes}\t{categories}\t{flags}\n");
            hasher.update(row.as_bytes());
        }
        for spelling in &self.leave_out {
            hasher.update(format!("leave-out\t{spelling}\n").as_bytes());
        }
        hasher.finalize().to_hex().to_string()
    }
}

fn names<'a>(names: impl Iterator<Item = &'a str>) -> String {
    names.collect::<Vec<_>>().join(",")
}

/// The flags as the bank's file writes them.
fn flag_names(flags: &Flags) -> String {
    let simple = [
        (flags.heteronym, "heteronym"),
        (flags.irregular, "irregular"),
        (flags.past, "past"),
        (flags.plural, "plural"),
        (flags.function, "function"),
        (flags.interjection, "interjection"),
    ];
    let mut found: Vec<String> = simple.iter().filter(|(is, _)| *is).map(|(_, name)| (*name).to_owned()).collect();
    found.extend(flags.compound.as_ref().map(|(first, second)| format!("compound={first}+{second}")));
    found.extend(flags.form.as_ref().map(|(base, ending)| format!("form={base}+{ending}")));
    found.join(",")
}

impl Bank {
    /// The same bank with a teacher's own words in it and without those that are not for this class.
    #[must_use]
    pub fn with_own(self, own: &OwnWords) -> Self {
        let Self { words, counting, mut left_out, .. } = self;
        let is_out = |word: &Word| {
            let base = word.flags.form.as_ref().map(|(base, _)| base);
            own.leave_out.contains(&word.spelling) || base.is_some_and(|base| own.leave_out.contains(base))
        };
        let (out, mut words): (Vec<Word>, Vec<Word>) =
            words.into_iter().partition(|word| is_out(word) && !own.add.contains_key(&word.spelling));
        left_out.extend(out);
        left_out.retain(|word| !own.add.contains_key(&word.spelling));
        let mut known: BTreeMap<String, usize> = BTreeMap::new();
        for (at, word) in words.iter().enumerate() {
            known.insert(word.spelling.clone(), at);
        }
        for (spelling, added) in &own.add {
            let found = known.get(spelling).map(|&at| &words[at]);
            let Some(alignment) = added.alignment.clone().or_else(|| found.map(|word| word.alignment.clone())) else {
                continue;
            };
            let word = Word::new(spelling.clone(), alignment, added.tags(found), &counting);
            match known.get(spelling) {
                Some(&at) => words[at] = word,
                None => words.push(word),
            }
        }
        Self::of_words(words, left_out, counting)
    }

    /// The words that are not for this class. They are never printed; but who is asked for "the one animal that rhymes with …"
    /// may still think of them.
    pub fn left_out(&self) -> &[Word] {
        &self.left_out
    }
}

impl OwnWord {
    /// Its tags, with those of the bank's word when there is one. An own word is as common as a word can be: its class needs it.
    fn tags(&self, known: Option<&Word>) -> Tags {
        let mut classes = known.map_or_else(Vec::new, |word| word.classes.clone());
        classes.extend(self.classes.iter().filter(|class| !known.is_some_and(|word| word.classes.contains(class))));
        if classes.is_empty() {
            classes.push(Class::Other);
        }
        let mut categories = known.map_or_else(Vec::new, |word| word.categories.clone());
        categories.extend(self.categories.iter().filter(|one| !known.is_some_and(|w| w.categories.contains(one))));
        let own = &self.flags;
        let base = known.map_or_else(Flags::default, |word| word.flags.clone());
        let flags = Flags {
            heteronym: own.heteronym || base.heteronym,
            irregular: own.irregular || base.irregular,
            past: own.past || base.past,
            plural: own.plural || base.plural,
            function: own.function || base.function,
            interjection: own.interjection || base.interjection,
            compound: own.compound.clone().or(base.compound),
            form: own.form.clone().or(base.form),
        };
        let band = self.band.or_else(|| known.map(|word| word.band)).unwrap_or(Band::K);
        Tags { level: known.map_or(10, |word| word.level), band, classes, categories, flags }
    }
}

/// The words that are never used, whoever asks.
pub(super) fn left_out_words() -> &'static BTreeSet<&'static str> {
    static READ: OnceLock<BTreeSet<&str>> = OnceLock::new();
    READ.get_or_init(|| LEFT_OUT.lines().map(str::trim).filter(|l| !l.is_empty() && !l.starts_with('#')).collect())
}

/// Whether a word is on the list of words that are never used (`left-out.txt`), as it stands or with an *s*.
#[must_use]
pub fn is_left_out(spelling: &str) -> bool {
    let words = left_out_words();
    words.contains(spelling) || spelling.strip_suffix('s').is_some_and(|base| words.contains(base))
}
