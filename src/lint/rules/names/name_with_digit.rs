//! A family of a repeating piece whose name ends in a digit.

use crate::lint::Context;
use crate::pattern::Lattice;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    if context.pattern.lattice == Lattice::Unit {
        return;
    }
    for family in &context.pattern.families {
        let name = &family.name;
        if name.value.ends_with(|c: char| c.is_ascii_digit()) {
            let bare = name.value.trim_end_matches(|c: char| c.is_ascii_digit());
            findings.push(
                Diagnostic::error(
                    "name-with-digit",
                    name.span,
                    format!("`{}` would be mistaken for one ring of a family `{bare}`", name.value),
                )
                .label("ends in a digit")
                .help(format!("in a repeat the number behind a name counts repeats: {bare}1 is the first ring of {bare}; end the name in a letter")),
            );
        }
    }
}
