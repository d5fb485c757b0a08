use crate::lint::{Context, Found, KindLine, Rule};
use crate::measure::{known_materials, material, materials_called, nearest_material};
use crate::notation::KindPart;
use crate::report::{Diagnostic, Severity};

/// A material whose weight is not known.
pub struct UnknownMaterial;

impl Rule for UnknownMaterial {
    const NAME: &str = "unknown-material";
    const PAGE: &str = include_str!("unknown_material.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for part in KindLine::all(context).flat_map(|line| line.parts) {
        let KindPart::Material(words) = &part.value else { continue };
        if material(words).is_some() {
            continue;
        }
        let found =
            UnknownMaterial::at(part.span, format!("unknown material `{words}`")).label("its weight is unknown");
        let called = materials_called(words);
        findings.push(match nearest_material(words) {
            _ if !called.is_empty() => found.help(format!("write one of {}", called.join(", "))),
            Some(near) => found.fix(format!("write `{near}`"), part.span, near),
            None => found.help(format!("write one of {}; a colour goes in quotes: \"{words}\"", known_materials())),
        });
    }
}
