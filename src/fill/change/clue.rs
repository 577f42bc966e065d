//! What the adult says of a change.

use super::{ChangePart, SoundChange};
use crate::bank::{Exchange, Word};
use crate::fill::Move;
use crate::sounds::{Notation, Sound, spell_out};

/// The sound after which the second of a blend comes or goes.
fn before(change: &Exchange, word: &Word) -> Option<Sound> {
    word.sounds.get(change.at.checked_sub(1)?).copied()
}

/// Whether the clue can mean one place of the word only.
pub(super) fn is_clear(spec: &SoundChange, change: &Exchange, word: &Word) -> bool {
    let times = |part: &[Sound]| word.sounds.windows(part.len().max(1)).filter(|window| *window == part).count();
    match (spec.by, spec.part) {
        (Move::Swap, _) => times(&change.old) == 1,
        (_, ChangePart::First | ChangePart::Blend) => true,
        (_, ChangePart::Second) => before(change, word).is_some_and(|first| times(&[first]) == 1),
    }
}

/// The clue: `Change /b/ /l/ to /d/ /r/.`
pub(super) fn written(spec: &SoundChange, change: &Exchange, word: &Word, notation: Notation) -> String {
    let (old, new) = (change.old_said(notation), change.new_said(notation));
    let place = match before(change, word) {
        Some(first) => format!("after {}", spell_out(&[first], notation)),
        None => "at the start".to_owned(),
    };
    match spec.by {
        Move::Swap => format!("Change {old} to {new}."),
        Move::Add => format!("Add {new} {place}."),
        Move::TakeAway => format!("Take away {old} {place}."),
    }
}
