//! `record next`.

use std::fmt::Write as _;

use super::args::{NextArgs, NextFormat};
use super::{deliver, loaded, wanted};
use crate::cli::table::table;
use crate::cli::{Failure, Outcome, query};
use crate::record::{Due, MOVE_ON_RULE, NextPlan, Rule, plan_next};
use crate::sounds::Counting;

/// How what was missed comes back, in words.
const SPACING_RULE: &str = "What was missed comes back after 1, 2, 4 and 8 packets, and begins again at 1 when it is missed once more; \
    what was tried on one day is one packet.";

pub(super) fn next(args: &NextArgs) -> Result<Outcome, Failure> {
    let bank = args.words_of.bank(Counting::default())?;
    let sequence = query::sequence(args.sequence.as_deref())?;
    let of_name = |name: &String| sequence.step(name).map(|step| step.number);
    let step = args.step.as_ref().map(of_name).transpose();
    let step = step.map_err(|error| Failure::usage(format!("--step: {error}")))?;
    let review = args.review.parse().map_err(|error| Failure::usage(format!("--review: {error}")))?;
    let rule = Rule { items: args.items.into(), review, move_on: args.move_on, step };
    let (record, notes) = loaded(&args.record)?;
    let children = wanted(&record, args.child.as_deref())?;
    let plans: Vec<NextPlan> =
        children.iter().filter_map(|child| plan_next(&record.rows, child, &rule, &bank, &sequence)).collect();
    let text = match args.format {
        NextFormat::Table => {
            let texts: Vec<String> = plans.iter().map(|plan| text(plan, &rule)).collect();
            format!("{}\n{SPACING_RULE}\n{MOVE_ON_RULE}\n", texts.join("\n"))
        }
        NextFormat::Json => serde_json::to_string_pretty(&plans).map_err(Failure::usage)? + "\n",
        NextFormat::Yaml => {
            let [plan] = plans.as_slice() else {
                let names = children.join(", ");
                return Err(Failure::usage(format!(
                    "a plan file is for one child\nhelp: say --child with one of {names}"
                )));
            };
            plan.to_yaml()
        }
    };
    deliver(args.out.as_ref(), text.into_bytes(), notes)
}

/// A plan as a table.
fn text(plan: &NextPlan, rule: &Rule) -> String {
    let items = |due: &[Due]| {
        let items: Vec<&str> = due.iter().map(|due| due.item.as_str()).collect();
        if items.is_empty() { "-".to_owned() } else { items.join(" ") }
    };
    let focus: Vec<String> = plan.focus.iter().map(ToString::to_string).collect();
    let later: Vec<String> = plan.later.iter().map(|due| format!("{} (packet {})", due.item, due.packet)).collect();
    let row = |name: &str, what: String| vec![format!("  {name}"), what];
    let mut rows = vec![
        row("step", format!("{} ({})", plan.step.number, plan.step.name)),
        row("focus", if focus.is_empty() { "-".to_owned() } else { focus.join(" ") }),
        row("sheets", plan.sheets.join(" ")),
        row("review", items(&plan.review)),
        row("new words", format!("{} of {}", plan.new, rule.items)),
    ];
    for (name, due) in [("no room yet", &plan.waiting), ("by ear", &plan.by_ear)] {
        if !due.is_empty() {
            rows.push(row(name, items(due)));
        }
    }
    if !later.is_empty() {
        rows.push(row("later", later.join(", ")));
    }
    rows.push(row("moving on", format!("{}: {}", plan.move_on.verdict(), plan.move_on.why)));
    let mut text = format!("{}, packet {}\n{}  why\n", plan.child, plan.packet, table(&rows));
    for why in &plan.why {
        let _ = writeln!(text, "    {why}");
    }
    text
}
