//! Reading a sequence from YAML, with every problem in its place.

use std::collections::BTreeMap;
use std::fmt;

use serde::Deserialize;

use crate::nearest::nearest;
use crate::sounds::{BLENDS, Blend, Side};
use crate::spelling::{Pair, pairs};
use crate::yaml::{self, YamlError};

use super::{MAX_STEPS, Sequence, Shape, Step};

/// At most this many problems are told at once.
const MAX_PROBLEMS: usize = 50;

/// All that is wrong with a sequence's file, in the order of the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SequenceError {
    /// The problems, at least one, each with its place.
    pub problems: Vec<YamlError>,
}

impl fmt::Display for SequenceError {
    /// The problems, an empty line between them.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let texts: Vec<_> = self.problems.iter().map(ToString::to_string).collect();
        f.write_str(&texts.join("\n\n"))
    }
}

impl std::error::Error for SequenceError {}

/// A sequence as it is written.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Written {
    name: String,
    steps: Vec<WrittenStep>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct WrittenStep {
    name: String,
    title: String,
    #[serde(default)]
    pairs: Vec<String>,
    #[serde(default)]
    blends: Vec<String>,
    #[serde(default)]
    shapes: Vec<String>,
    #[serde(default)]
    words: Vec<String>,
}

impl Sequence {
    /// Reads a sequence from YAML text; `file_name` is only for messages.
    ///
    /// The file has a `name` and `steps`; a step has a `name` and a `title`, and the lists `pairs` (`ai=EY`, `x=K+S`),
    /// `blends` (`bl-`, `-nd`), `shapes` (see [`Shape`]) and `words`, each of which may be left out.
    ///
    /// # Errors
    /// When the text is not YAML of this form, or else all of: not 1 to [`MAX_STEPS`] steps; names that are not of small
    /// letters, digits and `-`, or are numbers, or come twice; pairs that the speller does not know; unknown blends and
    /// shapes; words that are not in small letters.
    pub fn from_text(file_name: &str, text: &str) -> Result<Self, SequenceError> {
        let written: Written =
            yaml::from_str(file_name, text).map_err(|error| SequenceError { problems: vec![error] })?;
        let mut reader = Reader { file: file_name, text, problems: Vec::new(), unsaid: 0 };
        let sequence = reader.sequence(written);
        if reader.unsaid > 0 {
            reader.problems.push(YamlError::new(file_name, &format!("there are {} more problems", reader.unsaid)));
        }
        if reader.problems.is_empty() { Ok(sequence) } else { Err(SequenceError { problems: reader.problems }) }
    }
}

struct Reader<'a> {
    file: &'a str,
    text: &'a str,
    problems: Vec<YamlError>,
    unsaid: usize,
}

impl Reader<'_> {
    /// Notes a problem; `problem` may have a second line, `help: …`.
    fn refuse(&mut self, path: &str, problem: &str) {
        if self.problems.len() == MAX_PROBLEMS {
            self.unsaid += 1;
            return;
        }
        let (message, hint) = problem.split_once("\nhelp: ").map_or((problem, None), |(m, h)| (m, Some(h)));
        let error = YamlError::in_file(self.file, self.text, path, message);
        self.problems.push(match hint {
            Some(hint) => error.with_hint(hint),
            None => error,
        });
    }

    fn sequence(&mut self, written: Written) -> Sequence {
        if written.name.trim().is_empty() {
            self.refuse("name", "a sequence needs a name");
        }
        if !(1..=MAX_STEPS).contains(&written.steps.len()) {
            let count = written.steps.len();
            self.refuse("steps", &format!("a sequence has 1 to {MAX_STEPS} steps, not {count}"));
        }
        let mut names: BTreeMap<String, usize> = BTreeMap::new();
        let mut steps = Vec::with_capacity(written.steps.len());
        for (at, step) in written.steps.into_iter().take(MAX_STEPS).enumerate() {
            let path = format!("steps[{at}]");
            self.name(&path, &step.name);
            if let Some(first) = names.get(&step.name) {
                let problem = format!("step {} has the name of step {first}, `{}`", at + 1, step.name);
                self.refuse(&format!("{path}.name"), &problem);
            } else {
                names.insert(step.name.clone(), at + 1);
            }
            if step.title.trim().is_empty() {
                self.refuse(&format!("{path}.title"), "a step needs a title");
            }
            steps.push(Step {
                number: u16::try_from(at + 1).unwrap_or(u16::MAX),
                pairs: self.list(&format!("{path}.pairs"), &step.pairs, pair),
                blends: self.list(&format!("{path}.blends"), &step.blends, blend),
                shapes: self.list(&format!("{path}.shapes"), &step.shapes, str::parse::<Shape>),
                words: self.list(&format!("{path}.words"), &step.words, word),
                name: step.name,
                title: step.title,
            });
        }
        Sequence::new(written.name, steps)
    }

    fn name(&mut self, path: &str, name: &str) {
        let plain = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
        if name.is_empty() || !name.bytes().all(plain) || name.bytes().all(|b| b.is_ascii_digit()) {
            let problem = format!("`{name}` is no name for a step: it takes small letters, digits and `-`");
            self.refuse(&format!("{path}.name"), &problem);
        }
    }

    /// The parts of a list that can be read; the others are noted, each at its place.
    fn list<T>(&mut self, path: &str, texts: &[String], read: impl Fn(&str) -> Result<T, String>) -> Vec<T> {
        let mut found = Vec::with_capacity(texts.len());
        for (at, text) in texts.iter().enumerate() {
            match read(text) {
                Ok(one) => found.push(one),
                Err(problem) => self.refuse(&format!("{path}[{at}]"), &problem),
            }
        }
        found
    }
}

