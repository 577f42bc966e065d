//! The layouts there are: those built in, and a folder laid over them.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use include_dir::{Dir, include_dir};

use super::language::Language;
use super::spec::Layout;
use crate::nearest::nearest;
use crate::sheet::ENGLISH;
use crate::yaml::{YamlError, read_text};

static BUILT_IN: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/layouts");

/// A layout with its file's name and text.
#[derive(Clone, Debug, PartialEq)]
pub struct Stored {
    /// The file, for messages.
    pub file: String,
    /// Its text.
    pub text: String,
    /// What it says.
    pub layout: Layout,
    /// Whether it came with the program.
    pub built_in: bool,
}

/// Layouts by name.
#[derive(Clone, Debug, Default)]
pub struct Library {
    layouts: BTreeMap<String, Stored>,
    languages: BTreeMap<String, Language>,
}

/// The folder beside the layouts that holds the language files.
const LANGUAGES: &str = "languages";

/// Why a layout can't be had.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LibraryError {
    /// No layout has that name.
    #[error("there is no layout `{name}`\nhelp: {hint}")]
    Unknown {
        /// The name asked for.
        name: String,
        /// The nearest one, and where to see all.
        hint: String,
    },
    /// No file has the texts of that language.
    #[error(
        "there are no texts in `{tag}`\nhelp: there are: en{known}; a folder of your own can have more, as languages/{tag}.yaml"
    )]
    Language {
        /// The language asked for.
        tag: String,
        /// The languages there are beside English, each after a comma.
        known: String,
    },
    /// A file is not a layout.
    #[error("{}", .0.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n\n"))]
    Unreadable(Vec<YamlError>),
    /// A folder can't be listed.
    #[error("the folder {folder} can't be read: {why}")]
    Folder {
        /// The folder.
        folder: String,
        /// The system's reason.
        why: String,
    },
}

/// Whether a file's name says that it is YAML.
#[must_use]
pub fn is_yaml(path: &Path) -> bool {
    path.extension().is_some_and(|extension| extension == "yaml" || extension == "yml")
}

/// The YAML files of a folder, by name.
fn yaml_files(folder: &Path) -> Result<Vec<PathBuf>, LibraryError> {
    let failed =
        |error: std::io::Error| LibraryError::Folder { folder: folder.display().to_string(), why: error.to_string() };
    let mut paths = Vec::new();
    for entry in std::fs::read_dir(folder).map_err(failed)? {
        let path = entry.map_err(failed)?.path();
        if is_yaml(&path) {
            paths.push(path);
        }
    }
    paths.sort();
    Ok(paths)
}

impl Library {
    /// The built-in layouts.
    ///
    /// # Errors
    /// When a built-in file is damaged; the tests prove that none is.
    pub fn builtin() -> Result<Self, LibraryError> {
        let mut library = Self::default();
        for file in BUILT_IN.files() {
            let name = file.path().display().to_string();
            if let Some(text) = file.contents_utf8().filter(|_| is_yaml(file.path())) {
                library.add(&format!("layouts/{name}"), text, true)?;
            }
        }
        for file in BUILT_IN.get_dir(LANGUAGES).into_iter().flat_map(Dir::files) {
            let name = file.path().display().to_string();
            if let Some(text) = file.contents_utf8().filter(|_| is_yaml(file.path())) {
                library.add_language(&format!("layouts/{name}"), text)?;
            }
        }
        Ok(library)
    }

    /// Lays a folder of `.yaml` files over the layouts there are: one with a known name takes its place. The files of its folder
    /// `languages` are laid over the texts there are, text by text.
    ///
    /// # Errors
    /// When the folder can't be read, or a file in it is not a layout.
    pub fn lay_over(&mut self, folder: &Path) -> Result<(), LibraryError> {
        for path in yaml_files(folder)? {
            self.add_file(&path)?;
        }
        let languages = folder.join(LANGUAGES);
        if languages.is_dir() {
            for path in yaml_files(&languages)? {
                let text = read_text(&path).map_err(|error| LibraryError::Unreadable(vec![error]))?;
                self.add_language(&path.display().to_string(), &text)?;
            }
        }
        Ok(())
    }

    /// Adds the layout of one file, and gives its name.
    ///
    /// # Errors
    /// When the file can't be read or is not a layout.
    pub fn add_file(&mut self, path: &Path) -> Result<String, LibraryError> {
        let text = read_text(path).map_err(|error| LibraryError::Unreadable(vec![error]))?;
        self.add(&path.display().to_string(), &text, false)
    }

    /// Adds the layout of a text; `file` is only for messages.
    ///
    /// # Errors
    /// When the text is not a layout.
    pub fn add_text(&mut self, file: &str, text: &str) -> Result<String, LibraryError> {
        self.add(file, text, false)
    }

    fn add(&mut self, file: &str, text: &str, built_in: bool) -> Result<String, LibraryError> {
        let layout = Layout::read(file, text).map_err(LibraryError::Unreadable)?;
        let name = layout.name.clone();
        let stored = Stored { file: file.to_owned(), text: text.to_owned(), layout, built_in };
        self.layouts.insert(name.clone(), stored);
        Ok(name)
    }

    /// The layout of a name.
    ///
    /// # Errors
    /// When there is none; the message names the nearest.
    pub fn get(&self, name: &str) -> Result<&Stored, LibraryError> {
        self.layouts.get(name).ok_or_else(|| {
            let near = nearest(name, self.layouts.keys().map(String::as_str));
            let all = "`sheafling list layouts` shows all";
            let hint = near.map_or_else(|| all.to_owned(), |near| format!("did you mean `{near}`? {all}"));
            LibraryError::Unknown { name: name.to_owned(), hint }
        })
    }

    fn add_language(&mut self, file: &str, text: &str) -> Result<(), LibraryError> {
        let language = Language::read(file, text).map_err(LibraryError::Unreadable)?;
        match self.languages.get_mut(&language.language) {
            Some(under) => under.lay_over(language),
            None => drop(self.languages.insert(language.language.clone(), language)),
        }
        Ok(())
    }

    /// The texts in a language; `None` for English, in which the layouts are written.
    ///
    /// # Errors
    /// When no file has them.
    pub fn language(&self, tag: &str) -> Result<Option<&Language>, LibraryError> {
        let tag = tag.trim();
        if tag == "en" || tag == ENGLISH {
            return Ok(None);
        }
        let found = self.languages.get(tag);
        found.map(Some).ok_or_else(|| LibraryError::Language {
            tag: tag.to_owned(),
            known: self.languages.keys().flat_map(|known| [", ", known]).collect(),
        })
    }

    /// All layouts, by name.
    pub fn all(&self) -> impl Iterator<Item = &Stored> {
        self.layouts.values()
    }
}
