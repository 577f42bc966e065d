//! The record's file: plain CSV that only grows.
//!
//! A run that adds holds an exclusive lock on the file from reading to the end of writing, so that two at once take turns, and writes
//! its rows with one call at the end of the file. The lock is the system's own and goes with the process, even a killed one. A run
//! killed between may leave a last line without its end: it is told, and mended by the next run that adds.

use std::collections::{BTreeMap, BTreeSet};
use std::fs::{File, OpenOptions};
use std::io::{self, Read, Seek, SeekFrom, Write};
use std::path::{Path, PathBuf};

use super::read::read_record;
use super::row::{Row, header};
use super::table::TableError;

/// The largest record that is read, in bytes: 64 MiB, about a million rows.
const MAX_BYTES: u64 = 64 << 20;

/// Why a record can't be read or added to.
#[derive(Debug, thiserror::Error)]
pub enum RecordError {
    /// A row of it is wrong.
    #[error(
        "{0}\nhelp: a record is changed by adding rows; mend it in a text editor, or add what is right of it to a new one"
    )]
    Rows(TableError),
    /// It has not the form in which records are written.
    #[error(
        "{path} is not a record: {why}\nhelp: name another file for the record; a filled-in table is added to a record: sheafling \
         record add RECORD.csv {path}"
    )]
    Form {
        /// The file.
        path: String,
        /// What is not as it should be.
        why: String,
    },
    /// The file can't be opened, locked, read or written.
    #[error("{path} can't be {what}: {why}\nhelp: {hint}")]
    File {
        /// The file.
        path: String,
        /// What was tried.
        what: &'static str,
        /// The system's reason.
        why: String,
        /// What to do.
        hint: &'static str,
    },
}

impl RecordError {
    fn new(path: &Path, what: &'static str, error: &io::Error) -> Self {
        let hint = match (what, error.kind()) {
            (_, io::ErrorKind::NotFound) => "look at the name, or begin a record with `sheafling record add`",
            (_, io::ErrorKind::StorageFull) => "make room on the disk; nothing was added",
            ("locked", _) => "keep the record on a disk of this computer, where two runs can take turns",
            _ => "choose a file that you may read and write",
        };
        Self::File { path: path.display().to_string(), what, why: error.to_string(), hint }
    }
}

/// What a record holds.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Record {
    /// Its rows, in the order in which they were added.
    pub rows: Vec<Row>,
    /// What is left of a last line that was cut off while it was written; it is not among the rows.
    pub cut: Option<String>,
}

/// What adding did.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Added {
    /// How many rows were added.
    pub rows: usize,
    /// How many were in the record already and were left out, or were added all the same when that was asked.
    pub known: usize,
    /// How many of those added are about an item that the child has tried in the same skill on the same day: they count as another try.
    pub other_tries: usize,
    /// Children whom the record did not have before, in the order in which they came, each with one of it that is named much alike.
    pub new_children: Vec<(String, Option<String>)>,
    /// Where what was left of a line that had been cut off was put.
    pub set_aside: Option<PathBuf>,
    /// Whether the last line lacked its end and was taken for whole.
    pub ended: bool,
}

/// Reads a record, while no other run is writing to it.
///
/// # Errors
/// When it can't be read, or has a row that is wrong.
pub fn load(path: &Path) -> Result<Record, RecordError> {
    let mut file = File::open(path).map_err(|error| RecordError::new(path, "read", &error))?;
    match file.lock_shared() {
        // Where a disk has no locks, reading goes on without one.
        Err(error) if error.kind() != io::ErrorKind::Unsupported => Err(RecordError::new(path, "locked", &error)),
        _ => read(path, &mut file).map(|found| found.record),
    }
}

/// Adds rows to a record; the file is made when there is none. A child's name that differs from one in the record by capitals alone is
/// written as there. Rows that the record has already, alike in every column, are left out unless they are wanted `again`; two alike in
/// `rows` are two tries. So the same table can be added once more after it has grown.
///
/// # Errors
/// When the file can't be locked, read or written, or is not a record. Then it is as it was before.
pub fn add(path: &Path, rows: Vec<Row>, again: bool) -> Result<Added, RecordError> {
    if rows.is_empty() {
        return Ok(Added::default());
    }
    let failed = |what| move |error: io::Error| RecordError::new(path, what, &error);
    let mut options = OpenOptions::new();
    let mut file = options.read(true).append(true).create(true).open(path).map_err(failed("opened"))?;
    file.lock().map_err(failed("locked"))?;
    let found = read(path, &mut file)?;
    let mut added = Added { ended: found.unended, ..Added::default() };
    let mut bytes = String::new();
    let mut length = found.whole;
    if let Some(cut) = &found.record.cut {
        if !header().starts_with(cut.as_str()) || found.whole > 0 {
            added.set_aside = Some(set_aside(path, cut)?);
        }
        file.set_len(found.whole).and_then(|()| file.sync_all()).map_err(failed("written"))?;
    } else if found.unended {
        bytes.push('\n');
        length = found.length;
    }
    if found.whole == 0 && !found.unended {
        bytes.push_str(&header());
    }
    let fresh = fresh(&found.record.rows, rows, again, &mut added);
    for row in &fresh {
        bytes.push_str(&row.line());
    }
    if fresh.is_empty() && !found.unended {
        return Ok(added);
    }
    let written = file.write_all(bytes.as_bytes()).and_then(|()| file.sync_all());
    if let Err(error) = written {
        // Nothing half: what was written of the rows goes again.
        let _ = file.set_len(length);
        return Err(RecordError::new(path, "written", &error));
    }
    sync_folder(path);
    Ok(added)
}

