//! Byrnie: a notation, compiler and linter for ring weaves.
//!
//! A weave is written once as plain text. Each stage is a module, and uses only the modules above it in this list:
//!
//! 1. [`text`] holds the sources and gives every word its place. [`report`] shows a finding to a person or a machine.
//! 2. [`notation`] reads a text into a tree of statements. It never fails: it reports what it cannot read, and reads on.
//! 3. [`measure`] knows wire gauges, sizes, materials and packings.
//! 4. [`pattern`] adds the bases and works out what the statements mean: families of rings, repeats, passes, lying,
//!    accents, ends, sizes, claims.
//! 5. [`rings`] solves the passes of each ring as a parity system of signs, builds the signed graph of one repeat and of
//!    the whole piece, and computes the fingerprint.
//! 6. [`settle`] finds where rigid round rings can lie: poses with the right links, and the thickest wire they allow.
//! 7. [`Weave`] is one text with everything known about it. [`library`] has the built-in weaves.
//! 8. [`count`] counts and weighs rings, [`shelf`] reads a maker's rings, and [`steps`] finds the order of work.
//! 9. [`lint`] runs the rules over text, graph and pose.
//! 10. [`fit`] says which rings make a weave, from a shelf or among the sizes in common use.
//! 11. [`draw`] draws charts, pictures and models. [`tutorial`] checks a Markdown text about a weave. [`catalogue`] makes
//!     the table of built-in weaves.
//!
//! [`Weave::compile`] runs stages 1 to 5, and [`Weave::settled`] runs stage 6 when first asked. All of it is pure: only
//! the command line reads and writes files, and the same text gives the same bytes everywhere.
//!
//! Lengths are in millimetres, weights in grams, angles in degrees.

pub mod catalogue;
pub mod count;
pub mod draw;
pub mod fit;
pub mod library;
pub mod lint;
pub mod measure;
pub mod notation;
pub mod pattern;
pub mod report;
pub mod rings;
pub mod settle;
pub mod shelf;
pub mod steps;

pub mod text;
pub mod tutorial;
pub mod weave;

pub use library::Library;
pub use weave::Weave;
