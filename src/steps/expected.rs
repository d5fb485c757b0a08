//! The piece of a weave at every point of the work: what written instructions are compared with.

use super::directions::Directions;
use super::events::Name;
use super::follow::Work;
use super::order::{Order, Passing, Step};
use super::piece_size::size_told;
use super::read::Reading;
use super::tell::Teller;
use crate::library::Identity;
use crate::notation::State;
use crate::pattern::{FamilyId, Lies, Pattern, Shift};
use crate::rings::{Piece, turnings};
use crate::settle::Settled;
use crate::text::list;
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
    pub lies: BTreeSet<Lies<Name>>,
    directions: Directions,
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
            directions: Directions::of(weave, settled, &piece, &order),
            own: OnceLock::new(),
            piece,
            order,
        };
        expected.nodes = expected.piece.graph.node_indices().map(|n| (expected.name(n), n)).collect();
        expected.lies = expected.all_lies();
        Some(expected)
    }

    /// The weave, to be compared with what a wrong step would make; its lean follows from how its rings lie.
    pub fn own(&self) -> &Identity {
        let silent = || Pattern { lean: Vec::new(), ..self.weave.pattern().clone() };
        self.own.get_or_init(|| Identity::of(&self.weave.with_pattern(silent())))
    }

    /// A ring's name as instructions have it.
    pub fn name(&self, ring: NodeIndex) -> Name {
        let ring = &self.piece.graph[ring];
        Name::of(self.weave.pattern(), ring.family, ring.at)
    }

    /// Names of rings as instructions have them: "a2, a3 and b1".
    pub fn names(&self, rings: impl IntoIterator<Item = NodeIndex>) -> String {
        list(&rings.into_iter().map(|ring| self.name(ring).to_string()).collect::<Vec<_>>(), "and")
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
        self.directions.front(&self.piece, ring)
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

    /// How every ring of the piece lies, as the text of the weave says it.
    fn all_lies(&self) -> BTreeSet<Lies<Name>> {
        let there: BTreeSet<(FamilyId, Shift)> = self.piece.graph.node_weights().map(|r| (r.family, r.at)).collect();
        let mut all = BTreeSet::new();
        for lies in self.weave.pattern().lying.iter().map(|statement| &statement.lies) {
            let rings = lies.rings();
            let Some(first) = rings.first() else { continue };
            for (_, at) in there.iter().filter(|(family, _)| *family == first.family) {
                let from = *at - first.offset;
                if rings.iter().all(|t| there.contains(&(t.family, from + t.offset))) {
                    all.insert(lies.map(|t| Name::of(self.weave.pattern(), t.family, from + t.offset)));
                }
            }
        }
        all
    }
}
