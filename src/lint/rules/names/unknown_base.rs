//! A base that cannot be followed.

use crate::lint::Context;
use crate::pattern::BaseFault;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for file in context.weave.files() {
        let (Some((name, span)), Some(fault)) = (&file.base, &file.base_fault) else { continue };
        let found = |message: String| Diagnostic::error("unknown-base", *span, message);
        findings.push(match fault {
            BaseFault::Missing(near) => {
                let missing = found(format!("there is no weave called `{name}`, built in or beside this file"));
                match near {
                    Some(near) => missing.fix(format!("write \"{near}\""), *span, format!("\"{near}\"")),
                    None => missing.help("`byrnie weaves` lists the built-in ones"),
                }
            }
            BaseFault::Unreadable(why) => found(format!("the base `{name}` cannot be read: {why}")),
            BaseFault::Circle => found(format!("`{name}` stands on itself, directly or through its own base")),
            BaseFault::TooDeep => found("more than 16 bases stand on one another".to_owned())
                .help("write the rings of the lower ones out in one file"),
        });
    }
}
