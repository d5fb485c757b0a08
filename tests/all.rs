//! Every test of the project, in one binary so that it links once.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod chart;
mod cli;
mod common;
mod docs;
mod fingerprint;
mod fit;
mod floors;
mod graph;
mod hostile;
mod model;
mod outside;
mod picture;
mod properties;
mod reading;
mod report;
mod rules;
mod settle;
mod steps;
mod supply;
mod tidy;
mod tutorial;
mod weaves;
