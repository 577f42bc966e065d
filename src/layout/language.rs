//! Texts in other languages: one file a language, which a user's own can be laid over.
//!
//! The words to practise stay English. A sheet is translated when the file has its layout; then every text of it must be there, and
//! one that is missing is an error that names its key. Sheets whose layouts the file has not stay English, as the class is.

use std::collections::{BTreeMap, BTreeSet};

use serde::Deserialize;

use super::spec::Layout;
use super::text::Template;
use crate::page::Face;
use crate::sheet::{Labels, Reader};
use crate::yaml::{self, YamlError};

/// A language file.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Language {
    /// Its BCP 47 tag, such as `es`, by which it is asked for.
    pub language: String,
    /// What stands around the content of a page.
    pub labels: LabelTexts,
    /// What a sheet practises, by the name of its layout: a sentence for the family.
    pub skills: BTreeMap<String, String>,
    /// What is said of a sheet whose layout is not among `skills`.
    pub other_skill: Option<String>,
    /// The texts of layouts, by name.
    pub layouts: BTreeMap<String, LayoutTexts>,
    /// The files it was read from, the last laid over the others; for messages.
    #[serde(skip)]
    files: Vec<String>,
}

/// The words of the name line and the footer.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct LabelTexts {
    /// Before the line for the name.
    pub name: Option<String>,
    /// Before the line for the date.
    pub date: Option<String>,
    /// Which page it is of how many, with `{page}` and `{pages}`.
    pub page: Option<String>,
    /// Before the seed.
    pub seed: Option<String>,
}

/// The texts of one layout.
#[derive(Clone, Debug, Default, PartialEq, Eq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct LayoutTexts {
    /// Its heading.
    pub title: Option<String>,
    /// The line for the child.
    pub directions: Option<String>,
    /// The line for the adult.
    pub note: Option<String>,
    /// Its own texts by name.
    pub texts: BTreeMap<String, String>,
}

/// A layout's texts in one language, all of them.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Translated {
    /// The heading.
    pub title: String,
    /// The line for the child.
    pub directions: String,
    /// The line for the adult.
    pub note: String,
    /// The layout's own texts.
    pub texts: BTreeMap<String, String>,
    /// What stands around the content.
    pub labels: Labels,
}

impl Translated {
    /// The texts as the layout itself has them.
    #[must_use]
    pub fn english(layout: &Layout) -> Self {
        Self {
            title: layout.title.clone(),
            directions: layout.directions.clone(),
            note: layout.note.clone(),
            texts: layout.texts.clone(),
            labels: Labels::default(),
        }
    }
}

/// A language can't be used for a sheet.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{why}\nhelp: {hint}")]
pub struct LanguageError {
    /// What is wrong.
    pub why: String,
    /// What to do.
    pub hint: String,
}

impl Language {
    /// Reads a language file. `file` is only for messages.
    ///
    /// # Errors
    /// All that is wrong with it.
    pub fn read(file: &str, text: &str) -> Result<Self, Vec<YamlError>> {
        let mut language: Self = yaml::from_str(file, text).map_err(|error| vec![error])?;
        let mut problems = Vec::new();
        let mut problem = |path: &str, message: &str, hint: &str| {
            problems.push(YamlError::in_file(file, text, path, message).with_hint(hint));
        };
        let tag = &language.language;
        if tag.len() < 2 || tag.len() > 35 || !tag.chars().all(|c| c.is_ascii_alphanumeric() || c == '-') {
            problem("language", &format!("`{tag}` is not the tag of a language"), "write one such as `es` or `pt-BR`");
        }
        for (path, words) in language.all() {
            if let Some(character) = Face::ALL.iter().find_map(|face| face.missing(words).first().copied()) {
                problem(&path, &format!("the font has no {character:?}"), "write it without this character");
            }
        }
        if language.labels.page.as_ref().is_some_and(|page| !page.contains("{page}") || !page.contains("{pages}")) {
            problem("labels.page", "it has to say {page} and {pages}", "write it such as `page {page} of {pages}`");
        }
        if !problems.is_empty() {
            return Err(problems);
        }
        language.files.push(file.to_owned());
        Ok(language)
    }

