//! The canonical form of a weave, and its short name.
//!
//! Two texts describe one weave when one becomes the other by renaming rings, reordering statements,
//! counting a family from another repeat, turning rings over (also in every second repeat), turning
//! the piece end for end, or writing several repeats as one. The canonical form is the least code over
//! all of these:
//! * the repeat is first cut down to the smallest there is (a shift of part of a repeat that maps the
//!   net to itself);
//! * from every start, rings are numbered one after the other, always taking the ring whose code is
//!   least, and both where two are alike; the count of its family is fixed by its first edge;
//! * turning rings over makes the first edge of each ring `down`; turning over every second repeat is
//!   a sign for every odd shift, and the least of the sign strings is taken;
//! * a sheet's two ways are taken from the net itself: every pair of shortest shifts that spans it.

use super::cell::Cell as Repeat;
use super::signed_graph::{Says, SignedGraph, Way};
use super::smallest::smallest_repeat;
use crate::notation::{Hand, Side};
use crate::pattern::{Pattern, Shift};
use sha2::{Digest, Sha256};
use std::cell::Cell;

/// The most steps the search takes before it gives up on a net that is too alike everywhere.
const MOST_STEPS: usize = 400_000;

/// The short name of a weave and that of its mirror image, sixteen hexadecimal digits in fours.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fingerprint {
    /// The weave.
    pub weave: String,
    /// Its mirror image; the same where the weave has no hand.
    pub mirror: String,
}

/// The fingerprint of a weave; `None` where its repeat is too large or too alike to be compared.
pub fn fingerprint(pattern: &Pattern, cell: &Repeat) -> Option<Fingerprint> {
    let net = SignedGraph::of(pattern, cell);
    let mut steps = MOST_STEPS;
    let weave = name(&net, &mut steps)?;
    let mirror = name(&net.mirrored(), &mut steps)?;
    Some(Fingerprint { weave, mirror })
}

fn name(net: &SignedGraph, steps: &mut usize) -> Option<String> {
    let mut codes: Vec<Vec<i32>> = Vec::new();
    for part in net.parts() {
        codes.push(code_of(&smallest_repeat(part, steps)?, steps)?);
    }
    codes.sort_unstable();
    let mut hash = Sha256::new();
    hash.update([u8::try_from(net.dimensions).unwrap_or(u8::MAX), u8::from(net.spiral)]);
    for code in codes {
        hash.update((code.len() as u64).to_le_bytes());
        for number in code {
            hash.update(number.to_le_bytes());
        }
    }
    let digits: String = hash.finalize().iter().take(8).map(|byte| format!("{byte:02x}")).collect();
    let fours: Vec<&str> = (0..4).filter_map(|i| digits.get(4 * i..4 * i + 4)).collect();
    Some(fours.join("-"))
}

/// The least code over all ways of looking at a connected net.
fn code_of(net: &SignedGraph, steps: &mut usize) -> Option<Vec<i32>> {
    let mut best: Option<Vec<i32>> = None;
    for view in views(net, steps)? {
        for leaf in Search::run(net, view, steps)? {
            if best.as_ref().is_none_or(|b| leaf.code < *b) {
                best = Some(leaf.code);
            }
        }
    }
    best
}

/// A way of looking at a net: what becomes of shifts, and whether far and near change places.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct View {
    rows: [Shift; 2],
    turned: bool,
}

impl View {
    pub(super) const STRAIGHT: View = View { rows: [Shift::new(1, 0), Shift::new(0, 1)], turned: false };

    fn shift(&self, s: Shift) -> Shift {
        let [row, column] = self.rows.map(|row| row.row * s.row + row.column * s.column);
        Shift::new(row, column)
    }
}

/// As written and turned end for end; for a sheet every pair of ways that spans it the same way round.
fn views(net: &SignedGraph, steps: &mut usize) -> Option<Vec<View>> {
    let turned = View { rows: [Shift::new(-1, 0), Shift::new(0, -1)], turned: true };
    if net.dimensions < 2 {
        return Some(vec![View::STRAIGHT, turned]);
    }
    for reach in 1..=6 {
        let shifts = shifts_within(net, reach, steps)?;
        let mut found = Vec::new();
        for u in &shifts {
            for v in &shifts {
                // The inverse of the matrix with columns u and v; only pairs that turn the same way.
                if u.row * v.column - u.column * v.row == 1 {
                    found.push(View {
                        rows: [Shift::new(v.column, -v.row), Shift::new(-u.column, u.row)],
                        turned: false,
                    });
                }
            }
        }
        if !found.is_empty() {
            return Some(found);
        }
    }
    Some(vec![View::STRAIGHT, turned])
}

