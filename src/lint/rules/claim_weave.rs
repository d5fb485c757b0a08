//! A weave is claimed to be a built-in one, and describes another.

use crate::library::{BasePose, Identity, Library};
use crate::lint::Context;
use crate::notation::Claim;
use crate::pattern::{Bases, Found};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for claim in &context.pattern.claims {
        let Claim::Weave(name) = &claim.value else { continue };
        match Identity::built_in(&name.value) {
            None => findings.push(unknown(name)),
            Some(claimed) => {
                let own = Identity::of(context.weave);
                // Where the links are the same and one of the two does not settle, nothing can be said.
                let open = claimed.same_links_or_mirrored(&own) && (claimed.pose().is_err() || own.pose().is_err());
                if !claimed.is_described_by(&own) && !open {
                    let woven = context.pattern.passes.first().map_or(claim.span, |pass| pass.span);
                    findings.push(other(name, &claimed, &own, woven));
                }
            }
        }
    }
}

fn unknown(name: &Spanned<String>) -> Diagnostic {
    let finding = Diagnostic::error("claim-weave", name.span, format!("no built-in weave is called {}", name.value));
    match Library.find(&name.value) {
        Found::Missing { nearest: Some(near) } => finding.help(format!("did you mean `{near}`?")),
        _ => finding.help("`byrnie weaves` lists them"),
    }
}

/// What the text describes instead, and where the two part.
fn other(name: &Spanned<String>, claimed: &Identity, own: &Identity, woven: Span) -> Diagnostic {
    let described = Identity::all().iter().find(|weave| weave.is_described_by(own));
    let message = match &described {
        Some(weave) => format!("claimed to be {}, but this is {}", claimed.name, weave.name),
        None => format!("claimed to be {}, but this is another weave, and none of the built-in ones", claimed.name),
    };
    let lies = |one: &Identity| one.pose().map_or_else(|why| why.to_string(), |pose: BasePose| pose.to_string());
    // A pose is found, not proved.
    let (new, parts): (fn(&'static str, Span, String) -> Diagnostic, _) = if claimed.same_links_or_mirrored(own) {
        (Diagnostic::warning, "the links are the same, or mirror images: what differs is how the rings lie")
    } else {
        (Diagnostic::error, "rings pass one another otherwise")
    };
    new("claim-weave", name.span, message)
        .label(format!("{} {}", claimed.name, lies(claimed)))
        .related(woven, format!("this one {}", lies(own)))
        .help(format!("{parts}; look at the passes and at what is said of lying, or claim what it is"))
}
