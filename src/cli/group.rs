//! `packet` for a group, or for lettered sets.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use indicatif::{ProgressBar, ProgressStyle};
use rayon::prelude::*;

use super::args::{BindArg, MakeFormat, PacketArgs, ReportFormat};
use super::from_record::{self, Planned};
use super::make::{OUT, Ready, deliver, ready};
use super::{Failure, Outcome};
use crate::layout::{Library, drawable};
use crate::packet::bound::bound;
use crate::packet::run::{Done, RunError, clear, write};
use crate::packet::{
    Binding, Child, Deal, Earlier, Group, Known, Manifest, MatchReport, Materials, Member, Outputs, Plan, class,
    class_list, manifest,
};
use crate::pdf;

/// The most packets that are reported on without being asked.
const MOST_REPORTED: usize = 400;

/// The most files that are named one by one.
const MOST_NAMED: usize = 60;

/// Makes packets for a group or for lettered sets.
pub(super) fn packets(args: &PacketArgs, plan: Plan, library: Library, name: &str) -> Result<Outcome, Failure> {
    let (many, making) = (&args.many, &args.making);
    if making.format == MakeFormat::Json || making.out.as_deref() == Some(Path::new("-")) {
        let hint = "a group's packets go into a folder; its report is data with --report FILE.json";
        return Err(Failure::usage(format!("a group's packets are files, not data or standard output\nhelp: {hint}")));
    }
    if many.report.is_some() && (many.shard.is_some() || making.child.is_some()) {
        let hint = "when all packets are there, `sheafling match` reports on them";
        return Err(Failure::usage(format!("--report: a part of a group has no report\nhelp: {hint}")));
    }
    let folder = making.out.clone().unwrap_or_else(|| Path::new(OUT).join(name));
    let before = earlier_run(&folder, name, many.afresh)?;
    let mut plan = plan;
    // The child is chosen from the group; it is not the name of all.
    let only = making.child.clone();
    if plan.seed.is_none() && making.seed.is_none() && many.resume {
        plan.seed = before.as_ref().map(|before| before.seed.clone());
    }
    let mut ready = ready(plan, library, making)?;
    ready.plan.child = None;
    let Ready { plan, materials, sources, seed, drawn } = ready;
    let mut err = String::new();
    let places = before.as_ref().filter(|_| !many.afresh).map(Manifest::places).unwrap_or_default();
    let mut planned = None;
    let (title, mut members) = if let Some(letters) = &many.sets {
        // Letters may be parted by blanks as well as by commas.
        let letters: Vec<String> =
            letters.iter().flat_map(|letters| letters.split_whitespace()).map(str::to_owned).collect();
        (String::new(), class::of_letters(&letters, &plan).map_err(Failure::usage)?)
    } else {
        let mut group = group(many.group.as_deref(), only.as_deref(), &materials)?;
        if let Some(record) = &many.from_record {
            planned = Some(from_record::apply(record, many, &plan, &mut group, &materials, &mut err)?);
        }
        let members = class::of_children(&group.children, &plan, &materials, &places).map_err(Failure::usage)?;
        (group.title, members)
    };
    if let Some(planned) = &planned {
        for member in &mut members {
            member.wanted = Some(planned.wanted);
        }
    }
    if let Some(earlier) = &many.earlier {
        let earlier = Earlier::read(earlier).map_err(Failure::usage)?;
        for member in &mut members {
            member.spare = earlier.words_of(&member.label(), many.last);
        }
    }
    let deal = if many.same_words { Deal::Same } else { Deal::Different };
    let binding = match many.bind {
        BindArg::Each => Binding::Each,
        BindArg::ByChild => Binding::ByChild,
        BindArg::BySheet => Binding::BySheet,
    };
    let mut manifest =
        Manifest::new(name, plan, seed, (deal, binding), sources, members, &materials).map_err(Failure::usage)?;
    manifest.group = title;
    if drawn {
        let _ = writeln!(err, "seed: {}", manifest.seed);
    }
    tell_of_moves(&manifest, before.as_ref(), &mut err);
    tell_of_names(&manifest, &mut err);
    let job = Job { manifest, materials, folder, args, planned };
    match binding {
        Binding::Each => job.each(only.as_deref(), err),
        Binding::ByChild | Binding::BySheet => job.in_one(only.as_deref(), err),
    }
}

