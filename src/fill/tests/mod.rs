//! Runs over many seeds, focus sets and readers; what the solver catches; what the messages say.

mod aloud;
mod by_ear;
mod chain;
mod columns;
mod games;
mod joining;
mod lesson;
mod listening;
mod messages;
mod nonsense;
mod tamper;
mod words;
mod yaml;

use std::sync::OnceLock;

use super::{Fill, FillError, Filled, Request};
use crate::bank::{Bank, Word};
use crate::seed::{Seed, Stream};
use crate::sequence::{Sequence, Taught};
use crate::sounds::{Blend, Counting, Notation, Side, Sound};

/// Who reads: which words may be printed.
type Reader = fn(&Word) -> bool;

/// Readers of several kinds, from the one who reads everything on.
const READERS: [(&str, Reader); 4] = [
    ("everything", |_| true),
    ("up to four sounds", |word| word.sounds.len() <= 4),
    ("short vowels", short_vowels),
    ("every third word", |word| word.spelling.bytes().map(u32::from).sum::<u32>() % 3 != 0),
];

fn short_vowels(word: &Word) -> bool {
    use Sound::{ShortA, ShortE, ShortI, ShortO, ShortU};
    word.sounds.iter().filter(|s| s.is_vowel()).all(|s| [ShortA, ShortE, ShortI, ShortO, ShortU].contains(s))
        && !word.spelling.ends_with('e')
}

fn bank() -> &'static Bank {
    static READ: OnceLock<Bank> = OnceLock::new();
    READ.get_or_init(|| Bank::builtin(Counting::default()).unwrap())
}

/// Everything that the built-in sequence teaches.
fn taught() -> Taught<'static> {
    static READ: OnceLock<Sequence> = OnceLock::new();
    let sequence = READ.get_or_init(|| Sequence::builtin().unwrap());
    sequence.taught_at(sequence.steps().last().unwrap().number)
}

fn word(spelling: &str) -> &'static Word {
    bank().get(spelling).unwrap_or_else(|| panic!("{spelling} is not in the bank"))
}

/// The initial blends of some names, and the final ones of names such as `-nd`.
fn focus(names: &str) -> Vec<&'static Blend> {
    let blend = |name: &str| {
        let (bare, side) = name.strip_prefix('-').map_or((name, Side::Onset), |bare| (bare, Side::Coda));
        Blend::named(bare).into_iter().find(|blend| blend.side == side).unwrap_or_else(|| panic!("{name} is no blend"))
    };
    names.split_whitespace().map(blend).collect()
}

fn request<'a>(reader: &'a Reader, names: &str, seed: &str) -> Request<'a> {
    Request {
        bank: bank(),
        decodable: reader,
        taught: taught(),
        step: "step 12 (l-blends)".to_owned(),
        focus: focus(names),
        count: None,
        avoid: Vec::new(),
        by_sight: ["new", "said", "live", "i", "the"].map(|word| (word.to_owned(), 3)).to_vec(),
        stream: Stream::new(&Seed::new(seed).unwrap(), &["test"]),
        notation: Notation::Teacher,
    }
}

/// Content for one seed; asked for twice, to see that it is the same.
fn run(fill: &Fill, reader: Reader, names: &str, seed: &str) -> Result<Filled, FillError> {
    let request = request(&reader, names, seed);
    let filled = fill.run(&request);
    assert_eq!(fill.run(&request), filled, "{seed}");
    filled
}

/// A spec as a layout writes it.
fn spec(text: &str) -> Fill {
    crate::yaml::from_str("test.yaml", text).unwrap()
}

fn shown(filled: &Filled) -> Vec<&str> {
    filled.items.iter().map(|item| item.word.as_str()).collect()
}

/// Nothing that holds for all sheets is left to the solver alone: no two sound alike or are forms of one word.
fn assert_distinct(filled: &Filled) {
    let words: Vec<&Word> = filled.items.iter().map(|item| word(&item.word)).collect();
    let stem = |word: &'static Word| word.flags.form.as_ref().map_or(word.spelling.as_str(), |(base, _)| base.as_str());
    for (at, one) in filled.items.iter().map(|item| word(&item.word)).enumerate() {
        assert!(!one.flags.heteronym && !one.flags.irregular, "{}", one.spelling);
        for other in &words[at + 1..] {
            let other = word(&other.spelling);
            assert!(one.sounds != other.sounds && stem(one) != stem(other), "{} {}", one.spelling, other.spelling);
        }
    }
}

#[test]
fn every_way_is_listed_and_works_by_its_name_alone() {
    let names: Vec<&str> = Fill::WAYS.iter().map(|(name, _)| *name).collect();
    assert_eq!(names, <Fill as crate::yaml::NamedChoice>::NAMES);
    for name in names {
        let fill = spec(name);
        assert_eq!(fill.name(), name);
        assert_eq!(fill.validate(), []);
        assert!(run(&fill, |_| true, "bl st", "a").is_ok(), "{name}");
    }
}

#[test]
fn drawing_from_the_stream_or_counting_by_the_layout_changes_nothing() {
    for (with_count, plain) in [
        ("words: {count: 5}", "words: {count: 9}"),
        ("columns: {count: 5}", "columns: {count: 9}"),
        ("chain: {rungs: 5}", "chain: {rungs: 9}"),
    ] {
        let reader: Reader = |_| true;
        let expected = spec(with_count).run(&request(&reader, "bl st", "a")).unwrap();
        let mut other = request(&reader, "bl st", "a");
        other.stream.next_u32();
        other.count = Some(5);
        assert_eq!(spec(plain).run(&other).unwrap(), expected);
    }
}

/// A word that no one can read yet changes nothing for those who can't read it.
#[test]
fn words_that_cannot_be_read_make_no_difference() {
    let text = format!("{}blorp\tb=B l=L or=AO1+R p=P\t1\t10\tK\tn\t-\t-\n", include_str!("../../bank/words.txt"));
    let more = Bank::read(&text, Counting::default()).unwrap();
    assert_eq!(more.words().len(), bank().words().len() + 1);
    let reader: Reader = |word| word.spelling != "blorp";
    for name in ["words", "columns", "chain"] {
        let plain = spec(name).run(&request(&reader, "bl st", "a")).unwrap();
        assert_eq!(spec(name).run(&Request { bank: &more, ..request(&reader, "bl st", "a") }).unwrap(), plain);
    }
}
