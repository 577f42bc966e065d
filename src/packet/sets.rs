//! Which child of a group gets which of the equal sets.
//!
//! Children at one step with one focus are a cohort, and sets are numbered within it. A child keeps its number as long as the
//! group's file states it (`set`) or an earlier run of the same packet did; the others take the lowest free ones in the order
//! of the file. So a child who comes in at the end of the file, or who leaves and is marked `away`, changes nobody else's sheet.

use std::collections::{BTreeMap, BTreeSet};

use super::group::Child;

/// The set of a child: its cohort, and its number there from 0.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Place {
    /// The cohort, by its step and focus: `13 (l-blends): bl cl`.
    pub cohort: String,
    /// The number of the set, from 0.
    pub set: usize,
}

/// Deals the numbers. `cohort` names a child's cohort; `before` are the places of an earlier run, by the children's names.
#[must_use]
pub fn places(children: &[Child], cohort: impl Fn(&Child) -> String, before: &BTreeMap<String, Place>) -> Vec<Place> {
    let cohorts: Vec<String> = children.iter().map(cohort).collect();
    let mut taken: BTreeMap<&str, BTreeSet<usize>> = BTreeMap::new();
    for place in before.values() {
        taken.entry(&place.cohort).or_default().insert(place.set);
    }
    let known: Vec<Option<usize>> = children
        .iter()
        .zip(&cohorts)
        .map(|(child, cohort)| {
            let stated = child.set.map(|set| set.saturating_sub(1));
            stated.or_else(|| before.get(&child.name).filter(|place| place.cohort == *cohort).map(|place| place.set))
        })
        .collect();
    for (set, cohort) in known.iter().zip(&cohorts) {
        taken.entry(cohort).or_default().extend(set);
    }
    let mut next: BTreeMap<&str, usize> = BTreeMap::new();
    let numbered = known.into_iter().zip(&cohorts).map(|(known, cohort)| {
        let set = known.unwrap_or_else(|| {
            let next = next.entry(cohort).or_default();
            let taken = &taken[cohort.as_str()];
            while taken.contains(next) {
                *next += 1;
            }
            *next += 1;
            *next - 1
        });
        Place { cohort: cohort.clone(), set }
    });
    numbered.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn children(names: &str) -> Vec<Child> {
        let child = |name: &str| {
            let (name, set) = name.split_once('=').map_or((name, None), |(name, set)| (name, set.parse().ok()));
            Child { name: name.to_owned(), set, ..Child::default() }
        };
        names.split_whitespace().map(child).collect()
    }

    /// Children whose names begin with the same letter are a cohort.
    fn dealt(names: &str, before: &BTreeMap<String, Place>) -> Vec<usize> {
        let cohort = |child: &Child| child.name[..1].to_owned();
        places(&children(names), cohort, before).into_iter().map(|place| place.set).collect()
    }

    #[test]
    fn numbers_go_by_the_file_within_a_cohort() {
        assert_eq!(dealt("a1 b1 a2 b2 a3", &BTreeMap::new()), [0, 0, 1, 1, 2]);
        assert_eq!(dealt("a1 a2=1 a3=4 a4", &BTreeMap::new()), [1, 0, 3, 2]);
    }

    #[test]
    fn who_was_there_keeps_its_set() {
        let names = ["a1", "a2", "a3"];
        let before = names.into_iter().enumerate();
        let before: BTreeMap<String, Place> =
            before.map(|(set, name)| (name.to_owned(), Place { cohort: "a".to_owned(), set })).collect();
        // The second left, two came: one before the others.
        assert_eq!(dealt("a0 a3 a1 a9", &before), [3, 2, 0, 4]);
        // Who changes cohort is new there.
        let moved = BTreeMap::from([("b1".to_owned(), Place { cohort: "a".to_owned(), set: 5 })]);
        assert_eq!(dealt("b1 b2", &moved), [0, 1]);
    }
}
