//! `record`: the record of practice.

mod add;
mod args;
mod next;
mod show;
mod template;

use std::path::{Path, PathBuf};

pub use args::RecordArgs;
use args::RecordWork;

use super::{Failure, Outcome};
use crate::nearest::nearest;
use crate::packet::Outputs;
use crate::record::{Day, Record, children, load};

pub(super) fn record(args: &RecordArgs) -> Result<Outcome, Failure> {
    match &args.work {
        RecordWork::Template(args) => template::template(args),
        RecordWork::Add(args) => add::add(args),
        RecordWork::Show(args) => show::show(args),
        RecordWork::Next(args) => next::next(args),
    }
}

/// A day given by an option.
fn day(option: &str, text: Option<&str>) -> Result<Option<Day>, Failure> {
    let read = |text: &str| {
        let wrong =
            |not: crate::record::NotADay| Failure::usage(format!("--{option}: {}\nhelp: {}", not.message, not.hint));
        Day::read(text).map_err(wrong)
    };
    text.map(read).transpose()
}

/// A record with a remark when its last line is cut off.
fn loaded(path: &Path) -> Result<(Record, String), Failure> {
    let record = load(path).map_err(Failure::usage)?;
    let note = match &record.cut {
        Some(_) => format!(
            "note: the last line of {} was cut off while it was written and does not count; the next `record add` sets it \
             aside\n",
            path.display()
        ),
        None => String::new(),
    };
    if record.rows.is_empty() {
        return Err(Failure::unfilled(format!("{note}{} has no rows yet", path.display())));
    }
    Ok((record, note))
}

/// The children asked for: one in whatever capitals, or all.
fn wanted<'a>(record: &'a Record, asked: Option<&str>) -> Result<Vec<&'a str>, Failure> {
    let all = children(&record.rows);
    let Some(asked) = asked.map(str::trim) else { return Ok(all) };
    let found: Vec<&str> = all.iter().copied().filter(|name| name.to_lowercase() == asked.to_lowercase()).collect();
    if found.is_empty() {
        let near =
            nearest(asked, all.iter().copied()).map_or_else(String::new, |near| format!("did you mean `{near}`? "));
        let names = all.join(", ");
        return Err(Failure::unfilled(format!("the record has no child `{asked}`\nhelp: {near}it has {names}")));
    }
    Ok(found)
}

/// Writes a file, or prints it when there is none or it is `-`.
fn deliver(out: Option<&PathBuf>, bytes: Vec<u8>, err: String) -> Result<Outcome, Failure> {
    match out.filter(|out| out.as_path() != Path::new("-")) {
        None => Ok(Outcome { err, ..Outcome::printing(bytes) }),
        Some(out) => {
            let mut outputs = Outputs::default();
            outputs.add(out.clone(), bytes);
            outputs.commit().map_err(Failure::usage)?;
            Ok(Outcome { err, ..Outcome::printing(format!("{}\n", out.display())) })
        }
    }
}
