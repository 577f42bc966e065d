use super::*;
use crate::sounds::{Blend, Place};

pub(super) fn bank() -> &'static Bank {
    static READ: OnceLock<Bank> = OnceLock::new();
    READ.get_or_init(|| Bank::builtin(Counting::default()).unwrap())
}

pub(super) fn word(spelling: &str) -> &'static Word {
    bank().get(spelling).unwrap_or_else(|| panic!("{spelling} is not in the bank"))
}

#[test]
fn letters_and_sounds_are_both_given_back() {
    for word in bank().words() {
        assert_eq!(word.alignment.spelling(), word.spelling);
        let phones: usize = word.heard.iter().map(|h| h.phones).sum();
        assert_eq!(phones, word.alignment.phones().len(), "{}", word.spelling);
        assert!(!word.syllables.is_empty(), "{} has no vowel", word.spelling);
    }
}

#[test]
fn the_file_states_the_syllables() {
    for row in WORDS.lines().filter(|l| !l.starts_with('#')) {
        let columns: Vec<_> = row.split('\t').collect();
        assert_eq!(columns[2].parse(), Ok(word(columns[0]).syllables.len()), "{row}");
    }
}

#[test]
fn there_are_enough_words() {
    let count = |syllables: usize| bank().words().iter().filter(|w| w.syllables.len() == syllables).count();
    assert!(count(1) >= 2300, "{}", count(1));
    assert!(count(2) >= 900, "{}", count(2));
    let compounds = bank().words().iter().filter(|w| w.flags.compound.is_some()).count();
    assert!(compounds >= 250, "{compounds}");
}

/// Common practice, no source: boxes as a teacher would fill them.
#[test]
fn boxes_hold_the_letters_of_each_sound() {
    for (spelling, expected, after) in [
        ("blank", "b l a n k", ""),
        ("brave", "b r a v", "e"),
        ("sneeze", "s n ee z", "e"),
        ("fork", "f or k", ""),
        ("cube", "c u b", "e"),
        ("tray", "t r ay", ""),
        ("bridge", "b r i dg", "e"),
        ("chair", "ch ai r", ""),
        ("duck", "d u ck", ""),
    ] {
        let (boxes, misfit) = word(spelling).boxes().unwrap();
        assert_eq!((boxes.letters.join(" ").as_str(), boxes.after.as_str()), (expected, after), "{spelling}");
        assert_eq!(misfit, None, "{spelling}");
    }
}

#[test]
fn words_that_do_not_fit_boxes_are_known() {
    assert_eq!(word("fox").boxes(), Err(Misfit::X));
    assert_eq!(word("queen").boxes(), Err(Misfit::Qu));
    assert_eq!(word("apple").boxes(), Err(Misfit::TwoSounds));
    for silent in ["knee", "wrist", "thumb", "walk", "cakes", "half", "who"] {
        assert_eq!(word(silent).boxes().unwrap().1, Some(Misfit::Silent), "{silent}");
    }
}

#[test]
fn every_word_in_boxes_can_be_read_back() {
    for word in bank().words() {
        if let Ok((boxes, None)) = word.boxes() {
            assert_eq!(boxes.letters.concat() + &boxes.after, word.spelling);
            assert_eq!(boxes.letters.len(), word.sounds.len());
        }
    }
}

#[test]
fn homophones_rhymes_and_swaps() {
    let names = |words: Vec<&Word>| words.iter().map(|w| w.spelling.clone()).collect::<Vec<_>>();
    assert!(names(bank().homophones(word("tail")).collect()).contains(&"tale".to_owned()));
    let rhymes = names(bank().rhymes(word("snow")).collect());
    assert!(rhymes.contains(&"toe".to_owned()) && !rhymes.contains(&"snow".to_owned()), "{rhymes:?}");
    let swaps: Vec<_> = bank().swaps(&word("stop").sounds).map(|(_, w)| w.spelling.clone()).collect();
    assert!(swaps.contains(&"step".to_owned()), "{swaps:?}");
    assert!(!swaps.contains(&"stop".to_owned()));
}

#[test]
fn endings_make_no_blend() {
    let blends = |spelling| word(spelling).blends().map(|(b, p)| (b.to_string(), p)).collect::<Vec<_>>();
    assert_eq!(blends("lamp"), [("-mp".to_owned(), Place::End)]);
    assert_eq!(blends("clips"), [("cl-".to_owned(), Place::Beginning)]);
    assert_eq!(word("splash").places_of(Blend::named("spl")[0]).count(), 1);
    assert_eq!(word("splash").places_of(Blend::named("pl")[0]).count(), 0);
}

#[test]
fn the_short_o_is_a_switch() {
    let apart = Bank::builtin(Counting { dog_as_hop: false, ..Counting::default() }).unwrap();
    let rhyme = |bank: &Bank| bank.get("dog").unwrap().rhymes_with(bank.get("hog").unwrap());
    assert!(rhyme(bank()));
    let vowel = |bank: &Bank, word: &str| bank.get(word).unwrap().codes()[1];
    assert_eq!(vowel(bank(), "dog"), "AA");
    assert_eq!(vowel(&apart, "dog"), "AO");
}

#[test]
fn a_bad_row_is_named() {
    let error = Bank::read("# head\ncat\tc=K", Counting::default()).unwrap_err();
    assert_eq!(error.to_string(), "line 2 of the word bank: 8 columns are needed, not 2");
}
