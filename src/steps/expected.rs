//! What a weave's own piece looks like at every point of the work: what written instructions are held against.

use super::follow::Work;
use super::fronts::fronts;
use super::order::{Order, Passing, Step};
use super::read::Reading;
use super::tell::Teller;
use super::told::{Claim, Lies, Name};
use crate::library::Identity;
use crate::notation::{Side, State};
use crate::pattern;
use crate::pattern::{FamilyId, Lattice, Pattern, PerFamily, Repeats, Shift, Target};
use crate::rings::{Piece, turnings};
use crate::settle::Settled;
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;

/// The piece that instructions are to make.
pub struct Expected<'w> {
    pub weave: &'w Weave,
    pub settled: Option<&'w Settled>,
    pub piece: Piece,
    pub order: Order,
    pub nodes: BTreeMap<Name, NodeIndex>,
    /// Number of the step that weaves a ring in.
    pub steps: BTreeMap<NodeIndex, usize>,
    /// How rings of the piece lie.
    pub lies: BTreeSet<Lies>,
    fronts: PerFamily<i8>,
    own: OnceLock<Identity>,
}

impl<'w> Expected<'w> {
    /// The piece of a weave that has the rings instructions speak of; `None` where no such piece can be woven.
    pub fn of(weave: &'w Weave, settled: Option<&'w Settled>, reading: &Reading, work: &Work) -> Option<Self> {
        let size = size_told(weave, reading, work);
        let piece = weave.piece(size).ok()?;
        let order = Order::of(weave.pattern(), &piece).ok()?;
        let mut expected = Self {
            weave,
            settled,
            nodes: BTreeMap::new(),
            steps: order.steps.iter().enumerate().map(|(n, s)| (s.ring, n)).collect(),
            lies: BTreeSet::new(),
            fronts: fronts(weave, settled),
            own: OnceLock::new(),
            piece,
            order,
        };
        expected.nodes = expected.piece.graph.node_indices().map(|n| (expected.name(n), n)).collect();
        expected.lies = expected.all_lies();
        Some(expected)
    }

    /// The weave, to be compared with what a wrong step would make; its lean is left to how its rings are said to lie.
    pub fn own(&self) -> &Identity {
        let silent = || Pattern { lean: Vec::new(), ..self.weave.pattern().clone() };
        self.own.get_or_init(|| Identity::of(&self.weave.with_pattern(silent())))
    }

    /// A ring's name as instructions have it.
    pub fn name(&self, ring: NodeIndex) -> Name {
        self.piece
            .graph
            .node_weight(ring)
            .map_or_else(|| Name("?".to_owned(), Vec::new()), |r| name_of(self.weave, r.family, r.at))
    }

    pub fn closed(&self, ring: NodeIndex) -> bool {
        self.piece.graph.node_weight(ring).is_some_and(|r| r.state == State::Closed)
    }

    /// What a ring passes when it is woven in now, and with which sign where all fronts face the maker.
    pub fn passes(&self, ring: NodeIndex, there: &BTreeSet<NodeIndex>) -> BTreeMap<NodeIndex, i8> {
        let links = self.piece.graph.edges(ring).map(|e| {
            let other = if e.source() == ring { e.target() } else { e.source() };
            (other, e.weight().sign * self.front(ring) * self.front(other))
        });
        links.filter(|(other, _)| self.closed(*other) || there.contains(other)).collect()
    }

    pub fn front(&self, ring: NodeIndex) -> i8 {
        self.fronts[self.piece.graph[ring].family]
    }

    /// The right sentences for where a ring goes.
    pub fn right_words(&self, ring: NodeIndex, there: &BTreeSet<NodeIndex>) -> String {
        let told = self.steps.get(&ring).and_then(|n| self.order.steps.get(*n));
        // In the order of the text.
        let named: Vec<NodeIndex> = told.map_or_else(Vec::new, |s| s.passes.iter().map(|p| p.ring).collect());
        let mut passes: Vec<NodeIndex> = self.passes(ring, there).into_keys().collect();
        passes.sort_by_key(|r| named.iter().position(|n| n == r).unwrap_or(usize::MAX));
        let sign =
            |other: NodeIndex| self.piece.graph.edges_connecting(ring, other).next().map_or(1, |e| e.weight().sign);
        let passes =
            passes.into_iter().map(|r| Passing { ring: r, sign: sign(r), picked_up: !there.contains(&r) }).collect();
        let step = Step { ring, passes, stays: Vec::new(), accent: None };
        Teller::of(self.weave, self.settled, &self.piece, &self.order).goes(&step).join(" ")
    }

    /// Whether the graph is the same, up to turning rings over, when the links of one ring have these signs (with all fronts
    /// facing the maker).
    pub fn same_with(&self, ring: NodeIndex, signs: &BTreeMap<NodeIndex, i8>) -> bool {
        let told = |from: NodeIndex, to: NodeIndex| {
            let own = if from == ring {
                signs.get(&to)
            } else if to == ring {
                signs.get(&from)
            } else {
                None
            };
            own.copied()
        };
        let apart = |from: NodeIndex, to: NodeIndex, sign: i8| {
            let right = sign * self.front(from) * self.front(to);
            Some(right * told(from, to).unwrap_or(right))
        };
        turnings(&self.piece, apart).is_some()
    }

