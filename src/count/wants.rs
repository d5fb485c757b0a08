//! What a class takes over all bags, by product: rings of one size, material and colour.

use super::class::Class;
use super::counts::KindCount;
use super::sold::size_cells;
use crate::measure::material;
use crate::pattern::KindSize;

/// Rings of one product: of one size, material and colour, whatever their kinds and bags.
#[derive(Clone, Debug, PartialEq)]
pub struct Want {
    /// The kinds.
    pub kinds: Vec<String>,
    /// Their size, as far as it is known.
    pub size: Option<KindSize>,
    /// Wire and inner diameter for a table, as first written.
    pub words: [String; 2],
    /// Their material as first written.
    pub material: Option<String>,
    /// Their colour, where they have one.
    pub colour: Option<String>,
    /// How many, for all pieces and with spares.
    pub rings: u64,
    /// How many are in one piece of each bag, without spares.
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
        // What was measured makes no other product.
        let mm = |w: &Self| w.size.as_ref().map(KindSize::sold_mm);
        let same_size = match (mm(self), mm(other)) {
            (Some([Some(w), Some(i)]), Some([Some(x), Some(j)])) => (w - x).abs() < 1e-9 && (i - j).abs() < 1e-9,
            // Rings of unknown size are alike only where they are of the same kinds.
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

/// The products that a class takes, in the order its rings come up.
pub fn wants(class: &Class) -> Vec<Want> {
    let mut wants: Vec<Want> = Vec::new();
    for (number, bag) in class.bags.iter().enumerate() {
        for colour in &bag.counts.colours {
            let kind: Option<&KindCount> = bag.counts.kinds.iter().find(|k| k.name == colour.kind);
            let in_a_piece: Vec<u32> =
                (0..class.bags.len()).map(|bag| if bag == number { colour.rings } else { 0 }).collect();
            let want = Want {
                kinds: vec![colour.kind.clone()],
                size: kind.and_then(|k| k.size.clone()),
                words: size_cells(kind),
                material: kind.and_then(|k| k.material.clone()),
                colour: colour.colour.clone(),
                rings: bag.packed(colour),
                in_a_piece,
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
