//! Words hidden among letters.

use std::collections::BTreeSet;

use serde::Deserialize;

use super::{FillError, Filled, Problem, Request, Span, Words, WordsFocus, words};
use crate::bank::{Band, Word};
use crate::seed::Stream;
use crate::sheet::{Hidden, LetterGrid};

/// Words hidden among letters, to the right and down, each once.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct WordSearch {
    /// How many words: 2 to 16. Default: 8.
    pub count: usize,
    /// Letters across and down: 8 to 12. Default: 10.
    pub size: usize,
    /// Whether words also stand aslant, to the right and down at once. Default: false.
    pub diagonal: bool,
    /// Where the focus blend has to be heard: `start`, `end`, `any`, or `none`. When the focus has too few words, other words
    /// that the child can read take over. Default: `start`.
    pub focus: WordsFocus,
    /// The fewest and the most sounds: each 1 to 16. Default: `[3, 6]`.
    pub sounds: Span,
    /// The fewest and the most syllables: each 1 to 6. Default: `[1, 1]`.
    pub syllables: Span,
    /// The age bands, any of `"K"`, `"1"`, `"2"`, `"3"`. Default: all.
    pub bands: Vec<Band>,
}

impl Default for WordSearch {
    fn default() -> Self {
        Self {
            count: 8,
            size: 10,
            diagonal: false,
            focus: WordsFocus::Start,
            sounds: Span::new(3, 6),
            syllables: Span::new(1, 1),
            bands: Vec::new(),
        }
    }
}

/// Strings of letters that must not be read in any direction. Stems, so that longer ones are kept out too. Our own list.
const BLOCKED: &[&str] = &[
    "anal", "anus", "arse", "ass", "bitch", "boob", "bum", "butt", "clit", "cock", "coon", "crap", "cum", "cunt",
    "damn", "dam", "dick", "dumb", "dyke", "fag", "fart", "fuc", "fuk", "fuq", "gay", "hell", "hoe", "homo", "jap",
    "jerk", "jew", "kill", "kkk", "knob", "lust", "milf", "nazi", "negro", "nig", "nude", "penis", "perv", "phuk",
    "pimp", "piss", "porn", "prick", "pube", "puss", "rape", "rapist", "scum", "sex", "shag", "shit", "slag", "slut",
    "spic", "suck", "tit", "turd", "twat", "ugly", "vag", "wank", "whore", "wog",
];

/// The directions to the right, down, and aslant, as rows and columns from letter to letter.
const DIRECTIONS: [(usize, usize); 3] = [(0, 1), (1, 0), (1, 1)];

/// How often the words are chosen and set anew.
const TRIES: u32 = 60;

impl WordSearch {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(2, 16).admit("count", self.count, &mut problems);
        Span::new(8, 12).admit("size", self.size, &mut problems);
        self.sounds.check("sounds", Span::new(1, 16), &mut problems);
        self.syllables.check("syllables", Span::new(1, 6), &mut problems);
        problems
    }

    /// The same words as a request for words by themselves, which chooses them.
    pub(super) fn as_words(&self) -> Words {
        Words {
            count: self.count,
            sounds: self.sounds,
            syllables: self.syllables,
            focus: self.focus,
            review: true,
            bands: self.bands.clone(),
            ..Words::default()
        }
    }

    /// Whether a word can be hidden: three letters or more, no longer than the grid, and nothing blocked in it.
    fn hides(&self, word: &Word) -> bool {
        let length = word.spelling.len();
        length >= 3
            && length <= self.size
            && word.spelling.bytes().all(|letter| letter.is_ascii_lowercase())
            && blocked_in(word.spelling.as_bytes()).is_none()
    }
}

/// A blocked string that is read in some letters, forwards or backwards.
fn blocked_in(letters: &[u8]) -> Option<&'static str> {
    let back: Vec<u8> = letters.iter().rev().copied().collect();
    let reads = |letters: &[u8], text: &str| letters.windows(text.len()).any(|part| part == text.as_bytes());
    BLOCKED.iter().copied().find(|text| reads(letters, text) || reads(&back, text))
}

/// The blocked strings, for the solver, which looks for them by itself.
pub(super) const fn blocked() -> &'static [&'static str] {
    BLOCKED
}

/// Chooses the words and hides them.
pub(super) fn choose(spec: &WordSearch, request: &Request) -> Result<Filled, FillError> {
    let hidden = |word: &Word| (request.decodable)(word) && spec.hides(word);
    for attempt in 0..TRIES {
        let part = format!("word-search {attempt}");
        let mut stream = request.own(&part);
        let own = Request { decodable: &hidden, stream: request.stream.fork(&part), ..request.clone() };
        let mut items = words::choose(&spec.as_words(), &own)?.items;
        items.sort_by(|one, other| one.word.cmp(&other.word));
        let words: Vec<&str> = items.iter().map(|item| item.word.as_str()).collect();
        if let Some(grid) = set(spec, &words, &mut stream) {
            let word_bank = words.iter().map(|&word| word.to_owned()).collect();
            return Ok(Filled { items, word_bank, letter_grid: Some(grid), ..Filled::default() });
        }
    }
    let message = format!("{} words could not be hidden in {1} by {1} letters: ask for fewer", spec.count, spec.size);
    Err(FillError::OutOfRange { way: "word-search", problems: vec![Problem::new("count", message)] })
}

