//! What the rules on how an accent sits share.

use crate::lint::{Context, Rule};
use crate::report::Diagnostic;
use crate::settle::Sits;
use crate::text::{count, round_up};

/// The finding on an accent that sits badly, with its figures.
pub fn finding<R: Rule>(context: &Context<'_>, sits: &Sits, message: String) -> Diagnostic {
    let label = format!(
        "lodges in {}, at most {:.0}° apart; rocks by {:.0}°; shortens the piece by up to {:.1} %",
        count(sits.ways as u64, "way"),
        sits.spread_deg,
        sits.rock_deg,
        sits.loss_percent
    );
    let size = context.kind_span(&context.pattern.families[sits.family].kind);
    R::at(context.declared(sits.family), message).label(label).related(size, "its size")
}

/// "try a smaller inner diameter for `accent`: it closes from 7.21 mm, and now has 8.00 mm", where a smaller one closes.
pub fn smaller(context: &Context<'_>, sits: &Sits) -> Option<String> {
    let kind = context.pattern.families[sits.family].kind.as_str();
    let inner = context.size(kind)?.inner_mm?;
    let least = round_up(context.settled?.smallest_inner(context.pattern, kind)?, 0.01);
    (least < inner).then(|| {
        format!("try a smaller inner diameter for `{kind}`: it closes from {least:.2} mm, and now has {inner:.2} mm")
    })
}
