//! The onsets and rimes that one-syllable words of the bank have, as they are spelled, and how letters can be read by them.

use std::collections::{BTreeMap, BTreeSet};

use super::listed::phoneme_key;
use crate::bank::{Bank, Word};
use crate::sounds::{Phoneme, Side, Sound};
use crate::spelling::{Alignment, Pair, Unit};

/// An onset or a rime in one spelling.
#[derive(Clone, Debug)]
pub(in crate::bank) struct Chunk {
    /// How it is written.
    pub letters: String,
    /// Its letter groups.
    pub units: Vec<Unit>,
    /// The indexes of its letter groups in [`Attested::pairs`], with the sounds as the switches have them.
    pub ids: Vec<u16>,
    /// Its sounds as phonemes.
    pub phonemes: Vec<Phoneme>,
    /// Its counted sounds.
    pub sounds: Vec<Sound>,
    /// How many words have it.
    pub words: usize,
    /// Whether all words have it after /w/: the *ap* of *swap*, the *ar* of *war*.
    only_after_w: bool,
    /// Whether it is the usual spelling of a rime; not set for an onset, where it depends on the vowel.
    pub is_usual: bool,
    /// Before which vowel letters it is the commonest spelling of an onset, as bits from *a*; none for a rime.
    usual_before: u32,
    /// Where the second half of a split vowel stands, as [`Alignment::closings`].
    closings: Vec<usize>,
}

impl Chunk {
    /// The consonants of an onset or a coda.
    pub fn consonants(&self) -> &[Sound] {
        let vowel = self.sounds.iter().position(|sound| sound.is_vowel());
        &self.sounds[vowel.map_or(0, |vowel| vowel + 1)..]
    }

    /// Whether one letter group spells all of its consonants.
    pub fn is_one_group(&self, side: Side) -> bool {
        self.units.len() == if side == Side::Onset { 1 } else { 2 }
    }
}

/// All onsets and rimes of a bank, and which stand beside which.
#[derive(Debug)]
pub(in crate::bank) struct Attested {
    pairs: Vec<Pair>,
    /// In the order of their letters.
    pub onsets: Vec<Chunk>,
    /// In the order of their letters.
    pub rimes: Vec<Chunk>,
    onsets_by_letters: BTreeMap<String, Vec<usize>>,
    rimes_by_letters: BTreeMap<String, Vec<usize>>,
    /// For the last letter group of an onset (none: the number of pairs) and the vowel's: whether a word has them together.
    beside: Vec<bool>,
    /// For the last letter group of an onset, whether a word has it before *e i y*, and before another letter.
    before: Vec<[bool; 2]>,
    /// The one-syllable words of this bank by sound, a teacher's own among them.
    heard: Vec<u64>,
}

/// A word's onset and rime, as letter groups.
struct Parts {
    vowel: usize,
    pairs: Vec<Pair>,
    letter: usize,
}

impl Attested {
    pub(super) fn new(bank: &Bank) -> Self {
        let words: Vec<(&Word, Parts)> =
            bank.words().iter().filter(|word| attests(word)).filter_map(|word| Some((word, parts(word)?))).collect();
        let all: BTreeSet<&Pair> = words.iter().flat_map(|(_, parts)| &parts.pairs).collect();
        let pairs: Vec<Pair> = all.into_iter().cloned().collect();
        let id = |pair: &Pair| pairs.binary_search(pair).ok().and_then(|at| u16::try_from(at).ok()).unwrap_or_default();

        let mut onsets: BTreeMap<(String, Vec<u16>), Chunk> = BTreeMap::new();
        let mut rimes: BTreeMap<(String, Vec<u16>), Chunk> = BTreeMap::new();
        let mut beside = vec![false; (pairs.len() + 1) * pairs.len()];
        let mut before = vec![[false; 2]; pairs.len() + 1];
        let mut counts: BTreeMap<(Vec<Phoneme>, u8), BTreeMap<String, usize>> = BTreeMap::new();
        for (word, parts) in &words {
            let ids: Vec<u16> = parts.pairs.iter().map(&id).collect();
            let (consonants, from_vowel) = ids.split_at(parts.vowel);
            let last = consonants.last().map_or(pairs.len(), |&id| usize::from(id));
            beside[last * pairs.len() + usize::from(from_vowel[0])] = true;
            let onset = chunk(word, parts, &ids, Side::Onset);
            let letter = word.spelling.as_bytes()[parts.letter];
            before[last][usize::from(is_front(letter))] = true;
            let spellings = counts.entry((onset.phonemes.clone(), letter)).or_default();
            *spellings.entry(onset.letters.clone()).or_default() += 1;
            let after_w = ends_in_w(&onset);
            onsets.entry((onset.letters.clone(), onset.ids.clone())).or_insert(onset).words += 1;
            let rime = chunk(word, parts, &ids, Side::Coda);
            let rime = rimes.entry((rime.letters.clone(), rime.ids.clone())).or_insert(rime);
            rime.words += 1;
            rime.only_after_w &= after_w;
        }
        let mut onsets: Vec<Chunk> = onsets.into_values().collect();
        for ((phonemes, letter), spellings) in counts {
            let most = spellings.values().copied().max().unwrap_or_default();
            let usual = spellings.into_iter().find(|(_, count)| *count == most).map(|(letters, _)| letters);
            for onset in
                onsets.iter_mut().filter(|one| one.phonemes == phonemes && Some(&one.letters) == usual.as_ref())
            {
                onset.usual_before |= bit(letter);
            }
        }
        let rimes = marked_usual(rimes.into_values().collect());
        let one_syllable = bank.words().iter().filter(|word| word.syllables.len() == 1);
        let mut heard: Vec<u64> = one_syllable.filter_map(|word| phoneme_key(said(word).into_iter())).collect();
        heard.sort_unstable();
        Self {
            onsets_by_letters: by_letters(&onsets),
            rimes_by_letters: by_letters(&rimes),
            pairs,
            onsets,
            rimes,
            beside,
            before,
            heard,
        }
    }

