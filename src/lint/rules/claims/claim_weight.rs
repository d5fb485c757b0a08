//! A claimed weight is not that of the counted rings.

use crate::count::{Class, Counts};
use crate::lint::Context;
use crate::measure::{decimals, half_step};
use crate::notation::{Claim, Number};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};

const NAME: &str = "claim-weight";
const HELP: &str = "weights are of the rings alone, without a clasp and spares, at the sizes written; the wire or the inner diameter may be off";

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let of_a_piece = weights(&context.pattern.claims);
    if let (Some(piece), Some(size), false) = (context.piece, context.weave.size_asked(), of_a_piece.is_empty()) {
        let counts = Counts::without_length(context.weave, piece);
        let of = format!("the {} rings of one piece ({})", counts.rings(), size.words(counts.lattice));
        held(&of_a_piece, "", &of, counts.grams(), findings);
    }
    let of_all = weights(&context.pattern.claims_of_all);
    let class = (!of_all.is_empty()).then(|| Class::without_length(context.weave).ok()).flatten();
    if let Some(class) = class.filter(Class::size_asked) {
        let of = format!("the {} rings of {} pieces", class.sum(Counts::rings), class.pieces());
        held(&of_all, " in all", &of, class.grams(), findings);
    }
}

fn weights(claims: &[Spanned<Claim>]) -> Vec<(&Number, Span)> {
    let weights = claims.iter().filter_map(|c| match &c.value {
        Claim::Weight(number) => Some((number, c.span)),
        _ => None,
    });
    weights.collect()
}

/// Claims of a weight against what the rings of something weigh, g.
fn held(claims: &[(&Number, Span)], how: &str, of: &str, grams: Option<f64>, findings: &mut Vec<Diagnostic>) {
    let Some(grams) = grams else { return };
    for (number, span) in claims {
        let off = grams - number.value;
        if off.abs() <= half_step(number) + 1e-9 {
            continue;
        }
        let places = decimals(number).unwrap_or(1).max(1) as usize;
        let more = if off > 0.0 { "more" } else { "less" };
        let message = format!(
            "{} g is claimed{how}, but {of} weigh {grams:.places$} g: {:.places$} g {more}",
            number.text,
            off.abs()
        );
        let label = format!("by size and material: {grams:.places$} g");
        findings.push(Diagnostic::error(NAME, *span, message).label(label).help(HELP));
    }
}
