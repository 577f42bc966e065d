//! What the built-in sequence promises, and how words are judged.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

use super::needs::{Need, each_need};
use super::{Missing, Sequence, Step, Taught, Verdict};
use crate::bank::{Bank, Word};
use crate::sounds::Counting;

const DOLCH: &str = include_str!("dolch.txt");

/// The bank's words have no marks.
const NOT_IN_BANK: &str = "don't";

fn bank() -> &'static Bank {
    static READ: OnceLock<Bank> = OnceLock::new();
    READ.get_or_init(|| Bank::builtin(Counting::default()).unwrap())
}

fn builtin() -> &'static Sequence {
    static READ: OnceLock<Sequence> = OnceLock::new();
    READ.get_or_init(|| Sequence::builtin().unwrap_or_else(|error| panic!("{error}")))
}

fn word(spelling: &str) -> &'static Word {
    bank().get(spelling).unwrap_or_else(|| panic!("{spelling} is not in the bank"))
}

fn at(step: &str) -> Taught<'static> {
    builtin().taught(builtin().step(step).unwrap())
}

fn last() -> Taught<'static> {
    builtin().taught(builtin().steps().last().unwrap())
}

fn first_step(spelling: &str) -> &'static str {
    builtin().earliest(word(spelling), bank()).map_or("never", |step| &step.name)
}

/// A word that the bank need not have, by its row.
fn row(spelling: &str, groups: &str, flags: &str) -> Word {
    let row = format!("{spelling}\t{groups}\t1\t35\tK\tn\t-\t{flags}");
    Word::from_row(&row, &Counting::default()).unwrap()
}

#[test]
fn every_step_brings_words() {
    let steps = builtin().steps();
    assert!((40..=46).contains(&steps.len()), "{}", steps.len());
    let mut new: BTreeMap<u16, usize> = BTreeMap::new();
    for number in builtin().steps_of(bank()).into_iter().flatten() {
        *new.entry(number).or_default() += 1;
    }
    for step in steps {
        let Step { number, name, pairs, blends, shapes, .. } = step;
        assert!(!(pairs.is_empty() && blends.is_empty() && shapes.is_empty()), "{name} teaches nothing");
        let words = new.get(number).copied().unwrap_or_default();
        assert!(words >= 6, "{name} brings {words} words");
    }
}

#[test]
fn everything_taught_is_taught_once_and_used() {
    let mut used = BTreeSet::new();
    for word in bank().words() {
        used.extend(word.alignment.units.iter().map(|unit| unit.pair().to_string()));
        each_need(word, bank(), &mut |need| {
            used.insert(match need {
                Need::Pair { letters, .. } => letters.to_owned(),
                Need::Blend(blend) => blend.to_string(),
                Need::Cluster(_) => "any-cluster".to_owned(),
                Need::Shape(shape) => shape.to_string(),
                Need::Irregular => "irregular".to_owned(),
            });
        });
    }
    // Wildcards for words of a teacher's own.
    used.extend(["one-syllable".to_owned(), "four-or-more".to_owned()]);
    let mut taught = BTreeSet::new();
    let everything = last().pairs().map(ToString::to_string);
    let everything = everything.chain(last().blends().map(ToString::to_string));
    let everything = everything.chain(last().shapes().map(|shape| shape.to_string()));
    for one in everything.chain(last().words().map(str::to_owned)) {
        assert!(used.contains(&one) || bank().get(&one).is_some(), "no word needs {one}");
        assert!(taught.insert(one.clone()), "{one} is taught twice");
    }
}

#[test]
fn nearly_every_word_can_be_read_in_the_end() {
    let steps = builtin().steps_of(bank());
    let share = |syllables: usize| {
        let words = bank().words().iter().zip(&steps);
        let regular = words.filter(|(word, _)| !word.flags.irregular && word.syllables.len() == syllables);
        let (mut all, mut decodable) = (0, 0);
        for (_, step) in regular {
            all += 1;
            decodable += usize::from(step.is_some());
        }
        (decodable, all)
    };
    for (syllables, percent) in [(1, 95), (2, 85)] {
        let (decodable, all) = share(syllables);
        assert!(decodable * 100 >= all * percent, "{decodable} of {all} with {syllables} syllables");
    }
}

