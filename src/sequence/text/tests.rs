//! How words of a text are judged, and what they add up to.

use std::sync::OnceLock;

use super::{Percent, Standing, TextChecker, TextReport, TextSummary, check_text};
use crate::bank::Bank;
use crate::sequence::Sequence;
use crate::sounds::Counting;

fn bank() -> &'static Bank {
    static READ: OnceLock<Bank> = OnceLock::new();
    READ.get_or_init(|| Bank::builtin(Counting::default()).unwrap())
}

fn builtin() -> &'static Sequence {
    static READ: OnceLock<Sequence> = OnceLock::new();
    READ.get_or_init(|| Sequence::builtin().unwrap())
}

fn check(step: &str, text: &str) -> TextReport {
    check_text(text, builtin(), builtin().step(step).unwrap(), bank())
}

/// The standing of each word, by its first letter: d, s (by sight), n (not yet), u, and in capitals Name, 7 for numerals, L, O.
fn standings(step: &str, text: &str) -> String {
    let letter = |standing| match standing {
        Standing::Decodable => 'd',
        Standing::BySight => 's',
        Standing::NotYet => 'n',
        Standing::Unknown => 'u',
        Standing::Name => 'N',
        Standing::Numeral => '7',
        Standing::Letter => 'L',
        Standing::OtherScript => 'O',
    };
    check(step, text).words.iter().map(|word| letter(word.standing)).collect()
}

fn from(spelling: &str) -> String {
    let report = check("first-words", spelling);
    let entry = &report.words[0].entry;
    let step = entry.from.and_then(|number| builtin().numbered(number));
    step.map_or_else(|| "never".to_owned(), |step| step.name.clone())
}

#[test]
fn words_of_the_bank_are_judged_as_the_sequence_judges_them() {
    for step in ["first-words", "a-e", "weak-vowels"] {
        let step = builtin().step(step).unwrap();
        let taught = builtin().taught(step);
        for word in bank().words() {
            let report = check_text(&word.spelling, builtin(), step, bank());
            let [found] = report.words.as_slice() else { panic!("{}", word.spelling) };
            if found.standing == Standing::Letter {
                assert_eq!(word.spelling.len(), 1);
                continue;
            }
            let strict = taught.check(word, bank());
            let form_of_sight = word.flags.form.is_some() && found.standing == Standing::BySight;
            assert!(
                (found.standing != Standing::NotYet) == strict.is_readable() || form_of_sight,
                "{}: {:?}, {strict}",
                word.spelling,
                found.standing
            );
            let readable = found.entry.from.is_some_and(|from| from <= step.number);
            assert_eq!(readable, found.standing != Standing::NotYet, "{}", word.spelling);
        }
    }
}

#[test]
fn forms_that_the_bank_lacks_are_derived() {
    for (spelling, base, step) in [
        ("rabbits", "rabbit", "two-syllables"),
        ("bigger", "big", "two-syllables"),
        ("biggest", "big", "weak-vowels"),
        ("rainbows", "rainbow", "oa-ow"),
        ("eyes", "eye", "long-i-o"),
        ("doing", "do", "add-ing-ed"),
    ] {
        assert!(bank().get(spelling).is_none(), "{spelling} is in the bank: choose another");
        let report = check("first-words", spelling);
        assert_eq!(report.words[0].entry.base.as_deref(), Some(base), "{spelling}");
        assert_eq!(report.words[0].standing, Standing::NotYet, "{spelling}");
        let earliest = builtin().step(&from(spelling)).unwrap().number;
        assert!(earliest <= builtin().step(step).unwrap().number, "{spelling}: {}", from(spelling));
    }
    assert_eq!(standings("rare-consonants", "zorped zorps hopeing runs"), "uuud");
}

#[test]
fn possessives_are_the_word_with_its_ending() {
    assert_eq!(from("dog's"), "add-s");
    assert_eq!(from("fox's"), "sh-ch"); // a syllable more: -es
    assert_eq!(from("dogs'"), from("dogs"));
    assert_eq!(from("let's"), "add-s");
    assert_eq!(from("he's"), "add-s"); // he is read by sight before
    assert_eq!(from("friend's"), "ar-or"); // read by sight
    assert_eq!(standings("add-s", "The dog's bed. It’s Zed's."), "sdddN");
}

#[test]
fn contractions_are_read_by_sight_when_their_words_are() {
    assert_eq!(from("don't"), "short-o");
    assert_eq!(from("I’m"), "first-words");
    assert_eq!(from("can't"), "short-o");
    assert_eq!(from("couldn't"), from("could"));
    assert_eq!(standings("first-words", "I'm don't"), "sn");
    let report = check("first-words", "don't");
    assert_eq!(report.words[0].entry.base.as_deref(), Some("do not"));
    assert!(!report.words[0].entry.missing.is_empty());
    assert_eq!(standings("short-o", "Dog'll"), "u");
}

