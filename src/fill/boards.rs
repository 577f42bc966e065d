//! Word boards for a group, and the order in which their words are called.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::{FillError, Filled, Problem, Request, Span, Words, WordsFocus, words};
use crate::bank::Band;
use crate::seed::Stream;
use crate::sheet::Board;

/// Word boards for a group: squares of words, all different, and a list that calls every word once.
///
/// Unless `ties` is true, no two boards first have a full row, column or diagonal on the same call.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Boards {
    /// Words across and down: 3 to 5. Default: 4.
    pub size: usize,
    /// How many boards: 2 to 30. Default: 6.
    pub boards: usize,
    /// Whether the middle cell is free; only with an odd `size`. Default: false.
    pub free: bool,
    /// Whether boards may win on the same call. Default: false.
    pub ties: bool,
    /// How many words are called, up to 60; 0 for as few as the boards need. Default: 0.
    pub words: usize,
    /// Where the focus blend has to be heard: `start`, `end`, `any`, or `none`. When the focus has too few words, other words
    /// that the child can read take over. Default: `any`.
    pub focus: WordsFocus,
    /// The fewest and the most sounds: each 1 to 16. Default: `[2, 6]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
}

impl Default for Boards {
    fn default() -> Self {
        Self {
            size: 4,
            boards: 6,
            free: false,
            ties: false,
            words: 0,
            focus: WordsFocus::Any,
            sounds: Span::new(2, 6),
            syllables: Span::new(1, 1),
            bands: Vec::new(),
        }
    }
}

impl Boards {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(3, 5).admit("size", self.size, &mut problems);
        Span::new(2, 30).admit("boards", self.boards, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        if !problems.is_empty() {
            return problems;
        }
        if self.free && self.size.is_multiple_of(2) {
            let message = format!("a board of {0} by {0} has no middle cell", self.size);
            problems.push(Problem::new("free", message));
        }
        if self.words > 0 && !Span::new(self.fewest(), 60).holds(self.words) {
            let message = format!(
                "{} is out of range: {} boards of this size need from {} to 60, or 0 for as few as they need",
                self.words,
                self.boards,
                self.fewest()
            );
            problems.push(Problem::new("words", message));
        }
        problems
    }

    /// The fewest words: enough that boards differ, and that each can win on a call of its own with words of every other line
    /// still to come.
    const fn fewest(&self) -> usize {
        let (cells, calls) = (self.size * self.size + self.size, self.boards + 2 * self.size + SPARE);
        if cells > calls { cells } else { calls }
    }

    /// The same words as a request for words by themselves, which chooses them.
    pub(super) fn as_words(&self) -> Words {
        Words {
            count: if self.words > 0 { self.words } else { self.fewest() },
            sounds: self.sounds,
            syllables: self.syllables,
            focus: self.focus,
            review: true,
            bands: self.bands.clone(),
            ..Words::default()
        }
    }

    /// The middle cell, when it is free.
    const fn middle(&self) -> Option<usize> {
        if self.free { Some(self.size * self.size / 2) } else { None }
    }

    /// The cells of each row, column and diagonal, without a free one.
    fn lines(&self) -> Vec<Vec<usize>> {
        let size = self.size;
        let rows = (0..size).map(|row| (0..size).map(|at| row * size + at).collect());
        let columns = (0..size).map(|column| (0..size).map(|at| at * size + column).collect());
        let falling = (0..size).map(|at| at * size + at).collect();
        let rising = (0..size).map(|at| at * size + size - 1 - at).collect();
        let mut lines: Vec<Vec<usize>> = rows.chain(columns).chain([falling, rising]).collect();
        for line in &mut lines {
            line.retain(|&cell| Some(cell) != self.middle());
        }
        lines
    }
}

/// How many calls on which a board could win there are beyond those that are needed.
const SPARE: usize = 2;

/// How often a board is begun anew before its call is given up; a board is found within a few.
const TRIES: usize = 500;

/// Chooses the words, the order of calling, and the boards.
pub(super) fn choose(spec: &Boards, request: &Request) -> Result<Filled, FillError> {
    let called = words::choose(&spec.as_words(), request)?.items;
    let mut stream = request.own("boards");
    // The first calls on which a board can win, and those so late that some other line would be full before, are left out.
    let mut calls: Vec<usize> = (spec.size - 1..called.len() - spec.size - 1).collect();
    // A round that is over at once is no round: the very first go where there are more than are needed.
    calls.drain(..calls.len().saturating_sub(spec.boards).min(spec.size - 1));
    stream.shuffle(&mut calls);
    let mut boards: Vec<Board> = Vec::with_capacity(spec.boards);
    let mut seen: BTreeSet<Vec<usize>> = BTreeSet::new();
    let mut next = 0;
    for _ in 0..TRIES {
        if boards.len() == spec.boards {
            break;
        }
        let call = calls[next % calls.len()];
        next += 1;
        if next > calls.len() && !spec.ties {
            break;
        }
        let sorted = |cells: &[usize]| {
            let mut set = cells.to_vec();
            set.sort_unstable();
            set
        };
        let unlike = |cells: &Vec<usize>| !seen.contains(&sorted(cells));
        let found = (0..TRIES).find_map(|_| board(spec, call, called.len(), &mut stream).filter(unlike));
        let Some(cells) = found else { continue };
        seen.insert(sorted(&cells));
        let text = |&call: &usize| called.get(call).map_or_else(String::new, |item| item.word.clone());
        let rows = cells.chunks(spec.size).map(|row| row.iter().map(text).collect()).collect();
        boards.push(Board { rows, wins_at: call + 1 });
    }
    if boards.len() < spec.boards {
        let message = format!(
            "only {} boards were found that win on calls of their own: ask for fewer, for more `words`, or for `ties: true`",
            boards.len()
        );
        return Err(FillError::OutOfRange { way: "boards", problems: vec![Problem::new("boards", message)] });
    }
    Ok(Filled { items: called, boards, ..Filled::default() })
}

/// A board, as the calls of its cells (the number of calls for a free one), that first has a full line on `call`: one line is
/// called until then, and each other has a word that comes later.
fn board(spec: &Boards, call: usize, calls: usize, stream: &mut Stream) -> Option<Vec<usize>> {
    let lines = spec.lines();
    let cells = spec.size * spec.size;
    let mut early: Vec<usize> = (0..call).collect();
    let mut late: Vec<usize> = (call + 1..calls).collect();
    stream.shuffle(&mut early);
    stream.shuffle(&mut late);
    let mut board: Vec<Option<usize>> = vec![None; cells];
    if let Some(middle) = spec.middle() {
        board[middle] = Some(calls);
    }
    let mut winning = stream.pick(&lines)?.clone();
    stream.shuffle(&mut winning);
    board[*winning.first()?] = Some(call);
    for &cell in &winning[1..] {
        board[cell] = Some(early.pop()?);
    }
    // A free cell stops no line, so it is not among the lines' cells.
    let open = |board: &[Option<usize>], line: &Vec<usize>| {
        !line.iter().any(|&cell| board[cell].is_some_and(|at| at > call)) && line.iter().any(|&c| board[c].is_none())
    };
    while let Some(line) = lines.iter().find(|line| open(&board, line)) {
        let free: Vec<usize> = line.iter().copied().filter(|&cell| board[cell].is_none()).collect();
        board[*stream.pick(&free)?] = Some(late.pop()?);
    }
    let mut rest = [early, late].concat();
    stream.shuffle(&mut rest);
    for cell in board.iter_mut().filter(|cell| cell.is_none()) {
        *cell = Some(rest.pop()?);
    }
    board.into_iter().collect()
}
