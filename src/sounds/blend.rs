//! Consonant blends, by sound, and where in a word each is heard.

use std::fmt;

use super::Sound::{self, *};
use super::Syllable;

/// Whether a blend opens or closes a syllable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Side {
    /// Before the vowel: an initial blend.
    Onset,
    /// After the vowel: a final blend.
    Coda,
}

/// Where in a word a blend is heard.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Place {
    /// The onset of the first syllable.
    Beginning,
    /// Any other onset or coda.
    Middle,
    /// The coda of the last syllable.
    End,
}

impl Place {
    /// All places, from left to right.
    pub const ALL: [Self; 3] = [Self::Beginning, Self::Middle, Self::End];

    /// The word for it: `beginning`, `middle` or `end`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Beginning => "beginning",
            Self::Middle => "middle",
            Self::End => "end",
        }
    }
}

/// A consonant blend: two or three sounds next to each other in one syllable, each still heard.
#[derive(Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Blend {
    /// Its usual spelling, by which it is asked for.
    pub name: &'static str,
    /// Other names that ask for the same sounds.
    pub also: &'static [&'static str],
    /// Its sounds, by which it is defined.
    pub sounds: &'static [Sound],
    /// Whether it opens or closes a syllable.
    pub side: Side,
    /// Whether it is one of the blends that are commonly taught. The others are known so that a word that holds them is
    /// not taken for easy.
    pub taught: bool,
}

const fn onset(name: &'static str, also: &'static [&'static str], sounds: &'static [Sound]) -> Blend {
    Blend { name, also, sounds, side: Side::Onset, taught: true }
}

const fn coda(name: &'static str, sounds: &'static [Sound]) -> Blend {
    Blend { name, also: &[], sounds, side: Side::Coda, taught: true }
}

const fn rare(name: &'static str, side: Side, sounds: &'static [Sound]) -> Blend {
    Blend { name, also: &[], sounds, side, taught: false }
}

/// All blends, initial before final, in the order in which they are listed (common practice, no source).
pub const BLENDS: &[Blend] = &[
    onset("bl", &[], &[B, L]),
    onset("cl", &["kl"], &[K, L]),
    onset("fl", &[], &[F, L]),
    onset("gl", &[], &[G, L]),
    onset("pl", &[], &[P, L]),
    onset("sl", &[], &[S, L]),
    onset("br", &[], &[B, R]),
    onset("cr", &["kr"], &[K, R]),
    onset("dr", &[], &[D, R]),
    onset("fr", &[], &[F, R]),
    onset("gr", &[], &[G, R]),
    onset("pr", &[], &[P, R]),
    onset("tr", &[], &[T, R]),
    onset("sk", &["sc", "sch", "sc/sk"], &[S, K]),
    onset("sm", &[], &[S, M]),
    onset("sn", &[], &[S, N]),
    onset("sp", &[], &[S, P]),
    onset("st", &[], &[S, T]),
    onset("sw", &[], &[S, W]),
    onset("tw", &[], &[T, W]),
    onset("dw", &[], &[D, W]),
    onset("qu", &["kw"], &[K, W]),
    onset("scr", &["skr", "scr/skr"], &[S, K, R]),
    onset("shr", &[], &[Sh, R]),
    onset("spl", &[], &[S, P, L]),
    onset("spr", &[], &[S, P, R]),
    onset("squ", &["skw"], &[S, K, W]),
    onset("str", &[], &[S, T, R]),
    onset("thr", &[], &[Th, R]),
    rare("gw", Side::Onset, &[G, W]),
    rare("thw", Side::Onset, &[Th, W]),
    rare("sph", Side::Onset, &[S, F]),
    coda("ct", &[K, T]),
    coda("ft", &[F, T]),
    coda("lch", &[L, Ch]),
    coda("ld", &[L, D]),
    coda("lf", &[L, F]),
    coda("lk", &[L, K]),
    coda("lm", &[L, M]),
    coda("lp", &[L, P]),
    coda("lt", &[L, T]),
    coda("mp", &[M, P]),
    coda("nch", &[N, Ch]),
    coda("nd", &[N, D]),
    coda("nk", &[Ng, K]),
    coda("nt", &[N, T]),
    coda("pt", &[P, T]),
    coda("sk", &[S, K]),
    coda("sp", &[S, P]),
    coda("st", &[S, T]),
    rare("nce", Side::Coda, &[N, S]),
    rare("nge", Side::Coda, &[N, J]),
    rare("nth", Side::Coda, &[N, Th]),
    rare("lth", Side::Coda, &[L, Th]),
    rare("lse", Side::Coda, &[L, S]),
    rare("lve", Side::Coda, &[L, V]),
    rare("lge", Side::Coda, &[L, J]),
    rare("lsh", Side::Coda, &[L, Sh]),
    rare("nze", Side::Coda, &[N, Z]),
    rare("pse", Side::Coda, &[P, S]),
    rare("ks", Side::Coda, &[K, S]),
    rare("xt", Side::Coda, &[K, S, T]),
    rare("mpt", Side::Coda, &[M, P, T]),
    rare("ngth", Side::Coda, &[Ng, K, Th]),
    rare("pth", Side::Coda, &[P, Th]),
    rare("fth", Side::Coda, &[F, Th]),
    rare("dth", Side::Coda, &[D, Th]),
];

impl Blend {
    /// The blend of some sounds on one side of the vowel, if it is known.
    #[must_use]
    pub fn of_sounds(sounds: &[Sound], side: Side) -> Option<&'static Self> {
        BLENDS.iter().find(|blend| blend.side == side && blend.sounds == sounds)
    }

    /// The initial and the final blend that a name asks for; `sk`, `sp` and `st` name one of each.
    #[must_use]
    pub fn named(name: &str) -> Vec<&'static Self> {
        BLENDS.iter().filter(|blend| blend.name == name || blend.also.contains(&name)).collect()
    }

    /// All names, for hints.
    pub fn names() -> impl Iterator<Item = &'static str> {
        BLENDS.iter().flat_map(|blend| std::iter::once(blend.name).chain(blend.also.iter().copied()))
    }
}

