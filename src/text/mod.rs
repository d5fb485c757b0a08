//! What every stage needs: source texts and places in them, words that are nearly right, phrases, tables.

mod json;
mod nearest;
mod phrase;
mod source;
mod span;
mod table;

pub(crate) use json::Rounded;
pub use json::schema;
pub use nearest::nearest;
pub(crate) use nearest::plainly_meant;
pub(crate) use phrase::UNKNOWN;
pub use phrase::{count, fixed, half_up, list, round_up, short_name, singular_or_plural, trimmed};
pub use source::{MAX_BYTES, Source, SourceError, Sources};
pub use span::{Span, Spanned};
pub use table::{Grid, Layout};
