//! The way from an empty record to the third packet, as the README tells it.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

#[path = "support/room.rs"]
mod room;

use std::fmt::Write as _;
use std::fs;

use room::Room;

/// The words of one sheet of a child's packet.
fn words(room: &Room, week: &str, child: &str, sheet: usize) -> Vec<String> {
    room.words(week, &format!("plan-{child}"), sheet)
}

/// A table as it comes back filled in: these words were wrong, all others right.
fn filled(child: &str, day: &str, words: &[String], wrong: &[&String]) -> String {
    let mut table = "child,date,skill,item,right,note\r\n".to_owned();
    for word in words {
        let right = if wrong.contains(&word) { "no" } else { "yes" };
        write!(table, "{child},{day},sound-boxes,{word},{right},\r\n").unwrap();
    }
    table
}

#[test]
fn from_an_empty_record_to_the_third_packet() {
    let room = Room::new();
    fs::write(room.path("plan.yaml"), "title: Week\nstep: a-e\nfocus: st sp\nsheets: [sound-boxes, blend-sort]\n")
        .unwrap();
    fs::write(room.path("group.csv"), "name,step\nAna,a-e\nBen,a-e\n").unwrap();
    let make = |week: usize, more: &str| {
        room.done(&format!("packet @plan.yaml --group @group.csv --seed week-{week} --out @week-{week}/ {more}"))
    };

    // The first packet; Ana misses two words, Ben none.
    make(1, "--afresh");
    let first = words(&room, "week-1", "ana", 0);
    let missed: Vec<&String> = first.iter().take(2).collect();
    // The table to fill in has each child's own words.
    room.done("record template --packets @week-1 --date 2026-01-12 --out @table.csv");
    let table = fs::read_to_string(room.path("table.csv")).unwrap();
    for child in ["ana", "ben"] {
        for word in words(&room, "week-1", child, 0) {
            let row = format!("{},2026-01-12,sound-boxes,{word},,", if child == "ana" { "Ana" } else { "Ben" });
            assert!(table.lines().any(|line| line == row), "{row}: {table}");
        }
    }
    fs::write(room.path("one.csv"), filled("Ana", "2026-01-12", &first, &missed)).unwrap();
    room.done("record add @record.csv @one.csv");
    fs::write(room.path("two.csv"), filled("Ben", "2026-01-12", &words(&room, "week-1", "ben", 0), &[])).unwrap();
    room.done("record add @record.csv @two.csv");

    // The second reviews what Ana missed, among new words: a third of a sheet at the most.
    let told = make(2, "--from-record @record.csv --earlier @. --last 1");
    assert!(told.contains("Ana, packet 2: step 21 (a-e), focus "), "{told}");
    let second = words(&room, "week-2", "ana", 0);
    for word in &missed {
        assert!(told.contains(word.as_str()), "{told}");
        assert!(second.contains(word), "{word} is not in {second:?}");
    }
    let again = second.iter().filter(|word| first.contains(word)).count();
    assert!(again * 3 <= second.len() + 2, "{first:?} {second:?}");

    // She has them right now: they come back two packets on, not in the third.
    fs::write(room.path("three.csv"), filled("Ana", "2026-01-19", &second, &[])).unwrap();
    room.done("record add @record.csv @three.csv");
    let told = make(3, "--from-record @record.csv --earlier @. --last 2");
    assert!(told.contains("Ana, packet 3:"), "{told}");
    assert!(told.contains("review none"), "{told}");

    // The plan is the teacher's to change: the group's file that was written makes the same packets.
    let group = fs::read_to_string(room.path("week-2/plan-group.yaml")).unwrap();
    assert!(group.contains("name: \"Ana\"") && group.contains("words: ["), "{group}");
    room.done("packet @plan.yaml --group @week-2/plan-group.yaml --seed week-2 --out @mine/");
    let mine = words(&room, "mine", "ana", 0);
    assert!(missed.iter().all(|word| mine.contains(word)), "{mine:?}");
}
