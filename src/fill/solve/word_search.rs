//! Solving a word search: every word is looked for from every letter in all eight directions.

use super::{Wrong, whole, words};
use crate::fill::word_search::blocked;
use crate::fill::{Filled, Request, WordSearch};
use crate::sheet::{Hidden, LetterGrid};

pub(super) fn check(spec: &WordSearch, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    words::check(&spec.as_words(), filled, request)?;
    let listed: Vec<&String> = filled.items.iter().map(|item| &item.word).collect();
    whole("the words of the word box", &filled.word_bank.iter().collect(), &listed)?;
    let empty = LetterGrid { rows: Vec::new(), hidden: Vec::new() };
    let grid = filled.letter_grid.as_ref().unwrap_or(&empty);
    whole(
        "letters in each row",
        &vec![spec.size; spec.size],
        &grid.rows.iter().map(|row| row.chars().count()).collect(),
    )?;
    let letters: Vec<Vec<char>> = grid.rows.iter().map(|row| row.chars().collect()).collect();
    let plain = letters.iter().flatten().all(char::is_ascii_lowercase);
    whole("small letters only", &true, &plain)?;
    whole("hidden words", &listed, &grid.hidden.iter().map(|hidden| &hidden.word).collect())?;
    for hidden in &grid.hidden {
        let found = find(&letters, &hidden.word);
        let aslant = hidden.down == 1 && hidden.right == 1;
        whole(&format!("a direction of {} that was asked for", hidden.word), &false, &(aslant && !spec.diagonal))?;
        whole(&format!("where {} stands", hidden.word), &vec![hidden.clone()], &found)?;
    }
    for text in blocked() {
        whole("letters that must not be read", &Vec::new(), &find(&letters, text))?;
    }
    Ok(())
}

/// Everywhere a word is read. One that reads alike from both ends is found once in each place; one that is read from the right,
/// upwards, or aslant to the left has a step that is no direction of the sheet, so that it never is where the key says.
fn find(letters: &[Vec<char>], word: &str) -> Vec<Hidden> {
    let size = letters.len();
    let same_back = word.chars().eq(word.chars().rev());
    let mut found = Vec::new();
    for row in 0..size {
        for column in 0..size {
            for down in [-1_isize, 0, 1] {
                for right in [-1_isize, 0, 1] {
                    let forward = down + right > 0 || (down, right) == (1, -1);
                    if (down, right) == (0, 0) || (same_back && !forward) {
                        continue;
                    }
                    let at = |by: usize| {
                        let by = isize::try_from(by).ok()?;
                        let row = row.checked_add_signed(by * down)?;
                        letters.get(row)?.get(column.checked_add_signed(by * right)?)
                    };
                    if word.chars().enumerate().all(|(by, letter)| at(by) == Some(&letter)) {
                        let step = |by: isize| usize::try_from(by).unwrap_or(9);
                        let (down, right) = (step(down), step(right));
                        found.push(Hidden { word: word.to_owned(), row, column, down, right });
                    }
                }
            }
        }
    }
    found
}