#[test]
fn what_is_decodable_stays_so_and_all_ways_agree() {
    let steps = builtin().steps_of(bank());
    for name in ["first-words", "end-blends-l", "base-changes", "oo", "weak-vowels"] {
        let taught = at(name);
        let number = builtin().step(name).unwrap().number;
        for (word, first) in bank().words().iter().zip(&steps) {
            let decodable = first.is_some_and(|first| first <= number);
            assert_eq!(taught.is_decodable(word, bank()), decodable, "{}", word.spelling);
            let verdict = taught.check(word, bank());
            assert_eq!(verdict == Verdict::Decodable, decodable, "{}: {verdict}", word.spelling);
            assert_eq!(verdict.is_readable(), taught.is_readable(word, bank()), "{}", word.spelling);
            let from = builtin().readable_from(word, bank());
            assert_eq!(verdict.is_readable(), from.is_some_and(|step| step.number <= number), "{}", word.spelling);
        }
    }
}

#[test]
fn sample_words_are_where_they_are_expected() {
    for (spelling, step) in [
        ("man", "first-words"),
        ("cat", "short-o"),
        ("dog", "short-o"),
        ("sit", "short-i"),
        ("fox", "x-qu-z"),
        ("quit", "x-qu-z"),
        ("beds", "add-s"),
        ("duck", "doubles"),
        ("ship", "sh-ch"),
        ("boxes", "sh-ch"),
        ("ring", "ng-nk"),
        ("me", "open-vowels"),
        ("black", "l-blends"),
        ("stop", "s-blends"),
        ("stamp", "end-blends-m-n"),
        ("splash", "three-at-start"),
        ("jumping", "add-ing-ed"),
        ("cake", "a-e"),
        ("baked", "base-changes"),
        ("hopping", "base-changes"),
        ("cupcake", "compounds"),
        ("rain", "ai-ay"),
        ("cries", "long-i-o"),
        ("cold", "long-i-o"),
        ("car", "ar-or"),
        ("bridge", "soft-c-g"),
        ("boy", "ou-oi"),
        ("knee", "kn-wr-mb"),
        ("rabbit", "two-syllables"),
        ("table", "end-le"),
        ("said", "never"),
    ] {
        assert_eq!(first_step(spelling), step, "{spelling}");
    }
}

#[test]
fn irregular_words_are_read_by_sight_only() {
    assert_eq!(at("short-i").check(word("said"), bank()), Verdict::BySight);
    assert_eq!(last().check(word("said"), bank()), Verdict::BySight);
    assert_eq!(at("short-o").check(word("said"), bank()), Verdict::NotYet(vec![Missing::Irregular]));
    assert_eq!(at("first-words").check(word("man"), bank()), Verdict::Decodable);
    assert_eq!(at("short-i").words().take(3).collect::<Vec<_>>(), builtin().step("3").unwrap().words[..3]);
}

#[test]
fn a_teacher_is_told_what_is_missing() {
    let told = |step, spelling| at(step).check(word(spelling), bank()).to_string();
    insta::assert_snapshot!(told("ng-nk", "rain"), @"ai for /ā/ is taught at step 26, `ai-ay`");
    insta::assert_snapshot!(told("a-e", "bumped"), @"decodable");
    insta::assert_snapshot!(told("sh-ch", "splashing"), @"the blend spl- is taught at step 19, `three-at-start`; CCCVC words are taught at step 19, `three-at-start`; the ending -ing is taught at step 20, `add-ing-ed`");
    insta::assert_snapshot!(told("short-e", "fox"), @"x for /k/ /s/ is taught at step 6, `x-qu-z`; CVCC words are taught at step 6, `x-qu-z`");
    insta::assert_snapshot!(told("a-e", "beard"), @"ea for /ĭ/ is taught at step 38, `air-ear`; the consonants /r/ /d/ together are taught at step 38, `air-ear`");
    insta::assert_snapshot!(told("oo", "aardvark"), @"aar for /ar/ is not taught in this sequence; two-syllable words are taught at step 40, `two-syllables`");
}

