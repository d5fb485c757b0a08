//! Two rings, or two kinds, of one name.

use crate::lint::Context;
use crate::notation::What;
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    // Bases are read after the file that stands on them, and declare first.
    let mut rings: Vec<&Spanned<String>> = Vec::new();
    for file in context.weave.files.iter().rev() {
        let mut kinds: Vec<&Spanned<String>> = Vec::new();
        for statement in &file.tree.statements {
            match &statement.what {
                What::Ring { names, .. } => {
                    for name in names {
                        report(findings, &rings, name, "ring");
                        rings.push(name);
                    }
                }
                What::Kind { name, .. } => {
                    report(findings, &kinds, name, "kind");
                    kinds.push(name);
                }
                _ => {}
            }
        }
    }
}

fn report(findings: &mut Vec<Diagnostic>, before: &[&Spanned<String>], name: &Spanned<String>, what: &str) {
    let Some(first) = before.iter().find(|n| n.value == name.value) else { return };
    let span: Span = name.span;
    findings.push(
        Diagnostic::error("name-used-twice", span, format!("there is a {what} called `{}` already", name.value))
            .label("used again here")
            .related(first.span, "first used here")
            .help(format!("give one of the two {what}s another name")),
    );
}
