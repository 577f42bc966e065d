//! Writing files whole or not at all.

use std::collections::BTreeSet;
use std::fs;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Files to be written together: each is written beside its place first, and only when all are there are they put in place.
#[derive(Debug, Default)]
pub struct Outputs {
    files: Vec<(PathBuf, Vec<u8>)>,
}

/// A file that can't be written.
#[derive(Debug, thiserror::Error)]
#[error("{path} can't be written: {why}\nhelp: {hint}")]
pub struct WriteError {
    /// The file or folder.
    pub path: String,
    /// The system's reason.
    pub why: String,
    /// What to do.
    pub hint: String,
}

impl WriteError {
    fn new(path: &Path, error: &io::Error) -> Self {
        let hint = match error.kind() {
            io::ErrorKind::PermissionDenied => "choose a folder that you may write to, with --out",
            io::ErrorKind::NotFound => "make the folder first, or choose another with --out",
            io::ErrorKind::StorageFull => "make room on the disk",
            _ => "choose another place with --out",
        };
        Self { path: path.display().to_string(), why: error.to_string(), hint: hint.to_owned() }
    }
}

impl Outputs {
    /// Adds a file.
    pub fn add(&mut self, path: PathBuf, bytes: Vec<u8>) {
        self.files.push((path, bytes));
    }

    /// Where the files go.
    pub fn paths(&self) -> impl Iterator<Item = &Path> {
        self.files.iter().map(|(path, _)| path.as_path())
    }

    /// Writes all files. Folders that are missing are made. Where something fails, nothing is changed, except that files that
    /// were put in place before a failing rename stay.
    ///
    /// # Errors
    /// The first file that can't be written.
    pub fn commit(self) -> Result<Vec<PathBuf>, WriteError> {
        let mut beside = Vec::with_capacity(self.files.len());
        let result = self.files.iter().try_for_each(|(path, bytes)| {
            let part = part_of(path);
            beside.push((part.clone(), path.clone()));
            write_part(&part, path, bytes)
        });
        let result = result.and_then(|()| {
            beside.iter().try_for_each(|(part, path)| fs::rename(part, path).map_err(|e| WriteError::new(path, &e)))
        });
        if let Err(error) = result {
            for (part, _) in &beside {
                // Best effort: what is left is a hidden file with a name of its own.
                let _ = fs::remove_file(part);
            }
            return Err(error);
        }
        Ok(beside.into_iter().map(|(_, path)| path).collect())
    }
}

/// The name under which a file is written before it is put in place.
fn part_of(path: &Path) -> PathBuf {
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    path.with_file_name(format!(".{name}.{}.part", std::process::id()))
}

/// Removes what a run that was broken off left of some files of a folder.
pub(super) fn clear_parts(folder: &Path, files: &BTreeSet<PathBuf>) {
    let Ok(entries) = fs::read_dir(folder) else { return };
    for entry in entries.flatten() {
        let part = entry.file_name().to_string_lossy().into_owned();
        // As `part_of` names them: a dot, the file's name, the number of the run, and the ending.
        let name =
            part.strip_prefix('.').and_then(|rest| rest.strip_suffix(".part")).and_then(|rest| rest.rsplit_once('.'));
        if name.is_some_and(|(name, _)| files.contains(&folder.join(name))) {
            // Best effort: a part that stays is hidden and in nobody's way.
            let _ = fs::remove_file(entry.path());
        }
    }
}

fn write_part(part: &Path, path: &Path, bytes: &[u8]) -> Result<(), WriteError> {
    if path.is_dir() {
        return Err(WriteError {
            path: path.display().to_string(),
            why: "it is a folder".to_owned(),
            hint: "name a file in it".to_owned(),
        });
    }
    if let Some(folder) = path.parent().filter(|folder| !folder.as_os_str().is_empty()) {
        fs::create_dir_all(folder).map_err(|error| WriteError::new(folder, &error))?;
    }
    let write = || {
        let mut file = fs::File::create(part)?;
        file.write_all(bytes)?;
        file.sync_all()
    };
    write().map_err(|error| WriteError::new(path, &error))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_come_whole_or_not_at_all() {
        let folder = tempfile::tempdir().unwrap();
        let good = folder.path().join("deep/a.pdf");
        let mut outputs = Outputs::default();
        outputs.add(good.clone(), b"new".to_vec());
        assert_eq!(outputs.commit().unwrap(), std::slice::from_ref(&good));

        // The second file's place is a folder, so the first keeps what it had.
        let blocked = folder.path().join("b.pdf");
        fs::create_dir(&blocked).unwrap();
        let mut outputs = Outputs::default();
        outputs.add(good.clone(), b"newer".to_vec());
        outputs.add(blocked, b"x".to_vec());
        let error = outputs.commit().unwrap_err();
        assert!(error.to_string().contains("b.pdf can't be written: it is a folder"), "{error}");
        assert_eq!(fs::read(&good).unwrap(), b"new");
        let left: Vec<_> = fs::read_dir(folder.path().join("deep")).unwrap().collect();
        assert_eq!(left.len(), 1);
    }
}
