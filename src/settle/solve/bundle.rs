//! Chains of bundles: rings that hold the same others, bundle after bundle, as in a plain chain of pairs. A box chain and
//! a Byzantine chain have the same links: they differ in which bundles are folded back.

use super::net::Net;
use super::problem::{Pose, Problem};
use crate::pattern::Shift;

/// Normals this near to square to one another do not say which way they face.
const SQUARE: f64 = 0.1;
/// Places in the net nearer than this part of a repeat are one.
const SAME_PLACE: f64 = 1e-6;

/// A bundle: its rings, each with the repeat in which it belongs to the bundle.
type Bundle = Vec<(usize, i32)>;

/// A chain whose bundles are each linked with the one before and the one after, and with nothing else.
pub(crate) struct Bundled {
    net: Net,
    /// In their order along the chain.
    pub(crate) bundles: Vec<Bundle>,
}

impl Bundled {
    /// A weave as a chain of bundles; `None` for every other weave.
    pub(crate) fn of(problem: &Problem) -> Option<Self> {
        if problem.ways != 1 {
            return None;
        }
        let net = Net::of(problem);
        // From which repeat on each ring is counted, so that all of them lie in one repeat of the net.
        let first = |ring: usize| (net.place(ring).x + SAME_PLACE).floor();
        let place = |ring: usize| net.place(ring).x - first(ring);
        let mut order: Vec<usize> = (0..problem.rings.len()).collect();
        order.sort_by(|a, b| place(*a).total_cmp(&place(*b)));
        let mut bundles: Vec<Bundle> = Vec::new();
        for ring in order {
            // Places are within the few repeats a text can name.
            #[expect(clippy::cast_possible_truncation)]
            let own = (ring, -first(ring) as i32);
            let same = |b: &&mut Bundle| b.first().is_some_and(|(o, _)| place(ring) - place(*o) < SAME_PLACE);
            match bundles.last_mut().filter(same) {
                Some(bundle) => bundle.push(own),
                None => bundles.push(vec![own]),
            }
        }
        let mut links = 0;
        for (number, bundle) in bundles.iter().enumerate() {
            // The bundle after it, in the next repeat where it is the last.
            let on = i32::from(number + 1 == bundles.len());
            let after = bundles.get((number + 1) % bundles.len())?;
            for ((ring, own), (other, shift)) in bundle.iter().flat_map(|one| after.iter().map(move |two| (one, two))) {
                links += 1;
                if problem.wanted(*ring, *other, Shift::new(shift + on - own, 0)) == 0 {
                    return None;
                }
            }
        }
        (links == problem.links.len()).then_some(Self { net, bundles })
    }

    /// The rings that lie folded back.
    pub(crate) fn folded(&self, problem: &Problem, pose: &Pose) -> Vec<usize> {
        (0..problem.rings.len()).filter(|ring| folded(problem, &self.net, pose, *ring) == Some(true)).collect()
    }
}

/// Whether a ring of a chain lies folded back, along the rings before it. A ring in the open is passed by those
/// after it the other way than by those before; what holds a ring that is folded back passes it the same way from
/// both sides. `None` where neither is so.
pub(crate) fn folded(problem: &Problem, net: &Net, pose: &Pose, ring: usize) -> Option<bool> {
    let passing = |before: bool| {
        let ends = net.ends(ring).iter().filter(move |end| {
            let span = net.span(ring, end).x;
            if before { span < -SAME_PLACE } else { span > SAME_PLACE }
        });
        ends.filter_map(|end| Some(pose.image(end.ring, end.shift)?.normal * f64::from(end.sign)))
    };
    let mut ways = passing(true).flat_map(|one| passing(false).map(move |other| one.dot(other)));
    let first = ways.next()?;
    let same = first > 0.0;
    (problem.ways == 1 && first.abs() > SQUARE && ways.all(|w| w.abs() > SQUARE && (w > 0.0) == same)).then_some(same)
}
