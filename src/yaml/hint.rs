//! Hints that name what could have been written.

use crate::nearest::nearest;

/// A hint for a name that is not known: the nearest that is, when one is near, and all of them.
///
/// `kinds` says what they are, in the plural: `did you mean `grid`? The blocks are: `grid`, `title`.`
#[must_use]
pub fn did_you_mean(word: &str, kinds: &str, known: &[&str]) -> String {
    let all = known.iter().map(|name| format!("`{name}`")).collect::<Vec<_>>().join(", ");
    match (nearest(word, known.iter().copied()), known.len()) {
        (_, 0) => format!("there are no {kinds} here"),
        (Some(near), 1) => format!("did you mean `{near}`?"),
        (Some(near), _) => format!("did you mean `{near}`? The {kinds} are: {all}."),
        (None, 1) => format!("there is only {all}"),
        (None, _) => format!("the {kinds} are: {all}"),
    }
}

#[cfg(test)]
mod tests {
    use super::did_you_mean;

    #[test]
    fn the_nearest_stands_before_all() {
        assert_eq!(
            did_you_mean("gird", "blocks", &["grid", "title"]),
            "did you mean `grid`? The blocks are: `grid`, `title`."
        );
        assert_eq!(did_you_mean("picture", "blocks", &["grid", "title"]), "the blocks are: `grid`, `title`");
        assert_eq!(did_you_mean("gird", "blocks", &["grid"]), "did you mean `grid`?");
        assert_eq!(did_you_mean("picture", "blocks", &["grid"]), "there is only `grid`");
        assert_eq!(did_you_mean("gird", "blocks", &[]), "there are no blocks here");
    }
}
