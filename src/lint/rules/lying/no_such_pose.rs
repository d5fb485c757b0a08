use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};

/// What the text says about how rings lie is true in no pose that was found.
pub struct NoSuchPose;

impl Rule for NoSuchPose {
    const NAME: &str = "no-such-pose";
    const PAGE: &str = include_str!("no_such_pose.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled else { return };
    let mut odd = settled.broken.iter().filter_map(|number| context.pattern.lying.get(*number));
    let Some(first) = odd.next() else { return };
    let message = format!(
        "no pose found in {} starts agrees with the whole text; in the nearest one, `{}` is false",
        settled.starts,
        context.words(first.span)
    );
    let mut finding = NoSuchPose::at(first.span, message).label("false in the nearest pose");
    for lying in odd {
        finding = finding.related(lying.span, "also false");
    }
    for (number, lying) in context.pattern.lying.iter().enumerate() {
        if !settled.broken.contains(&number) && lying.accent.is_none() {
            finding = finding.related(lying.span, "true");
        }
    }
    findings.push(finding.help("this is not a proof, but check this line first; leave out what you are not sure of, and see how the rings lie with `byrnie settle`"));
}
