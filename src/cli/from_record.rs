//! What a record of practice changes in a group: what was missed comes back, and the focus and the step go by it.

use std::fmt::Write as _;
use std::path::Path;

use super::Failure;
use super::args::ManyArgs;
use crate::packet::{Child, FocusNames, Group, Materials, Plan, StepName};
use crate::record::{NextPlan, Rule, Share, children, load, plan_next};

/// What was planned for a group.
pub(super) struct Planned {
    /// The plan of each child, for reading.
    pub told: String,
    /// The group as it is now, to be changed and given with `--group`.
    pub yaml: String,
    /// How many of a hundred items may be review.
    pub wanted: usize,
}

/// Plans each child's packet by the record: review words come first, the focus is that of the record where the group's file
/// states none, and the step is the group's, or the next one where the child is moved on.
pub(super) fn apply(
    path: &Path,
    many: &ManyArgs,
    plan: &Plan,
    group: &mut Group,
    materials: &Materials,
    err: &mut String,
) -> Result<Planned, Failure> {
    let review: Share = many.review.parse().map_err(|error| Failure::usage(format!("--review: {error}")))?;
    let record = load(path).map_err(Failure::usage)?;
    let mut told = String::new();
    let mut unknown = Vec::new();
    for child in group.children.iter_mut().filter(|child| !child.away) {
        let step = child.step.as_ref().or(plan.step.as_ref());
        let step = step.map(|step| materials.sequence.step(&step.0)).transpose().map_err(Failure::usage)?;
        let rule = Rule { review, move_on: many.move_on, step: step.map(|step| step.number), ..Rule::default() };
        let name = children(&record.rows).into_iter().find(|name| name.to_lowercase() == child.name.to_lowercase());
        match plan_next(&record.rows, name.unwrap_or(&child.name), &rule, &materials.bank, &materials.sequence) {
            Some(next) => {
                take(child, &next);
                tell(&next, child, &mut told);
            }
            None => unknown.push(child.name.clone()),
        }
    }
    if !unknown.is_empty() {
        let _ = writeln!(err, "note: the record has no row of {}; their packets are all new", unknown.join(", "));
    }
    Ok(Planned { told, yaml: yaml(group), wanted: review.of(100) })
}

fn take(child: &mut Child, next: &NextPlan) {
    let due = next.review.iter().map(|due| due.item.clone());
    let more: Vec<String> = due.filter(|word| !child.words.contains(word) && !child.leave_out.contains(word)).collect();
    child.words.extend(more);
    child.step = Some(StepName(next.step.name.clone()));
    if child.focus.is_none() && !next.focus.is_empty() {
        child.focus = Some(FocusNames(next.focus.iter().map(ToString::to_string).collect()));
    }
}

fn tell(next: &NextPlan, child: &Child, told: &mut String) {
    let list = |words: Vec<String>| if words.is_empty() { "none".to_owned() } else { words.join(" ") };
    let focus = child.focus.as_ref().map_or_else(|| "the plan's".to_owned(), |focus| focus.0.join(" "));
    let review = list(next.review.iter().map(|due| due.item.clone()).collect());
    let _ = writeln!(
        told,
        "{}, packet {}: step {} ({}), focus {focus}, review {review}; {}",
        next.child,
        next.packet,
        next.step.number,
        next.step.name,
        next.move_on.verdict()
    );
}

/// The group as a file.
fn yaml(group: &Group) -> String {
    // JSON's strings are YAML's too, and need no second set of rules for names with colons or quotes.
    let quoted = |text: &str| serde_json::Value::from(text).to_string();
    let list = |words: &[String]| words.iter().map(|word| quoted(word)).collect::<Vec<_>>().join(", ");
    let mut text =
        "# Planned from the record of practice. Change what you like, and give this file with --group.\n".to_owned();
    if !group.title.is_empty() {
        let _ = writeln!(text, "title: {}", quoted(&group.title));
    }
    text.push_str("children:\n");
    for child in &group.children {
        let _ = write!(text, "  - {{name: {}", quoted(&child.name));
        if let Some(step) = &child.step {
            let _ = write!(text, ", step: {}", quoted(&step.0));
        }
        if let Some(focus) = &child.focus {
            let _ = write!(text, ", focus: [{}]", list(&focus.0));
        }
        for (key, words) in [("words", &child.words), ("leave-out", &child.leave_out)] {
            if !words.is_empty() {
                let _ = write!(text, ", {key}: [{}]", list(words));
            }
        }
        for (key, is) in [("large-print", child.large_print), ("left-hand", child.left_hand), ("away", child.away)] {
            if is {
                let _ = write!(text, ", {key}: true");
            }
        }
        if let Some(set) = child.set {
            let _ = write!(text, ", set: {set}");
        }
        text.push_str("}\n");
    }
    text
}
