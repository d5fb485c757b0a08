//! A claimed aspect ratio is not that of the sizes.

use crate::lint::Context;
use crate::measure::{decimals, half_step};
use crate::notation::Claim;
use crate::pattern::KindSize;
use crate::report::Diagnostic;

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for claim in &context.pattern.claims {
        let Claim::AspectRatio { number, kinds, .. } = &claim.value else { continue };
        if number.value <= 0.0 {
            continue; // Has its own finding.
        }
        let named = |s: &&KindSize| kinds.is_empty() || kinds.iter().any(|k| k.value == s.name);
        let sizes: Vec<&KindSize> = context.sizes.iter().filter(named).collect();
        let places = decimals(number).unwrap_or(2).max(2) as usize;
        let off: Vec<_> = sizes
            .iter()
            .filter_map(|s| Some((s, s.aspect_ratio?)))
            .filter(|(_, real)| (real - number.value).abs() > half_step(number) + 1e-9)
            .collect();
        let Some((first, real)) = off.first() else { continue };
        let sold = |s: &KindSize| {
            s.sold_as()
                .map_or(String::new(), |sold| format!(" as measured ({sold:.places$} by the sizes it is sold by)"))
        };
        let list: Vec<String> =
            off.iter().map(|(s, real)| format!("`{}` has {real:.places$}{}", s.name, sold(s))).collect();
        let mut found = Diagnostic::error(
            "claim-aspect-ratio",
            claim.span,
            format!("AR {} is claimed, but {}", number.text, list.join(" and ")),
        )
        .label("not what the sizes give")
        .help(format!("claim AR {real:.places$} for {}, or correct its sizes", first.name));
        for (size, _) in &off {
            if let Some(span) = context.pattern.kind(&size.name).and_then(|k| k.span) {
                found = found.related(span, says(size));
            }
        }
        findings.push(found);
    }
}

fn says(size: &KindSize) -> String {
    match (size.wire_mm, size.inner_mm) {
        (Some(wire), Some(inner)) => format!("inner {inner:.3} mm over wire {wire:.3} mm"),
        _ => "AR as written".to_owned(),
    }
}
