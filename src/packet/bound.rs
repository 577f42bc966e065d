//! All packets of a run in one file, to be printed at once.

use super::class::Member;
use super::make::{Laid, Made};
use super::manifest::{Binding, MadeRecord, Manifest};
use super::plan::KeyPlace;
use super::request::Materials;
use super::run::{RunError, record};
use crate::page::Document;

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
        let laid = Laid::new(&request, materials).map_err(|source| RunError::Make { label: member.label(), source })?;
        let whole = laid.bound(None);
        records.push((member.file.clone(), record(&whole, member, &[])));
        let made: Vec<Made> = match manifest.binding {
            Binding::BySheet => (1..=request.sheets.len()).map(|number| laid.bound(Some(&[number]))).collect(),
            Binding::Each | Binding::ByChild => vec![whole],
        };
        let (mut sheets, mut keys) = (Vec::new(), Vec::new());
        for Made { document, key, .. } in made {
            sheets.push(named(document, member));
            keys.extend(key.map(|key| named(key, member)));
        }
        parts.push((sheets, keys));
    }
    let (sheets, keys): (Vec<Vec<Document>>, Vec<Vec<Document>>) = parts.into_iter().unzip();
    let mut documents = by_turns(&sheets);
    let keys = by_turns(&keys);
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

/// The first document of each, then the second of each, and so on.
fn by_turns(all: &[Vec<Document>]) -> Vec<Document> {
    let rounds = all.iter().map(Vec::len).max().unwrap_or_default();
    (0..rounds).flat_map(|round| all.iter().filter_map(move |part| part.get(round).cloned())).collect()
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