/// The group of a file, or of the one child that is named.
fn group(file: Option<&Path>, child: Option<&str>, materials: &Materials) -> Result<Group, Failure> {
    if let Some(file) = file {
        let known = Known { bank: &materials.bank, sequence: &materials.sequence };
        return Group::read_file(file, &known).map_err(Failure::usage);
    }
    let Some(child) = child else {
        let hint = "name the group's file with --group, or one child with --child";
        return Err(Failure::usage(format!("for whom are packets to be made from the record?\nhelp: {hint}")));
    };
    let name = child.split_whitespace().collect::<Vec<_>>().join(" ");
    Ok(Group { title: String::new(), children: vec![Child { name, ..Child::default() }] })
}

/// The manifest that an earlier run of the same packet left in the folder.
fn earlier_run(folder: &Path, name: &str, afresh: bool) -> Result<Option<Manifest>, Failure> {
    let path = folder.join(format!("{name}{}", Manifest::ENDING));
    if !path.exists() {
        return Ok(None);
    }
    match Manifest::read(&path) {
        Ok(manifest) => Ok(Some(manifest)),
        Err(_) if afresh => Ok(None),
        Err(error) => Err(Failure::usage(format!("{error}, or deal the sets anew with --afresh"))),
    }
}

/// Says whose set is another one than in the run before, by the same seed.
fn tell_of_moves(manifest: &Manifest, before: Option<&Manifest>, err: &mut String) {
    let Some(before) = before.filter(|before| before.seed == manifest.seed) else { return };
    let (then, now) = (before.places(), manifest.places());
    let moved: Vec<&str> = now
        .iter()
        .filter(|(name, place)| then.get(*name).is_some_and(|then| then != *place))
        .map(|(name, _)| name.as_str())
        .collect();
    if !moved.is_empty() {
        let _ =
            writeln!(err, "note: other sets than in the run before, by step, focus or number: {}", moved.join(", "));
    }
}

/// Says whose name can't be printed.
fn tell_of_names(manifest: &Manifest, err: &mut String) {
    let unprinted = |member: &&Member| {
        member.child.as_ref().is_some_and(|child| drawable(&child.name).is_none() || child.name.chars().count() > 40)
    };
    let names: Vec<String> = manifest.members.iter().filter(unprinted).map(|member| member.file.clone()).collect();
    if !names.is_empty() {
        let _ = writeln!(
            err,
            "note: names that are too long or that the font can't draw; their lines are left to write on: {}",
            names.join(", ")
        );
    }
}

/// A run with all that it needs.
struct Job<'a> {
    manifest: Manifest,
    materials: Materials,
    folder: PathBuf,
    args: &'a PacketArgs,
    /// What a record of practice had to say.
    planned: Option<Planned>,
}

