//! Passes → signed links between families: a small parity system for each ring.
//!
//! Give every ring a front, the side from which its path is seen to run clockwise. A ring that passes
//! `down` through another goes from that ring's front to its back and has linking number +1 with it;
//! `up` has −1. Linking is mutual: if b passes down a, then a passes down b. `through` says "equal
//! signs", `around` says "opposite signs", so the passes of one ring are equations over {+1, −1}.
//! Two round circles link at most once (each meets the plane of the other in two points, of which one
//! at most lies inside it).

use crate::pattern::{FamilyId, Pass, Pattern, Sense, Shift, Target};
use crate::text::Span;
use std::collections::BTreeMap;

/// A link between two families: the ring of `from` at any repeat and the ring of `to` at `offset`
/// repeats from there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Link {
    /// Family of the ring that passes.
    pub from: FamilyId,
    /// Family of the ring it passes.
    pub to: FamilyId,
    /// Shift from one to the other, in repeats.
    pub offset: Shift,
    /// +1 down, −1 up.
    pub sign: i8,
    /// The accent whose repeats alone have this link.
    pub accent: Option<usize>,
    /// The words that name the ring passed.
    pub span: Span,
}

/// A weave with more contradictions than this is not read on: each one is searched for its cause.
const MOST_CONFLICTS: usize = 100;

/// Two statements that cannot both be.
#[derive(Clone, Copy, Debug)]
pub struct Conflict {
    /// The ring that passes.
    pub family: FamilyId,
    /// The ring passed both ways.
    pub target: Target,
    /// The earlier words.
    pub first: Span,
    /// The later words.
    pub second: Span,
}

/// One pair of rings linked by two statements.
#[derive(Clone, Copy, Debug)]
pub struct Double {
    /// The ring that passes.
    pub family: FamilyId,
    /// The ring passed.
    pub target: Target,
    /// The earlier words.
    pub first: Span,
    /// The later words.
    pub second: Span,
}

/// All links of a pattern, and what was found wrong on the way.
#[derive(Clone, Debug, Default)]
pub struct Links {
    /// Each link once.
    pub links: Vec<Link>,
    /// Passes that contradict each other; the earlier was kept.
    pub conflicts: Vec<Conflict>,
    /// Pairs linked twice over; one was kept.
    pub doubles: Vec<Double>,
    /// Rings passed through themselves: family and words.
    pub selves: Vec<(FamilyId, Span)>,
    /// Where in `links` the link between two families at a shift stands, from either of them.
    between: BTreeMap<(FamilyId, FamilyId, Shift), usize>,
    /// Groups of passes of one ring whose direction against each other is not said: the ring, the
    /// first words of the first group and of the other.
    pub open: Vec<(FamilyId, Span, Span)>,
}

impl Links {
    /// Solves the passes of a pattern.
    pub fn of(pattern: &Pattern) -> Self {
        let mut links = Self::default();
        let mut groups: BTreeMap<(FamilyId, Option<usize>, bool), Vec<&Pass>> = BTreeMap::new();
        for pass in &pattern.passes {
            groups.entry((pass.family, pass.accent, pass.mirrored)).or_default().push(pass);
        }
        for ((family, accent, mirrored), passes) in groups {
            links.solve(family, accent, mirrored, &passes);
        }
        links.keep_one_of_each();
        links
    }

    /// The link between the ring of one family and the ring of another `offset` repeats on, whichever of
    /// the two passes.
    pub fn between(&self, one: FamilyId, other: FamilyId, offset: Shift) -> Option<&Link> {
        self.between.get(&(one, other, offset)).and_then(|number| self.links.get(*number))
    }

    fn solve(&mut self, family: FamilyId, accent: Option<usize>, mirrored: bool, passes: &[&Pass]) {
        let mut system = System::default();
        let mut met: BTreeMap<Vec<(FamilyId, Shift)>, Span> = BTreeMap::new();
        for meet in passes.iter().flat_map(|p| &p.meets) {
            if let Some(own) = meet.at.iter().find(|t| t.family == family && t.offset == Shift::ZERO) {
                self.selves.push((family, own.span));
                continue;
            }
            let mut agrees = true;
            for (one, other, opposite) in equations(meet.sense, &meet.at) {
                if let Err(first) = system.add(one, other, opposite, meet.span) {
                    agrees = false;
                    self.conflicts.push(Conflict { family, target: other, first, second: meet.span });
                    if self.conflicts.len() >= MOST_CONFLICTS {
                        return;
                    }
                }
            }
            let mut rings: Vec<_> = meet.at.iter().map(|t| (t.family, t.offset)).collect();
            rings.sort_unstable();
            match (met.get(&rings), meet.at.first()) {
                (Some(first), Some(target)) if agrees => {
                    self.doubles.push(Double { family, target: *target, first: *first, second: meet.span });
                }
                _ => {
                    met.insert(rings, meet.span);
                }
            }
        }
        let solved = system.solve();
        if let [one, other, ..] = solved.free.as_slice() {
            self.open.push((family, *one, *other));
        }
        for (target, down) in solved.signs {
            let sign = if down == mirrored { -1 } else { 1 };
            let Target { family: to, offset, span } = target;
            self.links.push(Link { from: family, to, offset, sign, accent, span });
        }
    }

