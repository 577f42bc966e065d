//! A group of children, as its file writes it: YAML, or a table.
//!
//! ```yaml
//! title: Otters
//! children:
//!   - Ana                       # a name alone stands at the plan's step
//!   - {name: Ben, step: 13, focus: bl cl}
//!   - {name: C., step: 13, words: [lamp], leave-out: [ghost], large-print: yes, left-hand: yes}
//!   - {name: Dana, set: 7, away: yes}
//! ```
//!
//! ```csv
//! name,step,focus,words,leave-out,large-print,left-hand,set,away
//! Ana,13,bl cl,lamp,ghost,,yes,,
//! ```

mod check;
mod names;
mod table;
mod yaml_file;

use std::fmt;
use std::path::Path;

use serde::{Deserialize, Serialize};

use super::plan::{FocusNames, StepName};
use crate::yaml::{YamlError, read_text};

pub use names::{file_names, slug};

/// The most children in one group.
pub const MOST_CHILDREN: usize = 100_000;

/// One child of a group.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Child {
    /// A first name, initials, a nickname or a number, as written. No other child of the group has it.
    pub name: String,
    /// The child's step; the plan's when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<StepName>,
    /// The blends to practise; the plan's when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub focus: Option<FocusNames>,
    /// Words that the child is to practise: they may be read whatever the step, and come first where they fit.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub words: Vec<String>,
    /// Words that are not for this child.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub leave_out: Vec<String>,
    /// Whether words that the child reads are 28 pt or larger.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub large_print: bool,
    /// Whether the child writes with the left hand.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub left_hand: bool,
    /// Which of the equal sets the child gets, from 1; dealt by the order of the file when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub set: Option<usize>,
    /// Whether the child is away: no packet is made, and its set is kept for it.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub away: bool,
}

/// A group file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Group {
    /// What the group is called; may be empty.
    pub title: String,
    /// The children in the order of the class.
    pub children: Vec<Child>,
}

/// All that is wrong with a group file, in the order of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupError(pub Vec<YamlError>);

impl fmt::Display for GroupError {
    /// The problems, an empty line between them.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let texts: Vec<_> = self.0.iter().map(ToString::to_string).collect();
        f.write_str(&texts.join("\n\n"))
    }
}

impl std::error::Error for GroupError {}

impl From<YamlError> for GroupError {
    fn from(error: YamlError) -> Self {
        Self(vec![error])
    }
}

/// What a group's steps, blends and words are held against.
pub use check::Known;
pub(in crate::packet) use check::MOST_SET;

impl Group {
    /// Reads a group's file: a table when its name ends in `.csv` or `.tsv`, else YAML.
    ///
    /// # Errors
    /// When it can't be read, and everything that is wrong in it.
    pub fn read_file(path: &Path, known: &Known) -> Result<Self, GroupError> {
        let text = read_text(path)?;
        Self::read(&path.to_string_lossy(), &text, known)
    }

    /// Reads a group's text; `file` is its name.
    ///
    /// # Errors
    /// Everything that is wrong in it.
    pub fn read(file: &str, text: &str, known: &Known) -> Result<Self, GroupError> {
        let extension = Path::new(file).extension().map(|extension| extension.to_string_lossy().to_lowercase());
        if matches!(extension.as_deref(), Some("csv" | "tsv")) {
            table::read(file, text, known)
        } else {
            yaml_file::read(file, text, known)
        }
    }
}

#[cfg(test)]
mod tests;
