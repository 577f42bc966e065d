//! `record add`.

use std::fmt::Write as _;

use super::args::AddArgs;
use super::day;
use crate::cli::{Failure, Outcome, query};
use crate::record::{Added, add as append, read_rows};
use crate::yaml::read_text;

pub(super) fn add(args: &AddArgs) -> Result<Outcome, Failure> {
    let date = day("date", args.date.as_deref())?;
    let library = query::library(args.layouts.as_deref())?;
    let skills: Vec<&str> = library.all().map(|stored| stored.layout.name.as_str()).collect();
    let text = read_text(&args.rows).map_err(Failure::usage)?;
    let filled = read_rows(&args.rows.display().to_string(), &text, &skills, date).map_err(|error| {
        Failure::usage(format!("{error}\n\nnothing was added; add the table again when it is mended"))
    })?;
    let tried = filled.rows.len();
    let added = append(&args.record, filled.rows, args.again).map_err(Failure::usage)?;
    let rows = |count: usize| if count == 1 { "1 row".to_owned() } else { format!("{count} rows") };
    let mut out = if tried == 0 {
        "nothing to add: no row says right or wrong\n".to_owned()
    } else {
        format!("{} added to {}\n", rows(added.rows), args.record.display())
    };
    if filled.untried > 0 {
        let _ = writeln!(out, "{} not tried and left out", rows(filled.untried));
    }
    Ok(Outcome { err: notes(&added, args), ..Outcome::printing(out) })
}

/// What the teacher should know of what was added.
fn notes(added: &Added, args: &AddArgs) -> String {
    let mut notes = String::new();
    let rows = |count: usize, one: &str, more: &str| {
        if count == 1 { format!("1 row {one}") } else { format!("{count} rows {more}") }
    };
    if added.known > 0 {
        let known = rows(added.known, "was in the record already", "were in the record already");
        let done = if args.again { "added again" } else { "left out; --again adds what is left out as further tries" };
        let _ = writeln!(notes, "note: {known} and {done}");
    }
    if added.other_tries > 0 {
        let tries = rows(added.other_tries, "is a further try", "are further tries");
        let _ = writeln!(notes, "note: {tries} at an item that the child had tried in the same skill on the same day");
    }
    for (child, alike) in &added.new_children {
        if let Some(alike) = alike {
            let _ =
                writeln!(notes, "note: `{child}` is new in this record, which has `{alike}`; are they two children?");
        }
    }
    if let Some(file) = &added.set_aside {
        let _ = writeln!(
            notes,
            "note: the last line of the record was cut off while it was written; it was put into {}: add the table that it came \
             from again",
            file.display()
        );
    }
    if added.ended {
        notes.push_str(
            "note: the last line of the record had no end; it reads as a whole row and was kept: look at its note\n",
        );
    }
    notes
}
