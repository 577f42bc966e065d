//! At which step each part of a word is first taught.

use std::collections::BTreeMap;

use crate::bank::{Bank, Word};
use crate::sounds::{BLENDS, Blend, Phoneme};

use super::needs::{Need, each_need};
use super::{Shape, Step};

/// The first step of every pair, blend, shape and sight word.
#[derive(Clone, Debug)]
pub struct Index {
    /// By the first phoneme: letters, phonemes, step.
    pairs: Vec<Vec<(String, Vec<Phoneme>, u16)>>,
    /// As long as [`BLENDS`].
    blends: Vec<Option<u16>>,
    shapes: BTreeMap<Shape, u16>,
    words: BTreeMap<String, u16>,
}

impl Index {
    /// Indexes steps that stand in the order of their numbers.
    pub fn new(steps: &[Step]) -> Self {
        let mut pairs: Vec<Vec<(String, Vec<Phoneme>, u16)>> = vec![Vec::new(); Phoneme::ALL.len()];
        let mut blends = vec![None; BLENDS.len()];
        let mut shapes = BTreeMap::new();
        let mut words = BTreeMap::new();
        for step in steps {
            for pair in &step.pairs {
                let Some(&first) = pair.phonemes.first() else { continue };
                let of_first = &mut pairs[first as usize];
                if !of_first.iter().any(|(letters, phonemes, _)| *letters == pair.letters && *phonemes == pair.phonemes)
                {
                    of_first.push((pair.letters.clone(), pair.phonemes.clone(), step.number));
                }
            }
            for blend in &step.blends {
                if let Some(at) = BLENDS.iter().position(|known| known == *blend) {
                    blends[at].get_or_insert(step.number);
                }
            }
            for shape in &step.shapes {
                shapes.entry(*shape).or_insert(step.number);
            }
            for word in &step.words {
                words.entry(word.clone()).or_insert(step.number);
            }
        }
        Self { pairs, blends, shapes, words }
    }

    /// The step at which a need is met; for [`Need::Irregular`] there is none.
    pub fn step_of(&self, need: &Need) -> Option<u16> {
        match *need {
            Need::Pair { letters, phonemes } => self.pair(letters, phonemes),
            Need::Blend(blend) => earlier(self.blend(blend), self.shape(Shape::AnyCluster)),
            Need::Cluster(_) => self.shape(Shape::AnyCluster),
            Need::Shape(shape @ Shape::Pattern(_)) => earlier(self.shape(shape), self.shape(Shape::OneSyllable)),
            Need::Shape(shape) => self.shape(shape),
            Need::Irregular => None,
        }
    }

    /// The first step at which a word is decodable: the last of the steps that meet its needs.
    pub fn decodable_from(&self, word: &Word, bank: &Bank) -> Option<u16> {
        let mut latest = Some(1);
        each_need(word, bank, &mut |need| {
            if let Some(step) = latest {
                latest = self.step_of(&need).map(|needed| needed.max(step));
            }
        });
        latest
    }

    /// The step at which a word is taught by sight.
    pub fn sight(&self, spelling: &str) -> Option<u16> {
        self.words.get(spelling).copied()
    }

    fn pair(&self, letters: &str, phonemes: &[Phoneme]) -> Option<u16> {
        let of_first = &self.pairs[*phonemes.first()? as usize];
        of_first.iter().find(|known| known.0 == letters && known.1 == phonemes).map(|known| known.2)
    }

    fn blend(&self, blend: &Blend) -> Option<u16> {
        BLENDS.iter().position(|known| std::ptr::eq(known, blend) || known == blend).and_then(|at| self.blends[at])
    }

    fn shape(&self, shape: Shape) -> Option<u16> {
        self.shapes.get(&shape).copied()
    }
}

/// The earlier of two steps.
fn earlier(one: Option<u16>, other: Option<u16>) -> Option<u16> {
    match (one, other) {
        (Some(one), Some(other)) => Some(one.min(other)),
        (one, other) => one.or(other),
    }
}
