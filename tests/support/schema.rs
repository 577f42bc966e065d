//! Holding JSON against a JSON Schema (draft 2020-12), as far as `sheet.schema.json` uses it. A keyword that is not known here stops
//! the test, so that none is taken for checked which is not.

use serde_json::{Map, Value};

/// Everything in `value` that is not as `schema` says, with where it stands.
pub fn check(schema: &Value, value: &Value) -> Vec<String> {
    let mut wrong = Vec::new();
    Checker { root: schema, wrong: &mut wrong }.check(schema, value, "");
    wrong
}

struct Checker<'a> {
    root: &'a Value,
    wrong: &'a mut Vec<String>,
}

impl Checker<'_> {
    fn check(&mut self, schema: &Value, value: &Value, at: &str) {
        let schema = schema.as_object().unwrap();
        for (keyword, rule) in schema {
            match keyword.as_str() {
                "$schema" | "$defs" | "title" | "description" | "properties" => {}
                "$ref" => {
                    let place = rule.as_str().and_then(|rule| rule.strip_prefix('#')).unwrap();
                    let root = self.root;
                    self.check(root.pointer(place).unwrap(), value, at);
                }
                "oneOf" => self.one_of(rule.as_array().unwrap(), value, at),
                "type" => self.hold(is_type(value, rule.as_str().unwrap()), at, keyword, rule, value),
                "enum" => self.hold(rule.as_array().unwrap().contains(value), at, keyword, rule, value),
                "minimum" => self.hold(value.as_i64() >= rule.as_i64(), at, keyword, rule, value),
                "minItems" => {
                    let enough = value.as_array().is_none_or(|list| list.len() as u64 >= rule.as_u64().unwrap());
                    self.hold(enough, at, keyword, rule, value);
                }
                "minLength" => {
                    let enough =
                        value.as_str().is_none_or(|text| text.chars().count() as u64 >= rule.as_u64().unwrap());
                    self.hold(enough, at, keyword, rule, value);
                }
                "pattern" => {
                    let fits = value.as_str().is_none_or(|text| fits(text, rule.as_str().unwrap()));
                    self.hold(fits, at, keyword, rule, value);
                }
                "items" => {
                    for (nth, item) in value.as_array().into_iter().flatten().enumerate() {
                        self.check(rule, item, &format!("{at}/{nth}"));
                    }
                }
                "required" => {
                    for key in rule.as_array().unwrap() {
                        let has = value.as_object().is_none_or(|map| map.contains_key(key.as_str().unwrap()));
                        self.hold(has, at, keyword, key, value);
                    }
                }
                "additionalProperties" => {
                    assert_eq!(rule, &Value::Bool(false));
                    self.keys(schema, value, at);
                }
                other => panic!("the keyword {other} is not checked here"),
            }
        }
    }

    fn hold(&mut self, holds: bool, at: &str, keyword: &str, rule: &Value, value: &Value) {
        if !holds {
            self.wrong.push(format!("{at}: {keyword} {rule}: {value}"));
        }
    }

    fn one_of(&mut self, choices: &[Value], value: &Value, at: &str) {
        let failing: Vec<Vec<String>> = choices
            .iter()
            .map(|choice| {
                let mut wrong = Vec::new();
                Checker { root: self.root, wrong: &mut wrong }.check(choice, value, at);
                wrong
            })
            .filter(|wrong| !wrong.is_empty())
            .collect();
        if choices.len() - failing.len() != 1 {
            self.wrong
                .extend(failing.into_iter().min_by_key(Vec::len).unwrap_or_else(|| vec![format!("{at}: fits twice")]));
        }
    }

    /// Each key by its own schema, and none that has no schema.
    fn keys(&mut self, schema: &Map<String, Value>, value: &Value, at: &str) {
        for (key, inner) in value.as_object().into_iter().flatten() {
            match schema["properties"].get(key) {
                Some(rule) => self.check(rule, inner, &format!("{at}/{key}")),
                None => self.wrong.push(format!("{at}: there is no key {key} in the schema")),
            }
        }
    }
}

fn is_type(value: &Value, kind: &str) -> bool {
    match kind {
        "object" => value.is_object(),
        "array" => value.is_array(),
        "string" => value.is_string(),
        "integer" => value.is_i64() || value.is_u64(),
        other => panic!("the type {other} is not checked here"),
    }
}

/// The two patterns that the schema uses.
fn fits(text: &str, pattern: &str) -> bool {
    let each = |allowed: fn(char) -> bool| !text.is_empty() && text.chars().all(allowed);
    match pattern {
        "^[a-z0-9-]+$" => each(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-'),
        "^[A-Z ]+$" => each(|c| c.is_ascii_uppercase() || c == ' '),
        other => panic!("the pattern {other} is not checked here"),
    }
}
