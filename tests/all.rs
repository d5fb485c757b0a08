//! Every test of the project, in one binary so that it links once.

mod chart;
mod rules;
