//! A layout file: how a sheet's content is chosen and what its page is made of.

use std::collections::BTreeMap;

use serde::Deserialize;

use super::block::{Block, FooterBlock};
use super::text::Template;
use crate::fill::Fill;
use crate::nearest::nearest;
use crate::page::Face;
use crate::sheet::Reader;
use crate::sounds::Blend;
use crate::yaml::{self, YamlError};

/// A layout, as its file writes it.
#[derive(Clone, Debug, PartialEq, Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Layout {
    /// The name by which it is asked for: small letters, digits and hyphens.
    pub name: String,
    /// The sheet's heading.
    pub title: String,
    /// One short line for the child.
    #[serde(default)]
    pub directions: String,
    /// A line for the adult, in smaller print.
    #[serde(default)]
    pub note: String,
    /// What it practises, in plain words; a sentence.
    pub skill: String,
    /// Codes of published standards, such as `RF.1.2d`.
    #[serde(default)]
    pub standards: Vec<String>,
    /// The step that is taken when none is asked for: its name or number.
    #[serde(default)]
    pub step: Option<String>,
    /// The focus that is taken when none is asked for.
    #[serde(default)]
    pub focus: Vec<String>,
    /// For whom it is printed: `child`, `teacher` or `family`. Only a child's sheet has a key; a note to the family tells of the
    /// whole packet and can be had in other languages.
    #[serde(default)]
    pub reader: Reader,
    /// Texts by name, which `text` blocks print and a language file can translate.
    #[serde(default)]
    pub texts: BTreeMap<String, String>,
    /// How the content is chosen.
    pub fill: Fill,
    /// What the page is made of, from top to bottom.
    pub page: Vec<Block>,
}

/// The names of texts that every item has, for pieces to print in braces.
pub const ITEM_TEXTS: &[&str] =
    &["n", "word", "sounds", "letters", "answer", "also", "shown", "blend", "from", "to", "old", "new"];

/// The names of facts of a sheet that a layout's own texts can tell in braces. A text with one that the sheet has not is left out.
pub const SHEET_TEXTS: &[&str] = &["focus", "child", "step"];

impl Layout {
    /// Reads a layout's text. `file` is only for messages.
    ///
    /// # Errors
    /// All that is wrong with it: the first mistake of form, or every value that is out of range.
    pub fn read(file: &str, text: &str) -> Result<Self, Vec<YamlError>> {
        let layout: Self = yaml::from_str(file, text).map_err(|error| vec![error])?;
        let problems = layout.problems(file, text);
        if problems.is_empty() { Ok(layout) } else { Err(problems) }
    }

    /// The footer that it states, or the usual one.
    #[must_use]
    pub fn footer(&self) -> FooterBlock {
        let stated = self.page.iter().find_map(|block| match block {
            Block::Footer(footer) => Some(footer.clone()),
            _ => None,
        });
        stated.unwrap_or_default()
    }

    /// Whether it is the script of a lesson, whose words the other sheets of its packet leave aside.
    #[must_use]
    pub fn is_script(&self) -> bool {
        self.page.iter().any(|block| matches!(block, Block::Lesson(_)))
    }

    fn problems(&self, file: &str, text: &str) -> Vec<YamlError> {
        let mut problems = Vec::new();
        let mut problem = |path: &str, message: String, hint: &str| {
            let error = YamlError::in_file(file, text, path, &message);
            problems.push(if hint.is_empty() { error } else { error.with_hint(hint) });
        };
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-';
        if self.name.is_empty() || self.name.len() > 60 || !self.name.chars().all(plain) {
            let hint = "use small letters, digits and hyphens, at most 60, such as `sound-boxes`";
            problem("name", format!("`{}` can't be the name of a layout", self.name), hint);
        }
        for (key, value) in [("title", &self.title), ("directions", &self.directions), ("note", &self.note)] {
            if let Some(character) = Face::ALL.iter().find_map(|face| face.missing(value).first().copied()) {
                problem(key, format!("the font has no {character:?}"), "write it without this character");
            }
        }
        if self.title.trim().is_empty() {
            problem("title", "the title is empty".to_owned(), "give the sheet a short heading");
        }
        if self.page.is_empty() {
            problem("page", "the page has no blocks".to_owned(), "begin with `- title` and `- grid: …`");
        }
        let known: Vec<&str> = ITEM_TEXTS.iter().copied().chain(self.fill.texts().iter().copied()).collect();
        for name in self.focus.iter().filter(|name| Blend::named(name.trim_matches('-')).is_empty()) {
            let near = nearest(name, Blend::names()).map_or_else(String::new, |near| format!("did you mean `{near}`?"));
            problem("focus", format!("there is no blend `{name}`"), &near);
        }
        for (key, text) in &self.texts {
            let path = format!("texts.{key}");
            if let Some(character) = Face::ALL.iter().find_map(|face| face.missing(text).first().copied()) {
                problem(&path, format!("the font has no {character:?}"), "write it without this character");
            }
            match text.parse::<Template>() {
                Err(wrong) => problem(&path, wrong, ""),
                Ok(template) => {
                    for name in template.names().filter(|name| !SHEET_TEXTS.contains(name)) {
                        let hint = format!("there are: {}", SHEET_TEXTS.join(", "));
                        problem(&path, format!("a sheet has no {{{name}}} to tell"), &hint);
                    }
                }
            }
        }
        for (at, block) in self.page.iter().enumerate() {
            for name in block.texts().filter(|name| !self.texts.contains_key(*name)) {
                let near = nearest(name, self.texts.keys().map(String::as_str));
                let hint = near.map_or_else(
                    || format!("write it under `texts`: `{name}: …`"),
                    |near| format!("did you mean {{{near}}}? Texts stand under `texts`"),
                );
                problem(&format!("page[{at}]"), format!("the layout has no text {{{name}}}"), &hint);
            }
            for name in block.names() {
                if !known.contains(&name.as_str()) {
                    let hint = match nearest(&name, known.iter().copied()) {
                        Some(near) => format!("did you mean {{{near}}}? There are: {}", known.join(", ")),
                        None => format!("there are: {}", known.join(", ")),
                    };
                    problem(&format!("page[{at}]"), format!("items have no text {{{name}}}"), &hint);
                }
            }
        }
        for wrong in self.fill.validate() {
            problem(&format!("fill.{}.{}", self.fill.name(), wrong.key), wrong.message, "");
        }
        problems
    }
}