    /// Every text in the file, with its key.
    fn all<'a>(&'a self) -> Vec<(String, &'a str)> {
        let Self { labels, skills, other_skill, layouts, .. } = self;
        let mut all: Vec<(String, &'a str)> = Vec::new();
        let mut add = |key: String, text: Option<&'a String>| all.extend(text.map(|text| (key, text.as_str())));
        for (key, label) in
            [("name", &labels.name), ("date", &labels.date), ("page", &labels.page), ("seed", &labels.seed)]
        {
            add(format!("labels.{key}"), label.as_ref());
        }
        add("other_skill".to_owned(), other_skill.as_ref());
        for (layout, skill) in skills {
            add(format!("skills.{layout}"), Some(skill));
        }
        for (name, texts) in layouts {
            for (key, text) in [("title", &texts.title), ("directions", &texts.directions), ("note", &texts.note)] {
                add(format!("layouts.{name}.{key}"), text.as_ref());
            }
            for (key, text) in &texts.texts {
                add(format!("layouts.{name}.texts.{key}"), Some(text));
            }
        }
        all
    }

    /// Lays another file of the same language over this: what it says takes the place of what is said here.
    pub(super) fn lay_over(&mut self, other: Self) {
        let Self { labels, skills, other_skill, layouts, files, .. } = other;
        let put = |to: &mut Option<String>, from: Option<String>| *to = from.or(to.take());
        put(&mut self.labels.name, labels.name);
        put(&mut self.labels.date, labels.date);
        put(&mut self.labels.page, labels.page);
        put(&mut self.labels.seed, labels.seed);
        put(&mut self.other_skill, other_skill);
        self.skills.extend(skills);
        for (name, texts) in layouts {
            let own = self.layouts.entry(name).or_default();
            put(&mut own.title, texts.title);
            put(&mut own.directions, texts.directions);
            put(&mut own.note, texts.note);
            own.texts.extend(texts.texts);
        }
        self.files.extend(files);
    }

    /// The texts of a layout, or `None` when it stays English: the file has none for it, and it is not for the family.
    ///
    /// # Errors
    /// When a text is missing, or names something else in braces than the English one does; the message has its key.
    pub fn translated(&self, layout: &Layout) -> Result<Option<Translated>, LanguageError> {
        let place = format!("layouts.{}", layout.name);
        let Some(own) = self.layouts.get(&layout.name) else {
            let stays = layout.reader != Reader::Family;
            return if stays { Ok(None) } else { Err(self.missing(&place)) };
        };
        let text = |key: &str, english: &str, text: Option<&String>| -> Result<String, LanguageError> {
            match text {
                Some(text) if names(text) == names(english) => Ok(text.clone()),
                Some(_) => Err(self.other_names(key, english)),
                None if english.is_empty() => Ok(String::new()),
                None => Err(self.missing(key)),
            }
        };
        let mut texts = BTreeMap::new();
        for (key, english) in &layout.texts {
            texts.insert(key.clone(), text(&format!("{place}.texts.{key}"), english, own.texts.get(key))?);
        }
        let label = |key: &str, text: &Option<String>| {
            text.clone().filter(|text| !text.is_empty()).ok_or_else(|| self.missing(&format!("labels.{key}")))
        };
        Ok(Some(Translated {
            title: text(&format!("{place}.title"), &layout.title, own.title.as_ref())?,
            directions: text(&format!("{place}.directions"), &layout.directions, own.directions.as_ref())?,
            note: text(&format!("{place}.note"), &layout.note, own.note.as_ref())?,
            texts,
            labels: Labels {
                name: label("name", &self.labels.name)?,
                date: label("date", &self.labels.date)?,
                page: label("page", &self.labels.page)?,
                seed: label("seed", &self.labels.seed)?,
            },
        }))
    }

    /// What a sheet practises, in words for the family: of its own layout, or what is said of any other.
    ///
    /// # Errors
    /// When there is neither.
    pub fn skill(&self, layout: &str) -> Result<String, LanguageError> {
        self.skills.get(layout).or(self.other_skill.as_ref()).cloned().ok_or_else(|| self.missing("other_skill"))
    }

    /// The error for a text that is not there.
    #[must_use]
    pub fn missing(&self, key: &str) -> LanguageError {
        LanguageError {
            why: format!("the texts in `{}` ({}) have no `{key}`", self.language, self.files.join(", ")),
            hint: format!(
                "write it into a file languages/{}.yaml in a folder of your own, and name the folder with --layouts",
                self.language
            ),
        }
    }

    fn other_names(&self, key: &str, english: &str) -> LanguageError {
        let listed: Vec<String> = names(english).iter().map(|name| format!("{{{name}}}")).collect();
        let what = if listed.is_empty() { "no name in braces".to_owned() } else { listed.join(", ") };
        LanguageError {
            why: format!(
                "`{key}` in `{}` ({}) does not tell the same as the English text, which has {what}",
                self.language,
                self.files.join(", ")
            ),
            hint: format!("write it with {what}"),
        }
    }
}

