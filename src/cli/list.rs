//! `list`: layouts, steps, blends.

use super::args::{ListArgs, Listed};
use super::query;
use super::table::table;
use super::{Failure, Outcome};
use crate::sounds::{BLENDS, Counting, Notation, Place, Side, spell_out};

pub(super) fn list(args: &ListArgs) -> Result<Outcome, Failure> {
    let rows = match args.what {
        Listed::Layouts => layouts(args)?,
        Listed::Steps => steps(args)?,
        Listed::Blends => blends(args)?,
    };
    Ok(Outcome::printing(table(&rows)))
}

fn head<const N: usize>(names: [&str; N]) -> Vec<Vec<String>> {
    vec![names.map(str::to_owned).to_vec()]
}

fn layouts(args: &ListArgs) -> Result<Vec<Vec<String>>, Failure> {
    let library = query::library(args.layouts.as_deref())?;
    let mut rows = head(["layout", "title", "practises", "standards"]);
    for stored in library.all() {
        let layout = &stored.layout;
        rows.push(vec![layout.name.clone(), layout.title.clone(), layout.skill.clone(), layout.standards.join(", ")]);
    }
    Ok(rows)
}

fn steps(args: &ListArgs) -> Result<Vec<Vec<String>>, Failure> {
    let bank = args.words_of.bank(Counting::default())?;
    let sequence = query::sequence(args.sequence.as_deref())?;
    let steps = sequence.steps_of(&bank);
    let mut rows = head(["step", "name", "words", "what it teaches"]);
    for step in sequence.steps() {
        let words = steps.iter().flatten().filter(|at| **at <= step.number).count();
        rows.push(vec![step.number.to_string(), step.name.clone(), words.to_string(), step.title.clone()]);
    }
    Ok(rows)
}

fn blends(args: &ListArgs) -> Result<Vec<Vec<String>>, Failure> {
    let bank = args.words_of.bank(Counting::default())?;
    let mut rows = head(["blend", "sounds", "beginning", "middle", "end", "also written"]);
    for blend in BLENDS.iter().filter(|blend| blend.taught) {
        let count = |place: Place| {
            let has = |word: &&crate::bank::Word| word.blends().any(|(b, p)| b == blend && p == place);
            let count = bank.words().iter().filter(|word| !word.is_form()).filter(has).count();
            let possible = place == Place::Middle || (place == Place::Beginning) == (blend.side == Side::Onset);
            if possible { count.to_string() } else { "-".to_owned() }
        };
        rows.push(vec![
            blend.to_string(),
            spell_out(blend.sounds, Notation::Teacher),
            count(Place::Beginning),
            count(Place::Middle),
            count(Place::End),
            blend.also.join(" "),
        ]);
    }
    Ok(rows)
}
