use std::collections::BTreeSet;

use super::*;
use crate::bank::tests::{bank, word};
use crate::sequence::Sequence;
use crate::sounds::{Blend, Sound::*};
use crate::spelling::pairs;

fn all() -> SillyMaker<'static> {
    SillyMaker::new(bank(), pairs(), |_, _| true)
}

/// What a step of the built-in sequence has taught.
fn at_step(name: &str) -> SillyMaker<'static> {
    let sequence = Sequence::builtin().unwrap();
    let taught = sequence.taught(sequence.step(name).unwrap());
    let blends: Vec<&Blend> = taught.blends().collect();
    SillyMaker::new(bank(), taught.pairs(), |sounds, side| {
        Blend::of_sounds(sounds, side).is_some_and(|blend| blends.contains(&blend))
    })
}

fn list(name: &'static str) -> BTreeSet<&'static str> {
    let text = match name {
        "heard" => include_str!("../heard.txt"),
        _ => include_str!("../spelled.txt"),
    };
    text.lines().filter(|line| !line.starts_with('#')).collect()
}

#[test]
fn none_is_a_word_by_sound_or_by_spelling() {
    let (heard, spelled) = (list("heard"), list("spelled"));
    let as_hop: BTreeSet<String> = heard.iter().map(|codes| merged(codes)).collect();
    for silly in all().candidates() {
        let codes: Vec<_> = silly.alignment().phones().iter().map(|phone| phone.phoneme.code().to_owned()).collect();
        assert!(!as_hop.contains(&merged(&codes.join(" "))), "{} {codes:?}", silly.spelling);
        assert!(!spelled.contains(silly.spelling.as_str()), "{}", silly.spelling);
        assert!(bank().get(&silly.spelling).is_none() && bank().sounding(&silly.sounds).next().is_none());
    }
}

/// Codes with the *o* of dog as that of hop, before /r/ aside.
fn merged(codes: &str) -> String {
    let marked = format!("{codes} ").replace("AO R ", "@ R ");
    marked.replace("AO ", "AA ").replace('@', "AO").trim_end().to_owned()
}

#[test]
fn letters_and_sounds_agree() {
    for silly in all().candidates() {
        let alignment = silly.alignment();
        assert_eq!(alignment.spelling(), silly.spelling);
        let word = silly.to_word(bank().counting());
        assert_eq!(word.sounds, silly.sounds, "{}", silly.spelling);
        assert_eq!(word.syllables.len(), 1);
        assert_eq!((word.onset(), word.rhyme_part()), (silly.onset(), silly.rime()), "{}", silly.spelling);
    }
}

#[test]
fn onsets_and_rimes_are_those_of_words() {
    let one_syllable = || bank().words().iter().filter(|word| word.syllables.len() == 1);
    let onsets: BTreeSet<_> = one_syllable().map(Word::onset).collect();
    let rimes: BTreeSet<_> = one_syllable().map(Word::rime).collect();
    for silly in all().candidates() {
        assert!(onsets.contains(silly.onset()) && rimes.contains(silly.rime()), "{}", silly.spelling);
    }
}

/// Common practice, no source: the rules of spelling that a made-up word keeps.
#[test]
fn they_are_spelled_as_words_are() {
    let maker = all();
    for possible in ["blamp", "snep", "strimp", "fruff", "crad", "gloke", "flape"] {
        assert!(maker.get(possible).is_some(), "{possible}");
    }
    for impossible in ["cem", "blak", "knup", "wrom", "phim", "vlam", "dlot", "bngo", "blow", "gleath"] {
        assert!(maker.get(impossible).is_none(), "{impossible}");
    }
    assert!(maker.candidates().is_sorted_by(|a, b| a.spelling < b.spelling), "each spelling once, in order");
}

#[test]
fn a_rime_that_can_be_read_in_two_ways_is_not_used() {
    let ow = all();
    assert!(ow.candidates().iter().all(|silly| !silly.spelling.ends_with("ow") && !silly.spelling.ends_with("ead")));
    // Before the second sound of ow is taught, it has one reading.
    let step = at_step("oa-ow");
    assert!(step.candidates().iter().any(|silly| silly.spelling.ends_with("ow")));
}

#[test]
fn only_what_is_taught_is_used() {
    let early = at_step("short-e");
    assert!(early.candidates().len() > 50, "{}", early.candidates().len());
    assert!(early.candidates().iter().all(|silly| silly.sounds.len() <= 3), "no blend is taught");
    let sequence = Sequence::builtin().unwrap();
    let taught = sequence.taught(sequence.step("l-blends").unwrap());
    let known: Vec<_> = taught.pairs().collect();
    let maker = at_step("l-blends");
    assert!(maker.with_onset(&[B, L]).count() > 20);
    for silly in maker.candidates() {
        let word = silly.to_word(bank().counting());
        for unit in &word.alignment.units {
            // The o of dog is counted as that of hop; the sequence teaches both.
            assert!(known.contains(&&unit.pair()), "{}: {:?}", silly.spelling, unit);
        }
    }
}

#[test]
fn they_rhyme_and_are_found_by_onset() {
    let maker = all();
    let fish: Vec<_> = maker.rhyming(word("fish")).filter(|silly| silly.onset() == [S, P]).collect();
    assert_eq!(fish.iter().map(|silly| silly.spelling.as_str()).collect::<Vec<_>>(), ["spish"]);
    assert!(fish[0].words_with_its_rime() > 1);
    assert!(maker.with_onset(&[]).all(|silly| silly.sounds[0].is_vowel()));
}

#[test]
fn what_is_near_to_something_rude_is_refused() {
    let phonemes = |codes: &str| -> Vec<_> {
        crate::sounds::parse_phones(codes).unwrap().iter().map(|phone| phone.phoneme).collect()
    };
    // Mild ones stand for the list: after another consonant, before an /s/, and by spelling alone.
    assert!(is_rude(phonemes("S P Y UW K S").into_iter(), "spukes"));
    assert!(is_rude(phonemes("S K R AE P").into_iter(), "skrap"));
    assert!(is_rude(phonemes("B IH R Z").into_iter(), "beerz"));
    assert!(is_rude(phonemes("P L AH M").into_iter(), "dammn"));
    assert!(!is_rude(phonemes("B L AE M P").into_iter(), "blamp"));
}

#[test]
fn the_o_of_dog_follows_the_switch() {
    let apart = Bank::builtin(Counting { dog_as_hop: false, ..Counting::default() }).unwrap();
    let maker = SillyMaker::new(&apart, pairs(), |_, _| true);
    let heard = list("heard");
    for silly in maker.candidates() {
        let codes: Vec<_> = silly.alignment().phones().iter().map(|p| p.phoneme.code()).collect();
        assert!(!heard.contains(codes.join(" ").as_str()), "{}", silly.spelling);
    }
}
