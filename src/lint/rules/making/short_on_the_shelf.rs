//! What is made against what is on the shelf.

use super::context::Context;
use crate::count::{Class, wants};
use crate::lint::MOST_FINDINGS;
use crate::report::Diagnostic;
use crate::shelf::{Need, Shelf, ShelfRing, needs};
use crate::text::Span;
use crate::weave::Weave;

/// The name of the rule.
pub const SHORT: &str = "short-on-the-shelf";

/// Rings of which the shelf has too few for all that is made, spares with it. Nothing is found where the text does not say
/// how much is made, or a piece has too many rings to count.
pub fn check_shelf(weave: &Weave, shelf: &Shelf) -> Vec<Diagnostic> {
    let class = Class::without_length(weave).ok().filter(|class| weave.pattern().whole && class.size_asked());
    let Some(class) = class else { return Vec::new() };
    let needs = needs(&wants(&class), shelf);
    let spares = class.bags.iter().any(|bag| bag.counts.spares.is_some());
    let mut findings: Vec<Diagnostic> =
        needs.iter().filter(|need| need.short() > 0).map(|need| short(weave, need, spares)).collect();
    findings.truncate(MOST_FINDINGS);
    findings
}

fn short(weave: &Weave, need: &Need<'_>, spares: bool) -> Diagnostic {
    let want = &need.want;
    let kinds: Vec<String> = want.kinds.iter().map(|k| format!("`{k}`")).collect();
    let colour = want.colour.as_ref().map_or(String::new(), |c| format!(" in {c}"));
    let with = if spares { ", spares with them" } else { "" };
    let what = format!("{} takes {} rings{colour}{with}", kinds.join(" and "), want.rings);
    let (message, help) = match need.line {
        None => (
            format!("{what}, and the shelf has none of this size and material"),
            "buy them, or ask `byrnie fit` which of the shelf go".to_owned(),
        ),
        Some(line) => (
            format!("{what}, and the shelf has {}: {} too few", on_hand(line), need.short()),
            match (need.packs(), line.sold.as_deref()) {
                (Some(packs), Some(sold)) => format!("buy {packs} × {sold}, or make fewer"),
                _ => "buy them, or make fewer".to_owned(),
            },
        ),
    };
    Diagnostic::warning(SHORT, place(weave, want), message).label("too few of these").help(help)
}

fn on_hand(line: &ShelfRing) -> String {
    match line.on_hand {
        Some(rings) => format!("{rings} (line {}, {})", line.line, line.called()),
        None => format!("an unsaid number (line {}, {})", line.line, line.called()),
    }
}

/// The line of the text that gives these rings their size; of rings without one, the whole piece.
fn place(weave: &Weave, want: &crate::count::Want) -> Span {
    let sets = weave.pattern().sets.iter().map(|set| &set.kinds);
    let kinds = std::iter::once(&weave.pattern().kinds).chain(sets).flatten().filter(|k| want.kinds.contains(&k.name));
    let own = kinds.filter(|k| Some(crate::pattern::KindSize::of(k)) == want.size).find_map(|k| k.span);
    own.unwrap_or_else(|| Context::new(weave, None).whole())
}
