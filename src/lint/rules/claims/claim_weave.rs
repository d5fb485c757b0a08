use crate::library::{Identity, Library, Lies};
use crate::lint::{Context, Found, Rule};
use crate::notation::Claim;
use crate::pattern::{Bases, Found as Weaves};
use crate::report::Diagnostic;
use crate::text::{Span, Spanned};

/// A weave is claimed to be a built-in one, and describes another.
pub struct ClaimWeave;

impl Rule for ClaimWeave {
    const NAME: &str = "claim-weave";
    const PAGE: &str = include_str!("claim_weave.md");
    const FOUND: Found = Found::InPose(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for claim in context.claims {
        let Claim::Weave(name) = &claim.value else { continue };
        match Identity::built_in(&name.value) {
            None => findings.push(unknown(name)),
            Some(claimed) => {
                let own = Identity::of(context.weave);
                // Where the links are the same and one of the two does not settle, nothing can be said.
                let open = claimed.links_of(&own) && (claimed.pose().is_err() || own.pose().is_err());
                if !claimed.is(&own) && !open {
                    let woven = context.pattern.passes.first().map_or(claim.span, |pass| pass.span);
                    findings.push(other(name, &claimed, &own, woven));
                }
            }
        }
    }
}

fn unknown(name: &Spanned<String>) -> Diagnostic {
    let finding = ClaimWeave::at(name.span, format!("no built-in weave is called {}", name.value));
    match Library.find(&name.value) {
        Weaves::Missing { nearest: Some(near) } => finding.help(format!("did you mean `{near}`?")),
        _ => finding.help("`byrnie weaves` lists the built-in weaves"),
    }
}

/// What the text describes instead, and where the two differ.
fn other(name: &Spanned<String>, claimed: &Identity, own: &Identity, woven: Span) -> Diagnostic {
    let message = match Identity::all().into_iter().find(|weave| weave.is(own)) {
        Some(weave) => format!("the text says this is {}; it is {}", claimed.name, weave.name),
        None => format!("the text says this is {}; it is another weave, none of the built-in ones", claimed.name),
    };
    let lies = |one: &Identity| one.pose().map_or_else(|why| why.to_string(), |lies: Lies| lies.to_string());
    // A pose is found, not proved.
    let (found, differs) = if claimed.links_of(own) {
        (
            ClaimWeave::warning(name.span, message),
            "the links are the same or mirror images, and the rings lie differently",
        )
    } else {
        (ClaimWeave::at(name.span, message), "the rings pass one another differently")
    };
    found
        .label(format!("{} {}", claimed.name, lies(claimed)))
        .related(woven, format!("this one {}", lies(own)))
        .help(format!("{differs}: check the passes and the lines on lying, or correct the claim"))
}
