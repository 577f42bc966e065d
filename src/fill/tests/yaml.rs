use super::*;
use crate::bank::{Band, Category, Misfit};
use crate::fill::{Chain, ChainFocus, Columns, Move, SortSide, Span, Words, WordsFocus};

#[test]
fn every_key_is_read() {
    assert_eq!(
        spec(
            "words: {count: 3, sounds: [3, 4], syllables: [1, 2], boxes: true, allow: [x, qu, two-sounds, silent], focus: any, heard: true, \
             even: true, forms: true, bands: ['K', '1'], categories: [animal]}"
        ),
        Fill::Words(Words {
            count: 3,
            sounds: Span::new(3, 4),
            syllables: Span::new(1, 2),
            boxes: true,
            allow: vec![Misfit::X, Misfit::Qu, Misfit::TwoSounds, Misfit::Silent],
            focus: WordsFocus::Any,
            heard: true,
            even: true,
            review: false,
            forms: true,
            bands: vec![Band::K, Band::One],
            categories: vec![Category::Animal],
        })
    );
    assert_eq!(
        spec(
            "columns: {count: 8, side: end, even: false, sounds: [3, 4], syllables: [1, 2], forms: true, bands: ['2', '3']}"
        ),
        Fill::Columns(Columns {
            count: 8,
            side: SortSide::End,
            even: false,
            sounds: Span::new(3, 4),
            syllables: Span::new(1, 2),
            forms: true,
            bands: vec![Band::Two, Band::Three],
        })
    );
    assert_eq!(
        spec(
            "chain: {rungs: 5, moves: [swap, add, take-away], sounds: [2, 4], syllables: [1, 2], boxes: false, \
             allow: [silent], focus: start, forms: true, bands: ['K'], start: s, clue: a, add_clue: b, take_away_clue: c}"
        ),
        Fill::Chain(Chain {
            rungs: 5,
            moves: vec![Move::Swap, Move::Add, Move::TakeAway],
            sounds: Span::new(2, 4),
            syllables: Span::new(1, 2),
            boxes: false,
            allow: vec![Misfit::Silent],
            focus: ChainFocus::Start,
            forms: true,
            bands: vec![Band::K],
            start: "s".into(),
            clue: "a".into(),
            add_clue: "b".into(),
            take_away_clue: "c".into(),
        })
    );
}

#[test]
fn a_slip_is_said_with_its_place() {
    let said = |text: &str| crate::yaml::from_str::<Fill>("test.yaml", text).unwrap_err().to_string();
    insta::assert_snapshot!(said("word: {count: 3}"));
    insta::assert_snapshot!(said("words: {cuont: 3}"));
    insta::assert_snapshot!(said("words:\n  count: 3\n  sounds: [3]\n"));
    insta::assert_snapshot!(said("chain:\n  moves: [swop]\n"));
}
