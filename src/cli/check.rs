//! `check`: which words of a text can be read at a step.

use std::fmt::Write as _;
use std::io::{self, BufRead, BufReader, Read};
use std::path::Path;

use super::args::{CheckArgs, CheckFormat};
use super::query;
use super::table::table;
use super::{Failure, Outcome};
use crate::sequence::At;
use crate::sequence::text::{Percent, Standing, TextChecker, TextReport, TextSummary, TextWord};
use crate::sounds::Counting;

pub(super) fn check(args: &CheckArgs) -> Result<Outcome, Failure> {
    let least = args.at_least.as_deref().map(threshold).transpose()?;
    let bank = args.words_of.bank(Counting::default())?;
    let sequence = query::sequence(args.sequence.as_deref())?;
    let step = sequence.step(&args.step).map_err(Failure::usage)?;
    let mut checker = TextChecker::new(&sequence, step, &bank);
    let keep_all = args.format == CheckFormat::Json;
    let mut words: Vec<TextWord> = Vec::new();
    let mut visit = |word: TextWord| {
        // A table shows the first place of each word that stands out; only JSON needs every word.
        let stands_out = matches!(word.standing, Standing::NotYet | Standing::Unknown);
        if keep_all || (stands_out && !words.iter().any(|known| known.entry.spelling == word.entry.spelling)) {
            words.push(word);
        }
    };
    let lines = |reader: &mut dyn BufRead| each_line(reader, |line| checker.line(line, &mut visit));
    let name = args.file.display().to_string();
    let read = if args.file == Path::new("-") {
        lines_of(io::stdin().lock(), lines)
    } else {
        std::fs::File::open(&args.file).map_err(Trouble::Io).and_then(|file| lines_of(file, lines))
    };
    read.map_err(|trouble| trouble.explain(&name))?;
    let summary = checker.summary();
    let enough = least.is_none_or(|least| summary.percent_readable.is_none_or(|share| share.tenths >= least));
    let text = match args.format {
        CheckFormat::Json => {
            serde_json::to_string_pretty(&TextReport { words, summary: summary.clone() }).map_err(Failure::usage)?
                + "\n"
        }
        CheckFormat::Table => as_table(&words, &summary),
    };
    let mut outcome = Outcome::printing(text);
    if !enough {
        let share = summary.percent_readable.map_or_else(String::new, |share| share.to_string());
        let _ = writeln!(outcome.err, "{share} % can be read, and --at-least asks for more");
        outcome.code = 1;
    }
    Ok(outcome)
}

/// A share such as `95`, `95%` or `97.5`, in tenths of a percent.
fn threshold(text: &str) -> Result<u32, Failure> {
    let wrong = || Failure::usage(format!("--at-least: `{text}` is no percentage\nhelp: write a number from 0 to 100"));
    let plain = text.trim().trim_end_matches('%').trim();
    let (whole, tenth) = plain.split_once('.').unwrap_or((plain, "0"));
    let whole: u32 = whole.parse().map_err(|_| wrong())?;
    let tenth: u32 = if tenth.len() == 1 { tenth.parse().map_err(|_| wrong())? } else { return Err(wrong()) };
    if whole > 100 || (whole == 100 && tenth > 0) { Err(wrong()) } else { Ok(whole * 10 + tenth) }
}

/// What can go wrong while a text is read.
enum Trouble {
    Io(io::Error),
    /// The line, from 1, that is not UTF-8.
    NotUtf8(usize),
}

impl Trouble {
    fn explain(self, name: &str) -> Failure {
        match self {
            Self::Io(error) => Failure::usage(format!(
                "{name} can't be read: {error}\nhelp: name a text file, or - for standard input"
            )),
            Self::NotUtf8(line) => {
                Failure::usage(format!("{name}:{line}: the text is not UTF-8\nhelp: save it as plain text in UTF-8"))
            }
        }
    }
}

fn lines_of(reader: impl Read, lines: impl FnOnce(&mut dyn BufRead) -> Result<(), Trouble>) -> Result<(), Trouble> {
    lines(&mut BufReader::new(reader))
}

/// Reads line by line, so that a long text needs no more memory than a short one.
fn each_line(reader: &mut dyn BufRead, mut line: impl FnMut(&str)) -> Result<(), Trouble> {
    let mut bytes = Vec::new();
    let mut number = 0;
    loop {
        bytes.clear();
        if reader.read_until(b'\n', &mut bytes).map_err(Trouble::Io)? == 0 {
            return Ok(());
        }
        number += 1;
        let text = std::str::from_utf8(&bytes).map_err(|_| Trouble::NotUtf8(number))?;
        let text = text.trim_end_matches(['\n', '\r']);
        line(if number == 1 { text.trim_start_matches('\u{feff}') } else { text });
    }
}

fn as_table(words: &[TextWord], summary: &TextSummary) -> String {
    let mut text = String::new();
    let share = |share: Option<Percent>| share.map_or("-".to_owned(), |share| format!("{share} %"));
    let at = |at: &Option<At>| at.as_ref().map_or("none".to_owned(), |at| format!("{} ({})", at.number, at.name));
    let count = |standing| summary.counts.get(&standing).copied().unwrap_or(0);
    let rows = [
        ("step", at(&summary.step)),
        ("words", summary.words.to_string()),
        ("decodable", format!("{}  ({})", count(Standing::Decodable), share(summary.percent_decodable))),
        ("by sight", count(Standing::BySight).to_string()),
        ("can be read", share(summary.percent_readable)),
        ("not yet", count(Standing::NotYet).to_string()),
        ("unknown", count(Standing::Unknown).to_string()),
        ("95 % from", format!("step {}", at(&summary.most))),
        ("100 % from", format!("step {}", at(&summary.all))),
    ];
    let rows: Vec<Vec<String>> = rows.into_iter().map(|(label, value)| vec![label.to_owned(), value]).collect();
    text.push_str(&table(&rows));
    if !summary.names.is_empty() {
        let names: Vec<_> = summary.names.iter().map(|name| name.spelling.as_str()).collect();
        let _ = writeln!(text, "\nnames, not counted: {}", names.join(", "));
    }
    if !summary.pre_teach.is_empty() {
        text.push_str("\nto teach first:\n");
        let mut rows = vec![["word", "times", "from step", "first at", "why"].map(str::to_owned).to_vec()];
        for word in &summary.pre_teach {
            let first = words.iter().find(|first| first.entry.spelling == word.spelling);
            let why =
                first.map(|first| first.entry.missing.iter().map(ToString::to_string).collect::<Vec<_>>().join("; "));
            rows.push(vec![
                word.spelling.clone(),
                word.count.to_string(),
                word.from.map_or("-".to_owned(), |from| from.to_string()),
                first.map_or(String::new(), |first| format!("{}:{}", first.line, first.column)),
                why.filter(|why| !why.is_empty()).unwrap_or_else(|| "not in the word bank".to_owned()),
            ]);
        }
        text.push_str(&table(&rows));
    }
    text
}
