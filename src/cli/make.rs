//! `sheet` and `packet`.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use serde::Serialize;

use super::args::{MakeFormat, Making, PacketArgs, SheetArgs};
use super::{Failure, Outcome, query, seed};
use crate::layout::is_yaml;
use crate::packet::{
    FocusNames, Made, Materials, Outputs, PacketRequest, Plan, PlanSheet, StepName, contents, make_some,
};
use crate::page::Document;
use crate::pdf;
use crate::seed::Seed;
use crate::sheet::Sheet;
use crate::yaml::read_text;

/// The folder that files go to when nothing else is said.
const OUT: &str = "out";

pub(super) fn sheet(args: &SheetArgs) -> Result<Outcome, Failure> {
    let mut library = query::library(args.making.layouts.as_deref())?;
    let is_file = is_yaml(Path::new(&args.layout));
    let name =
        if is_file { library.add_file(Path::new(&args.layout)).map_err(Failure::usage)? } else { args.layout.clone() };
    let title = library.get(&name).map_err(Failure::usage)?.layout.title.clone();
    let sheet = PlanSheet { layout: name.clone(), count: args.making.count, ..PlanSheet::default() };
    let plan = Plan { title, sheets: vec![sheet], ..Plan::default() };
    run(plan, library, &args.making, &name, None, true)
}

pub(super) fn packet(args: &PacketArgs) -> Result<Outcome, Failure> {
    let text = read_text(&args.plan).map_err(Failure::usage)?;
    let mut plan = Plan::read(&args.plan.display().to_string(), &text).map_err(Failure::usage)?;
    let library = query::library(args.making.layouts.as_deref())?;
    for sheet in &mut plan.sheets {
        if args.making.focus.is_some() {
            sheet.focus = None;
        }
        if args.making.step.is_some() {
            sheet.step = None;
        }
        if args.making.count.is_some() {
            sheet.count = args.making.count;
        }
    }
    if let Some(wrong) = args.only.iter().flatten().find(|only| **only == 0 || **only > plan.sheets.len()) {
        return Err(Failure::usage(format!(
            "--only: there is no sheet {wrong} in the plan\nhelp: it has {}, counted from 1",
            plan.sheets.len()
        )));
    }
    let name = args.plan.file_stem().map_or_else(|| "packet".to_owned(), |stem| stem.to_string_lossy().into_owned());
    run(plan, library, &args.making, &name, args.only.as_deref(), false)
}

/// Lays the options over a plan, makes it and writes it.
fn run(
    mut plan: Plan,
    library: crate::layout::Library,
    making: &Making,
    name: &str,
    only: Option<&[usize]>,
    single: bool,
) -> Result<Outcome, Failure> {
    overlay(&mut plan, making)?;
    let counting = plan.counting.unwrap_or_default();
    let sequence = query::sequence(making.sequence.as_deref())?;
    let materials = Materials { bank: making.words_of.bank(counting)?, sequence, library };
    let drawn = plan.seed.is_none();
    let seed = match &plan.seed {
        Some(seed) => seed.clone(),
        None => seed::draw()?,
    };
    let request = PacketRequest::new(&plan, &materials, seed).map_err(Failure::usage)?;
    let mut err = String::new();
    if request.child.is_some() && request.printed_child().is_none() {
        err.push_str(
            "note: the name is too long or has letters that the font can't draw; its line is left to write on\n",
        );
    }
    if drawn {
        let _ = writeln!(err, "seed: {}", request.seed);
    }
    if making.format == MakeFormat::Json {
        let sheets = contents(&request, &materials).map_err(|error| unfilled(error, single))?;
        let text = json(&request, sheets, only, single)?;
        return deliver(vec![(making.out.clone(), text.into_bytes())], err);
    }
    let made = make_some(&request, &materials, only).map_err(|error| unfilled(error, single))?;
    let files = files(&made, making, name, request.child.as_deref())?;
    deliver(files, err)
}

/// Takes the options of the command line before those of the plan.
fn overlay(plan: &mut Plan, making: &Making) -> Result<(), Failure> {
    if let Some(step) = &making.step {
        plan.step = Some(StepName(step.trim().to_owned()));
    }
    if let Some(focus) = &making.focus {
        plan.focus = Some(FocusNames::parse(focus));
    }
    if let Some(seed) = &making.seed {
        plan.seed = Some(Seed::new(seed).map_err(|error| Failure::usage(format!("--seed: {error}")))?);
    }
    if let Some(child) = &making.child {
        plan.child = Some(child.clone());
    }
    if let Some(language) = &making.language {
        plan.language = Some(language.clone());
    }
    plan.paper = making.paper.map(Into::into).or(plan.paper);
    plan.key = making.key.map(Into::into).or(plan.key);
    plan.band = making.band.map(Into::into).or(plan.band);
    plan.large_print |= making.large_print;
    plan.left_hand |= making.left_hand;
    plan.notation = making.notation.map(Into::into).or(plan.notation);
    Ok(())
}

