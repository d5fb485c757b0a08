use crate::lint::{Context, Found, Rule};
use crate::pattern::{FamilyId, Lies, PerFamily, Target};
use crate::report::Diagnostic;
use crate::text::Span;

/// Two rings called an eye that cannot have one.
pub struct NoEye;

impl Rule for NoEye {
    const NAME: &str = "no-eye";
    const PAGE: &str = include_str!("no_eye.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let rows = rows(context);
    for meet in context.pattern.passes.iter().flat_map(|p| &p.meets).filter(|m| m.eye) {
        let [one, other] = meet.at.as_slice() else { continue };
        let span = one.span.to(other.span);
        let (a, b) = (context.pattern.ring_name(one), context.pattern.ring_name(other));
        if one.family == other.family && one.offset == other.offset {
            findings.push(eye(span, format!("{a} alone has no eye")).help("an eye belongs to two rings of one row"));
        } else if let Some(link) = linked(context, one, other) {
            findings.push(
                eye(span, format!("{a} and {b} are linked with each other, so they have no eye"))
                    .related(link, "linked here")
                    .help("an eye belongs to two rings of one row that overlap and are not linked; for two single rings write `down` and `up`"),
            );
        } else if rows[one.family] != rows[other.family] {
            findings
                .push(eye(span, format!("{a} and {b} are not in one row, so they have no eye")).help(format!(
                    "if they are, add `lay {a} behind {b}`; for two single rings write `down` and `up`"
                )));
        }
    }
}

fn eye(span: Span, message: String) -> Diagnostic {
    NoEye::at(span, message).label("called an eye")
}

fn linked(context: &Context<'_>, one: &Target, other: &Target) -> Option<Span> {
    let step = other.offset - one.offset;
    context.weave.links().between(one.family, other.family, step).map(|l| l.span)
}

/// The row each family lies in: its own, joined with those it is laid behind or in front of.
fn rows(context: &Context<'_>) -> PerFamily<FamilyId> {
    let mut rows: PerFamily<FamilyId> = context.pattern.families.ids().collect();
    for lying in &context.pattern.lying {
        if let Lies::Behind(one, other) = &lying.lies {
            let (a, b) = (rows[one.family], rows[other.family]);
            rows = rows.map(|row| if *row == b { a } else { *row });
        }
    }
    rows
}
