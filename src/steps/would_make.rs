//! What a wrong step makes, when all rings of its letter go as it says.

use super::events::{ByPair, Direction, Name, Woven};
use super::expected::Expected;
use crate::library::Identity;
use crate::pattern::{FamilyId, Lattice, Lies, Meet, Pass, Pattern, Sense, Target};
use crate::rings::Link;
use crate::weave::Weave;
use petgraph::algo::connected_components;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;

/// Every ring that a ring passes, as the text has it, with the sign of the link where all fronts face the maker. `None` where
/// the text leaves one of them open.
fn told_signs(expected: &Expected<'_>, woven: &Woven) -> Option<BTreeMap<NodeIndex, i8>> {
    let by_pair = |name: &Name| {
        woven.moves.pairs.iter().find_map(|pair| match &pair.what {
            pair if pair.one == *name => Some(Direction::Down),
            pair if pair.other == *name && pair.goes == ByPair::Through => Some(Direction::Down),
            pair if pair.other == *name => Some(Direction::Up),
            _ => None,
        })
    };
    let mut signs = BTreeMap::new();
    for passed in woven.moves.passes.iter().map(|p| &p.what) {
        let node = *expected.nodes.get(&passed.ring)?;
        let direction = passed.direction.or_else(|| by_pair(&passed.ring))?;
        signs.insert(node, direction.sign());
    }
    (!signs.is_empty()).then_some(signs)
}

/// "from here on it would be …": what comes of a step that sends its ring where the weave does not.
pub fn would_be(
    expected: &Expected<'_>,
    woven: &Woven,
    ring: NodeIndex,
    right: &BTreeMap<NodeIndex, i8>,
) -> Option<String> {
    let weave = expected.weave;
    let told = from_the_same_end(told_signs(expected, woven)?, right);
    let own = &expected.piece.graph[ring];
    let mut links = weave.links().links.clone();
    for node in right.keys().chain(told.keys()) {
        let other = &expected.piece.graph[*node];
        let offset = other.at - own.at;
        let number = links.iter().position(|l| {
            (l.from, l.to, l.offset) == (own.family, other.family, offset)
                || (l.from, l.to, l.offset) == (other.family, own.family, -offset)
        });
        // Signs are told with all fronts towards the maker.
        let sign = told.get(node).map(|sign| sign * expected.front(ring) * expected.front(*node));
        match (number, sign) {
            (Some(number), Some(sign)) => links.get_mut(number)?.sign = sign,
            (Some(number), None) => {
                links.remove(number);
            }
            (None, Some(sign)) => {
                let accent = weave.pattern().families[own.family].accent;
                let span = links.first()?.span;
                links.push(Link { from: own.family, to: other.family, offset, sign, accent, span });
            }
            (None, None) => {}
        }
    }
    let pattern = Pattern { passes: passes(&links), lean: Vec::new(), ..weave.pattern().clone() };
    let held = |links: &[Link]| {
        links.iter().map(|l| usize::from(l.from == own.family) + usize::from(l.to == own.family)).sum::<usize>()
    };
    let (before, after) = (held(&weave.links().links), held(&links));
    let letter = &woven.ring.what.letter;
    let more = (before != after).then(|| format!(", where each {letter} links {after} rings instead of {before}"));
    made(expected, &pattern, &more.unwrap_or_default())
}

/// A ring that goes the other way all along is threaded from its other end: its signs, from the end the weave takes.
fn from_the_same_end(told: BTreeMap<NodeIndex, i8>, right: &BTreeMap<NodeIndex, i8>) -> BTreeMap<NodeIndex, i8> {
    let both = || told.iter().filter_map(|(ring, sign)| Some((sign, right.get(ring)?)));
    let turned = both().filter(|(told, right)| told != right).count();
    if 2 * turned > both().count() { told.into_iter().map(|(ring, sign)| (ring, -sign)).collect() } else { told }
}

/// The same of a step that lays a ring on the other side.
pub fn would_lie(expected: &Expected<'_>, told: &Lies<Name>) -> Option<String> {
    let Lies::On(name, side) = told else { return None };
    let weave = expected.weave;
    let family = weave.pattern().family(&name.letter)?;
    let mut pattern = Pattern { lean: Vec::new(), ..weave.pattern().clone() };
    for lying in &mut pattern.lying {
        match &mut lying.lies {
            Lies::On(ring, own) if ring.family == family => *own = *side,
            _ => {}
        }
    }
    made(expected, &pattern, "")
}

/// What a pattern is, in words: a built-in weave, the mirror image, nothing that holds; `None` where it is the weave itself,
/// or it cannot be told.
fn made(expected: &Expected<'_>, pattern: &Pattern, besides: &str) -> Option<String> {
    let weave = expected.weave;
    let variant = weave.with_pattern(pattern.clone());
    let own = expected.own();
    let made = Identity::of(&variant);
    if !made.is_known() || made.same_words(own) {
        return None;
    }
    if weave.pattern().lattice != Lattice::Unit {
        let whole = |weave: &Weave| weave.piece(weave.size()).map(|p| connected_components(&p.graph)).ok();
        if whole(weave) < whole(&variant) {
            return Some("from here on it would not hold together".to_owned());
        }
    }
    if let Some(built_in) = Identity::all().iter().find(|b| b.same_words(&made)) {
        return Some(format!("from here on it would be {}", built_in.name));
    }
    if made.is_mirror_of(own) {
        return Some("from here on it would lean the other way".to_owned());
    }
    let links = Identity::all().iter().find(|b| b.same_links(&made) && !b.same_links(own));
    Some(links.map_or_else(
        || format!("from here on it would be a weave that is not built in{besides}"),
        |b| format!("from here on its links would be those of {}", b.name),
    ))
}

/// Passes that make these links, one statement for each family and accent.
fn passes(links: &[Link]) -> Vec<Pass> {
    let mut all: BTreeMap<(FamilyId, Option<usize>), Pass> = BTreeMap::new();
    for link in links {
        let pass = all.entry((link.from, link.accent)).or_insert_with(|| Pass {
            family: link.from,
            meets: Vec::new(),
            accent: link.accent,
            mirrored: false,
            ring: link.span,
            span: link.span,
        });
        let target = Target { family: link.to, offset: link.offset, span: link.span };
        let sense = if link.sign > 0 { Sense::Down } else { Sense::Up };
        pass.meets.push(Meet { at: vec![target], eye: false, sense, span: link.span });
    }
    all.into_values().collect()
}
