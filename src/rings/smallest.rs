//! Cutting a net down to its smallest repeat.

use super::fingerprint::{Leaf, Search, View};
use super::signed_graph::{Edge, Says, SignedGraph};
use super::sublattice::{Sublattice, gcd};
use crate::pattern::Shift;

/// The net over the smallest repeat there is: as long as a shift by part of a repeat maps the net to
/// itself, the repeat is cut down by it. `None` where the steps ran out.
pub(super) fn smallest_repeat(mut net: SignedGraph, steps: &mut usize) -> Option<SignedGraph> {
    while net.dimensions > 0 && net.sides.len() > 1 {
        let leaves = Search::run(&net, View::STRAIGHT, steps)?;
        let smaller = leaves.first().and_then(|first| leaves.iter().skip(1).find_map(|leaf| cut(&net, first, leaf)));
        let Some(smaller) = smaller else { break };
        net = smaller;
    }
    Some(net)
}

/// The map of a net to itself that takes one numbering to another: where each ring goes, and how many
/// repeats on.
struct Mapping {
    image: Vec<usize>,
    moved: Vec<Shift>,
}

impl Mapping {
    fn between(nodes: usize, one: &Leaf, other: &Leaf) -> Option<Self> {
        let mut mapping = Self { image: vec![0; nodes], moved: vec![Shift::ZERO; nodes] };
        for (a, b) in one.order.iter().zip(&other.order) {
            let (from, to) = (one.origin.get(*a)?, other.origin.get(*b)?);
            *mapping.image.get_mut(*a)? = *b;
            *mapping.moved.get_mut(*a)? = *to - *from;
        }
        Some(mapping)
    }

    /// Where a ring is after `count` steps.
    fn walk(&self, start: usize, count: usize) -> Option<(usize, Shift)> {
        let mut at = (start, Shift::ZERO);
        for _ in 0..count {
            let step = *self.moved.get(at.0)?;
            at = (*self.image.get(at.0)?, at.1 + step);
        }
        Some(at)
    }

    /// After how many steps every ring is home for the first time, and how many whole repeats on; only
    /// if all rings agree.
    fn period(&self) -> Option<(usize, Shift)> {
        let nodes = self.image.len();
        let length = (1..=nodes).find(|n| self.walk(0, *n).is_some_and(|(node, _)| node == 0))?;
        let whole = self.walk(0, length)?.1;
        let agrees = |node: usize| {
            let early = (1..length).any(|k| self.walk(node, k).is_some_and(|(at, _)| at == node));
            !early && self.walk(node, length) == Some((node, whole))
        };
        (0..nodes).all(agrees).then_some((length, whole))
    }
}

/// The net cut down by the map from one numbering to another, if that map is a shift by part of a repeat.
fn cut(net: &SignedGraph, one: &Leaf, other: &Leaf) -> Option<SignedGraph> {
    let nodes = net.sides.len();
    let mapping = Mapping::between(nodes, one, other)?;
    let (length, whole) = mapping.period()?;
    let lattice = Finer::new(whole, i64::try_from(length).ok()?, net.dimensions)?;
    // Each orbit is one ring of the smaller repeat; every ring is its first one moved on k steps.
    let mut place: Vec<Option<(usize, Shift)>> = vec![None; nodes];
    let mut firsts = Vec::new();
    for node in 0..nodes {
        if place.get(node)?.is_some() {
            continue;
        }
        for k in 0..length {
            let (at, walked) = mapping.walk(node, k)?;
            let fine = lattice.coordinates(i64::try_from(k).ok()?, -walked)?;
            *place.get_mut(at)? = Some((firsts.len(), fine));
        }
        firsts.push(node);
    }
    let fine_edge = |edge: &Edge| -> Option<Edge> {
        let ((from, here), (to, there)) = ((*place.get(edge.from)?)?, (*place.get(edge.to)?)?);
        let whole = lattice.coordinates(0, edge.shift)?;
        let shift = whole + there - here;
        let back = Edge { from: to, to: from, shift: -shift, says: edge.says, sign: 1 };
        let there = Edge { from, to, shift, says: edge.says, sign: 1 };
        let mutual = matches!(edge.says, Says::Linked | Says::Folded);
        Some(if mutual && key(&back) < key(&there) { back } else { there })
    };
    let fine: Vec<Edge> = net.edges.iter().map(fine_edge).collect::<Option<_>>()?;
    let mut edges = fine.clone();
    edges.sort_by_key(key);
    edges.dedup();
    let class = |edge: &Edge| edges.binary_search_by_key(&key(edge), key).ok();
    let classes: Vec<usize> = fine.iter().map(class).collect::<Option<_>>()?;
    let signs = signs_of_classes(net, &classes, edges.len())?;
    for (edge, negative) in edges.iter_mut().zip(signs) {
        edge.sign = if negative { -1 } else { 1 };
    }
    let sides = firsts.iter().filter_map(|n| net.sides.get(*n).copied()).collect();
    Some(SignedGraph { sides, edges, ways: Vec::new(), ..*net }.with_ways())
}

