use crate::lint::{Context, Found, Rule};
use crate::pattern::{BaseFault, MOST_BASES};
use crate::report::Diagnostic;

/// A base that cannot be followed.
pub struct UnknownBase;

impl Rule for UnknownBase {
    const NAME: &str = "unknown-base";
    const PAGE: &str = include_str!("unknown_base.md");
    const FOUND: Found = Found::InText(check);
    const BREAKS_GRAPH: bool = true;
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for file in context.weave.files() {
        let (Some((name, span)), Some(fault)) = (&file.base, &file.base_fault) else { continue };
        let found = |message: String| UnknownBase::at(*span, message);
        findings.push(match fault {
            BaseFault::Missing(near) => {
                let missing = found(format!("there is no weave called `{name}`, built in or beside this file"));
                match near {
                    Some(near) => missing.fix(format!("write \"{near}\""), *span, format!("\"{near}\"")),
                    None => missing.help("`byrnie weaves` lists the built-in weaves"),
                }
            }
            BaseFault::Unreadable(why) => found(format!("the base `{name}` cannot be read: {why}")),
            BaseFault::Circle => found(format!("the base `{name}` leads back to this weave")),
            BaseFault::TooDeep => found(format!("more than {MOST_BASES} weaves are based on one another"))
                .help("write the rings of several bases in one file"),
        });
    }
}
