//! A word of the bank, as it is heard and as it is spelled.

use super::tags::{self, Band, Category, Class, Flags};
use crate::sounds::{
    Blend, Cluster, Counting, Heard, Phone, Phoneme, Place, Side, Sound, Stress, Syllable, clusters, count_sounds,
    rhyme_part, rhymes, syllables,
};
use crate::spelling::Alignment;

/// A word with everything that the rooms above ask of it. Its sounds are counted by the switches it was read with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// How it is written, in small letters.
    pub spelling: String,
    /// Its letter groups with their phones, as in the file.
    pub alignment: Alignment,
    /// Its counted sounds.
    pub sounds: Vec<Sound>,
    /// Where in the phones each counted sound stands; as long as `sounds`.
    pub heard: Vec<Heard>,
    /// Its syllables, as indexes into `sounds`.
    pub syllables: Vec<Syllable>,
    /// The consonant clusters in its syllables.
    pub clusters: Vec<Cluster>,
    /// The index in `sounds` of the vowel with the main stress.
    pub stressed: usize,
    /// SCOWL's level, 10 (commonest) to 95; 99 when SCOWL does not have it.
    pub level: u8,
    /// The age at which most children know it by ear.
    pub band: Band,
    /// Its classes, the main one first.
    pub classes: Vec<Class>,
    /// The kinds of thing that it is.
    pub categories: Vec<Category>,
    /// What is special about it.
    pub flags: Flags,
}

/// A word laid into sound boxes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Boxes {
    /// The letters of each box, one box a sound.
    pub letters: Vec<String>,
    /// The silent *e* that is written small after the last box, or nothing.
    pub after: String,
}

/// Why a word does not fit into sound boxes as a beginner is taught them.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, serde::Serialize, serde::Deserialize, schemars::JsonSchema,
)]
#[serde(rename_all = "kebab-case")]
pub enum Misfit {
    /// *x* is two sounds.
    X,
    /// *qu* is two sounds.
    Qu,
    /// Another letter group spells two sounds (*le*, the *u* of *unit*).
    TwoSounds,
    /// A silent letter stands in a box (*kn*, *mb*), or a silent *e* inside the word.
    Silent,
}

impl Word {
    /// Reads a row of the bank's file: spelling, letter groups, syllables, level, band, classes, categories, flags, parted by tabs.
    ///
    /// # Errors
    /// What is wrong with the row.
    pub fn from_row(row: &str, counting: &Counting) -> Result<Self, String> {
        let columns: Vec<&str> = row.split('\t').collect();
        let [spelling, groups, _syllables, level, band, classes, categories, flags] = columns.as_slice() else {
            return Err(format!("8 columns are needed, not {}", columns.len()));
        };
        let level = if *level == "-" { 99 } else { level.parse().map_err(|_| format!("`{level}` is not a level"))? };
        let tags = Tags {
            level,
            band: band.parse()?,
            classes: tags::list(classes)?,
            categories: tags::list(categories)?,
            flags: flags.parse()?,
        };
        Ok(Self::new((*spelling).to_owned(), groups.parse()?, tags, counting))
    }

    /// Makes a word of its letter groups and tags.
    #[must_use]
    pub fn new(spelling: String, alignment: Alignment, tags: Tags, counting: &Counting) -> Self {
        let phones = seen(&alignment, counting);
        let mut heard = count_sounds(&phones, counting);
        if counting.wh_as_hw {
            say_wh(&mut heard, &alignment);
        }
        let sounds: Vec<Sound> = heard.iter().map(|h| h.sound).collect();
        let stressed = main_stress(&heard, &phones);
        let seam = tags.flags.compound.as_ref().and_then(|(first, _)| seam_sound(first.len(), &alignment, &heard));
        let syllables = syllables(&sounds, seam.as_slice());
        let clusters = clusters(&sounds, &syllables);
        let Tags { level, band, classes, categories, flags } = tags;
        Self {
            spelling,
            alignment,
            sounds,
            heard,
            syllables,
            clusters,
            stressed,
            level,
            band,
            classes,
            categories,
            flags,
        }
    }