    /// For each letter group whether it has been taught.
    pub(super) fn known(&self, taught: &BTreeSet<&Pair>) -> Vec<bool> {
        self.pairs.iter().map(|pair| taught.contains(pair)).collect()
    }

    /// Whether a word of the bank sounds so.
    pub(super) fn is_heard(&self, key: u64) -> bool {
        self.heard.binary_search(&key).is_ok()
    }

    /// Whether an onset and a rime can stand together as they are spelled: a word has the last letter group of the onset before
    /// such a vowel letter (*c* is /k/ before *a* and /s/ before *e*), a vowel that /w/ has changed stands after /w/, and the
    /// letter *u* is /yū/ or /ōō/ after the letter group after which a word has it so.
    pub(super) fn joins(&self, onset: &Chunk, rime: &Chunk) -> bool {
        let last = onset.ids.last().map_or(self.pairs.len(), |&id| usize::from(id));
        let (Some(&vowel), Some(&letter)) = (rime.ids.first(), rime.letters.as_bytes().first()) else { return false };
        let u_or_yu = rime.phonemes[0] == Phoneme::Y || (letter == b'u' && rime.phonemes[0] == Phoneme::Uw);
        let yu_is_whole = rime.sounds[0].is_vowel() || onset.units.len() == 1;
        self.before[last][usize::from(is_front(letter))]
            && (!rime.only_after_w || ends_in_w(onset))
            && (!u_or_yu || (yu_is_whole && self.beside[last * self.pairs.len() + usize::from(vowel)]))
    }

    /// Whether an onset is spelled in the commonest way before the first letter of a rime.
    pub(super) fn is_usual_onset(onset: &Chunk, rime: &Chunk) -> bool {
        rime.letters.bytes().next().is_some_and(|letter| onset.usual_before & bit(letter) != 0)
    }

    /// Whether letters, in all ways to read them with the groups known, have the sounds of `key` alone.
    pub(super) fn is_read_in_one_way(&self, spelling: &str, known: &[bool], key: u64) -> bool {
        let readable = |chunk: &Chunk| chunk.ids.iter().all(|&id| known[usize::from(id)]);
        let mut one_way = true;
        self.each_reading(spelling, &readable, &mut |onset, rime| {
            one_way &= phoneme_key(onset.phonemes.iter().chain(&rime.phonemes).copied()) == Some(key);
        });
        one_way
    }

    /// All ways to read the letters of a one-syllable word as words of the bank are read, each sequence of sounds once.
    pub(in crate::bank) fn readings(&self, spelling: &str) -> Vec<Alignment> {
        let mut found: BTreeMap<Vec<Phoneme>, Alignment> = BTreeMap::new();
        self.each_reading(spelling, &|_| true, &mut |onset, rime| {
            let phonemes = [onset.phonemes.as_slice(), &rime.phonemes].concat();
            found.entry(phonemes).or_insert_with(|| joined(onset, rime));
        });
        found.into_values().collect()
    }

    fn each_reading(&self, spelling: &str, readable: &dyn Fn(&Chunk) -> bool, visit: &mut dyn FnMut(&Chunk, &Chunk)) {
        for split in (0..spelling.len()).filter(|&at| spelling.is_char_boundary(at)) {
            let (before, after) = spelling.split_at(split);
            let Some(onsets) = self.onsets_by_letters.get(before) else { continue };
            let Some(rimes) = self.rimes_by_letters.get(after) else { continue };
            for onset in onsets.iter().map(|&at| &self.onsets[at]).filter(|onset| readable(onset)) {
                for rime in rimes.iter().map(|&at| &self.rimes[at]).filter(|rime| readable(rime)) {
                    if self.joins(onset, rime) {
                        visit(onset, rime);
                    }
                }
            }
        }
    }
}

