//! What `byrnie settle --json` prints, described for other programs.

/// JSON Schema of [`Settled::json`](super::Settled::json).
pub const SETTLE_SCHEMA: &str = include_str!("../../grammar/settle.schema.json");