/// A pair that an alignment can hold.
fn pair(text: &str) -> Result<Pair, String> {
    let read: Pair = text.parse().map_err(|error: crate::spelling::PairError| error.to_string())?;
    if pairs().any(|known| *known == read) {
        return Ok(read);
    }
    let others: Vec<_> = pairs().filter(|known| known.letters == read.letters).map(ToString::to_string).collect();
    let hint = if others.is_empty() {
        let known = pairs().map(ToString::to_string).collect::<Vec<_>>();
        let near = nearest(text, known.iter().map(String::as_str));
        near.map_or_else(String::new, |near| format!("\nhelp: did you mean `{near}`?"))
    } else {
        format!("\nhelp: `{}` can be: {}", read.letters, others.join(", "))
    };
    Err(format!("no word is spelled with `{text}`{hint}"))
}

/// A blend with its side: `bl-`, `-nd`.
fn blend(text: &str) -> Result<&'static Blend, String> {
    let asked = match (text.strip_suffix('-'), text.strip_prefix('-')) {
        (Some(name), None) => Some((name, Side::Onset)),
        (None, Some(name)) => Some((name, Side::Coda)),
        _ => None,
    };
    let found = asked.and_then(|(name, side)| Blend::named(name).into_iter().find(|blend| blend.side == side));
    found.ok_or_else(|| {
        let near = asked.map_or_else(|| Blend::named(text).into_iter().next(), nearest_blend);
        let hint = near.map_or_else(usual_blends, |near| format!("did you mean `{near}`?"));
        format!("there is no blend `{text}`\nhelp: {hint}")
    })
}

fn usual_blends() -> String {
    let usual: Vec<_> = BLENDS.iter().filter(|blend| blend.taught).map(ToString::to_string).collect();
    format!("the usual blends are: {}", usual.join(", "))
}

/// The blend that was likely meant: the same on the other side, or one of a like name on this side.
fn nearest_blend((name, side): (&str, Side)) -> Option<&'static Blend> {
    let same_side = || BLENDS.iter().filter(|blend| blend.side == side);
    Blend::named(name).into_iter().next().or_else(|| {
        let near = nearest(name, same_side().map(|blend| blend.name))?;
        same_side().find(|blend| blend.name == near)
    })
}

/// A word in small letters.
fn word(text: &str) -> Result<String, String> {
    if !text.is_empty() && text.bytes().all(|b| b.is_ascii_lowercase()) {
        return Ok(text.to_owned());
    }
    Err(format!("`{text}` is not a word in small letters, without marks"))
}

#[cfg(test)]
mod tests {
    use super::Sequence;

    const WRONG: &str = "name: ours
steps:
  - name: one
    title: Vowels
    pairs: [ai=EY, ai=OY, ai]
    blends: [lb-, bl, nd-, zz-]
    shapes: [cvc, two-sylable]
    words: [Cat]
  - name: one
    title: \"\"
  - name: \"3\"
    title: More
";

    /// Each problem in a line, its place first, its hint in brackets.
    fn told(text: &str) -> String {
        let error = Sequence::from_text("ours.yaml", text).unwrap_err();
        let line = |problem: &crate::yaml::YamlError| {
            let place = (problem.line().unwrap_or_default(), problem.column().unwrap_or_default());
            let hint: String = problem.hint().unwrap_or("-").chars().take(50).collect();
            format!("{}:{} {} [{hint}]", place.0, place.1, problem.message())
        };
        error.problems.iter().map(line).collect::<Vec<_>>().join("\n")
    }

    #[test]
    fn all_problems_of_a_file_are_told_at_once() {
        insta::assert_snapshot!(told(WRONG), @r"
        5:20 no word is spelled with `ai=OY` [`ai` can be: ai=AE, ai=AH, ai=AY, ai=EH, ai=EY, ai]
        5:27 `ai` is not a letter group and its sound, such as `ai=EY`: there is no `=` [-]
        6:14 there is no blend `lb-` [did you mean `bl-`?]
        6:19 there is no blend `bl` [did you mean `bl-`?]
        6:23 there is no blend `nd-` [did you mean `-nd`?]
        6:28 there is no blend `zz-` [the usual blends are: bl-, cl-, fl-, gl-, pl-, sl-]
        7:14 there is no shape `cvc` [did you mean `CVC`? The shapes are: patterns such ]
        7:19 there is no shape `two-sylable` [did you mean `two-syllable`? The shapes are: patte]
        8:13 `Cat` is not a word in small letters, without marks [-]
        9:5 step 2 has the name of step 1, `one` [-]
        10:5 a step needs a title [-]
        11:5 `3` is no name for a step: it takes small letters, digits and `-` [-]
        ");
    }

    #[test]
    fn a_file_of_another_form_is_refused() {
        assert!(told("name: ours\nstep: []\n").contains("did you mean `steps`?"));
        assert!(told("name: ours\nsteps: []\n").contains("1 to 200 steps, not 0"));
        let many = format!("name: ours\nsteps:\n{}", "  - {name: a, title: A}\n".repeat(201));
        let told = told(&many);
        assert!(told.contains("1 to 200 steps, not 201") && told.contains("there are 150 more problems"), "{told}");
    }
}
