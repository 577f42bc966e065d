//! Word shapes: what the whole of a word asks of a reader, besides its letters.

use std::fmt;
use std::str::FromStr;

use crate::bank::Word;
use crate::nearest::nearest;

/// The sounds of a one-syllable word as consonants and one vowel: `CVC`, and `CVCe` when its vowel is split by its
/// consonants (*cake*).
///
/// Each consonant sound is a C, whatever its letters: *ship* is `CVC`, *fox* is `CVCC`. A vowel of two phonemes (*car*) is
/// one V.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Pattern {
    /// How many consonants stand before the vowel.
    pub before: u8,
    /// How many stand after it.
    pub after: u8,
    /// Whether a silent *e* splits the vowel.
    pub silent_e: bool,
}

/// A shape that a step teaches and a word may need. The text forms are those of [`Shape::NAMES`] and patterns.
///
/// | text | which words |
/// |---|---|
/// | `VC`, `CVC`, `CCVCe` … | of one syllable and exactly this [`Pattern`] |
/// | `one-syllable` | of one syllable, any pattern |
/// | `two-syllable`, `three-syllable`, `four-or-more` | of so many syllables, compounds aside |
/// | `compound` | compounds; one with a part of two or more syllables needs that shape too |
/// | `-s`, `-ed`, `-ing` | inflected forms, beside the shape of the base |
/// | `-es` | forms in *-s* with a syllable more than the base (*boxes*, *pages*) |
/// | `doubling` | forms that double the base's last consonant (*hopping*) |
/// | `drop-e` | forms that have one *e* less than base and ending (*baking*, *baked*) |
/// | `y-to-i` | forms that change *y* to *i* (*cried*) |
/// | `any-cluster` | words with a consonant cluster that has not been taught as a blend |
///
/// The names are common practice, no source.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Shape {
    /// One syllable of one pattern.
    Pattern(Pattern),
    /// One syllable.
    OneSyllable,
    /// Two syllables.
    TwoSyllable,
    /// Three syllables.
    ThreeSyllable,
    /// Four syllables or more.
    FourOrMore,
    /// A compound.
    Compound,
    /// The ending *-s*.
    S,
    /// The ending *-s* that is heard as a syllable.
    Es,
    /// The ending *-ed*.
    Ed,
    /// The ending *-ing*.
    Ing,
    /// A consonant doubled before an ending.
    Doubling,
    /// A silent *e* dropped before an ending.
    DropE,
    /// A *y* changed to *i* before an ending.
    YToI,
    /// Any consonant cluster.
    AnyCluster,
}

const NAMED: [(&str, Shape, &str); 13] = [
    ("one-syllable", Shape::OneSyllable, "one-syllable words"),
    ("two-syllable", Shape::TwoSyllable, "two-syllable words"),
    ("three-syllable", Shape::ThreeSyllable, "three-syllable words"),
    ("four-or-more", Shape::FourOrMore, "words of four or more syllables"),
    ("compound", Shape::Compound, "compounds"),
    ("-s", Shape::S, "the ending -s"),
    ("-es", Shape::Es, "the ending -es"),
    ("-ed", Shape::Ed, "the ending -ed"),
    ("-ing", Shape::Ing, "the ending -ing"),
    ("doubling", Shape::Doubling, "doubling before an ending"),
    ("drop-e", Shape::DropE, "dropping e before an ending"),
    ("y-to-i", Shape::YToI, "changing y to i before an ending"),
    ("any-cluster", Shape::AnyCluster, "any consonant cluster"),
];

impl Shape {
    /// The names that are not patterns.
    pub const NAMES: [&'static str; 13] = {
        let mut names = [""; 13];
        let mut at = 0;
        while at < NAMED.len() {
            names[at] = NAMED[at].0;
            at += 1;
        }
        names
    };

    /// The shape of a word by its syllables alone: flags of compound and form are passed over.
    #[must_use]
    pub fn of_syllables(word: &Word) -> Self {
        match word.syllables.as_slice() {
            [only] => {
                let silent_e = word.alignment.units.iter().any(|unit| unit.letters.contains('_'));
                let count = |consonants: usize| u8::try_from(consonants).unwrap_or(u8::MAX);
                Self::Pattern(Pattern { before: count(only.onset.len()), after: count(only.coda.len()), silent_e })
            }
            several => Self::of_count(several.len()),
        }
    }

