//! `record template`.

use std::path::Path;

use serde_json::Value;

use super::args::{SeparatorArg, TemplateArgs};
use super::{day, deliver};
use crate::cli::reprint::manifest_in;
use crate::cli::{Failure, Outcome, query};
use crate::packet::Manifest;
use crate::record::{Day, Task, template as table};
use crate::yaml::{did_you_mean, read_text};

pub(super) fn template(args: &TemplateArgs) -> Result<Outcome, Failure> {
    let date = day("date", args.date.as_deref())?;
    let separator = match args.separator {
        SeparatorArg::Comma => ',',
        SeparatorArg::Semicolon => ';',
        SeparatorArg::Tab => '\t',
    };
    if let Some(packets) = &args.packets {
        return deliver(Some(&args.out), of_packets(packets, date, separator)?.into_bytes(), String::new());
    }
    let children: Vec<String> =
        args.children.iter().map(|name| name.trim().to_owned()).filter(|name| !name.is_empty()).collect();
    let skill = skill(args)?;
    let tasks = if let Some(file) = &args.items {
        let text = read_text(file).map_err(Failure::usage)?;
        let found = serde_json::from_str(&text).ok().map(|json: Value| of_json(&json)).unwrap_or_default();
        if found.is_empty() {
            return Err(Failure::usage(format!(
                "{}: this is not the content of sheets\n\
                 help: make it with `sheafling packet PLAN --format json --out FILE.json`",
                file.display()
            )));
        }
        found
    } else {
        let words = args.words.iter().flat_map(|words| words.split([' ', ',', '\t', '\n']));
        let task = |item: &str| Task { skill: skill.clone(), item: item.to_owned() };
        words.filter(|word| !word.is_empty()).map(task).collect()
    };
    deliver(Some(&args.out), table(&children, &tasks, date, separator).into_bytes(), String::new())
}

/// The table of a group's packets: for each child the items of its own sheets.
fn of_packets(packets: &Path, date: Option<Day>, separator: char) -> Result<String, Failure> {
    let path = manifest_in(packets)?;
    let manifest = Manifest::read(&path).map_err(Failure::usage)?;
    let mut text = String::new();
    for member in &manifest.members {
        let Some(record) = manifest.record(&path, member) else { continue };
        let mut tasks: Vec<Task> = Vec::new();
        for sheet in record.sheets.iter().filter(|sheet| sheet.for_child) {
            for (word, _) in &sheet.words {
                let task = Task { skill: sheet.layout.clone(), item: word.clone() };
                if !tasks.contains(&task) {
                    tasks.push(task);
                }
            }
        }
        if tasks.is_empty() {
            continue;
        }
        let name = member.child.as_ref().map(|child| child.name.clone()).or_else(|| manifest.plan.child.clone());
        let rows = table(&[name.unwrap_or_else(|| member.label())], &tasks, date, separator);
        // The columns are named once.
        let from = if text.is_empty() { 0 } else { rows.find('\n').map_or(0, |end| end + 1) };
        text.push_str(&rows[from..]);
    }
    if text.is_empty() {
        let hint = "make the packets first, with `sheafling packet PLAN --group GROUP`";
        return Err(Failure::usage(format!("{}: there are no packets with items\nhelp: {hint}", path.display())));
    }
    Ok(text)
}

/// The skill of `--skill`, as the layout is named; nothing when it is not said.
fn skill(args: &TemplateArgs) -> Result<String, Failure> {
    let Some(skill) = &args.skill else { return Ok(String::new()) };
    let library = query::library(args.layouts.as_deref())?;
    let names: Vec<&str> = library.all().map(|stored| stored.layout.name.as_str()).collect();
    let plain = skill.trim().to_lowercase().replace([' ', '_'], "-");
    if names.contains(&plain.as_str()) {
        return Ok(plain);
    }
    let hint = did_you_mean(skill, "skills", &names);
    Err(Failure::usage(format!("--skill: there is no layout `{skill}`\nhelp: {hint}")))
}

/// The tasks of a sheet's or a packet's content, each once, in order.
fn of_json(json: &Value) -> Vec<Task> {
    let mut tasks: Vec<Task> = Vec::new();
    let sheets = json.get("sheets").and_then(Value::as_array).cloned().unwrap_or_else(|| vec![json.clone()]);
    for sheet in &sheets {
        let text = |value: &Value, key: &str| value.get(key).and_then(Value::as_str).map(str::to_owned);
        let Some(skill) = text(sheet, "layout") else { continue };
        let items = sheet.get("items").and_then(Value::as_array).into_iter().flatten();
        // The first word of a ladder is given; it is no task.
        for item in items.filter(|item| item.get("kind").and_then(Value::as_str) != Some("start")) {
            let task = text(item, "word").map(|item| Task { skill: skill.clone(), item });
            tasks.extend(task.filter(|task| !task.item.is_empty() && !tasks.contains(task)));
        }
    }
    tasks
}
