//! What has been taught up to a step, and whether a word can be read there.

use std::fmt;

use crate::bank::{Bank, SillyMaker, Word};
use crate::sounds::{Blend, Notation, Sound, spell_out};
use crate::spelling::Pair;

use super::needs::{Need, each_need};
use super::{Sequence, Shape, Step};

/// Everything up to one step of a sequence, with it.
#[derive(Clone, Copy, Debug)]
pub struct Taught<'a> {
    sequence: &'a Sequence,
    step: u16,
}

/// Whether a child can read a word.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// It can be sounded out by what has been taught.
    Decodable,
    /// It can't, but it has been taught as a high-frequency word.
    BySight,
    /// Neither. What stands in the way, each thing once, from left to right.
    NotYet(Vec<Missing>),
}

/// Where a sequence teaches what is missing.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct At {
    /// The step's number.
    pub number: u16,
    /// The step's name.
    pub name: String,
}

/// Where a step stands.
pub(super) fn at(step: &Step) -> At {
    At { number: step.number, name: step.name.clone() }
}

/// One thing that stands in the way of a word. `Display` says it to a teacher:
/// ``ai for /ā/ is taught at step 21, `ai-ay` ``.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Missing {
    /// A letter group and its sounds.
    Pair(Pair, Option<At>),
    /// A blend.
    Blend(&'static Blend, Option<At>),
    /// A consonant cluster that is no known blend; the step is the one that teaches `any-cluster`.
    Cluster(Vec<Sound>, Option<At>),
    /// A shape.
    Shape(Shape, Option<At>),
    /// The word can't be sounded out at any step.
    Irregular,
}

impl<'a> Taught<'a> {
    pub(super) const fn new(sequence: &'a Sequence, step: u16) -> Self {
        Self { sequence, step }
    }

    /// The steps up to this one, in order.
    #[must_use]
    pub fn steps(&self) -> &'a [Step] {
        let steps = self.sequence.steps();
        &steps[..usize::from(self.step).min(steps.len())]
    }

    /// The letter groups with their sounds, the oldest first.
    pub fn pairs(&self) -> impl Iterator<Item = &'a Pair> + use<'a> {
        self.steps().iter().flat_map(|step| &step.pairs)
    }

    /// The blends, the oldest first.
    pub fn blends(&self) -> impl Iterator<Item = &'static Blend> + use<'a> {
        self.steps().iter().flat_map(|step| step.blends.iter().copied())
    }

    /// The shapes, the oldest first.
    pub fn shapes(&self) -> impl Iterator<Item = Shape> + use<'a> {
        self.steps().iter().flat_map(|step| step.shapes.iter().copied())
    }

    /// The high-frequency words, the newest step first: the order in which they are reviewed.
    pub fn words(&self) -> impl Iterator<Item = &'a str> + use<'a> {
        self.steps().iter().rev().flat_map(|step| step.words.iter().map(String::as_str))
    }

    /// Nonsense words of the letter groups and blends taught by now. Of their shapes it knows nothing: ask [`Self::is_decodable`]
    /// with [`Silly::to_word`](crate::bank::Silly::to_word).
    #[must_use]
    pub fn silly<'b>(&self, bank: &'b Bank) -> SillyMaker<'b> {
        let any = self.shapes().any(|shape| shape == Shape::AnyCluster);
        let blends: Vec<&'static Blend> = self.blends().collect();
        let cluster = |sounds: &[Sound], side| any || blends.iter().any(|b| b.side == side && b.sounds == sounds);
        SillyMaker::new(bank, self.pairs(), cluster)
    }

    /// Whether a word can be read, and if not, why.
    #[must_use]
    pub fn check(&self, word: &Word, bank: &Bank) -> Verdict {
        let mut missing: Vec<Missing> = Vec::new();
        each_need(word, bank, &mut |need| {
            let step = self.sequence.index().step_of(&need);
            if step.is_none_or(|step| step > self.step) {
                let found = Missing::of(&need, step.and_then(|number| self.sequence.numbered(number)).map(at));
                if !missing.contains(&found) {
                    missing.push(found);
                }
            }
        });
        if missing.is_empty() {
            Verdict::Decodable
        } else if self.sequence.index().sight(&word.spelling).is_some_and(|step| step <= self.step) {
            Verdict::BySight
        } else {
            Verdict::NotYet(missing)
        }
    }

    /// Whether a word can be sounded out by what has been taught.
    #[must_use]
    pub fn is_decodable(&self, word: &Word, bank: &Bank) -> bool {
        self.sequence.index().decodable_from(word, bank).is_some_and(|step| step <= self.step)
    }

    /// Whether a word can be read, decoded or by sight.
    #[must_use]
    pub fn is_readable(&self, word: &Word, bank: &Bank) -> bool {
        self.is_decodable(word, bank)
            || self.sequence.index().sight(&word.spelling).is_some_and(|step| step <= self.step)
    }
}

impl Verdict {
    /// Whether the word can be read, decoded or by sight.
    #[must_use]
    pub const fn is_readable(&self) -> bool {
        matches!(self, Self::Decodable | Self::BySight)
    }
}

impl Missing {
    pub(super) fn of(need: &Need, at: Option<At>) -> Self {
        match *need {
            Need::Pair { letters, phonemes } => {
                Self::Pair(Pair { letters: letters.to_owned(), phonemes: phonemes.to_vec() }, at)
            }
            Need::Blend(blend) => Self::Blend(blend, at),
            Need::Cluster(sounds) => Self::Cluster(sounds.to_vec(), at),
            Need::Shape(shape) => Self::Shape(shape, at),
            Need::Irregular => Self::Irregular,
        }
    }
}

/// The sounds of a pair as a teacher writes them: `/k/ /s/`, and `/ar/` for the two phonemes of *ar*.
fn said(pair: &Pair) -> String {
    let one = Sound::ALL.iter().copied().find(|sound| sound.phonemes() == pair.phonemes);
    let sounds: Vec<Sound> = match one {
        Some(sound) => vec![sound],
        None => pair.phonemes.iter().map(|&phoneme| Sound::of_phoneme(phoneme, false)).collect(),
    };
    spell_out(&sounds, Notation::Teacher)
}

impl fmt::Display for Missing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let at = match self {
            Self::Pair(pair, at) => {
                write!(f, "{} for {}", pair.letters, said(pair))?;
                at
            }
            Self::Blend(blend, at) => {
                write!(f, "the blend {blend}")?;
                at
            }
            Self::Cluster(sounds, at) => {
                write!(f, "the consonants {} together", spell_out(sounds, Notation::Teacher))?;
                at
            }
            Self::Shape(shape, at) => {
                f.write_str(&shape.described())?;
                at
            }
            Self::Irregular => return f.write_str("its spelling can't be sounded out, and it is not taught by sight"),
        };
        let verb = match self {
            Self::Shape(shape, _) if shape.is_plural() => "are",
            Self::Cluster(..) => "are",
            _ => "is",
        };
        match at {
            Some(At { number, name }) => write!(f, " {verb} taught at step {number}, `{name}`"),
            None => write!(f, " {verb} not taught in this sequence"),
        }
    }
}

impl fmt::Display for Verdict {
    /// `decodable`, `read by sight`, or all that is missing, parted by semicolons.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Decodable => f.write_str("decodable"),
            Self::BySight => f.write_str("read by sight"),
            Self::NotYet(missing) => {
                let texts: Vec<_> = missing.iter().map(ToString::to_string).collect();
                f.write_str(&texts.join("; "))
            }
        }
    }
}
