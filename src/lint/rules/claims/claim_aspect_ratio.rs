use crate::lint::{Context, Found, Rule};
use crate::measure::{decimals, half_step};
use crate::notation::Claim;
use crate::pattern::KindSize;
use crate::report::Diagnostic;
use crate::text::list;

/// A claimed aspect ratio is not that of the sizes.
pub struct ClaimAspectRatio;

impl Rule for ClaimAspectRatio {
    const NAME: &str = "claim-aspect-ratio";
    const PAGE: &str = include_str!("claim_aspect_ratio.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    for claim in context.claims {
        let Claim::AspectRatio { number, kinds, .. } = &claim.value else { continue };
        if number.value <= 0.0 {
            continue; // Has its own finding.
        }
        let named = |s: &&KindSize| kinds.is_empty() || kinds.iter().any(|k| k.value == s.name);
        let ratios = context.sizes.iter().filter(named).filter_map(|s| Some((s, s.aspect_ratio?)));
        let off: Vec<_> = ratios.filter(|(_, real)| (real - number.value).abs() > half_step(number) + 1e-9).collect();
        let Some((first, real)) = off.first() else { continue };
        let places = decimals(number).unwrap_or(2).max(2) as usize;
        let has = |(size, real): &(&KindSize, f64)| match size.sold_as() {
            Some(sold) => format!("`{}` measures {real:.places$} (sold as {sold:.places$})", size.name),
            None => format!("`{}` has {real:.places$}", size.name),
        };
        let all: Vec<String> = off.iter().map(has).collect();
        let message = format!("the text says AR {}; {}", number.text, list(&all, "and"));
        let mut found = ClaimAspectRatio::at(claim.span, message)
            .label("the sizes give another AR")
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
        (Some(wire), Some(inner)) => format!("inner diameter {inner:.3} mm, wire {wire:.3} mm"),
        _ => "AR as written".to_owned(),
    }
}
