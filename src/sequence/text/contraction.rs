//! The common contractions.

use std::collections::BTreeMap;
use std::sync::OnceLock;

const TABLE: &str = include_str!("contractions.tsv");

fn table() -> &'static BTreeMap<&'static str, Vec<&'static str>> {
    static READ: OnceLock<BTreeMap<&'static str, Vec<&'static str>>> = OnceLock::new();
    READ.get_or_init(|| {
        let rows = TABLE.lines().filter(|line| !line.starts_with('#'));
        rows.filter_map(|line| line.split_once('\t')).map(|(short, long)| (short, long.split(' ').collect())).collect()
    })
}

/// The words that a contraction stands for.
pub fn stands_for(spelling: &str) -> Option<&'static [&'static str]> {
    table().get(spelling).map(Vec::as_slice)
}

/// Whether a spelling is a contraction only with an apostrophe before it: *em*, *til*. (*cause* is not listed: it is a word
/// without the mark too, so a mark before it is a quotation mark.)
pub fn needs_mark(spelling: &str) -> bool {
    table().contains_key(format!("'{spelling}").as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::bank::Bank;
    use crate::sounds::Counting;

    #[test]
    fn contractions_stand_for_words_of_the_bank() {
        let bank = Bank::builtin(Counting::default()).unwrap();
        let rows: Vec<_> = TABLE.lines().filter(|line| !line.starts_with('#')).collect();
        assert!(rows.is_sorted_by(|one, next| one < next));
        assert_eq!(table().len(), rows.len());
        for (short, long) in table() {
            assert!(short.contains('\'') && !short.ends_with("'s") && bank.get(short).is_none(), "{short}");
            assert!(!long.is_empty() && long.iter().all(|word| bank.get(word).is_some()), "{short}");
        }
        assert_eq!(stands_for("don't"), Some(["do", "not"].as_slice()));
        assert_eq!(stands_for("dont"), None);
    }

    #[test]
    fn some_need_the_mark_before_them() {
        assert!(needs_mark("em") && needs_mark("til"));
        assert!(!needs_mark("cause") && !needs_mark("dog"));
    }
}
