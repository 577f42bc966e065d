//! Sharing the places of a sheet among the blends, choosing a word for each, and mixing their order.

use super::equal::hand_out;
use super::hand::{Hand, Seat};
use super::pool::{kin, weight};
use super::{BlendCount, FillError, Shortage, Span, focus};
use crate::bank::{Cost, Filter, Word};
use crate::seed::Stream;
use crate::sounds::{BLENDS, Blend, Place};

/// The words that may be used, each in the home of one blend; all in one home when there is no focus.
pub(super) struct Homes<'w> {
    /// For each home, the kin that live there; one word of each kin may be used.
    kin: Vec<Vec<Vec<&'w Word>>>,
    /// The blend of each home; empty when there is no focus.
    blends: Vec<&'static Blend>,
}

/// What is to be shared out.
pub(super) struct Need<'a> {
    /// What the words are for, as messages name it.
    pub wanted: &'a str,
    /// How many words.
    pub count: usize,
    /// Whether a blend that runs short is an error, rather than filled up from the others.
    pub even: bool,
    /// Whether fewer can be asked for.
    pub fewer: bool,
    /// The blends; empty for none.
    pub blends: &'a [&'static Blend],
    /// Where they have to be heard.
    pub place: Option<Place>,
    /// The place of the focus condition in the filter, if it has one.
    pub focus_at: Option<usize>,
    /// How many blends there can be.
    pub blends_allowed: Span,
}

impl<'w> Homes<'w> {
    /// Sorts words into homes. A word that holds several of the blends lives with the one that has the fewest words.
    pub fn new(words: &[&'w Word], blends: &[&'static Blend], place: Option<Place>) -> Self {
        let held: Vec<Vec<bool>> =
            words.iter().map(|word| blends.iter().map(|blend| focus::is_heard(word, blend, place)).collect()).collect();
        let count = |home: usize| held.iter().filter(|held| held[home]).count();
        let mut by_need: Vec<usize> = (0..blends.len()).collect();
        by_need.sort_by_key(|&home| count(home));

        let numbers = kin(words);
        let mut members: Vec<Vec<usize>> = vec![Vec::new(); numbers.iter().max().map_or(0, |most| most + 1)];
        for (at, &number) in numbers.iter().enumerate() {
            members[number].push(at);
        }
        let mut homes = vec![Vec::new(); blends.len().max(1)];
        for members in members {
            if blends.is_empty() {
                homes[0].push(members.iter().map(|&at| words[at]).collect());
            } else if let Some(&home) = by_need.iter().find(|&&home| members.iter().any(|&at| held[at][home])) {
                homes[home].push(members.iter().filter(|&&at| held[at][home]).map(|&at| words[at]).collect());
            }
        }
        Self { kin: homes, blends: blends.to_vec() }
    }

    /// How many words each home can give.
    pub fn counts(&self) -> Vec<usize> {
        self.kin.iter().map(Vec::len).collect()
    }

    /// How many words they can give together; when they have to be shared evenly, with counts that differ by one at most and
    /// something from each home.
    pub fn at_most(&self, even: bool) -> usize {
        let counts = self.counts();
        if !even {
            return counts.iter().sum();
        }
        let least = counts.iter().copied().min().unwrap_or(0);
        if least == 0 {
            return 0;
        }
        counts.len() * least + counts.iter().filter(|&&count| count > least).count()
    }

