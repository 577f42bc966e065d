//! What a checked text comes to.

use std::collections::BTreeMap;
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
    #[serde(serialize_with = "step")]
    pub step: Option<At>,
    /// The words in the percentages: all but names, numerals, letters and other scripts.
    pub words: usize,
    /// How many words have each standing; all standings that occur.
    pub counts: BTreeMap<Standing, usize>,
    /// Tenths of a percent of the words that are decodable, rounded down; `None` when there are no words.
    #[serde(rename = "percent-decodable", serialize_with = "tenths")]
    pub decodable: Option<u32>,
    /// Tenths of a percent of the words that can be read, decoded or by sight, rounded down.
    #[serde(rename = "percent-readable", serialize_with = "tenths")]
    pub readable: Option<u32>,
    /// The first step at which 95 of 100 words can be read; `None` when there is none, or there are no words.
    #[serde(rename = "step-for-95-percent", serialize_with = "step")]
    pub most: Option<At>,
    /// The first step at which every word can be read.
    #[serde(rename = "step-for-100-percent", serialize_with = "step")]
    pub all: Option<At>,
    /// The distinct words that can't be read at the step, unknown ones among them: the most frequent first, then by spelling.
    pub pre_teach: Vec<WordCount>,
    /// The distinct names, in the same order.
    pub names: Vec<WordCount>,
}

fn step<S: Serializer>(at: &Option<At>, serializer: S) -> Result<S::Ok, S::Error> {
    #[derive(Serialize)]
    struct Written<'a> {
        number: u16,
        name: &'a str,
    }
    at.as_ref().map(|at| Written { number: at.number, name: &at.name }).serialize(serializer)
}

fn tenths<S: Serializer>(tenths: &Option<u32>, serializer: S) -> Result<S::Ok, S::Error> {
    tenths.map(|tenths| f64::from(tenths) / 10.0).serialize(serializer)
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
    let mut counts: BTreeMap<Standing, usize> = BTreeMap::new();
    let mut by_step: BTreeMap<u16, usize> = BTreeMap::new();
    let (mut words, mut pre_teach, mut names) = (0, Vec::new(), Vec::new());
    for (entry, tally) in seen {
        let (named, other) = tally.settled();
        let counted = |count| WordCount { spelling: entry.spelling.clone(), count, from: entry.from };
        if named > 0 {
            *counts.entry(Standing::Name).or_default() += named;
            names.push(counted(named));
        }
        if other == 0 {
            continue;
        }
        *counts.entry(entry.standing).or_default() += other;
        if entry.standing > Standing::Unknown {
            continue;
        }
        words += other;
        if let Some(from) = entry.from {
            *by_step.entry(from).or_default() += other;
        }
        if matches!(entry.standing, Standing::NotYet | Standing::Unknown) {
            pre_teach.push(counted(other));
        }
    }
    for list in [&mut pre_teach, &mut names] {
        list.sort_by(|one, next| next.count.cmp(&one.count).then_with(|| one.spelling.cmp(&next.spelling)));
    }
    let count = |standing| counts.get(&standing).copied().unwrap_or_default();
    let decodable = count(Standing::Decodable);
    let readable = decodable + count(Standing::BySight);
    let reached = |percent| first_step(&by_step, words, percent).and_then(|number| sequence.numbered(number)).map(at);
    TextSummary {
        step: here.map(at),
        words,
        decodable: share(decodable, words),
        readable: share(readable, words),
        most: reached(95),
        all: reached(100),
        counts,
        pre_teach,
        names,
    }
}

/// Tenths of a percent, rounded down.
fn share(part: usize, whole: usize) -> Option<u32> {
    u32::try_from((part as u128 * 1000).checked_div(whole as u128)?).ok()
}

/// The first step at which so many percent of the words can be read.
fn first_step(by_step: &BTreeMap<u16, usize>, words: usize, percent: u128) -> Option<u16> {
    let mut reached = 0_usize;
    by_step.iter().find_map(|(&step, &count)| {
        reached += count;
        (reached as u128 * 100 >= words as u128 * percent).then_some(step)
    })
}
