//! Holding JSON against a JSON Schema (draft 2020-12), as far as the schemas here use it. A keyword that is not known here stops
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
                // A number's `format` says how it is stored, which its least and most say too.
                "$schema" | "$defs" | "title" | "description" | "properties" | "default" | "format" => {}
                "$ref" => {
                    let place = rule.as_str().and_then(|rule| rule.strip_prefix('#')).unwrap();
                    let root = self.root;
                    self.check(root.pointer(place).unwrap(), value, at);
                }
                "type" => {
                    let kinds = rule.as_array().map_or(std::slice::from_ref(rule), Vec::as_slice);
                    let fits = kinds.iter().any(|kind| is_type(value, kind.as_str().unwrap()));
                    self.hold(fits, at, keyword, rule, value);
                }
                "anyOf" | "oneOf" => {
                    let root = self.root;
                    let wrong = |rule: &Value| {
                        let mut wrong = Vec::new();
                        Checker { root, wrong: &mut wrong }.check(rule, value, at);
                        wrong
                    };
                    let tried: Vec<Vec<String>> = rule.as_array().unwrap().iter().map(wrong).collect();
                    let fitting = tried.iter().filter(|wrong| wrong.is_empty()).count();
                    if fitting == 0 || (fitting > 1 && keyword == "oneOf") {
                        self.wrong.push(format!("{at}: {fitting} of {keyword} fit {value}"));
                        self.wrong.extend(tried.concat());
                    }
                }
                "const" => self.hold(rule == value, at, keyword, rule, value),
                "minProperties" | "maxProperties" | "maxItems" => {
                    let count = match keyword.as_str() {
                        "maxItems" => value.as_array().map(Vec::len),
                        _ => value.as_object().map(serde_json::Map::len),
                    };
                    let limit = usize::try_from(rule.as_u64().unwrap()).unwrap();
                    let fits = count
                        .is_none_or(|count| if keyword == "minProperties" { count >= limit } else { count <= limit });
                    self.hold(fits, at, keyword, rule, value);
                }
                "maximum" => {
                    self.hold(value.as_f64().is_none_or(|n| n <= rule.as_f64().unwrap()), at, keyword, rule, value);
                }
                "enum" => self.hold(rule.as_array().unwrap().contains(value), at, keyword, rule, value),
                "minimum" => {
                    self.hold(value.as_f64().is_none_or(|n| n >= rule.as_f64().unwrap()), at, keyword, rule, value);
                }
                "minItems" => {
                    let enough = value.as_array().is_none_or(|list| list.len() as u64 >= rule.as_u64().unwrap());
                    self.hold(enough, at, keyword, rule, value);
                }
                "uniqueItems" => {
                    let list = value.as_array().map_or(&[][..], Vec::as_slice);
                    let alike = list.iter().enumerate().any(|(at, item)| list[..at].contains(item));
                    self.hold(!alike, at, keyword, rule, value);
                }
                "maxLength" => {
                    let few = value.as_str().is_none_or(|text| text.chars().count() as u64 <= rule.as_u64().unwrap());
                    self.hold(few, at, keyword, rule, value);
                }
                "minLength" => {
                    let enough =
                        value.as_str().is_none_or(|text| text.chars().count() as u64 >= rule.as_u64().unwrap());
                    self.hold(enough, at, keyword, rule, value);
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
                "additionalProperties" => self.keys(schema, rule, value, at),
                other => panic!("the keyword {other} is not checked here"),
            }
        }
    }

    fn hold(&mut self, holds: bool, at: &str, keyword: &str, rule: &Value, value: &Value) {
        if !holds {
            self.wrong.push(format!("{at}: {keyword} {rule}: {value}"));
        }
    }

    /// Each key by its own schema, and the others by `others`: `false` when there may be none.
    fn keys(&mut self, schema: &Map<String, Value>, others: &Value, value: &Value, at: &str) {
        for (key, inner) in value.as_object().into_iter().flatten() {
            let at = format!("{at}/{key}");
            match schema.get("properties").and_then(|keys| keys.get(key)).unwrap_or(others) {
                Value::Bool(false) => self.wrong.push(format!("{at}: the schema has no such key")),
                rule => self.check(rule, inner, &at),
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
        "number" => value.is_number(),
        "boolean" => value.is_boolean(),
        "null" => value.is_null(),
        other => panic!("the type {other} is not checked here"),
    }
}
