use super::sitting::{finding, smaller};
use crate::lint::{Context, Found, Rule};
use crate::report::{Diagnostic, Severity};
use crate::settle::Word;

/// Accent rings that rock freely.
pub struct SitsLoose;

impl Rule for SitsLoose {
    const NAME: &str = "sits-loose";
    const PAGE: &str = include_str!("sits_loose.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InPose(check);
}

/// With more room than this, as a part of the wire, the whole piece is loose. (Common practice, no source.)
const MUCH_ROOM: f64 = 0.1;

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(settled) = context.settled_at_sizes() else { return };
    for sits in settled.sits.iter().filter(|s| s.word == Word::Loose) {
        let name = context.family(sits.family);
        let message = format!("`{name}` sits loose: it rocks by {:.0}° when the piece is drawn tight", sits.rock_deg);
        let smaller = smaller(context, sits).unwrap_or("try a smaller inner diameter".to_owned());
        let mut help = format!("{smaller}; or try thicker wire");
        // What lies in a loose base cannot sit still.
        if let Some(room) = settled.room().filter(|r| *r > MUCH_ROOM) {
            let percent = 100.0 * room;
            help += &format!(
                "; the whole piece is loose (all wires could be {percent:.0} % thicker): try smaller rings for the base too"
            );
        }
        findings.push(finding::<SitsLoose>(context, sits, message).help(help));
    }
}
