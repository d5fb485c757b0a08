//! What is made, compared with what is on the shelf: which lines it comes from, what is short, what to buy, what it
//! costs.

use super::stock::{Shelf, ShelfRing};
use crate::count::{Class, NO_COLOUR, Want, alike, one_material};
use crate::measure::{length_mm, millimetres};
use crate::pattern::KindSize;
use crate::text::{Grid, Layout, UNKNOWN, count, fixed, half_up};

/// Sizes that differ by no more are one size, mm: as for a size that is written twice (see
/// [`crate::measure::twice()`]).
const SAME: f64 = 0.05;

/// Rings that are wanted, and where they come from.
#[derive(Clone, Debug, PartialEq)]
pub struct Need<'s> {
    /// What is wanted from one line of the shelf.
    pub want: Want,
    /// The colours it is wanted in; several where some rings have no colour.
    pub colours: Vec<Option<String>>,
    /// The line of the shelf they are taken from: the one of this size, material and colour that has the most on hand.
    pub line: Option<&'s ShelfRing>,
}

impl Need<'_> {
    /// Rings on hand; `None` where the shelf does not say.
    pub fn on_hand(&self) -> Option<u64> {
        self.line?.on_hand
    }

    /// Rings that are missing; all of them where the shelf has none, or does not say.
    pub fn short(&self) -> u64 {
        self.want.rings.saturating_sub(self.on_hand().unwrap_or(0))
    }

    /// Packs to buy for what is missing, rounded up; `None` where the shelf does not say how the rings are sold.
    pub fn packs(&self) -> Option<u64> {
        let pack = self.line?.pack_rings.filter(|n| *n > 0)?;
        Some(self.short().div_ceil(pack))
    }

    /// Price of one ring, in the currency of the shelf.
    fn ring_price(&self) -> Option<f64> {
        let line = self.line?;
        #[allow(clippy::cast_precision_loss)] // No pack has so many rings.
        let pack = line.pack_rings.filter(|n| *n > 0)? as f64;
        Some(line.price_number()? / pack)
    }

    /// Price of the rings in one piece of a bag, without spares, in the currency of the shelf.
    pub fn price_in_a_piece(&self, bag: usize) -> Option<f64> {
        match self.want.in_a_piece.get(bag).copied().unwrap_or(0) {
            0 => Some(0.0),
            rings => Some(f64::from(rings) * self.ring_price()?),
        }
    }

    /// Price of the packs to buy.
    pub fn price_to_buy(&self) -> Option<f64> {
        #[allow(clippy::cast_precision_loss)] // Far below where it loses one.
        let packs = self.packs()? as f64;
        Some(packs * self.line?.price_number()?)
    }
}

/// What is wanted, grouped by the line of the shelf it comes from, in the order of the wants.
pub fn needs<'s>(wants: &[Want], shelf: &'s Shelf) -> Vec<Need<'s>> {
    // How many rings are left of each line.
    let mut left: Vec<Option<u64>> = shelf.rings.iter().map(|r| r.on_hand).collect();
    let mut needs: Vec<Need<'s>> = Vec::new();
    for want in wants {
        let fits = |ring: &ShelfRing| {
            want.size.as_ref().is_some_and(|s| same_size(s, ring))
                && want.material.as_deref().is_none_or(|m| same_material(m, ring))
                && want
                    .colour
                    .as_deref()
                    .is_none_or(|c| [&ring.colour, &ring.material].into_iter().flatten().any(|own| alike(c, own)))
        };
        let lines = shelf.rings.iter().enumerate().filter(|(_, ring)| fits(ring)).map(|(n, _)| n);
        let most = lines.max_by_key(|n| (left.get(*n).copied().flatten(), std::cmp::Reverse(*n)));
        if let Some(slot) = most.and_then(|n| left.get_mut(n)) {
            *slot = slot.map(|had| had.saturating_sub(want.rings));
        }
        let line = most.and_then(|n| shelf.rings.get(n));
        match needs.iter_mut().find(|n| line.is_some() && n.line.map(|l| l.line) == line.map(|l| l.line)) {
            Some(known) => {
                known.want.add(want.clone());
                if !known.colours.contains(&want.colour) {
                    known.colours.push(want.colour.clone());
                }
            }
            None => needs.push(Need { want: want.clone(), colours: vec![want.colour.clone()], line }),
        }
    }
    needs
}

