//! JSON Schemas for what is read from YAML, where a type's own form does not tell it.

use schemars::{Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value};

/// The schema of a list entry that is a name, or a map with the name as its only key. [`named_choice!`](crate::yaml::named_choice) uses it.
/// Each name comes with the schema of what stands under it, and whether nothing has to.
#[must_use]
pub fn choice_schema(noun: &str, choices: Vec<(&'static str, Schema, bool)>) -> Schema {
    let bare: Vec<&str> = choices.iter().filter(|(_, _, bare)| *bare).map(|(name, ..)| *name).collect();
    let under: Map<String, Value> =
        choices.into_iter().map(|(name, schema, _)| (name.to_owned(), schema.to_value())).collect();
    json_schema!({
        "description": format!("A {noun}: its name, or a map with its name as the only key."),
        "anyOf": [
            {"enum": bare},
            {"type": "object", "properties": under, "additionalProperties": false, "minProperties": 1, "maxProperties": 1},
        ],
    })
}

/// Whether a type can be read where nothing is said.
#[must_use]
pub fn needs_nothing<T: serde::de::DeserializeOwned>() -> bool {
    let nothing = std::iter::empty::<(&str, &str)>();
    T::deserialize(serde::de::value::MapDeserializer::<_, serde::de::value::Error>::new(nothing)).is_ok()
}

/// A text that stands for something else, as YAML writes it: a number counts as the text it is written as.
#[must_use]
pub fn text_schema(description: &str) -> Schema {
    json_schema!({"description": description, "type": ["string", "number"]})
}

/// The JSON Schema (draft 2020-12) of a type that is read from a file.
#[must_use]
pub fn schema_of<T: schemars::JsonSchema>() -> Value {
    let settings = schemars::generate::SchemaSettings::draft2020_12();
    SchemaGenerator::new(settings.for_deserialize()).into_root_schema_for::<T>().to_value()
}
