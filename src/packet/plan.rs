//! A plan as its file writes it: the packet for a week.

use std::borrow::Cow;
use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::de::{self, Deserialize, Deserializer, MapAccess, SeqAccess, Visitor};

use crate::layout::PrintBand;
use crate::page::Paper;
use crate::seed::Seed;
use crate::sounds::{Counting, Notation};
use crate::yaml::{self, YamlError};

/// Where the answer key goes.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum KeyPlace {
    /// After the sheets, in the same file.
    #[default]
    End,
    /// In a file of its own.
    Apart,
    /// Nowhere.
    None,
}

/// A plan file. All that a sheet does not state itself it takes from here, and what is not stated here from its layout.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// The packet's title: the file's title, and the first bookmark.
    pub title: String,
    /// The teaching step, by name or number.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub step: Option<StepName>,
    /// The blends to practise.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub focus: Option<FocusNames>,
    /// The paper; Letter when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub paper: Option<Paper>,
    /// Where the key goes; at the end when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub key: Option<KeyPlace>,
    /// The seed; a new one is drawn when there is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seed: Option<Seed>,
    /// The child's first name, initial or nickname.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub child: Option<String>,
    /// The language of a note to the family, such as `es`; English when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub language: Option<String>,
    /// How sounds are written.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub notation: Option<Notation>,
    /// How sounds are counted.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub counting: Option<Counting>,
    /// For which school year letters and lines to write on are sized: K, 1 or 2; as the layouts say when nothing is said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub band: Option<PrintBand>,
    /// Whether words that a child reads are 28 pt or larger.
    #[serde(default, alias = "large-print")]
    pub large_print: bool,
    /// Whether what is to be copied stands at the right, for a child who writes with the left hand.
    #[serde(default, alias = "left-hand")]
    pub left_hand: bool,
    /// The sheets, in order.
    pub sheets: Vec<PlanSheet>,
}

/// One sheet of a plan: the name of a layout, or a map with what is different for it.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
pub struct PlanSheet {
    /// The layout's name.
    pub layout: String,
    /// The step of this sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<StepName>,
    /// The focus of this sheet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub focus: Option<FocusNames>,
    /// How many items.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub count: Option<usize>,
    /// A heading of its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub title: Option<String>,
}

/// The most sheets in one plan.
pub const MOST_SHEETS: usize = 200;

impl Plan {
    /// Reads a plan's text. `file` is only for messages.
    ///
    /// # Errors
    /// What is wrong with it, and where.
    pub fn read(file: &str, text: &str) -> Result<Self, YamlError> {
        let plan: Self = yaml::from_str(file, text)?;
        if plan.sheets.is_empty() || plan.sheets.len() > MOST_SHEETS {
            let message = format!("a packet has 1 to {MOST_SHEETS} sheets, not {}", plan.sheets.len());
            return Err(YamlError::in_file(file, text, "sheets", &message).with_hint("name a layout: `- sound-boxes`"));
        }
        Ok(plan)
    }
}

/// A step's name or number.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(transparent)]
pub struct StepName(pub String);

impl<'de> Deserialize<'de> for StepName {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Name;
        impl Visitor<'_> for Name {
            type Value = StepName;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a step's name or number")
            }
            fn visit_str<E: de::Error>(self, name: &str) -> Result<StepName, E> {
                Ok(StepName(name.trim().to_owned()))
            }
            fn visit_u64<E: de::Error>(self, number: u64) -> Result<StepName, E> {
                Ok(StepName(number.to_string()))
            }
        }
        deserializer.deserialize_any(Name)
    }
}

/// Names of blends, written as a list or parted by blanks or commas.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize)]
#[serde(transparent)]
pub struct FocusNames(pub Vec<String>);

impl FocusNames {
    /// Reads names parted by blanks or commas.
    #[must_use]
    pub fn parse(text: &str) -> Self {
        let names = text.split([' ', ',', '\t']).filter(|name| !name.is_empty());
        Self(names.map(str::to_lowercase).collect())
    }
}