/// The names in braces of a text; those of a text with unpaired braces are none that a text can have.
fn names(text: &str) -> BTreeSet<String> {
    text.parse::<Template>()
        .map_or_else(|_| BTreeSet::from(["{".to_owned()]), |template| template.names().map(str::to_owned).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    const LAYOUT: &str =
        "name: a\ntitle: T\nnote: N\nskill: S.\ntexts: {hello: \"Hi {child}\"}\nfill: words\npage: [title]\n";

    fn language(text: &str) -> Language {
        Language::read("es.yaml", &format!("language: es\n{text}")).unwrap()
    }

    const LABELS: &str = "labels: {name: n, date: d, page: \"{page}/{pages}\", seed: s}\n";

    #[test]
    fn a_text_that_is_missing_is_named() {
        let layout = Layout::read("a.yaml", LAYOUT).unwrap();
        let family = Layout::read("a.yaml", &format!("reader: family\n{LAYOUT}")).unwrap();
        assert_eq!(language("").translated(&layout), Ok(None));
        let why = |text: &str, layout: &Layout| language(text).translated(layout).unwrap_err().to_string();
        assert!(why("", &family).contains("have no `layouts.a`"));
        assert!(why("layouts: {a: {}}\n", &layout).contains("`layouts.a.texts.hello`"));
        let hello = "layouts: {a: {title: t, note: n, texts: {hello: \"hola {child}\"}}}\n";
        assert!(why(hello, &layout).contains("`labels.name`"));
        assert!(why(&hello.replace("note: n,", ""), &layout).contains("`layouts.a.note`"), "{}", why(hello, &layout));
        assert!(why(&hello.replace("{child}", ""), &layout).contains("{child}"));
        let texts = language(&format!("{LABELS}{hello}")).translated(&layout).unwrap().unwrap();
        assert_eq!((texts.title.as_str(), texts.directions.as_str()), ("t", ""));
        assert_eq!(texts.labels.page_of(1, 2), "1/2");
    }

    #[test]
    fn one_file_is_laid_over_another_text_by_text() {
        let mut under = language("skills: {a: eins, b: zwei}\nlabels: {name: n}\n");
        under.lay_over(language("skills: {b: drei}\nlabels: {date: d}\n"));
        assert_eq!((under.skill("a").unwrap(), under.skill("b").unwrap()), ("eins".to_owned(), "drei".to_owned()));
        assert!(under.skill("c").unwrap_err().to_string().contains("`other_skill`"));
        assert_eq!((under.labels.name.as_deref(), under.labels.date.as_deref()), (Some("n"), Some("d")));
    }

    #[test]
    fn what_is_wrong_with_a_file_is_said_with_its_place() {
        for (text, part) in [
            ("language: e\n", "es.yaml:1:1: `e` is not"),
            ("language: es\nlabels: {page: p}\n", "{page} and {pages}"),
            ("language: es\nskills: {a: \"\u{4e2d}\"}\n", "the font has no"),
            ("language: es\nskils: {}\n", "`skills`"),
        ] {
            let wrong = Language::read("es.yaml", text).unwrap_err();
            assert!(wrong[0].to_string().contains(part), "{}", wrong[0]);
        }
    }
}
