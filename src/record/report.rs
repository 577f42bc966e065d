//! What a record says of each child: tries, accuracy, trend, and what is in trouble.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serialize;

use super::Day;
use super::part::{Part, parts};
use super::row::Row;
use crate::bank::Bank;
use crate::sequence::Sequence;

/// What stands on every report.
pub const CAUTION: &str = "A record of practice is not a test, and not a test of reading disability. If a child makes little \
    progress over some weeks, a licensed specialist should look; follow your school's own rules on assessment. These pages hold \
    a child's name: follow your school's privacy rules before they are shared.";

/// How many tries are compared for the trend: the last ten with the ten before.
pub const SPAN: usize = 10;

/// By how many of ten the number right must differ to be called a trend.
const APART: usize = 2;

/// How many of the last tries with a part are looked at.
pub const LOOKED_AT: usize = 10;

/// With fewer tries nothing is said of a part.
pub const FEWEST: usize = 4;

/// A part is in trouble when two of five tries or more were missed.
const MISSED: (usize, usize) = (2, 5);

/// In fewer words than this, the trouble may be with the word and not with the part.
const WORDS: usize = 2;

/// The rules of a report in words.
pub const RULES: &str = "Trend: the last 10 tries of a skill against the 10 before; up or down from 2 more or fewer right. In \
    trouble: of the last 10 tries with it (4 at least) 2 in 5 or more were missed, and in 2 words or more. The letters of a blend \
    count with the blend, and words with a blend in trouble do not count for their other letter groups.";

/// Where a skill is going.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Trend {
    /// At least two more of the last ten tries were right than of the ten before.
    Up,
    /// Neither.
    Steady,
    /// At least two fewer.
    Down,
}

impl Trend {
    /// The word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Up => "up",
            Self::Steady => "steady",
            Self::Down => "down",
        }
    }

    /// The trend of tries in their order; `None` with fewer than twenty.
    #[must_use]
    pub fn of(tries: &[bool]) -> Option<Self> {
        let (earlier, last) = tries.split_at_checked(tries.len().checked_sub(SPAN)?)?;
        let before = earlier.get(earlier.len().checked_sub(SPAN)?..)?;
        let right = |tries: &[bool]| tries.iter().filter(|right| **right).count();
        let (before, last) = (right(before), right(last));
        Some(if last >= before + APART {
            Self::Up
        } else if before >= last + APART {
            Self::Down
        } else {
            Self::Steady
        })
    }
}

/// Tries and how many were right.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Sum {
    /// All.
    pub tries: usize,
    /// The right ones.
    pub right: usize,
}

impl Sum {
    fn of<'a>(rows: impl IntoIterator<Item = &'a Row>) -> Self {
        rows.into_iter()
            .fold(Self::default(), |sum, row| Self { tries: sum.tries + 1, right: sum.right + usize::from(row.right) })
    }

    /// The right ones in per cent, rounded half up; 0 when there are no tries.
    #[must_use]
    pub const fn percent(self) -> usize {
        if self.tries == 0 { 0 } else { (self.right * 200 + self.tries) / (self.tries * 2) }
    }
}

/// One skill of a child.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct SkillReport {
    /// The layout's name.
    pub skill: String,
    /// Its tries.
    #[serde(flatten)]
    pub sum: Sum,
    /// The right ones in per cent.
    pub accuracy: usize,
    /// Where it goes; none with fewer than twenty tries.
    pub trend: Option<Trend>,
}

/// One day of a child.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct DayReport {
    /// The day.
    pub date: Day,
    /// Its tries.
    #[serde(flatten)]
    pub sum: Sum,
}

/// A blend or letter group in trouble.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Trouble {
    /// It.
    #[serde(serialize_with = "as_text")]
    pub part: Part,
    /// How many of its last tries were looked at.
    pub tries: usize,
    /// How many of them were missed.
    pub missed: usize,
    /// The items that were missed, each once, the last missed first.
    pub items: Vec<String>,
}

