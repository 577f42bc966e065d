//! Seeds that are easy to say aloud, to write on a board and to type.

use super::Seed;

/// Sixty-four words that say how a thing is. No two words here are a letter apart; those that are heard or spelled in more
/// than one way were left out as far as we know them.
const LIKE: [&str; 64] = [
    "airy", "breezy", "brisk", "broad", "bumpy", "calm", "careful", "cheery", "crisp", "curly", "dainty", "eager",
    "early", "fluffy", "fresh", "friendly", "gentle", "giant", "glad", "gleaming", "golden", "grand", "handy", "happy",
    "hopeful", "humble", "jolly", "keen", "kind", "lively", "mild", "modest", "mossy", "nimble", "noble", "patient",
    "playful", "plush", "polite", "proud", "puffy", "purple", "quick", "restful", "round", "shiny", "silent", "silver",
    "simple", "sleepy", "smooth", "snug", "speedy", "steady", "striped", "sturdy", "swift", "tall", "tender", "tidy",
    "toasty", "velvet", "yellow", "zesty",
];

/// Sixty-four things to see, chosen as [`LIKE`] is.
const THING: [&str; 64] = [
    "acorn", "apple", "badger", "barn", "basket", "blanket", "boat", "bridge", "button", "cabin", "candle", "canoe",
    "castle", "cloud", "clover", "compass", "cottage", "desk", "dolphin", "drum", "duck", "eagle", "feather", "field",
    "garden", "giraffe", "guitar", "hammock", "hill", "island", "jacket", "kettle", "kite", "ladder", "lantern",
    "leaf", "lemon", "lizard", "meadow", "mitten", "moon", "mountain", "nest", "otter", "owl", "panda", "pebble",
    "pencil", "piano", "pillow", "planet", "pond", "puffin", "pumpkin", "puzzle", "rabbit", "rainbow", "rocket",
    "squirrel", "teapot", "tortoise", "train", "window", "zebra",
];

/// A seed of the form `calm-otter-42`, from 64 random bits that the caller has from the system.
///
/// There are 64 × 64 × 90 of them. The lists may change without harm: a seed is known by its text, not by how it came about.
#[must_use]
pub fn readable(random: u64) -> Seed {
    let number = 10 + (random >> 12) % 90;
    Seed::trusted(format!("{}-{}-{number}", of(&LIKE, random), of(&THING, random >> 6)))
}

/// The word that the lowest six bits name.
fn of(words: &[&'static str; 64], bits: u64) -> &'static str {
    words[(bits & 63) as usize]
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::{LIKE, THING, readable};
    use crate::seed::Seed;

    #[test]
    fn no_two_words_are_a_letter_apart() {
        let words: Vec<&str> = LIKE.into_iter().chain(THING).collect();
        for (at, one) in words.iter().enumerate() {
            for two in &words[at + 1..] {
                assert!(strsim::damerau_levenshtein(one, two) > 1, "{one} and {two}");
            }
        }
    }

    #[test]
    fn words_are_short_and_plain() {
        for word in LIKE.into_iter().chain(THING) {
            assert!((3..=8).contains(&word.len()) && word.bytes().all(|b| b.is_ascii_lowercase()), "{word}");
        }
    }

    #[test]
    fn bits_name_the_words() {
        assert_eq!(readable(0).as_str(), "airy-acorn-10");
        assert_eq!(readable(5 | 43 << 6 | 32 << 12).as_str(), "calm-otter-42");
        assert_eq!(readable(63 | 63 << 6 | 89 << 12).as_str(), "zesty-zebra-99");
    }

    proptest! {
        #[test]
        fn every_one_is_a_seed_as_it_stands(random: u64) {
            let seed = readable(random);
            prop_assert_eq!(Seed::new(seed.as_str()), Ok(seed));
        }
    }
}
