//! The parser's complaints, in words for someone who writes YAML twice a year.

use serde::Deserialize;
use serde::de::IgnoredAny;

use super::scan::TOO_MUCH;
use super::{YamlError, excerpt, wording};

/// What the parser says, what we say, the hint, and whether the place is where the construct began rather than where it
/// went wrong.
struct Complaint {
    parser: &'static str,
    message: &'static str,
    hint: &'static str,
    from_start: bool,
}

const fn complaint(parser: &'static str, message: &'static str, hint: &'static str, from_start: bool) -> Complaint {
    Complaint { parser, message, hint, from_start }
}

const QUOTE: &str = "put the whole text in quotes, as in `title: \"Read: short a\"`";
const LINE_UP: &str =
    "keys that belong together begin in the same column; if the line before is text, put it all in quotes";

const COMPLAINTS: [Complaint; 15] = [
    complaint(
        "mapping values are not allowed",
        "a `:` is not expected here",
        "text with a colon needs quotes, as in `title: \"Read: short a\"`; a key on its own line must line up with those above it",
        false,
    ),
    complaint("did not find expected key", "a key was expected here", LINE_UP, false),
    complaint(
        "did not find expected '-' indicator",
        "an entry of the list above was expected here",
        "begin the line with `- `, or move it in or out to line up with what it belongs to",
        false,
    ),
    complaint(
        "block sequence entries are not allowed",
        "a list can't begin here",
        "begin it on a new line, further in than its key",
        false,
    ),
    complaint("mapping keys are not allowed", "a key can't stand here", LINE_UP, false),
    complaint("could not find expected ':'", "there is no `:` after this key", "write it as `key: value`", true),
    complaint(
        "did not find expected ',' or ']'",
        "this list is not closed, or a `,` is missing in it",
        "write a list as `[a, b]`",
        true,
    ),
    complaint(
        "did not find expected ',' or '}'",
        "these keys are not closed, or a `,` is missing between them",
        "write them as `{columns: 2, gap: 4}`",
        true,
    ),
    complaint(
        "found unexpected end of stream",
        "the quotes that open here are not closed",
        "close them with the same sign",
        true,
    ),
    complaint(
        "found unexpected document indicator",
        "the quotes that open here are not closed",
        "close them with the same sign",
        true,
    ),
    complaint(
        "found unknown escape character",
        "in double quotes, `\\` has a meaning of its own",
        "use single quotes, or write `\\\\`",
        false,
    ),
    complaint("did not find expected node content", "a value was expected here", QUOTE, false),
    complaint("did not find expected alphabetic or numeric character", "a value can't begin like this", QUOTE, false),
    complaint("unknown anchor", "this alias (`*name`) has no anchor (`&name`) before it", QUOTE, false),
    complaint("EOF while parsing a value", "there is nothing in this file", "", false),
];

/// The error for what went wrong in the first reading.
pub fn explain(file: &str, text: &str, error: &serde_yaml::Error) -> YamlError {
    let said = error.to_string();
    let problem = error.location().map(|place| (place.line(), place.column()));
    if said.contains(TOO_MUCH) {
        let message = "aliases (`*name`) repeat more than can be read";
        return placed(file, text, problem, message, "write out what is meant");
    }
    if said.starts_with("repetition limit exceeded") {
        return placed(
            file,
            text,
            problem,
            "aliases (`*name`) repeat more than can be read",
            "write out what is meant",
        );
    }
    if said.starts_with("recursion limit exceeded") {
        return placed(file, text, problem, "this nests deeper than can be read", "");
    }
    if said.starts_with("deserializing from YAML containing more than one document") {
        return more_than_one(file, text);
    }
    if let Some(place) = problem.and_then(|(line, _)| tab_in_indent(text, line)) {
        let hint = "use spaces: two for each step further in";
        return placed(file, text, Some(place), "a tab is used to indent this line; YAML allows only spaces", hint);
    }
    if said.starts_with("found character that cannot start any token") {
        let sign = problem.and_then(|(line, column)| excerpt::lines(text).nth(line - 1)?.chars().nth(column - 1));
        let message = match sign {
            Some('\t') => "there is a tab here where YAML allows only spaces".to_owned(),
            Some(sign) => format!("a value can't begin with `{sign}`"),
            None => "a value can't begin like this".to_owned(),
        };
        return placed(file, text, problem, &message, QUOTE);
    }
    if let Some(known) = COMPLAINTS.iter().find(|known| said.starts_with(known.parser)) {
        let start = if known.from_start { construct_start(&said) } else { None };
        let place = start.or(problem);
        return placed(file, text, place, known.message, known.hint);
    }
    if said.starts_with("found ") || said.starts_with("did not ") {
        let problem_said = said.split(" at line ").next().unwrap_or_default();
        return placed(file, text, problem, &format!("this is not YAML: {problem_said}"), QUOTE);
    }
    wording::explain(file, text, error)
}

fn placed(file: &str, text: &str, place: Option<(usize, usize)>, message: &str, hint: &str) -> YamlError {
    let error = match place {
        Some((line, column)) => YamlError::at(file, text, line, column, message),
        None => YamlError::new(file, message),
    };
    if hint.is_empty() { error } else { error.with_hint(hint) }
}

/// The place of the first tab before anything else in a line.
fn tab_in_indent(text: &str, line: usize) -> Option<(usize, usize)> {
    let source = excerpt::lines(text).nth(line.checked_sub(1)?)?;
    let tab = source.chars().take_while(|c| matches!(c, ' ' | '\t')).position(|c| c == '\t')?;
    Some((line, tab + 1))
}

/// The place at the end of `problem at line 3 column 1, while scanning a quoted scalar at line 2 column 8`.
fn construct_start(said: &str) -> Option<(usize, usize)> {
    let (_, context) = said.split_once(", while ")?;
    let (line, column) = context.rsplit_once(" at line ")?.1.split_once(" column ")?;
    Some((line.parse().ok()?, column.parse().ok()?))
}

/// The error for a text that goes on after its end: by a line `---`, or by one that belongs to nothing above it.
fn more_than_one(file: &str, text: &str) -> YamlError {
    let is_before = |line: &str| line.trim().is_empty() || line.starts_with(['#', '%']);
    let mut after_first = excerpt::lines(text).enumerate().skip_while(|(_, line)| is_before(line)).skip(1);
    if let Some((number, _)) = after_first.find(|(_, line)| line.starts_with("---")) {
        return placed(file, text, Some((number + 1, 1)), "the file has a second document", "take out the line `---`");
    }
    let second =
        serde_yaml::Deserializer::from_str(text).nth(1).and_then(|second| IgnoredAny::deserialize(second).err());
    let place = second.and_then(|error| error.location()).map(|place| (place.line(), place.column()));
    placed(file, text, place, "this belongs to nothing above it", LINE_UP)
}