#[test]
fn names_are_told_by_their_capitals() {
    // The dog and Bill are words of the bank; Zed is none, and is a name since it stands inside a sentence too.
    assert_eq!(standings("x-qu-z", "Zed hid. The Dog hid Zed."), "NdsddN");
    assert_eq!(standings("x-qu-z", "Zorp hid."), "ud");
    assert_eq!(standings("x-qu-z", "I hid. NASA hid. A zorp hid."), "sdudsud");
    assert_eq!(standings("doubles", "He said, “Zorp.” Mr. Zed Bill"), "ssuNNd");
    let report = check("x-qu-z", "Zed hid. The dog hid Zed’s, and Zed and Max hid.");
    let names: Vec<_> = report.summary.names.iter().map(|name| (name.spelling.as_str(), name.count)).collect();
    assert_eq!(names, [("zed", 3), ("max", 1)]);
    assert_eq!(report.summary.words, 7);
    assert_eq!(report.summary.pre_teach, []);
}

#[test]
fn what_is_no_word_is_counted_apart() {
    assert_eq!(standings("short-o", "7 dogs, 1,000 cats, 3rd b собака 犬"), "7n7n7LOO");
    let summary = check("short-o", "7 собака b").summary;
    assert_eq!((summary.words, summary.percent_readable, summary.most), (0, None, None));
    assert_eq!(check("short-o", " …\n — “”\n").words, []);
}

#[test]
fn parts_marks_and_line_ends() {
    assert_eq!(standings("ng-nk", "big-red dog—hat “dig”"), "ddddd");
    let places = |text: &str| -> Vec<_> {
        check("short-o", text).words.iter().map(|word| (word.line, word.column, word.text.clone())).collect()
    };
    for text in ["a dog\n\n b", "a dog\r\n\r\n b", "a dog\r\r b", "\u{feff}a dog\n\n b"] {
        let expected = [(1, 1, "a".to_owned()), (1, 3, "dog".to_owned()), (3, 2, "b".to_owned())];
        assert_eq!(places(text), expected, "{text:?}");
    }
}

#[test]
fn sums_and_steps_follow_the_words() {
    // 18 times dog, and two words of later steps: 90 percent at once, 95 with the first of them, all with the second.
    let text = "dog ".repeat(18) + "rain cake";
    let TextSummary { words, percent_decodable, percent_readable, most, all, pre_teach, .. } =
        check("short-o", &text).summary;
    let ninety = Some(Percent { tenths: 900 });
    assert_eq!((words, percent_decodable, percent_readable), (20, ninety, ninety));
    assert_eq!(most.unwrap().name, "a-e");
    assert_eq!(all.unwrap().name, "ai-ay");
    assert_eq!(pre_teach.iter().map(|word| word.spelling.as_str()).collect::<Vec<_>>(), ["cake", "rain"]);
    let unknown = check("short-o", "dog zorp zorp rain").summary;
    assert_eq!(unknown.all, None);
    assert_eq!(unknown.pre_teach[0].spelling, "zorp");
    assert_eq!((unknown.pre_teach[0].count, unknown.pre_teach[0].from), (2, None));
    // One of 3000 is not rounded up to all.
    assert_eq!(check("short-o", &("dog ".repeat(2999) + "zorp")).summary.percent_readable.unwrap().to_string(), "99.9");
}

#[test]
fn the_report_is_json() {
    let report = check("short-i", "It is a ship,\n7 men hid Zed.");
    insta::assert_snapshot!(serde_json::to_string_pretty(&report).unwrap());
}

#[test]
fn lines_give_what_the_whole_gives() {
    let text = "Zed ran.\nThe dog ran to Zed.\n\nRain! “Zed,” said Bill.\n";
    let step = builtin().step("short-u").unwrap();
    let mut checker = TextChecker::new(builtin(), step, bank());
    let mut count = 0;
    text.split('\n').for_each(|line| checker.line(line, &mut |_| count += 1));
    let whole = check_text(text, builtin(), step, bank());
    assert_eq!(checker.summary(), whole.summary);
    assert_eq!(count, whole.words.len());
}

proptest::proptest! {
    #![proptest_config(proptest::test_runner::Config::with_cases(200))]
    /// Any string at all: each word stands where it says, in order.
    #[test]
    fn any_text_is_checked(text in "(\\PC|[ a-z'’.\n\r-]){0,80}") {
        let report = check("short-o", &text);
        let lines: Vec<Vec<char>> = super::lines(text.strip_prefix('\u{feff}').unwrap_or(&text)).map(|line| line.chars().collect()).collect();
        let mut before = (0, 0);
        for word in &report.words {
            let found: String = lines[word.line - 1][word.column - 1..].iter().take(word.text.chars().count()).collect();
            assert_eq!(found, word.text);
            assert!((word.line, word.column) > before);
            before = (word.line, word.column);
        }
        assert_eq!(report.summary.counts.values().sum::<usize>(), report.words.len());
    }
}
