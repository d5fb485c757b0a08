use crate::lint::{Context, Found, Rule};
use crate::notation::State;
use crate::pattern::{FamilyId, PerFamily, Shift};
use crate::report::{Diagnostic, Severity};

/// A ring passed before it is woven in.
pub struct BeforeItExists;

impl Rule for BeforeItExists {
    const NAME: &str = "before-it-exists";
    const PAGE: &str = include_str!("before_it_exists.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let pattern = context.pattern;
    // The first statement that weaves each family in.
    let mut first_line: PerFamily<Option<usize>> = pattern.families.map(|_| None);
    for (number, pass) in pattern.passes.iter().enumerate() {
        first_line[pass.family].get_or_insert(number);
    }
    let open = |family: FamilyId| pattern.families[family].state == State::Open;
    for (number, pass) in pattern.passes.iter().enumerate() {
        for target in pass.meets.iter().flat_map(|m| &m.at) {
            let Some(line) = first_line[target.family].filter(|_| open(target.family)) else { continue };
            let other_accent = pattern.passes.get(line).is_some_and(|p| p.accent != pass.accent);
            // Accents are put on when the base is finished, so all its rings are there.
            if other_accent && pass.accent.is_some() || target.family == pass.family && target.offset == Shift::ZERO {
                continue;
            }
            let later_repeat = target.offset > Shift::ZERO;
            let later_line = target.offset == Shift::ZERO && line > number;
            if !(later_repeat || later_line) || there_from_the_start(context, pass.family) {
                continue;
            }
            let name = pattern.ring_name(target);
            let passing = context.words(pass.ring);
            let place = pattern.passes.get(line).map_or(pass.span, |p| p.ring);
            let when = if later_repeat { "a later repeat" } else { "a later line" };
            let help = if later_repeat {
                format!("linking is mutual: let {name} pass {passing} instead, counted from its own repeat")
            } else {
                "put the line that weaves it in first".to_owned()
            };
            findings.push(
                BeforeItExists::at(target.span, format!("{passing} passes {name}, which does not exist until {when}"))
                    .label("not in the work yet")
                    .related(place, "woven in here")
                    .help(help),
            );
        }
    }
}

/// A closed ring is there from the start and meets whatever is woven in after it.
fn there_from_the_start(context: &Context<'_>, family: FamilyId) -> bool {
    context.pattern.families[family].state == State::Closed
}
