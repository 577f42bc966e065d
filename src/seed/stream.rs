//! Streams of random words, each known by its seed and path.

use std::fmt;

use rand_chacha::ChaCha20Rng;
use rand_chacha::rand_core::{Rng, SeedableRng};

use super::Seed;

/// The rules by which content is chosen. A version comes in when a choice would come out otherwise for the same seed; those
/// before stay, so that the sheets that were made by them come out again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rules {
    /// The first.
    #[default]
    One,
}

impl Rules {
    /// Those by which new sheets are made.
    pub const CURRENT: Self = Self::One;

    /// Their number.
    #[must_use]
    pub const fn version(self) -> u32 {
        match self {
            Self::One => 1,
        }
    }

    /// The rules of a number; `None` when this program does not know them.
    #[must_use]
    pub const fn of_version(version: u32) -> Option<Self> {
        match version {
            1 => Some(Self::One),
            _ => None,
        }
    }

    /// The text that goes into the key of every stream.
    const fn domain(self) -> &'static str {
        match self {
            Self::One => "sheafling choosing rules 1",
        }
    }
}

/// A stream of random words that depends on a seed and a path, and on nothing else.
///
/// The words are the ChaCha20 keystream (RFC 8439, section 2.3, with block counter and nonce starting at 0) under a key of
/// 32 bytes: the BLAKE3 hash of the rules' version, the seed and the parts of the path in order, each as UTF-8 with its
/// length in bytes before it (8 bytes, little-endian). So no two paths share a key.
#[derive(Clone)]
pub struct Stream {
    /// The bytes whose hash is the key; kept to fork from.
    name: Vec<u8>,
    words: ChaCha20Rng,
}

impl Stream {
    /// The stream of `seed` for what `path` names, by the current rules: from the wide to the narrow, such as child, activity,
    /// purpose.
    #[must_use]
    pub fn new(seed: &Seed, path: &[&str]) -> Self {
        Self::under(Rules::CURRENT, seed, path)
    }

    /// The same by rules of some version.
    #[must_use]
    pub fn under(rules: Rules, seed: &Seed, path: &[&str]) -> Self {
        let mut name = Vec::new();
        push_part(&mut name, rules.domain());
        push_part(&mut name, seed.as_str());
        for part in path {
            push_part(&mut name, part);
        }
        Self::named(name)
    }

    /// The stream whose path is this one's with `part` after it. What was drawn from this one makes no difference.
    #[must_use]
    pub fn fork(&self, part: &str) -> Self {
        let mut name = self.name.clone();
        push_part(&mut name, part);
        Self::named(name)
    }

    /// The next 32 random bits.
    pub fn next_u32(&mut self) -> u32 {
        self.words.next_u32()
    }

    /// The next 64 random bits: two words of 32, the low one first.
    pub fn next_u64(&mut self) -> u64 {
        let low = u64::from(self.next_u32());
        let high = u64::from(self.next_u32());
        high << 32 | low
    }

    fn named(name: Vec<u8>) -> Self {
        let words = keystream(*blake3::hash(&name).as_bytes());
        Self { name, words }
    }
}

/// Shows no state: what is still to come should not end up in a message.
impl fmt::Debug for Stream {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Stream").finish_non_exhaustive()
    }
}

/// The one place that knows the package the keystream comes from.
fn keystream(key: [u8; 32]) -> ChaCha20Rng {
    ChaCha20Rng::from_seed(key)
}

/// Adds a part with its length before it, so that `["ab", "c"]` and `["a", "bc"]` differ.
fn push_part(name: &mut Vec<u8>, part: &str) {
    name.extend_from_slice(&(part.len() as u64).to_le_bytes());
    name.extend_from_slice(part.as_bytes());
}

#[cfg(test)]
#[allow(clippy::expect_used, reason = "a test may stop at once")]
mod tests {
    use std::fmt::Write as _;

    use proptest::prelude::*;

    use super::{Stream, keystream, push_part};
    use crate::seed::Seed;

    /// One block of keystream under the RFC's 32-bit counter and 96-bit nonce. The generator splits the same four state
    /// words into a 64-bit counter and a 64-bit stream, so the nonce's first word is the upper half of its counter.
    fn block(key: [u8; 32], counter: u32, nonce: [u8; 12]) -> String {
        let word = |at: usize| u32::from_le_bytes([nonce[at], nonce[at + 1], nonce[at + 2], nonce[at + 3]]);
        let mut words = keystream(key);
        words.set_stream(u64::from(word(8)) << 32 | u64::from(word(4)));
        words.set_word_pos((u128::from(word(0)) << 32 | u128::from(counter)) * 16);
        let mut hex = String::new();
        for _ in 0..16 {
            for byte in rand_chacha::rand_core::Rng::next_u32(&mut words).to_le_bytes() {
                write!(hex, "{byte:02x}").expect("room in a string");
            }
        }
        hex
    }

