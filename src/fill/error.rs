//! Why a sheet can't be filled, in words that say what to do about it.

use std::borrow::Cow;
use std::fmt::{self, Write as _};

use super::{BadFocus, Wrong};
use crate::bank::Cost;

/// Why a sheet can't be filled.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum FillError {
    /// Numbers of the layout, or the count asked for, are out of range.
    #[error("{}", out_of_range(way, problems))]
    OutOfRange {
        /// The way of choosing.
        way: &'static str,
        /// All that is out of range.
        problems: Vec<Problem>,
    },
    /// The focus names blends that this sheet can't be about.
    #[error(transparent)]
    Focus(#[from] BadFocus),
    /// There are fewer words than are needed.
    #[error(transparent)]
    TooFew(#[from] Box<Shortage>),
    /// The words there are make no ladder.
    #[error(transparent)]
    NoLadder(#[from] Box<NoLadder>),
    /// Too few parts of a lesson can be filled.
    #[error("{}", too_few_parts(*least, step, reasons))]
    TooFewParts {
        /// How many parts there must be.
        least: usize,
        /// The step, as messages name it.
        step: String,
        /// The parts that can't be filled, and why.
        reasons: Vec<(String, String)>,
    },
    /// Solving an item gave something else than the key says. This is a fault of the program or of the bank.
    #[error(transparent)]
    Wrong(#[from] Wrong),
}

impl FillError {
    /// Why, in a few words; `None` for a fault of the program or of the layout, which no other request mends.
    #[must_use]
    pub fn in_short(&self) -> Option<String> {
        match self {
            Self::OutOfRange { .. } | Self::Wrong(_) => None,
            Self::Focus(bad) => Some(bad.why.clone()),
            Self::TooFew(short) => {
                Some(format!("There are not enough words: {} are needed, {} are left.", short.needed, short.found))
            }
            Self::NoLadder(none) => {
                Some(format!("No ladder of {} rungs was found; the longest has {}.", none.rungs, none.longest))
            }
            Self::TooFewParts { .. } => Some(self.to_string()),
        }
    }
}

fn too_few_parts(least: usize, step: &str, reasons: &[(String, String)]) -> String {
    let mut text = format!("The lesson needs at least {least} parts, and too many of them can't be filled at {step}:");
    for (title, why) in reasons {
        let _ = write!(text, "\n  {title}: {why}");
    }
    text + "\nhelp: choose a later step, or name other blends (`--focus`)"
}

/// One value that is out of range.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// Its key; for one within another, the path to it, such as `parts[2].fill.words.count`.
    pub key: Cow<'static, str>,
    /// What is wrong with it.
    pub message: String,
}

impl Problem {
    /// A problem with the value of `key`.
    pub(super) fn new(key: impl Into<Cow<'static, str>>, message: impl Into<String>) -> Self {
        Self { key: key.into(), message: message.into() }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "`{}`: {}", self.key, self.message)
    }
}

fn out_of_range(way: &str, problems: &[Problem]) -> String {
    let mut text = format!("`{way}` can't be used as it stands:");
    for problem in problems {
        let _ = write!(text, "\n  {problem}");
    }
    text
}

/// How many words one blend has, where each blend needs its share.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BlendCount {
    /// The blend's name.
    pub blend: String,
    /// How many words it needs.
    pub needed: usize,
    /// How many there are.
    pub found: usize,
}

/// Too few words, with what each condition leaves.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct Shortage {
    /// What the words are for: `the sort`.
    pub wanted: String,
    /// How many words are needed.
    pub needed: usize,
    /// How many words meet all conditions and may stand together.
    pub found: usize,
    /// How many can be asked for: fewer than `found` where each blend needs its share, 0 where there must be as many as are
    /// needed.
    pub at_most: usize,
    /// How many words there are without any condition.
    pub of: usize,
    /// What each condition leaves, and how many items there could be without it.
    pub costs: Vec<Cost>,
    /// The words of each blend, where each needs its share.
    pub blends: Vec<BlendCount>,
}