/// A record's file as it is found.
struct Found {
    record: Record,
    /// The bytes up to the end of the last line that has an end.
    whole: u64,
    /// All bytes.
    length: u64,
    /// Whether the last line has no end and yet is a whole row, which is among the record's.
    unended: bool,
}

fn read(path: &Path, file: &mut File) -> Result<Found, RecordError> {
    let failed = |error: io::Error| RecordError::new(path, "read", &error);
    let form = |why: String| RecordError::Form { path: path.display().to_string(), why };
    let mut bytes = Vec::new();
    file.seek(SeekFrom::Start(0)).map_err(failed)?;
    file.take(MAX_BYTES + 1).read_to_end(&mut bytes).map_err(failed)?;
    let length = bytes.len() as u64;
    if length > MAX_BYTES {
        return Err(form(format!("it is larger than {} MiB", MAX_BYTES >> 20)));
    }
    let whole = bytes.iter().rposition(|byte| *byte == b'\n').map_or(0, |at| at + 1);
    let (lines, rest) = bytes.split_at(whole);
    let text = str::from_utf8(lines).map_err(|_| form("it is not UTF-8 text".to_owned()))?;
    let rest = String::from_utf8_lossy(rest).into_owned();
    let mut found = Found { record: Record::default(), whole: whole as u64, length, unended: false };
    if text.is_empty() {
        // A new file, or one whose making was cut off in its first line.
        if !header().starts_with(&rest) {
            return Err(form(format!("its first line is not `{}`", header().trim_end())));
        }
        found.record.cut = Some(rest).filter(|rest| !rest.is_empty());
        return Ok(found);
    }
    if !text.starts_with(&header()) {
        return Err(form(format!("its first line is not `{}`", header().trim_end())));
    }
    let name = path.display().to_string();
    found.record.rows = read_record(&name, text).map_err(RecordError::Rows)?;
    if !rest.is_empty() {
        match read_record(&name, &(header() + &rest)) {
            Ok(mut last) if last.len() == 1 && rest.matches(',').count() >= 5 => {
                found.record.rows.append(&mut last);
                found.unended = true;
            }
            _ => found.record.cut = Some(rest),
        }
    }
    Ok(found)
}

/// The rows that are to be written, with children named as in the record.
fn fresh(known: &[Row], rows: Vec<Row>, again: bool, added: &mut Added) -> Vec<Row> {
    let mut names: BTreeMap<String, String> = BTreeMap::new();
    for row in known {
        names.entry(row.child.to_lowercase()).or_insert_with(|| row.child.clone());
    }
    // How often the record has each row, less what has been met of it.
    let mut left: BTreeMap<&Row, usize> = BTreeMap::new();
    for row in known {
        *left.entry(row).or_default() += 1;
    }
    let tasks: BTreeSet<_> = known.iter().map(Row::task).collect();
    let mut fresh = Vec::with_capacity(rows.len());
    for mut row in rows {
        let folded = row.child.to_lowercase();
        if !names.contains_key(&folded) {
            let alike = if known.is_empty() {
                None
            } else {
                crate::nearest::nearest(&row.child, known.iter().map(|row| row.child.as_str()))
            };
            added.new_children.push((row.child.clone(), alike.map(str::to_owned)));
        }
        row.child.clone_from(names.entry(folded).or_insert_with(|| row.child.clone()));
        if let Some(count) = left.get_mut(&row).filter(|count| **count > 0) {
            *count -= 1;
            added.known += 1;
            if !again {
                continue;
            }
        } else if tasks.contains(&row.task()) {
            added.other_tries += 1;
        }
        fresh.push(row);
    }
    added.rows = fresh.len();
    fresh
}

/// Puts the rest of a line that was cut off into a file beside the record, after what is there.
fn set_aside(path: &Path, cut: &str) -> Result<PathBuf, RecordError> {
    let name = path.file_name().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default();
    let beside = path.with_file_name(format!("{name}.cut"));
    let write = || {
        let mut file = OpenOptions::new().append(true).create(true).open(&beside)?;
        file.write_all(format!("{cut}\n").as_bytes())?;
        file.sync_all()
    };
    write().map_err(|error| RecordError::new(&beside, "written", &error))?;
    Ok(beside)
}

