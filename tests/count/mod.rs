//! Counts, lengths and weights of pieces, bags and classes.

mod class;
mod kit;
mod make;
mod properties;
mod reach;
