use super::*;
use crate::bank::tests::{bank, word};
use crate::bank::{Category, SillyMaker};
use crate::sounds::{Counting, Sound::*};
use crate::spelling::pairs;

fn taken(from: &str, part: &Part) -> Option<(Vec<String>, bool)> {
    let pair = bank().take_away_from(word(from), part)?;
    Some((pair.spellings().iter().map(|s| (*s).to_owned()).collect(), pair.spelling_changes))
}

/// The first four are printed in many a teacher's list (common practice, no source).
#[test]
fn taking_away_goes_by_sound() {
    for (from, part, expected, changes) in [
        ("sneeze", Part::First, &["knees"][..], true),
        ("freight", Part::First, &["rate"], true),
        ("snow", Part::First, &["know", "no"], true),
        ("train", Part::First, &["rain", "reign", "rein"], false),
        ("train", Part::Given(Side::Onset, vec![T]), &["rain", "reign", "rein"], false),
        ("play", Part::Second, &["pay"], false),
        ("nest", Part::BeforeLast, &["net"], false),
        ("stop", Part::Onset, &[], false),
        ("price", Part::Onset, &["ice"], false),
        ("plant", Part::Last, &["plan"], false),
        ("bunch", Part::Coda, &[], false),
        ("seat", Part::Coda, &["sea", "see"], false),
        ("six", Part::Last, &["sick"], true),
        ("blink", Part::Given(Side::Onset, vec![B, L]), &["ink"], false),
        ("string", Part::Given(Side::Onset, vec![S, T]), &[], false),
    ] {
        let expected = (!expected.is_empty()).then(|| (expected.iter().map(|s| (*s).to_owned()).collect(), changes));
        assert_eq!(taken(from, &part), expected, "{from} without {part:?}");
    }
}

#[test]
fn one_of_two_homophones_may_keep_the_letters() {
    let pair = bank().take_away_from(word("stale"), &Part::First).unwrap();
    let answers: Vec<_> = pair.answers.iter().map(|a| (a.word.spelling.as_str(), a.spelling_changes)).collect();
    assert_eq!(answers, [("tail", true), ("tale", false)]);
    assert!(!pair.spelling_changes);
}

#[test]
fn adding_goes_by_sound() {
    let added = |from, side, sounds: &[Sound]| {
        let pair = bank().add_to(word(from), side, sounds)?;
        Some(pair.spellings().join(" "))
    };
    assert_eq!(added("rain", Side::Onset, &[T]).as_deref(), Some("train"));
    assert_eq!(added("rest", Side::Onset, &[K]).as_deref(), Some("crest"));
    assert_eq!(added("no", Side::Onset, &[S]).as_deref(), Some("snow"));
    assert_eq!(added("ink", Side::Onset, &[D, R]).as_deref(), Some("drink"));
    assert_eq!(added("plan", Side::Coda, &[T]).as_deref(), Some("plant"));
    assert_eq!(added("rain", Side::Onset, &[Z]), None);
    let all = bank().add(&Part::First);
    assert!(all.iter().any(|pair| pair.from.spelling == "knees" && pair.spellings() == ["sneeze"]));
}

#[test]
fn blends_are_swapped_whole() {
    let swapped = |from, new: &[Sound]| Some(bank().swap_in(word(from), Side::Onset, new)?.spellings().join(" "));
    assert_eq!(swapped("blank", &[D, R]).as_deref(), Some("drank"));
    assert_eq!(swapped("flow", &[G, R]).as_deref(), Some("grow"));
    assert_eq!(swapped("blank", &[B, L]), None);
    assert_eq!(swapped("ink", &[D, R]), None);
    let all = bank().swap_clusters(Side::Onset, &Slot::Cluster, &Slot::Given(vec![D, R]));
    let blank = all.iter().find(|pair| pair.from.spelling == "blank").unwrap();
    assert_eq!((blank.spellings(), &blank.change.old), (vec!["drank"], &vec![B, L]));
    let codas = bank().swap_clusters(Side::Coda, &Slot::Cluster, &Slot::Single);
    assert!(codas.iter().any(|pair| pair.from.spelling == "lamp" && pair.spellings() == ["lap"]));
    assert!(codas.iter().all(|pair| !pair.from.is_form()));
    let one: Vec<_> = bank().swap_one_sound(word("stop")).iter().map(|p| p.spellings().join("/")).collect();
    assert!(one.contains(&"step".to_owned()), "{one:?}");
}

#[test]
fn the_change_of_an_ending_is_marked() {
    let pair = bank().take_away_from(word("cups"), &Part::Last).unwrap();
    assert!(pair.ending && pair.spellings() == ["cup"]);
    assert!(!bank().take_away_from(word("plant"), &Part::Last).unwrap().ending);
}

/// Every kind of pair: the change leads to the answers, back again, and never to the word itself.
#[test]
fn what_is_taken_away_can_be_added_again() {
    let parts = [Part::Onset, Part::First, Part::Second, Part::BeforeLast, Part::Last, Part::Coda];
    for part in parts {
        let away = bank().take_away(&part);
        let back = bank().add(&part);
        assert!(!away.is_empty() && !back.is_empty(), "{part:?}");
        for pair in &away {
            proves_itself(pair);
            assert!(pair.change.takes_away());
            for answer in &pair.answers {
                let reversed = bank().changed(answer.word, pair.change.reversed()).unwrap();
                assert!(reversed.spellings().contains(&pair.from.spelling.as_str()));
                let found = |p: &EarPair| p.from == answer.word && p.change == pair.change.reversed();
                assert!(back.iter().any(found), "{} {part:?}", pair.from.spelling);
            }
        }
        for pair in &back {
            proves_itself(pair);
            assert!(pair.change.adds());
        }
    }
    for side in [Side::Onset, Side::Coda] {
        for pair in bank().swap_clusters(side, &Slot::Cluster, &Slot::Any) {
            proves_itself(&pair);
        }
    }
}

