//! Which pairs of words a change makes, and a choice of them in which no word stands twice.

use std::collections::{BTreeMap, BTreeSet};

use super::{ChangePart, SoundChange, clue};
use crate::bank::{EarPair, Exchange, Filter, Part, Slot, Word};
use crate::fill::near::{by_ear, read_by};
use crate::fill::pool::{Wanted, kin, weight};
use crate::fill::{Move, Request, focus};
use crate::seed::Stream;
use crate::sounds::{BLENDS, Blend, Place, Side, Sound};

/// A word, its change, and the word that is expected.
#[derive(Clone, Debug)]
pub(super) struct Pair<'a> {
    /// The one of the two that opens with the blend.
    pub focus: &'a Word,
    /// The word that is said.
    pub from: &'a Word,
    /// The word that is written.
    pub to: &'a Word,
    /// What changes.
    pub change: Exchange,
    /// The blend of the focus.
    pub blend: &'static Blend,
    /// Whether the letters of the sounds that stay change too, however the answer is spelled.
    pub anew: bool,
}

/// What pairs are looked for.
pub(super) struct Finder<'f, 'a> {
    pub spec: &'f SoundChange,
    pub request: &'f Request<'a>,
    pub blends: &'f [&'static Blend],
    /// Whether the child can write a word: it is decodable, or known by sight.
    pub reads: &'f (dyn Fn(&Word) -> bool + Sync),
}

impl<'f, 'a> Finder<'f, 'a> {
    /// All pairs, in the order in which the bank has them. A pair that only adds or drops an ending is none, and so is one of two
    /// words with the same ending, which is the pair of their bases over again.
    pub fn find(&self) -> Vec<Pair<'a>> {
        let (hearing, writing) = (by_ear(self.request), read_by(self.request, self.reads));
        let (says, writes) = (self.wanted().filter(&hearing), self.wanted().filter(&writing));
        let mut found = Vec::new();
        for pair in self.by_sound() {
            if pair.ending || !says.keeps(pair.from) || !clue::is_clear(self.spec, &pair.change, pair.from) {
                continue;
            }
            found.extend(self.written(&pair, &writes));
        }
        found
    }

    fn wanted(&self) -> Wanted<'f> {
        Wanted {
            sounds: self.spec.sounds,
            syllables: self.spec.syllables,
            boxes: false,
            allow: &[],
            forms: true,
            bands: &self.spec.bands,
            categories: &[],
        }
    }

    /// Every pair of the change, whoever reads it.
    fn by_sound(&self) -> Vec<EarPair<'a>> {
        let bank = self.request.bank;
        let part = match self.spec.part {
            ChangePart::First => Part::First,
            ChangePart::Second => Part::Second,
            ChangePart::Blend => Part::Onset,
        };
        match self.spec.by {
            Move::Add => bank.add(&part),
            Move::TakeAway => bank.take_away(&part),
            Move::Swap => {
                let asked = one_of(self.blends.iter().copied());
                let known = BLENDS.iter().filter(|b| b.side == Side::Onset && (b.taught || self.blends.contains(b)));
                let all = one_of(known);
                let mut pairs = bank.swap_clusters(Side::Onset, &asked, &all);
                // The other way round only what does not begin with the focus, or it would be there twice.
                let from_others = bank.swap_clusters(Side::Onset, &all, &asked).into_iter();
                pairs.extend(from_others.filter(|pair| !asked.takes(pair.from.onset())));
                pairs
            }
        }
    }

    /// A pair for each of its answers that the child can write.
    fn written(&self, pair: &EarPair<'a>, writes: &Filter<'_>) -> Vec<Pair<'a>> {
        let of = |to: &'a Word| {
            let opens = |word: &Word, blend: &&&'static Blend| focus::is_heard(word, blend, Some(Place::Beginning));
            let with = |word: &'a Word| self.blends.iter().find(|blend| opens(word, blend)).map(|blend| (word, *blend));
            let (focus, blend) = match self.spec.by {
                Move::Add => with(to),
                Move::TakeAway => with(pair.from),
                Move::Swap => with(pair.from).or_else(|| with(to)),
            }?;
            let (from, change, anew) = (pair.from, pair.change.clone(), pair.spelling_changes);
            (!(from.is_form() && to.is_form()) && writes.keeps(to)).then_some(Pair {
                focus,
                from,
                to,
                change,
                blend,
                anew,
            })
        };
        pair.answers.iter().filter_map(|answer| of(answer.word)).collect()
    }
}

fn one_of<'b>(blends: impl Iterator<Item = &'b Blend>) -> Slot {
    Slot::OneOf(blends.map(|blend| blend.sounds.to_vec()).collect::<Vec<Vec<Sound>>>())
}

/// Pairs in which no word stands twice, nor two that sound alike or are forms of one word: one for each word of the focus where
/// there is one, taken in an order of chance, those with a blend of the focus first. Those that are spelled anew come before the
/// others when they are `wanted`.
pub(super) fn disjoint<'a>(
    found: &[Pair<'a>],
    blends: &[&'static Blend],
    wanted: bool,
    stream: &mut Stream,
) -> Vec<Pair<'a>> {
    let words: Vec<&Word> = found.iter().flat_map(|pair| [pair.from, pair.to]).collect();
    let numbers = kin(&words);
    let mut by_focus: BTreeMap<&str, Vec<(&Pair<'a>, [usize; 2])>> = BTreeMap::new();
    for (pair, numbers) in found.iter().zip(numbers.chunks(2)) {
        by_focus.entry(&pair.focus.spelling).or_default().push((pair, [numbers[0], numbers[1]]));
    }
    let mut groups: Vec<Vec<(&Pair<'a>, [usize; 2])>> = by_focus.into_values().collect();
    stream.shuffle(&mut groups);
    groups.sort_by_key(|pairs| {
        let asked = pairs.iter().any(|(pair, _)| blends.contains(&pair.blend));
        (!asked, wanted && !pairs.iter().any(|(pair, _)| pair.anew))
    });
    let mut taken: BTreeSet<usize> = BTreeSet::new();
    let mut chosen = Vec::new();
    for group in groups {
        let mut free: Vec<&(&Pair<'a>, [usize; 2])> =
            group.iter().filter(|(_, kin)| kin[0] != kin[1] && kin.iter().all(|one| !taken.contains(one))).collect();
        if wanted && free.iter().any(|(pair, _)| pair.anew) {
            free.retain(|(pair, _)| pair.anew);
        }
        let weights: Vec<u32> = free.iter().map(|(pair, _)| weight(pair.from) * weight(pair.to)).collect();
        if let Some(at) = stream.weighted(&weights) {
            taken.extend(free[at].1);
            chosen.push(free[at].0.clone());
        }
    }
    chosen
}