    /// Chooses `count` words, at most as many as there are, shared as evenly as they allow, each with its home, in a mixed order.
    ///
    /// Words that the child wants come first. A sheet that is one of several equal ones takes its set of the rest, and leaves in
    /// `stream` the set's own, so that what is drawn afterwards differs from set to set.
    pub fn deal(mut self, count: usize, stream: &mut Stream, hand: &Hand) -> Vec<(usize, &'w Word)> {
        let shares = self.shares(count, stream);
        let mut wanted = hand.most_wanted(count);
        let own = hand.seat.apart(stream);
        let mut chosen: Vec<Vec<&'w Word>> = Vec::with_capacity(shares.len());
        let mut before = 0;
        for ((home, kin), &share) in self.kin.iter_mut().enumerate().zip(&shares) {
            let mut words = take_wanted(kin, share.min(wanted), hand);
            wanted -= words.len();
            if let Seat::Set(number) = hand.seat {
                let mut stream = stream.fork(&format!("home {home}"));
                let blend = self.blends.get(home).copied();
                words.extend(hand_out(kin, blend, (before, share - words.len()), number, &mut stream, hand));
            } else {
                for _ in words.len()..share {
                    words.extend(take(kin, stream, hand));
                }
            }
            if own.is_none() {
                stream.shuffle(&mut words);
            }
            before += share;
            chosen.push(words);
        }
        if let Some(own) = own {
            *stream = own;
            for words in &mut chosen {
                stream.shuffle(words);
            }
        }
        mixed(shares, stream).into_iter().filter_map(|home| Some((home, chosen[home].pop()?))).collect()
    }

    /// How many words each home gives: one at a time to those that have had the fewest and can give more. Which of them come
    /// first is left to chance.
    fn shares(&self, count: usize, stream: &mut Stream) -> Vec<usize> {
        let counts = self.counts();
        let mut order: Vec<usize> = (0..counts.len()).collect();
        stream.shuffle(&mut order);
        let mut shares = vec![0; counts.len()];
        for _ in 0..count {
            let open = order.iter().copied().filter(|&home| shares[home] < counts[home]);
            let Some(home) = open.min_by_key(|&home| shares[home]) else { break };
            shares[home] += 1;
        }
        shares
    }
}

/// Takes a word by its weight, and its kin with it; a word to spare only where there is no other.
fn take<'w>(kin: &mut Vec<Vec<&'w Word>>, stream: &mut Stream, hand: &Hand) -> Option<&'w Word> {
    let all: Vec<(usize, &Word)> =
        kin.iter().enumerate().flat_map(|(at, words)| words.iter().map(move |word| (at, *word))).collect();
    let unspared = all.iter().any(|(_, word)| !hand.spares(&word.spelling));
    let likely = |word: &Word| if unspared && hand.spares(&word.spelling) { 0 } else { weight(word) };
    let weights: Vec<u32> = all.iter().map(|(_, word)| likely(word)).collect();
    let (at, word) = all[stream.weighted(&weights)?];
    kin.remove(at);
    Some(word)
}

/// Takes the words that the child wants, `most` of them at the most, and their kin with them.
fn take_wanted<'w>(kin: &mut Vec<Vec<&'w Word>>, most: usize, hand: &Hand) -> Vec<&'w Word> {
    let mut taken = Vec::new();
    for wanted in &hand.wants {
        if taken.len() == most {
            break;
        }
        let at = |words: &Vec<&'w Word>| words.iter().find(|word| word.spelling == *wanted).copied();
        if let Some((place, word)) = kin.iter().enumerate().find_map(|(place, words)| Some((place, at(words)?))) {
            kin.remove(place);
            taken.push(word);
        }
    }
    taken
}

/// An order in which each home comes as often as its share and, where that can be, never twice in a row.
fn mixed(mut left: Vec<usize>, stream: &mut Stream) -> Vec<usize> {
    let total: usize = left.iter().sum();
    let mut order: Vec<usize> = Vec::with_capacity(total);
    for done in 0..total {
        let after = total - done - 1;
        let last = order.last().copied();
        // Once `home` is taken, the places after it can be filled without neighbours if no home needs more than every other.
        let leaves_a_way = |home: usize| {
            left.iter()
                .enumerate()
                .all(|(other, &n)| if other == home { 2 * (n - 1) <= after } else { 2 * n <= after + 1 })
        };
        let weight = |home: usize| -> u32 {
            if left[home] > 0 && Some(home) != last && leaves_a_way(home) {
                u32::try_from(left[home]).unwrap_or(u32::MAX)
            } else {
                0
            }
        };
        let weights: Vec<u32> = (0..left.len()).map(weight).collect();
        let fullest_other = || (0..left.len()).max_by_key(|&home| (left[home] > 0, Some(home) != last, left[home]));
        let Some(home) = stream.weighted(&weights).or_else(fullest_other) else { break };
        left[home] -= 1;
        order.push(home);
    }
    order
}

