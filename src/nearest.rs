//! The word that was likely meant.

/// The longest word worth comparing, in characters; a longer one is not a slip of the finger.
const MAX_CHARS: usize = 64;

/// The one of `candidates` that `word` was likely meant to be, or nothing when none is close.
///
/// Close is: the same but for case, `-`, `_` and spaces; or one slip (a letter more, less, other, or two changed about) in
/// every three letters, at least one; or the beginning, from three letters on, of just one candidate. Of two as close, the
/// earlier is taken.
///
/// ```
/// use sheafling::nearest::nearest;
///
/// assert_eq!(nearest("colums", ["columns", "gap", "cell"]), Some("columns"));
/// assert_eq!(nearest("shape", ["columns", "gap", "cell"]), None);
/// ```
#[must_use]
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if word.chars().count() > MAX_CHARS {
        return None;
    }
    let typed = plain(word);
    let slips_allowed = (typed.chars().count() / 3).max(1);
    let mut closest: Option<(usize, &str)> = None;
    let mut begun = Vec::new();
    for candidate in candidates {
        let known = plain(candidate);
        let slips = strsim::damerau_levenshtein(&typed, &known);
        let is_other_word = slips >= known.chars().count();
        if slips == 0 || slips <= slips_allowed && !is_other_word {
            if closest.is_none_or(|(fewest, _)| slips < fewest) {
                closest = Some((slips, candidate));
            }
        } else if typed.chars().count() >= 3 && known.starts_with(&typed) {
            begun.push(candidate);
        }
    }
    match (closest, &begun[..]) {
        (Some((_, candidate)), _) | (None, &[candidate]) => Some(candidate),
        _ => None,
    }
}

/// A word without what people change when they type it from memory.
fn plain(word: &str) -> String {
    word.chars().filter(|c| !matches!(c, '-' | '_' | ' ')).flat_map(char::to_lowercase).collect()
}

#[cfg(test)]
mod tests {
    use super::nearest;

    const KEYS: [&str; 6] = ["columns", "gap", "cell", "cell-width", "key", "sound-boxes"];

    #[test]
    fn slips_are_seen_through() {
        assert_eq!(nearest("collumns", KEYS), Some("columns"));
        assert_eq!(nearest("colmuns", KEYS), Some("columns"));
        assert_eq!(nearest("Cell_Width", KEYS), Some("cell-width"));
        assert_eq!(nearest("soundboxes", KEYS), Some("sound-boxes"));
        assert_eq!(nearest("gpa", KEYS), Some("gap"));
        assert_eq!(nearest("kex", KEYS), Some("key"));
    }

    #[test]
    fn a_beginning_names_one_word_or_none() {
        assert_eq!(nearest("col", KEYS), Some("columns"));
        assert_eq!(nearest("cel", KEYS), Some("cell"));
        assert_eq!(nearest("cel", ["cell-width", "cell-height"]), None);
    }

    #[test]
    fn another_word_is_left_alone() {
        assert_eq!(nearest("rows", KEYS), None);
        assert_eq!(nearest("x", KEYS), None);
        assert_eq!(nearest("x", ["y"]), None);
        assert_eq!(nearest("", KEYS), None);
        assert_eq!(nearest("columns", []), None);
        assert_eq!(nearest(&"columns".repeat(1000), KEYS), None);
    }

    #[test]
    fn the_first_of_two_as_close_is_taken() {
        assert_eq!(nearest("bat", ["cat", "hat"]), Some("cat"));
    }
}
