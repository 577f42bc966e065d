//! What serde says about a value that doesn't fit, in words for a teacher.

use super::{YamlError, did_you_mean};

/// A message and a hint.
type Words = (String, Option<String>);

/// The error for what went wrong when a type was filled.
pub fn explain(file: &str, text: &str, error: &serde_yaml::Error) -> YamlError {
    let mut said = error.to_string();
    let place = error.location().map(|place| (place.line(), place.column()));
    if let Some((line, column)) = place
        && let Some(message) = said.strip_suffix(&format!(" at line {line} column {column}"))
    {
        said.truncate(message.len());
    }
    let (path, said) = split_path(&said);
    let (message, hint) = words(path, said);
    let error = match place {
        Some((line, column)) => YamlError::at(file, text, line, column, &message),
        None => YamlError::new(file, &message),
    };
    match hint {
        Some(hint) => error.with_hint(&hint),
        None => error,
    }
}

/// Divides `page[0].grid: missing field …` into the path, empty for the top, and the rest.
fn split_path(said: &str) -> (&str, &str) {
    let ends = said.match_indices(": ").map(|(at, _)| at);
    for end in ends {
        let (path, rest) = (&said[..end], &said[end + 2..]);
        if is_known(path) {
            break;
        }
        if is_known(rest) {
            return (path, rest);
        }
    }
    match said.split_once(": ") {
        Some((path, rest)) if !is_known(said) && looks_like_path(path) => (path, rest),
        _ => ("", said),
    }
}

/// Whether serde, or this module, begins a message so.
fn is_known(said: &str) -> bool {
    const BEGINNINGS: [&str; 6] = [
        "missing field `",
        "duplicate field `",
        "invalid type",
        "invalid value",
        "invalid length ",
        "data did not match",
    ];
    BEGINNINGS.iter().any(|beginning| said.starts_with(beginning)) || unknown(said).is_some()
}

/// Whether nothing speaks against this being a path of keys and list places.
fn looks_like_path(path: &str) -> bool {
    !path.is_empty() && path.chars().all(|c| c.is_alphanumeric() || matches!(c, '.' | '_' | '-' | '[' | ']' | '?'))
}

fn words(path: &str, said: &str) -> Words {
    if let Some((kind, word, known)) = unknown(said) {
        let (message, kinds) = match kind {
            "field" => (format!("there is no key `{word}` here"), "keys".to_owned()),
            "variant" => (format!("`{word}` is not one of the choices here"), "choices".to_owned()),
            kind => (format!("there is no {kind} `{word}`"), format!("{kind}s")),
        };
        return (message, Some(did_you_mean(word, &kinds, &known)));
    }
    if let Some(key) = ticked(said, "missing field `") {
        return (format!("the key `{key}` is missing in {}", place_name(path)), Some(format!("add a line `{key}: …`")));
    }
    if let Some(key) = ticked(said, "duplicate field `") {
        return (format!("the key `{key}` is given twice"), Some("keep one of them".to_owned()));
    }
    let misfit = said.strip_prefix("invalid type: ").map(|rest| (rest, false));
    let misfit = misfit.or_else(|| said.strip_prefix("invalid value: ").map(|rest| (rest, true)));
    if let Some((rest, right_type)) = misfit
        && let Some((found, expected)) = rest.rsplit_once(", expected ")
    {
        return unfit(found, expected, right_type);
    }
    if let Some((count, expected)) =
        said.strip_prefix("invalid length ").and_then(|rest| rest.split_once(", expected "))
    {
        return (format!("there are {count} entries here; expected {expected}"), None);
    }
    if said.starts_with("data did not match any variant") {
        return ("this is in none of the forms that can stand here".to_owned(), None);
    }
    match said.split_once("\nhelp: ") {
        Some((message, hint)) => (message.to_owned(), Some(hint.to_owned())),
        None => (said.to_owned(), None),
    }
}

/// The kind, the word and the words known, of ``unknown field `x`, expected one of `a`, `b` ``.
fn unknown(said: &str) -> Option<(&str, &str, Vec<&str>)> {
    let (kind, rest) = said.strip_prefix("unknown ")?.split_once(" `")?;
    let end = rest.rfind("`, expected ").or_else(|| rest.rfind("`, there are no "))?;
    let known = rest[end + 1..].split('`').skip(1).step_by(2).collect();
    Some((kind, &rest[..end], known))
}

/// What stands between `before` and the tick at the end.
fn ticked<'a>(said: &'a str, before: &str) -> Option<&'a str> {
    said.strip_prefix(before)?.strip_suffix('`')
}

