//! What `--format json` prints is as `sheet.schema.json` says; and the schema would notice if it were not.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

#[path = "support/schema.rs"]
mod schema;
mod support;

use serde_json::{Value, json};
use support::{materials, printed};

fn the_schema() -> Value {
    serde_json::from_str(include_str!("sheet.schema.json")).unwrap()
}

fn outputs() -> Vec<Value> {
    let mut outputs = Vec::new();
    for stored in materials().library.all() {
        let name = stored.layout.name.as_str();
        for more in [&[][..], &["--child", "Ada", "--notation", "ipa", "--focus", "bl gr sw"], &["--step", "r-blends"]]
        {
            let args = [&["sheet", name, "--seed", "s", "--format", "json", "--out", "-"], more].concat();
            outputs.push(serde_json::from_str(&printed(&args)).unwrap());
        }
    }
    let plan = concat!(env!("CARGO_MANIFEST_DIR"), "/layouts/plans/l-blends-week.yaml");
    for more in [&[][..], &["--only", "2"]] {
        let args = [&["packet", plan, "--format", "json", "--out", "-"], more].concat();
        outputs.push(serde_json::from_str(&printed(&args)).unwrap());
    }
    outputs
}

#[test]
fn outputs_are_as_the_schema_says() {
    let schema = the_schema();
    for output in outputs() {
        let wrong = schema::check(&schema, &output);
        assert!(wrong.is_empty(), "{}\n{output:#}", wrong.join("\n"));
    }
}

#[test]
fn every_key_of_the_schema_is_used() {
    let all = Value::Array(outputs()).to_string();
    for (name, part) in the_schema()["$defs"].as_object().unwrap() {
        for key in part["properties"].as_object().into_iter().flat_map(|keys| keys.keys()) {
            assert!(all.contains(&format!("\"{key}\":")), "no output has {name}.{key}");
        }
    }
}

#[test]
fn the_schema_notices() {
    let schema = the_schema();
    let good = outputs().into_iter().find(|output| output["layout"] == "word-ladder").unwrap();
    assert!(schema::check(&schema, &good).is_empty());
    let changes: [(&str, Value); 8] = [
        ("/items", json!([])),
        ("/items/0/kind", json!("riddle")),
        ("/items/0/answer", json!([""])),
        ("/items/1/change/at", json!(-1)),
        ("/items/1/sounds/0", json!("bl")),
        ("/step", json!("13")),
        ("/seed", Value::Null),
        ("/items/0", json!({"kind": "word"})),
    ];
    for (place, value) in changes {
        let mut changed = good.clone();
        *changed.pointer_mut(place).unwrap() = value.clone();
        assert!(!schema::check(&schema, &changed).is_empty(), "{value} at {place} goes unseen");
    }
    let mut more = good;
    more["further"] = json!(1);
    assert!(!schema::check(&schema, &more).is_empty(), "a key that is not in the schema goes unseen");
}
