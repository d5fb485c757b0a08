use crate::lint::{Context, Found, Rule};
use crate::pattern::{FamilyId, Lattice, Shift};
use crate::report::Diagnostic;
use crate::rings::Sublattice;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;

/// Repeats that do not join.
pub struct RepeatsApart;

impl Rule for RepeatsApart {
    const NAME: &str = "repeats-apart";
    const PAGE: &str = include_str!("repeats_apart.md");
    const FOUND: Found = Found::InGraph(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let Some((family, strands)) = apart(context) else { return };
    let name = context.family(family);
    let sheet = context.pattern.lattice == Lattice::Sheet;
    let message = match (strands, sheet) {
        (None, false) => format!("the repeats do not join: no ring holds {name} to the next repeat"),
        (None, true) => format!("the sheet does not hold together: nothing joins {name} along both rows and columns"),
        (Some(n), _) => {
            format!("the piece falls into {n} strands: {name} joins only every {} repeat", ordinal(n))
        }
    };
    let help = if sheet {
        "let a ring pass rings of the next row and of the next column"
    } else {
        "let a ring pass one ring of its own repeat and one of the next, such as `b[n] down a[n], a[n+1]`"
    };
    findings.push(RepeatsApart::at(context.declared(family), message).label("not joined").help(help));
}

fn ordinal(n: i64) -> String {
    match n {
        2 => "second".to_owned(),
        3 => "third".to_owned(),
        n => format!("{n}th"),
    }
}

/// A family whose links never lead to its own image one repeat on: with how many strands it falls into,
/// or none where repeats do not join at all.
pub fn apart(context: &Context<'_>) -> Option<(FamilyId, Option<i64>)> {
    let cell = context.cell?;
    let dimensions = context.pattern.lattice.dimensions();
    if dimensions == 0 {
        return None;
    }
    let mut place: Vec<Option<Shift>> = vec![None; cell.graph.node_count()];
    for start in cell.graph.node_indices() {
        if place.get(start.index())?.is_some() || cell.degree(start) == 0 {
            continue;
        }
        let strands = shifts(cell, start, &mut place)?.index(dimensions);
        let family = cell.graph.node_weight(start)?.family;
        // A family of accents alone hangs on the base, which has to hold by itself.
        match strands {
            Some(1) => {}
            strands => return Some((family, strands)),
        }
    }
    None
}

/// The shifts that lead from `start` back to its images: places are handed out along the links, and
/// every link that closes a way round gives one shift.
fn shifts(cell: &crate::rings::Cell, start: NodeIndex, place: &mut [Option<Shift>]) -> Option<Sublattice> {
    let mut shifts = Sublattice::default();
    *place.get_mut(start.index())? = Some(Shift::ZERO);
    let mut open = vec![start];
    while let Some(ring) = open.pop() {
        let here = (*place.get(ring.index())?)?;
        for edge in cell.graph.edges(ring) {
            let shift = edge.weight().shift;
            // The edge's shift runs from the ring that passes; edges() names `ring` first either way.
            let (from, _) = cell.graph.edge_endpoints(edge.id())?;
            let forward = from == ring;
            let there = if forward { here + shift } else { here - shift };
            let other = edge.target();
            match place.get_mut(other.index())? {
                Some(known) => shifts.add((there - *known).to_array().map(i64::from)),
                slot @ None => {
                    *slot = Some(there);
                    open.push(other);
                }
            }
        }
    }
    Some(shifts)
}