/// Sets the words, the longest first, and fills up with letters.
fn set(spec: &WordSearch, words: &[&str], stream: &mut Stream) -> Option<LetterGrid> {
    let mut grid = Grid { size: spec.size, letters: vec![0; spec.size * spec.size] };
    let mut order: Vec<usize> = (0..words.len()).collect();
    order.sort_by_key(|&at| std::cmp::Reverse(words[at].len()));
    let directions = if spec.diagonal { &DIRECTIONS[..] } else { &DIRECTIONS[..2] };
    let mut hidden: Vec<Option<Hidden>> = vec![None; words.len()];
    for (nth, at) in order.into_iter().enumerate() {
        // Each direction in turn, so that all are met; another where the word fits in no place.
        let turned = (0..directions.len()).map(|by| directions[(nth + by) % directions.len()]);
        let place = turned.into_iter().find_map(|direction| {
            let places = grid.places(words[at].as_bytes(), direction);
            stream.pick(&places).copied()
        })?;
        grid.put(words[at].as_bytes(), place);
        let (row, column, (down, right)) = place;
        hidden[at] = Some(Hidden { word: words[at].to_owned(), row, column, down, right });
    }
    let own: Vec<u8> = words.iter().flat_map(|word| word.bytes()).collect::<BTreeSet<u8>>().into_iter().collect();
    for cell in 0..grid.letters.len() {
        if grid.letters[cell] == 0 {
            // Letters of the words, so that they do not stand out; any letter where those won't do.
            let mut letters: Vec<u8> = (0..12).filter_map(|_| stream.pick(&own).copied()).collect();
            let mut all: Vec<u8> = (b'a'..=b'z').collect();
            stream.shuffle(&mut all);
            letters.extend(all);
            let fits = |letter: &u8| grid.allows(cell, *letter, words);
            grid.letters[cell] = letters.iter().copied().find(fits)?;
        }
    }
    let sound = grid.strings().all(|line| blocked_in(&line).is_none())
        && words.iter().all(|word| grid.count(word.as_bytes()) == 1);
    let rows = grid.letters.chunks(spec.size).map(|row| String::from_utf8_lossy(row).into_owned()).collect();
    sound.then(|| Some(LetterGrid { rows, hidden: hidden.into_iter().collect::<Option<_>>()? })).flatten()
}

type Place = (usize, usize, (usize, usize));

/// Letters under way; 0 for none yet.
struct Grid {
    size: usize,
    letters: Vec<u8>,
}

impl Grid {
    /// Where a word can stand in a direction: on empty cells, or across a word on the same letter.
    fn places(&self, word: &[u8], (down, right): (usize, usize)) -> Vec<Place> {
        let reach = word.len() - 1;
        let mut places = Vec::new();
        for row in 0..self.size.saturating_sub(reach * down) {
            for column in 0..self.size.saturating_sub(reach * right) {
                let cell = |at: usize| self.letters[(row + at * down) * self.size + column + at * right];
                let fits = (0..word.len()).all(|at| cell(at) == 0 || cell(at) == word[at]);
                if fits && (0..word.len()).any(|at| cell(at) == 0) {
                    places.push((row, column, (down, right)));
                }
            }
        }
        places
    }

    fn put(&mut self, word: &[u8], (row, column, (down, right)): Place) {
        for (at, letter) in word.iter().enumerate() {
            self.letters[(row + at * down) * self.size + column + at * right] = *letter;
        }
    }

    /// Whether a letter in a cell makes no blocked string, and no further word of the list.
    fn allows(&self, cell: usize, letter: u8, words: &[&str]) -> bool {
        let mut with = Self { size: self.size, letters: self.letters.clone() };
        with.letters[cell] = letter;
        with.lines().filter(|line| line.contains(&cell)).all(|line| {
            let read: Vec<u8> = line.iter().map(|&at| with.letters[at]).collect();
            let at = line.iter().position(|&of| of == cell).unwrap_or(0);
            blocked_in(&read).is_none() && words.iter().all(|word| !runs_through(&read, at, word.as_bytes()))
        })
    }

    /// The cells of all rows, columns and diagonals.
    fn lines(&self) -> impl Iterator<Item = Vec<usize>> + use<> {
        let size = self.size;
        let rows = (0..size).map(move |row| (0..size).map(|at| row * size + at).collect());
        let columns = (0..size).map(move |column| (0..size).map(|at| at * size + column).collect());
        let falling = (0..2 * size - 1).map(move |sum| {
            (0..size)
                .filter_map(|row| (row + size - 1).checked_sub(sum).filter(|c| *c < size).map(|c| row * size + c))
                .collect()
        });
        let rising = (0..2 * size - 1).map(move |sum| {
            (0..size).filter_map(|row| sum.checked_sub(row).filter(|c| *c < size).map(|c| row * size + c)).collect()
        });
        rows.chain(columns).chain(falling).chain(rising)
    }

    fn strings(&self) -> impl Iterator<Item = Vec<u8>> {
        self.lines().map(|line| line.iter().map(|&at| self.letters[at]).collect())
    }

    /// How often a word stands in the grid, in any direction.
    fn count(&self, word: &[u8]) -> usize {
        let back: Vec<u8> = word.iter().rev().copied().collect();
        self.strings().map(|line| line.windows(word.len()).filter(|part| *part == word || **part == back).count()).sum()
    }
}

/// Whether a word, forwards or backwards, is read in `letters` so that it covers the place `at`.
fn runs_through(letters: &[u8], at: usize, word: &[u8]) -> bool {
    let from = (at + 1).saturating_sub(word.len());
    (from..=at).any(|start| {
        letters.get(start..start + word.len()).is_some_and(|part| part == word || part.iter().rev().eq(word))
    })
}