    /// RFC 8439 (2018), section 2.3.2.
    #[test]
    fn keystream_is_that_of_rfc_8439_section_2_3_2() {
        let key = std::array::from_fn(|i| u8::try_from(i).expect("below 32"));
        let nonce = [0, 0, 0, 9, 0, 0, 0, 0x4a, 0, 0, 0, 0];
        assert_eq!(
            block(key, 1, nonce),
            "10f1e7e4d13b5915500fdd1fa32071c4c7d1f4c733c068030422aa9ac3d46c4e\
             d2826446079faa0914c2d705d98b02a2b5129cd1de164eb9cbd083e8a2503c4e"
        );
    }

    /// RFC 8439 (2018), appendix A.1, test vectors 1 to 5.
    #[test]
    fn keystream_is_that_of_rfc_8439_appendix_a_1() {
        let zero = [0; 32];
        let with = |at: usize, byte: u8| {
            let mut key = zero;
            key[at] = byte;
            key
        };
        let mut last = [0; 12];
        last[11] = 2;
        assert_eq!(
            block(zero, 0, [0; 12]),
            "76b8e0ada0f13d90405d6ae55386bd28bdd219b8a08ded1aa836efcc8b770dc7\
             da41597c5157488d7724e03fb8d84a376a43b8f41518a11cc387b669b2ee6586"
        );
        assert_eq!(
            block(zero, 1, [0; 12]),
            "9f07e7be5551387a98ba977c732d080dcb0f29a048e3656912c6533e32ee7aed\
             29b721769ce64e43d57133b074d839d531ed1f28510afb45ace10a1f4b794d6f"
        );
        assert_eq!(
            block(with(31, 1), 1, [0; 12]),
            "3aeb5224ecf849929b9d828db1ced4dd832025e8018b8160b82284f3c949aa5a\
             8eca00bbb4a73bdad192b5c42f73f2fd4e273644c8b36125a64addeb006c13a0"
        );
        assert_eq!(
            block(with(1, 0xff), 2, [0; 12]),
            "72d54dfbf12ec44b362692df94137f328fea8da73990265ec1bbbea1ae9af0ca\
             13b25aa26cb4a648cb9b9d1be65b2c0924a66c54d545ec1b7374f4872e99f096"
        );
        assert_eq!(
            block(zero, 0, last),
            "c2c64d378cd536374ae204b9ef933fcd1a8b2288b3dfa49672ab765b54ee27c7\
             8a970e0e955c14f3a88e741b97c286f75f8fc299e8148362fa198a39531bed6d"
        );
    }

    fn seed(text: &str) -> Seed {
        Seed::new(text).expect("a seed")
    }

    /// If this fails, every sheet made before comes out otherwise: undo the change, or raise the rules' version.
    #[test]
    fn words_of_a_known_stream_are_pinned() {
        let mut stream = Stream::new(&seed("maple-otter-42"), &["child 1", "sound boxes", "words"]);
        let words: Vec<u32> = (0..4).map(|_| stream.next_u32()).collect();
        assert_eq!(words, [1_512_716_383, 3_910_547_991, 3_649_893_289, 306_047_844]);
        assert_eq!(stream.next_u64(), 6_679_165_983_604_816_248);
        assert_eq!(Stream::new(&seed("maple-otter-42"), &[]).next_u32(), 1_217_102_758);
    }

    #[test]
    fn wide_words_are_two_words_low_first() {
        let mut narrow = Stream::new(&seed("a"), &[]);
        let (low, high) = (u64::from(narrow.next_u32()), u64::from(narrow.next_u32()));
        assert_eq!(Stream::new(&seed("a"), &[]).next_u64(), high << 32 | low);
    }

    #[test]
    fn a_fork_is_the_longer_path_whatever_was_drawn() {
        let mut stream = Stream::new(&seed("a"), &["child"]);
        let before = stream.fork("words").next_u64();
        stream.next_u32();
        assert_eq!(stream.fork("words").next_u64(), before);
        assert_eq!(Stream::new(&seed("a"), &["child", "words"]).next_u64(), before);
        assert_ne!(stream.fork("order").next_u64(), before);
    }

    #[test]
    fn seed_and_path_do_not_run_together() {
        let first = |text: &str, path: &[&str]| Stream::new(&seed(text), path).next_u64();
        let all = [
            first("ab", &[]),
            first("a", &["b"]),
            first("a", &["b", ""]),
            first("a", &["", "b"]),
            first("a", &["bc"]),
            first("a", &["b", "c"]),
            first("ab", &["c"]),
        ];
        let distinct: std::collections::BTreeSet<u64> = all.into_iter().collect();
        assert_eq!(distinct.len(), all.len());
    }

    proptest! {
           #[test]
           fn names_differ_where_paths_differ(
               one in prop::collection::vec("[ab/\u{0}]{0,3}", 0..4),
               two in prop::collection::vec("[ab/\u{0}]{0,3}", 0..4),
           ) {
               let name = |path: &[String]| {
                   let mut name = Vec::new();
                   for part in path {
    push_part(&mut name, part);
    }
                   name
               };
               prop_assert_eq!(one == two, name(&one) == name(&two));
           }
       }
}
