//! What is said of how rings lie holds in no pose that was found.

use crate::lint::Context;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled else { return };
    let mut odd = settled.broken.iter().filter_map(|number| context.pattern.lying.get(*number));
    let Some(first) = odd.next() else { return };
    let message = format!(
        "no pose found in {} starts lies as all of the text says; in the nearest `{}` does not hold",
        settled.starts,
        context.words(first.span)
    );
    let mut finding = Diagnostic::warning("no-such-pose", first.span, message).label("the odd one out");
    for lying in odd {
        finding = finding.related(lying.span, "nor does this");
    }
    for (number, lying) in context.pattern.lying.iter().enumerate() {
        if !settled.broken.contains(&number) && lying.accent.is_none() {
            finding = finding.related(lying.span, "holds there");
        }
    }
    findings.push(finding.help("that proves nothing, but look at this statement first; leave out what you are not sure of and see with `byrnie settle` how it lies"));
}