fn as_text<S: serde::Serializer>(part: &Part, to: S) -> Result<S::Ok, S::Error> {
    to.collect_str(part)
}

/// What the record says of one child.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ChildReport {
    /// The name as it was first recorded.
    pub child: String,
    /// All tries.
    #[serde(flatten)]
    pub sum: Sum,
    /// By skill, in the order of their names.
    pub skills: Vec<SkillReport>,
    /// By day, in order; at least one.
    pub days: Vec<DayReport>,
    /// Blends in trouble, the most missed first.
    pub blends: Vec<Trouble>,
    /// Letter groups in trouble, the most missed first.
    pub letter_groups: Vec<Trouble>,
}

/// What a record says.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Report {
    /// The first day that counts, when not all do.
    pub since: Option<Day>,
    /// The children, in the order of their names.
    pub children: Vec<ChildReport>,
    /// The rules by which trend and trouble are told.
    pub rules: &'static str,
    /// What the reader should keep in mind.
    pub caution: &'static str,
}

/// The rows of one child, in the order of their days and, within a day, as they were added.
#[must_use]
pub fn rows_of<'a>(rows: &'a [Row], child: &str, since: Option<Day>) -> Vec<&'a Row> {
    let mut own: Vec<&Row> =
        rows.iter().filter(|row| row.child == child && since.is_none_or(|since| row.date >= since)).collect();
    own.sort_by_key(|row| row.date);
    own
}

/// The children of a record, in the order of their names.
#[must_use]
pub fn children(rows: &[Row]) -> Vec<&str> {
    let mut names: Vec<&str> = rows.iter().map(|row| row.child.as_str()).collect();
    names.sort_by_cached_key(|name| (name.to_lowercase(), *name));
    names.dedup();
    names
}

/// What a record says of some children, by the tries since a day. A child without a try since then is left out.
#[must_use]
pub fn report(rows: &[Row], wanted: &[&str], since: Option<Day>, bank: &Bank, sequence: &Sequence) -> Report {
    let of = |child: &&str| {
        let own = rows_of(rows, child, since);
        (!own.is_empty()).then(|| of_child(child, &own, bank, sequence))
    };
    let children = wanted.iter().filter_map(of).collect();
    Report { since, children, rules: RULES, caution: CAUTION }
}

fn of_child(child: &str, rows: &[&Row], bank: &Bank, sequence: &Sequence) -> ChildReport {
    let mut skills: BTreeMap<&str, Vec<&Row>> = BTreeMap::new();
    let mut days: BTreeMap<Day, Vec<&Row>> = BTreeMap::new();
    for row in rows {
        skills.entry(&row.skill).or_default().push(row);
        days.entry(row.date).or_default().push(row);
    }
    let skill = |(skill, rows): (&str, Vec<&Row>)| {
        let sum = Sum::of(rows.iter().copied());
        let tries: Vec<bool> = rows.iter().map(|row| row.right).collect();
        SkillReport { skill: skill.to_owned(), sum, accuracy: sum.percent(), trend: Trend::of(&tries) }
    };
    let (blends, letter_groups) =
        troubles(rows, bank, sequence).into_iter().partition(|trouble| matches!(trouble.part, Part::Blend(_)));
    ChildReport {
        child: child.to_owned(),
        sum: Sum::of(rows.iter().copied()),
        skills: skills.into_iter().map(skill).collect(),
        days: days.into_iter().map(|(date, rows)| DayReport { date, sum: Sum::of(rows) }).collect(),
        blends,
        letter_groups,
    }
}