/// Every shift by which a ring can be reached from its own image in `reach` edges.
fn shifts_within(net: &SignedGraph, reach: usize, steps: &mut usize) -> Option<Vec<Shift>> {
    let mut shifts = std::collections::BTreeSet::new();
    for start in 0..net.sides.len() {
        let mut seen = std::collections::BTreeSet::from([(start, Shift::ZERO)]);
        let mut rim = vec![(start, Shift::ZERO)];
        for _ in 0..reach {
            let mut beyond = Vec::new();
            for (node, at) in rim {
                for way in net.ways.get(node).into_iter().flatten() {
                    let place = (way.to, at + way.shift);
                    if seen.insert(place) {
                        *steps = steps.checked_sub(1)?;
                        beyond.push(place);
                    }
                }
            }
            rim = beyond;
        }
        shifts.extend(seen.into_iter().filter(|(n, s)| *n == start && *s != Shift::ZERO).map(|(_, s)| s));
    }
    Some(shifts.into_iter().collect())
}

/// One complete numbering: its code, the nodes in order, and where each is counted from.
#[derive(Clone, Debug)]
pub(super) struct Leaf {
    pub code: Vec<i32>,
    pub order: Vec<usize>,
    pub origin: Vec<Shift>,
}

/// The least code a next ring can have, and the rings that have it, each with where it is counted from.
type Candidates = (Vec<i32>, Vec<(usize, Shift)>);

/// The search for the least codes under one view.
pub(super) struct Search<'n> {
    net: &'n SignedGraph,
    view: View,
    colours: Vec<usize>,
    best: Vec<Leaf>,
    /// Ways looked at since the steps were last counted.
    looked: Cell<usize>,
}

/// A numbering under way.
#[derive(Clone)]
struct Partial {
    code: Vec<i32>,
    order: Vec<usize>,
    number: Vec<Option<usize>>,
    origin: Vec<Shift>,
}

impl Partial {
    /// Gives a node the next number and the place it is counted from.
    fn take(&mut self, node: usize, origin: Shift) {
        if let (Some(n), Some(o)) = (self.number.get_mut(node), self.origin.get_mut(node)) {
            (*n, *o) = (Some(self.order.len()), origin);
        }
        self.order.push(node);
    }
}

impl<'n> Search<'n> {
    /// All numberings with the least code; `None` where the steps ran out.
    pub(super) fn run(net: &'n SignedGraph, view: View, steps: &mut usize) -> Option<Vec<Leaf>> {
        let colours = colours(net, view, steps)?;
        let mut sizes = std::collections::BTreeMap::new();
        for colour in &colours {
            *sizes.entry(*colour).or_insert(0) += 1;
        }
        let rarest = sizes.iter().min_by_key(|(colour, size)| (**size, **colour)).map(|(colour, _)| *colour)?;
        let mut search = Search { net, view, colours, best: Vec::new(), looked: Cell::new(0) };
        for start in 0..net.sides.len() {
            if search.colours.get(start) == Some(&rarest) {
                let nodes = net.sides.len();
                let mut partial = Partial {
                    code: Vec::new(),
                    order: Vec::new(),
                    number: vec![None; nodes],
                    origin: vec![Shift::ZERO; nodes],
                };
                partial.code = search.code_of_node(&partial, start, Shift::ZERO)?;
                partial.take(start, Shift::ZERO);
                search.extend(partial, steps)?;
            }
        }
        Some(search.best)
    }

    /// Numbers on from a partial numbering, branching where rings are alike.
    fn extend(&mut self, mut partial: Partial, steps: &mut usize) -> Option<()> {
        loop {
            *steps = steps.checked_sub(1 + (partial.order.len() + self.looked.take()) / 16)?;
            if self.worse(&partial) {
                return Some(());
            }
            let Some((least, alike)) = self.candidates(&partial) else {
                self.finish(partial);
                return Some(());
            };
            partial.code.extend(&least);
            if let [(node, origin)] = alike.as_slice() {
                partial.take(*node, *origin);
                continue;
            }
            for (node, origin) in alike {
                let mut branch = partial.clone();
                branch.take(node, origin);
                self.extend(branch, steps)?;
            }
            return Some(());
        }
    }

    fn worse(&self, partial: &Partial) -> bool {
        self.best.first().is_some_and(|best| {
            let length = partial.code.len().min(best.code.len());
            partial.code.get(..length) > best.code.get(..length)
        })
    }

