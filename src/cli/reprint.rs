//! `reprint` and `match`: what was made before.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use super::args::{MatchArgs, ReprintArgs};
use super::bank_args::bank_with;
use super::group::{no_member, report_text};
use super::{Failure, Outcome};
use crate::layout::Library;
use crate::packet::run::{again, page};
use crate::packet::{Code, CodeError, Earlier, Fingerprints, Manifest, MatchReport, Materials, Member, Outputs};
use crate::seed::Seed;
use crate::sequence::Sequence;

/// Makes packets again.
pub(super) fn reprint(args: &ReprintArgs) -> Result<Outcome, Failure> {
    let Found { path, mut manifest, mut members } = find(args)?;
    let materials = materials(&manifest)?;
    if let Some(name) = &args.child {
        members = vec![manifest.member(name).ok_or_else(|| no_member(&manifest, name))?.clone()];
    }
    let mut err = String::new();
    let mut outputs = Outputs::default();
    let mut differences = differences(&manifest, &materials)?;
    let records: Vec<_> = members.iter().map(|member| manifest.record(&path, member)).collect();
    let other_words = args.seed.is_some();
    if let Some(seed) = &args.seed {
        manifest.seed = Seed::new(seed).map_err(|error| Failure::usage(format!("--seed: {error}")))?;
        // Other words are another packet, with a code of its own.
        let name = manifest.name.clone();
        let how = (manifest.deal, manifest.binding);
        let new = Manifest::new(
            &name,
            manifest.plan.clone(),
            manifest.seed.clone(),
            how,
            manifest.sources.clone(),
            manifest.members.clone(),
            &materials,
        );
        let new = new.map_err(Failure::usage)?;
        members = members.iter().filter_map(|member| new.member(&member.label()).cloned()).collect();
        outputs.add(args.out.join(format!("{name}{}", Manifest::ENDING)), new.to_json().into_bytes());
        manifest = new;
        differences.clear();
    }
    if !differences.is_empty() && !args.anyway {
        return Err(changed(&differences));
    }
    let mark = (!differences.is_empty()).then(|| "made again by a changed program".to_owned());
    for difference in &differences {
        let _ = writeln!(err, "note: no longer the same: {difference}");
    }
    let mut unlike = Vec::new();
    for (member, record) in members.iter().zip(records) {
        let mut packed = again(&manifest, member, &materials, mark.as_deref()).map_err(Failure::unfilled)?;
        let same = |(name, mark): (&String, &String)| packed.record.files.get(name).is_none_or(|now| now == mark);
        if !other_words && mark.is_none() && record.is_some_and(|then| !then.files.iter().all(same)) {
            unlike.push(member.label());
            if args.anyway {
                let mark = "made again by a changed program";
                packed = again(&manifest, member, &materials, Some(mark)).map_err(Failure::unfilled)?;
            }
        }
        if let Some(number) = args.page {
            let bytes = page(&packed, number).map_err(Failure::unfilled)?;
            let Some(bytes) = bytes else {
                return Err(Failure::usage(format!("--page: the packet of {} has no page {number}", member.label())));
            };
            packed.files = vec![(format!("{}-page-{number}.pdf", member.file), bytes)];
        }
        for (name, bytes) in packed.files {
            outputs.add(args.out.join(name), bytes);
        }
    }
    if !unlike.is_empty() && !args.anyway {
        let told = format!("the pages of {} come out otherwise than they did", unlike.join(", "));
        return Err(changed(&[told]));
    }
    let mut outcome = Outcome { err, ..Outcome::default() };
    for file in outputs.commit().map_err(Failure::usage)? {
        outcome.out.extend(format!("{}\n", file.display()).into_bytes());
    }
    Ok(outcome)
}

/// A manifest that was found, and whose packets are wanted.
struct Found {
    path: PathBuf,
    manifest: Manifest,
    members: Vec<Member>,
}

