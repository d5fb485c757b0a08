//! Two rings: whether they are linked, and where they come near.

mod apart;
mod clearance;
mod find;
mod floors;
mod lean;
mod link;
mod pairs;
mod tubes;
