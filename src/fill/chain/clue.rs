//! The clue of a rung, from a template with names in braces.

use super::{Chain, Problem};
use crate::nearest::nearest;
use crate::sounds::{Change, Notation, Sound};

/// What is wrong with a template that has to name each of `names`, and nothing else, in braces.
pub(super) fn problems(key: &'static str, template: &str, names: &[&str]) -> Vec<Problem> {
    let mut problems = Vec::new();
    let used = named_in(template);
    for name in &used {
        if !names.contains(name) {
            let known = names.iter().map(|name| format!("{{{name}}}")).collect::<Vec<_>>().join(" and ");
            let hint = match nearest(name, names.iter().copied()) {
                Some(near) => format!("did you mean {{{near}}}?"),
                None => format!("it is made of {known}"),
            };
            problems.push(Problem::new(key, format!("there is no {{{name}}} in this clue: {hint}")));
        }
    }
    for name in names {
        match used.iter().filter(|used| *used == name).count() {
            0 => problems.push(Problem::new(key, format!("the clue has to say {{{name}}}, or it has no one answer"))),
            1 => {}
            _ => problems.push(Problem::new(key, format!("the clue says {{{name}}} more than once"))),
        }
    }
    if template.contains('/') {
        problems.push(Problem::new(key, "the clue can't have a `/` of its own: slashes stand around sounds"));
    }
    if template.contains("}{") {
        problems.push(Problem::new(key, "two names need something between them, a space at least"));
    }
    problems
}

fn named_in(template: &str) -> Vec<&str> {
    template.split('{').skip(1).filter_map(|rest| rest.split_once('}')).map(|(name, _)| name).collect()
}

/// The clue that leads from a word of these sounds over the change.
pub(super) fn written(spec: &Chain, change: Change, before: &[Sound], notation: Notation) -> String {
    let symbol = |sound: Sound| format!("/{}/", sound.symbol(notation));
    match change {
        Change::Swap { old, new, .. } => spec.clue.replace("{old}", &symbol(old)).replace("{new}", &symbol(new)),
        Change::TakeAway { old, .. } => spec.take_away_clue.replace("{old}", &symbol(old)),
        Change::Add { at, new } => {
            let place = match at.checked_sub(1).and_then(|last| before.get(last)) {
                None => "at the start".to_owned(),
                Some(_) if at == before.len() => "at the end".to_owned(),
                Some(&last) => format!("after {}", symbol(last)),
            };
            spec.add_clue.replace("{new}", &symbol(new)).replace("{place}", &place)
        }
    }
}
