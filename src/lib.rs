//! x
pub mod notation;
pub mod pattern;
pub mod report;
pub mod rings;
pub mod text;
