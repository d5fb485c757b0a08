use crate::lint::{Context, Found, Rule};
use crate::notation::{MakePart, What};
use crate::report::Diagnostic;
use crate::text::Span;

/// A number of repeats, rows, columns, pieces or steps that is 0.
pub struct NothingToMake;

impl Rule for NothingToMake {
    const NAME: &str = "nothing-to-make";
    const PAGE: &str = include_str!("nothing_to_make.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for statement in &context.statements {
        match &statement.what {
            What::MakePart(parts) | What::Bag { parts, .. } => {
                for part in parts {
                    let what = match part.value {
                        MakePart::Repeats(0) | MakePart::Measured(0, _) => "the number of repeats",
                        MakePart::Rows(0) => "the number of rows",
                        MakePart::Columns(0) => "the number of columns",
                        MakePart::Pieces(0) => "the number of pieces",
                        _ => continue,
                    };
                    findings.push(found(what, part.span));
                }
            }
            What::Accent { every, from } => {
                let zeros = every.iter().chain(from).filter(|n| n.value == 0);
                findings.extend(zeros.map(|n| found("the place of an accent", n.span)));
            }
            _ => {}
        }
    }
}

fn found(what: &str, span: Span) -> Diagnostic {
    NothingToMake::at(span, format!("{what} must be 1 or more")).label("0 is read as 1").help("write 1 or more")
}
