//! A range of whole numbers, as a layout writes it: `[3, 5]`.

use std::fmt;

use serde::Deserialize;

use super::Problem;

/// From the least to the most, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, schemars::JsonSchema)]
#[serde(from = "[usize; 2]")]
pub struct Span {
    /// The least.
    pub min: usize,
    /// The most.
    pub max: usize,
}

impl Span {
    /// A range from `min` to `max`.
    #[must_use]
    pub const fn new(min: usize, max: usize) -> Self {
        Self { min, max }
    }

    /// Whether a number is in the range.
    #[must_use]
    pub const fn holds(self, number: usize) -> bool {
        self.min <= number && number <= self.max
    }

    /// Adds what is wrong with it as the value of `key`, where both ends must be in `allowed`.
    pub(super) fn check(self, key: &'static str, allowed: Self, problems: &mut Vec<Problem>) {
        if self.min > self.max {
            let message = format!("the first number of [{}, {}] is more than the second", self.min, self.max);
            problems.push(Problem::new(key, message));
        } else if !allowed.holds(self.min) || !allowed.holds(self.max) {
            let message = format!(
                "[{}, {}] is out of range: both numbers must be from {} to {}",
                self.min, self.max, allowed.min, allowed.max
            );
            problems.push(Problem::new(key, message));
        }
    }

    /// Adds what is wrong with `number` as the value of `key`, where it must be in this range.
    pub(super) fn admit(self, key: &'static str, number: usize, problems: &mut Vec<Problem>) {
        if !self.holds(number) {
            let message = format!("{number} is out of range: it must be from {} to {}", self.min, self.max);
            problems.push(Problem::new(key, message));
        }
    }
}

impl From<[usize; 2]> for Span {
    fn from([min, max]: [usize; 2]) -> Self {
        Self { min, max }
    }
}

impl fmt::Display for Span {
    /// `3 to 5`, or `4` when there is only one.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.min == self.max { write!(f, "{}", self.min) } else { write!(f, "{} to {}", self.min, self.max) }
    }
}
