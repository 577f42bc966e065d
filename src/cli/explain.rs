//! `explain`: how a word is said and spelled, and when it can be read.

use super::args::ExplainArgs;
use super::query;
use super::{Failure, Outcome};
use crate::bank::{Bank, Misfit, Word};
use crate::sequence::{Sequence, Verdict};
use crate::sounds::{Counting, Notation, spell_out};

pub(super) fn explain(args: &ExplainArgs) -> Result<Outcome, Failure> {
    let bank = args.words_of.bank(Counting::default())?;
    let sequence = query::sequence(args.sequence.as_deref())?;
    let notation = args.notation.map_or(Notation::Teacher, Into::into);
    let mut parts = Vec::new();
    let mut unknown = Vec::new();
    for spelling in &args.words {
        match query::word(&bank, spelling) {
            Ok(word) => parts.push(one(word, &bank, &sequence, notation)),
            Err(failure) => unknown.push(Outcome::from(failure)),
        }
    }
    let mut outcome = Outcome::printing(parts.join("\n"));
    for failure in unknown {
        outcome.err.push_str(&failure.err);
        outcome.code = failure.code;
    }
    Ok(outcome)
}

fn one(word: &Word, bank: &Bank, sequence: &Sequence, notation: Notation) -> String {
    let mut lines = vec![word.spelling.clone()];
    let mut line = |label: &str, text: String| lines.push(format!("  {label:<12}{text}"));
    line("sounds", format!("{}  ({})", spell_out(&word.sounds, notation), word.sounds.len()));
    line("letters", word.groups().join("-"));
    line("syllables", syllables(word, notation));
    let blends: Vec<_> = word.blends().map(|(blend, place)| format!("{blend} at the {}", place.name())).collect();
    line("blends", if blends.is_empty() { "none".to_owned() } else { blends.join(", ") });
    line("boxes", boxes(word));
    let rhymes: Vec<_> =
        bank.rhymes(word).filter(|other| !other.is_form()).take(8).map(|other| other.spelling.clone()).collect();
    line("rhymes", if rhymes.is_empty() { "none in the bank".to_owned() } else { rhymes.join(", ") });
    let same: Vec<_> = bank.homophones(word).map(|other| other.spelling.clone()).collect();
    if !same.is_empty() {
        line("sounds like", same.join(", "));
    }
    if let Some((base, ending)) = &word.flags.form {
        line("form of", format!("{base} + {ending}"));
    }
    if word.flags.heteronym {
        line("note", "has two everyday pronunciations; it is never printed to be read alone".to_owned());
    }
    for text in when(word, bank, sequence) {
        line("reading", text);
    }
    lines.join("\n") + "\n"
}

fn syllables(word: &Word, notation: Notation) -> String {
    let part = |s: &crate::sounds::Syllable| {
        word.sounds[s.onset.start..s.coda.end].iter().map(|sound| sound.symbol(notation)).collect::<String>()
    };
    let parts: Vec<String> = word.syllables.iter().map(part).collect();
    format!("{}  ({})", parts.join(" · "), parts.len())
}

fn boxes(word: &Word) -> String {
    match word.boxes() {
        Ok((boxes, misfit)) => {
            let row: Vec<_> = boxes.letters.iter().map(|letters| format!("[{letters}]")).collect();
            let note = match misfit {
                Some(Misfit::Silent) => "  (a silent letter stands in a box)",
                _ => "",
            };
            format!("{} {}{note}", row.join(""), boxes.after)
        }
        Err(Misfit::X) => "none: x is two sounds".to_owned(),
        Err(Misfit::Qu) => "none: qu is two sounds".to_owned(),
        Err(_) => "none: one letter group spells two sounds".to_owned(),
    }
}

/// At which step the word can be read, and what had to be taught for it.
fn when(word: &Word, bank: &Bank, sequence: &Sequence) -> Vec<String> {
    let mut lines = Vec::new();
    if let Some(step) = sequence.by_sight(&word.spelling) {
        lines.push(format!("by sight from step {} ({})", step.number, step.name));
    }
    // The step before the one at which it can be read still lacks what that one teaches.
    let lacking = if let Some(step) = sequence.earliest(word, bank) {
        lines.push(format!("can be decoded from step {} ({}: {})", step.number, step.name, step.title));
        step.number.checked_sub(1).and_then(|number| sequence.numbered(number))
    } else {
        lines.push("can't be decoded at any step".to_owned());
        sequence.steps().last()
    };
    if let Some(step) = lacking
        && let Verdict::NotYet(missing) = sequence.taught(step).check(word, bank)
    {
        lines.extend(missing.iter().map(|missing| format!("  because {missing}")));
    }
    lines
}
