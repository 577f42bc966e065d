//! A lesson: parts, each chosen in a way of its own, that share the focus and no word.

mod line;

use serde::Deserialize;

use super::{Fill, FillError, Filled, Problem, Request, Span, Spoken, Words, WordsFocus};
use crate::sheet::{Mark, Part, with_homophones};

pub(super) use line::written;

/// The parts of a lesson in order. Each names any other way of choosing; they share the focus, and no part uses a word that one
/// before it has.
///
/// A part for which there are too few words gets fewer items; one that can't be had at all at the step is left out with the
/// reason, as long as `least` of them remain.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
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
#[derive(Clone, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
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
        Part { section, title, way, say, mark, items, columns, word_bank, tiles, left_out: None, count, turn: 0 }
    }
}

/// The request for a part, which leaves aside the words of the parts that were chosen before it: all of the bank's that are seen, heard
/// or answered there, and those that sound like them. The frames of phrases, *a* and *the*, are not held to it.
pub(super) fn for_part<'a>(at: usize, before: &[&Part], count: Option<usize>, request: &'a Request<'a>) -> Request<'a> {
    let before = before.iter().flat_map(|part| &part.items).flat_map(|item| item.words(request.bank));
    let avoid = with_homophones(request.avoid.iter().cloned().chain(before), request.bank);
    Request { count, avoid, stream: request.stream.fork(&format!("part {}", at + 1)), ..request.clone() }
}

/// Chooses the parts in turn. One that only the words of others keep from being filled is chosen before them instead.
pub(super) fn choose(spec: &Lesson, request: &Request) -> Result<Filled, FillError> {
    let mut order: Vec<usize> = (0..spec.parts.len()).collect();
    let mut moved: Vec<usize> = Vec::new();
    let mut parts = loop {
        let parts = in_order(spec, &order, request)?;
        let lost = |at: &usize| parts[*at].left_out.is_some() && !moved.contains(at);
        let mut gained = None;
        for at in order.iter().copied().filter(lost) {
            if spec.parts[at].choose(at, &[], request)?.left_out.is_none() {
                gained = Some(at);
                break;
            }
        }
        let Some(first) = gained else { break parts };
        order.retain(|at| *at != first);
        order.insert(moved.len(), first);
        moved.push(first);
    };
    for at in moved {
        if let Some(why) = &mut parts[at].left_out {
            "The words that it needs stand in other parts.".clone_into(why);
        }
    }
    let standing = parts.iter().filter(|part| part.left_out.is_none()).count();
    if standing < spec.least {
        let reasons = parts.into_iter().filter_map(|part| Some((part.title, part.left_out?))).collect();
        return Err(FillError::TooFewParts { least: spec.least, step: request.step.clone(), reasons });
    }
    Ok(Filled { parts, ..Filled::default() })
}

/// The parts, in the order of the page, chosen one after the other in an order of their own.
fn in_order(spec: &Lesson, order: &[usize], request: &Request) -> Result<Vec<Part>, FillError> {
    let mut parts: Vec<(usize, Part)> = Vec::with_capacity(order.len());
    for (turn, &at) in order.iter().enumerate() {
        let before: Vec<&Part> = parts.iter().map(|(_, part)| part).collect();
        let part = spec.parts[at].choose(at, &before, request)?;
        parts.push((at, Part { turn, ..part }));
    }
    parts.sort_by_key(|(at, _)| *at);
    Ok(parts.into_iter().map(|(_, part)| part).collect())
}

impl LessonPart {
    /// The part, with fewer items where there are not enough words, or left out with the reason.
    fn choose(&self, at: usize, before: &[&Part], request: &Request) -> Result<Part, FillError> {
        let mut count = self.count;
        let mut filled = self.fill.run(&for_part(at, before, count, request));
        if let Err(FillError::TooFew(short)) = &filled
            && short.at_most > 0
            && short.at_most < short.needed
        {
            let fewer = Some(short.at_most);
            let again = self.fill.run(&for_part(at, before, fewer, request));
            // Where that is still too much, the first reason is the one to tell.
            if !matches!(again, Err(FillError::TooFew(_))) {
                (count, filled) = (fewer, again);
            }
        }
        let why = match filled {
            Ok(filled) if filled.items.is_empty() => "There is nothing to choose from.".to_owned(),
            Ok(filled) => return Ok(self.part(filled, count, request)),
            Err(error) => match error.in_short() {
                Some(why) => why,
                None => return Err(error),
            },
        };
        Ok(Part { left_out: Some(why), ..self.part(Filled::default(), None, request) })
    }
}