impl<'de> Deserialize<'de> for FocusNames {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Names;
        impl<'de> Visitor<'de> for Names {
            type Value = FocusNames;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("names of blends, such as [bl, cl, fl]")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<FocusNames, E> {
                Ok(FocusNames::parse(text))
            }
            fn visit_seq<A: SeqAccess<'de>>(self, mut list: A) -> Result<FocusNames, A::Error> {
                let mut names = Vec::new();
                while let Some(name) = list.next_element::<String>()? {
                    names.extend(FocusNames::parse(&name).0);
                }
                Ok(FocusNames(names))
            }
        }
        deserializer.deserialize_any(Names)
    }
}

/// The keys of a [`PlanSheet`] written as a map.
#[derive(serde::Deserialize, schemars::JsonSchema)]
#[serde(deny_unknown_fields)]
struct SheetKeys {
    layout: String,
    #[serde(default)]
    step: Option<StepName>,
    #[serde(default)]
    focus: Option<FocusNames>,
    #[serde(default)]
    count: Option<usize>,
    #[serde(default)]
    title: Option<String>,
}

impl<'de> Deserialize<'de> for PlanSheet {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Sheet;
        impl<'de> Visitor<'de> for Sheet {
            type Value = PlanSheet;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a layout's name, or a map with the key `layout`")
            }
            fn visit_str<E: de::Error>(self, name: &str) -> Result<PlanSheet, E> {
                Ok(PlanSheet { layout: name.to_owned(), ..PlanSheet::default() })
            }
            fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<PlanSheet, A::Error> {
                let keys = SheetKeys::deserialize(de::value::MapAccessDeserializer::new(map))?;
                let SheetKeys { layout, step, focus, count, title } = keys;
                Ok(PlanSheet { layout, step, focus, count, title })
            }
        }
        deserializer.deserialize_any(Sheet)
    }
}

impl JsonSchema for StepName {
    fn schema_name() -> Cow<'static, str> {
        "step".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        yaml::text_schema("A step's name or number.")
    }
}

impl JsonSchema for FocusNames {
    fn schema_name() -> Cow<'static, str> {
        "focus".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "Names of blends, such as [bl, cl, fl], or parted by blanks or commas.",
            "anyOf": [{"type": "string"}, {"type": "array", "items": {"type": "string"}}]
        })
    }
}

impl JsonSchema for PlanSheet {
    fn schema_name() -> Cow<'static, str> {
        "sheet".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let keys = generator.subschema_for::<SheetKeys>();
        json_schema!({
            "description": "A layout's name, or a map with what is different for this sheet.",
            "anyOf": [{"type": "string"}, keys]
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plan_is_read() {
        let text =
            "title: Week 1\nstep: 13\nfocus: bl cl\nsheets:\n  - blend-sort\n  - {layout: word-ladder, count: 5}\n";
        let plan = Plan::read("plan.yaml", text).unwrap();
        assert_eq!(plan.step, Some(StepName("13".to_owned())));
        assert_eq!(plan.focus, Some(FocusNames(vec!["bl".to_owned(), "cl".to_owned()])));
        assert_eq!(plan.sheets[1].count, Some(5));
    }

    #[test]
    fn a_wrong_key_is_shown_where_it_stands() {
        let text = "title: Week 1\nsheets:\n  - layout: blend-sort\n    cuont: 5\n";
        let error = Plan::read("plan.yaml", text).unwrap_err();
        assert_eq!((error.line(), error.column()), (Some(4), Some(5)));
        assert!(error.to_string().contains("`count`"), "{error}");
        let none = Plan::read("plan.yaml", "title: Week 1\nsheets: []\n").unwrap_err();
        assert!(none.to_string().starts_with("plan.yaml:2:"), "{none}");
    }
}
