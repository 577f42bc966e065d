//! Checking a text: which of its words a child at a step can read.
//!
//! [`check_text`] reads a whole text; a [`TextChecker`] takes it line by line, so that a text of any length can be checked in
//! memory that grows with its distinct words alone. Both take time in proportion to the text. The text is never an error: all
//! that is a string can be checked, and what is not understood is reported as [`Standing::Unknown`].
//!
//! Each word is judged in small letters, whatever its capitals. What counts as one word, and how it is judged (common
//! practice, no source):
//!
//! | in the text | how it is treated |
//! |---|---|
//! | a word of the bank | as [`Taught::check`](super::Taught::check) says |
//! | a regular form that the bank lacks (*-s, -es, -ed, -ing, -er, -est*) | as its base, its ending, and the doubling, dropped *e* or *y* to *i* that the ending makes; *-er* asks for *er* and one syllable more, *-est* also for the *st* |
//! | a regular form of a word that is read by sight | read by sight, once its ending and the change have been taught |
//! | *dog's*, *dogs'*, *he's*, *let's* | as the word with the ending *-s*, voiced as the sound before it asks; after *s'* as the word before the mark |
//! | *I'm*, *don't*, *o'clock* … (`contractions.tsv`) | read by sight as soon as each of the words that it stands for can be read |
//! | *ping-pong*, *twenty–one* | each part is a word of its own |
//! | *Sam* inside a sentence, where the bank has no *sam* | a name: counted apart. *Mr, Mrs, Ms* and *Dr* are always names |
//! | *Sam* at the start of a sentence | a name if it is one elsewhere in the text, else unknown |
//! | *NASA*, *U.S.A.* | capitals alone make no name: unknown |
//! | *7*, *1,000*, *3rd* | a numeral: counted apart |
//! | *b*, *T* (letters other than *a* and *I*) | the letter's name: counted apart |
//! | *café*, *naïve*, `ﬁ` in one sign | read without its marks, signs taken apart |
//! | words in other scripts | counted apart |
//! | straight and curly apostrophes | alike; a mark before *em*, *til*, *tis* belongs to the word |
//! | quotation marks, dashes, other signs | part words; `“Well,` begins a sentence, as do words after `. ! ? … :`, an empty line and a bullet |
//!
//! Words in the percentages are those that a child has to read by letters: names, numerals, letters and other scripts are not
//! among them. A word derived by rule may be another that only looks like it; each says its base, so that a reader of the report
//! can see it. The checker grants regular forms of sight words that the program's own pages do not print.
//!
//! ```
//! use sheafling::bank::Bank;
//! use sheafling::sequence::Sequence;
//! use sheafling::sequence::text::{Standing, check_text};
//! use sheafling::sounds::Counting;
//!
//! let bank = Bank::builtin(Counting::default())?;
//! let sequence = Sequence::builtin()?;
//! let report = check_text("The dog hid. It rained on Zed.", &sequence, sequence.step("sh-ch")?, &bank);
//! assert_eq!(report.words[4].standing, Standing::NotYet);
//! assert_eq!((report.words[4].line, report.words[4].column), (1, 17));
//! assert_eq!(report.summary.names[0].spelling, "zed");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod contraction;
mod fold;
mod form;
mod judge;
mod report;
mod respell;
mod tokens;

#[cfg(test)]
mod tests;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::bank::Bank;

use super::{Sequence, Step};
use judge::Judge;
use report::Tally;
use tokens::{Kind, Scanner, Token};

pub use report::{Entry, Percent, Standing, TextReport, TextSummary, TextWord, WordCount};

/// Checks a text line by line at one step.
#[derive(Debug)]
pub struct TextChecker<'a> {
    judge: Judge<'a>,
    scanner: Scanner,
    line: usize,
    seen: BTreeMap<String, (Arc<Entry>, Tally)>,
}

impl<'a> TextChecker<'a> {
    /// A checker at a step of the sequence.
    #[must_use]
    pub fn new(sequence: &'a Sequence, step: &Step, bank: &'a Bank) -> Self {
        let judge = Judge::new(sequence, step.number, bank);
        Self { judge, scanner: Scanner::new(), line: 0, seen: BTreeMap::new() }
    }

    /// Checks the next line, without its end, and calls `visit` with each of its words. A name at the start of a sentence is
    /// still [`Standing::Unknown`] when it has not been met inside one before; the summary counts it as a name.
    pub fn line(&mut self, line: &str, visit: &mut impl FnMut(TextWord)) {
        self.line += 1;
        let (judge, seen, number) = (&self.judge, &mut self.seen, self.line);
        self.scanner.line(line, &mut |token| visit(word(judge, seen, number, &token)));
    }

    /// What the lines so far add up to.
    #[must_use]
    pub fn summary(&self) -> TextSummary {
        report::summary(self.judge.sequence(), self.judge.step(), self.seen.values())
    }

    /// Whether a spelling has been met as a name.
    fn is_name(&self, spelling: &str) -> bool {
        self.seen.get(spelling).is_some_and(|(_, tally)| tally.named > 0)
    }
}

/// Judges a token, counts it, and says what it is.
fn word(judge: &Judge, seen: &mut BTreeMap<String, (Arc<Entry>, Tally)>, line: usize, token: &Token) -> TextWord {
    let key = token.key();
    let (entry, tally) = match seen.get_mut(&key) {
        Some(known) => known,
        None => seen.entry(key).or_insert_with_key(|key| (Arc::new(judge.entry(key, token.kind)), Tally::default())),
    };
    let standing = match token.kind {
        Kind::Word if entry.standing == Standing::Unknown && token.is_named() => Standing::Name,
        Kind::Word if entry.standing == Standing::Unknown && token.title_case && tally.named > 0 => Standing::Name,
        _ => entry.standing,
    };
    match standing {
        Standing::Name => tally.named += 1,
        Standing::Unknown if token.title_case => tally.perhaps_named += 1,
        _ => tally.other += 1,
    }
    TextWord {
        line,
        column: token.column,
        text: token.text.to_owned(),
        standing,
        capital: token.title_case,
        entry: Arc::clone(entry),
    }
}

/// Checks a whole text at a step. Lines end with `\n`, `\r\n` or `\r`; a byte order mark at the start is passed over.
#[must_use]
pub fn check_text(text: &str, sequence: &Sequence, step: &Step, bank: &Bank) -> TextReport {
    let mut checker = TextChecker::new(sequence, step, bank);
    let mut words = Vec::new();
    for line in lines(text.strip_prefix('\u{feff}').unwrap_or(text)) {
        checker.line(line, &mut |word| words.push(word));
    }
    for word in &mut words {
        if word.standing == Standing::Unknown && word.capital && checker.is_name(&word.entry.spelling) {
            word.standing = Standing::Name;
        }
    }
    TextReport { words, summary: checker.summary() }
}

/// The lines of a text, by any of the three line ends.
fn lines(text: &str) -> impl Iterator<Item = &str> {
    text.split('\n').flat_map(|line| line.strip_suffix('\r').unwrap_or(line).split('\r'))
}