/// Says what too few words are due to, and what gives enough.
pub(super) fn shortage(filter: &Filter, words: &[Word], need: &Need) -> FillError {
    let all: Vec<&Word> = words.iter().collect();
    let homes = Homes::new(&filter.apply(words), need.blends, need.place);
    let mut costs = filter.account(&all);
    for (at, cost) in costs.iter_mut().enumerate() {
        let words = filter.without(at, words);
        match need.focus_at {
            Some(focus) if focus == at => add_a_blend(cost, &words, need),
            _ => cost.without = Homes::new(&words, need.blends, need.place).at_most(need.even),
        }
    }
    let found = homes.counts().iter().sum();
    costs.push(Cost {
        asks: "are left when no two may sound alike or differ by an ending".to_owned(),
        loosen: String::new(),
        leaves: found,
        without: found,
    });
    if need.even {
        costs.extend(leave_a_blend_out(&filter.apply(words), &homes, need));
    }
    let shortage = Shortage {
        wanted: need.wanted.to_owned(),
        needed: need.count,
        found,
        at_most: if need.fewer { homes.at_most(need.even) } else { 0 },
        of: words.len(),
        costs,
        blends: if need.even { needs(&homes, need) } else { Vec::new() },
    };
    FillError::TooFew(Box::new(shortage))
}

/// Names the one further blend that gives the most.
fn add_a_blend(cost: &mut Cost, words: &[&Word], need: &Need) {
    cost.loosen = String::new();
    cost.without = 0;
    if need.blends.len() >= need.blends_allowed.max {
        return;
    }
    let side = need.blends.first().map(|blend| blend.side);
    let others = BLENDS.iter().filter(|b| b.taught && Some(b.side) == side && !need.blends.contains(b));
    for blend in others {
        let blends: Vec<&'static Blend> = need.blends.iter().copied().chain([blend]).collect();
        let held = holding(words, &blends, need.place);
        let count = Homes::new(&held, &blends, need.place).at_most(need.even);
        if count > cost.without {
            cost.without = count;
            cost.loosen = format!("add {} to the focus", blend.name);
        }
    }
}

/// What each blend needs and has. Those with the most words get what is left over.
fn needs(homes: &Homes, need: &Need) -> Vec<BlendCount> {
    let counts = homes.counts();
    let of = |(blend, &found): (&&'static Blend, &usize)| {
        let with_more = counts.iter().filter(|&&other| other > found).count();
        let needed = (need.count + counts.len() - 1 - with_more) / counts.len();
        BlendCount { blend: blend.name.to_owned(), needed, found }
    };
    need.blends.iter().zip(&counts).map(of).collect()
}

/// What there would be without the blend that has the fewest words; nothing when no blend can be spared.
fn leave_a_blend_out(words: &[&Word], homes: &Homes, need: &Need) -> Option<Cost> {
    if need.blends.len() <= need.blends_allowed.min {
        return None;
    }
    let (_, &poorest) = homes.counts().into_iter().zip(need.blends).min_by_key(|(count, _)| *count)?;
    let others: Vec<&'static Blend> = need.blends.iter().copied().filter(|blend| *blend != poorest).collect();
    let held = holding(words, &others, need.place);
    Some(Cost {
        asks: String::new(),
        loosen: format!("leave {} out of the focus", poorest.name),
        leaves: homes.counts().iter().sum(),
        without: Homes::new(&held, &others, need.place).at_most(true),
    })
}

/// The words in which one of some blends is heard.
fn holding<'w>(words: &[&'w Word], blends: &[&'static Blend], place: Option<Place>) -> Vec<&'w Word> {
    let holds = |word: &&Word| blends.iter().any(|blend| focus::is_heard(word, blend, place));
    words.iter().copied().filter(holds).collect()
}
