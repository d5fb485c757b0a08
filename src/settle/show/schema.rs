//! What `byrnie settle --json` prints, described for other programs.

/// JSON Schema of [`Settled::json`](crate::settle::weave::Settled::json).
pub const SETTLE_SCHEMA: &str = include_str!("../../../grammar/settle.schema.json");
