use crate::lint::{Context, Found, Rule};
use crate::pattern::{Lies, Target};
use crate::report::Diagnostic;

/// `lay`, `over`, `under` or `between` given for rings that are linked.
pub struct LiesThoughLinked;

impl Rule for LiesThoughLinked {
    const NAME: &str = "lies-though-linked";
    const PAGE: &str = include_str!("lies_though_linked.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
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
                    LiesThoughLinked::at(
                        lying.span,
                        format!("{a} and {b} are linked, so each lies both over and under the other"),
                    )
                    .label("only rings that are not linked lie so")
                    .related(link.span, "linked here")
                    .help("leave this out, or name two rings that are not linked"),
                );
            }
        }
    }
}
