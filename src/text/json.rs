//! Numbers of JSON for other programs, and the schemas that describe it.

use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Serialize, Serializer};
use serde_json::Value;
use std::borrow::Cow;

/// A number that is written with up to this many decimals, the same on every machine; −0 is written as 0, and what is not
/// finite as null.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rounded<const DECIMALS: i32>(pub(crate) f64);

impl<const DECIMALS: i32> Serialize for Rounded<DECIMALS> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let unit = libm::pow(10.0, f64::from(DECIMALS));
        let rounded = libm::round(self.0 * unit) / unit;
        serializer.serialize_f64(if rounded == 0.0 { 0.0 } else { rounded })
    }
}

impl<const DECIMALS: i32> JsonSchema for Rounded<DECIMALS> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        "Rounded".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        f64::json_schema(generator)
    }
}

/// The JSON Schema (draft 2020-12) of what a type is written as. Every object has the fields that are named and no others.
pub fn schema<T: JsonSchema>() -> Value {
    let plain = |schema: &mut Schema| {
        if schema.get("properties").is_some() {
            schema.insert("additionalProperties".to_owned(), false.into());
        }
        // How wide a number is in memory is of no use to others.
        schema.remove("format");
        // Comments are wrapped at the width of the code.
        if let Some(Value::String(words)) = schema.get_mut("description") {
            *words = words.replace('\n', " ");
        }
    };
    let settings = SchemaSettings::draft2020_12().for_serialize().with_transform(RecursiveTransform(plain));
    settings.into_generator().into_root_schema_for::<T>().to_value()
}
