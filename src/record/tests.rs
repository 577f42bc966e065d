//! Rules of reports and plans, on records made for them.

use super::*;
use crate::bank::Bank;
use crate::sequence::Sequence;
use crate::sounds::Counting;

pub(super) fn day(number: u8) -> Day {
    Day::new(2025, 3, number).unwrap()
}

pub(super) fn try_at(date: u8, item: &str, right: bool) -> Row {
    Row {
        child: "Ana".into(),
        date: day(date),
        skill: "sound-boxes".into(),
        item: item.into(),
        right,
        note: String::new(),
    }
}

pub(super) fn books() -> (Bank, Sequence) {
    (Bank::builtin(Counting::default()).unwrap(), Sequence::builtin().unwrap())
}

fn of(rows: &[Row]) -> ChildReport {
    let (bank, sequence) = books();
    report(rows, &["Ana"], None, &bank, &sequence).children.remove(0)
}

#[test]
fn a_trend_needs_twenty_tries_and_two_apart() {
    let tries = |before: usize, last: usize| -> Vec<bool> {
        (0..10).map(|at| at < before).chain((0..10).map(|at| at < last)).collect()
    };
    assert_eq!(Trend::of(&tries(5, 7)), Some(Trend::Up));
    assert_eq!(Trend::of(&tries(5, 6)), Some(Trend::Steady));
    assert_eq!(Trend::of(&tries(6, 5)), Some(Trend::Steady));
    assert_eq!(Trend::of(&tries(7, 5)), Some(Trend::Down));
    assert_eq!(Trend::of(&tries(7, 5)[1..]), None);
    // Only the last twenty count.
    assert_eq!(Trend::of(&[vec![true; 50], tries(5, 7)].concat()), Some(Trend::Up));
    assert_eq!(Trend::of(&[]), None);
}

#[test]
fn accuracy_is_rounded_half_up() {
    let percent = |right, tries| Sum { tries, right }.percent();
    assert_eq!([percent(0, 0), percent(1, 3), percent(2, 3), percent(1, 200), percent(7, 7)], [0, 33, 67, 1, 100]);
}

#[test]
fn what_is_missed_often_is_in_trouble() {
    let items = [("black", false), ("block", true), ("blush", false), ("blob", true), ("flag", true), ("flat", true)];
    let rows: Vec<Row> = items.iter().map(|(item, right)| try_at(4, item, *right)).collect();
    let found = of(&rows);
    assert_eq!(found.sum, Sum { tries: 6, right: 4 });
    let told: Vec<String> = found.blends.iter().map(|t| format!("{} {}/{}", t.part, t.missed, t.tries)).collect();
    assert_eq!(told, ["bl- 2/4"]);
    assert_eq!(found.blends[0].items, ["blush", "black"]);
    // With one try fewer nothing is said, and one of three or of four is not yet trouble.
    assert!(of(&rows[..3]).blends.is_empty());
    let one = [("black", false), ("blush", true), ("blob", true), ("block", true)];
    assert!(of(&one.map(|(item, right)| try_at(4, item, right))).blends.is_empty());
}

#[test]
fn only_the_last_ten_tries_with_a_part_count() {
    let words = ["black", "block"];
    let mut rows: Vec<Row> = (0..10).map(|at| try_at(4, words[at % 2], false)).collect();
    assert_eq!(of(&rows).blends.len(), 1);
    rows.extend((0..7).map(|_| try_at(5, "block", true)));
    assert!(of(&rows).blends.is_empty());
    // The day counts, not the order in which rows were added.
    rows.rotate_left(10);
    assert!(of(&rows).blends.is_empty());
}

#[test]
fn one_word_missed_again_and_again_is_trouble_with_the_word() {
    let tries = |item: &str| -> Vec<Row> { (0..4).map(|_| try_at(4, item, false)).collect() };
    assert!(of(&tries("club")).blends.is_empty() && of(&tries("club")).letter_groups.is_empty());
    // The part itself is enough alone.
    assert_eq!(of(&tries("cl-")).blends.len(), 1);
    assert_eq!(of(&tries("ai")).letter_groups.len(), 1);
}

#[test]
fn a_word_with_a_blend_in_trouble_says_nothing_of_its_letters() {
    let mut rows: Vec<Row> = ["flag", "flap", "flash", "flat"].map(|item| try_at(4, item, false)).to_vec();
    assert_eq!((of(&rows).blends.len(), of(&rows).letter_groups.len()), (1, 0));
    rows.extend(["cat", "bat", "ran", "map"].map(|item| try_at(5, item, false)));
    let letters: Vec<String> = of(&rows).letter_groups.iter().map(|trouble| trouble.part.to_string()).collect();
    assert_eq!(letters, ["a for /ă/"]);
}

#[test]
fn days_and_children_are_kept_apart() {
    let (bank, sequence) = books();
    let mut rows = vec![try_at(5, "flag", true), try_at(4, "clap", false)];
    rows.push(Row { child: "ben".into(), ..try_at(4, "slip", true) });
    assert_eq!(children(&rows), ["Ana", "ben"]);
    let all = report(&rows, &children(&rows), None, &bank, &sequence);
    let days: Vec<String> = all.children[0].days.iter().map(|day| day.date.to_string()).collect();
    assert_eq!(days, ["2025-03-04", "2025-03-05"]);
    let since = report(&rows, &children(&rows), Some(day(5)), &bank, &sequence);
    assert_eq!(since.children.len(), 1);
    assert_eq!(since.children[0].sum, Sum { tries: 1, right: 1 });
    assert!(all.to_csv().ends_with(&format!(",caution,\"{CAUTION}\",,,,,\n")));
}

