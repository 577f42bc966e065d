//! What is held of each child, whatever file it comes from.

use std::collections::BTreeMap;

use super::{Child, MOST_CHILDREN};
use crate::bank::Bank;
use crate::nearest::nearest;
use crate::packet::request::blends_named;
use crate::sequence::Sequence;
use crate::yaml::YamlError;

/// What a group's steps, blends and words are held against.
#[derive(Clone, Copy, Debug)]
pub struct Known<'a> {
    /// The words there are.
    pub bank: &'a Bank,
    /// The steps there are.
    pub sequence: &'a Sequence,
}

/// The longest name, in characters: what is longer is no name but a slip.
const MOST_NAME: usize = 300;

/// The greatest number of a set.
pub const MOST_SET: usize = 1_000_000;

/// Collects the children that are in order and says what is wrong with the others.
pub(super) struct Checker<'a> {
    known: &'a Known<'a>,
    children: Vec<Child>,
    /// For each name, evened out, the number of the child that has it.
    names: BTreeMap<String, usize>,
    problems: Vec<YamlError>,
}

impl<'a> Checker<'a> {
    pub fn new(known: &'a Known<'a>) -> Self {
        Self { known, children: Vec::new(), names: BTreeMap::new(), problems: Vec::new() }
    }

    pub fn refuse(&mut self, problem: YamlError) {
        self.problems.push(problem);
    }

    /// Adds a child; `at` makes an error at one of its fields, by the field's name and, in a list, the entry's place.
    pub fn add(&mut self, mut child: Child, at: &dyn Fn(&str, Option<usize>, &str) -> YamlError) {
        child.name = child.name.split_whitespace().collect::<Vec<_>>().join(" ");
        let mut wrong = Vec::new();
        if child.name.is_empty() {
            wrong.push(at("name", None, "the name is empty").with_hint("initials or a number are enough"));
        }
        if child.name.chars().any(char::is_control) || child.name.chars().count() > MOST_NAME {
            let message = format!("a name has at most {MOST_NAME} characters, and none that can't be seen");
            wrong.push(at("name", None, &message));
        }
        let number = self.children.len() + 1;
        if let Some(other) = self.names.get(&child.name.to_lowercase()) {
            let message = format!("`{}` is the name of child {other} too", child.name);
            let hint = "tell the two apart, as by an initial: sheets go by the name";
            wrong.push(at("name", None, &message).with_hint(hint));
        }
        if let Some(step) = &child.step
            && let Err(error) = self.known.sequence.step(&step.0)
        {
            wrong.push(with_help(&error.to_string(), |message| at("step", None, message)));
        }
        for (place, name) in child.focus.iter().flat_map(|focus| &focus.0).enumerate() {
            if let Err(error) = blends_named(name) {
                wrong.push(with_help(&error.to_string(), |message| at("focus", Some(place), message)));
            }
        }
        for (field, words) in [("words", &mut child.words), ("leave-out", &mut child.leave_out)] {
            for (place, word) in words.iter_mut().enumerate() {
                *word = word.trim().to_lowercase();
                if self.known.bank.get(word).is_some() {
                    continue;
                }
                // What is to be left out and is not there does no harm.
                if field == "words" {
                    wrong.push(unknown_word(word, self.known.bank, |message| at(field, Some(place), message)));
                }
            }
        }
        if let Some(both) = child.words.iter().position(|word| child.leave_out.contains(word)) {
            let message = format!("`{}` is to be practised and to be left out", child.words[both]);
            wrong.push(at("words", Some(both), &message));
        }
        if child.set.is_some_and(|set| set == 0 || set > MOST_SET) {
            wrong.push(at("set", None, &format!("sets are numbered from 1 to {MOST_SET}")));
        }
        if self.children.len() == MOST_CHILDREN {
            wrong.push(at("name", None, &format!("a group has at most {MOST_CHILDREN} children")));
        }
        self.names.entry(child.name.to_lowercase()).or_insert(number);
        self.children.push(child);
        self.problems.extend(wrong);
    }

    /// The children, or everything that is wrong.
    pub fn done(self, file: &str) -> Result<Vec<Child>, Vec<YamlError>> {
        if !self.problems.is_empty() {
            return Err(self.problems);
        }
        if self.children.iter().all(|child| child.away) {
            let message =
                if self.children.is_empty() { "there is no child in the group" } else { "every child is away" };
            return Err(vec![
                YamlError::new(file, message).with_hint("write one child a line, as `- {name: Ana, step: 13}`"),
            ]);
        }
        Ok(self.children)
    }
}

/// A message of another room, whose second line is a hint.
fn with_help(told: &str, at: impl Fn(&str) -> YamlError) -> YamlError {
    match told.split_once("\nhelp: ") {
        Some((message, hint)) => at(message).with_hint(hint),
        None => at(told),
    }
}

fn unknown_word(word: &str, bank: &Bank, at: impl Fn(&str) -> YamlError) -> YamlError {
    let near = nearest(word, bank.words().iter().map(|word| word.spelling.as_str()));
    let meant = near.map_or_else(String::new, |near| format!("did you mean `{near}`? "));
    let hint = format!("{meant}A word that the bank does not have comes in by a file of own words (`--own-words`).");
    at(&format!("`{word}` is not in the word bank")).with_hint(&hint)
}
