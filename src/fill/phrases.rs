//! Short phrases of words that the child can read: *a black cat*, *six flags*, *on the bench*.

use std::collections::BTreeMap;

use super::Request;
use super::phrase_words::{DESCRIBING, NAMING, NUMBERS, Of, PLACES};
use crate::bank::{Ending, Word};
use crate::sheet::{Item, Kind};

/// A phrase that could be taken: its words, the naming word by which it is told apart, and the kind of phrase.
struct Phrase<'a> {
    words: Vec<&'a str>,
    about: &'a str,
    first: &'a str,
    kind: usize,
}

/// Up to `count` phrases, an even number where there are several: kinds by turns, no naming word twice, those with a focus blend first.
pub(super) fn choose(count: usize, request: &Request) -> Vec<Item> {
    let mut phrases = all(request);
    let mut stream = request.own_words("phrases");
    stream.shuffle(&mut phrases);
    phrases.sort_by_cached_key(|phrase| !has_focus(phrase, request));
    let mut taken: Vec<Phrase> = Vec::new();
    // Twice through: first describing words and numbers only once each, then as often as twice.
    for most in [1, 2] {
        while taken.len() < count {
            let mut per_kind = [0usize; 3];
            let mut firsts: BTreeMap<&str, usize> = BTreeMap::new();
            for phrase in &taken {
                per_kind[phrase.kind] += 1;
                *firsts.entry(phrase.first).or_default() += 1;
            }
            let fits = |phrase: &Phrase| {
                let often = if phrase.kind == 2 { 3 } else { most };
                taken.iter().all(|other| other.about != phrase.about)
                    && firsts.get(phrase.first).is_none_or(|times| *times < often)
            };
            // Describing phrases are half of all.
            let by_need = |kind: usize| if kind == 0 { per_kind[0] } else { per_kind[kind] * 2 };
            let Some(at) =
                (0..phrases.len()).filter(|&at| fits(&phrases[at])).min_by_key(|&at| by_need(phrases[at].kind))
            else {
                break;
            };
            taken.push(phrases.swap_remove(at));
        }
    }
    if taken.len() > 2 && taken.len() % 2 == 1 {
        taken.pop();
    }
    stream.shuffle(&mut taken);
    taken.iter().map(|phrase| item(&phrase.words.join(" "))).collect()
}

fn item(text: &str) -> Item {
    let mut item = Item::of_text(Kind::Phrase, text);
    item.shown = vec![text.to_owned()];
    item.answer = vec![text.to_owned()];
    item
}

/// A word of the bank that can be read here, decoded or by sight, and in one way.
fn readable<'a>(spelling: &str, request: &Request<'a>) -> Option<&'a Word> {
    let word = request.bank.get(spelling)?;
    let by_sight = request.by_sight.iter().any(|(taught, _)| taught == spelling);
    let decoded = (request.decodable)(word) && !word.flags.irregular;
    ((decoded || by_sight) && !word.flags.heteronym && !request.avoid.contains(&word.spelling)).then_some(word)
}

/// Every phrase that can be read.
fn all<'a>(request: &Request<'a>) -> Vec<Phrase<'a>> {
    let by_sight = |word: &str| request.by_sight.iter().any(|(taught, _)| taught == word);
    let mut phrases = Vec::new();
    let plurals: BTreeMap<&str, &Word> = request.bank.words().iter().filter_map(plural).collect();
    for (of, names) in NAMING {
        for name in names.iter().filter_map(|name| readable(name, request)) {
            for word in describing(*of).filter_map(|word| readable(word, request)) {
                for article in ["a", "the"].into_iter().filter(|article| by_sight(article)) {
                    if article == "a" && word.sounds.first().is_some_and(|sound| sound.is_vowel()) {
                        continue;
                    }
                    let words = vec![article, &word.spelling, &name.spelling];
                    phrases.push(Phrase { words, about: &name.spelling, first: &word.spelling, kind: 0 });
                }
            }
            let Some(many) = plurals.get(name.spelling.as_str()).and_then(|many| readable(&many.spelling, request))
            else {
                continue;
            };
            for number in NUMBERS.iter().filter_map(|number| readable(number, request)) {
                let words = vec![number.spelling.as_str(), &many.spelling];
                phrases.push(Phrase { words, about: &name.spelling, first: &number.spelling, kind: 1 });
            }
        }
    }
    for (before, places) in PLACES {
        let Some(before) = readable(before, request).filter(|_| by_sight("the")) else { continue };
        for place in places.iter().filter_map(|place| readable(place, request)) {
            let words = vec![before.spelling.as_str(), "the", &place.spelling];
            phrases.push(Phrase { words, about: &place.spelling, first: &before.spelling, kind: 2 });
        }
    }
    phrases
}

fn describing(of: Of) -> impl Iterator<Item = &'static str> {
    DESCRIBING.iter().filter(move |(said_of, _)| said_of.contains(&of)).flat_map(|(_, words)| words.iter().copied())
}

/// The word of which this is the plural, with it.
fn plural(word: &Word) -> Option<(&str, &Word)> {
    word.flags.form.as_ref().filter(|(_, ending)| *ending == Ending::S).map(|(base, _)| (base.as_str(), word))
}

fn has_focus(phrase: &Phrase, request: &Request) -> bool {
    let words = phrase.words.iter().filter_map(|word| request.bank.get(word));
    words.flat_map(Word::blends).any(|(blend, _)| request.focus.contains(&blend))
}
