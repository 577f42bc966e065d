//! Dealing equal sets: as many words of each kind to each set, as common on the average, and different ones while they last.
//!
//! The kind of a word is how many sounds and syllables it has, its shape and where its blend is heard. First it is settled how
//! many words of each kind a set has, so that as many sets as possible can be had without a word in common; this depends on the
//! request alone, not on the set. Then the words of each kind are ordered by how common they are and cut into rows, a row for
//! each place of the kind in a set, every other one turned round: each set takes one word of each row, and what is common in
//! one row is less so in the next. When all are dealt, a second round begins, in which each row is shifted by its number on the
//! sheet: two sets of different rounds have few words in common, and all pairs about as many.

use std::collections::BTreeMap;

use super::hand::Hand;
use super::pool::weight;
use crate::bank::Word;
use crate::seed::Stream;
use crate::sequence::Shape;
use crate::sounds::{Blend, Place};

/// What has to be alike in equal sets, beside the blend.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Likeness {
    sounds: usize,
    syllables: usize,
    shape: Shape,
    compound: bool,
    place: Option<Place>,
}

impl Likeness {
    /// The kind of a word that is there for a blend.
    pub fn of(word: &Word, blend: Option<&'static Blend>) -> Self {
        Self {
            sounds: word.sounds.len(),
            syllables: word.syllables.len(),
            shape: Shape::of_syllables(word),
            compound: word.flags.compound.is_some(),
            place: blend.and_then(|blend| word.places_of(blend).next()),
        }
    }
}

/// How many sets are dealt from the commonest words before less common ones come in: a group at one step is rarely larger.
const ROOM: usize = 12;

/// The words of set `number` from a pool: `share` of them, as many as the pool has kin for. `kin` are words of which only one
/// may stand on a sheet; `before` is how many words of the sheet are dealt already; `stream` must be the same for all sets.
pub(super) fn hand_out<'w>(
    kin: &[Vec<&'w Word>],
    blend: Option<&'static Blend>,
    (before, share): (usize, usize),
    number: usize,
    stream: &mut Stream,
    hand: &Hand,
) -> Vec<&'w Word> {
    let mut kinds: BTreeMap<Likeness, Vec<&'w Word>> = BTreeMap::new();
    for word in kin.iter().filter_map(|words| commonest(words)) {
        kinds.entry(Likeness::of(word, blend)).or_default().push(word);
    }
    let shares = shares(&kinds, share, stream);
    let mut dealt = Vec::with_capacity(share);
    for (words, share) in kinds.values().zip(shares) {
        if share > 0 {
            let rows = before + dealt.len();
            dealt.extend(Deck::new(words, share, rows, stream).set(number, hand));
        }
    }
    dealt
}

/// Of words that may not stand together, the likeliest.
fn commonest<'w>(kin: &[&'w Word]) -> Option<&'w Word> {
    kin.iter().copied().reduce(|best, word| if weight(word) > weight(best) { word } else { best })
}

/// How many words of each kind a set has: no kind more than leaves the greatest number of sets without a word in common, up to
/// [`ROOM`]; among those the common words decide.
fn shares(kinds: &BTreeMap<Likeness, Vec<&Word>>, share: usize, stream: &mut Stream) -> Vec<usize> {
    let sizes: Vec<usize> = kinds.values().map(Vec::len).collect();
    let enough = |sets: &usize| sizes.iter().map(|size| size / sets).sum::<usize>() >= share;
    let sets = (1..=ROOM).rev().find(enough).unwrap_or(1);
    let weights: Vec<u32> = kinds.values().map(|words| words.iter().map(|word| weight(word)).sum()).collect();
    let mut shares = vec![0; sizes.len()];
    for _ in 0..share {
        let open = |at: usize| if shares[at] < sizes[at] / sets { weights[at] } else { 0 };
        let open: Vec<u32> = (0..sizes.len()).map(open).collect();
        let Some(at) = stream.weighted(&open) else { break };
        shares[at] += 1;
    }
    shares
}

/// The words of one kind, in the order in which sets take them.
struct Deck<'w> {
    /// A row for each word that a set has; all are as long, a place for each set of a round.
    rows: Vec<Vec<&'w Word>>,
    /// How many rows of the sheet come before these.
    before: usize,
}

impl<'w> Deck<'w> {
    fn new(words: &[&'w Word], share: usize, before: usize, stream: &mut Stream) -> Self {
        let mut ordered = words.to_vec();
        stream.shuffle(&mut ordered);
        ordered.sort_by_key(|word| std::cmp::Reverse(weight(word)));
        let sets = (ordered.len() / share).max(1);
        let mut rows = vec![Vec::with_capacity(sets); share];
        // Blocks from the commonest on, so that a small group does not get the rare words of a large one.
        for block in ordered[..sets * share].chunks(ROOM * share) {
            let wide = block.len() / share;
            for (at, (row, stratum)) in rows.iter_mut().zip(block.chunks(wide)).enumerate() {
                row.extend_from_slice(stratum);
                if (before + at) % 2 == 1 {
                    let from = row.len() - wide;
                    row[from..].reverse();
                }
            }
        }
        if sets == 1 && ordered.len() > share {
            // Not enough for two sets: each begins one word further on, so that all words are used.
            rows = (0..share)
                .map(|row| (0..ordered.len()).map(|at| ordered[(at + row) % ordered.len()]).collect())
                .collect();
        }
        Self { rows, before }
    }

    /// The words of a set. A word to spare gives way to the next in its row that nobody has to spare, as long as there is one.
    fn set(&self, number: usize, hand: &Hand) -> Vec<&'w Word> {
        let mut dealt: Vec<&'w Word> = Vec::with_capacity(self.rows.len());
        for (at, row) in self.rows.iter().enumerate() {
            let (round, place) = (number / row.len(), number % row.len());
            let first = place + round * (self.before + at);
            let turns = (0..row.len()).map(|from| row[(first + from) % row.len()]);
            let in_turn = turns.chain(self.rows.iter().flatten().copied());
            let left = |word: &&'w Word| !dealt.contains(word);
            let unspared = |word: &&'w Word| left(word) && !hand.spares(&word.spelling);
            // There are at least as many words as rows, so one is always left.
            dealt.extend(in_turn.clone().find(unspared).or_else(|| in_turn.clone().find(left)));
        }
        dealt
    }
}