    /// The least code a next ring can have, and every ring that has it, without mere twins.
    fn candidates(&self, partial: &Partial) -> Option<Candidates> {
        // Rings are taken along the first numbered ring that still has neighbours without a number.
        let unnumbered = |w: &&Way| partial.number.get(w.to).is_some_and(Option::is_none);
        let from = *partial
            .order
            .iter()
            .find(|n| self.net.ways.get(**n).is_some_and(|ways| ways.iter().any(|w| unnumbered(&w))))?;
        let mut nodes: Vec<usize> = self.net.ways.get(from)?.iter().filter(unnumbered).map(|w| w.to).collect();
        nodes.sort_unstable();
        nodes.dedup();
        let mut least: Option<Vec<i32>> = None;
        let mut alike: Vec<(usize, Shift)> = Vec::new();
        for node in nodes {
            if let Some((code, origin)) = self.ways_in(partial, from, node) {
                match least.as_ref().map(|l| code.cmp(l)) {
                    None | Some(std::cmp::Ordering::Less) => {
                        least = Some(code);
                        alike = vec![(node, origin)];
                    }
                    Some(std::cmp::Ordering::Equal) => alike.push((node, origin)),
                    Some(std::cmp::Ordering::Greater) => {}
                }
            }
        }
        let mut kept: Vec<(usize, Shift)> = Vec::new();
        for one in alike {
            if !kept.iter().any(|other| self.twins(*other, one)) {
                kept.push(one);
            }
        }
        least.map(|l| (l, kept))
    }

    /// The code of `node` counted from where its first edge from `from` sets it.
    fn ways_in(&self, partial: &Partial, from: usize, node: usize) -> Option<(Vec<i32>, Shift)> {
        let home = *partial.origin.get(from)?;
        let ways = self.net.ways.get(from)?.iter().filter(|w| w.to == node);
        let first = ways.min_by_key(|w| (w.says, self.view.shift(w.shift)))?;
        let origin = home + first.shift;
        self.code_of_node(partial, node, origin).map(|code| (code, origin))
    }

    /// The code of a node that is numbered next, counted from `origin`: class, edges, shifts.
    fn code_of_node(&self, partial: &Partial, node: usize, origin: Shift) -> Option<Vec<i32>> {
        let mut edges = self.edges_to_numbered(partial, node, origin);
        edges.sort_unstable_by_key(|e| (e.0, e.1, e.2, e.3));
        let mut code = vec![i32::try_from(*self.colours.get(node)?).ok()?, i32::try_from(edges.len()).ok()?];
        for (number, says, backwards, shift, _) in edges {
            let number = i32::try_from(number).unwrap_or(i32::MAX);
            code.extend([number, says as i32, i32::from(backwards), shift.row, shift.column]);
        }
        Some(code)
    }

    /// The edges of a node counted from `origin` to rings that have a number or to its own images.
    fn edges_to_numbered(&self, partial: &Partial, node: usize, origin: Shift) -> Vec<(usize, Says, bool, Shift, i8)> {
        let mut edges = Vec::new();
        let ways = self.net.ways.get(node).map_or(&[] as &[Way], Vec::as_slice);
        self.looked.set(self.looked.get() + ways.len());
        for way in ways {
            let own = way.to == node;
            // A node that is only being looked at would get the next number.
            let number = partial.number.get(way.to).copied().flatten().or(own.then_some(partial.order.len()));
            let there = if own { origin } else { partial.origin.get(way.to).copied().unwrap_or(Shift::ZERO) };
            if let Some(number) = number {
                let shift = way.shift + origin - there;
                edges.push((number, way.says.0, way.says.1, self.view.shift(shift), way.sign));
            }
        }
        edges
    }

    /// The signs of all links in order of the numbering, each ring turned over where that makes its first
    /// link to an earlier ring `down`, and rings of every second repeat (row, column) where `turn` says so.
    fn signs(&self, partial: &Partial, turn: [bool; 2]) -> Vec<i32> {
        let mut signs = Vec::new();
        let mut over = vec![false; partial.order.len()];
        for (own, node) in partial.order.iter().enumerate() {
            let origin = partial.origin.get(*node).copied().unwrap_or(Shift::ZERO);
            let mut edges = self.edges_to_numbered(partial, *node, origin);
            edges.retain(|e| e.1 == Says::Linked && e.0 <= own);
            edges.sort_unstable_by_key(|e| (e.0, e.3));
            let seen = |edge: &(usize, Says, bool, Shift, i8), over: &[bool]| {
                let odd = turn.iter().zip(edge.3.to_array()).filter(|(t, s)| **t && s.rem_euclid(2) == 1).count() == 1;
                // A link with an image of itself is turned twice: not at all.
                (edge.4 < 0) ^ odd ^ (edge.0 != own && over.get(edge.0).copied().unwrap_or(false))
            };
            let first = edges.iter().find(|e| e.0 < own).is_some_and(|e| seen(e, &over));
            signs.extend(edges.iter().map(|e| i32::from(seen(e, &over) ^ (first && e.0 != own))));
            if let Some(slot) = over.get_mut(own) {
                *slot = first;
            }
        }
        signs
    }

