//! Every test of the project, in one binary so that it links once.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod chart;
mod cli;
mod common;
mod count;
mod docs;
mod fingerprint;
mod fit;
mod floors;
mod graph;
mod hostile;
mod measure;
mod model;
mod outside;
mod picture;
mod properties;
mod reading;
mod report;
mod rules;
mod settle;
mod shelf;
mod steps;
mod text;
mod tidy;
mod tutorial;
mod weaves;