    /// A pair named from both sides, or by a repeat and an accent, is one link.
    fn keep_one_of_each(&mut self) {
        let mut seen: BTreeMap<(FamilyId, FamilyId, Shift), Link> = BTreeMap::new();
        let mut kept = Vec::new();
        // Links of a repeat hold everywhere, so they come before those of accents.
        self.links.sort_by_key(|l| l.accent);
        for link in &self.links {
            let key = (link.from, link.to, link.offset);
            let back = (link.to, link.from, -link.offset);
            match seen.get(&key).or_else(|| seen.get(&back)) {
                Some(first) if first.accent.is_none() || first.accent == link.accent => {
                    let target = Target { family: link.to, offset: link.offset, span: link.span };
                    if first.sign == link.sign {
                        self.doubles.push(Double { family: link.from, target, first: first.span, second: link.span });
                    } else {
                        self.conflicts.push(Conflict {
                            family: link.from,
                            target,
                            first: first.span,
                            second: link.span,
                        });
                    }
                }
                _ => {
                    seen.insert(key, *link);
                    kept.push(*link);
                }
            }
        }
        self.links = kept;
        for (number, link) in self.links.iter().enumerate() {
            let back = (link.to, link.from, -link.offset);
            self.between.insert((link.from, link.to, link.offset), number);
            self.between.insert(back, number);
        }
    }
}

/// What a meet says: pairs of rings (none stands for "down") that have equal or opposite signs.
fn equations(sense: Sense, at: &[Target]) -> Vec<(Option<Target>, Target, bool)> {
    match (sense, at) {
        (Sense::Down, _) => at.iter().map(|t| (None, *t, false)).collect(),
        (Sense::Up, _) => at.iter().map(|t| (None, *t, true)).collect(),
        (Sense::Through | Sense::Around, [one, other]) => vec![(Some(*one), *other, sense == Sense::Around)],
        (Sense::Through | Sense::Around, _) => Vec::new(),
    }
}

/// Equations "equal" and "opposite" between the passes of one ring, kept as a forest in which every
/// node knows its parity against its parent (union–find with parities). Node 0 is "down".
struct System {
    targets: Vec<Target>,
    numbers: BTreeMap<(FamilyId, Shift), usize>,
    parent: Vec<(usize, bool)>,
    said: BTreeMap<usize, Vec<(usize, Span)>>,
}

struct Solved {
    /// Each ring passed and whether it is passed down, in the order first named.
    signs: Vec<(Target, bool)>,
    /// The first words of each group of passes that nothing ties to "down".
    free: Vec<Span>,
}

impl Default for System {
    fn default() -> Self {
        Self { targets: Vec::new(), numbers: BTreeMap::new(), parent: vec![(0, false)], said: BTreeMap::new() }
    }
}

impl System {
    fn number(&mut self, target: Option<Target>) -> usize {
        let Some(target) = target else { return 0 };
        let next = self.parent.len();
        let number = *self.numbers.entry((target.family, target.offset)).or_insert(next);
        if number == next {
            self.targets.push(target);
            self.parent.push((next, false));
        }
        number
    }

    /// The root of a node and the node's parity against it. The way there is shortened for the next time.
    fn root(&mut self, node: usize) -> (usize, bool) {
        let mut way = vec![node];
        let mut root = node;
        while let Some((up, _)) = self.parent.get(root).copied().filter(|(up, _)| *up != root) {
            way.push(up);
            root = up;
        }
        let mut odd = false;
        for step in way.into_iter().rev().skip(1) {
            if let Some(slot) = self.parent.get_mut(step) {
                odd ^= slot.1;
                *slot = (root, odd);
            }
        }
        (root, odd)
    }

    /// Adds an equation; an error holds the earlier words that contradict it.
    fn add(&mut self, one: Option<Target>, other: Target, opposite: bool, span: Span) -> Result<(), Span> {
        let (one, other) = (self.number(one), self.number(Some(other)));
        let ((root, parity), (other_root, other_parity)) = (self.root(one), self.root(other));
        if root == other_root {
            if parity ^ other_parity == opposite {
                return Ok(());
            }
            return Err(self.earlier(one, other).unwrap_or(span));
        }
        // The lower number stays root, so "down" is the root of all that is tied to it.
        let (low, high) = (root.min(other_root), root.max(other_root));
        if let Some(slot) = self.parent.get_mut(high) {
            *slot = (low, parity ^ other_parity ^ opposite);
        }
        self.said.entry(one).or_default().push((other, span));
        self.said.entry(other).or_default().push((one, span));
        Ok(())
    }

    /// The last words on the way from one node to another: what made their parity known.
    fn earlier(&self, one: usize, other: usize) -> Option<Span> {
        let mut came_by: BTreeMap<usize, Span> = BTreeMap::new();
        let mut front = vec![one];
        while let Some(node) = front.pop() {
            for (next, span) in self.said.get(&node).into_iter().flatten() {
                if *next != one && !came_by.contains_key(next) {
                    came_by.insert(*next, *span);
                    front.push(*next);
                }
            }
        }
        came_by.get(&other).copied()
    }

    /// Signs; a group that nothing ties to "down" takes its first-named ring as passed down.
    fn solve(&mut self) -> Solved {
        let mut first_of: BTreeMap<usize, bool> = BTreeMap::from([(0, false)]);
        let mut solved = Solved { signs: Vec::new(), free: Vec::new() };
        let mut tied = None;
        for (index, target) in std::mem::take(&mut self.targets).into_iter().enumerate() {
            let (root, parity) = self.root(index + 1);
            if root == 0 {
                tied = tied.or(Some(target.span));
            }
            let first = *first_of.entry(root).or_insert_with(|| {
                solved.free.push(target.span);
                parity
            });
            solved.signs.push((target, parity == first));
        }
        // One free group has its direction by convention; a second beside it, or beside passes that
        // are tied, is open.
        if !solved.free.is_empty() {
            solved.free.extend(tied);
            solved.free.sort_unstable();
        }
        solved
    }
}
