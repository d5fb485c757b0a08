//! A number of repeats, rows, columns, pieces or steps that is nought.

use crate::lint::Context;
use crate::notation::{MakePart, What};
use crate::report::Diagnostic;
use crate::text::Span;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for statement in context.statements() {
        match &statement.what {
            What::MakePart(parts) | What::Bag { parts, .. } => {
                for part in parts {
                    let (MakePart::Repeats(0)
                    | MakePart::Rows(0)
                    | MakePart::Columns(0)
                    | MakePart::Pieces(0)
                    | MakePart::Measured(0, _)) = &part.value
                    else {
                        continue;
                    };
                    findings.push(found(context, part.span, "there is nothing to make or to measure in none"));
                }
            }
            What::Accent { every, from } => {
                let nought = every.iter().chain(from).filter(|n| n.value == 0);
                findings.extend(nought.map(|n| found(context, n.span, "repeats are counted from 1")));
            }
            _ => {}
        }
    }
}

fn found(context: &Context<'_>, span: Span, why: &str) -> Diagnostic {
    Diagnostic::error("nothing-to-make", span, format!("`{}` cannot be: {why}", context.words(span)))
        .label("at least 1")
        .help("write 1 or more; it is read as 1")
}