    fn all_lies(&self) -> BTreeSet<Lies> {
        let mut all = BTreeSet::new();
        let there: BTreeSet<(FamilyId, Shift)> = self.piece.graph.node_weights().map(|r| (r.family, r.at)).collect();
        for statement in &self.weave.pattern().lying {
            let targets: Vec<Target> = match &statement.lies {
                pattern::Lies::Behind(a, b) | pattern::Lies::Over(a, b) | pattern::Lies::Folded(a, b) => vec![*a, *b],
                pattern::Lies::Between(r, a, b) => vec![*r, *a, *b],
                pattern::Lies::On(r, _) => vec![*r],
                pattern::Lies::Turning(_) => continue,
            };
            let Some(first) = targets.first() else { continue };
            for (_, at) in there.iter().filter(|(family, _)| *family == first.family) {
                let from = *at - first.offset;
                let place = |t: &Target| (t.family, from + t.offset);
                if targets.iter().any(|t| !there.contains(&place(t))) {
                    continue;
                }
                let name = |t: &Target| name_of(self.weave, place(t).0, place(t).1);
                all.insert(match &statement.lies {
                    pattern::Lies::Behind(a, b) => Lies::Behind(name(a), name(b)),
                    pattern::Lies::Over(a, b) => Lies::Over(name(a), name(b)),
                    pattern::Lies::Folded(a, b) => Lies::Folded(vec![name(a), name(b)]),
                    pattern::Lies::Between(r, a, b) => Lies::Between(name(r), vec![name(a), name(b)]),
                    pattern::Lies::On(r, side) => Lies::Side(name(r), *side == Side::Far),
                    pattern::Lies::Turning(_) => continue,
                });
            }
        }
        all
    }
}

fn name_of(weave: &Weave, family: FamilyId, at: Shift) -> Name {
    let letter = weave.pattern().family_name(family).to_owned();
    let numbers = match weave.pattern().lattice {
        Lattice::Unit => Vec::new(),
        Lattice::Chain => vec![at.row],
        Lattice::Sheet => at.to_array().to_vec(),
    };
    Name(letter, numbers)
}

/// How far from the last ring that is named the size is looked for.
const AROUND: u32 = 3;
/// The largest piece, along each way, that instructions are read for.
const LARGEST: u32 = 3000;

/// The size of the piece that instructions make: the one that agrees with most of what they say of their rings, which counts
/// a little less each than that they use just its rings; of equals the one most of whose rings they name, then the smallest.
fn size_told(weave: &Weave, reading: &Reading, work: &Work) -> Repeats {
    let until = work.claims.iter().filter_map(|c| match &c.claim.what {
        Claim::Repeated(until) => until.as_ref(),
        _ => None,
    });
    let named = work.rings.keys().chain(work.woven.iter().map(|w| &w.ring.what)).chain(until);
    let mut last = [1_u32, 1];
    for name in named {
        for (last, number) in last.iter_mut().zip(&name.1) {
            *last = (*last).max(u32::try_from(*number).unwrap_or(1)).min(LARGEST);
        }
    }
    let lattice = weave.pattern().lattice;
    let range = |n: u32| n.saturating_sub(AROUND).max(1)..=n + AROUND;
    let mut sizes: Vec<Repeats> = match lattice {
        Lattice::Unit => vec![Repeats([1, 1])],
        Lattice::Chain => range(last[0]).map(|n| Repeats([n, 1])).collect(),
        Lattice::Sheet => range(last[0]).flat_map(|r| range(last[1]).map(move |c| Repeats([r, c]))).collect(),
    };
    sizes.extend(weave.pattern().make.repeats.as_ref().map(|n| Repeats([n.value.clamp(1, LARGEST), 1])));
    let agreement = |size: &Repeats| {
        let Ok(piece) = weave.piece(*size) else { return (0, 0) };
        let mut counts: BTreeMap<(&str, bool), usize> = BTreeMap::new();
        for ring in piece.graph.node_weights() {
            let letter = weave.pattern().family_name(ring.family);
            *counts.entry((letter, ring.state == State::Closed)).or_insert(0) += 1;
        }
        let needs = reading.needs.iter().map(|need| need.what.clone());
        let closed = work.claims.iter().filter_map(|c| match &c.claim.what {
            Claim::Closed(count, letter) => Some((*count, letter.clone(), true)),
            _ => None,
        });
        let mut right = needs
            .chain(closed)
            .filter(|(n, letter, closed)| counts.get(&(letter.as_str(), *closed)) == Some(n))
            .count();
        let whole = work.claims.iter().rev().find_map(|c| match c.claim.what {
            Claim::Rings(count) => Some(count),
            _ => None,
        });
        right += usize::from(whole == Some(piece.graph.node_count()));
        let all = piece.graph.node_indices();
        let told = all.filter(|n| {
            let ring = piece.graph.node_weight(*n);
            ring.is_some_and(|r| work.rings.contains_key(&name_of(weave, r.family, r.at)))
        });
        let told = told.count();
        // Rings that are in both, less those that are in one alone.
        let apart = (piece.graph.node_count() - told) + (work.rings.len() - told);
        (2 * right + if apart == 0 { 3 } else { 0 }, told.saturating_sub(apart))
    };
    let best = sizes.into_iter().rev().max_by_key(|size| {
        let (right, told) = agreement(size);
        (right, told)
    });
    best.unwrap_or(Repeats([1, 1]))
}
