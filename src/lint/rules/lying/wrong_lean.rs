use crate::lint::{Context, Found, Rule};
use crate::pattern::Lies;
use crate::report::{Diagnostic, Severity};

/// The weave is stated to lean one way, and what is said of lying makes it lean the other.
pub struct WrongLean;

impl Rule for WrongLean {
    const NAME: &str = "wrong-lean";
    const PAGE: &str = include_str!("wrong_lean.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled.filter(|s| s.broken.is_empty()) else { return };
    let Some(stated) = context.pattern.lean.first() else { return };
    let tips = &settled.view.tips;
    let found = match settled.lean {
        Some(found) if found == stated.value => return,
        Some(found) => format!("it leans {}", found.word()),
        None if tips.is_empty() || settled.view.lean_changes() => return,
        None => "its eyes stand upright".to_owned(),
    };
    let message = format!(
        "the text says the weave leans {}; {found} in every pose found that agrees with the text",
        stated.value.word()
    );
    let mut finding = WrongLean::at(stated.span, message).label("another lean was found");
    // Where every cycle of links is even, only a side distinguishes a weave from its mirror image.
    for lying in context.pattern.lying.iter().filter(|l| matches!(l.lies, Lies::On(..))) {
        finding = finding.related(lying.span, "this line decides it");
    }
    findings.push(finding.help(format!(
        "if the rings lie as written, correct the lean; if the weave should lean {}, change the side on which they lie, or add `mirrored`",
        stated.value.word()
    )));
}