    /// Whether it has an ending that makes no new word (*cups*, *hugged*).
    #[must_use]
    pub const fn is_form(&self) -> bool {
        self.flags.form.is_some()
    }

    /// CMUdict's codes without stress, one entry a counted sound.
    #[must_use]
    pub fn codes(&self) -> Vec<&'static str> {
        self.sounds.iter().map(|sound| sound.code()).collect()
    }

    /// The letter groups in the order of the sounds; a split vowel as `a_e`.
    #[must_use]
    pub fn groups(&self) -> Vec<String> {
        self.alignment.units.iter().map(|unit| unit.letters.clone()).collect()
    }

    /// The index in the spelling at which the letter group begins that spells a sound, or spells its beginning.
    #[must_use]
    pub fn letter_of(&self, sound: usize) -> Option<usize> {
        let phone = self.heard.get(sound)?.from;
        let mut passed = 0;
        let unit = self.alignment.units.iter().position(|unit| {
            passed += unit.phones.len();
            phone < passed
        })?;
        self.alignment.letter_starts().get(unit).copied()
    }

    /// The consonants before the first vowel.
    #[must_use]
    pub fn onset(&self) -> &[Sound] {
        self.syllables.first().map_or(&[], |s| &self.sounds[s.onset.clone()])
    }

    /// The consonants after the last vowel.
    #[must_use]
    pub fn coda(&self) -> &[Sound] {
        self.syllables.last().map_or(&[], |s| &self.sounds[s.coda.clone()])
    }

    /// The vowel of the last syllable and all after it.
    #[must_use]
    pub fn rime(&self) -> &[Sound] {
        self.syllables.last().map_or(&[], |s| &self.sounds[s.rime()])
    }

    /// From the stressed vowel to the end: what rhyming words share.
    #[must_use]
    pub fn rhyme_part(&self) -> &[Sound] {
        rhyme_part(&self.sounds, self.stressed)
    }

    /// Whether two words rhyme.
    #[must_use]
    pub fn rhymes_with(&self, other: &Self) -> bool {
        rhymes((&self.sounds, self.stressed), (&other.sounds, other.stressed))
    }

    /// The places at which a blend is heard.
    pub fn places_of<'a>(&'a self, blend: &'a Blend) -> impl Iterator<Item = Place> + 'a {
        self.clusters.iter().filter(move |c| c.blend == Some(blend)).map(|c| c.place)
    }

    /// The blends heard in it, from left to right. Endings make no blend: the *ps* of *cups* is not one.
    pub fn blends(&self) -> impl Iterator<Item = (&'static Blend, Place)> + '_ {
        self.clusters
            .iter()
            .filter(|c| !(self.is_form() && c.side == Side::Coda && c.place == Place::End))
            .filter_map(|c| Some((c.blend?, c.place)))
    }

    /// The word in sound boxes, with what a beginner has not been taught to put in one.
    ///
    /// # Errors
    /// When a letter group spells two counted sounds, so that the word has no boxes at all.
    pub fn boxes(&self) -> Result<(Boxes, Option<Misfit>), Misfit> {
        let mut letters: Vec<String> = Vec::with_capacity(self.sounds.len());
        let mut misfit = None;
        let mut after = String::new();
        let mut phone = 0;
        let mut units = self.alignment.units.iter().enumerate().peekable();
        for heard in &self.heard {
            let mut group = String::new();
            let end = heard.from + heard.phones;
            while phone < end {
                let Some((at, unit)) = units.next() else { return Err(Misfit::TwoSounds) };
                phone += unit.phones.len();
                if phone > end {
                    return Err(match unit.letters.as_str() {
                        "x" => Misfit::X,
                        "qu" => Misfit::Qu,
                        _ => Misfit::TwoSounds,
                    });
                }
                let last = at + 1 == self.alignment.units.len();
                let (head, tail) = unit.halves();
                let (kept, silent_e) = trim_silent_e(head, unit.phones[0].phoneme);
                group.push_str(kept);
                if silent_e {
                    after.push('e');
                    if !last {
                        misfit = misfit.or(Some(Misfit::Silent));
                    }
                }
                if !tail.is_empty() {
                    after.push_str(tail);
                }
                if has_silent_letter(kept, unit.phones[0].phoneme) {
                    misfit = misfit.or(Some(Misfit::Silent));
                }
            }
            letters.push(group);
        }
        if self.alignment.closings.iter().any(|&closing| closing < self.alignment.units.len()) || after.len() > 1 {
            misfit = misfit.or(Some(Misfit::Silent));
        }
        Ok((Boxes { letters, after }, misfit))
    }
}

