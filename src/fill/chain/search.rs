//! Finding a ladder: tries at random first, then all ways in turn, both with a bound on the steps.

use super::graph::Graph;
use crate::seed::Stream;
use crate::sounds::Change;

/// How many starting words are tried for a ladder that changes every part of the word.
const TRIES: usize = 48;
/// How many further tries a ladder that changes fewer parts is compared with.
const BETTER_TRIES: usize = 24;
/// How many words a try may set foot on.
const STEPS_A_TRY: usize = 1_500;
/// How many words the search of all ways may set foot on, and from one starting word.
const STEPS_FOR_ALL: usize = 300_000;
const STEPS_A_START: usize = 30_000;

/// What a ladder has to be.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rules {
    /// How many rungs.
    pub rungs: usize,
    /// How many words have to hold a focus blend; when any has to, the first does.
    pub holding: usize,
}

/// A ladder, by the numbers of its words.
#[derive(Clone, Debug)]
pub(super) struct Ladder {
    /// The first word.
    pub start: usize,
    /// Each further word, with the change that leads to it.
    pub rungs: Vec<(usize, Change)>,
}

/// What was found.
pub(super) struct Found {
    /// A ladder, if there is one.
    pub ladder: Option<Ladder>,
    /// The most rungs that were climbed under the rules.
    pub longest: usize,
}

/// Searches for a ladder. What it finds depends on the graph, the rules and the stream alone.
pub(super) fn ladder(graph: &Graph, rules: Rules, stream: &mut Stream) -> Found {
    let mut climb =
        Climb { graph, rules, path: Vec::new(), used: vec![false; graph.nodes().len()], steps: 0, longest: 0 };
    let mut weights: Vec<u32> =
        graph.nodes().iter().map(|node| if rules.starts(node) { node.weight } else { 0 }).collect();
    let mut best: Option<(u32, Ladder)> = None;
    let mut tries = TRIES;
    while tries > 0 {
        tries -= 1;
        let Some(start) = stream.weighted(&weights) else { break };
        let Some(ladder) = climb.from(start, STEPS_A_TRY, stream) else { continue };
        let parts = parts_changed(graph, &ladder).count_ones();
        if best.is_none() {
            tries = tries.min(BETTER_TRIES);
        }
        if best.as_ref().is_none_or(|(most, _)| parts > *most) {
            best = Some((parts, ladder));
        }
        if parts == 3 {
            break;
        }
    }
    let mut ladder = best.map(|(_, ladder)| ladder);
    let mut left = STEPS_FOR_ALL;
    while ladder.is_none() && left > 0 {
        let Some(start) = stream.weighted(&weights) else { break };
        weights[start] = 0;
        let allowed = STEPS_A_START.min(left);
        ladder = climb.from(start, allowed, stream);
        left -= allowed - climb.steps;
    }
    Found { ladder, longest: climb.longest }
}

impl Rules {
    /// Whether a word can come first.
    pub fn starts(self, node: &super::graph::Node) -> bool {
        !node.rungs.is_empty() && (self.holding == 0 || node.holds)
    }
}

/// A climb in progress.
struct Climb<'g, 'a> {
    graph: &'g Graph<'a>,
    rules: Rules,
    path: Vec<(usize, Change)>,
    /// By the number of the kin.
    used: Vec<bool>,
    /// How many more words may be set foot on.
    steps: usize,
    longest: usize,
}

impl Climb<'_, '_> {
    /// A ladder from a word, if one is found within some steps.
    fn from(&mut self, start: usize, steps: usize, stream: &mut Stream) -> Option<Ladder> {
        self.steps = steps;
        self.path.clear();
        self.used.fill(false);
        self.on(start, 0, 0, stream).then(|| Ladder { start, rungs: self.path.clone() })
    }

    /// Goes on from a word, with so many words before it that hold a focus blend, and the parts that have changed so far.
    fn on(&mut self, at: usize, holding: usize, parts: u8, stream: &mut Stream) -> bool {
        let graph = self.graph;
        let node = &graph.nodes()[at];
        let holding = holding + usize::from(node.holds);
        let left = self.rules.rungs - self.path.len();
        if holding + left < self.rules.holding || self.steps == 0 {
            return false;
        }
        self.longest = self.longest.max(self.path.len());
        if left == 0 {
            return true;
        }
        self.steps -= 1;
        self.used[node.kin] = true;
        let sounds = graph.word(at).sounds.len();
        let mut weights: Vec<u32> = node.rungs.iter().map(|&rung| self.weight(rung, sounds, parts)).collect();
        while let Some(next) = stream.weighted(&weights) {
            weights[next] = 0;
            let (to, change) = node.rungs[next];
            self.path.push((to, change));
            if self.on(to, holding, parts | part(change, sounds), stream) {
                return true;
            }
            self.path.pop();
        }
        self.used[node.kin] = false;
        false
    }

    /// How likely a rung is to be tried first: a part of the word that has not changed yet counts four times, a place other
    /// than the last one twice. 0 when it may not follow.
    fn weight(&self, (to, change): (usize, Change), sounds: usize, parts: u8) -> u32 {
        let node = &self.graph.nodes()[to];
        let same_place = self.path.iter().rev().take_while(|(_, before)| before.at() == change.at()).count();
        if self.used[node.kin] || same_place >= 2 {
            return 0;
        }
        let fresh = if parts & part(change, sounds) == 0 { 4 } else { 1 };
        let elsewhere = if same_place == 0 { 2 } else { 1 };
        node.weight * fresh * elsewhere
    }
}

/// Which part of a word of so many sounds changes, as a bit: the first sound, one in the middle, or the last.
fn part(change: Change, sounds: usize) -> u8 {
    let last = match change {
        Change::Add { .. } => sounds,
        Change::Swap { .. } | Change::TakeAway { .. } => sounds - 1,
    };
    match change.at() {
        0 => 1,
        at if at == last => 4,
        _ => 2,
    }
}

fn parts_changed(graph: &Graph, ladder: &Ladder) -> u8 {
    let mut parts = 0;
    let mut at = ladder.start;
    for &(to, change) in &ladder.rungs {
        parts |= part(change, graph.word(at).sounds.len());
        at = to;
    }
    parts
}
