//! Gauges and sizes: written, measured, and the rules on them.

mod gauges;
mod measured;
mod rules;
mod sizes;
