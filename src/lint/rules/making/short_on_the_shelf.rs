use crate::count::{Class, wants};
use crate::lint::{Context, Found, MOST_FINDINGS, Rule};
use crate::report::{Diagnostic, Severity};
use crate::shelf::{Need, Shelf, ShelfRing, needs};
use crate::text::{Span, count, list};
use crate::weave::Weave;

/// The shelf has too few rings for all that is made.
pub struct ShortOnTheShelf;

impl Rule for ShortOnTheShelf {
    const NAME: &str = "short-on-the-shelf";
    const PAGE: &str = include_str!("short_on_the_shelf.md");
    const SEVERITY: Severity = Severity::Warning;
    const FOUND: Found = Found::OnShelf;
}

/// The rings of which the shelf has too few for all that is made, spares included. Nothing is found where the text does not
/// say how much is made, or a piece has too many rings to count.
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
    let with = if spares { ", spares included" } else { "" };
    let takes = format!("{} takes {}{colour}{with}", list(&kinds, "and"), count(want.rings, "ring"));
    let (message, help) = match need.line {
        None => (
            format!("{takes}; the shelf has none of this size and material"),
            "buy them, or let `byrnie fit` find rings on the shelf that fit".to_owned(),
        ),
        Some(line) => (
            format!("{takes}; the shelf has {}", on_hand(line)),
            match (need.packs(), line.sold.as_deref()) {
                (Some(packs), Some(sold)) => format!("buy {} more ({packs} × {sold}), or make fewer", need.short()),
                _ => format!("buy {} more, or make fewer", need.short()),
            },
        ),
    };
    ShortOnTheShelf::at(place(weave, want), message).label(format!("{} too few", need.short())).help(help)
}

fn on_hand(line: &ShelfRing) -> String {
    match line.on_hand {
        Some(rings) => format!("{rings} (line {}, {})", line.line, line.called()),
        None => format!("an unknown number (line {}, {})", line.line, line.called()),
    }
}

/// The line of the text that gives these rings their size; the whole piece for rings without one.
fn place(weave: &Weave, want: &crate::count::Want) -> Span {
    let sets = weave.pattern().sets.iter().map(|set| &set.kinds);
    let kinds = std::iter::once(&weave.pattern().kinds).chain(sets).flatten().filter(|k| want.kinds.contains(&k.name));
    let own = kinds.filter(|k| Some(crate::pattern::KindSize::of(k)) == want.size).find_map(|k| k.span);
    own.unwrap_or_else(|| Context::new(weave, None).whole())
}