fn key(edge: &Edge) -> (usize, usize, Shift, Says) {
    (edge.from, edge.to, edge.shift, edge.says)
}

/// The lattice of whole repeats together with the shift `whole / length`; all numbers are taken `length`
/// times, so that they stay whole.
struct Finer {
    whole: [i64; 2],
    length: i64,
    lattice: Sublattice,
    dimensions: usize,
}

impl Finer {
    /// `None` unless the shift cuts the lattice into exactly `length` parts, two or more.
    fn new(whole: Shift, length: i64, dimensions: usize) -> Option<Self> {
        let whole = whole.to_array().map(i64::from);
        if length < 2 || gcd(gcd(whole[0], whole[1]), length) != 1 {
            return None;
        }
        let mut lattice = Sublattice::default();
        for shift in [[length, 0], [0, length], whole] {
            lattice.add(shift);
        }
        Some(Self { whole, length, lattice, dimensions })
    }

    /// The whole-number coordinates of `steps · whole / length + repeats`.
    fn coordinates(&self, steps: i64, repeats: Shift) -> Option<Shift> {
        let [rows, columns] = self.whole.map(|whole| steps * whole);
        let [row, column] = repeats.to_array().map(|n| i64::from(n) * self.length);
        let shift = [rows + row, columns + column];
        let [first, second] = self.lattice.coordinates(shift, self.dimensions)?;
        Some(Shift::new(i32::try_from(first).ok()?, i32::try_from(second).ok()?))
    }
}

/// Signs for the edges of the smaller repeat that give, up to turning rings over (also in every second
/// repeat), the signs of the larger one: sign(class) + turned(from) + turned(to) + parity·shift = sign,
/// over {0, 1}, by Gaussian elimination. `None` where there are none.
fn signs_of_classes(net: &SignedGraph, classes: &[usize], count: usize) -> Option<Vec<bool>> {
    let nodes = net.sides.len();
    let unknowns = count + nodes + 2;
    let mut rows: Vec<Vec<bool>> = Vec::new();
    for (edge, class) in net.edges.iter().zip(classes).filter(|(e, _)| e.says == Says::Linked) {
        let mut row = vec![false; unknowns + 1];
        for at in [*class, count + edge.from, count + edge.to] {
            *row.get_mut(at)? ^= true;
        }
        for (i, shift) in edge.shift.to_array().into_iter().enumerate() {
            *row.get_mut(count + nodes + i)? ^= shift.rem_euclid(2) == 1;
        }
        *row.get_mut(unknowns)? ^= edge.sign < 0;
        rows.push(row);
    }
    let mut solved: Vec<(usize, Vec<bool>)> = Vec::new();
    for mut row in rows {
        for (lead, pivot) in &solved {
            if row.get(*lead) == Some(&true) {
                row.iter_mut().zip(pivot).for_each(|(x, y)| *x ^= y);
            }
        }
        match row.iter().position(|x| *x) {
            None => {}
            Some(lead) if lead == unknowns => return None,
            Some(lead) => {
                for (_, other) in &mut solved {
                    if other.get(lead) == Some(&true) {
                        other.iter_mut().zip(&row).for_each(|(x, y)| *x ^= y);
                    }
                }
                solved.push((lead, row));
            }
        }
    }
    // Unknowns without an equation of their own are 0.
    let value =
        |at: usize| solved.iter().find(|(lead, _)| *lead == at).is_some_and(|(_, row)| row.last() == Some(&true));
    Some((0..count).map(value).collect())
}
