//! Filling sound boxes anew from a word's letter groups.

use super::hear::hear_at;
use super::{Numbered, Wrong};
use crate::bank::Word;
use crate::sheet::BoxRow;
use crate::sounds::Counting;

/// Checks a row of boxes against the word that it is for.
pub(super) fn check(at: Numbered, row: &BoxRow, word: &Word, counting: Counting) -> Result<(), Wrong> {
    let (letters, after) = fill(word, counting);
    at.same("the number of boxes", &row.letters.len(), &letters.len())?;
    at.same("the letters in the boxes", &row.letters, &letters)?;
    at.same("after the last box", &row.after, &after)
}

/// The boxes' letters as a key writes them.
pub(super) fn key(word: &Word, counting: Counting) -> String {
    let (letters, after) = fill(word, counting);
    let filled: Vec<String> = letters.into_iter().filter(|group| !group.is_empty()).collect();
    if after.is_empty() { filled.join(" ") } else { format!("{} ({after})", filled.join(" ")) }
}

/// The letters of each box, and those that are left for after the last one. A group stands in the box of its first sound; a
/// silent *e* at the end of a consonant's group and the second half of a split vowel come after.
fn fill(word: &Word, counting: Counting) -> (Vec<String>, String) {
    let starts: Vec<usize> = hear_at(word, counting).into_iter().map(|(_, phone)| phone).collect();
    let mut letters = vec![String::new(); starts.len()];
    let mut after = String::new();
    let mut phone = 0;
    for unit in &word.alignment.units {
        let at = starts.iter().rposition(|&start| start <= phone).unwrap_or(0);
        let mut chars: Vec<char> = unit.letters.chars().collect();
        let late = chars.iter().position(|&c| c == '_').map_or(Vec::new(), |gap| chars.split_off(gap));
        let consonant = unit.phones.first().is_some_and(|phone| !phone.phoneme.is_vowel());
        if consonant && chars.len() > 1 && chars.ends_with(&['e']) {
            chars.pop();
            after.push('e');
        }
        after.extend(late.into_iter().skip(1));
        let u = (chars == ['q', 'u'] && unit.phones.len() == 2).then(|| chars.pop()).flatten();
        letters[at].extend(chars);
        if let (Some(u), Some(next)) = (u, letters.get_mut(at + 1)) {
            next.push(u);
        }
        phone += unit.phones.len();
    }
    (letters, after)
}
