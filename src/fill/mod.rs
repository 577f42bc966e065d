//! Choosing a sheet's content: one file for each way of choosing, and `solve`, which answers each item afresh.
//!
//! A way of choosing is a [`Fill`] with its numbers, as a layout writes it. It gets a [`Request`] (the bank, which words the child
//! can read, the focus, a seeded stream) and gives [`Filled`] content or a [`FillError`] that says which condition leaves how many
//! words and what to loosen. Millimetres are unknown here.
//!
//! Before content is given out, [`check`] answers every item from what the child sees. It hears the printed words anew from the
//! bank's phones and shares no code with the choosing; where it comes to something else than the key, nothing is given out.
//!
//! # A new way of choosing
//! A file with a struct for its numbers (each key with a default and a range that `validate` holds it to) and a function from
//! that struct and a [`Request`] to [`Filled`]; a variant in [`Fill`] and a row in [`Fill::WAYS`]; and its part of `solve`. What
//! the ways share: [`Span`] for ranges, `pool` for which words may be used and which may not stand together, `share` for dealing
//! places evenly to the blends, `focus` for which blends can be asked for.
//!
//! What is *not* checked here: whether a word fits its place on the paper, and whether a word that one sheet uses is used on
//! another (for that there is [`Request::avoid`]).

mod boards;
mod boxes;
mod chain;
mod change;
mod columns;
mod equal;
mod error;
mod focus;
mod hand;
mod lesson;
mod matches;
mod near;
mod phrase_words;
mod phrases;
mod pick;
mod places;
mod pool;
mod reading;
mod real_or_silly;
mod review;
mod riddles;
mod share;
mod solve;
mod span;
mod spoken;
mod strip;
#[cfg(test)]
mod tests;
mod tiles;
mod word_search;
mod words;

use crate::bank::{Bank, Word};
use crate::seed::Stream;
use crate::sequence::Taught;
use crate::sheet::{Board, Column, Item, LetterGrid, Part};
use crate::sounds::{Blend, Notation, Side};
use crate::yaml::{NamedChoice, named_choice};

pub use boards::Boards;
pub use chain::{Chain, ChainFocus, Move};
pub use change::{ChangePart, SoundChange};
pub use columns::Columns;
pub use error::{BlendCount, FillError, NoLadder, Problem, Shortage};
pub use focus::{BadFocus, SortSide};
use hand::keeping_apart;
pub use hand::{Hand, Seat};
pub use lesson::{Lesson, LessonPart};
pub use matches::{Match, MatchBy};
pub use pick::Pick;
pub use places::Places;
pub use pool::weight as commonness;
pub use reading::Reading;
pub use real_or_silly::RealOrSilly;
pub use review::Review;
pub use riddles::Riddles;
pub use solve::{Wrong, check};
pub use span::Span;
pub use spoken::Spoken;
pub use strip::{Strip, StripSide};
pub use tiles::Tiles;
pub use word_search::WordSearch;
pub use words::{Words, WordsFocus};

/// What a way of choosing is given.
#[derive(Clone)]
pub struct Request<'a> {
    /// The words there are.
    pub bank: &'a Bank,
    /// Whether a word may be printed for reading: decodable at the child's step.
    pub decodable: &'a (dyn Fn(&Word) -> bool + Sync),
    /// What has been taught up to the child's step, of which nonsense words are made.
    pub taught: Taught<'a>,
    /// The step, for messages: `step 12 (l-blends)`.
    pub step: String,
    /// The blends to practise, in the order asked for; empty for none. A blend that can't be heard where a way of choosing
    /// wants it is left aside, as long as another remains.
    pub focus: Vec<&'static Blend>,
    /// How many items (rungs, for a ladder), when the layout's own number is not wanted.
    pub count: Option<usize>,
    /// Words that must not be used.
    pub avoid: Vec<String>,
    /// What is particular to the child: its set among equal ones, words to put first, words to spare.
    pub hand: Hand,
    /// The words taught by sight, the newest step first, each with the number of its step.
    pub by_sight: Vec<(String, usize)>,
    /// Where choices come from. It is only forked, never drawn from, so the same request can be run again.
    pub stream: Stream,
    /// How sounds are written in clues.
    pub notation: Notation,
}

/// The content that a way of choosing gives.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Filled {
    /// The items, in the order of the page.
    pub items: Vec<Item>,
    /// The columns of a sort.
    pub columns: Vec<Column>,
    /// The words of the word bank box, or the right column of two that are matched.
    pub word_bank: Vec<String>,
    /// The letter tiles to cut.
    pub tiles: Vec<String>,
    /// The boards of a group.
    pub boards: Vec<Board>,
    /// The letters in which words are hidden.
    pub letter_grid: Option<LetterGrid>,
    /// The parts of a lesson.
    pub parts: Vec<Part>,
}

