//! What a wrong step makes, when all rings of its letter go as it says.

use super::expected::Expected;
use super::told::{Lies as Told, Woven};
use crate::library::Identity;
use crate::notation::Side;
use crate::pattern::{FamilyId, Lattice, Lies, Meet, Pass, Pattern, Sense, Target};
use crate::rings::Link;
use crate::weave::Weave;
use petgraph::algo::connected_components;
use petgraph::graph::NodeIndex;
use std::collections::BTreeMap;

/// Where a ring goes, as it is told: every ring it passes, and with which sign where all fronts face the maker. `None` where
/// that is not told of all of them.
fn told_signs(expected: &Expected<'_>, woven: &Woven) -> Option<BTreeMap<NodeIndex, i8>> {
    let mut signs = BTreeMap::new();
    for pass in &woven.passes {
        let (name, down) = &pass.what;
        let node = *expected.nodes.get(name)?;
        let sign = match down {
            Some(down) => i8::from(*down) * 2 - 1,
            None => woven.pairs.iter().find_map(|p| match &p.what {
                (one, _, _) if one == name => Some(1),
                (_, other, one_way) if other == name => Some(if *one_way { 1 } else { -1 }),
                _ => None,
            })?,
        };
        signs.insert(node, sign);
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
    let mut told = told_signs(expected, woven)?;
    // A ring that goes the other way all along is threaded from its other end.
    let turned = told.iter().filter(|(r, s)| right.get(r).is_some_and(|own| own != *s)).count();
    if 2 * turned > told.keys().filter(|r| right.contains_key(r)).count() {
        for sign in told.values_mut() {
            *sign = -*sign;
        }
    }
    let at = |node: NodeIndex| expected.piece.graph.node_weight(node).map(|r| (r.family, r.at));
    let (family, own) = at(ring)?;
    let mut links = weave.links().links.clone();
    for node in right.keys().chain(told.keys()) {
        let (other, place) = at(*node)?;
        let offset = place - own;
        let number = links.iter().position(|l| {
            (l.from, l.to, l.offset) == (family, other, offset) || (l.from, l.to, l.offset) == (other, family, -offset)
        });
        // Signs are told with all fronts towards the maker.
        let sign = told.get(node).map(|sign| sign * expected.front(ring) * expected.front(*node));
        match (number, sign) {
            (Some(number), Some(sign)) => links.get_mut(number)?.sign = sign,
            (Some(number), None) => drop(links.remove(number)),
            (None, Some(sign)) => {
                let accent = weave.pattern().families[family].accent;
                let span = links.first()?.span;
                links.push(Link { from: family, to: other, offset, sign, accent, span });
            }
            (None, None) => {}
        }
    }
    let pattern = Pattern { passes: passes(&links), lean: Vec::new(), ..weave.pattern().clone() };
    let held = |links: &[Link]| links.iter().map(|l| usize::from(l.from == family) + usize::from(l.to == family)).sum();
    let (before, after): (usize, usize) = (held(&weave.links().links), held(&links));
    let letter = &woven.ring.what.0;
    let more = (before != after).then(|| format!(", in which each {letter} holds {after} rings and not {before}"));
    made(expected, &pattern, &more.unwrap_or_default())
}

/// The same of a step that lays a ring on the other side.
pub fn would_lie(expected: &Expected<'_>, told: &Told) -> Option<String> {
    let Told::Side(name, far) = told else { return None };
    let weave = expected.weave;
    let family = weave.pattern().family(&name.0)?;
    let mut pattern = Pattern { lean: Vec::new(), ..weave.pattern().clone() };
    for lying in &mut pattern.lying {
        match &mut lying.lies {
            Lies::On(ring, side) if ring.family == family => *side = if *far { Side::Far } else { Side::Near },
            _ => {}
        }
    }
    made(expected, &pattern, "")
}

/// What a pattern is, in words: a built-in weave, the mirror image, nothing that holds; `None` where it is the weave itself,
/// or nobody can say.
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
        || format!("from here on it would be another weave, none of the built-in ones{besides}"),
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
