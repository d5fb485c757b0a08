use crate::count::{Class, Counts};
use crate::lint::{Context, Found, Rule};
use crate::measure::{decimals, half_step};
use crate::notation::{Claim, Number};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};

/// A claimed weight is not that of the counted rings.
pub struct ClaimWeight;

impl Rule for ClaimWeight {
    const NAME: &str = "claim-weight";
    const PAGE: &str = include_str!("claim_weight.md");
    const FOUND: Found = Found::InText(check);
}

const HELP: &str = "check the wire and the inner diameter; the weight is that of the rings alone at the sizes written, without clasp and spares";

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let of_a_piece = weights(context.claims);
    if let (Some(piece), Some(size), false) = (context.piece, context.weave.size_asked(), of_a_piece.is_empty()) {
        let counts = Counts::without_length(context.weave, piece);
        let rings = format!("the {} rings of one piece ({}) weigh", counts.rings(), size.words(counts.lattice));
        compare(&of_a_piece, &rings, counts.grams(), findings);
    }
    let of_all = weights(context.claims_of_all);
    let class = (!of_all.is_empty()).then(|| Class::without_length(context.weave).ok()).flatten();
    if let Some(class) = class.filter(Class::size_asked) {
        let rings = format!("all {} rings of the {} pieces weigh", class.sum(Counts::rings), class.pieces());
        compare(&of_all, &rings, class.grams(), findings);
    }
}

fn weights(claims: &[Spanned<Claim>]) -> Vec<(&Number, Span)> {
    let weights = claims.iter().filter_map(|c| match &c.value {
        Claim::Weight(number) => Some((number, c.span)),
        _ => None,
    });
    weights.collect()
}

/// Compares claims of a weight with what some rings weigh, g.
fn compare(claims: &[(&Number, Span)], rings: &str, grams: Option<f64>, findings: &mut Vec<Diagnostic>) {
    let Some(grams) = grams else { return };
    for (number, span) in claims {
        let off = grams - number.value;
        if off.abs() <= half_step(number) + 1e-9 {
            continue;
        }
        let places = decimals(number).unwrap_or(1).max(1) as usize;
        let message = format!("the text says {} g; {rings} {grams:.places$} g", number.text);
        let more = if off > 0.0 { "more" } else { "less" };
        let label = format!("by size and material {:.places$} g {more}", off.abs());
        findings.push(ClaimWeight::at(*span, message).label(label).help(HELP));
    }
}
