//! What must hold of a sheet's content, worked out from the bank and the sequence beside the library's own solver.

use std::collections::BTreeSet;

use sheafling::bank::{Bank, Word};
use sheafling::fill::{self, Fill, Filled};
use sheafling::layout::Layout;
use sheafling::seed::{Seed, Stream};
use sheafling::sequence::Taught;
use sheafling::sheet::{Item, Kind, Sheet};
use sheafling::sounds::{Blend, Notation};

use super::support::materials;

/// What has been taught at a sheet's step.
pub fn taught(sheet: &Sheet) -> Taught<'static> {
    materials().sequence.taught_at(sheet.step.number.try_into().unwrap())
}

/// The blends that a sheet says it is about; those on the other side of the vowel where there is none on its own.
fn focus(sheet: &Sheet, fill: &Fill) -> Vec<&'static Blend> {
    let named = |name: &String| {
        let blends = Blend::named(name);
        blends.iter().find(|blend| blend.side == fill.side()).or(blends.first()).copied()
    };
    sheet.focus.iter().map(|name| named(name).unwrap()).collect()
}

/// Solves a sheet by the library's own solver, from its printed content alone.
pub fn solve(layout: &Layout, sheet: &Sheet) -> Result<(), fill::Wrong> {
    let bank = &materials().bank;
    let taught = taught(sheet);
    let decodable = |word: &Word| taught.is_decodable(word, bank);
    let filled = Filled {
        items: sheet.items.clone(),
        columns: sheet.columns.clone(),
        word_bank: sheet.word_bank.clone(),
        tiles: sheet.tiles.clone(),
        boards: sheet.boards.clone(),
        letter_grid: sheet.letter_grid.clone(),
        parts: sheet.parts.clone(),
    };
    let steps = taught.steps().iter().rev();
    let request = fill::Request {
        bank,
        decodable: &decodable,
        taught,
        step: String::new(),
        by_sight: steps.flat_map(|step| step.words.iter().map(|word| (word.clone(), step.number.into()))).collect(),
        focus: focus(sheet, &layout.fill),
        count: None,
        avoid: Vec::new(),
        stream: Stream::new(&Seed::new("unused").unwrap(), &[]),
        notation: Notation::Teacher,
    };
    fill::check(&layout.fill, &filled, &request)
}

/// The words of a sheet, in order; a row's and a phrase's one by one.
pub fn words(sheet: &Sheet) -> Vec<&str> {
    let parts = sheet.parts.iter().flat_map(|part| &part.items);
    let items = sheet.items.iter().chain(parts).flat_map(|item| item.word.split(' '));
    let columns = sheet.columns.iter().flat_map(|column| &column.words).map(String::as_str);
    let boards = sheet.boards.iter().flat_map(|board| board.rows.iter().flatten()).map(String::as_str);
    items.chain(sheet.word_bank.iter().map(String::as_str)).chain(columns).chain(boards).collect()
}

/// Whether the child only hears the words of a way of choosing and writes none of them.
const fn only_heard(fill: &Fill) -> bool {
    matches!(fill, Fill::Pick(_) | Fill::Places(_))
}

/// Words that the child reads or writes and cannot at the step.
pub fn beyond_the_step(layout: &Layout, sheet: &Sheet) -> Vec<String> {
    let taught = taught(sheet);
    let bank = &materials().bank;
    let by_sight: BTreeSet<&str> = taught.words().collect();
    // Where the sheet is about words by sight, or their answers may be such, they count; so they do within phrases.
    let sight_counts = |item: &Item| match &layout.fill {
        Fill::Review(_) | Fill::Change(_) | Fill::Riddles(_) => true,
        _ => item.kind == Kind::Phrase,
    };
    let mut beyond = Vec::new();
    for item in sheet.items.iter().filter(|_| !only_heard(&layout.fill)) {
        if item.kind == Kind::Silly {
            if bank.get(&item.word).is_some() {
                beyond.push(format!("{} is a word", item.word));
            }
            continue;
        }
        for word in item.word.split(' ') {
            let decodable = bank
                .get(word)
                .is_some_and(|word| taught.is_decodable(word, bank) && !word.flags.heteronym && !word.flags.irregular);
            if !(decodable || sight_counts(item) && by_sight.contains(word)) {
                beyond.push(word.to_owned());
            }
        }
    }
    let others = sheet.columns.iter().flat_map(|column| &column.words);
    let boards =
        sheet.boards.iter().flat_map(|board| board.rows.iter().flatten()).filter(|word| bank.get(word).is_some());
    for word in others.chain(boards) {
        if !bank.get(word).is_some_and(|word| taught.is_decodable(word, bank)) {
            beyond.push(word.clone());
        }
    }
    beyond
}

/// Items that are about the same word, or about two that sound alike.
pub fn twice(sheet: &Sheet) -> Vec<String> {
    let bank = &materials().bank;
    let mut seen: BTreeSet<String> = BTreeSet::new();
    let said = |item: &Item, spelling: &str| {
        bank.get(spelling)
            .filter(|_| item.kind != Kind::Sight)
            .map_or_else(|| spelling.to_owned(), |word| word.codes().join(" "))
    };
    let of = |item: &'_ Item| -> Vec<String> {
        let from = if item.kind == Kind::Rung { None } else { item.from.as_deref() };
        let row = item.kind == Kind::Row;
        let about: Vec<&str> = if row { item.word.split(' ').collect() } else { vec![item.word.as_str()] };
        about.into_iter().chain(from).map(|word| said(item, word)).collect()
    };
    sheet.items.iter().flat_map(of).filter(|one| !seen.insert(one.clone())).collect()
}

/// Items whose answers are not all the right ones: where a word is heard and written, every word that sounds the same.
pub fn wrongly_answered(layout: &Layout, sheet: &Sheet, bank: &Bank) -> Vec<String> {
    let of = |item: &&Item| {
        let mut answers: Vec<&str> = item.answer.iter().map(String::as_str).collect();
        answers.sort_unstable();
        answers.dedup();
        let heard = match &layout.fill {
            Fill::Words(words) => words.heard,
            Fill::Spoken(_) | Fill::Change(_) => true,
            _ => item.kind == Kind::Rung,
        };
        if !heard {
            // One answer, but for words that the key lists in the order of the page.
            return item.answer.len() != 1;
        }
        let first = bank.get(&item.answer[0]);
        let alike = first.map_or_else(Vec::new, |first| {
            bank.words().iter().filter(|word| word.sounds == first.sounds).map(|word| word.spelling.as_str()).collect()
        });
        answers != alike
    };
    sheet.items.iter().filter(of).map(|item| format!("{}: {:?}", item.word, item.answer)).collect()
}
