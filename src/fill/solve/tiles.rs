//! Solving tiles: each word is laid with them, and none is left over.

use super::{Wrong, whole, words};
use crate::bank::Word;
use crate::fill::{Filled, Request, Tiles};

pub(super) fn check(spec: &Tiles, filled: &Filled, request: &Request) -> Result<(), Wrong> {
    words::check(&spec.words(), filled, request)?;
    whole("the order of the tiles", &true, &filled.tiles.is_sorted())?;
    let bank = request.bank.words();
    let built: Vec<&Word> =
        filled.items.iter().filter_map(|item| bank.iter().find(|word| word.spelling == item.word)).collect();
    // Lays words by taking tiles away; gives how many of each kind remain in the box.
    let mut kinds = filled.tiles.clone();
    kinds.dedup();
    for kind in &kinds {
        let there = filled.tiles.iter().filter(|tile| *tile == kind).count();
        let takes = built.iter().map(|word| laid(word).iter().filter(|tile| *tile == kind).count());
        let needed = if spec.all { takes.sum() } else { takes.max().unwrap_or(0) };
        whole(&format!("tiles of {kind}"), &there, &needed)?;
    }
    for (item, word) in filled.items.iter().zip(built) {
        whole("tiles in order", &item.texts.get("tiles"), &Some(&laid(word).join(" · ")))?;
        whole("the word that its tiles spell", &word.spelling, &laid(word).concat())?;
        for tile in laid(word) {
            whole(&format!("a tile {tile} for {}", word.spelling), &true, &kinds.contains(&tile))?;
        }
    }
    Ok(())
}

/// The tiles of a word from left to right: laid side by side they spell it.
fn laid(word: &Word) -> Vec<String> {
    let mut tiles = Vec::new();
    let ends: Vec<&str> =
        word.alignment.units.iter().map(|unit| unit.halves().1).filter(|end| !end.is_empty()).collect();
    for at in 0..=word.alignment.units.len() {
        // The second halves of split vowels that stand before this group.
        let closing = word.alignment.closings.iter().zip(&ends).filter(|(closing, _)| **closing == at);
        tiles.extend(closing.map(|(_, end)| (*end).to_owned()));
        tiles.extend(word.alignment.units.get(at).map(|unit| unit.halves().0.to_owned()));
    }
    tiles
}
