//! The next packet that a record suggests for a child.

use std::collections::BTreeMap;

use serde::Serialize;

use super::moving::{MoveOn, may_move_on};
use super::report::{rows_of, troubles};
use super::spacing::{Due, packets, spaced};
use super::{Part, Row, parts};
use crate::bank::Bank;
use crate::sequence::{Sequence, Step};
use crate::sounds::Blend;

/// What a plan is made by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Rule {
    /// How many items the next packet is to have.
    pub items: usize,
    /// Which share of them is review, at the most.
    pub review: Share,
    /// Whether the child goes to the next step when the rule for it is met.
    pub move_on: bool,
    /// The child's step, by its number; `None` when it is to be read from the record.
    pub step: Option<u16>,
}

impl Default for Rule {
    fn default() -> Self {
        Self { items: 12, review: Share { part: 1, of: 3 }, move_on: false, step: None }
    }
}

/// A share of a whole, from nothing to all.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Share {
    part: usize,
    of: usize,
}

impl Share {
    /// This share of some items, rounded half up.
    #[must_use]
    pub const fn of(self, items: usize) -> usize {
        (items * self.part * 2 + self.of) / (self.of * 2)
    }
}

impl std::str::FromStr for Share {
    type Err = String;

    /// Reads `1/3` or `40%`.
    fn from_str(text: &str) -> Result<Self, String> {
        let (part, of) = match text.trim().strip_suffix('%') {
            Some(percent) => (percent, "100"),
            None => text.split_once('/').unwrap_or((text, "")),
        };
        let number = |text: &str| text.trim().parse::<u16>().ok().map(usize::from);
        match (number(part), number(of)) {
            (Some(part), Some(of)) if of > 0 && part <= of => Ok(Self { part, of }),
            _ => Err(format!("`{text}` is no share of a packet: write a fraction such as 1/3, or 40%")),
        }
    }
}

impl std::fmt::Display for Share {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.of == 100 { write!(f, "{}%", self.part) } else { write!(f, "{}/{}", self.part, self.of) }
    }
}

/// A step as a plan names it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct StepTaken {
    /// Its number, from 1.
    pub number: u16,
    /// Its name.
    pub name: String,
}

impl StepTaken {
    pub(super) fn new(step: &Step) -> Self {
        Self { number: step.number, name: step.name.clone() }
    }
}

/// What the record suggests for a child's next packet.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct NextPlan {
    /// The child.
    pub child: String,
    /// The number of the next packet, from 1.
    pub packet: usize,
    /// The step to take; the next one when the child is moved on.
    pub step: StepTaken,
    /// The blends to take, at most three and all on one side of the vowel; none at steps before blends.
    #[serde(serialize_with = "as_names")]
    pub focus: Vec<&'static Blend>,
    /// The words to review now, in the order of need. All are in the bank and can be read at the step.
    pub review: Vec<Due>,
    /// How many new words to take beside them.
    pub new: usize,
    /// Words that are due and for which this packet has no room.
    pub waiting: Vec<Due>,
    /// What is due and can't be printed for reading at the step: words that were only heard, blends, other texts.
    pub by_ear: Vec<Due>,
    /// What was missed and comes back in a later packet.
    pub later: Vec<Due>,
    /// The skills of the last packet, in the order in which they were recorded: the sheets to take again.
    pub sheets: Vec<String>,
    /// Whether the child may go to the next step.
    pub move_on: MoveOn,
    /// Why the plan is so, sentence by sentence.
    pub why: Vec<String>,
}

