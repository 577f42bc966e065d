//! Playing word boards: every word is called in the order of the list and covered on each board, until each has won.

use std::collections::BTreeSet;

use super::{Wrong, whole, words};
use crate::fill::{Boards, Filled, Request};
use crate::sheet::Board;

pub(super) fn check(spec: &Boards, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    words::check(&spec.as_words(), filled, request)?;
    whole("number of boards", &spec.boards, &filled.boards.len())?;
    let calls: Vec<&str> = filled.items.iter().map(|item| item.word.as_str()).collect();
    let mut sets = BTreeSet::new();
    let mut wins = BTreeSet::new();
    for (at, board) in filled.boards.iter().enumerate() {
        let name = format!("board {}", at + 1);
        let words: Vec<&str> = board.rows.iter().flatten().map(String::as_str).collect();
        whole(&format!("rows of {name}"), &vec![spec.size; spec.size], &board.rows.iter().map(Vec::len).collect())?;
        let free: Vec<usize> = (0..words.len()).filter(|&cell| words[cell].is_empty()).collect();
        let middle = if spec.free { vec![words.len() / 2] } else { Vec::new() };
        whole(&format!("free cells of {name}"), &middle, &free)?;
        let set: BTreeSet<&str> = words.iter().copied().filter(|word| !word.is_empty()).collect();
        whole(&format!("different words of {name}"), &(words.len() - free.len()), &set.len())?;
        whole(
            &format!("words of {name} that are called"),
            &set.len(),
            &calls.iter().filter(|w| set.contains(*w)).count(),
        )?;
        whole(&format!("the call on which {name} wins"), &Some(board.wins_at), &first_win(board, &calls))?;
        whole(&format!("{name} unlike the others"), &true, &sets.insert(set))?;
        if !spec.ties {
            whole(&format!("a call on which {name} alone wins"), &true, &wins.insert(board.wins_at))?;
        }
    }
    Ok(())
}

/// The call, from 1, after which a board has a full line.
fn first_win(board: &Board, calls: &[&str]) -> Option<usize> {
    let size = board.rows.len();
    let mut covered: Vec<Vec<bool>> = board.rows.iter().map(|row| row.iter().map(String::is_empty).collect()).collect();
    for (at, call) in calls.iter().enumerate() {
        for (row, covered) in board.rows.iter().zip(&mut covered) {
            for (word, covered) in row.iter().zip(covered) {
                *covered |= word == call;
            }
        }
        let row = covered.iter().any(|row| row.iter().all(|&cell| cell));
        let column = (0..size).any(|column| covered.iter().all(|row| row[column]));
        let falling = (0..size).all(|at| covered[at][at]);
        let rising = (0..size).all(|at| covered[at][size - 1 - at]);
        if row || column || falling || rising {
            return Some(at + 1);
        }
    }
    None
}
