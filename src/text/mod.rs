//! What every stage stands on: source texts and places in them, words that are nearly right, phrases, tables.

mod json;
mod nearest;
mod phrase;
mod source;
mod span;
mod table;

pub(crate) use json::Rounded;
pub use json::schema;
pub use nearest::{nearest, plainly_meant};
pub use phrase::short_name;
pub(crate) use phrase::{count, fixed, half_up};
pub use source::{MAX_BYTES, Source, SourceError, Sources};
pub use span::{Span, Spanned};
pub use table::{Grid, Layout};
