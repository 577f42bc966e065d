//! What to loosen when there is no ladder: each way is tried before it is told.

use super::{Chain, ChainFocus, Graph, Move, Span};
use crate::fill::{NoLadder, Request, focus};
use crate::sounds::Blend;

/// Says how far the words go, and which single changes to the request give a ladder.
pub(super) fn no_ladder(
    spec: &Chain,
    request: &Request,
    graph: &Graph,
    blends: &[&'static Blend],
    longest: usize,
) -> NoLadder {
    let rules = spec.rules(blends);
    let starts = graph.nodes().iter().filter(|node| rules.starts(node)).count();
    NoLadder {
        rungs: spec.rungs,
        step: request.step.clone(),
        readable: graph.nodes().len(),
        neighbours: graph.nodes().iter().filter(|node| !node.rungs.is_empty()).count(),
        starts: (rules.holding > 0).then(|| (focus::names(blends, "or"), starts)),
        longest,
        loosen: loosenings(spec, request, blends, longest),
    }
}

fn loosenings(spec: &Chain, request: &Request, blends: &[&'static Blend], longest: usize) -> Vec<String> {
    let all = |_: &crate::bank::Word| true;
    let later = Request {
        decodable: &all,
        focus: Vec::new(),
        count: None,
        by_sight: Vec::new(),
        stream: request.stream.fork("later step"),
        ..request.clone()
    };
    let mut loosen = Vec::new();
    let mut offer = |told: String, spec: &Chain, request: &Request, blends: &[&'static Blend]| {
        let words = spec.filter(request).apply(request.bank.words());
        if spec.find(&spec.graph(&words, blends), blends, request).ladder.is_some() {
            loosen.push(told);
            return true;
        }
        false
    };
    offer("choose a later step".to_owned(), spec, &later, blends);
    if !blends.is_empty() {
        let start = Chain { focus: ChainFocus::Start, ..spec.clone() };
        let told = "ask for the focus in the first word only (`focus: start`)".to_owned();
        if spec.focus == ChainFocus::Start || !offer(told, &start, request, blends) {
            offer("make a ladder without the focus (`focus: none`)".to_owned(), spec, request, &[]);
        }
    }
    let any_move = Chain { moves: vec![Move::Swap, Move::Add, Move::TakeAway], ..spec.clone() };
    if !spec.boxes && any_move.moves.iter().any(|one| !spec.moves.contains(one)) {
        offer("allow all `moves`: swap, add and take-away".to_owned(), &any_move, request, blends);
    }
    let min = spec.sounds.min.saturating_sub(1).max(Chain::SOUNDS.min);
    let wider = Span::new(min, (spec.sounds.max + 1).min(Chain::SOUNDS.max));
    if wider != spec.sounds {
        let told = format!("let words have {wider} sounds (`sounds: [{}, {}]`)", wider.min, wider.max);
        offer(told, &Chain { sounds: wider, ..spec.clone() }, request, blends);
    }
    // A ladder cut short may hold the focus in fewer than half of its words, so a shorter one is tried like all else.
    for rungs in (4..=longest.min(spec.rungs - 1)).rev() {
        if offer(format!("ask for {rungs} rungs (--count {rungs})"), &Chain { rungs, ..spec.clone() }, request, blends)
        {
            break;
        }
    }
    loosen
}
