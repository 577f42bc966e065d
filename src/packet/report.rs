//! The match report: what each set of a run is made up of, how common its words are, and what sets have in common.
//!
//! It counts what was made, from its records, and knows nothing of how it was dealt.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

use serde::Serialize;

use super::class::Member;
use super::manifest::{MadeRecord, MadeSheet};
use crate::bank::{Bank, Word};
use crate::fill::commonness;
use crate::sequence::Shape;
use crate::sounds::{Blend, Place};

/// How far the mean commonness of a set may be from that of all sets: a third up or a quarter down. A wider gap is told.
pub const TOLERANCE: (f64, f64) = (0.75, 4.0 / 3.0);

/// The most sets of which every pair is compared; of larger cohorts the figures are of all pairs on the average.
const MOST_PAIRED: usize = 400;

/// The report of a run.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct MatchReport {
    /// The cohorts, by their names.
    pub cohorts: Vec<Cohort>,
}

/// Children at one step with one focus, or lettered sets.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cohort {
    /// Its step and focus.
    pub cohort: String,
    /// Whose packets these are, in the order of the class.
    pub members: Vec<String>,
    /// Its sheets that children read, in the order of the packet.
    pub sheets: Vec<SheetReport>,
}

/// One sheet over all sets of a cohort.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SheetReport {
    /// The layout.
    pub layout: String,
    /// The heading.
    pub title: String,
    /// How many words each set has, by kind, where all sets agree; else of the first set.
    pub make_up: BTreeMap<String, usize>,
    /// Whose sets are made up otherwise than the first.
    pub unlike: Vec<String>,
    /// The mean commonness of each set, from 2 (rare) to 32 (common), in the order of the members.
    pub commonness: Vec<f64>,
    /// Whose sets are rarer or commoner than the tolerance allows.
    pub out_of_tolerance: Vec<String>,
    /// How many words two sets share on the average.
    pub shared_on_average: f64,
    /// The most that two sets share, and whose; none when there are too many pairs.
    pub most_shared: Option<(usize, String, String)>,
    /// The most that two who stand next to each other share.
    pub most_shared_by_neighbours: usize,
    /// How many words each set shares with each other, in the order of the members; empty when there are too many.
    pub shared: Vec<Vec<usize>>,
    /// Kinds of which there are fewer words in use than would make all sets different.
    pub short: Vec<Short>,
}

/// A kind of which not every set has words of its own.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Short {
    /// The kind.
    pub kind: String,
    /// How many places all sets have for it together.
    pub places: usize,
    /// How many different words stand in them.
    pub words: usize,
}

impl MatchReport {
    /// The report of some packets with their records. Packets without a record are passed over.
    #[must_use]
    pub fn of<'a>(packets: impl IntoIterator<Item = (&'a Member, MadeRecord)>, bank: &Bank) -> Self {
        let mut cohorts: BTreeMap<String, Vec<(String, MadeRecord)>> = BTreeMap::new();
        for (member, record) in packets {
            cohorts.entry(member.cohort.clone()).or_default().push((member.label(), record));
        }
        let cohorts = cohorts.into_iter().map(|(cohort, packets)| {
            let sheets = packets.iter().map(|(_, record)| record.sheets.len()).min().unwrap_or_default();
            let members: Vec<String> = packets.iter().map(|(label, _)| label.clone()).collect();
            let of_sheet = |at: usize| {
                let sheets: Vec<&MadeSheet> = packets.iter().map(|(_, record)| &record.sheets[at]).collect();
                sheet_report(&members, &sheets, bank)
            };
            let for_child = |at: &usize| packets.iter().any(|(_, record)| record.sheets[*at].for_child);
            Cohort { cohort, sheets: (0..sheets).filter(for_child).map(of_sheet).collect(), members }
        });
        Self { cohorts: cohorts.collect() }
    }

    /// The report for reading.
    #[must_use]
    pub fn to_text(&self) -> String {
        let mut text = String::new();
        for cohort in &self.cohorts {
            let sets =
                if cohort.members.len() == 1 { "1 set".to_owned() } else { format!("{} sets", cohort.members.len()) };
            let _ = writeln!(text, "{}: {sets}", cohort.cohort);
            for sheet in &cohort.sheets {
                sheet.write(&cohort.members, &mut text);
            }
            text.push('\n');
        }
        text
    }

    /// The report in a line for each cohort.
    #[must_use]
    pub fn summary(&self) -> String {
        let line = |cohort: &Cohort| {
            let most = cohort.sheets.iter().filter_map(|sheet| sheet.most_shared.as_ref()).max_by_key(|most| most.0);
            let shared = match most {
                Some((0, ..)) => "no two share a word of a sheet".to_owned(),
                Some((most, one, other)) => format!("at most {most} words of a sheet are shared ({one} and {other})"),
                None => "too many to compare all pairs".to_owned(),
            };
            let unlike = cohort.sheets.iter().filter(|sheet| !sheet.unlike.is_empty()).count();
            let alike = match unlike {
                0 => "alike in kind on every sheet".to_owned(),
                n => format!("not alike in kind on {n} of {} sheets", cohort.sheets.len()),
            };
            format!("{}: {} sets, {alike}; {shared}\n", cohort.cohort, cohort.members.len())
        };
        self.cohorts.iter().filter(|cohort| cohort.members.len() > 1).map(line).collect()
    }
}