named_choice! {
    /// A way of choosing, with its numbers, as a layout writes it: `words`, or `words: {count: 8}`.
    #[derive(Clone, Debug, PartialEq, Eq)]
    pub enum Fill: "fill" {
        /// Words for sound boxes or for reading.
        Words(Words) = "words",
        /// A sort: words to be put into a column for each blend.
        Columns(Columns) = "columns",
        /// A word ladder, which changes one sound at each rung.
        Chain(Chain) = "chain",
        /// Words to hear, with blends to choose among.
        Pick(Pick) = "pick",
        /// Words to hear, with the place of a blend in them.
        Places(Places) = "places",
        /// Blends with key words.
        Strip(Strip) = "strip",
        /// Words said as separate sounds.
        Spoken(Spoken) = "spoken",
        /// Two columns to be joined by lines.
        Match(Match) = "match",
        /// Words taught by sight, the newest first.
        Review(Review) = "review",
        /// Words to build of letter tiles.
        Tiles(Tiles) = "tiles",
        /// Rows of words to read aloud, and short phrases.
        Reading(Reading) = "reading",
        /// Word boards for a group, with the order in which words are called.
        Boards(Boards) = "boards",
        /// Words hidden among letters.
        WordSearch(WordSearch) = "word-search",
        /// Words to hear and to change by ear.
        Change(SoundChange) = "change",
        /// Rhyme riddles with nonsense words.
        Riddles(Riddles) = "riddles",
        /// Words and nonsense words to tell apart.
        RealOrSilly(RealOrSilly) = "real-or-silly",
        /// A lesson of parts, each chosen in another way.
        Lesson(Lesson) = "lesson",
    }
}