const fn bit(letter: u8) -> u32 {
    1 << (letter.wrapping_sub(b'a') % 32)
}

/// Whether a letter makes a *c* or *g* before it soft.
const fn is_front(letter: u8) -> bool {
    matches!(letter, b'e' | b'i' | b'y')
}

fn ends_in_w(onset: &Chunk) -> bool {
    onset.phonemes.last() == Some(&Phoneme::W)
}

/// The letter groups of an onset and a rime as one word's.
pub(super) fn joined(onset: &Chunk, rime: &Chunk) -> Alignment {
    Alignment {
        units: onset.units.iter().chain(&rime.units).cloned().collect(),
        closings: rime.closings.iter().map(|closing| closing + onset.units.len()).collect(),
    }
}

/// Whether a word shows how others are read: one syllable, sounded out, in its base form, no grammar word (the *th* of *this*
/// is heard in hardly any other) and no noise (*brr*).
fn attests(word: &Word) -> bool {
    let flags = &word.flags;
    word.syllables.len() == 1 && !word.is_form() && !flags.irregular && !flags.function && !flags.interjection
}

/// The letter groups of a word with their sounds as the switches have them; `None` when onset and rime share one.
fn parts(word: &Word) -> Option<Parts> {
    let mut phonemes = said(word).into_iter();
    let units = &word.alignment.units;
    let pairs: Vec<Pair> = units
        .iter()
        .map(|unit| Pair {
            letters: unit.letters.clone(),
            phonemes: phonemes.by_ref().take(unit.phones.len()).collect(),
        })
        .collect();
    let vowel = pairs.iter().position(|pair| pair.phonemes.iter().any(|phoneme| phoneme.is_vowel()))?;
    let first = *pairs[vowel].phonemes.first()?;
    // The yū of a vowel letter is part of the rime after a consonant (cube) and an onset of its own before none (use).
    let is_whole = first.is_vowel() || (first == Phoneme::Y && vowel > 0);
    let letter = *word.alignment.letter_starts().get(vowel)?;
    is_whole.then_some(Parts { vowel, pairs, letter })
}

/// The phonemes of a word as the switches have them said: the *o* of dog may be that of hop.
fn said(word: &Word) -> Vec<Phoneme> {
    let written = word.alignment.phones();
    let mut found = Vec::with_capacity(written.len());
    for (heard, sound) in word.heard.iter().zip(&word.sounds) {
        let counted = sound.phonemes();
        if counted.len() == heard.phones {
            found.extend_from_slice(counted);
        } else {
            found.extend(written[heard.from..heard.from + heard.phones].iter().map(|phone| phone.phoneme));
        }
    }
    found
}

/// The onset or (for the side of the coda) the rime of a word.
fn chunk(word: &Word, parts: &Parts, ids: &[u16], side: Side) -> Chunk {
    let (letters_before, letters_after) = word.spelling.split_at(parts.letter);
    let units = &word.alignment.units;
    let phones: usize = units[..parts.vowel].iter().map(|unit| unit.phones.len()).sum();
    let first = word.heard.iter().position(|heard| heard.from >= phones).unwrap_or(word.sounds.len());
    let (range, letters, sounds, closings) = match side {
        Side::Onset => (0..parts.vowel, letters_before, &word.sounds[..first], Vec::new()),
        Side::Coda => {
            let closings = word.alignment.closings.iter().map(|closing| closing - parts.vowel).collect();
            (parts.vowel..units.len(), letters_after, &word.sounds[first..], closings)
        }
    };
    Chunk {
        letters: letters.to_owned(),
        units: units[range.clone()].to_vec(),
        ids: ids[range.clone()].to_vec(),
        phonemes: parts.pairs[range].iter().flat_map(|pair| pair.phonemes.iter().copied()).collect(),
        sounds: sounds.to_vec(),
        words: 0,
        only_after_w: side == Side::Coda,
        is_usual: false,
        usual_before: 0,
        closings,
    }
}

/// Rimes with those marked that are spelled in the commonest way for their sounds, or one at least half as common.
fn marked_usual(mut rimes: Vec<Chunk>) -> Vec<Chunk> {
    let mut most: BTreeMap<Vec<Phoneme>, usize> = BTreeMap::new();
    for rime in &rimes {
        let count = most.entry(rime.phonemes.clone()).or_default();
        *count = rime.words.max(*count);
    }
    for rime in &mut rimes {
        rime.is_usual = most.get(&rime.phonemes).is_some_and(|&most| rime.words * 2 >= most);
    }
    rimes
}

fn by_letters(chunks: &[Chunk]) -> BTreeMap<String, Vec<usize>> {
    let mut found: BTreeMap<String, Vec<usize>> = BTreeMap::new();
    for (at, chunk) in chunks.iter().enumerate() {
        found.entry(chunk.letters.clone()).or_default().push(at);
    }
    found
}
