//! `record show`.

use std::fmt::Write as _;
use std::path::PathBuf;

use super::args::{ShowArgs, ShowFormat};
use super::{day, deliver, loaded, wanted};
use crate::cli::table::table;
use crate::cli::{Failure, Outcome, query};
use crate::layout::drawable;
use crate::pdf;
use crate::record::{ChildReport, Report, Trend, Trouble, pages, report};
use crate::sounds::Counting;

/// Where pages go when nothing is said.
const PAGES: &str = "out/practice-record.pdf";

pub(super) fn show(args: &ShowArgs) -> Result<Outcome, Failure> {
    let since = day("since", args.since.as_deref())?;
    let bank = args.words_of.bank(Counting::default())?;
    let sequence = query::sequence(args.sequence.as_deref())?;
    let (record, mut notes) = loaded(&args.record)?;
    let children = wanted(&record, args.child.as_deref())?;
    let report = report(&record.rows, &children, since, &bank, &sequence);
    if let (true, Some(since)) = (report.children.is_empty(), since) {
        return Err(Failure::unfilled(format!("there is no try from {since} on\nhelp: ask for an earlier --since")));
    }
    let bytes = match args.format {
        ShowFormat::Table => text(&report).into_bytes(),
        ShowFormat::Csv => report.to_csv().into_bytes(),
        ShowFormat::Json => (serde_json::to_string_pretty(&report).map_err(Failure::usage)? + "\n").into_bytes(),
        ShowFormat::Pdf => {
            let library = query::library(args.layouts.as_deref())?;
            let title = |skill: &str| library.get(skill).map_or_else(|_| skill.to_owned(), |s| s.layout.title.clone());
            if report.children.iter().any(|child| drawable(&child.child).is_none()) {
                notes.push_str("note: a name has letters that the font can't draw; its line is left to write on\n");
            }
            pdf::write(&pages(&report, args.paper.into(), &title)).map_err(Failure::usage)?
        }
    };
    let default = (args.format == ShowFormat::Pdf).then(|| PathBuf::from(PAGES));
    deliver(args.out.clone().or(default).as_ref(), bytes, notes)
}

/// The report as tables, with the rules and the caution below.
fn text(report: &Report) -> String {
    let mut text = String::new();
    for child in &report.children {
        let _ = writeln!(text, "{}: {} of {} right on {}", child.child, child.sum.right, child.sum.tries, days(child));
        let mut rows = vec![["skill", "tries", "right", "accuracy", "trend"].map(str::to_owned).to_vec()];
        for skill in &child.skills {
            rows.push(vec![
                skill.skill.clone(),
                skill.sum.tries.to_string(),
                skill.sum.right.to_string(),
                format!("{} %", skill.accuracy),
                skill.trend.map_or("-", Trend::name).to_owned(),
            ]);
        }
        text.push_str(&indented(&table(&rows)));
        for (what, troubles) in [("blends", &child.blends), ("letter groups", &child.letter_groups)] {
            if troubles.is_empty() {
                let _ = writeln!(text, "  {what} in trouble: none");
            } else {
                let row = |t: &Trouble| {
                    vec![t.part.to_string(), format!("{} of {} missed", t.missed, t.tries), t.items.join(" ")]
                };
                let rows: Vec<_> = troubles.iter().map(row).collect();
                let _ = writeln!(text, "  {what} in trouble:");
                text.push_str(&indented(&indented(&table(&rows))));
            }
        }
        text.push('\n');
    }
    let _ = write!(text, "{}\n\n{}\n", report.rules, report.caution);
    text
}

fn days(child: &ChildReport) -> String {
    match child.days.as_slice() {
        [first, .., last] => format!("{} days, {} to {}", child.days.len(), first.date, last.date),
        [only] => only.date.to_string(),
        [] => String::new(),
    }
}

fn indented(text: &str) -> String {
    text.lines().fold(String::new(), |all, line| all + "  " + line + "\n")
}