fn find(args: &ReprintArgs) -> Result<Found, Failure> {
    let path = Path::new(&args.what);
    if Manifest::is_named(path) || path.is_file() {
        let manifest = Manifest::read(path).map_err(Failure::usage)?;
        let members = manifest.members.clone();
        return Ok(Found { path: path.to_owned(), manifest, members });
    }
    let code: Code = args.what.parse().map_err(|error| match error {
        CodeError::Length { .. } | CodeError::Sign { .. } => {
            Failure::usage(format!("`{}` is neither a manifest nor a code: {error}", args.what))
        }
        CodeError::Check { .. } => Failure::usage(error),
    })?;
    let earlier = Earlier::read(&args.folder).map_err(Failure::usage)?;
    let found: Vec<(&Path, &Manifest, usize)> = earlier.with_code(code).collect();
    match found.first() {
        None => Err(Failure::usage(format!(
            "no packet with the code {code} was made in {} ({} manifests looked at)\nhelp: name the folder of the packet with --in",
            args.folder.display(),
            earlier.len()
        ))),
        // The same packet may have been made in several folders: any of them makes it again.
        Some((path, manifest, at)) => Ok(Found {
            path: (*path).to_owned(),
            manifest: (*manifest).clone(),
            members: vec![manifest.members[*at].clone()],
        }),
    }
}

/// What a manifest's packets are made from: its own sources over what is built in.
fn materials(manifest: &Manifest) -> Result<Materials, Failure> {
    let bank = bank_with(manifest.plan.counting.unwrap_or_default(), manifest.sources.own_words.as_ref())?;
    let sequence = match &manifest.sources.sequence {
        None => Sequence::builtin().map_err(Failure::usage)?,
        Some(source) => Sequence::from_text(&source.file, &source.text).map_err(Failure::usage)?,
    };
    let mut library = Library::builtin().map_err(Failure::usage)?;
    for source in &manifest.sources.layouts {
        library.add_text(&source.file, &source.text).map_err(Failure::usage)?;
    }
    Ok(Materials::new(bank, sequence, library))
}

fn differences(manifest: &Manifest, materials: &Materials) -> Result<Vec<String>, Failure> {
    let first = manifest.members.first().map(|member| manifest.request(member, materials)).transpose();
    let first = first.map_err(Failure::usage)?;
    Ok(Fingerprints::of(&first, materials).differences(&manifest.made_with))
}

fn changed(differences: &[String]) -> Failure {
    Failure::unfilled(format!(
        "it can't be made again as it was; what is no longer the same:\n  {}\nhelp: use the version that made it, or go on with \
         --anyway: the pages are marked",
        differences.join("\n  ")
    ))
}

/// The match report of packets that were made.
pub(super) fn report(args: &MatchArgs) -> Result<Outcome, Failure> {
    let path = manifest_in(&args.manifest)?;
    let manifest = Manifest::read(&path).map_err(Failure::usage)?;
    let materials = materials(&manifest)?;
    let mut missing = Vec::new();
    let mut records = Vec::new();
    for member in &manifest.members {
        match manifest.record(&path, member) {
            Some(record) => records.push((member, record)),
            None => missing.push(member.label()),
        }
    }
    let report = MatchReport::of(records, &materials.bank);
    let mut outcome = Outcome::printing(report_text(&report, args.format)?);
    if !missing.is_empty() {
        let _ = writeln!(outcome.err, "note: not made yet, and so not in the report: {}", missing.join(", "));
    }
    Ok(outcome)
}

/// The manifest of a path: the file itself, or the only one in a folder.
pub(super) fn manifest_in(path: &Path) -> Result<PathBuf, Failure> {
    if path.is_dir() { only_manifest(path) } else { Ok(path.to_owned()) }
}

fn only_manifest(folder: &Path) -> Result<PathBuf, Failure> {
    let entries = std::fs::read_dir(folder).map_err(Failure::usage)?;
    let mut found: Vec<PathBuf> =
        entries.flatten().map(|entry| entry.path()).filter(|path| Manifest::is_named(path)).collect();
    found.sort();
    match found.len() {
        1 => Ok(found.remove(0)),
        0 => Err(Failure::usage(format!(
            "there is no manifest in {}\nhelp: name the folder of a group's packets",
            folder.display()
        ))),
        n => Err(Failure::usage(format!(
            "there are {n} manifests in {}\nhelp: name one of them: {}",
            folder.display(),
            found.iter().map(|path| path.display().to_string()).collect::<Vec<_>>().join(", ")
        ))),
    }
}
