//! Which words become which when one sound changes.

use super::Move;
use crate::bank::Word;
use crate::fill::pool::{kin, weight};
use crate::sounds::{Change, Sound};

/// The words that may stand on a ladder, each with the rungs that lead on from it.
pub(super) struct Graph<'a> {
    nodes: Vec<Node<'a>>,
}

/// A word on the way.
pub(super) struct Node<'a> {
    word: &'a Word,
    /// How likely it is to be taken.
    pub weight: u32,
    /// Words of one number may not stand on one ladder.
    pub kin: usize,
    /// Whether it holds a focus blend.
    pub holds: bool,
    /// Where one change leads: the number of the other word, and the change.
    pub rungs: Vec<(usize, Change)>,
}

impl<'a> Graph<'a> {
    /// The most sounds in a word: a [`Key`] has room for these.
    pub const MOST_SOUNDS: usize = 8;

    /// Joins words by the moves that are wanted and whose clue has one answer. All words must have at most
    /// [`Graph::MOST_SOUNDS`] sounds.
    pub fn new(words: &[&'a Word], moves: &[Move], holds: impl Fn(&Word) -> bool) -> Self {
        let node = |(&word, kin): (&&'a Word, usize)| Node {
            word,
            // Evened out, for what a word leads to counts as well, and ladders of different seeds should differ.
            weight: 4 + weight(word) / 4,
            kin,
            holds: holds(word),
            rungs: Vec::new(),
        };
        let mut graph = Self { nodes: words.iter().zip(kin(words)).map(node).collect() };
        if moves.contains(&Move::Swap) {
            graph.join_by_swaps();
        }
        if moves.contains(&Move::Add) || moves.contains(&Move::TakeAway) {
            graph.join_by_one_more(moves);
        }
        for node in &mut graph.nodes {
            node.rungs.sort_unstable();
        }
        graph
    }

    /// The words in their order.
    pub fn nodes(&self) -> &[Node<'a>] {
        &self.nodes
    }

    /// A word by its number.
    pub fn word(&self, at: usize) -> &'a Word {
        self.nodes[at].word
    }

    /// Words that are the same but for the sound at one place.
    fn join_by_swaps(&mut self) {
        let mut alike: Vec<(Key, usize, usize)> = Vec::new();
        for (number, node) in self.nodes.iter().enumerate() {
            let key = Key::of(&node.word.sounds);
            alike.extend((0..node.word.sounds.len()).map(|at| (key.with_any_at(at), at, number)));
        }
        alike.sort_unstable();
        for group in alike.chunk_by(|one, other| one.0 == other.0) {
            for &(_, at, from) in group {
                for &(_, _, to) in group {
                    let (old, new) = (self.nodes[from].word.sounds[at], self.nodes[to].word.sounds[at]);
                    let alike_kind = old.is_vowel() == new.is_vowel();
                    if old != new && alike_kind && is_clear(old) && is_clear(new) && self.is_once(from, old) {
                        self.nodes[from].rungs.push((to, Change::Swap { at, old, new }));
                    }
                }
            }
        }
    }

    /// Words that are another word with one sound more.
    fn join_by_one_more(&mut self, moves: &[Move]) {
        let mut by_sound: Vec<(Key, usize)> =
            self.nodes.iter().enumerate().map(|(number, node)| (Key::of(&node.word.sounds), number)).collect();
        by_sound.sort_unstable();
        for long in 0..self.nodes.len() {
            let sounds = &self.nodes[long].word.sounds;
            let mut shorter = Vec::new();
            for at in 0..sounds.len() {
                // Of two like sounds side by side either may be the one that goes; it is told of the first.
                if at == 0 || sounds[at] != sounds[at - 1] {
                    let mut rest = sounds.clone();
                    shorter.push((at, rest.remove(at), Key::of(&rest)));
                }
            }
            for (at, sound, key) in shorter {
                let first = by_sound.partition_point(|(other, _)| *other < key);
                for &(_, short) in by_sound[first..].iter().take_while(|(other, _)| *other == key) {
                    if !is_clear(sound) {
                        continue;
                    }
                    if moves.contains(&Move::TakeAway) && self.is_once(long, sound) {
                        self.nodes[long].rungs.push((short, Change::TakeAway { at, old: sound }));
                    }
                    if moves.contains(&Move::Add) && self.is_placed(short, at) {
                        self.nodes[short].rungs.push((long, Change::Add { at, new: sound }));
                    }
                }
            }
        }
    }

    /// Whether a sound stands only once in a word, so that a clue needs no place for it.
    fn is_once(&self, node: usize, sound: Sound) -> bool {
        self.nodes[node].word.sounds.iter().filter(|&&other| other == sound).count() == 1
    }

    /// Whether a clue can say where a sound comes in: at an end, or after a sound that stands only once.
    fn is_placed(&self, node: usize, at: usize) -> bool {
        let sounds = &self.nodes[node].word.sounds;
        at == 0 || at == sounds.len() || (is_clear(sounds[at - 1]) && self.is_once(node, sounds[at - 1]))
    }
}

/// Whether a sound can be named by itself. The schwa can't: alone it is heard as a short *u*, and its code is the same.
fn is_clear(sound: Sound) -> bool {
    sound != Sound::Schwa
}

/// A word's sounds in one number, a byte for each.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Key(u64);

impl Key {
    fn of(sounds: &[Sound]) -> Self {
        Self(sounds.iter().rev().fold(0, |key, &sound| key << 8 | (sound as u64 + 1)))
    }

    /// The same with any sound at a place.
    fn with_any_at(self, at: usize) -> Self {
        Self(self.0 | 0xff << (8 * at))
    }
}