    /// The shape of words of so many syllables.
    #[must_use]
    pub const fn of_count(syllables: usize) -> Self {
        match syllables {
            0 | 1 => Self::OneSyllable,
            2 => Self::TwoSyllable,
            3 => Self::ThreeSyllable,
            _ => Self::FourOrMore,
        }
    }

    /// What it is called in a sentence: `two-syllable words`, `the ending -ed`, `CVC words`.
    #[must_use]
    pub fn described(self) -> String {
        let named = NAMED.iter().find(|(_, shape, _)| *shape == self);
        named.map_or_else(|| format!("{self} words"), |(_, _, words)| (*words).to_owned())
    }

    /// Whether [`described`](Self::described) is a plural.
    pub(super) const fn is_plural(self) -> bool {
        matches!(
            self,
            Self::Pattern(_)
                | Self::OneSyllable
                | Self::TwoSyllable
                | Self::ThreeSyllable
                | Self::FourOrMore
                | Self::Compound
        )
    }
}

impl fmt::Display for Pattern {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let (before, after) = (usize::from(self.before), usize::from(self.after));
        write!(f, "{:C<before$}V{:C<after$}{}", "", "", if self.silent_e { "e" } else { "" })
    }
}

impl fmt::Display for Shape {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Pattern(pattern) => pattern.fmt(f),
            named => f.write_str(NAMED.iter().find(|(_, shape, _)| shape == named).map_or("", |(name, ..)| name)),
        }
    }
}

/// At most this many consonants stand on one side of a vowel, in a pattern as text.
const MAX_CONSONANTS: usize = 4;

/// Reads `C`s, one `V`, `C`s and perhaps an `e`.
fn pattern(text: &str) -> Option<Pattern> {
    let (before, rest) = text.split_once('V')?;
    let (after, silent_e) = rest.strip_suffix('e').map_or((rest, false), |after| (after, true));
    let all_c = |part: &str| part.bytes().all(|b| b == b'C') && part.len() <= MAX_CONSONANTS;
    if !all_c(before) || !all_c(after) || silent_e && after.is_empty() {
        return None;
    }
    Some(Pattern { before: u8::try_from(before.len()).ok()?, after: u8::try_from(after.len()).ok()?, silent_e })
}

impl FromStr for Shape {
    type Err = String;

    /// Reads what [`Display`](fmt::Display) writes. An error has a second line, `help: …`, with the nearest name.
    fn from_str(text: &str) -> Result<Self, String> {
        if let Some(pattern) = pattern(text) {
            return Ok(Self::Pattern(pattern));
        }
        if let Some((_, shape, _)) = NAMED.iter().find(|(name, ..)| *name == text) {
            return Ok(*shape);
        }
        let upper = text.to_uppercase();
        let (stem, e) = upper.strip_suffix('E').map_or((upper.as_str(), ""), |stem| (stem, "e"));
        let meant = pattern(&format!("{stem}{e}")).map(|pattern| pattern.to_string());
        let near = meant.as_deref().or_else(|| nearest(text, Self::NAMES));
        let near = near.map_or_else(String::new, |near| format!("did you mean `{near}`? "));
        let all = Self::NAMES.join(", ");
        Err(format!("there is no shape `{text}`\nhelp: {near}The shapes are: patterns such as CVC and CCVCe, {all}."))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shapes_are_written_and_read_alike() {
        for name in Shape::NAMES.into_iter().chain(["V", "VC", "CVC", "CCCVCCCC", "VCe", "CCVCe"]) {
            assert_eq!(name.parse::<Shape>().map(|shape| shape.to_string()).as_deref(), Ok(name));
        }
    }

    #[test]
    fn a_wrong_shape_gets_the_nearest() {
        for (wrong, near) in [("cvce", "CVCe"), ("CVCE", "CVCe"), ("two-sylable", "two-syllable"), ("-ign", "-ing")] {
            let error = wrong.parse::<Shape>().expect_err(wrong);
            assert!(error.contains(&format!("did you mean `{near}`?")), "{error}");
        }
        for wrong in ["", "C", "VV", "CVe", "CCCCCV", "word"] {
            assert!(wrong.parse::<Shape>().is_err(), "{wrong}");
        }
    }
}