impl SheetReport {
    fn write(&self, members: &[String], text: &mut String) {
        let _ = writeln!(text, "  {} ({})", self.title, self.layout);
        for (kind, count) in &self.make_up {
            let _ = writeln!(text, "    {count:>2} × {kind}");
        }
        if !self.unlike.is_empty() {
            let _ = writeln!(text, "    made up otherwise: {}", self.unlike.join(", "));
        }
        let (least, most) = self.commonness.iter().fold((f64::MAX, 0.0_f64), |(a, b), &of| (a.min(of), b.max(of)));
        if !self.commonness.is_empty() {
            let _ =
                writeln!(text, "    commonness (2 rare to 32 common): {least:.1} to {most:.1} on the average of a set");
        }
        if !self.out_of_tolerance.is_empty() {
            let _ = writeln!(
                text,
                "    rarer by a quarter or commoner by a third than all sets: {}",
                self.out_of_tolerance.join(", ")
            );
        }
        match &self.most_shared {
            Some((0, ..)) => text.push_str("    shared words: none\n"),
            Some((most, one, other)) => {
                let _ = writeln!(
                    text,
                    "    shared words: {:.1} on the average, at most {most} ({one} and {other}), next to each other at most {}",
                    self.shared_on_average, self.most_shared_by_neighbours
                );
            }
            None if members.len() > 1 => {
                let _ = writeln!(text, "    shared words: {:.1} on the average", self.shared_on_average);
            }
            None => {}
        }
        for short in &self.short {
            let _ = writeln!(
                text,
                "    words that come again: {} different ones in {} places of {}",
                short.words, short.places, short.kind
            );
        }
    }
}

