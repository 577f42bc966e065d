//! Making the files of a run: each packet whole, on its own, with a record of what it came to.

use std::path::{Path, PathBuf};

use super::class::Member;
use super::make::{Made, MakeError, make_some};
use super::manifest::{MadeRecord, MadeSheet, Manifest, record_path};
use super::request::{Materials, PacketRequest, RequestError};
use super::write::{Outputs, WriteError, clear_parts};
use crate::page::Document;
use crate::pdf;

/// Why a run stops.
#[derive(Debug, thiserror::Error)]
pub enum RunError {
    /// A packet can't be made.
    #[error("the packet of {label}: {source}")]
    Make {
        /// Whose.
        label: String,
        /// Why.
        source: MakeError,
    },
    /// What is asked for is not there.
    #[error(transparent)]
    Request(#[from] RequestError),
    /// The file can't be drawn.
    #[error(transparent)]
    Pdf(#[from] pdf::PdfError),
    /// A file can't be written.
    #[error(transparent)]
    Write(#[from] WriteError),
}

/// What one packet came to.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Done {
    /// The files that were written, or found whole.
    pub files: Vec<PathBuf>,
    /// Whether it was found whole from an earlier run, so that nothing was made.
    pub found: bool,
    /// Words of earlier packets, or not for this child, that had to be used again.
    pub repeated: Vec<String>,
    /// Words that the child is to practise and that fit no sheet.
    pub unplaced: Vec<String>,
}

/// A packet with its files' bytes.
pub struct Packed {
    /// The files by name.
    pub files: Vec<(String, Vec<u8>)>,
    /// Its pages.
    pub document: Document,
    /// What it came to.
    pub record: MadeRecord,
    /// Words that were to be spared and had to be used.
    pub repeated: Vec<String>,
    /// Words that the child is to practise and that fit no sheet.
    pub unplaced: Vec<String>,
}

/// Makes the packet of a member.
///
/// # Errors
/// When a sheet can't be filled, placed or drawn.
pub fn pack(manifest: &Manifest, member: &Member, materials: &Materials) -> Result<Packed, RunError> {
    again(manifest, member, materials, None)
}

/// Makes the packet of a member again; where it can't be the same, `mark` says so at the foot of each page.
///
/// # Errors
/// When a sheet can't be filled, placed or drawn.
pub fn again(
    manifest: &Manifest,
    member: &Member,
    materials: &Materials,
    mark: Option<&str>,
) -> Result<Packed, RunError> {
    let mut request = manifest.request(member, materials)?;
    request.mark = mark.map(str::to_owned);
    let made = make_some(&request, materials, manifest.only.as_deref());
    let made = made.map_err(|source| RunError::Make { label: member.label(), source })?;
    let mut files = vec![(format!("{}.pdf", member.file), pdf::write(&made.document)?)];
    if let Some(key) = &made.key {
        files.push((format!("{}-key.pdf", member.file), pdf::write(key)?));
    }
    let record = record(&made, member, &files);
    let repeated = repeated(&request, &record);
    let stands = |word: &String| record.sheets.iter().flat_map(|sheet| &sheet.words).any(|(other, _)| other == word);
    let unplaced = request.extra.iter().filter(|word| !stands(word)).cloned().collect();
    Ok(Packed { files, document: made.document, record, repeated, unplaced })
}

/// One page of a packet, counted from 1, as a file by itself; `None` when there is no such page.
///
/// # Errors
/// When it can't be drawn.
pub fn page(packed: &Packed, number: usize) -> Result<Option<Vec<u8>>, RunError> {
    let document = &packed.document;
    let Some(page) = number.checked_sub(1).and_then(|at| document.pages.get(at)) else { return Ok(None) };
    let alone = Document { pages: vec![page.clone()], bookmarks: Vec::new(), ..document.clone() };
    Ok(Some(pdf::write(&alone)?))
}

/// What is kept of a packet and its files.
#[must_use]
pub fn record(made: &Made, member: &Member, files: &[(String, Vec<u8>)]) -> MadeRecord {
    let mark = |(name, bytes): &(String, Vec<u8>)| (name.clone(), blake3::hash(bytes).to_hex().to_string());
    MadeRecord {
        code: member.code,
        files: files.iter().map(mark).collect(),
        sheets: made.sheets.iter().map(MadeSheet::of).collect(),
    }
}

/// The words that were to be spared and stand in the packet all the same.
#[must_use]
pub fn repeated(request: &PacketRequest, record: &MadeRecord) -> Vec<String> {
    let spare = &request.hand.spare;
    let words = record.sheets.iter().flat_map(|sheet| &sheet.words).map(|(word, _)| word);
    let found: std::collections::BTreeSet<&String> = words.filter(|word| spare.contains(word)).collect();
    found.into_iter().cloned().collect()
}

/// Makes the packet of a member and writes it into a folder, record last; with `resume`, a packet whose record and files are
/// whole and of the same request is left as it is.
///
/// # Errors
/// When it can't be made or written.
pub fn write(
    manifest: &Manifest,
    member: &Member,
    materials: &Materials,
    folder: &Path,
    resume: bool,
) -> Result<Done, RunError> {
    let kept = record_path(folder, &manifest.name, &member.file);
    if resume && let Some(files) = whole(&kept, member, folder) {
        return Ok(Done { files, found: true, ..Done::default() });
    }
    let Packed { files, record, repeated, unplaced, .. } = pack(manifest, member, materials)?;
    let mut outputs = Outputs::default();
    for (name, bytes) in files {
        outputs.add(folder.join(name), bytes);
    }
    outputs.add(kept, serde_json::to_vec_pretty(&record).unwrap_or_default());
    let mut files = outputs.commit()?;
    files.pop();
    Ok(Done { files, found: false, repeated, unplaced })
}

/// Removes what a run that was broken off left of some members' files, and of files beside them.
pub fn clear(manifest: &Manifest, members: &[&Member], beside: &[PathBuf], folder: &Path) {
    let records = members.iter().map(|member| record_path(folder, &manifest.name, &member.file));
    let of_members = members.iter().flat_map(|member| {
        [folder.join(format!("{}.pdf", member.file)), folder.join(format!("{}-key.pdf", member.file))]
    });
    clear_parts(folder, &of_members.chain(beside.iter().cloned()).collect());
    clear_parts(&folder.join(Manifest::RECORDS), &records.collect());
}

/// The files of a packet that an earlier run left whole.
fn whole(kept: &Path, member: &Member, folder: &Path) -> Option<Vec<PathBuf>> {
    let record: MadeRecord = serde_json::from_slice(&std::fs::read(kept).ok()?).ok()?;
    if record.code != member.code || record.files.is_empty() {
        return None;
    }
    let mut files = Vec::new();
    for (name, mark) in &record.files {
        let path = folder.join(name);
        let bytes = std::fs::read(&path).ok()?;
        if blake3::hash(&bytes).to_hex().as_str() != mark {
            return None;
        }
        files.push(path);
    }
    Some(files)
}