    /// Whether exchanging two rings changes nothing: the same edges to the same rings, all signs equal
    /// or all opposite.
    fn twins(&self, one: (usize, Shift), other: (usize, Shift)) -> bool {
        if one.0 == other.0 {
            return false;
        }
        let seen = |(node, origin): (usize, Shift), partner: (usize, Shift)| {
            self.looked.set(self.looked.get() + self.net.ways.get(node).map_or(0, Vec::len));
            let mut edges: Vec<_> = self
                .net
                .ways
                .get(node)
                .into_iter()
                .flatten()
                .map(|w| {
                    let mut shift = w.shift + origin;
                    let mut to = w.to;
                    if to == partner.0 {
                        // The edge between the two: seen alike from both only if it joins them where
                        // they are counted from.
                        shift = shift - partner.1;
                        to = usize::MAX;
                    } else if to == node {
                        shift = w.shift;
                        to = usize::MAX - 1;
                    }
                    ((to, shift, w.says), w.sign)
                })
                .collect();
            edges.sort_unstable();
            edges
        };
        let (a, b) = (seen(one, other), seen(other, one));
        let sides = self.net.sides.get(one.0) == self.net.sides.get(other.0);
        let same_edges = a.iter().map(|e| e.0).eq(b.iter().map(|e| e.0));
        let outside = || a.iter().zip(&b).filter(|(x, _)| x.0.2.0 == Says::Linked && x.0.0 < usize::MAX - 1);
        let equal = outside().all(|(x, y)| x.1 == y.1);
        let opposite = outside().all(|(x, y)| x.1 == -y.1);
        sides && same_edges && (equal || opposite)
    }

    fn finish(&mut self, partial: Partial) {
        let mut code = partial.code.clone();
        let turns = [[false, false], [true, false], [false, true], [true, true]];
        code.extend(turns.iter().map(|turn| self.signs(&partial, *turn)).min().unwrap_or_default());
        code.extend(partial.order.iter().map(|node| match self.net.sides.get(*node).copied().flatten() {
            None => 0,
            Some(side) if (side == Side::Far) == self.view.turned => 1,
            Some(_) => 2,
        }));
        // Neither lean nor the way of a screw changes when a piece is turned end for end.
        let hand = |hand: Option<Hand>| match hand {
            None => 0,
            Some(Hand::Left) => 1,
            Some(Hand::Right) => 2,
        };
        code.push(hand(self.net.lean) + 3 * hand(self.net.turning));
        let leaf = Leaf { code, order: partial.order, origin: partial.origin };
        match self.best.first().map(|best| leaf.code.cmp(&best.code)) {
            None | Some(std::cmp::Ordering::Less) => self.best = vec![leaf],
            Some(std::cmp::Ordering::Equal) if self.best.len() < 64 => self.best.push(leaf),
            _ => {}
        }
    }
}

/// Classes of rings that can be told apart without counting repeats: by side and by the classes of
/// their neighbours, refined until nothing changes.
fn colours(net: &SignedGraph, view: View, steps: &mut usize) -> Option<Vec<usize>> {
    let mut colours: Vec<usize> = net
        .sides
        .iter()
        .map(|side| match side {
            None => 0,
            Some(Side::Far) => 1 + usize::from(view.turned),
            Some(Side::Near) => 2 - usize::from(view.turned),
        })
        .collect();
    let mut classes = 0;
    loop {
        *steps = steps.checked_sub(1 + (net.sides.len() + net.edges.len()) / 16)?;
        let seen = |node: usize| {
            let mut around: Vec<_> = net
                .ways
                .get(node)
                .into_iter()
                .flatten()
                .map(|w| (w.says, colours.get(w.to).copied(), w.to == node))
                .collect();
            around.sort_unstable();
            (colours.get(node).copied(), around)
        };
        let keys: Vec<_> = (0..net.sides.len()).map(seen).collect();
        let mut sorted = keys.clone();
        sorted.sort_unstable();
        sorted.dedup();
        if sorted.len() == classes {
            return Some(colours);
        }
        classes = sorted.len();
        colours = keys.iter().map(|k| sorted.binary_search(k).unwrap_or(0)).collect();
    }
}
