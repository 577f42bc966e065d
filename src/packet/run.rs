//! Making the files of a run: each packet whole, on its own, with a record of what it came to.

use std::path::{Path, PathBuf};

use super::class::Member;
use super::make::{Made, MakeError, make_some};
use super::manifest::{Binding, MadeRecord, MadeSheet, Manifest, record_path};
use super::plan::KeyPlace;
use super::request::{Materials, PacketRequest, RequestError};
use super::write::{Outputs, WriteError};
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
}

/// A packet with its files' bytes.
pub struct Packed {
    /// The files by name.
    pub files: Vec<(String, Vec<u8>)>,
    /// What it came to.
    pub record: MadeRecord,
    /// Words that were to be spared and had to be used.
    pub repeated: Vec<String>,
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
    let made = made(&request, member, materials)?;
    let mut files = vec![(format!("{}.pdf", member.file), pdf::write(&made.document)?)];
    if let Some(key) = &made.key {
        files.push((format!("{}-key.pdf", member.file), pdf::write(key)?));
    }
    let record = record(&made, member, &files);
    let repeated = repeated(&request, &record);
    Ok(Packed { files, record, repeated })
}

/// One page of a member's packet, counted from 1, as a file by itself; `None` when there is no such page.
///
/// # Errors
/// When a sheet can't be filled, placed or drawn.
pub fn page(
    manifest: &Manifest,
    member: &Member,
    materials: &Materials,
    number: usize,
    mark: Option<&str>,
) -> Result<Option<Vec<u8>>, RunError> {
    let mut request = manifest.request(member, materials)?;
    request.mark = mark.map(str::to_owned);
    let mut document = made(&request, member, materials)?.document;
    let Some(at) = number.checked_sub(1).filter(|at| *at < document.pages.len()) else { return Ok(None) };
    document.pages = vec![document.pages.swap_remove(at)];
    document.bookmarks.clear();
    Ok(Some(pdf::write(&document)?))
}

/// What is kept of a packet and its files.
pub fn record(made: &Made, member: &Member, files: &[(String, Vec<u8>)]) -> MadeRecord {
    let mark = |(name, bytes): &(String, Vec<u8>)| (name.clone(), blake3::hash(bytes).to_hex().to_string());
    MadeRecord {
        code: member.code,
        files: files.iter().map(mark).collect(),
        sheets: made.sheets.iter().map(MadeSheet::of).collect(),
    }
}

/// The words that were to be spared and stand in the packet all the same.
pub fn repeated(request: &PacketRequest, record: &MadeRecord) -> Vec<String> {
    let spare = &request.hand.spare;
    let words = record.sheets.iter().flat_map(|sheet| &sheet.words).map(|(word, _)| word);
    let found: std::collections::BTreeSet<&String> = words.filter(|word| spare.contains(word)).collect();
    found.into_iter().cloned().collect()
}

fn made(request: &PacketRequest, member: &Member, materials: &Materials) -> Result<Made, RunError> {
    make_some(request, materials, None).map_err(|source| RunError::Make { label: member.label(), source })
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
    if resume {
        if let Some(files) = whole(&kept, member, folder) {
            return Ok(Done { files, found: true, repeated: Vec::new() });
        }
        super::write::clear_parts(folder, &[&format!("{}.pdf", member.file), &format!("{}-key.pdf", member.file)]);
    }
    let Packed { files, record, repeated } = pack(manifest, member, materials)?;
    let mut outputs = Outputs::default();
    for (name, bytes) in files {
        outputs.add(folder.join(name), bytes);
    }
    outputs.add(kept, serde_json::to_vec_pretty(&record).unwrap_or_default());
    let mut files = outputs.commit()?;
    files.pop();
    Ok(Done { files, found: false, repeated })
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

/// The packets of all members in one file, and their keys in another when they go apart.
///
/// # Errors
/// When a packet can't be made.
pub fn bound(manifest: &Manifest, materials: &Materials) -> Result<Bound, RunError> {
    let mut parts: Vec<(Vec<Document>, Vec<Document>)> = Vec::new();
    let mut records = Vec::new();
    for member in &manifest.members {
        let mut request = manifest.request(member, materials)?;
        let wants_key = request.key != KeyPlace::None;
        request.key = if wants_key { KeyPlace::Apart } else { KeyPlace::None };
        let whole = made(&request, member, materials)?;
        records.push((member.file.clone(), record(&whole, member, &[])));
        let of_sheets = |only: Option<&[usize]>| -> Result<(Document, Option<Document>), RunError> {
            let made = make_some(&request, materials, only);
            let made = made.map_err(|source| RunError::Make { label: member.label(), source })?;
            Ok((named(made.document, member), made.key.map(|key| named(key, member))))
        };
        let mut sheets = Vec::new();
        let mut keys = Vec::new();
        if manifest.binding == Binding::BySheet {
            for number in 1..=request.sheets.len() {
                let (sheet, key) = of_sheets(Some(&[number]))?;
                sheets.push(sheet);
                keys.extend(key);
            }
        } else {
            sheets.push(named(whole.document, member));
            keys.extend(whole.key.map(|key| named(key, member)));
        }
        parts.push((sheets, keys));
    }
    let rounds = parts.iter().map(|(sheets, _)| sheets.len()).max().unwrap_or_default();
    let in_order = |pick: fn(&(Vec<Document>, Vec<Document>)) -> &Vec<Document>| -> Vec<Document> {
        (0..rounds).flat_map(|round| parts.iter().filter_map(move |part| pick(part).get(round).cloned())).collect()
    };
    let mut documents = in_order(|part| &part.0);
    let keys = in_order(|part| &part.1);
    let title = manifest.plan.title.clone();
    let apart = manifest.plan.key == Some(KeyPlace::Apart);
    if !apart {
        documents.extend(keys.iter().cloned());
    }
    Ok(Bound {
        document: joined(documents, &title),
        key: (apart && !keys.is_empty()).then(|| joined(keys, &format!("{title} (key)"))),
        records,
    })
}

/// A run in one file.
pub struct Bound {
    /// The sheets, with the keys after them unless they go apart.
    pub document: Document,
    /// The keys.
    pub key: Option<Document>,
    /// What each packet came to, by the name of its file; it has no files of its own.
    pub records: Vec<(String, MadeRecord)>,
}

/// The same document, its bookmarks beginning with whose it is.
fn named(mut document: Document, member: &Member) -> Document {
    for bookmark in &mut document.bookmarks {
        bookmark.title = format!("{}: {}", member.label(), bookmark.title);
    }
    document
}

/// Documents one after the other; page numbers stay those of each packet.
fn joined(documents: Vec<Document>, title: &str) -> Document {
    let language = documents.first().map_or_else(|| "en-US".to_owned(), |first| first.language.clone());
    let mut all = Document { title: title.to_owned(), language, pages: Vec::new(), bookmarks: Vec::new() };
    for document in documents {
        let before = all.pages.len();
        all.bookmarks.extend(document.bookmarks.into_iter().map(|mut bookmark| {
            bookmark.page += before;
            bookmark
        }));
        all.pages.extend(document.pages);
    }
    all
}
