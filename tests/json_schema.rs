//! What `--format json` prints is as `sheet.schema.json` says; and the schema would notice if it were not.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

#[path = "support/schema.rs"]
mod schema;
mod support;

use serde_json::{Value, json};
use support::{materials, printed};

fn the_schema() -> Value {
    serde_json::from_str(include_str!("../src/sheet/sheet.schema.json")).unwrap()
}

fn json(args: &[&str]) -> Value {
    serde_json::from_str(&printed(&[args, &["--format", "json", "--out", "-"]].concat())).unwrap()
}

/// The content of every layout's sheet, with and without what is not always there, and of a packet's sheets.
fn outputs() -> Vec<Value> {
    let mut outputs = Vec::new();
    for stored in materials().library.all() {
        let sheet = ["sheet", &stored.layout.name, "--seed", "s"];
        outputs.push(json(&sheet));
        outputs.push(json(&[&sheet[..], &["--child", "Ada", "--notation", "ipa"]].concat()));
    }
    for packet in [packet(), lesson()] {
        outputs.extend(packet["sheets"].as_array().unwrap().iter().cloned());
    }
    outputs
}

/// A packet with a lesson whose words come again, since a step has too few, and with a note to the family that tells of its sheets.
fn lesson() -> Value {
    let plan = concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/plans/l-blends-lesson.yaml");
    json(&["packet", plan, "--step", "l-blends", "--focus", "gl pl"])
}

fn packet() -> Value {
    json(&["packet", concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/plans/l-blends-week.yaml")])
}

#[test]
fn outputs_are_as_the_schema_says() {
    let schema = the_schema();
    for output in outputs() {
        let wrong = schema::check(&schema, &output);
        assert!(wrong.is_empty(), "{}\n{output:#}", wrong.join("\n"));
    }
}

/// A packet is its title, its seed, and its sheets; each sheet is what the schema describes.
#[test]
fn a_packet_is_a_list_of_sheets() {
    let packet = packet();
    let keys: Vec<&String> = packet.as_object().unwrap().keys().collect();
    assert_eq!(keys, ["seed", "sheets", "title"]);
    assert!(packet["sheets"].as_array().unwrap().iter().all(|sheet| sheet["seed"] == packet["seed"]));
}

#[test]
fn every_key_of_the_schema_is_used() {
    let all = Value::Array(outputs()).to_string();
    let mut open = vec![the_schema()];
    while let Some(part) = open.pop() {
        for (key, inner) in part.as_object().into_iter().flatten() {
            open.push(inner.clone());
            for name in inner.as_object().filter(|_| key == "properties").into_iter().flat_map(|keys| keys.keys()) {
                assert!(all.contains(&format!("\"{name}\":")), "no output has {name}");
            }
        }
    }
}

#[test]
fn the_schema_notices() {
    let schema = the_schema();
    let good = json(&["sheet", "word-ladder", "--seed", "s"]);
    assert!(schema::check(&schema, &good).is_empty());
    let changes = [
        ("/items", json!({})),
        ("/items/0/kind", json!("riddle")),
        ("/items/0/answer", json!([])),
        ("/items/1/change/at", json!(-1)),
        ("/items/1/sounds/0", json!("bl")),
        ("/items/0/further", json!(1)),
        ("/step", json!("13")),
        ("/seed", Value::Null),
        ("/seed", json!("x".repeat(61))),
        ("/items/0", json!({"kind": "word"})),
        ("/further", json!("")),
    ];
    for (place, value) in changes {
        let (inside, key) = place.rsplit_once('/').unwrap();
        let mut changed = good.clone();
        match changed.pointer_mut(inside).unwrap() {
            Value::Array(list) => list[key.parse::<usize>().unwrap()] = value.clone(),
            map => map[key] = value.clone(),
        }
        assert!(!schema::check(&schema, &changed).is_empty(), "{value} at {place} goes unseen");
    }
}
