//! A lesson: parts, each chosen in a way of its own, that share the focus and no word.

mod line;

use serde::Deserialize;

use super::{Fill, FillError, Filled, Problem, Request, Span, Spoken, Words, WordsFocus};
use crate::sheet::{Mark, Part};

pub(super) use line::written;

/// The parts of a lesson in order. Each names any other way of choosing; they share the focus, and no part uses a word that one
/// before it has.
///
/// A part for which there are too few words gets fewer items; one that can't be had at all at the step is left out with the
/// reason, as long as `least` of them remain.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Lesson {
    /// The parts, 1 to 20. Default: sounds to put together, and words to read.
    pub parts: Vec<LessonPart>,
    /// How many parts there must be, 1 or more. Default: 1.
    pub least: usize,
}

impl Default for Lesson {
    fn default() -> Self {
        let part = |title: &str, fill: Fill, ask: &str, answer: &str| LessonPart {
            section: String::new(),
            title: title.to_owned(),
            say: String::new(),
            fill: Box::new(fill),
            count: Some(4),
            ask: ask.to_owned(),
            answer: answer.to_owned(),
            mark: Mark::Word,
        };
        let spoken = Spoken { focus: WordsFocus::Any, ..Spoken::default() };
        let words = Words { focus: WordsFocus::Any, ..Words::default() };
        let parts = vec![
            part("Put the sounds together", Fill::Spoken(spoken), "{shown}", "{answer}"),
            part("Read", Fill::Words(words), "{word}", ""),
        ];
        Self { parts, least: 1 }
    }
}

/// One part of a lesson.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LessonPart {
    /// A heading above it and the parts that follow with the same one. Default: none.
    #[serde(default)]
    pub section: String,
    /// Its own heading.
    pub title: String,
    /// What to say to the child. Default: nothing.
    #[serde(default)]
    pub say: String,
    /// How its items are chosen: any way but another lesson.
    pub fill: Box<Fill>,
    /// How many items. Default: the way's own number.
    #[serde(default)]
    pub count: Option<usize>,
    /// What is said or shown for an item; names in braces are filled from it. Default: `{word}`.
    #[serde(default = "word")]
    pub ask: String,
    /// The answer to it, in the same way. Default: nothing.
    #[serde(default)]
    pub answer: String,
    /// What is marked when it is recorded: `word`, each word of the answer, or `sound`, each sound. Default: `word`.
    #[serde(default)]
    pub mark: Mark,
}

fn word() -> String {
    "{word}".to_owned()
}

impl Lesson {
    /// Everything that is out of range, by key.
    #[must_use]
    pub fn validate(&self) -> Vec<Problem> {
        let mut problems = Vec::new();
        Span::new(1, 20).admit("parts", self.parts.len(), &mut problems);
        Span::new(1, self.parts.len().max(1)).admit("least", self.least, &mut problems);
        for (at, part) in self.parts.iter().enumerate() {
            let inside = |key: &str| format!("parts[{at}].{key}");
            if part.title.trim().is_empty() {
                problems.push(Problem::new(inside("title"), "the title is empty: give the part a short heading"));
            }
            if let Fill::Lesson(_) | Fill::Boards(_) | Fill::WordSearch(_) = *part.fill {
                let message = format!("`{}` gives no list of items to say, so it can't be a part", part.fill.name());
                problems.push(Problem::new(inside("fill"), message));
                continue;
            }
            for (key, text) in [("ask", &part.ask), ("answer", &part.answer)] {
                problems.extend(line::wrong(text, &part.fill).map(|message| Problem::new(inside(key), message)));
            }
            for wrong in part.asked().validate() {
                let stated = part.count.is_some() && wrong.key == part.fill.count_key();
                let key =
                    if stated { inside("count") } else { inside(&format!("fill.{}.{}", part.fill.name(), wrong.key)) };
                problems.push(Problem::new(key, wrong.message));
            }
        }
        problems
    }
}

impl LessonPart {
    /// Its way of choosing with the number of items that the part asks for.
    fn asked(&self) -> Fill {
        self.fill.counting(self.count)
    }

    /// The part as it is printed, with these items; the way's other content beside them.
    fn part(&self, filled: Filled, count: Option<usize>, request: &Request) -> Part {
        let Filled { mut items, columns, word_bank, tiles, .. } = filled;
        for item in &mut items {
            let line = |text: &str| line::written(text, item, request.notation);
            let (ask, reply) = (line(&self.ask), line(&self.answer));
            item.texts.insert("ask".to_owned(), ask);
            item.texts.insert("reply".to_owned(), reply);
        }
        let Self { section, title, say, mark, .. } = self.clone();
        let way = self.fill.name().to_owned();
        Part { section, title, way, say, mark, items, columns, word_bank, tiles, left_out: None, count }
    }
}

/// The words of some parts that a later one leaves aside: all of the bank's that were seen, heard or answered. The frames of
/// phrases, *a* and *the*, stand in no part by themselves.
pub(super) fn used(parts: &[Part], request: &Request) -> Vec<String> {
    let mut words = request.avoid.clone();
    for word in parts.iter().flat_map(|part| &part.items).flat_map(|item| item.words(request.bank)) {
        if !words.contains(&word) {
            words.push(word);
        }
    }
    words
}

/// The request for the part of a place, which leaves aside the words of the parts before it.
pub(super) fn for_part<'a>(at: usize, before: &[Part], count: Option<usize>, request: &'a Request<'a>) -> Request<'a> {
    Request {
        bank: request.bank,
        decodable: request.decodable,
        step: request.step.clone(),
        focus: request.focus.clone(),
        count,
        avoid: used(before, request),
        by_sight: request.by_sight.clone(),
        stream: request.stream.fork(&format!("part {}", at + 1)),
        notation: request.notation,
    }
}

/// Chooses each part in turn.
pub(super) fn choose(spec: &Lesson, request: &Request) -> Result<Filled, FillError> {
    let mut parts: Vec<Part> = Vec::with_capacity(spec.parts.len());
    for (at, part) in spec.parts.iter().enumerate() {
        let chosen = match part.fill.run(&for_part(at, &parts, part.count, request)) {
            Err(FillError::TooFew(short)) if short.at_most > 0 && short.at_most < short.needed => {
                let fewer = Some(short.at_most);
                // The shortage counts on what is left; where that is still too much, the first reason is the one to tell.
                match part.fill.run(&for_part(at, &parts, fewer, request)) {
                    Err(FillError::TooFew(_)) => Err(FillError::TooFew(short)),
                    other => other.map(|filled| (filled, fewer)),
                }
            }
            other => other.map(|filled| (filled, part.count)),
        };
        let chosen = match chosen {
            Ok((filled, _)) if filled.items.is_empty() => Err("There is nothing to choose from.".to_owned()),
            Ok(chosen) => Ok(chosen),
            Err(error) => match error.in_short() {
                Some(why) => Err(why),
                None => return Err(error),
            },
        };
        parts.push(match chosen {
            Ok((filled, count)) => part.part(filled, count, request),
            Err(why) => Part { left_out: Some(why), ..part.part(Filled::default(), None, request) },
        });
    }
    let standing = parts.iter().filter(|part| part.left_out.is_none()).count();
    if standing < spec.least {
        let reasons = parts.into_iter().filter_map(|part| Some((part.title, part.left_out?))).collect();
        return Err(FillError::TooFewParts { least: spec.least, step: request.step.clone(), reasons });
    }
    Ok(Filled { parts, ..Filled::default() })
}