fn as_names<S: serde::Serializer>(blends: &[&'static Blend], to: S) -> Result<S::Ok, S::Error> {
    to.collect_seq(blends.iter().map(ToString::to_string))
}

/// The most blends of a focus.
const MOST_BLENDS: usize = 3;

/// The next packet for a child, or `None` when the record has no row of it.
///
/// What was tried on one day counts as one packet. What was missed comes back by [`spaced`]; of the words that are due and can be read
/// at the step, as many as the rule's share allows are taken, the most needed first, and the rest of the packet is new. The focus is the
/// blends in trouble that have been taught, filled up with those of the last packet and those taught last.
#[must_use]
pub fn plan_next(rows: &[Row], child: &str, rule: &Rule, bank: &Bank, sequence: &Sequence) -> Option<NextPlan> {
    let own = rows_of(rows, child, None);
    let packets = packets(&own);
    let last = packets.last()?;
    let packet = packets.len() + 1;
    let mut why = vec![format!("{} in the record, each counted as one packet", counted(packets.len(), "day"))];

    let given = rule.step.and_then(|number| sequence.numbered(number));
    let now = given.or_else(|| step_of(&own, last, bank, sequence)).or_else(|| sequence.steps().first())?;
    let said = match given {
        Some(_) => "as given",
        None => "the latest that three words of the last packet need; say --step if the child is at another",
    };
    why.push(format!("step {} ({}): {said}", now.number, now.name));

    let troubles = troubles(&own, bank, sequence);
    let mut move_on = may_move_on(&own, now, &troubles, bank, sequence);
    let next = move_on.to.as_ref().and_then(|to| sequence.numbered(to.number));
    let step = match next.filter(|_| rule.move_on && move_on.may) {
        Some(next) => {
            move_on.done = true;
            why.push(format!("moved on to step {} ({}), as asked: {}", next.number, next.name, move_on.why));
            next
        }
        None => now,
    };

    let taught: Vec<&'static Blend> = sequence.taught(step).blends().collect();
    let in_trouble: Vec<&'static Blend> = troubles
        .iter()
        .filter_map(|trouble| match trouble.part {
            Part::Blend(blend) => Some(blend).filter(|blend| taught.contains(blend)),
            Part::Letters(_) => None,
        })
        .collect();
    let focus = focus(&in_trouble, &practised(last, &taught, bank, sequence), step, move_on.done, sequence);
    for trouble in troubles.iter().filter(|trouble| matches!(trouble.part, Part::Blend(b) if focus.contains(&b))) {
        why.push(format!("{} is in trouble: {} of its last {} missed", trouble.part, trouble.missed, trouble.tries));
    }

    let (due, later): (Vec<Due>, Vec<Due>) = spaced(&packets).into_iter().partition(|due| due.packet <= packet);
    let taught = sequence.taught(step);
    let readable = |due: &Due| bank.get(&due.item.to_lowercase()).is_some_and(|word| taught.is_readable(word, bank));
    let (mut review, by_ear): (Vec<Due>, Vec<Due>) = due.into_iter().partition(readable);
    let waiting = review.split_off(rule.review.of(rule.items).min(review.len()));
    for due in &review {
        why.push(format!(
            "{} comes back: missed on {}, due after {}",
            due.item,
            due.missed,
            counted(due.gap, "packet")
        ));
    }
    why.push(format!("{} of {} items are review, of {} at the most", review.len(), rule.items, rule.review));
    let mut sheets: Vec<String> = Vec::new();
    for row in last {
        if !sheets.contains(&row.skill) {
            sheets.push(row.skill.clone());
        }
    }
    let new = rule.items - review.len().min(rule.items);
    let (child, step) = (child.to_owned(), StepTaken::new(step));
    Some(NextPlan { child, packet, step, focus, review, new, waiting, by_ear, later, sheets, move_on, why })
}

/// The step that the record speaks of: the third latest that words of the last packet need (a word or two may have been heard only), or
/// of all packets when the last has no word.
fn step_of<'a>(all: &[&Row], last: &[&Row], bank: &Bank, sequence: &'a Sequence) -> Option<&'a Step> {
    [last, all].into_iter().find_map(|rows| {
        let earliest = |row: &&Row| sequence.earliest(bank.get(&row.item.to_lowercase())?, bank);
        let mut steps: Vec<&Step> = rows.iter().filter_map(earliest).collect();
        steps.sort_by_key(|step| std::cmp::Reverse(step.number));
        steps.get(2).or(steps.last()).copied()
    })
}

/// The taught blends of a packet, those missed most first, then those tried most.
fn practised(packet: &[&Row], taught: &[&'static Blend], bank: &Bank, sequence: &Sequence) -> Vec<&'static Blend> {
    let mut tries: BTreeMap<&'static Blend, (usize, usize)> = BTreeMap::new();
    for row in packet {
        for part in parts(&row.item, bank, sequence) {
            if let Part::Blend(blend) = part {
                let (missed, tried) = tries.entry(blend).or_default();
                *missed += usize::from(!row.right);
                *tried += 1;
            }
        }
    }
    let mut blends: Vec<_> = tries.into_iter().filter(|(blend, _)| taught.contains(blend)).collect();
    blends.sort_by_key(|(_, tries)| std::cmp::Reverse(*tries));
    blends.into_iter().map(|(blend, _)| blend).collect()
}

/// The blends to take: those in trouble, filled up with those of the last packet and then with those taught last; only of one side of
/// the vowel, since a sheet has one. A step that a child has just come to brings its own blends first.
fn focus(
    in_trouble: &[&'static Blend],
    practised: &[&'static Blend],
    step: &Step,
    new: bool,
    sequence: &Sequence,
) -> Vec<&'static Blend> {
    let own: &[&'static Blend] = if new { &step.blends } else { &[] };
    let newest = sequence.steps().iter().rev().filter(|taught| taught.number <= step.number);
    let newest = newest.flat_map(|taught| taught.blends.iter().copied());
    let order = own.iter().chain(in_trouble).chain(practised).copied().chain(newest);
    let mut focus: Vec<&'static Blend> = Vec::new();
    for blend in order.filter(|blend| blend.taught) {
        let fits = focus.first().is_none_or(|first| first.side == blend.side);
        if focus.len() < MOST_BLENDS && fits && !focus.contains(&blend) {
            focus.push(blend);
        }
    }
    focus
}

/// `1 day`, `3 days`.
pub(super) fn counted(number: usize, what: &str) -> String {
    if number == 1 { format!("1 {what}") } else { format!("{number} {what}s") }
}
