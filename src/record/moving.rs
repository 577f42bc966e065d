//! When a child may go to the next step.

use serde::Serialize;

use super::next::StepTaken;
use super::report::Trouble;
use super::{Part, Row};
use crate::bank::Bank;
use crate::sequence::{Sequence, Step};

/// How many tries at a step are looked at; with fewer the child stays.
pub const TRIES: usize = 20;

/// How many of them must be right: 90 in a hundred.
pub const RIGHT: usize = 18;

/// The rule in words.
pub const MOVE_ON_RULE: &str = "A child may move on when 18 of the last 20 tries (90 %) at words that the step brings were right \
    and none of its blends is in trouble. It is done only with --move-on.";

/// Whether a child may go to the next step.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct MoveOn {
    /// Whether the rule is met and there is a next step.
    pub may: bool,
    /// Whether the plan does it.
    pub done: bool,
    /// The next step, unless the child is at the last.
    pub to: Option<StepTaken>,
    /// By what.
    pub why: String,
}

/// Whether a child may go on from a step, by its rows in the order of their days. Only tries at words count whose first readable step it
/// is: what was read long before says nothing of it.
pub(super) fn may_move_on(
    rows: &[&Row],
    step: &Step,
    troubles: &[Trouble],
    bank: &Bank,
    sequence: &Sequence,
) -> MoveOn {
    let at_step = |row: &&&Row| {
        let word = bank.get(&row.item.to_lowercase());
        word.and_then(|word| sequence.earliest(word, bank)).is_some_and(|earliest| earliest.number == step.number)
    };
    let last: Vec<bool> = rows.iter().rev().filter(at_step).take(TRIES).map(|row| row.right).collect();
    let right = last.iter().filter(|right| **right).count();
    let blends: Vec<String> = troubles
        .iter()
        .filter(|trouble| matches!(trouble.part, Part::Blend(blend) if step.blends.contains(&blend)))
        .map(|trouble| trouble.part.to_string())
        .collect();
    let to = sequence.numbered(step.number + 1).map(StepTaken::new);
    let (may, why) = if to.is_none() {
        (false, "it is the last step".to_owned())
    } else if last.len() < TRIES {
        (false, format!("{} of the {TRIES} tries at words of the step that are needed", last.len()))
    } else if right < RIGHT {
        (false, format!("{right} of the last {TRIES} tries at words of the step were right, and {RIGHT} are needed"))
    } else if !blends.is_empty() {
        (false, format!("in trouble: {}", blends.join(", ")))
    } else {
        (true, format!("{right} of the last {TRIES} tries at words of the step were right"))
    };
    MoveOn { may, done: false, to, why }
}
