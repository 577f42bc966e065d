//! A group as a table.

use super::check::{Checker, Known};
use super::{Child, Group, GroupError};
use crate::packet::plan::{FocusNames, StepName};
use crate::rows::{Row, Rows, Table};
use crate::yaml::YamlError;

/// The columns, of which only the first is needed, in any order.
const COLUMNS: [&str; 9] = ["name", "step", "focus", "words", "leave-out", "large-print", "left-hand", "set", "away"];

/// What says yes and what says no in a cell.
const YES: [&str; 6] = ["yes", "y", "true", "x", "1", "on"];
const NO: [&str; 6] = ["no", "n", "false", "-", "0", "off"];

pub(super) fn read(file: &str, text: &str, known: &Known) -> Result<Group, GroupError> {
    let table = Rows::new(file, text).map_err(|error| vec![error]).and_then(|rows| rows.table(&COLUMNS, &COLUMNS[..1]));
    let table = table.map_err(GroupError)?;
    let mut checker = Checker::new(known);
    for row in &table.rows {
        for stray in table.stray(row) {
            checker.refuse(stray);
        }
        match child(&table, row) {
            Ok(child) => checker.add(child, &|field, _, message| table.at(row, field, message)),
            Err(problems) => problems.into_iter().for_each(|problem| checker.refuse(problem)),
        }
    }
    Ok(Group { title: String::new(), children: checker.done(file).map_err(GroupError)? })
}

fn child(table: &Table<'_>, row: &Row) -> Result<Child, Vec<YamlError>> {
    let mut problems = Vec::new();
    let mut yes = |column: &str| {
        let Some(cell) = table.cell(row, column) else { return false };
        let plain = cell.to_lowercase();
        if !YES.contains(&plain.as_str()) && !NO.contains(&plain.as_str()) {
            let error = table.at(row, column, &format!("`{cell}` is neither yes nor no"));
            problems.push(error.with_hint("write `yes`, or leave the cell empty"));
        }
        YES.contains(&plain.as_str())
    };
    let (large_print, left_hand, away) = (yes("large-print"), yes("left-hand"), yes("away"));
    let set = table.cell(row, "set").map(str::parse).transpose().unwrap_or_else(|_| {
        problems.push(table.at(row, "set", "this is no number of a set").with_hint("sets are numbered from 1"));
        None
    });
    if !problems.is_empty() {
        return Err(problems);
    }
    let focus = table.list(row, "focus");
    Ok(Child {
        name: table.cell(row, "name").unwrap_or_default().to_owned(),
        step: table.cell(row, "step").map(|step| StepName(step.to_owned())),
        focus: (!focus.is_empty()).then(|| FocusNames(focus.iter().map(|name| name.to_lowercase()).collect())),
        words: table.list(row, "words"),
        leave_out: table.list(row, "leave-out"),
        large_print,
        left_hand,
        set,
        away,
    })
}