impl Fill {
    /// Every way of choosing by name, with what it makes.
    pub const WAYS: &'static [(&'static str, &'static str)] = &[
        ("words", "words for sound boxes or for reading, shared evenly among the focus blends"),
        ("columns", "a blend sort: one column for each focus blend, and words that fit exactly one of them"),
        ("chain", "a word ladder: each word is the one before with one sound changed"),
        ("pick", "words to hear, each with blends to choose among, one of which it starts or ends with"),
        ("places", "words to hear, each with a blend at its beginning, in its middle or at its end"),
        ("strip", "blends to point at and say, each with a key word"),
        ("spoken", "words said as separate sounds, to be put together and written"),
        ("match", "two columns to be joined by lines: words without their blends and blends, or words that rhyme"),
        ("review", "words taught by sight: the newest first, then older ones again"),
        ("tiles", "words to build of letter tiles, and exactly the tiles that they take"),
        ("reading", "rows of words to read aloud against time, and short phrases of words that can be read"),
        ("boards", "word boards for a group, no two of which win on the same call"),
        ("word-search", "words hidden among letters, each once"),
        (
            "change",
            "words to hear, of which a change of sounds makes another: one blend for another, a sound added or taken away",
        ),
        ("riddles", "a kind of thing and a nonsense word, with which one word of that kind rhymes"),
        ("real-or-silly", "words and nonsense words, mixed, that can all be read"),
        ("lesson", "parts, each chosen in another of these ways, that share the focus and no word"),
    ];

    /// The name under which a layout asks for it.
    #[must_use]
    pub fn name(&self) -> &'static str {
        <Self as NamedChoice>::name(self)
    }

    /// The texts that its items have for a layout to print, beside those that every item has.
    #[must_use]
    pub const fn texts(&self) -> &'static [&'static str] {
        match self {
            Self::Chain(_) | Self::Riddles(_) => &["clue"],
            Self::Change(_) => &["clue", "anew"],
            Self::Places(_) => &["listen"],
            Self::Review(_) => &["taught"],
            Self::Tiles(_) => &["tiles"],
            _ => &[],
        }
    }

    /// On which side of the vowel it wants the focus blends.
    #[must_use]
    pub const fn side(&self) -> Side {
        match self {
            Self::Words(Words { focus: WordsFocus::End, .. })
            | Self::Columns(Columns { side: SortSide::End, .. })
            | Self::Pick(Pick { side: SortSide::End, .. })
            | Self::Match(Match { side: SortSide::End, .. })
            | Self::Strip(Strip { side: StripSide::End, .. })
            | Self::Spoken(Spoken { focus: WordsFocus::End, .. })
            | Self::Tiles(Tiles { focus: WordsFocus::End, .. })
            | Self::Reading(Reading { focus: WordsFocus::End, .. }) => Side::Coda,
            _ => Side::Onset,
        }
    }

    /// Everything that is out of range, by key; empty when it can be run.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        match self {
            Self::Words(spec) => spec.validate(),
            Self::Columns(spec) => spec.validate(),
            Self::Chain(spec) => spec.validate(),
            Self::Pick(spec) => spec.validate(),
            Self::Places(spec) => spec.validate(),
            Self::Strip(spec) => spec.validate(),
            Self::Spoken(spec) => spec.validate(),
            Self::Match(spec) => spec.validate(),
            Self::Review(spec) => spec.validate(),
            Self::Tiles(spec) => spec.validate(),
            Self::Reading(spec) => spec.validate(),
            Self::Boards(spec) => spec.validate(),
            Self::WordSearch(spec) => spec.validate(),
            Self::Change(spec) => spec.validate(),
            Self::Riddles(spec) => spec.validate(),
            Self::RealOrSilly(spec) => spec.validate(),
            Self::Lesson(spec) => spec.validate(),
        }
    }

    /// Chooses content and answers it afresh. The same spec and request give the same content.
    ///
    /// # Errors
    /// When the spec is out of range, the focus can't be used, there are too few words or no ladder, or an item's key is not
    /// what solving it gives.
    pub fn run(&self, request: &Request) -> Result<Filled, FillError> {
        let spec = self.counting(request.count);
        let problems = spec.validate();
        if !problems.is_empty() {
            return Err(FillError::OutOfRange { way: self.name(), problems });
        }
        let filled = match &spec {
            Self::Words(words) => words::choose(words, request)?,
            Self::Columns(columns) => columns::choose(columns, request)?,
            Self::Chain(chain) => keeping_apart(request, false, |request| chain::choose(chain, request))?,
            Self::Pick(spec) => pick::choose(spec, request)?,
            Self::Places(spec) => places::choose(spec, request)?,
            Self::Strip(spec) => strip::choose(spec, request)?,
            Self::Spoken(spec) => spoken::choose(spec, request)?,
            Self::Match(spec) => keeping_apart(request, true, |request| matches::choose(spec, request))?,
            Self::Review(spec) => review::choose(spec, request)?,
            Self::Tiles(spec) => tiles::choose(spec, request)?,
            Self::Reading(spec) => reading::choose(spec, request)?,
            Self::Boards(boards) => boards::choose(boards, request)?,
            Self::WordSearch(search) => word_search::choose(search, request)?,
            Self::Change(spec) => keeping_apart(request, true, |request| change::choose(spec, request))?,
            Self::Riddles(spec) => keeping_apart(request, true, |request| riddles::choose(spec, request))?,
            Self::RealOrSilly(spec) => real_or_silly::choose(spec, request)?,
            Self::Lesson(spec) => lesson::choose(spec, request)?,
        };
        check(&spec, &filled, request)?;
        Ok(filled)
    }

    /// The key that says how many items there are.
    const fn count_key(&self) -> &'static str {
        match self {
            Self::Chain(_) => "rungs",
            Self::Reading(_) => "rows",
            Self::Boards(_) => "boards",
            Self::Lesson(_) => "parts",
            _ => "count",
        }
    }

    /// The same with another number of items, where one is given.
    fn counting(&self, count: Option<usize>) -> Self {
        let mut spec = self.clone();
        if let Some(count) = count {
            match &mut spec {
                Self::Words(words) => words.count = count,
                Self::Columns(columns) => columns.count = count,
                Self::Chain(chain) => chain.rungs = count,
                Self::Pick(spec) => spec.count = count,
                Self::Places(spec) => spec.count = count,
                Self::Strip(spec) => spec.count = count,
                Self::Spoken(spec) => spec.count = count,
                Self::Match(spec) => spec.count = count,
                Self::Review(spec) => spec.count = count,
                Self::Tiles(spec) => spec.count = count,
                Self::Reading(spec) => spec.rows = count,
                Self::Boards(boards) => boards.boards = count,
                Self::WordSearch(search) => search.count = count,
                Self::Change(spec) => spec.count = count,
                Self::Riddles(spec) => spec.count = count,
                Self::RealOrSilly(spec) => spec.count = count,
                Self::Lesson(spec) => spec.parts.iter_mut().for_each(|part| part.count = Some(count)),
            }
        }
        spec
    }
}
