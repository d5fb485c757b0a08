//! A claimed weight is not that of the counted rings.

use crate::lint::Context;
use crate::notation::Claim;
use crate::report::Diagnostic;
use crate::supply::{Class, Counts, decimals, half_step};

const NAME: &str = "claim-weight";
const HELP: &str =
    "weights are of the rings alone, without a clasp and spares, at the sizes written; the wire or the inner diameter may be off";

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    of_a_piece(context, findings);
    of_all(context, findings);
}

/// What is claimed of all that is made.
fn of_all(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let claims = context.pattern.claims_of_all.iter().filter_map(|c| match &c.value {
        Claim::Weight(number) => Some((number, c.span)),
        _ => None,
    });
    let claims: Vec<_> = claims.collect();
    let class = (!claims.is_empty()).then(|| Class::without_length(context.weave).ok().filter(Class::size_asked));
    let Some(class) = class.flatten() else { return };
    let Some(grams) = class.grams() else { return };
    for (number, span) in claims {
        let off = grams - number.value;
        if off.abs() <= half_step(number) + 1e-9 {
            continue;
        }
        let places = decimals(number).unwrap_or(1).max(1) as usize;
        let message = format!(
            "{} g is claimed in all, but the {} rings of {} pieces weigh {grams:.places$} g: {:.places$} g {}",
            number.text,
            class.sum(Counts::rings),
            class.pieces(),
            off.abs(),
            if off > 0.0 { "more" } else { "less" }
        );
        findings.push(Diagnostic::error(NAME, span, message).label(format!("by size and material: {grams:.places$} g")).help(HELP));
    }
}

fn of_a_piece(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
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
                NAME,
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
            .help(HELP),
        );
    }
}