fn proves_itself(pair: &EarPair) {
    let sounds = pair.change.apply(&pair.from.sounds).unwrap();
    assert!(!pair.answers.is_empty());
    for answer in &pair.answers {
        assert_eq!(answer.word.sounds, sounds);
        assert_ne!(answer.word.spelling, pair.from.spelling);
    }
    let alike = bank().words().iter().filter(|word| word.sounds == sounds).count();
    assert_eq!(alike, pair.answers.len(), "{}: every homophone is an answer", pair.from.spelling);
}

#[test]
fn a_third_of_a_page_can_change_its_spelling() {
    let away = bank().take_away(&Part::First);
    let changing = away.iter().filter(|pair| pair.spelling_changes && !pair.ending).count();
    assert!(changing >= 60, "{changing} of {}", away.len());
}

#[test]
fn rhymes_are_grouped_by_sound_and_split_by_spelling() {
    let group = bank().rhyme_groups().find(|group| group.words.contains(&word("bear"))).unwrap();
    let spellings = group.by_spelling();
    assert!(spellings["air"].contains(&word("hair")) && spellings["ear"].contains(&word("bear")));
    assert_eq!(group.words.len(), bank().with_rhyme(group.part).count());
    assert_eq!(word("sneeze").rhyme_letters(), "eeze");
    assert_eq!(word("cake").rhyme_letters(), "ake");
    assert_eq!(word("rainbow").rhyme_letters(), "ainbow");
    let all: usize = bank().rhyme_groups().map(|group| group.words.len()).sum();
    assert_eq!(all, bank().words().len());
}

#[test]
fn riddles_have_one_answer() {
    let maker = SillyMaker::new(bank(), pairs(), |_, _| true);
    let riddles = bank().riddles(&maker, &Slot::Cluster);
    assert!(riddles.len() > 100, "{}", riddles.len());
    for riddle in &riddles {
        for silly in &riddle.silly {
            assert!(silly.onset().len() > 1);
            let fits = |word: &&Word| word.categories.contains(&riddle.category) && word.rhyme_part() == silly.rime();
            let answers: Vec<_> = bank().words().iter().filter(fits).map(|word| &word.spelling).collect();
            assert_eq!(answers, [&riddle.answer.spelling], "{} {}", riddle.category, silly.spelling);
            assert!(riddle.answer.rhymes_with(&silly.to_word(bank().counting())));
        }
    }
    let fish = riddles.iter().find(|riddle| riddle.category == Category::Animal && riddle.answer.spelling == "fish");
    assert!(fish.is_some());
}

#[test]
fn homophones_come_in_sets() {
    let sets = bank().homophone_sets();
    assert!(sets.len() > 100, "{}", sets.len());
    assert!(sets.iter().any(|set| set.iter().map(|w| w.spelling.as_str()).eq(["tail", "tale"])));
}

#[test]
fn words_with_a_blend_at_a_place() {
    let st = Blend::named("st");
    let at = |side, place| bank().with_blend(st.iter().find(|b| b.side == side).unwrap(), Some(place));
    assert!(at(Side::Onset, Place::Beginning).any(|w| w.spelling == "stop"));
    assert!(at(Side::Coda, Place::End).any(|w| w.spelling == "nest"));
    assert!(at(Side::Coda, Place::Middle).any(|w| w.spelling == "coastline"));
    assert!(!at(Side::Onset, Place::Beginning).any(|w| w.spelling == "string"));
}

/// The switches decide what a sound is, and so what can be taken away.
#[test]
fn pairs_follow_the_counting_switches() {
    let read = |counting| Bank::builtin(counting).unwrap();
    let last = |bank: &Bank, from: &str, part: &Part| {
        let pair = bank.take_away_from(bank.get(from).unwrap(), part);
        pair.map(|pair| pair.spellings().join(" "))
    };
    let one = read(Counting { vowel_r_as_one: true, ..Counting::default() });
    assert_eq!(last(bank(), "deer", &Part::Coda), None);
    assert_eq!(bank().get("chair").unwrap().coda(), [R]);
    assert!(one.get("chair").unwrap().coda().is_empty());
    assert!(one.take_away(&Part::Last).iter().all(|pair| pair.from.spelling != "fire"));

    let apart = read(Counting { yu_as_one: false, ..Counting::default() });
    let swapped =
        |bank: &Bank| bank.swap_in(bank.get("cute").unwrap(), Side::Onset, &[B]).map(|pair| pair.spellings().join(" "));
    assert_eq!(swapped(bank()), None);
    assert_eq!(swapped(&apart).as_deref(), Some("boot"));

    let hw = read(Counting { wh_as_hw: true, ..Counting::default() });
    assert_eq!(bank().homophones(word("which")).map(|w| w.spelling.as_str()).collect::<Vec<_>>(), ["witch"]);
    assert_eq!(hw.homophones(hw.get("which").unwrap()).count(), 0);

    let aw = read(Counting { dog_as_hop: false, ..Counting::default() });
    let with_hog = |bank: &Bank| bank.swap_in(bank.get("dog").unwrap(), Side::Onset, &[H]).is_some();
    assert!(with_hog(bank()) && !with_hog(&aw));
}