impl fmt::Display for Blend {
    /// `bl-` for an initial and `-nd` for a final blend.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.side {
            Side::Onset => write!(f, "{}-", self.name),
            Side::Coda => write!(f, "-{}", self.name),
        }
    }
}

/// A consonant cluster in a word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cluster {
    /// The index of its first sound in the word.
    pub from: usize,
    /// How many sounds it has, 2 or more.
    pub len: usize,
    /// Whether it opens or closes its syllable.
    pub side: Side,
    /// Where in the word it stands.
    pub place: Place,
    /// The blend that it is, if it is a known one.
    pub blend: Option<&'static Blend>,
}

/// Every cluster of two or more consonants in one syllable, from left to right.
#[must_use]
pub fn clusters(sounds: &[Sound], syllables: &[Syllable]) -> Vec<Cluster> {
    let last = syllables.len().saturating_sub(1);
    let mut found = Vec::new();
    for (nth, syllable) in syllables.iter().enumerate() {
        for (range, side) in [(&syllable.onset, Side::Onset), (&syllable.coda, Side::Coda)] {
            if range.len() < 2 {
                continue;
            }
            let place = match side {
                Side::Onset if nth == 0 => Place::Beginning,
                Side::Coda if nth == last => Place::End,
                _ => Place::Middle,
            };
            let blend = Blend::of_sounds(&sounds[range.clone()], side);
            found.push(Cluster { from: range.start, len: range.len(), side, place, blend });
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sounds::{is_onset, syllables};

    #[test]
    fn names_and_sounds_are_unique_on_each_side() {
        for (i, one) in BLENDS.iter().enumerate() {
            for other in &BLENDS[i + 1..] {
                assert!(
                    one.side != other.side || (one.name != other.name && one.sounds != other.sounds),
                    "{one} {other}"
                );
            }
        }
    }

    #[test]
    fn every_initial_blend_is_an_english_onset() {
        for blend in BLENDS.iter().filter(|b| b.side == Side::Onset) {
            assert!(is_onset(blend.sounds), "{blend}");
        }
    }

    #[test]
    fn a_blend_is_the_whole_cluster() {
        let splash = [S, P, L, ShortA, Sh];
        let found = clusters(&splash, &syllables(&splash, &[]));
        assert_eq!(found.len(), 1);
        assert_eq!(found[0].blend.unwrap().name, "spl");
        assert_eq!(found[0].place, Place::Beginning);
    }

    #[test]
    fn places_are_by_the_syllable() {
        let chestnut = [Ch, ShortE, S, T, N, ShortU, T];
        let places = |sounds: &[Sound], seams: &[usize]| -> Vec<_> {
            clusters(sounds, &syllables(sounds, seams)).iter().map(|c| (c.blend.unwrap().name, c.place)).collect()
        };
        assert_eq!(places(&chestnut, &[4]), [("st", Place::Middle)]);
        let hundred = [H, ShortU, N, D, R, ShortE, D];
        assert_eq!(places(&hundred, &[]), [("dr", Place::Middle)]);
        let stamp = [S, T, ShortA, M, P];
        assert_eq!(places(&stamp, &[]), [("st", Place::Beginning), ("mp", Place::End)]);
    }
}
