//! Boards of words, and letters in which words are hidden.

use serde::Serialize;

/// A word board of one player.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Board {
    /// Its words, row by row; an empty one for a free cell.
    pub rows: Vec<Vec<String>>,
    /// The call, from 1, after which it first has a full row, column or diagonal.
    pub wins_at: usize,
}

/// Letters in which words are hidden.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LetterGrid {
    /// The letters, row by row, all rows as long as there are rows.
    pub rows: Vec<String>,
    /// Where the words stand, in the order of the word box.
    pub hidden: Vec<Hidden>,
}

/// Where a word stands.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Hidden {
    /// The word.
    pub word: String,
    /// The row of its first letter, from 0.
    pub row: usize,
    /// The column of its first letter, from 0.
    pub column: usize,
    /// Rows from each letter to the next: 0 or 1.
    pub down: usize,
    /// Columns from each letter to the next: 0 or 1.
    pub right: usize,
}
