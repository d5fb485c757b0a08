use super::diagnostic::Diagnostic;
use crate::text::Sources;
use std::fmt::Write as _;

/// Findings as plain lines, one finding after the other: place, severity, rule and message, then
/// indented lines for other places, help and fix.
pub fn plain(sources: &Sources, findings: &[Diagnostic]) -> String {
    let mut out = String::new();
    for finding in findings {
        let (name, (line, column), _) = sources.place(finding.span);
        // Writing to a string cannot fail.
        let _ =
            writeln!(out, "{name}:{line}:{column}: {}[{}]: {}", finding.severity.word(), finding.rule, finding.message);
        for (span, says) in &finding.related {
            let (name, (line, column), _) = sources.place(*span);
            let _ = writeln!(out, "  {name}:{line}:{column}: {says}");
        }
        if let Some(help) = &finding.help {
            let _ = writeln!(out, "  help: {help}");
        }
        if let Some(fix) = &finding.fix {
            let _ = writeln!(out, "  fix: {}", fix.title);
        }
    }
    out
}
