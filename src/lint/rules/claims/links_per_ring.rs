use crate::lint::{Context, Found, Known, Rule};
use crate::notation::Claim;
use crate::pattern::{FamilyId, PerFamily, Shift};
use crate::report::Diagnostic;
use crate::rings::Cell;
use crate::text::{Span, Spanned, list};
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use std::collections::BTreeSet;

/// A claim `N in M` that the ring graph does not bear out.
pub struct LinksPerRing;

impl Rule for LinksPerRing {
    const NAME: &str = "links-per-ring";
    const PAGE: &str = include_str!("links_per_ring.md");
    const FOUND: Found = Found::InGraph(check);
}

/// More claims than this are not looked at.
const MOST_CLAIMS: usize = 1000;

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let mut real: PerFamily<Option<Vec<(usize, usize)>>> = context.pattern.families.map(|_| None);
    for claim in context.claims.iter().take(MOST_CLAIMS) {
        if let Claim::In { links, together, families } = &claim.value {
            let meant = meant(context, families, findings);
            let wanted = (links.value as usize, together.value as usize);
            let mut found = Vec::new();
            for family in &meant {
                let rings = real[*family].get_or_insert_with(|| held_and_alike(context, *family));
                // "In 1" says nothing of rings that lie together.
                let unlike = |r: &&(usize, usize)| r.0 != wanted.0 || wanted.1 > 1 && r.1 != wanted.1;
                found.extend(rings.iter().find(unlike).map(|r| (*family, *r)));
            }
            if !found.is_empty() {
                findings.push(false_claim(context, claim.span, wanted, &found, meant.len()));
            }
        }
    }
}

/// The families a claim speaks of: those it names, or all of the base.
fn meant(context: &Context<'_>, named: &[Spanned<String>], findings: &mut Vec<Diagnostic>) -> Vec<FamilyId> {
    if named.is_empty() {
        let families = context.pattern.families.numbered();
        return families.filter(|(_, f)| f.accent.is_none()).map(|(family, _)| family).collect();
    }
    let mut meant = Vec::new();
    for name in named {
        if let Some(family) = context.pattern.family(&name.value) {
            meant.push(family);
        } else {
            let unknown = LinksPerRing::at(name.span, format!("no ring is called `{}`", name.value));
            let known = Known::words(context.pattern.families.iter().map(|f| f.name.value.as_str()));
            let help = || "use the names of the `ring` lines".to_owned();
            findings.push(known.suggest(unknown, name, help));
        }
    }
    meant
}

/// How many links each ring of a family has in the repeat, and how many rings lie alike with it.
fn held_and_alike(context: &Context<'_>, family: FamilyId) -> Vec<(usize, usize)> {
    let Some(cell) = context.cell else { return Vec::new() };
    let rings = cell.graph.node_indices().filter(|n| cell.graph.node_weight(*n).is_some_and(|r| r.family == family));
    rings.map(|ring| (held_by_base(context, cell, ring), alike(cell, ring))).collect()
}

fn false_claim(
    context: &Context<'_>,
    span: Span,
    wanted: (usize, usize),
    found: &[(FamilyId, (usize, usize))],
    meant: usize,
) -> Diagnostic {
    let each: Vec<String> = found
        .iter()
        .map(|(family, (held, alike))| {
            let alike = if wanted.1 > 1 { *alike } else { 1 };
            format!("{} is {held} in {alike}", context.family(*family))
        })
        .collect();
    let message = format!("the text says {} in {}; {}", wanted.0, wanted.1, list(&each, "and"));
    let diagnostic = LinksPerRing::at(span, message);
    if found.len() < meant {
        diagnostic.help("name the rings you mean, such as `claim 4 in 1 for a`")
    } else {
        diagnostic.help("correct the claim, or look for a missing or extra pass")
    }
}

/// Links of a ring of the repeat, those with accents left out unless it is an accent itself.
fn held_by_base(context: &Context<'_>, cell: &Cell, ring: NodeIndex) -> usize {
    let accent = |n: NodeIndex| context.pattern.families[cell.graph[n].family].accent.is_some();
    if accent(ring) {
        return cell.degree(ring);
    }
    cell.graph.edges(ring).map(|e| if e.target() == ring { 2 } else { usize::from(!accent(e.target())) }).sum()
}

/// How many rings, itself included, are linked with exactly the same rings.
fn alike(cell: &Cell, ring: NodeIndex) -> usize {
    let around = neighbours(cell, ring, Shift::ZERO);
    let Some((first, at)) = around.iter().next() else { return 1 };
    let candidates = neighbours(cell, *first, *at);
    candidates.iter().filter(|(node, at)| neighbours(cell, *node, *at) == around).count().max(1)
}

/// The rings linked with the image of a ring at a shift.
fn neighbours(cell: &Cell, ring: NodeIndex, at: Shift) -> BTreeSet<(NodeIndex, Shift)> {
    let mut around = BTreeSet::new();
    for edge in cell.graph.edges(ring) {
        let shift = edge.weight().shift;
        let Some((from, to)) = cell.graph.edge_endpoints(edge.id()) else { continue };
        if from == ring {
            around.insert((to, at + shift));
        }
        if to == ring {
            around.insert((from, at - shift));
        }
    }
    around
}
