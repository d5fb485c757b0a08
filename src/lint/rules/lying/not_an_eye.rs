use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};

/// Two rings called an eye that have none where they come to lie.
pub struct NotAnEye;

impl Rule for NotAnEye {
    const NAME: &str = "not-an-eye";
    const PAGE: &str = include_str!("not_an_eye.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // Where what is said of lying does not hold, that is the cause.
    let Some(settled) = context.settled.filter(|s| s.broken.is_empty()) else { return };
    for span in &settled.view.no_eyes {
        let message = format!(
            "the two rings of `{}` have no eye when settled: they do not overlap with their fronts facing the same way",
            context.words(*span)
        );
        findings.push(
            NotAnEye::at(*span, message)
                .label("called an eye")
                .help("for two single rings write `down` and `up`; if they lie in a row, add a `lay` line"),
        );
    }
}
