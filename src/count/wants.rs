//! What a class takes: rings that are sold as one, over all bags.

use super::class::Class;
use super::counts::KindCount;
use super::sold::sold_and_measured;
use crate::measure::material;
use crate::pattern::KindSize;
use crate::text::half_up;
use serde_json::{Value, json};

/// Rings that are sold as one: of one size, material and colour, whatever kinds they are of and whatever bags they go into.
#[derive(Clone, Debug, PartialEq)]
pub struct Want {
    /// The kinds.
    pub kinds: Vec<String>,
    /// Their size, as far as it is known.
    pub size: Option<KindSize>,
    /// Wire and inner diameter as they are shown, in the words they are first written in.
    pub words: [String; 2],
    /// Their material as first written.
    pub material: Option<String>,
    /// Their colour, where one is said.
    pub colour: Option<String>,
    /// So many, for all pieces and with what is to spare.
    pub rings: u64,
    /// In one piece of each bag, spares left out.
    pub in_a_piece: Vec<u32>,
    /// Weight of one ring, g, where it is known.
    pub ring_grams: Option<f64>,
}

impl Want {
    /// Weight of all of them, g.
    pub fn grams(&self) -> Option<f64> {
        #[allow(clippy::cast_precision_loss)] // Far below where it loses one.
        let rings = self.rings as f64;
        self.ring_grams.map(|g| g * rings)
    }

    fn is_like(&self, other: &Self) -> bool {
        // Sold as the same, whatever was measured.
        let mm = |w: &Self| w.size.as_ref().map(KindSize::sold_mm);
        let same_size = match (mm(self), mm(other)) {
            (Some([Some(w), Some(i)]), Some([Some(x), Some(j)])) => (w - x).abs() < 1e-9 && (i - j).abs() < 1e-9,
            // Of what is not known all is not known to be alike but what is called alike.
            (one, other_mm) => one == other_mm && self.kinds == other.kinds,
        };
        let same = |one: &Option<String>, other: &Option<String>, alike: fn(&str, &str) -> bool| match (one, other) {
            (Some(one), Some(other)) => alike(one, other),
            (one, other) => one == other,
        };
        same_size && same(&self.material, &other.material, one_material) && same(&self.colour, &other.colour, alike)
    }

    pub(crate) fn add(&mut self, other: Self) {
        for kind in other.kinds {
            if !self.kinds.contains(&kind) {
                self.kinds.push(kind);
            }
        }
        self.rings += other.rings;
        for (own, more) in self.in_a_piece.iter_mut().zip(other.in_a_piece) {
            *own += more;
        }
    }
}

/// What a class takes, each line sold as one, in the order its rings are first met.
pub fn wants(class: &Class) -> Vec<Want> {
    let mut wants: Vec<Want> = Vec::new();
    for (number, bag) in class.bags.iter().enumerate() {
        for colour in &bag.counts.colours {
            let kind: Option<&KindCount> = bag.counts.kinds.iter().find(|k| k.name == colour.kind);
            let in_a_piece = (0..class.bags.len()).map(|bag| if bag == number { colour.rings } else { 0 });
            let want = Want {
                kinds: vec![colour.kind.clone()],
                size: kind.and_then(|k| k.size.clone()),
                words: kind.map(sold_and_measured).unwrap_or_default(),
                material: kind.and_then(|k| k.material.clone()),
                colour: colour.colour.clone(),
                rings: bag.packed(colour),
                in_a_piece: in_a_piece.collect(),
                ring_grams: kind.and_then(|k| k.ring_grams),
            };
            match wants.iter_mut().find(|w| w.is_like(&want)) {
                Some(known) => known.add(want),
                None => wants.push(want),
            }
        }
    }
    wants
}

/// Whether two words mean one material.
pub(crate) fn one_material(one: &str, other: &str) -> bool {
    let known = material(one).map(|m| m.name);
    alike(one, other) || known.is_some() && known == material(other).map(|m| m.name)
}

pub(crate) fn alike(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// What is wanted as JSON: `kinds`, `colour`, `wire_mm`, `inner_mm`, `material`, `rings`, `in_a_piece` (of each bag),
/// `grams`; what is not known is null.
pub fn wants_json(wants: &[Want]) -> Value {
    json!(wants.iter().map(want_json).collect::<Vec<_>>())
}

pub(crate) fn want_json(want: &Want) -> Value {
    let rounded = |value: Option<f64>| value.map(|v| half_up(v, 4));
    json!({
        "kinds": want.kinds, "colour": want.colour, "material": want.material,
        "wire_mm": rounded(want.size.as_ref().and_then(|s| s.wire_mm)),
        "inner_mm": rounded(want.size.as_ref().and_then(|s| s.inner_mm)),
        "rings": want.rings, "in_a_piece": want.in_a_piece, "grams": rounded(want.grams()),
    })
}