impl fmt::Display for Shortage {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { wanted, needed, found, .. } = self;
        if found < needed {
            let are = if *found == 1 { "is" } else { "are" };
            write!(f, "There are not enough words: {needed} are needed for {wanted} and {found} {are} left.")?;
        } else {
            let short: Vec<_> = self.blends.iter().filter(|b| b.found < b.needed).collect();
            let short: Vec<_> =
                short.iter().map(|b| format!("{} has {} where {} are needed", b.blend, b.found, b.needed)).collect();
            write!(
                f,
                "There are not enough words of each blend: {needed} are needed for {wanted}, shared evenly, but {}.",
                listed(&short, "and")
            )?;
        }
        let width = thousands(self.of).len();
        write!(f, "\n  {} words in the bank", thousands(self.of))?;
        let mut before = self.of;
        for cost in &self.costs {
            if cost.leaves < before {
                write!(f, "\n  {:>width$} of them {}", thousands(cost.leaves), cost.asks)?;
            }
            before = cost.leaves;
        }
        if !self.blends.is_empty() {
            let counts: Vec<_> = self.blends.iter().map(|b| format!("{} {}", b.blend, b.found)).collect();
            write!(f, "\n  By blend: {}", counts.join(", "))?;
        }
        let (enough, mut advice) = self.loosenings();
        let fewer = format!("ask for at most {0} (--count {0})", self.at_most);
        if self.at_most > 0 && (enough || advice.is_empty()) {
            advice.push(fewer);
            write!(f, "\nTo get enough: {}.", listed(&advice, "or"))
        } else if advice.is_empty() {
            Ok(())
        } else {
            let what = if enough { "enough" } else { "more" };
            write!(f, "\nTo get {what}: {}.", listed(&advice, "or"))?;
            if self.at_most > 0 { write!(f, " For a sheet of these words, {fewer}.") } else { Ok(()) }
        }
    }
}

impl Shortage {
    /// What to loosen, and whether each of it gives enough by itself. Where nothing does, the two that give the most.
    fn loosenings(&self) -> (bool, Vec<String>) {
        let helps = |cost: &&Cost| !cost.loosen.is_empty() && cost.without > self.at_most;
        let mut best: Vec<&Cost> = self.costs.iter().filter(helps).collect();
        best.sort_by_key(|cost| std::cmp::Reverse(cost.without));
        let giving = best.iter().take_while(|cost| cost.without >= self.needed).count();
        let fill_up = !self.blends.is_empty() && self.found >= self.needed && self.blends.iter().all(|b| b.found > 0);
        let enough = giving > 0 || fill_up;
        best.truncate(if enough { giving } else { 2 });
        let words = |n: usize| if n == 1 { "1 word".to_owned() } else { format!("{} words", thousands(n)) };
        let mut advice: Vec<String> =
            best.iter().map(|cost| format!("{} ({})", cost.loosen, words(cost.without))).collect();
        if fill_up {
            advice.push("let the other blends take over (`even: false`)".to_owned());
        }
        (enough, advice)
    }
}

/// No ladder of the wanted length was found.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub struct NoLadder {
    /// How many rungs were wanted.
    pub rungs: usize,
    /// The step, as messages name it.
    pub step: String,
    /// How many words fit a ladder and can be read.
    pub readable: usize,
    /// How many of them are one change of one sound away from another.
    pub neighbours: usize,
    /// The focus blends, when the first word has to hold one, and how many words could come first.
    pub starts: Option<(String, usize)>,
    /// The rungs of the longest ladder that was found.
    pub longest: usize,
    /// What to loosen; each was tried and gives a ladder by itself.
    pub loosen: Vec<String>,
}

impl fmt::Display for NoLadder {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "No ladder of {} rungs was found; the longest has {}.\n  {} words fit a ladder \
             and can be read at {}\n  {} of them become another of them when one sound changes",
            self.rungs,
            self.longest,
            thousands(self.readable),
            self.step,
            thousands(self.neighbours)
        )?;
        if let Some((blends, starts)) = &self.starts {
            write!(f, "\n  {} of these hold {blends}, as the first word must", thousands(*starts))?;
        }
        if self.loosen.is_empty() {
            return write!(f, "\nNo single change to the request gives one: choose a later step and loosen the focus.");
        }
        write!(f, "\nTo get one: {}.", listed(&self.loosen, "or"))
    }
}

/// `a, b or c`; with longer entries `a; b; or c`, so that a comma within one does not mislead.
pub(super) fn listed(entries: &[String], last: &str) -> String {
    match entries {
        [] => String::new(),
        [one] => one.clone(),
        [head @ .., end] => {
            let long = entries.iter().any(|entry| entry.contains(','));
            let (part, before_last) = if long { ("; ", ";") } else { (", ", "") };
            format!("{}{before_last} {last} {end}", head.join(part))
        }
    }
}

/// `12,345`.
pub(super) fn thousands(n: usize) -> String {
    let digits = n.to_string();
    let mut text = String::with_capacity(digits.len() + digits.len() / 3);
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}
