//! A material whose weight is not known.

use crate::lint::Context;
use crate::lint::sizes::KindLine;
use crate::measure::{known_materials, material, materials_called, nearest_material};
use crate::notation::KindPart;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for part in KindLine::all(context).flat_map(|line| line.parts) {
        let KindPart::Material(words) = &part.value else { continue };
        if material(words).is_some() {
            continue;
        }
        let found =
            Diagnostic::warning("unknown-material", part.span, format!("no material called `{words}` is known"))
                .label("cannot be weighed");
        let called = materials_called(words);
        findings.push(match nearest_material(words) {
            _ if !called.is_empty() => found.help(format!("say which: {}", called.join(", "))),
            Some(near) => found.fix(format!("write `{near}`"), part.span, near),
            None => found.help(format!("known are {}; a colour stands in quotes: \"{words}\"", known_materials())),
        });
    }
}
