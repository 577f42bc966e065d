//! The line that a part prints for an item, from a text with names in braces.

use crate::fill::Fill;
use crate::nearest::nearest;
use crate::sheet::Item;
use crate::sounds::Notation;

/// The names that every item has.
const NAMES: &[&str] = &["word", "sounds", "letters", "answer", "also", "shown", "blend", "from", "to", "old", "new"];

/// A text with its names filled from an item; a name that the item has not is left empty.
pub fn written(text: &str, item: &Item, notation: Notation) -> String {
    let mut line = String::new();
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        line.push_str(before);
        let Some((name, after)) = after.split_once('}') else { break };
        line.push_str(&item.text(name.trim(), notation).unwrap_or_default());
        rest = after;
    }
    line.push_str(rest);
    line.trim().to_owned()
}

/// What is wrong with a text for the items of a way of choosing.
pub fn wrong(text: &str, fill: &Fill) -> Option<String> {
    let open = text.matches('{').count();
    let names: Vec<&str> =
        text.split('{').skip(1).filter_map(|rest| rest.split_once('}')).map(|(name, _)| name.trim()).collect();
    if names.len() != open || text.matches('}').count() != open {
        return Some(format!("`{text}` has a brace without its partner: write a name in braces, such as {{word}}"));
    }
    let known: Vec<&str> = NAMES.iter().copied().chain(fill.texts().iter().copied()).collect();
    let unknown = names.into_iter().find(|name| !known.contains(name))?;
    let hint = match nearest(unknown, known.iter().copied()) {
        Some(near) => format!("did you mean {{{near}}}?"),
        None => format!("there are: {}", known.join(", ")),
    };
    Some(format!("items of `{}` have no text {{{unknown}}}: {hint}", fill.name()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fill::{Spoken, Words};
    use crate::sheet::Kind;

    #[test]
    fn names_are_those_that_items_have() {
        let item = Item::of_text(Kind::Word, "cat");
        assert!(NAMES.iter().all(|name| item.text(name, Notation::Teacher).is_some()));
        assert_eq!(written("{ word }: {blend}!", &item, Notation::Teacher), "cat: !");
    }

    #[test]
    fn wrong_names_and_braces_are_told() {
        let words = Fill::Words(Words::default());
        assert_eq!(wrong("Say {word}, {sounds}", &words), None);
        assert!(wrong("{wrod}", &words).unwrap().contains("did you mean {word}?"));
        for text in ["{word", "word}", "{{word}}", "}{"] {
            assert!(wrong(text, &words).is_some(), "{text}");
        }
        assert!(wrong("{clue}", &Fill::Spoken(Spoken::default())).is_some());
    }
}
