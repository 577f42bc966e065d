//! Rhyme, by sound.

use super::Sound;

/// The part that rhyming words share: from the stressed vowel to the end. `stressed` is the index of that vowel.
#[must_use]
pub fn rhyme_part(sounds: &[Sound], stressed: usize) -> &[Sound] {
    &sounds[stressed.min(sounds.len())..]
}

/// Whether two words rhyme: they are the same from the stressed vowel to the end and differ in the sounds just before it.
/// A word rhymes neither with itself nor with a homophone, nor when the same consonants stand before the vowel
/// (*leave* and *believe*).
#[must_use]
pub fn rhymes(one: (&[Sound], usize), other: (&[Sound], usize)) -> bool {
    rhyme_part(one.0, one.1) == rhyme_part(other.0, other.1) && before(one) != before(other)
}

/// The consonants just before the stressed vowel.
fn before((sounds, stressed): (&[Sound], usize)) -> &[Sound] {
    let head = &sounds[..stressed.min(sounds.len())];
    let from = head.iter().rposition(|s| s.is_vowel()).map_or(0, |vowel| vowel + 1);
    &head[from..]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sounds::Sound::*;

    #[test]
    fn rhymes_by_sound() {
        assert!(rhymes((&[B, LongI, T], 1), (&[L, LongI, T], 1)));
        assert!(rhymes((&[LongI, T], 0), (&[L, LongI, T], 1)));
        assert!(!rhymes((&[B, LongI, T], 1), (&[B, LongI, T], 1)));
        assert!(!rhymes((&[B, LongI, T], 1), (&[B, LongI, D], 1)));
        let leave = [L, LongE, V];
        let believe = [B, ShortI, L, LongE, V];
        assert!(!rhymes((&leave, 1), (&believe, 3)));
    }
}
