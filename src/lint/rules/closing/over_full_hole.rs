use crate::lint::{Context, Found, Rule};
use crate::measure::hole_needed;
use crate::pattern::{FamilyId, KindSize, stretches};
use crate::report::Diagnostic;
use crate::rings::{Cell, CellRing};
use crate::text::round_up;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;

/// More wires pass through a ring than its hole can hold.
pub struct OverFullHole;

impl Rule for OverFullHole {
    const NAME: &str = "over-full-hole";
    const PAGE: &str = include_str!("over_full_hole.md");
    const FOUND: Found = Found::InGraph(check);
}

/// A ring of the repeat, what passes through it and what that needs. `wire`, `inner` and `needed` are in
/// mm, or in wires where only the aspect ratio is known.
struct Full<'w> {
    number: NodeIndex,
    ring: CellRing,
    size: &'w KindSize,
    wires: Vec<f64>,
    wire: f64,
    inner: f64,
    needed: f64,
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some(cell) = context.cell else { return };
    let full: Vec<_> = cell.graph.node_indices().filter_map(|n| full(context, cell, n)).collect();
    // Rings of one kind have one line to correct: the ring that needs most stands for the others.
    for size in &context.sizes {
        let of_kind = full.iter().filter(|f| f.size.name == size.name);
        let worst = of_kind.reduce(|worst, f| if f.needed > worst.needed { f } else { worst });
        findings.extend(worst.map(|worst| finding(context, cell, worst)));
    }
}

fn size<'c>(context: &'c Context<'_>, family: FamilyId) -> Option<&'c KindSize> {
    context.size(&context.pattern.families[family].kind)
}

fn full<'c>(context: &'c Context<'_>, cell: &Cell, number: NodeIndex) -> Option<Full<'c>> {
    let ring = *cell.graph.node_weight(number)?;
    let own = size(context, ring.family)?;
    // Rings of rubber make room, and so does a ring of metal for them.
    let ratio = own.aspect_ratio.filter(|_| !stretches(context.pattern, &own.name))?;
    // Where no wire is given, rings of the same kind are measured in wires.
    let (wire, inner) = own.wire_mm.zip(own.inner_mm).unwrap_or((1.0, ratio));
    if inner <= wire && context.pattern.kind(&own.name).is_some_and(|k| k.wire.is_some() && k.inner.is_some()) {
        return None; // Has its own finding.
    }
    let in_mm = own.wire_mm.zip(own.inner_mm).is_some();
    let mut wires = Vec::new();
    for edge in cell.graph.edges(number) {
        let (from, to) = (edge.source(), edge.target());
        let other = if from == number { to } else { from };
        let other = size(context, cell.graph.node_weight(other)?.family);
        let thick = match other.filter(|o| !stretches(context.pattern, &o.name)) {
            Some(other) if other.name == own.name => Some(wire),
            Some(other) if in_mm => other.wire_mm,
            _ => None,
        };
        // A ring linked with its own neighbours in the repeat has one before it and one behind it.
        wires.extend(std::iter::repeat_n(thick, if from == to { 2 } else { 1 }).flatten());
    }
    let needed = hole_needed(&wires);
    let over = needed > inner * (1.0 + 1e-9) && in_piece(context, ring.family, cell.degree(number));
    over.then_some(Full { number, ring, size: own, wires, wire, inner, needed })
}

/// Whether the piece is long enough to have such a ring with all its links.
fn in_piece(context: &Context<'_>, family: FamilyId, links: usize) -> bool {
    let Some(piece) = context.piece else { return true };
    piece.graph.node_indices().any(|n| {
        piece.graph.node_weight(n).is_some_and(|r| r.family == family) && piece.graph.edges(n).count() >= links
    })
}

fn finding(context: &Context<'_>, cell: &Cell, full: &Full<'_>) -> Diagnostic {
    let Full { number, ring, size, wires, wire, inner, needed } = full;
    let kind = context.kind_span(&size.name);
    let family = context.family(ring.family);
    // Rounded up, so that what is advised is enough for the bound.
    let up = |x: f64| round_up(x, 0.01);
    let thick = |x: f64| if size.wire_mm.is_some() { format!(" of {x:.2} mm") } else { String::new() };
    let (least, most) = wires.iter().fold((f64::INFINITY, 0.0_f64), |(l, m), w| (l.min(*w), m.max(*w)));
    let through = match wires.len() {
        1 => format!("1 wire{} passes", thick(most)),
        n if most - least < 1e-9 => format!("{n} wires{} pass", thick(most)),
        n => format!("{n} wires of {least:.2} to {most:.2} mm pass"),
    };
    let mut found = OverFullHole::at(
        kind,
        format!(
            "the hole of `{family}` is too small: {through} through it, which needs AR {:.2} or more (now {:.3})",
            up(needed / wire),
            inner / wire
        ),
    )
    .label(format!("proved: no circle narrower than {:.3} wires holds them", needed / wire))
    .related(context.declared(ring.family), format!("`{family}` is of the kind `{}`", size.name));
    let pass = cell.graph.edges(*number).next().and_then(|e| context.weave.links().links.get(e.weight().link));
    if let Some(link) = pass {
        found = found.related(link.span, "one of its links");
    }
    found.help(match size.wire_mm {
        Some(_) => format!(
            "this wire needs an inner diameter of {:.2} mm or more (now {inner:.2} mm), and a wider one to move",
            up(*needed)
        ),
        None => "take larger rings of the same wire, or thinner wire".to_owned(),
    })
}
