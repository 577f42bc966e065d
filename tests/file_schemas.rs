//! `sheafling schema layout` and `schema plan`: every built-in file is as they say, and what the program refuses for its form, they do.
#![allow(clippy::unwrap_used, clippy::expect_used, reason = "a test may stop where something is missing")]

#[path = "support/schema.rs"]
mod schema;
mod support;

use std::path::Path;

use serde_json::Value;
use sheafling::layout::Layout;
use sheafling::packet::Plan;
use support::{materials, printed};

fn the_schema(of: &str) -> Value {
    serde_json::from_str(&printed(&["schema", of])).unwrap()
}

fn yaml(text: &str) -> Value {
    serde_yaml::from_str(text).unwrap()
}

#[test]
fn built_in_files_are_as_the_schemas_say() {
    let layout = the_schema("layout");
    for stored in materials().library.all() {
        let wrong = schema::check(&layout, &yaml(&stored.text));
        assert!(wrong.is_empty(), "{}:\n{}", stored.file, wrong.join("\n"));
    }
    let plan = the_schema("plan");
    let plans = Path::new(env!("CARGO_MANIFEST_DIR")).join("layouts/plans");
    for file in std::fs::read_dir(plans).unwrap() {
        let text = std::fs::read_to_string(file.unwrap().path()).unwrap();
        assert_eq!(schema::check(&plan, &yaml(&text)), [""; 0]);
    }
}

/// A layout with one line changed: the schema and the program both refuse it.
#[test]
fn wrong_layouts_are_refused_by_both() {
    let schema = the_schema("layout");
    let good = "name: a\ntitle: A\nskill: S.\nreader: child\nfill:\n  words: {count: 8, sounds: [3, 5], bands: [\"K\"]}\npage:\n  \
                - title: {size: [20, 24], align: left}\n  - grid:\n      columns: 2\n      cell: [text: {of: \"{word}\"}]\n";
    assert_eq!(schema::check(&schema, &yaml(good)), [""; 0]);
    assert!(Layout::read("a.yaml", good).is_ok());
    for (from, to) in [
        ("title: A", "titel: A"),
        ("skill: S.\n", ""),
        ("reader: child", "reader: parent"),
        ("words:", "wrods:"),
        ("{count: 8", "{cuont: 8"),
        ("count: 8", "count: many"),
        ("[3, 5]", "[3, 5, 7]"),
        ("[\"K\"]", "[\"X\"]"),
        ("size: [20, 24]", "size: [20]"),
        ("size: [20, 24]", "size: 999"),
        ("align: left", "align: middle"),
        ("- title:", "- tilte:"),
        ("- title: {size: [20, 24], align: left}\n  - grid", "- title:\n    grid"),
        ("- title: {size: [20, 24], align: left}\n", "- grid\n"),
        ("columns: 2", "colums: 2"),
        ("columns: 2", "columns: two"),
        ("cell: [text:", "cell: [txt:"),
        ("text: {of: \"{word}\"}", "text: {size: 20}"),
    ] {
        let wrong = good.replacen(from, to, 1);
        assert_ne!(wrong, good, "{from}");
        assert!(Layout::read("a.yaml", &wrong).is_err(), "the program takes {to}");
        assert!(!schema::check(&schema, &yaml(&wrong)).is_empty(), "the schema takes {to}");
    }
}

#[test]
fn wrong_plans_are_refused_by_both() {
    let schema = the_schema("plan");
    let good = "title: A\nstep: 13\nfocus: [bl]\npaper: a4\nkey: end\nseed: 42\nband: 1\nlanguage: es\nsheets:\n  - blend-sort\n  \
                - {layout: word-ladder, step: a-e, focus: bl cl, count: 5}\n";
    assert_eq!(schema::check(&schema, &yaml(good)), [""; 0]);
    assert!(Plan::read("a.yaml", good).is_ok());
    for (from, to) in [
        ("title: A\n", ""),
        ("paper: a4", "paper: a5"),
        ("key: end", "kye: end"),
        ("band: 1", "band: 3"),
        ("count: 5", "cuont: 5"),
        ("count: 5", "count: some"),
        ("layout: word-ladder, ", ""),
        ("focus: [bl]", "focus: {bl: cl}"),
    ] {
        let wrong = good.replacen(from, to, 1);
        assert!(Plan::read("a.yaml", &wrong).is_err(), "the program takes {to}");
        assert!(!schema::check(&schema, &yaml(&wrong)).is_empty(), "the schema takes {to}");
    }
}

/// Each key tells an editor what it is, and the schema of a sheet is the one that `--format json` is held to.
#[test]
fn keys_are_described() {
    let layout = the_schema("layout");
    let mut silent = Vec::new();
    for (name, one) in layout["$defs"].as_object().unwrap().iter().chain([(&"layout".to_owned(), &layout)]) {
        for (key, value) in one["properties"].as_object().into_iter().flatten() {
            if value.get("description").is_none() {
                silent.push(format!("{name}.{key}"));
            }
        }
    }
    assert!(silent.is_empty(), "{silent:?}");
    assert_eq!(printed(&["schema", "sheet"]), sheafling::sheet::SCHEMA);
    assert_eq!(the_schema("sheet")["$schema"], layout["$schema"]);
}