/// Whether rings are those of a line: sold by the same sizes, or of the same sizes as measured.
fn same_size(size: &KindSize, ring: &ShelfRing) -> bool {
    let near = |one: Option<f64>, other: Option<f64>| one.zip(other).is_some_and(|(a, b)| (a - b).abs() <= SAME);
    let same = |[wire, inner]: [Option<f64>; 2], other: [Option<f64>; 2]| near(wire, other[0]) && near(inner, other[1]);
    let [wire, inner] = &ring.nominal;
    same(size.sold_mm(), [millimetres(wire), length_mm(inner)])
        || same([size.wire_mm, size.inner_mm], [Some(ring.wire_mm()), Some(ring.inner_mm())])
}

fn same_material(words: &str, ring: &ShelfRing) -> bool {
    ring.material.as_deref().is_some_and(|own| one_material(words, own))
}

/// The list for people: what to take, what to buy, what it costs.
pub fn shopping(class: &Class, needs: &[Need<'_>], layout: Layout) -> String {
    let coloured = needs.iter().flat_map(|n| &n.colours).any(Option::is_some);
    let mut grid = Grid::new(layout)
        .words(["kind"])
        .words(coloured.then_some("colour"))
        .words(["from the shelf"])
        .numbers(["rings", "on hand", "short", "packs", "price"]);
    let words = |n: Option<u64>| n.map_or(UNKNOWN.to_owned(), |n| n.to_string());
    for need in needs {
        let line = need.line.map_or("not on the shelf".to_owned(), ShelfRing::called);
        let (packs, price) = match (need.short(), need.line) {
            (0, _) | (_, None) => (String::new(), String::new()),
            _ => (words(need.packs()), fixed(need.price_to_buy(), 2)),
        };
        let mut cells = vec![need.want.kinds.join(", ")];
        let colours = need.colours.iter().map(|c| c.as_deref().unwrap_or(NO_COLOUR));
        cells.extend(coloured.then(|| colours.collect::<Vec<_>>().join(", ")));
        cells.extend([line, need.want.rings.to_string()]);
        cells.push(if need.line.is_some() { words(need.on_hand()) } else { "0".to_owned() });
        cells.extend([need.short().to_string(), packs, price]);
        grid.row(cells);
    }
    let mut lines: String = needs.iter().filter(|n| n.short() > 0).filter_map(sold_as).collect();
    for (number, bag) in class.bags.iter().enumerate() {
        let each: Option<f64> = needs.iter().map(|n| n.price_in_a_piece(number)).sum();
        if let Some(each) = each.filter(|_| !needs.is_empty()) {
            let of = bag.name.as_ref().map_or(String::new(), |name| format!(" of \"{name}\""));
            lines += &format!("Rings for one piece{of}: {:.2}, at the prices on the shelf.\n", half_up(each, 2));
        }
    }
    let bought: Option<f64> = needs.iter().filter(|n| n.short() > 0).map(Need::price_to_buy).sum();
    match needs.iter().map(Need::short).sum::<u64>() {
        0 => lines += "Everything is on hand.\n",
        short => {
            let price = bought.map_or(String::new(), |p| format!("; the packs to buy cost {:.2}", half_up(p, 2)));
            lines += &format!("{} short{price}.\n", count(short, "ring"));
        }
    }
    layout.heading("From the shelf") + &grid.text() + &layout.lines(&lines)
}

/// What to buy of a product that is short.
fn sold_as(need: &Need<'_>) -> Option<String> {
    let line = need.line?;
    let (sold, packs) = (line.sold.as_deref()?, need.packs()?);
    let price = line.price.as_deref().map_or(String::new(), |p| format!(", {p} each"));
    Some(format!("Buy {packs} × {sold} of {}{price}.\n", line.called()))
}
