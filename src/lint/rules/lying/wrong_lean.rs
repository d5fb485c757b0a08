//! The weave is stated to lean one way, and what is said of lying makes it lean the other.

use crate::lint::Context;
use crate::pattern::Lies;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled.filter(|s| s.broken.is_empty()) else { return };
    let Some(stated) = context.pattern.lean.first() else { return };
    let tips = &settled.view.tips;
    let found = match settled.lean {
        Some(found) if found == stated.value => return,
        Some(found) => format!("it leans {}", found.word()),
        None if tips.is_empty() || settled.view.lean_changes() => return,
        None => "its eyes stand upright".to_owned(),
    };
    let message =
        format!("stated to lean {}, but in every pose found that lies as the text says {found}", stated.value.word());
    let mut finding = Diagnostic::warning("wrong-lean", stated.span, message).label("not what was found");
    // Only a side tells a weave from its mirror image where every cycle of links is even.
    for lying in context.pattern.lying.iter().filter(|l| matches!(l.lies, Lies::On(..))) {
        finding = finding.related(lying.span, "this decides it");
    }
    findings.push(finding.help(format!(
        "if the rings lie as written, correct the lean; if it is to lean {}, change the side on which they lie, or say `mirrored`",
        stated.value.word()
    )));
}
