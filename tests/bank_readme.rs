//! The coverage table in `src/bank/README.md` is made from the bank. `BANK_README=write cargo test --test bank_readme` writes it
//! anew.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use sheafling::bank::Bank;
use sheafling::sequence::Sequence;
use sheafling::sounds::{BLENDS, Blend, Counting, Place, Side};

const BEGIN: &str = "<!-- coverage: made by tests/bank_readme.rs -->\n";
const END: &str = "<!-- end of coverage -->\n";

#[test]
#[allow(clippy::disallowed_methods, reason = "a switch of the test, not of the program")]
fn the_table_in_the_readme_is_current() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/bank/README.md");
    let readme = std::fs::read_to_string(&path).unwrap();
    let (before, rest) = readme.split_once(BEGIN).expect("the README has a mark where the table begins");
    let (_, after) = rest.split_once(END).expect("the README has a mark where the table ends");
    let current = format!("{before}{BEGIN}{}{END}{after}", coverage().unwrap());
    if std::env::var("BANK_README").as_deref() == Ok("write") {
        std::fs::write(&path, current).unwrap();
    } else {
        assert!(readme == current, "run `BANK_README=write cargo test --test bank_readme`, and commit what it writes");
    }
}

/// Words by syllables, by blend and place, and by step, as Markdown.
fn coverage() -> Result<String, Box<dyn std::error::Error>> {
    let bank = Bank::builtin(Counting::default())?;
    let sequence = Sequence::builtin()?;
    let mut text = String::new();
    syllables(&bank, &mut text);
    blends(&bank, &mut text);
    steps(&bank, &sequence, &mut text);
    Ok(text)
}

fn syllables(bank: &Bank, text: &mut String) {
    let mut rows: BTreeMap<usize, [usize; 4]> = BTreeMap::new();
    for word in bank.words() {
        let row = rows.entry(word.syllables.len()).or_default();
        let kind = if word.flags.compound.is_some() {
            1
        } else if word.is_form() {
            2
        } else {
            0
        };
        row[kind] += 1;
        row[3] += 1;
    }
    text.push_str(
        "\n### By syllables\n\n| syllables | base words | compounds | inflected forms | all |\n|--:|--:|--:|--:|--:|\n",
    );
    let mut sums = [0; 4];
    for (syllables, row) in &rows {
        let _ = writeln!(text, "| {syllables} | {} | {} | {} | {} |", row[0], row[1], row[2], row[3]);
        sums.iter_mut().zip(row).for_each(|(sum, count)| *sum += count);
    }
    let _ = writeln!(text, "| all | {} | {} | {} | {} |", sums[0], sums[1], sums[2], sums[3]);
}

fn blends(bank: &Bank, text: &mut String) {
    text.push_str("\n### By blend and place\n\nWords in which the blend is heard there; endings make no blend.\n");
    for (side, name) in [(Side::Onset, "initial"), (Side::Coda, "final")] {
        let _ = writeln!(text, "\n| {name} | beginning | middle | end |\n|---|--:|--:|--:|");
        for blend in BLENDS.iter().filter(|blend| blend.side == side) {
            let [beginning, middle, end] = Place::ALL.map(|place| heard(bank, blend, place));
            let rare = if blend.taught { "" } else { " (not among those commonly taught)" };
            let _ = writeln!(text, "| {blend}{rare} | {beginning} | {middle} | {end} |");
        }
    }
}

fn heard(bank: &Bank, blend: &Blend, place: Place) -> usize {
    let has = |word: &&sheafling::bank::Word| word.blends().any(|(found, at)| found == blend && at == place);
    bank.words().iter().filter(has).count()
}

fn steps(bank: &Bank, sequence: &Sequence, text: &mut String) {
    text.push_str("\n### By step of the built-in sequence\n\nWords that can first be sounded out at the step, and all up to it; words read by sight.\n\n");
    text.push_str("| step | name | new | so far | by sight |\n|--:|---|--:|--:|--:|\n");
    let first = sequence.steps_of(bank);
    let mut so_far = 0;
    for step in sequence.steps() {
        let new = first.iter().filter(|number| **number == Some(step.number)).count();
        so_far += new;
        let _ = writeln!(text, "| {} | {} | {new} | {so_far} | {} |", step.number, step.name, step.words.len());
    }
    let _ = writeln!(text, "| | never | {} | | |", first.iter().filter(|number| number.is_none()).count());
}