/// What a path leads to: `page[0].grid` is `grid`, `page[0]` is the first entry of `page`.
fn place_name(path: &str) -> String {
    let end = path.rsplit('.').next().unwrap_or_default();
    let entry = end.strip_suffix(']').and_then(|end| end.rsplit_once('['));
    match entry.map(|(list, at)| (list, at.parse::<usize>())) {
        Some(("", Ok(at))) => format!("entry {} of the list", at.saturating_add(1)),
        Some((list, Ok(at))) => format!("entry {} of `{list}`", at.saturating_add(1)),
        _ if end.is_empty() || end == "?" => "this file".to_owned(),
        _ => format!("`{end}`"),
    }
}

/// A value that can't stand here: of another type, or of the right one but not allowed.
fn unfit(found: &str, expected: &str, right_type: bool) -> Words {
    let number = found.strip_prefix("integer `").and_then(|rest| rest.strip_suffix('`'));
    if let (Some(number), Some((least, most))) = (number, bounds(expected)) {
        let below = number.starts_with('-');
        if below || right_type {
            let (word, end, limit) = if below { ("small", "least", least) } else { ("large", "most", most) };
            return (format!("{number} is too {word} here"), Some(format!("the {end} is {limit}")));
        }
    }
    let message = format!("expected {}, found {}", kind_wanted(expected), kind_found(found));
    let is_text = found.starts_with("string ");
    let bare = found.strip_prefix("string ").map(|text| text.trim_matches('"')).unwrap_or_default();
    let hint = match kind_wanted(expected).as_str() {
        "`true` or `false`" if matches!(bare.to_lowercase().as_str(), "yes" | "on" | "y") => {
            Some("write `true`".to_owned())
        }
        "`true` or `false`" if matches!(bare.to_lowercase().as_str(), "no" | "off" | "n") => {
            Some("write `false`".to_owned())
        }
        "a whole number" if is_text && bare.parse::<i64>().is_ok() => Some("leave out the quotes".to_owned()),
        "a number" if is_text && bare.parse::<f64>().is_ok() => Some("leave out the quotes".to_owned()),
        "a list" if !matches!(found, "map") => {
            Some("write a list as `[a, b]`, or each entry on its own line after `- `".to_owned())
        }
        _ => None,
    };
    (message, hint)
}

/// The least and the most of a whole-number type, by its name.
fn bounds(expected: &str) -> Option<(String, String)> {
    let of = |least: i128, most: u128| Some((least.to_string(), most.to_string()));
    match expected {
        "u8" => of(0, u8::MAX.into()),
        "u16" => of(0, u16::MAX.into()),
        "u32" => of(0, u32::MAX.into()),
        "u64" | "usize" => of(0, u64::MAX.into()),
        "i8" => of(i8::MIN.into(), 127),
        "i16" => of(i16::MIN.into(), 32_767),
        "i32" => of(i32::MIN.into(), 2_147_483_647),
        "i64" | "isize" => of(i64::MIN.into(), 9_223_372_036_854_775_807),
        "a nonzero u8" => of(1, u8::MAX.into()),
        "a nonzero u16" => of(1, u16::MAX.into()),
        "a nonzero u32" => of(1, u32::MAX.into()),
        "a nonzero u64" | "a nonzero usize" => of(1, u64::MAX.into()),
        _ => None,
    }
}

/// What serde expected, said plainly.
fn kind_wanted(expected: &str) -> String {
    match expected {
        _ if bounds(expected).is_some() => "a whole number",
        "u128" | "i128" => "a whole number",
        "f32" | "f64" => "a number",
        "a string" | "string" | "str" => "text",
        "a character" => "one letter",
        "a boolean" => "`true` or `false`",
        "a sequence" => "a list",
        "a map" => "keys with values",
        "unit" | "null" => "nothing",
        "a YAML tag starting with '!'" | "variant identifier" => "a single word",
        "field identifier" => "a key",
        _ if expected.starts_with("struct ") => "keys with values",
        _ if expected.starts_with("a tuple ") || expected.starts_with("an array ") => "a list",
        _ => expected,
    }
    .to_owned()
}

/// What serde found, said plainly.
fn kind_found(found: &str) -> String {
    let ticked = |before: &str| found.strip_prefix(before).and_then(|rest| rest.strip_suffix('`'));
    match found {
        "sequence" => "a list".to_owned(),
        "map" => "keys with values".to_owned(),
        "unit value" | "null" => "nothing".to_owned(),
        "enum" => "a tag (`!name`)".to_owned(),
        _ => {
            if let Some(text) = found.strip_prefix("string ") {
                format!("text {text}")
            } else if let Some(number) = ticked("integer `").or_else(|| ticked("floating point `")) {
                format!("the number {number}")
            } else if let Some(value) = ticked("boolean `") {
                format!("`{value}`")
            } else {
                found.to_owned()
            }
        }
    }
}