#[test]
fn a_form_asks_for_its_base_its_ending_and_the_change() {
    let needs = |word: &Word| {
        let mut shapes = Vec::new();
        each_need(word, bank(), &mut |need| {
            if let Need::Shape(shape) = need {
                shapes.push(shape.to_string());
            }
        });
        shapes.join(" ")
    };
    for (spelling, expected) in [
        ("jumps", "CVCC -s"),
        ("boxes", "CVCC -es"),
        ("pages", "CVCe -es"),
        ("baked", "CVCe -ed drop-e"),
        ("baking", "CVCe -ing drop-e"),
        ("hopping", "CVC -ing doubling"),
        ("cried", "CCV -ed y-to-i"),
        ("cries", "CCV -s y-to-i"),
        // The flag does not say which ending it is.
        ("oats", "VC -s"),
    ] {
        assert_eq!(needs(word(spelling)), expected, "{spelling}");
    }
    // Bases that the bank does not have, and a form that is its own base.
    let blips = row("blips", "b=B l=L i=IH1 p=P s=S", "form=blip+s");
    assert_eq!(needs(&blips), "CCVCC -s");
    assert!(at("end-blends-m-n").is_decodable(&blips, bank()));
    assert_eq!(needs(&row("tying", "t=T y=AY1 i=IH0 ng=NG", "form=tie+ing")), "CV -ing drop-e");
    assert_eq!(needs(&row("zibs", "z=Z i=IH1 b=B s=Z", "form=zibs+s")), "CVCC -s");
}

#[test]
fn compounds_ask_for_the_syllables_of_their_longer_part() {
    assert_eq!(first_step("sunset"), "compounds");
    let butterfly = at("compounds").check(word("butterfly"), bank()).to_string();
    assert!(butterfly.contains("two-syllable words"), "{butterfly}");
    let anthill = at("base-changes").check(word("anthill"), bank()).to_string();
    assert_eq!(anthill, "compounds are taught at step 25, `compounds`");
}

#[test]
fn the_switches_of_counting_close_no_step() {
    let other = Counting { dog_as_hop: false, vowel_r_as_one: true, yu_as_one: false, wh_as_hw: true };
    let other = Bank::builtin(other).unwrap();
    for spelling in ["dog", "when", "cube", "chair", "fire"] {
        let step = builtin().earliest(other.get(spelling).unwrap(), &other);
        assert!(step.is_some(), "{spelling}");
        if ["dog", "when"].contains(&spelling) {
            assert_eq!(step.unwrap().name, first_step(spelling));
        }
    }
}

#[test]
fn every_basic_sight_word_can_be_read_in_the_end() {
    let listed: Vec<_> = DOLCH.lines().filter(|line| !line.starts_with('#')).flat_map(str::split_whitespace).collect();
    assert_eq!(listed.len(), 220);
    assert!(listed.is_sorted_by(|one, next| one < next));
    for &spelling in listed.iter().filter(|word| **word != NOT_IN_BANK) {
        assert!(last().is_readable(word(spelling), bank()), "{spelling}");
    }
    assert_eq!(builtin().words_not_in(bank()).next(), None);
}

#[test]
fn a_sight_word_is_listed_before_it_can_be_sounded_out() {
    for step in builtin().steps() {
        for spelling in &step.words {
            let decodable = builtin().earliest(word(spelling), bank());
            assert!(decodable.is_none_or(|first| first.number > step.number), "{spelling} at {}", step.name);
            assert_eq!(builtin().by_sight(spelling), Some(step));
        }
    }
}
