//! What a checked text comes to.

use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

use serde::{Serialize, Serializer};

use crate::sequence::taught::{Missing, at};
use crate::sequence::{At, Sequence, Step};

/// What a word of a text is to a reader at the step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// It can be sounded out by what has been taught.
    Decodable,
    /// It is taught by sight, or is a form or contraction of words that are.
    BySight,
    /// It is known, and can't be read at this step.
    NotYet,
    /// The bank has neither it nor a base of it.
    Unknown,
    /// A name; not in the percentages.
    Name,
    /// It has a digit in it; not in the percentages.
    Numeral,
    /// A letter by its name; not in the percentages.
    Letter,
    /// A word in another script than Latin; not in the percentages.
    OtherScript,
}

/// What is known of one spelling. Words of one spelling share it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct Entry {
    /// The spelling that was looked up: in small letters, with straight apostrophes. Numerals, letters and words of other
    /// scripts as they stand.
    pub spelling: String,
    /// Its standing, names aside: those are told by their capitals.
    #[serde(skip)]
    pub standing: Standing,
    /// The word that it is a form of, or the words that it is short for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub base: Option<String>,
    /// The number of the first step at which it can be read, decoded or by sight; `None` when there is none.
    pub from: Option<u16>,
    /// What stands in the way of [`Standing::NotYet`], each thing once; as sentences in JSON.
    #[serde(rename = "why", serialize_with = "as_sentences", skip_serializing_if = "Vec::is_empty")]
    pub missing: Vec<Missing>,
}

impl Entry {
    /// An entry of which nothing more is known.
    pub(super) fn new(spelling: &str, standing: Standing) -> Self {
        Self { spelling: spelling.to_owned(), standing, base: None, from: None, missing: Vec::new() }
    }
}

fn as_sentences<S: Serializer>(missing: &[Missing], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(missing.iter().map(ToString::to_string))
}

/// One word of a text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct TextWord {
    /// The line that it stands in, from 1.
    pub line: usize,
    /// Where in the line it begins, in characters (Unicode scalar values) from 1.
    pub column: usize,
    /// As it stands in the text, without an apostrophe before or after it.
    pub text: String,
    /// What it is to a reader at the step.
    pub standing: Standing,
    /// Whether it begins with a capital and is not all of capitals.
    #[serde(skip)]
    pub(super) capital: bool,
    /// What is known of its spelling.
    #[serde(flatten)]
    pub entry: Arc<Entry>,
}

/// A distinct word and how often it comes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct WordCount {
    /// The spelling, as [`Entry::spelling`].
    pub spelling: String,
    /// How often.
    pub count: usize,
    /// The first step at which it can be read.
    pub from: Option<u16>,
}

/// The sums of a text.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct TextSummary {
    /// The step at which it was checked.
    pub step: Option<At>,
    /// The words in the percentages: all but names, numerals, letters and other scripts.
    pub words: usize,
    /// How many words have each standing; all standings that occur.
    pub counts: BTreeMap<Standing, usize>,
    /// The share of the words that are decodable; `None` when there are no words.
    pub percent_decodable: Option<Percent>,
    /// The share of the words that can be read, decoded or by sight.
    pub percent_readable: Option<Percent>,
    /// The first step at which 95 of 100 words can be read; `None` when there is none, or there are no words.
    #[serde(rename = "step-for-95-percent")]
    pub most: Option<At>,
    /// The first step at which every word can be read.
    #[serde(rename = "step-for-100-percent")]
    pub all: Option<At>,
    /// The distinct words that can't be read at the step, unknown ones among them: the most frequent first, then by spelling.
    pub pre_teach: Vec<WordCount>,
    /// The distinct names, in the same order; *Zed's* is counted with *Zed*.
    pub names: Vec<WordCount>,
}

/// A share of the words, in tenths of a percent, rounded down so that only all of them are 100. In JSON a number such as 66.6.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Percent {
    /// Tenths of a percent, 0 to 1000.
    pub tenths: u32,
}

