//! `byrnie schema`

use super::{Outcome, files};
use crate::cli::{SchemaArgs, SchemaOf};
use byrnie::catalogue::WeavesJson;
use byrnie::fit::FitJson;
use byrnie::report::LintJson;
use byrnie::settle::SettledJson;
use byrnie::shelf::CountJson;
use byrnie::text::schema;
use byrnie::weave::GraphJson;
use clap::ValueEnum;
use serde_json::Value;

pub fn run(args: &SchemaArgs) -> Outcome {
    let text = match args.name {
        Some(name) => files::json(&schema_of(name))?,
        None => SchemaOf::value_variants().iter().map(|name| listed(*name)).collect(),
    };
    files::print(&text)?;
    Ok(0)
}

fn schema_of(name: SchemaOf) -> Value {
    match name {
        SchemaOf::Count => schema::<CountJson<'_>>(),
        SchemaOf::Fit => schema::<FitJson<'_>>(),
        SchemaOf::Graph => schema::<GraphJson<'_>>(),
        SchemaOf::Lint => schema::<LintJson>(),
        SchemaOf::Settle => schema::<SettledJson<'_>>(),
        SchemaOf::Weaves => schema::<WeavesJson<'_>>(),
    }
}

/// A line of the list: the name, and what has this schema.
fn listed(name: SchemaOf) -> String {
    let value = name.to_possible_value();
    let help = value.as_ref().and_then(|v| v.get_help()).map(ToString::to_string).unwrap_or_default();
    format!("{:8}{help}\n", value.as_ref().map_or("", |v| v.get_name()))
}
