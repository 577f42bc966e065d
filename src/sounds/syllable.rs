//! Syllables: onset, vowel and coda.

use std::ops::Range;

use super::Sound::{self, *};

/// A syllable, as indexes into the word's sounds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Syllable {
    /// The consonants before the vowel; may be empty.
    pub onset: Range<usize>,
    /// The vowel.
    pub vowel: usize,
    /// The consonants after the vowel; may be empty.
    pub coda: Range<usize>,
}

impl Syllable {
    /// The rime: the vowel and all after it in the syllable.
    #[must_use]
    pub fn rime(&self) -> Range<usize> {
        self.vowel..self.coda.end
    }
}

/// The consonant clusters that can begin an English syllable, single consonants aside.
///
/// Two sounds: a stop or voiceless fricative with /l r w/, and /s/ with a voiceless stop, a nasal, /l/, /w/ or /f/; three: /s/, a
/// voiceless stop and /l r w/. These are the rows of the onset tables that phonology handbooks print, such as Giegerich,
/// *English Phonology* (1992), ch. 6 (from memory). Clusters with /y/ do not occur, since /yū/ is a vowel here.
const ONSETS: &[&[Sound]] = &[
    &[B, L],
    &[K, L],
    &[F, L],
    &[G, L],
    &[P, L],
    &[S, L],
    &[B, R],
    &[K, R],
    &[D, R],
    &[F, R],
    &[G, R],
    &[P, R],
    &[T, R],
    &[Th, R],
    &[Sh, R],
    &[T, W],
    &[D, W],
    &[K, W],
    &[G, W],
    &[Th, W],
    &[S, W],
    &[S, K],
    &[S, M],
    &[S, N],
    &[S, P],
    &[S, T],
    &[S, F],
    &[S, P, L],
    &[S, P, R],
    &[S, T, R],
    &[S, K, R],
    &[S, K, W],
];

/// Whether consonants can begin an English syllable: none, one other than /ng/, or a known cluster.
#[must_use]
pub fn is_onset(sounds: &[Sound]) -> bool {
    match sounds {
        [] => true,
        [one] => !one.is_vowel() && *one != Ng,
        cluster => ONSETS.contains(&cluster),
    }
}

/// Parts a word into syllables. `seams` are the indexes of the sounds at which a part of a compound begins (*rain·bow*: 3);
/// no syllable crosses one. Between two vowels, as many consonants as English allows open the second syllable
/// (the maximal-onset principle). A word without a vowel has no syllable.
#[must_use]
pub fn syllables(sounds: &[Sound], seams: &[usize]) -> Vec<Syllable> {
    let vowels: Vec<usize> = (0..sounds.len()).filter(|&i| sounds[i].is_vowel()).collect();
    let mut found: Vec<Syllable> = Vec::with_capacity(vowels.len());
    for (nth, &vowel) in vowels.iter().enumerate() {
        let onset_from = match nth.checked_sub(1).map(|before| vowels[before]) {
            None => 0,
            Some(before) => onset_start(sounds, before + 1, vowel, seams),
        };
        if let Some(last) = found.last_mut() {
            last.coda.end = onset_from;
        }
        found.push(Syllable { onset: onset_from..vowel, vowel, coda: vowel + 1..sounds.len() });
    }
    found
}

/// Where the onset of the vowel at `vowel` begins, among the consonants from `from`.
fn onset_start(sounds: &[Sound], from: usize, vowel: usize, seams: &[usize]) -> usize {
    if let Some(&seam) = seams.iter().find(|&&seam| from <= seam && seam <= vowel) {
        return seam;
    }
    (from..=vowel).find(|&start| is_onset(&sounds[start..vowel])).unwrap_or(vowel)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sounds::{Counting, count_sounds, parse_phones};

    fn split(codes: &str, seams: &[usize]) -> String {
        let phones = parse_phones(codes).unwrap();
        let sounds: Vec<_> = count_sounds(&phones, &Counting::default()).iter().map(|h| h.sound).collect();
        syllables(&sounds, seams)
            .iter()
            .map(|s| sounds[s.onset.start..s.coda.end].iter().map(|s| s.code()).collect::<Vec<_>>().join(" "))
            .collect::<Vec<_>>()
            .join(" . ")
    }

    #[test]
    fn as_many_consonants_as_english_allows_open_a_syllable() {
        assert_eq!(split("B AE1 S K AH0 T", &[]), "B AE . S K AH T"); // basket
        assert_eq!(split("HH AH1 N D R AH0 D", &[]), "HH AH N . D R AH D"); // hundred
        assert_eq!(split("S IH1 NG ER0", &[]), "S IH NG . ER"); // singer: /ng/ opens no syllable
        assert_eq!(split("M AA1 N S T ER0", &[]), "M AA N . S T ER"); // monster
        assert_eq!(split("S T R EH1 NG K TH", &[]), "S T R EH NG K TH"); // strength
    }

    #[test]
    fn no_syllable_crosses_a_seam() {
        assert_eq!(split("B AE1 K P AE2 K", &[3]), "B AE K . P AE K"); // backpack
        assert_eq!(split("CH EH1 S T N AH2 T", &[4]), "CH EH S T . N AH T"); // chest·nut
        assert_eq!(split("AY1 S K Y UW2 B", &[2]), "AY S . K Y UW B"); // ice·cube
    }

    #[test]
    fn no_vowel_no_syllable() {
        assert!(syllables(&[], &[]).is_empty());
        assert!(syllables(&[S, T], &[]).is_empty());
    }
}
