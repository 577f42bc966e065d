//! Rhyme riddles: a kind of thing, and a nonsense word that rhymes with it.

use std::collections::BTreeMap;

use super::Slot;
use crate::bank::{Bank, Category, Silly, SillyMaker, Word};
use crate::sounds::{Sound, rhymes};

/// A category and nonsense words that each lead to one word of it: "an animal that rhymes with *spish*" is a *fish*.
#[derive(Clone, Debug)]
pub struct Riddle<'a> {
    /// What kind of thing the answer is.
    pub category: Category,
    /// The only word of the category with its rhyme part.
    pub answer: &'a Word,
    /// The nonsense words that rhyme with it, in the order of their spelling; at least one.
    pub silly: Vec<&'a Silly<'a>>,
}

impl Bank {
    /// Every riddle with the nonsense words of a maker whose onset a slot takes, by category and then by the answer's spelling.
    ///
    /// The answer is the only word of its category with that rhyme part in the whole bank, the words that a class leaves out
    /// included, and so are inflected forms and homophones. Forms and heteronyms are no answers.
    #[must_use]
    pub fn riddles<'a>(&'a self, maker: &'a SillyMaker<'a>, onset: &Slot) -> Vec<Riddle<'a>> {
        let mut silly: BTreeMap<&[Sound], Vec<&Silly>> = BTreeMap::new();
        for one in maker.candidates().iter().filter(|one| onset.takes(one.onset())) {
            silly.entry(one.rime()).or_default().push(one);
        }
        let mut words: BTreeMap<(Category, &[Sound]), Vec<&Word>> = BTreeMap::new();
        for word in self.words().iter().chain(self.left_out()) {
            for &category in &word.categories {
                words.entry((category, word.rhyme_part())).or_default().push(word);
            }
        }
        let mut riddles = Vec::new();
        for ((category, rhyme), found) in words {
            let ([answer], Some(silly)) = (&found[..], silly.get(rhyme)) else { continue };
            let can_be_asked = !answer.is_form() && !answer.flags.heteronym && self.get(&answer.spelling).is_some();
            let rhymes_with_it =
                |one: &&&Silly| rhymes((&one.sounds, one.onset().len()), (&answer.sounds, answer.stressed));
            let silly: Vec<&Silly> = silly.iter().filter(rhymes_with_it).copied().collect();
            if can_be_asked && !silly.is_empty() {
                riddles.push(Riddle { category, answer, silly });
            }
        }
        riddles.sort_by(|a, b| (a.category, &a.answer.spelling).cmp(&(b.category, &b.answer.spelling)));
        riddles
    }
}