impl Percent {
    /// The share of a part; `None` of nothing.
    fn of(part: usize, whole: usize) -> Option<Self> {
        let tenths = (part as u128 * 1000).checked_div(whole as u128)?;
        Some(Self { tenths: u32::try_from(tenths).ok()? })
    }
}

impl fmt::Display for Percent {
    /// `66.6`, without a sign.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.tenths / 10, self.tenths % 10)
    }
}

impl Serialize for Percent {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_f64(f64::from(self.tenths) / 10.0)
    }
}

/// A whole text, checked.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub struct TextReport {
    /// Every word, in the order of the text.
    pub words: Vec<TextWord>,
    /// What they add up to.
    pub summary: TextSummary,
}

/// How often a spelling has been met, by what it was taken for.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Tally {
    /// As a name.
    pub(super) named: usize,
    /// Unknown, with the capital that begins a sentence: a name if there is one elsewhere.
    pub(super) perhaps_named: usize,
    /// Otherwise.
    pub(super) other: usize,
}

impl Tally {
    /// How often it is a name, and how often not.
    const fn settled(self) -> (usize, usize) {
        if self.named > 0 {
            (self.named + self.perhaps_named, self.other)
        } else {
            (0, self.perhaps_named + self.other)
        }
    }
}

/// Sums up the distinct words of a text.
pub(super) fn summary<'e>(
    sequence: &Sequence,
    here: Option<&Step>,
    seen: impl Iterator<Item = &'e (Arc<Entry>, Tally)>,
) -> TextSummary {
    let mut by_standing: BTreeMap<Standing, usize> = BTreeMap::new();
    let mut by_step: BTreeMap<u16, usize> = BTreeMap::new();
    let (mut words, mut pre_teach) = (0, Vec::new());
    let mut by_name: BTreeMap<&str, usize> = BTreeMap::new();
    for (entry, tally) in seen {
        let (as_name, other) = tally.settled();
        if as_name > 0 {
            *by_standing.entry(Standing::Name).or_default() += as_name;
            // "Zed's" is Zed.
            let name = entry.spelling.strip_suffix("'s").unwrap_or(&entry.spelling);
            *by_name.entry(name).or_default() += as_name;
        }
        if other == 0 {
            continue;
        }
        *by_standing.entry(entry.standing).or_default() += other;
        if entry.standing > Standing::Unknown {
            continue;
        }
        words += other;
        if let Some(from) = entry.from {
            *by_step.entry(from).or_default() += other;
        }
        if matches!(entry.standing, Standing::NotYet | Standing::Unknown) {
            pre_teach.push(WordCount { spelling: entry.spelling.clone(), count: other, from: entry.from });
        }
    }
    let name = |(name, count): (&str, usize)| WordCount { spelling: name.to_owned(), count, from: None };
    let mut names: Vec<_> = by_name.into_iter().map(name).collect();
    for list in [&mut pre_teach, &mut names] {
        list.sort_by(|one, next| next.count.cmp(&one.count).then_with(|| one.spelling.cmp(&next.spelling)));
    }
    let count = |standing| by_standing.get(&standing).copied().unwrap_or_default();
    let (decodable, by_sight) = (count(Standing::Decodable), count(Standing::BySight));
    let reached = |percent| first_step(&by_step, words, percent).and_then(|number| sequence.numbered(number)).map(at);
    TextSummary {
        step: here.map(at),
        words,
        percent_decodable: Percent::of(decodable, words),
        percent_readable: Percent::of(decodable + by_sight, words),
        most: reached(95),
        all: reached(100),
        counts: by_standing,
        pre_teach,
        names,
    }
}

/// The first step at which so many percent of the words can be read.
fn first_step(by_step: &BTreeMap<u16, usize>, words: usize, percent: u128) -> Option<u16> {
    let mut reached = 0_usize;
    by_step.iter().find_map(|(&step, &count)| {
        reached += count;
        (reached as u128 * 100 >= words as u128 * percent).then_some(step)
    })
}
