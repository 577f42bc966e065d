//! Judging one spelling.

use crate::bank::Bank;
use crate::sequence::needs::{Need, each_need};
use crate::sequence::taught::{Missing, at};
use crate::sequence::{Sequence, Step};

use super::contraction;
use super::form::{self, Form};
use super::report::{Entry, Standing};
use super::tokens::Kind;

/// Judges spellings at a step.
#[derive(Clone, Copy, Debug)]
pub struct Judge<'a> {
    sequence: &'a Sequence,
    step: u16,
    bank: &'a Bank,
}

/// From which steps a word can be read.
#[derive(Clone, Copy, Debug, Default)]
struct From {
    decodable: Option<u16>,
    sight: Option<u16>,
}

impl From {
    fn readable(self) -> Option<u16> {
        [self.decodable, self.sight].into_iter().flatten().min()
    }
}

/// The later of two steps, when there are both.
fn both(one: Option<u16>, other: Option<u16>) -> Option<u16> {
    Some(one?.max(other?))
}

impl<'a> Judge<'a> {
    /// A judge at a step.
    pub const fn new(sequence: &'a Sequence, step: u16, bank: &'a Bank) -> Self {
        Self { sequence, step, bank }
    }

    /// The sequence.
    pub const fn sequence(&self) -> &'a Sequence {
        self.sequence
    }

    /// The step.
    pub fn step(&self) -> Option<&'a Step> {
        self.sequence.numbered(self.step)
    }

    /// What a spelling is and from when it can be read.
    pub fn entry(&self, spelling: &str, kind: Kind) -> Entry {
        let plain = |standing| Entry::new(spelling, standing);
        match kind {
            Kind::Numeral => plain(Standing::Numeral),
            Kind::Letter => plain(Standing::Letter),
            Kind::OtherScript => plain(Standing::OtherScript),
            Kind::Word => self.word(spelling).unwrap_or_else(|| plain(Standing::Unknown)),
        }
    }

    fn word(&self, spelling: &str) -> Option<Entry> {
        if let Some(word) = self.bank.get(spelling) {
            // Where the bank has the form, its own needs stand; the rule serves forms of words read by sight alone.
            let form = word.flags.form.as_ref().and_then(|_| form::of(spelling, self.bank));
            let mut from =
                From { decodable: self.steps(|mut visit| each_need(word, self.bank, &mut visit)), sight: None };
            from.sight = earlier(self.listed(spelling), form.as_ref().and_then(|form| self.sight_of(form)));
            let missing = self.missing(|mut visit| each_need(word, self.bank, &mut visit));
            let base = form.map(|form| form.base.spelling.clone());
            return Some(self.judged(spelling, base, from, missing));
        }
        if let Some(long) = contraction::stands_for(spelling) {
            return Some(self.contraction(spelling, long));
        }
        let form = match spelling.strip_suffix("'s") {
            Some(owner) => form::with_mark(owner, self.bank)?,
            None => form::of(spelling, self.bank)?,
        };
        let from = From {
            decodable: self.steps(|mut visit| {
                each_need(form.base, self.bank, &mut visit);
                form.each_need(&mut visit);
            }),
            sight: earlier(self.listed(spelling), self.sight_of(&form)),
        };
        let missing = self.missing(|mut visit| {
            each_need(form.base, self.bank, &mut visit);
            form.each_need(&mut visit);
        });
        Some(self.judged(spelling, Some(form.base.spelling.clone()), from, missing))
    }

    /// Read by sight from the step at which all of its words can be read.
    fn contraction(&self, spelling: &str, long: &[&str]) -> Entry {
        let words = || long.iter().filter_map(|word| self.word(word));
        let sight = words().try_fold(1, |step, word| Some(word.from?.max(step)));
        let mut missing: Vec<Missing> = Vec::new();
        for word in words().filter(|word| word.standing == Standing::NotYet) {
            for one in word.missing {
                if !missing.contains(&one) {
                    missing.push(one);
                }
            }
        }
        let from = From { decodable: None, sight };
        self.judged(spelling, Some(long.join(" ")), from, missing)
    }

    fn judged(&self, spelling: &str, base: Option<String>, from: From, missing: Vec<Missing>) -> Entry {
        let by_now = |step: Option<u16>| step.is_some_and(|step| step <= self.step);
        let standing = match () {
            () if by_now(from.decodable) => Standing::Decodable,
            () if by_now(from.sight) => Standing::BySight,
            () => Standing::NotYet,
        };
        let missing = if standing == Standing::NotYet { missing } else { Vec::new() };
        Entry { base, missing, from: from.readable(), ..Entry::new(spelling, standing) }
    }

    /// The step from which a form is read by sight, because its base is.
    fn sight_of(&self, form: &Form) -> Option<u16> {
        both(self.listed(&form.base.spelling), self.steps(|mut visit| form.each_need(&mut visit)))
    }

    fn listed(&self, spelling: &str) -> Option<u16> {
        self.sequence.index().sight(spelling)
    }

    /// The last of the steps that meet some needs; `None` when one is never met.
    fn steps(&self, needs: impl FnOnce(&mut dyn FnMut(Need))) -> Option<u16> {
        let mut latest = Some(1);
        needs(&mut |need| latest = both(latest, self.sequence.index().step_of(&need)));
        latest
    }

    /// The needs that are not met at this step, each once.
    fn missing(&self, needs: impl FnOnce(&mut dyn FnMut(Need))) -> Vec<Missing> {
        let mut missing = Vec::new();
        needs(&mut |need| {
            let step = self.sequence.index().step_of(&need);
            if step.is_none_or(|step| step > self.step) {
                let found = Missing::of(&need, step.and_then(|number| self.sequence.numbered(number)).map(at));
                if !missing.contains(&found) {
                    missing.push(found);
                }
            }
        });
        missing
    }
}

/// The earlier of two steps.
fn earlier(one: Option<u16>, other: Option<u16>) -> Option<u16> {
    [one, other].into_iter().flatten().min()
}
