//! A word's row of sound boxes, with what a layout allows beyond what beginners are taught.

use crate::bank::{Misfit, Word};
use crate::sheet::BoxRow;

/// The word in boxes, or nothing when it does not fit or is a kind of word that is not in `allow`.
///
/// Where a letter group spells two sounds, which only `allow` lets in, its letters stand in the first of the two boxes and reach
/// over the second, which has none; but *q* and *u* have a box each.
pub(super) fn row(word: &Word, allow: &[Misfit]) -> Option<BoxRow> {
    match word.boxes() {
        Ok((_, Some(misfit))) if !allow.contains(&misfit) => None,
        Ok((boxes, _)) => Some(BoxRow { letters: boxes.letters, after: boxes.after, marked: None }),
        Err(misfit) => allow.contains(&misfit).then(|| spread(word)),
    }
}

/// The boxes of a word in which a letter group spells two sounds.
fn spread(word: &Word) -> BoxRow {
    let mut letters = vec![String::new(); word.sounds.len()];
    let mut after = String::new();
    let mut phone = 0;
    for unit in &word.alignment.units {
        let at = word.heard.iter().position(|h| (h.from..h.from + h.phones).contains(&phone)).unwrap_or(0);
        let (head, tail) = unit.halves();
        let vowel = unit.phones.first().is_some_and(|p| p.phoneme.is_vowel());
        match head.strip_suffix('e').filter(|kept| !vowel && !kept.is_empty()) {
            _ if head == "qu" && unit.phones.len() == 2 => {
                for (group, letter) in letters.iter_mut().skip(at).zip(["q", "u"]) {
                    group.push_str(letter);
                }
            }
            Some(kept) => {
                letters[at].push_str(kept);
                after.push('e');
            }
            None => letters[at].push_str(head),
        }
        after.push_str(tail);
        phone += unit.phones.len();
    }
    BoxRow { letters, after, marked: None }
}

/// The row as a key writes it: `b r a v (e)`.
pub(super) fn written(row: &BoxRow) -> String {
    let mut text = row.letters.iter().filter(|group| !group.is_empty()).cloned().collect::<Vec<_>>().join(" ");
    if !row.after.is_empty() {
        text.push_str(" (");
        text.push_str(&row.after);
        text.push(')');
    }
    text
}