/// The parts that are in trouble by rows in the order of their days: the most missed first, then those of more tries. A word that has a
/// blend in trouble says nothing of its letter groups: what was missed was likely the blend.
#[must_use]
pub fn troubles(rows: &[&Row], bank: &Bank, sequence: &Sequence) -> Vec<Trouble> {
    let mut known: BTreeMap<&str, BTreeSet<Part>> = BTreeMap::new();
    for row in rows {
        known.entry(&row.item).or_insert_with(|| parts(&row.item, bank, sequence));
    }
    let parts_of = |row: &Row| known.get(row.item.as_str()).into_iter().flatten();
    let blends: Vec<(&Part, &Row)> = rows
        .iter()
        .flat_map(|row| parts_of(row).map(|part| (part, *row)))
        .filter(|(part, _)| matches!(part, Part::Blend(_)))
        .collect();
    let mut found = most_missed(&blends, bank);
    let letters: Vec<(&Part, &Row)> = rows
        .iter()
        .filter(|row| !parts_of(row).any(|part| found.iter().any(|trouble| trouble.part == *part)))
        .flat_map(|row| parts_of(row).map(|part| (part, *row)))
        .filter(|(part, _)| matches!(part, Part::Letters(_)))
        .collect();
    found.extend(most_missed(&letters, bank));
    found
}

/// Of parts with their tries, in the order of days, those in trouble.
fn most_missed(all: &[(&Part, &Row)], bank: &Bank) -> Vec<Trouble> {
    let mut tries: BTreeMap<&Part, Vec<&Row>> = BTreeMap::new();
    // The last first.
    for (part, row) in all.iter().rev() {
        let of_part = tries.entry(part).or_default();
        if of_part.len() < LOOKED_AT {
            of_part.push(row);
        }
    }
    let mut found: Vec<Trouble> = Vec::new();
    for (part, rows) in tries {
        let mut items: Vec<String> = Vec::new();
        for row in rows.iter().filter(|row| !row.right) {
            if !items.iter().any(|item| item.to_lowercase() == row.item.to_lowercase()) {
                items.push(row.item.clone());
            }
        }
        let (tries, missed) = (rows.len(), rows.iter().filter(|row| !row.right).count());
        // An item that is no word, such as the blend itself, is enough alone.
        let enough = items.len() >= WORDS || items.iter().any(|item| bank.get(&item.to_lowercase()).is_none());
        if tries >= FEWEST && enough && missed * MISSED.1 >= tries * MISSED.0 {
            found.push(Trouble { part: part.clone(), tries, missed, items });
        }
    }
    found.sort_by(|a, b| {
        let share = (b.missed * a.tries).cmp(&(a.missed * b.tries));
        share.then(b.tries.cmp(&a.tries)).then_with(|| a.part.cmp(&b.part))
    });
    found
}

impl Report {
    /// The report as CSV: a row for each skill, blend and letter group, with the caution as the last.
    #[must_use]
    pub fn to_csv(&self) -> String {
        let mut text = "child,kind,what,tries,right,accuracy,trend,missed items\n".to_owned();
        let mut line = |cells: [&str; 8]| {
            text.push_str(&super::cell::joined(cells, ','));
            text.push('\n');
        };
        for child in &self.children {
            for skill in &child.skills {
                let [tries, right, accuracy] =
                    [skill.sum.tries, skill.sum.right, skill.accuracy].map(|n| n.to_string());
                let trend = skill.trend.map_or("", Trend::name);
                line([&child.child, "skill", &skill.skill, &tries, &right, &accuracy, trend, ""]);
            }
            for (kind, troubles) in [("blend", &child.blends), ("letter group", &child.letter_groups)] {
                for Trouble { part, tries, missed, items } in troubles {
                    let sum = Sum { tries: *tries, right: tries - missed };
                    let [tries, right, accuracy] = [sum.tries, sum.right, sum.percent()].map(|n| n.to_string());
                    line([&child.child, kind, &part.to_string(), &tries, &right, &accuracy, "", &items.join(" ")]);
                }
            }
        }
        line(["", "caution", self.caution, "", "", "", "", ""]);
        text
    }
}
