//! The list of a class: who has which set, step, focus and code.

use super::class::Member;
use super::manifest::Manifest;
use super::request::{Materials, RequestError};
use crate::record::guarded;

/// The list's files: a table for a spreadsheet.
///
/// # Errors
/// When a step or a blend is unknown.
pub fn files(manifest: &Manifest, materials: &Materials) -> Result<Vec<(String, Vec<u8>)>, RequestError> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let mut text = Vec::new();
    let mut rows = vec![["name", "set", "step", "focus", "code", "file"].map(str::to_owned)];
    for member in &manifest.members {
        rows.push(row(manifest, member, materials)?);
    }
    let written = rows.iter().try_for_each(|row| writer.write_record(row.iter().map(|cell| guarded(cell))));
    // Writing to memory does not fail.
    if written.is_ok() {
        text = writer.into_inner().unwrap_or_default();
    }
    Ok(vec![(format!("{}-class-list.csv", manifest.name), text)])
}

fn row(manifest: &Manifest, member: &Member, materials: &Materials) -> Result<[String; 6], RequestError> {
    let child = member.child.as_ref();
    let step = child.and_then(|child| child.step.as_ref()).or(manifest.plan.step.as_ref());
    let step = match step {
        Some(step) => {
            let step = materials.sequence.step(&step.0)?;
            format!("{} {}", step.number, step.name)
        }
        None => String::new(),
    };
    let focus = child.and_then(|child| child.focus.as_ref()).or(manifest.plan.focus.as_ref());
    let file = if manifest.binding == super::Binding::Each { &member.file } else { &manifest.name };
    Ok([
        member.label(),
        member.set.map(|set| set.to_string()).unwrap_or_default(),
        step,
        focus.map(|focus| focus.0.join(" ")).unwrap_or_default(),
        member.code.map(|code| code.to_string()).unwrap_or_default(),
        format!("{file}.pdf"),
    ])
}