impl Job<'_> {
    fn manifest_path(&self) -> PathBuf {
        self.folder.join(format!("{}{}", self.manifest.name, Manifest::ENDING))
    }

    /// The members that are to be made now.
    fn chosen(&self, only: Option<&str>) -> Result<Vec<&Member>, Failure> {
        if let Some(name) = only {
            let member = self.manifest.member(name).ok_or_else(|| no_member(&self.manifest, name))?;
            return Ok(vec![member]);
        }
        let mine = |at: usize| self.args.many.shard.is_none_or(|shard| at % shard.of == shard.part - 1);
        Ok(self.manifest.members.iter().enumerate().filter(|(at, _)| mine(*at)).map(|(_, member)| member).collect())
    }

    /// A file for each child.
    fn each(&self, only: Option<&str>, mut err: String) -> Result<Outcome, Failure> {
        let chosen = self.chosen(only)?;
        let mut outputs = Outputs::default();
        outputs.add(self.manifest_path(), self.manifest.to_json().into_bytes());
        for (name, bytes) in class_list::files(&self.manifest, &self.materials).map_err(Failure::usage)? {
            outputs.add(self.folder.join(name), bytes);
        }
        if let Some(planned) = &self.planned {
            outputs
                .add(self.folder.join(format!("{}-group.yaml", self.manifest.name)), planned.yaml.clone().into_bytes());
        }
        if self.args.many.resume {
            let beside: Vec<PathBuf> = outputs.paths().map(Path::to_owned).collect();
            clear(&self.manifest, &chosen, &beside, &self.folder);
        }
        let mut files = outputs.commit().map_err(Failure::usage)?;
        let bar = progress(chosen.len());
        let resume = self.args.many.resume;
        let of = |member: &&Member| {
            let done = write(&self.manifest, member, &self.materials, &self.folder, resume);
            bar.inc(1);
            done
        };
        let results: Vec<Result<Done, RunError>> = chosen.par_iter().map(of).collect();
        bar.finish_and_clear();
        let mut found = 0;
        let mut errors = Vec::new();
        let mut unwritten = false;
        for (member, result) in chosen.iter().zip(results) {
            match result {
                Ok(done) => {
                    found += usize::from(done.found);
                    if !done.repeated.is_empty() {
                        let words = done.repeated.join(", ");
                        let _ =
                            writeln!(err, "note: {}: used again, as there are too few others: {words}", member.label());
                    }
                    if !done.unplaced.is_empty() {
                        let words = done.unplaced.join(", ");
                        let _ = writeln!(err, "note: {}: no sheet has a place for: {words}", member.label());
                    }
                    files.extend(done.files);
                }
                Err(error) => {
                    unwritten |= matches!(error, RunError::Write(_));
                    errors.push(error.to_string());
                }
            }
        }
        if found > 0 {
            let _ = writeln!(err, "note: {found} of {} packets were there already", chosen.len());
        }
        let mut outcome = Outcome { err, ..Outcome::default() };
        if let Some(planned) = &self.planned {
            outcome.out.extend_from_slice(planned.told.as_bytes());
        }
        list(&files, &self.folder, &mut outcome);
        if only.is_none() && self.args.many.shard.is_none() {
            self.report(&mut outcome)?;
        }
        if !errors.is_empty() {
            let made = chosen.len() - errors.len();
            let _ = writeln!(
                outcome.err,
                "error: {} of {} packets could not be made ({made} were)\n\n{}",
                errors.len(),
                chosen.len(),
                errors.join("\n\n")
            );
            outcome.code = if unwritten { 2 } else { 1 };
        }
        Ok(outcome)
    }

    /// The match report: a line for each cohort, and the whole into the file asked for.
    fn report(&self, outcome: &mut Outcome) -> Result<(), Failure> {
        // The report holds all records at once, and a run's memory may not grow with the group.
        if self.args.many.report.is_none() && self.manifest.members.len() > MOST_REPORTED {
            let folder = self.folder.display();
            let _ = writeln!(outcome.err, "note: `sheafling match {folder}` reports how the sets match");
            return Ok(());
        }
        let path = self.manifest_path();
        let records = self.manifest.members.iter().filter_map(|m| Some((m, self.manifest.record(&path, m)?)));
        let report = MatchReport::of(records, &self.materials.bank);
        outcome.out.extend(report.summary().into_bytes());
        self.write_report(&report)
    }

    fn write_report(&self, report: &MatchReport) -> Result<(), Failure> {
        let Some(file) = &self.args.many.report else { return Ok(()) };
        let is_json = file.extension().is_some_and(|extension| extension.eq_ignore_ascii_case("json"));
        let text = report_text(report, if is_json { ReportFormat::Json } else { ReportFormat::Table })?;
        let mut outputs = Outputs::default();
        outputs.add(file.clone(), text.into_bytes());
        outputs.commit().map(|_| ()).map_err(Failure::usage)
    }

    /// All packets in one file.
    fn in_one(&self, only: Option<&str>, err: String) -> Result<Outcome, Failure> {
        if self.args.many.shard.is_some() || self.args.many.resume || only.is_some() {
            let hint = "leave --bind away";
            return Err(Failure::usage(format!(
                "parts of a run, and one child's packet, are files of their own\nhelp: {hint}"
            )));
        }
        let whole = bound(&self.manifest, &self.materials).map_err(Failure::unfilled)?;
        let mut files: Vec<(Option<PathBuf>, Vec<u8>)> = Vec::new();
        let mut add = |name: String, bytes: Vec<u8>| files.push((Some(self.folder.join(name)), bytes));
        add(format!("{}.pdf", self.manifest.name), pdf::write(&whole.document).map_err(Failure::usage)?);
        if let Some(key) = &whole.key {
            add(format!("{}-key.pdf", self.manifest.name), pdf::write(key).map_err(Failure::usage)?);
        }
        for (name, bytes) in class_list::files(&self.manifest, &self.materials).map_err(Failure::usage)? {
            add(name, bytes);
        }
        add(format!("{}{}", self.manifest.name, Manifest::ENDING), self.manifest.to_json().into_bytes());
        let mut outcome = deliver(files, err)?;
        let mut outputs = Outputs::default();
        let by_file: BTreeMap<&str, &crate::packet::MadeRecord> =
            whole.records.iter().map(|(file, record)| (file.as_str(), record)).collect();
        for (file, record) in &by_file {
            let path = manifest::record_path(&self.folder, &self.manifest.name, file);
            outputs.add(path, serde_json::to_vec_pretty(record).map_err(Failure::usage)?);
        }
        outputs.commit().map_err(Failure::usage)?;
        self.report(&mut outcome)?;
        Ok(outcome)
    }
}