/// Makes a new file's name last, where the system has a way. The rows themselves are safe by then.
fn sync_folder(path: &Path) {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    if let Ok(folder) = File::open(folder) {
        let _ = folder.sync_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::record::Day;

    fn row(child: &str, item: &str, right: bool) -> Row {
        let date = Day::new(2025, 3, 4).unwrap();
        Row { child: child.into(), date, skill: "sound-boxes".into(), item: item.into(), right, note: String::new() }
    }

    #[test]
    fn rows_are_kept_in_order_and_told_apart() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("group.csv");
        assert!(load(&path).unwrap_err().to_string().contains("can't be read"));
        let first = add(&path, vec![row("Ana", "flag", true), row("Ben", "-nd", false)], false).unwrap();
        assert_eq!((first.rows, first.known), (2, 0));
        assert_eq!(first.new_children, [("Ana".to_owned(), None), ("Ben".to_owned(), None)]);
        let text = std::fs::read_to_string(&path).unwrap();
        assert_eq!(
            text,
            "child,date,skill,item,right,note\nAna,2025-03-04,sound-boxes,flag,yes,\nBen,2025-03-04,sound-boxes,'-nd,no,\n"
        );
        // The same again, one of them twice, another try, and a name in other capitals.
        let rows =
            vec![row("ana", "flag", true), row("Ana", "flag", true), row("Ben", "-nd", true), row("Anna", "a", true)];
        let second = add(&path, rows.clone(), false).unwrap();
        assert_eq!((second.rows, second.known, second.other_tries), (3, 1, 2));
        assert_eq!(second.new_children, [("Anna".to_owned(), Some("Ana".to_owned()))]);
        assert_eq!(add(&path, rows.clone(), false).unwrap().rows, 0);
        assert_eq!(add(&path, rows, true).unwrap().rows, 4);
        let record = load(&path).unwrap();
        assert_eq!(record.rows.len(), 9);
        assert!(record.rows.iter().all(|row| row.child != "ana"));
        assert_eq!(record.rows[1], row("Ben", "-nd", false));
    }

    /// A run may be killed at any byte: what it leaves is read, told, and whole again when the same rows are added once more.
    #[test]
    fn a_line_cut_off_anywhere_is_mended() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("group.csv");
        let note = |row: Row| Row { note: "“s”, slowly".to_owned(), ..row };
        let rows = vec![note(row("Ana", "flag", true)), row("Zoë", "-nd", false), note(row("Ana", "clap", true))];
        add(&path, rows.clone(), false).unwrap();
        let whole = std::fs::read(&path).unwrap();
        for cut in 0..whole.len() {
            let beside = folder.path().join("group.csv.cut");
            let _ = std::fs::remove_file(&beside);
            std::fs::write(&path, &whole[..cut]).unwrap();
            let before = load(&path).unwrap();
            let added = add(&path, rows.clone(), false).unwrap();
            let after = load(&path).unwrap();
            assert_eq!(after.cut, None, "{cut}");
            assert!(rows.iter().all(|row| after.rows.contains(row)), "{cut}");
            if added.ended {
                // It reads as a whole row, which may lack the end of its note: it is told, and stays.
                assert!(before.cut.is_none() && after.rows.len() <= rows.len() + 1, "{cut}");
            } else {
                assert_eq!(after.rows, rows, "{cut}");
                assert_eq!(std::fs::read(&path).unwrap(), whole, "{cut}");
                let header_only = cut < header().len();
                assert_eq!(added.set_aside.is_some(), before.cut.is_some() && !header_only, "{cut}");
                assert_eq!(beside.exists(), added.set_aside.is_some(), "{cut}");
            }
        }
    }

    #[test]
    fn another_file_is_never_added_to() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("letter.txt");
        for text in [
            "Dear parents,\nwe\n",
            "Dear",
            "child;date;skill;item;right;note\n",
            "\u{feff}child,date,skill,item,right,note\n",
        ] {
            std::fs::write(&path, text).unwrap();
            assert!(
                matches!(add(&path, vec![row("Ana", "flag", true)], false), Err(RecordError::Form { .. })),
                "{text}"
            );
            assert_eq!(std::fs::read_to_string(&path).unwrap(), text);
        }
        let wrong = header() + "Ana,2025-03-04,sound-boxes,flag,perhaps,\n";
        std::fs::write(&path, &wrong).unwrap();
        assert!(matches!(add(&path, vec![row("Ana", "flag", true)], false), Err(RecordError::Rows(_))));
        assert_eq!(std::fs::read_to_string(&path).unwrap(), wrong);
        assert!(add(folder.path(), vec![row("Ana", "flag", true)], false).is_err());
    }
}
