//! `schema`: the form of files, for editors and other programs.

use super::Outcome;
use super::args::SchemaOf;
use crate::layout::Layout;
use crate::packet::Plan;
use crate::sheet::SCHEMA;
use crate::yaml::schema_of;

pub(super) fn schema(of: SchemaOf) -> Outcome {
    let text = match of {
        SchemaOf::Layout => format!("{:#}\n", schema_of::<Layout>()),
        SchemaOf::Plan => format!("{:#}\n", schema_of::<Plan>()),
        SchemaOf::Sheet => SCHEMA.to_owned(),
    };
    Outcome::printing(text.into_bytes())
}
