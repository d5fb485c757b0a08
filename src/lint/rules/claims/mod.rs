//! What the text claims about the weave or the piece, compared with what is counted, measured or settled.

pub mod claim_aspect_ratio;
pub mod claim_lean;
pub mod claim_length;
pub mod claim_rings;
pub mod claim_weave;
pub mod claim_weight;
pub mod links_per_ring;

use crate::lint::{Found, Rule};

/// The rules that also look at what a tutorial claims.
pub const IN_PROSE: [Found; 6] = [
    claim_aspect_ratio::ClaimAspectRatio::FOUND,
    claim_lean::ClaimLean::FOUND,
    claim_length::ClaimLength::FOUND,
    claim_rings::ClaimRings::FOUND,
    claim_weave::ClaimWeave::FOUND,
    links_per_ring::LinksPerRing::FOUND,
];