fn plan(rows: &[Row], rule: &Rule) -> NextPlan {
    let (bank, sequence) = books();
    plan_next(rows, "Ana", rule, &bank, &sequence).unwrap()
}

fn items(due: &[Due]) -> Vec<&str> {
    due.iter().map(|due| due.item.as_str()).collect()
}

#[test]
fn the_next_packet_reviews_what_was_missed() {
    let mut rows =
        vec![try_at(4, "flag", false), try_at(4, "clap", true), try_at(4, "plum", true), try_at(4, "slip", true)];
    let first = plan(&rows, &Rule::default());
    assert_eq!((first.packet, items(&first.review), first.new), (2, vec!["flag"], 11));
    assert_eq!((first.step.name.as_str(), first.sheets.as_slice()), ("l-blends", &["sound-boxes".to_owned()][..]));
    // Right when due, it waits for two packets; what is new is missed and comes first.
    rows.extend([
        try_at(5, "flag", true),
        try_at(5, "glad", false),
        try_at(5, "-nd", false),
        try_at(5, "street", false),
    ]);
    let second = plan(&rows, &Rule { step: Some(13), ..Rule::default() });
    assert_eq!((second.packet, items(&second.review), items(&second.later)), (3, vec!["glad"], vec!["flag"]));
    assert_eq!(items(&second.by_ear), ["-nd", "street"]);
    assert!(plan_next(&rows, "Ben", &Rule::default(), &books().0, &books().1).is_none());
}

#[test]
fn review_takes_no_more_than_its_share() {
    let words = ["flag", "clap", "plum", "slip", "glad", "block"];
    let rows: Vec<Row> = words.iter().map(|word| try_at(4, word, false)).collect();
    let found = plan(&rows, &Rule::default());
    assert_eq!((found.review.len(), found.waiting.len(), found.new), (4, 2, 8));
    let none = plan(&rows, &Rule { review: "0/1".parse().unwrap(), ..Rule::default() });
    assert_eq!((none.review.len(), none.new), (0, 12));
    let all = plan(&rows, &Rule { review: "100%".parse().unwrap(), items: 5, ..Rule::default() });
    assert_eq!((all.review.len(), all.new), (5, 0));
    let share = |text: &str| text.parse::<Share>().map(|share| share.of(10)).ok();
    assert_eq!(
        [share("1/3"), share("25%"), share("1"), share("4/3"), share("1/0"), share("-1/3")],
        [Some(3), Some(3), None, None, None, None]
    );
}

#[test]
fn blends_in_trouble_are_taken_first() {
    let missed = ["glad", "glum", "glob", "glass"];
    let rows: Vec<Row> = missed.iter().map(|word| try_at(4, word, false)).collect();
    let found = plan(&rows, &Rule::default());
    assert_eq!(found.focus[0].to_string(), "gl-");
    // Filled up with what the last packet had, and then with what was taught last.
    let mut rows = rows.clone();
    rows.push(try_at(4, "plum", true));
    let told: Vec<String> = plan(&rows, &Rule::default()).focus.iter().map(ToString::to_string).collect();
    assert_eq!(told, ["gl-", "pl-", "bl-"]);
    assert!(found.focus.len() == 3 && found.focus.iter().all(|blend| blend.side == found.focus[0].side));
    assert!(found.why.iter().any(|why| why == "gl- is in trouble: 4 of its last 4 missed"), "{:?}", found.why);
}

#[test]
fn a_child_moves_on_by_the_rule_and_only_when_asked() {
    let words = ["flag", "clap", "plum", "slip", "glad", "block", "flat", "club", "plan", "slam"];
    let tries = |wrong: usize| -> Vec<Row> { (0..20).map(|at| try_at(4, words[at % 10], at >= wrong)).collect() };
    let at = |rows: &[Row], move_on: bool| plan(rows, &Rule { step: Some(13), move_on, ..Rule::default() });
    let asked = at(&tries(2), true);
    assert!(asked.move_on.may && asked.move_on.done, "{:?}", asked.move_on);
    assert_eq!((asked.step.name.as_str(), asked.focus[0].to_string().as_str()), ("r-blends", "br-"));
    let unasked = at(&tries(2), false);
    assert!(unasked.move_on.may && !unasked.move_on.done && unasked.step.number == 13);
    // Seventeen of twenty, nineteen tries, a blend in trouble, another step, the last step.
    assert!(!at(&tries(3), true).move_on.may);
    assert!(!at(&tries(0)[1..], true).move_on.may);
    let mut trouble = tries(0);
    for at in [0, 16] {
        // Four tries at fl-, two missed.
        trouble[at].right = false;
    }
    let held = at(&trouble, true);
    assert!(!held.move_on.may && held.move_on.why == "in trouble: fl-", "{:?}", held.move_on);
    assert!(!plan(&tries(0), &Rule { step: Some(14), move_on: true, ..Rule::default() }).move_on.may);
    assert!(!plan(&tries(0), &Rule { step: Some(46), move_on: true, ..Rule::default() }).move_on.may);
}