/// The error for a name that is not in a run.
pub(super) fn no_member(manifest: &Manifest, name: &str) -> Failure {
    let labels: Vec<String> = manifest.members.iter().map(Member::label).collect();
    let near = crate::nearest::nearest(name, labels.iter().map(String::as_str));
    let hint = match near {
        Some(near) => format!("did you mean `{near}`?"),
        None if labels.len() <= 12 => format!("there are: {}", labels.join(", ")),
        None => format!("there are {}, from {} to {}", labels.len(), labels[0], labels[labels.len() - 1]),
    };
    Failure::usage(format!("there is no packet for `{name}`\nhelp: {hint}"))
}

/// A report as text or data.
pub(super) fn report_text(report: &MatchReport, format: ReportFormat) -> Result<String, Failure> {
    match format {
        ReportFormat::Table => Ok(report.to_text()),
        ReportFormat::Json => serde_json::to_string_pretty(report).map(|text| text + "\n").map_err(Failure::usage),
    }
}

/// The bar on a terminal; nothing anywhere else.
fn progress(count: usize) -> ProgressBar {
    let style = ProgressStyle::with_template("{pos} of {len} packets {wide_bar}");
    ProgressBar::new(count as u64).with_style(style.unwrap_or_else(|_| ProgressStyle::default_bar()))
}

/// Names the files, or their folder when there are many.
fn list(files: &[PathBuf], folder: &Path, outcome: &mut Outcome) {
    if files.len() > MOST_NAMED {
        outcome.out.extend(format!("{} files in {}\n", files.len(), folder.display()).into_bytes());
        return;
    }
    for file in files {
        outcome.out.extend(format!("{}\n", file.display()).into_bytes());
    }
}
