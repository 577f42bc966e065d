use std::collections::BTreeSet;

use super::*;
use crate::fill::{Wrong, check};

fn caught(fill: &str, what: &str, change: impl FnOnce(&mut Filled)) -> Wrong {
    let (fill, reader): (Fill, Reader) = (spec(fill), |_| true);
    let request = request(&reader, "bl st", "a");
    let mut filled = fill.run(&request).unwrap();
    change(&mut filled);
    check(&fill, &filled, &request).expect_err(what)
}

#[test]
fn boards_differ_and_win_on_calls_of_their_own() {
    for seed in 0..100 {
        for text in [
            "boards: {size: 3}",
            "boards: {size: 3, free: true, boards: 12}",
            "boards",
            "boards: {size: 5, boards: 30}",
            "boards: {size: 5, free: true, boards: 30, words: 60}",
        ] {
            if seed > 9 && text.contains("30") {
                continue;
            }
            let filled = run(&spec(text), |_| true, "bl st", &seed.to_string()).unwrap();
            assert_distinct(&filled);
            let wins: BTreeSet<usize> = filled.boards.iter().map(|board| board.wins_at).collect();
            assert_eq!(wins.len(), filled.boards.len(), "{text} {seed}");
        }
    }
}

#[test]
fn boards_at_few_words_are_made_or_refused_with_a_reason() {
    for (name, reader) in READERS {
        for seed in 0..10 {
            match run(&spec("boards: {ties: true}"), reader, "bl cl fl", &seed.to_string()) {
                Ok(filled) => assert!(filled.items.iter().all(|item| reader(word(&item.word))), "{name}"),
                Err(error) => assert!(matches!(error, FillError::TooFew(_)), "{name}: {error}"),
            }
        }
    }
    let few = run(&spec("boards"), |word| word.spelling.len() < 2, "", "a").unwrap_err().to_string();
    assert!(few.starts_with("There are not enough words"), "{few}");
}

#[test]
fn board_numbers_out_of_range_are_refused() {
    for (wrong, key) in [
        ("boards: {size: 6}", "size"),
        ("boards: {boards: 1}", "boards"),
        ("boards: {free: true}", "free"),
        ("boards: {words: 5}", "words"),
        ("word-search: {size: 7}", "size"),
        ("word-search: {count: 17}", "count"),
        ("words: {even: true, review: true}", "review"),
    ] {
        assert_eq!(spec(wrong).validate().iter().map(|problem| problem.key.clone()).collect::<Vec<_>>(), [key]);
    }
}

#[test]
fn boards_that_were_tampered_with_are_caught() {
    caught("boards", "the call of a win", |f| f.boards[0].wins_at += 1);
    caught("boards", "a board twice", |f| f.boards[1] = f.boards[0].clone());
    caught("boards", "a board less", |f| drop(f.boards.pop()));
    caught("boards", "a row less", |f| drop(f.boards[0].rows.pop()));
    caught("boards", "a word that is not called", |f| f.boards[0].rows[0][0] = "fish".into());
    caught("boards", "a free cell", |f| f.boards[0].rows[0][0].clear());
    caught("boards", "a word twice on a board", |f| f.boards[0].rows[0][0] = f.boards[0].rows[0][1].clone());
    caught("boards", "the order of calling", |f| f.items.reverse());
}

#[test]
fn hidden_words_stand_once_and_nothing_rude_is_read() {
    for seed in 0..100 {
        for text in
            ["word-search", "word-search: {size: 12, count: 12, diagonal: true}", "word-search: {size: 8, count: 6}"]
        {
            let filled = run(&spec(text), |_| true, "bl st", &seed.to_string()).unwrap();
            assert_distinct(&filled);
            let grid = filled.letter_grid.unwrap();
            assert_eq!(grid.hidden.len(), filled.items.len());
            // Read anew, without the solver's search: the letters from the first on are the word's.
            for hidden in &grid.hidden {
                let letter =
                    |at: usize| grid.rows[hidden.row + at * hidden.down].as_bytes()[hidden.column + at * hidden.right];
                assert!(hidden.word.bytes().enumerate().all(|(at, of)| letter(at) == of), "{}", hidden.word);
            }
            let ways: BTreeSet<_> = grid.hidden.iter().map(|hidden| (hidden.down, hidden.right)).collect();
            assert_eq!(ways.len(), if text.contains("diagonal") { 3 } else { 2 });
        }
    }
}

#[test]
fn a_word_search_that_was_tampered_with_is_caught() {
    let grid = |f: &mut Filled| f.letter_grid.clone().unwrap();
    caught("word-search", "a letter of a word", |f| {
        let at = grid(f).hidden[0].clone();
        f.letter_grid.as_mut().unwrap().rows[at.row].replace_range(at.column..=at.column, "z");
    });
    caught("word-search", "a word's place", |f| f.letter_grid.as_mut().unwrap().hidden[0].row += 1);
    caught("word-search", "a row less", |f| drop(f.letter_grid.as_mut().unwrap().rows.pop()));
    caught("word-search", "no grid", |f| f.letter_grid = None);
    caught("word-search", "another word in the box", |f| f.word_bank[0] = "fish".into());
    caught("word-search", "a row that is read as something rude", |f| {
        f.letter_grid.as_mut().unwrap().rows[9] = "zzzessazzz".into();
    });
}

#[test]
fn review_fills_up_what_the_focus_leaves() {
    for seed in 0..100 {
        let filled = run(&spec("words: {count: 36, review: true}"), |_| true, "spl", &seed.to_string()).unwrap();
        assert_distinct(&filled);
        let own = filled.items.iter().filter(|item| item.blend.is_some()).count();
        assert!(filled.items.len() == 36 && own > 0 && own < 36, "{own}");
    }
    assert!(matches!(run(&spec("words: {count: 36}"), |_| true, "spl", "a"), Err(FillError::TooFew(_))));
}