fn sheet_report(members: &[String], sheets: &[&MadeSheet], bank: &Bank) -> SheetReport {
    let make_ups: Vec<BTreeMap<String, usize>> = sheets.iter().map(|sheet| make_up(sheet, bank)).collect();
    let first = make_ups.first().cloned().unwrap_or_default();
    let label = |at: usize| members[at].clone();
    let unlike = (0..sheets.len()).filter(|&at| make_ups[at] != first).map(label).collect();
    let commonness: Vec<f64> = sheets.iter().map(|sheet| mean_commonness(sheet, bank)).collect();
    let mean = commonness.iter().sum::<f64>() / count(commonness.len());
    let within = |of: f64| mean == 0.0 || (TOLERANCE.0..=TOLERANCE.1).contains(&(of / mean));
    let out_of_tolerance = (0..sheets.len()).filter(|&at| !within(commonness[at])).map(label).collect();

    let words: Vec<BTreeSet<&str>> =
        sheets.iter().map(|sheet| sheet.words.iter().map(|(word, _)| word.as_str()).collect()).collect();
    let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
    for word in words.iter().flatten() {
        *uses.entry(word).or_default() += 1;
    }
    let pairs = sheets.len() * sheets.len().saturating_sub(1) / 2;
    let shared_in_all: usize = uses.values().map(|uses| uses * (uses - 1) / 2).sum();
    let shared: Vec<Vec<usize>> = if (2..=MOST_PAIRED).contains(&sheets.len()) {
        words.iter().map(|one| words.iter().map(|other| one.intersection(other).count()).collect()).collect()
    } else {
        Vec::new()
    };
    let mut most_shared: Option<(usize, usize, usize)> = None;
    for (one, row) in shared.iter().enumerate() {
        for (other, &n) in row.iter().enumerate().skip(one + 1) {
            if most_shared.is_none_or(|(most, ..)| n > most) {
                most_shared = Some((n, one, other));
            }
        }
    }
    let most_shared_by_neighbours =
        words.windows(2).map(|pair| pair[0].intersection(&pair[1]).count()).max().unwrap_or_default();
    SheetReport {
        layout: sheets.first().map(|sheet| sheet.layout.clone()).unwrap_or_default(),
        title: sheets.first().map(|sheet| sheet.title.clone()).unwrap_or_default(),
        make_up: first,
        unlike,
        commonness,
        out_of_tolerance,
        shared_on_average: if pairs == 0 { 0.0 } else { count(shared_in_all) / count(pairs) },
        most_shared: most_shared.map(|(most, one, other)| (most, label(one), label(other))),
        most_shared_by_neighbours,
        shared,
        short: short(sheets, bank),
    }
}

/// The kinds whose words stand in more sets than one.
fn short(sheets: &[&MadeSheet], bank: &Bank) -> Vec<Short> {
    let mut places: BTreeMap<String, (usize, BTreeSet<&str>)> = BTreeMap::new();
    for (word, blend) in sheets.iter().flat_map(|sheet| &sheet.words) {
        let (count, words) = places.entry(kind(word, blend, bank)).or_default();
        *count += 1;
        words.insert(word);
    }
    let short = |(kind, (places, words)): (String, (usize, BTreeSet<&str>))| {
        (words.len() < places).then_some(Short { kind, places, words: words.len() })
    };
    if sheets.len() > 1 { places.into_iter().filter_map(short).collect() } else { Vec::new() }
}

fn make_up(sheet: &MadeSheet, bank: &Bank) -> BTreeMap<String, usize> {
    let mut counts = BTreeMap::new();
    for (word, blend) in &sheet.words {
        *counts.entry(kind(word, blend, bank)).or_default() += 1;
    }
    counts
}

/// The kind of a word in words: blend and place, sounds, shape.
fn kind(spelling: &str, blend: &str, bank: &Bank) -> String {
    let Some(word) = bank.get(spelling) else { return "by sight".to_owned() };
    let mut kind = String::new();
    if !blend.is_empty() {
        let place = place(word, blend).map_or_else(String::new, |place| format!(" at the {}", place.name()));
        kind = format!("{blend}{place}, ");
    }
    let compound = if word.flags.compound.is_some() { ", compound" } else { "" };
    format!("{kind}{} sounds, {}{compound}", word.sounds.len(), Shape::of_syllables(word).described())
}

fn place(word: &Word, blend: &str) -> Option<Place> {
    Blend::named(blend).into_iter().find_map(|blend| word.places_of(blend).next())
}

fn mean_commonness(sheet: &MadeSheet, bank: &Bank) -> f64 {
    let known: Vec<u32> = sheet.words.iter().filter_map(|(word, _)| bank.get(word)).map(commonness).collect();
    if known.is_empty() { 0.0 } else { f64::from(known.iter().sum::<u32>()) / count(known.len()) }
}

/// A count as a number to divide by; counts here are far below 2^32.
fn count(n: usize) -> f64 {
    f64::from(u32::try_from(n).unwrap_or(u32::MAX))
}
