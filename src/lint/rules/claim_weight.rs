//! A claimed weight is not that of the counted rings.

use crate::lint::Context;
use crate::notation::Claim;
use crate::report::Diagnostic;
use crate::supply::{Counts, decimals, half_step};

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let claims = context.pattern.claims.iter().filter_map(|c| match &c.value {
        Claim::Weight(number) => Some((number, c.span)),
        _ => None,
    });
    let mut claims = claims.peekable();
    let (Some(piece), Some(size), Some(_)) = (context.piece, context.weave.size_asked(), claims.peek()) else { return };
    let counts = Counts::without_length(context.weave, piece);
    let Some(grams) = counts.grams() else { return };
    for (number, span) in claims {
        let off = grams - number.value;
        if off.abs() <= half_step(number) + 1e-9 {
            continue;
        }
        let places = decimals(number).unwrap_or(1).max(1) as usize;
        findings.push(
            Diagnostic::error(
                "claim-weight",
                span,
                format!(
                    "{} g is claimed, but the {} rings of one piece ({}) weigh {grams:.places$} g: {:.places$} g {}",
                    number.text,
                    counts.rings(),
                    size.words(counts.lattice),
                    off.abs(),
                    if off > 0.0 { "more" } else { "less" }
                ),
            )
            .label(format!("by size and material: {grams:.places$} g"))
            .help("weights are of the rings alone, without a clasp, at the sizes written; the wire or the inner diameter may be off"),
        );
    }
}
