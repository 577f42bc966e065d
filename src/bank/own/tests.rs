use std::fmt::Write as _;

use super::*;
use crate::bank::tests::{bank, word};
use crate::bank::{Part, SillyMaker, Slot};
use crate::sounds::Counting;
use crate::spelling::pairs;

fn yaml(text: &str) -> Result<OwnWords, OwnWordsError> {
    OwnWords::from_yaml("own.yaml", text, bank())
}

fn csv(text: &str) -> Result<OwnWords, OwnWordsError> {
    OwnWords::from_csv("own.csv", text, bank())
}

fn with(own: &OwnWords) -> Bank {
    Bank::builtin(Counting::default()).unwrap().with_own(own)
}

/// Each problem in a line, its place first, its hint in brackets.
fn told(read: Result<OwnWords, OwnWordsError>) -> String {
    let mut lines = String::new();
    for problem in read.unwrap_err().problems {
        let place = (problem.line().unwrap_or_default(), problem.column().unwrap_or_default());
        let hint: String = problem.hint().unwrap_or("-").chars().take(70).collect();
        writeln!(lines, "{}:{} {} [{hint}]", place.0, place.1, problem.message()).unwrap();
    }
    lines
}

const YAML: &str = "add:
  - quokka: {sounds: qu=K+W o=AA1 kk=K a=AH0, categories: [animal], classes: [n], band: \"2\"}
  - zed
  - cat:
      categories: [story]
  - sandfort:
      flags: [compound=sand+fort]
leave-out: [witch, ghost]
";

const CSV: &str = "Spelling;Sounds;Categories;Classes;Band;Flags;Leave out
quokka;qu=K+W o=AA1 kk=K a=AH0;animal;n;2;;
zed
cat;;story
witch;;;;;;yes

sandfort;;;;;compound=sand+fort
ghost;;;;;;YES
";

#[test]
fn both_forms_of_file_give_the_same_words() {
    let own = yaml(YAML).unwrap();
    assert_eq!(own, csv(CSV).unwrap());
    assert_eq!(own, csv(&CSV.replace(';', ",")).unwrap());
    assert_eq!(own.fingerprint(), csv(CSV).unwrap().fingerprint());
    assert_ne!(own.fingerprint(), yaml(&YAML.replace("zed", "zep")).unwrap().fingerprint());
    assert_ne!(own.fingerprint(), OwnWords::default().fingerprint());
    assert_eq!(own.added().collect::<Vec<_>>(), ["cat", "quokka", "sandfort", "zed"]);
    assert_eq!(yaml("").unwrap(), OwnWords::default());
}

#[test]
fn own_words_take_part_in_everything() {
    let bank = with(&yaml(YAML).unwrap());
    let quokka = bank.get("quokka").unwrap();
    assert_eq!((quokka.syllables.len(), quokka.band, quokka.level), (2, Band::Two, 10));
    assert_eq!(quokka.groups().join("-"), "qu-o-kk-a");
    let zed = bank.get("zed").unwrap();
    assert!(bank.rhymes(zed).any(|word| word.spelling == "red"));
    assert!(bank.swap_clusters(crate::sounds::Side::Onset, &Slot::Single, &Slot::Any).iter().any(|p| p.from == zed));
    assert_eq!(bank.take_away(&Part::First).iter().filter(|pair| pair.from == zed).count(), 0);
    let fort = bank.get("sandfort").unwrap();
    assert_eq!(fort.codes().join(" "), "S AE N D F AO R T");
    assert_eq!(fort.syllables.len(), 2);
}

#[test]
fn a_word_of_the_bank_gets_tags_and_keeps_its_own() {
    let bank = with(&yaml("add:\n  - cat: {categories: [story, animal], band: \"3\"}\n").unwrap());
    let cat = bank.get("cat").unwrap();
    assert!(cat.categories.contains(&Category::Animal) && cat.categories.contains(&Category::Story));
    assert_eq!(cat.categories.iter().filter(|one| **one == Category::Animal).count(), 1);
    assert_eq!((&cat.sounds, &cat.classes, cat.level), (&word("cat").sounds, &word("cat").classes, word("cat").level));
    assert_eq!(cat.band, Band::Three);
    // Sounds that are given are those of the class.
    let bank = with(&yaml("add: [{bow: {sounds: B AW}}]").unwrap());
    assert!(bank.get("bow").unwrap().rhymes_with(bank.get("cow").unwrap()));
}

#[test]
fn what_is_left_out_goes_with_its_forms() {
    let bank = with(&yaml("leave-out: [witch, nosuchword]").unwrap());
    assert!(word("witches").is_form());
    assert!(bank.get("witch").is_none() && bank.get("witches").is_none());
    assert!(bank.left_out().iter().any(|word| word.spelling == "witch"));
    assert_eq!(bank.homophones(bank.get("which").unwrap()).count(), 0);
}

#[test]
fn an_own_word_is_no_nonsense_and_a_word_left_out_still_answers_a_riddle() {
    let plain = with(&OwnWords::default());
    let maker = SillyMaker::new(&plain, pairs(), |_, _| true);
    assert!(maker.get("blamp").is_some());
    // A second animal with the rhyme of fish, and left out at that: the riddle has two answers in a child's head.
    let asks_for_fish = |bank: &Bank| {
        let maker = SillyMaker::new(bank, pairs(), |_, _| true);
        let riddles = bank.riddles(&maker, &Slot::Any);
        riddles.iter().any(|riddle| riddle.category == Category::Animal && riddle.answer.spelling == "fish")
    };
    assert!(asks_for_fish(&plain));
    let own = yaml("add: [blamp, {glish: {categories: [animal]}}]").unwrap();
    let more = with(&own);
    assert!(SillyMaker::new(&more, pairs(), |_, _| true).get("blamp").is_none());
    assert!(!asks_for_fish(&more));
    assert!(!asks_for_fish(&more.with_own(&yaml("leave-out: [glish]").unwrap())));
}

#[test]
fn everything_wrong_is_told_at_once_with_its_place() {
    let text = "add:
  - Mia
  - café
  - bow: {categories: [wepon], classes: [noun], band: \"9\", flags: [odd, compound=b+o]}
  - zow
  - whiskey
  - bzzt
  - zed: {sounds: Z XX D}
  - zep: {sounds: Z P}
  - zid: {sounds: K AE T}
  - zog
  - zog
  - kangarooo: {sounds: K AE NG G ER UW}
leave-out: [zog, bad word]
";
    insta::assert_snapshot!(told(yaml(text)), @r#"
    2:5 `Mia` has `M` in it, and a word is written in small letters from a to z [write `mia`; names are no words for a sheet]
    3:5 `café` has `é` in it, and a word is written in small letters from a to z [letters with marks, signs and digits have no place in a beginner's wor]
    4:24 `wepon` is none of the categories [the categories are: `animal`, `body`, `building`, `clothes`, `colour`,]
    4:42 `noun` is none of the classes [the classes are: `n`, `v`, `a`, `o`]
    4:49 `9` is none of the age bands [the age bands are: `K`, `1`, `2`, `3`]
    4:68 there is no flag `odd` [the flags are: `heteronym`, `irregular`, `past`, `plural`, `function`,]
    4:73 `b` and `o` do not make `bow` [-]
    5:5 `zow`: does it sound like `Z AW1` or `Z OW1`? [write the right one under it, such as `sounds: Z AW1`]
    6:5 `whiskey` is on the list of words that are never used [the list holds rude, violent, drug, alcohol and slang words; take the ]
    7:5 how does `bzzt` sound? Its letters do not tell for certain [write its sounds in the codes of the CMU Pronouncing Dictionary, with ]
    8:11 `XX` is not one of CMUdict's sound codes (such as B, CH, AE1) [the codes are those of the CMU Pronouncing Dictionary: `sounds: K W AA]
    9:11 the sounds `Z P` have no vowel [a word has one vowel sound or more]
    10:11 the letters of `zid` can't be matched to the sounds `K AE T` [look whether a sound is missing or one too many; or write which letter]
    12:5 `zog` is added twice: it stands in line 11 too [-]
    13:17 which syllable of `kangarooo` is the loudest in `K AE NG G ER UW`? [write 1 after its vowel, and 0 after the vowels of the others: `K W AA]
    14:13 `zog` is both added and left out: it stands in line 11 too [-]
    14:18 `bad word` has ` ` in it, and a word is written in small letters from a to z [one word at a time, without a space or a hyphen]
    "#);
}

#[test]
fn a_table_has_places_too() {
    let text = "spelling,categories,sounds\nzow,,\n\"zed\",\"animal, wepon\",\nzed,,,more\nsea-cow,,\n";
    insta::assert_snapshot!(told(csv(text)), @r#"
    2:1 `zow`: does it sound like `Z AW1` or `Z OW1`? [write the right one under it, such as `sounds: Z AW1`]
    3:7 `wepon` is none of the categories [the categories are: `animal`, `body`, `building`, `clothes`, `colour`,]
    4:1 `zed` is added twice: it stands in line 3 too [-]
    4:7 `more` is in no column [put a cell that has commas in it in quotes]
    5:1 `sea-cow` has `-` in it, and a word is written in small letters from a to z [one word at a time, without a space or a hyphen]
    "#);
    insta::assert_snapshot!(told(csv("speling,band,band\nzed,1,1\n")), @r#"
    1:1 there is no column `speling` [did you mean `spelling`? The columns are: `spelling`, `sounds`, `categ]
    1:14 the column `band` is there twice [-]
    "#);
    insta::assert_snapshot!(told(csv("")), @"0:0 the table is empty [the first row names the columns: `spelling,sounds,categories`]");
    insta::assert_snapshot!(told(csv("spelling,leave-out\nwitch,maybe\n")), @"2:7 `maybe` does not say whether the word is left out [write `yes`, or leave the cell empty]");
}

#[test]
fn a_question_names_the_readings() {
    let error = yaml("add:\n  - zow\n").unwrap_err();
    insta::assert_snapshot!(error.to_string(), @r#"
    own.yaml:2:5: `zow`: does it sound like `Z AW1` or `Z OW1`?
      |
    2 |   - zow
      |     ^^^
    help: write the right one under it, such as `sounds: Z AW1`
    "#);
}

#[test]
fn a_file_of_another_form_is_refused() {
    assert!(told(yaml("ad: [zed]")).contains("add"));
    assert!(told(yaml("add:\n  - zed: {sound: Z EH D}\n")).contains("sounds"));
    assert!(told(yaml("add:\n  - zed: {}\n    zog: {}\n")).starts_with("2:"));
    assert!(told(yaml("add: [3]")).contains("a word"));
}

#[test]
fn no_word_of_the_bank_is_on_the_list_of_words_never_used() {
    let found: Vec<_> = bank().words().iter().filter(|word| is_left_out(&word.spelling)).collect();
    assert!(found.is_empty(), "{found:?}");
    assert!(left_out_words().len() >= 300);
    assert!(left_out_words().iter().all(|word| word.bytes().all(|b| b.is_ascii_lowercase())));
    assert!(is_left_out("whiskey") && is_left_out("pistols") && !is_left_out("pencil"));
}
