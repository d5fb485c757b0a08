//! `lay`, `over`, `under` or `between` said of rings that are linked.

use crate::lint::Context;
use crate::pattern::{Lies, Target};
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for lying in &context.pattern.lying {
        let pairs: Vec<(&Target, &Target)> = match &lying.lies {
            Lies::Behind(one, other) | Lies::Over(one, other) => vec![(one, other)],
            Lies::Between(ring, one, other) => vec![(ring, one), (ring, other)],
            Lies::Folded(..) | Lies::On(..) | Lies::Turning(_) => Vec::new(),
        };
        for (one, other) in pairs {
            let step = other.offset - one.offset;
            let link = context.weave.links().between(one.family, other.family, step);
            if let Some(link) = link {
                let (a, b) = (context.pattern.ring_name(one), context.pattern.ring_name(other));
                findings.push(
                    Diagnostic::error(
                        "lies-though-linked",
                        lying.span,
                        format!("{a} and {b} are linked, so each lies both over and under the other"),
                    )
                    .label("says how unlinked rings lie")
                    .related(link.span, "linked here")
                    .help("leave this out, or name a ring that is not linked with it"),
                );
            }
        }
    }
}
