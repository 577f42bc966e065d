//! `sheet` and `packet`.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use serde::Serialize;

use super::args::{MakeFormat, Making, PacketArgs, SheetArgs};
use super::bank_args::bank_with;
use super::{Failure, Outcome, group, query, seed};
use crate::layout::{Library, is_yaml};
use crate::packet::group::slug;
use crate::packet::run::record;
use crate::packet::{
    Binding, Deal, FocusNames, Made, Manifest, Materials, Member, Outputs, PacketRequest, Plan, PlanSheet, Source,
    Sources, StepName, contents, make_some,
};
use crate::page::Document;
use crate::pdf;
use crate::seed::Seed;
use crate::sheet::Sheet;
use crate::yaml::read_text;

/// The folder that files go to when nothing else is said.
pub(super) const OUT: &str = "out";

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
    if args.for_many() {
        return group::packets(args, plan, library, &name);
    }
    if let Some(option) = args.many.without_a_group() {
        let hint = "name the group's file with --group, or letters with --sets";
        return Err(Failure::usage(format!("{option} is for the packets of a group\nhelp: {hint}")));
    }
    run(plan, library, &args.making, &name, args.only.as_deref(), false)
}

/// A plan with the options laid over it, and all that it is made from.
pub(super) struct Ready {
    pub plan: Plan,
    pub materials: Materials,
    pub sources: Sources,
    pub seed: Seed,
    /// Whether the seed was drawn, and so has to be told.
    pub drawn: bool,
}

/// Lays the options over a plan and loads what it needs.
pub(super) fn ready(mut plan: Plan, library: Library, making: &Making) -> Result<Ready, Failure> {
    overlay(&mut plan, making)?;
    let counting = making.words_of.over(plan.counting.unwrap_or_default())?;
    plan.counting = Some(counting);
    let own_words = making.words_of.own_words()?;
    let (sequence, sequence_source) = query::sequence_with_source(making.sequence.as_deref())?;
    let materials = Materials::new(bank_with(counting, own_words.as_ref())?, sequence, library);
    let mut layouts: Vec<Source> = Vec::new();
    for sheet in &plan.sheets {
        let stored = materials.library.get(&sheet.layout).map_err(Failure::usage)?;
        if !stored.built_in && layouts.iter().all(|source| source.file != stored.file) {
            layouts.push(Source { file: stored.file.clone(), text: stored.text.clone() });
        }
    }
    let sources = Sources { own_words, sequence: sequence_source, layouts };
    let drawn = plan.seed.is_none();
    let seed = match plan.seed.take() {
        Some(seed) => seed,
        None => seed::draw()?,
    };
    Ok(Ready { plan, materials, sources, seed, drawn })
}

/// Makes one packet and writes it.
fn run(
    plan: Plan,
    library: Library,
    making: &Making,
    name: &str,
    only: Option<&[usize]>,
    single: bool,
) -> Result<Outcome, Failure> {
    let Ready { plan, materials, sources, seed, drawn } = ready(plan, library, making)?;
    let path = path(making.out.as_deref(), name, plan.child.as_deref());
    let file = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
    let member = Member { file: file.clone(), ..Member::default() };
    let how = (Deal::Alone, Binding::Each);
    let mut manifest =
        Manifest::new(&file, plan, seed, how, sources, vec![member], &materials).map_err(Failure::usage)?;
    manifest.only = only.map(<[usize]>::to_vec);
    let member = manifest.members[0].clone();
    let request = manifest.request(&member, &materials).map_err(Failure::usage)?;
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
    let mut files = files(&made, making, &path)?;
    if files.iter().all(|(path, _)| path.is_some()) {
        let of = |(path, bytes): &(Option<PathBuf>, Vec<u8>)| {
            let name = path.as_deref().and_then(Path::file_name);
            (name.map(|name| name.to_string_lossy().into_owned()).unwrap_or_default(), bytes.clone())
        };
        manifest.made = Some(record(&made, &member, &files.iter().map(of).collect::<Vec<_>>()));
        let beside = path.with_file_name(format!("{file}{}", Manifest::ENDING));
        files.push((Some(beside), manifest.to_json().into_bytes()));
    }
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

fn files(made: &Made, making: &Making, path: &Path) -> Result<Files, Failure> {
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
    let mut files = vec![(Some(path.to_owned()), bytes(&made.document)?)];
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

/// Writes the files, whole or not at all, or prints what has no file.
pub(super) fn deliver(files: Files, err: String) -> Result<Outcome, Failure> {
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
        // What stands beside for `reprint` is not what was asked for.
        for path in outputs.commit().map_err(Failure::usage)?.iter().filter(|path| !Manifest::is_named(path)) {
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
        assert_eq!(path(None, "blend-sort", Some("Ada B")), Path::new("out/blend-sort-ada-b.pdf"));
        assert_eq!(path(Some(Path::new("here.pdf")), "x", None), Path::new("here.pdf"));
        assert_eq!(path(Some(Path::new("here/")), "x", None), Path::new("here/x.pdf"));
    }
}
