//! Conditions on words, and what each of them costs when too few are left.

use std::fmt;

use super::Word;

type Test<'a> = Box<dyn Fn(&Word) -> bool + Send + Sync + 'a>;

/// One condition on a word, with the words to tell a teacher what it is and what loosens it.
pub struct Condition<'a> {
    /// What it asks, as it reads after "words that": `start with bl`.
    pub asks: String,
    /// How to loosen it: `add another blend to the focus`.
    pub loosen: String,
    test: Test<'a>,
}

impl<'a> Condition<'a> {
    /// A condition that `test` decides.
    pub fn new(
        asks: impl Into<String>,
        loosen: impl Into<String>,
        test: impl Fn(&Word) -> bool + Send + Sync + 'a,
    ) -> Self {
        Self { asks: asks.into(), loosen: loosen.into(), test: Box::new(test) }
    }

    /// Whether a word meets it.
    #[must_use]
    pub fn met_by(&self, word: &Word) -> bool {
        (self.test)(word)
    }
}

impl fmt::Debug for Condition<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Condition").field("asks", &self.asks).finish_non_exhaustive()
    }
}

/// Conditions that all have to be met.
#[derive(Debug, Default)]
pub struct Filter<'a> {
    conditions: Vec<Condition<'a>>,
}

impl<'a> Filter<'a> {
    /// A filter that keeps every word.
    #[must_use]
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds a condition.
    pub fn require(&mut self, condition: Condition<'a>) {
        self.conditions.push(condition);
    }

    /// The same filter with one more condition.
    #[must_use]
    pub fn and(mut self, condition: Condition<'a>) -> Self {
        self.require(condition);
        self
    }

    /// How many conditions there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.conditions.len()
    }

    /// Whether there is no condition.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.conditions.is_empty()
    }

    /// Whether a word meets all conditions.
    #[must_use]
    pub fn keeps(&self, word: &Word) -> bool {
        self.conditions.iter().all(|condition| condition.met_by(word))
    }

    /// The words that meet all conditions, in their order.
    pub fn apply<'w>(&self, words: impl IntoIterator<Item = &'w Word>) -> Vec<&'w Word> {
        words.into_iter().filter(|word| self.keeps(word)).collect()
    }

    /// The words that meet all conditions but the one at `at`, in their order.
    pub fn without<'w>(&self, at: usize, words: impl IntoIterator<Item = &'w Word>) -> Vec<&'w Word> {
        let others = |word: &&Word| self.conditions.iter().enumerate().all(|(other, c)| other == at || c.met_by(word));
        words.into_iter().filter(others).collect()
    }

    /// What each condition leaves, taken in order, and what there would be without it.
    #[must_use]
    pub fn account(&self, words: &[&Word]) -> Vec<Cost> {
        let mut left: Vec<&Word> = words.to_vec();
        let mut costs = Vec::with_capacity(self.conditions.len());
        for (at, condition) in self.conditions.iter().enumerate() {
            left.retain(|word| condition.met_by(word));
            costs.push(Cost {
                asks: condition.asks.clone(),
                loosen: condition.loosen.clone(),
                leaves: left.len(),
                without: self.without(at, words.iter().copied()).len(),
            });
        }
        costs
    }
}

/// What one condition of a [`Filter`] costs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cost {
    /// What the condition asks.
    pub asks: String,
    /// How to loosen it.
    pub loosen: String,
    /// How many words are left after it and those before it.
    pub leaves: usize,
    /// How many words meet all the other conditions.
    pub without: usize,
}
