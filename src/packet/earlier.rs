//! What was in earlier packets, from the manifests in a folder.

use std::path::{Path, PathBuf};

use super::code::Code;
use super::manifest::{Manifest, ManifestError};

/// The runs of a folder, the newest first.
#[derive(Debug, Default)]
pub struct Earlier {
    runs: Vec<(PathBuf, Manifest)>,
}

/// How deep folders are looked through.
const DEEPEST: usize = 12;

impl Earlier {
    /// Reads every manifest in a folder and the folders in it. The newest is the one whose file was changed last; of those that
    /// changed together, the one whose path comes last. What is no manifest is passed over.
    ///
    /// # Errors
    /// When the folder can't be read.
    pub fn read(folder: &Path) -> Result<Self, ManifestError> {
        let mut paths = Vec::new();
        find(folder, 0, &mut paths).map_err(|error| ManifestError {
            file: folder.display().to_string(),
            why: format!("this folder can't be read: {error}"),
            hint: "name a folder in which packets were made".to_owned(),
        })?;
        let changed = |path: &PathBuf| path.metadata().and_then(|data| data.modified()).ok();
        paths.sort_by_cached_key(|path| std::cmp::Reverse((changed(path), path.clone())));
        let read = |path: PathBuf| Manifest::read(&path).ok().map(|manifest| (path, manifest));
        Ok(Self { runs: paths.into_iter().filter_map(read).collect() })
    }

    /// The words of the last packets of a child, each once.
    #[must_use]
    pub fn words_of(&self, child: &str, last: usize) -> Vec<String> {
        let packets = self.runs.iter().filter_map(|(path, manifest)| {
            let named = |name: &str| name.to_lowercase() == child.to_lowercase();
            let member = manifest.members.iter().find(|member| named(&member.label())).or_else(|| {
                // A packet by itself may state the child in its plan.
                manifest.members.first().filter(|_| manifest.plan.child.as_deref().is_some_and(named))
            })?;
            manifest.record(path, member)
        });
        let sheets = packets.take(last).flat_map(|record| record.sheets);
        let words: std::collections::BTreeSet<String> =
            sheets.flat_map(|sheet| sheet.words).map(|(word, _)| word).collect();
        words.into_iter().collect()
    }

    /// The manifests in which a member has a code, each with its path and the member's place.
    pub fn with_code(&self, code: Code) -> impl Iterator<Item = (&Path, &Manifest, usize)> {
        self.runs.iter().filter_map(move |(path, manifest)| {
            let at = manifest.members.iter().position(|member| member.code == Some(code))?;
            Some((path.as_path(), manifest, at))
        })
    }

    /// How many manifests there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.runs.len()
    }

    /// Whether there is none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.runs.is_empty()
    }
}

fn find(folder: &Path, depth: usize, found: &mut Vec<PathBuf>) -> std::io::Result<()> {
    for entry in std::fs::read_dir(folder)? {
        let entry = entry?;
        let path = entry.path();
        if entry.file_type()?.is_dir() {
            if depth < DEEPEST {
                // A folder inside that can't be read is passed over, as what is no manifest is.
                let _ = find(&path, depth + 1, found);
            }
        } else if entry.file_type()?.is_file() && Manifest::is_named(&path) {
            found.push(path);
        }
    }
    Ok(())
}