/// A sheet alone needs no word of which sheet of the packet it is.
fn unfilled(error: crate::packet::MakeError, single: bool) -> Failure {
    use crate::packet::MakeError;
    match error {
        MakeError::Fill { source, .. } if single => Failure::unfilled(source),
        MakeError::Place { source, .. } if single => Failure::unfilled(source),
        other => Failure::unfilled(other),
    }
}

/// The content of a packet as JSON.
#[derive(Serialize)]
struct PacketJson<'a> {
    title: &'a str,
    seed: String,
    sheets: Vec<Sheet>,
}

fn json(request: &PacketRequest, sheets: Vec<Sheet>, only: Option<&[usize]>, single: bool) -> Result<String, Failure> {
    let wanted = |at: usize| only.is_none_or(|only| only.contains(&(at + 1)));
    let mut sheets: Vec<Sheet> =
        sheets.into_iter().enumerate().filter(|(at, _)| wanted(*at)).map(|(_, sheet)| sheet).collect();
    let text = if single && sheets.len() == 1 {
        serde_json::to_string_pretty(&sheets.remove(0))
    } else {
        serde_json::to_string_pretty(&PacketJson { title: &request.title, seed: request.seed.to_string(), sheets })
    };
    text.map(|text| text + "\n").map_err(Failure::usage)
}

/// The files of a packet: a path, or none for standard output, and the bytes.
type Files = Vec<(Option<PathBuf>, Vec<u8>)>;

fn files(made: &Made, making: &Making, name: &str, child: Option<&str>) -> Result<Files, Failure> {
    let bytes = |document: &Document| pdf::write(document).map_err(Failure::usage);
    let to_stdout = making.out.as_deref().is_some_and(|out| out == Path::new("-"));
    if to_stdout {
        if made.key.is_some() {
            return Err(Failure::usage(
                "a key apart is a second file, and standard output takes one\nhelp: name a file with --out",
            ));
        }
        return Ok(vec![(None, bytes(&made.document)?)]);
    }
    let path = path(making.out.as_deref(), name, child);
    let mut files = vec![(Some(path.clone()), bytes(&made.document)?)];
    if let Some(key) = &made.key {
        let stem = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        files.push((Some(path.with_file_name(format!("{stem}-key.pdf"))), bytes(key)?));
    }
    Ok(files)
}

/// Where the PDF goes: the file named, or a file of a telling name in the folder named.
fn path(out: Option<&Path>, name: &str, child: Option<&str>) -> PathBuf {
    let child = child.map(slug).filter(|child| !child.is_empty());
    let file = match child {
        Some(child) => format!("{name}-{child}.pdf"),
        None => format!("{name}.pdf"),
    };
    match out {
        None => Path::new(OUT).join(file),
        Some(out) if out.is_dir() || out.as_os_str().to_string_lossy().ends_with(['/', '\\']) => out.join(file),
        Some(out) => out.to_path_buf(),
    }
}

/// A name as part of a file's name: small letters, digits and hyphens, at most 40.
fn slug(name: &str) -> String {
    let mut slug = String::new();
    for c in name.chars().flat_map(char::to_lowercase) {
        if c.is_ascii_alphanumeric() {
            slug.push(c);
        } else if !slug.ends_with('-') && !slug.is_empty() {
            slug.push('-');
        }
        if slug.len() >= 40 {
            break;
        }
    }
    slug.trim_end_matches('-').to_owned()
}

/// Writes the files, whole or not at all, or prints what has no file.
fn deliver(files: Files, err: String) -> Result<Outcome, Failure> {
    let mut outcome = Outcome { err, ..Outcome::default() };
    let mut outputs = Outputs::default();
    let mut to_files = false;
    for (path, bytes) in files {
        match path.filter(|path| path != Path::new("-")) {
            Some(path) => {
                outputs.add(path, bytes);
                to_files = true;
            }
            None => outcome.out.extend(bytes),
        }
    }
    if to_files {
        for path in outputs.commit().map_err(Failure::usage)? {
            outcome.out.extend(format!("{}\n", path.display()).into_bytes());
        }
    }
    Ok(outcome)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn file_names_are_plain() {
        assert_eq!(slug("Ada"), "ada");
        assert_eq!(slug("../../Ö x"), "x");
        assert_eq!(slug("   "), "");
        assert!(slug(&"long ".repeat(90)).len() <= 40);
        assert_eq!(path(None, "blend-sort", Some("Ada B")), Path::new("out/blend-sort-ada-b.pdf"));
        assert_eq!(path(Some(Path::new("here.pdf")), "x", None), Path::new("here.pdf"));
        assert_eq!(path(Some(Path::new("here/")), "x", None), Path::new("here/x.pdf"));
    }
}