/// The columns of a row that a reader has judged, and SCOWL's level.
#[derive(Clone, Debug)]
pub struct Tags {
    /// SCOWL's level.
    pub level: u8,
    /// The age band.
    pub band: Band,
    /// The classes.
    pub classes: Vec<Class>,
    /// The categories.
    pub categories: Vec<Category>,
    /// The flags.
    pub flags: Flags,
}

/// The phones as the switches want them: the *o* of dog as that of hop.
fn seen(alignment: &Alignment, counting: &Counting) -> Vec<Phone> {
    let mut phones = alignment.phones();
    if counting.dog_as_hop {
        let mut at = 0;
        for unit in &alignment.units {
            let before_r = phones.get(at + 1).is_some_and(|next| next.phoneme == Phoneme::R);
            if unit.letters == "o" && unit.phones.len() == 1 && phones[at].phoneme == Phoneme::Ao && !before_r {
                phones[at].phoneme = Phoneme::Aa;
            }
            at += unit.phones.len();
        }
    }
    phones
}

/// Turns the /w/ that is spelled *wh* into /hw/.
fn say_wh(heard: &mut [Heard], alignment: &Alignment) {
    let mut phone = 0;
    for unit in &alignment.units {
        if unit.letters == "wh" {
            for h in heard.iter_mut().filter(|h| h.from == phone && h.sound == Sound::W) {
                h.sound = Sound::Hw;
            }
        }
        phone += unit.phones.len();
    }
}

/// The index of the sound with the main stress: the primary one, else the first stressed vowel, else the first vowel.
fn main_stress(heard: &[Heard], phones: &[Phone]) -> usize {
    let stress = |h: &Heard| phones[h.from..h.from + h.phones].iter().find_map(|p| p.stress);
    heard
        .iter()
        .position(|h| stress(h) == Some(Stress::Primary))
        .or_else(|| heard.iter().position(|h| stress(h) == Some(Stress::Secondary)))
        .or_else(|| heard.iter().position(|h| h.sound.is_vowel()))
        .unwrap_or(0)
}

/// The index of the sound at which the second part of a compound begins, or `None` when a letter group crosses the seam.
fn seam_sound(seam: usize, alignment: &Alignment, heard: &[Heard]) -> Option<usize> {
    let unit = alignment.letter_starts().iter().position(|&start| start == seam)?;
    let phone: usize = alignment.units[..unit].iter().map(|u| u.phones.len()).sum();
    heard.iter().position(|h| h.from == phone)
}

/// A consonant group without its silent final *e*: `se` is `s` and an *e* that is written small.
fn trim_silent_e(letters: &str, first: Phoneme) -> (&str, bool) {
    match letters.strip_suffix('e') {
        Some(kept) if !first.is_vowel() && !kept.is_empty() => (kept, true),
        _ => (letters, false),
    }
}

/// Consonant groups of two or more letters that beginners are taught as one sound.
const TAUGHT_GROUPS: &[&str] = &["ch", "ck", "dge", "dg", "ng", "ph", "sh", "tch", "th", "wh", "gh", "ed"];

/// Whether a letter group holds a silent letter: *kn*, *wr*, *mb*; a vowel with a silent consonant (*al* in walk, *is* in island).
fn has_silent_letter(letters: &str, first: Phoneme) -> bool {
    if first.is_vowel() {
        let body = letters.replace("gh", "");
        return !body.contains('r') && body.bytes().any(|b| b.is_ascii_lowercase() && !b"aeiouyw".contains(&b));
    }
    let bytes = letters.as_bytes();
    let doubled = bytes.len() == 2 && bytes[0] == bytes[1];
    let hw_as_h = letters == "wh" && first == Phoneme::Hh;
    bytes.len() > 1 && (hw_as_h || !(doubled || TAUGHT_GROUPS.contains(&letters)))
}
