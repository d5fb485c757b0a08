//! Byrnie: a notation, compiler and linter for ring weaves.
//!
//! A weave is written once as plain text. The stages, in order, each a module of its own:
//!
//! 1. [`text`] holds the sources and gives every word its place.
//! 2. [`notation`] reads a text into a tree of statements. It never fails: what it cannot read it
//!    reports, and reads on.
//! 3. [`pattern`] follows the bases and makes sense of the statements: families of rings, repeats,
//!    passes, lying, accents, ends, sizes, claims.
//! 4. [`rings`] solves the passes of each ring as a parity system of signs, makes the signed graph of
//!    one repeat and of the whole piece, and takes the weave's fingerprint.
//! 5. [`settle`] finds where rigid round rings can lie: poses with the wanted links, and the thickest wire
//!    they hold.
//! 6. [`lint`] runs the rules over text, graph and pose, each a file and a page.
//! 7. [`supply`] knows wire gauges, sizes, materials and packings, and counts and weighs rings.
//! 8. [`fit`] says which rings make a weave: of a shelf, or of the sizes in common use.
//! 9. [`steps`] finds the order of work.
//! 10. [`tutorial`] checks a Markdown text about a weave: its steps, and what else it says.
//! 11. [`draw`] draws the chart of a repeat, the settled piece as a picture and as a model, and every step of the work.
//! 12. [`report`] shows a finding to a person or a machine.
//!
//! [`library`] has the built-in weaves, what is computed of each, and says which of them a text describes.
//!
//! [`Weave::compile`] runs stages 1 to 4, [`Weave::settled`] stage 5 when first asked. All of it is pure: files
//! are read and written by the command line alone, and the same text gives the same bytes everywhere.
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
