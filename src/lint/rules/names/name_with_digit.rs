use crate::lint::{Context, Found, Rule};
use crate::pattern::Lattice;
use crate::report::Diagnostic;

/// A family of a repeating piece whose name ends in a digit.
pub struct NameWithDigit;

impl Rule for NameWithDigit {
    const NAME: &str = "name-with-digit";
    const PAGE: &str = include_str!("name_with_digit.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    if context.pattern.lattice == Lattice::Unit {
        return;
    }
    for family in &context.pattern.families {
        let name = &family.name;
        if name.value.ends_with(|c: char| c.is_ascii_digit()) {
            let bare = name.value.trim_end_matches(|c: char| c.is_ascii_digit());
            findings.push(
                NameWithDigit::at(name.span,
                    format!("`{}` would be taken for one of the rings `{bare}`", name.value),
                )
                .label("ends in a digit")
                .help(format!("end the name in a letter: a number after a name is a repeat, and {bare}1 is the first ring {bare}")),
            );
        }
    }
}
