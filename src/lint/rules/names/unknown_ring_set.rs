//! A bag is made of a set of rings that the text does not have.

use crate::lint::Context;
use crate::notation::What;
use crate::report::Diagnostic;
use crate::text::nearest;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let sets = || context.pattern.sets.iter().map(|s| s.name.value.as_str());
    let named =
        context.weave.files().first().into_iter().flat_map(|f| &f.tree.statements).filter_map(|s| match &s.what {
            What::Bag { rings, .. } => Some(rings),
            _ => None,
        });
    // Sets of a variant are its own, and it has none.
    if context.pattern.bags.is_empty() {
        return;
    }
    for name in named.flatten().filter(|name| sets().all(|set| set != name.value)) {
        let message = format!("no set of rings is called \"{}\"", name.value);
        let found = Diagnostic::error("unknown-rings", name.span, message).label("these rings have no sizes");
        let known: Vec<String> = sets().take(12).map(|set| format!("\"{set}\"")).collect();
        findings.push(match nearest(&name.value, sets()) {
            Some(near) => found.fix(format!("write \"{near}\""), name.span, format!("\"{near}\"")),
            None if known.is_empty() => found.help(format!(
                "add the set: a heading `rings \"{}\"`, and below it a line such as main  wire 1.2 mm, inner 5 mm",
                name.value
            )),
            None => found.help(format!("the sets are {}", known.join(", "))),
        });
    }
}
