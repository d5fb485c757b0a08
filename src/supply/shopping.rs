//! What a piece takes, against what is on the shelf: which lines it comes from, what is short, what to buy, what it costs.

use super::counts::Counts;
use super::shelf::{Shelf, ShelfRing};
use super::size::KindSize;
use super::table::{Grid, fixed, half_up};
use serde_json::{Value, json};

/// Sizes that differ by less are those of one ring, mm: as with a size that is written twice (see [`super::twice()`]).
const SAME: f64 = 0.05;

/// Rings of one kind and colour, and where they come from.
#[derive(Clone, Debug, PartialEq)]
pub struct Need<'s> {
    /// The kind.
    pub kind: String,
    /// The colour, where one is said.
    pub colour: Option<String>,
    /// So many, for all pieces and with what is to spare.
    pub rings: u64,
    /// In one piece.
    pub in_a_piece: u32,
    /// The line of the shelf they are taken from: of those of this size, material and colour the one with most on hand.
    pub line: Option<&'s ShelfRing>,
    /// So many of it are on hand and not needed for another line of this list; `None` where the shelf does not say.
    pub on_hand: Option<u64>,
}

impl Need<'_> {
    /// Rings that are missing; all of them where the shelf has none.
    pub fn short(&self) -> u64 {
        self.rings.saturating_sub(self.on_hand.unwrap_or(0))
    }

    /// Packs to buy for what is missing, rounded up; `None` where it is not said how the rings are sold.
    pub fn packs(&self) -> Option<u64> {
        let pack = self.line?.pack_rings.filter(|n| *n > 0)?;
        Some(self.short().div_ceil(pack))
    }

    /// Price of the rings in one piece, in the money of the shelf.
    pub fn price_in_a_piece(&self) -> Option<f64> {
        let line = self.line?;
        #[allow(clippy::cast_precision_loss)] // No pack has so many rings.
        let pack = line.pack_rings.filter(|n| *n > 0)? as f64;
        Some(f64::from(self.in_a_piece) * line.price_number()? / pack)
    }

    /// Price of the packs to buy.
    pub fn price_to_buy(&self) -> Option<f64> {
        #[allow(clippy::cast_precision_loss)] // Far below where it loses one.
        let packs = self.packs()? as f64;
        Some(packs * self.line?.price_number()?)
    }
}

/// Needs of all kinds and colours of the pieces counted, in the order of the counts.
pub fn needs<'s>(counts: &Counts, shelf: &'s Shelf) -> Vec<Need<'s>> {
    // What is left of each line.
    let mut left: Vec<Option<u64>> = shelf.rings.iter().map(|r| r.on_hand).collect();
    let mut needs = Vec::new();
    for colour in &counts.colours {
        let kind = counts.kinds.iter().find(|k| k.name == colour.kind);
        let size = kind.and_then(|k| k.size.as_ref());
        let material = kind.and_then(|k| k.material.as_deref());
        let fits = |ring: &ShelfRing| {
            size.is_some_and(|s| same_size(s, ring))
                && material.is_none_or(|m| same_material(m, ring))
                && colour
                    .colour
                    .as_deref()
                    .is_none_or(|c| [&ring.colour, &ring.material].into_iter().flatten().any(|own| alike(c, own)))
        };
        let lines = shelf.rings.iter().enumerate().filter(|(_, ring)| fits(ring)).map(|(n, _)| n);
        let most = lines.max_by_key(|n| (left.get(*n).copied().flatten(), std::cmp::Reverse(*n)));
        let rings = counts.at_hand(colour.rings);
        let on_hand = most.and_then(|n| left.get(n).copied().flatten());
        if let Some(slot) = most.and_then(|n| left.get_mut(n)) {
            *slot = slot.map(|had| had.saturating_sub(rings));
        }
        needs.push(Need {
            kind: colour.kind.clone(),
            colour: colour.colour.clone(),
            rings,
            in_a_piece: colour.rings,
            line: most.and_then(|n| shelf.rings.get(n)),
            on_hand,
        });
    }
    needs
}

fn same_size(size: &KindSize, ring: &ShelfRing) -> bool {
    let near = |one: Option<f64>, other: f64| one.is_some_and(|one| (one - other).abs() <= SAME);
    near(size.wire_mm, ring.wire_mm()) && near(size.inner_mm, ring.inner_mm())
}

fn same_material(words: &str, ring: &ShelfRing) -> bool {
    let known = super::material(words).map(|m| m.name);
    let own = ring.material.as_deref();
    own.is_some_and(|own| alike(words, own)) || known.is_some() && known == ring.known().map(|m| m.name)
}

fn alike(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

/// The list as text for a terminal: what to take, what to buy, what it costs.
pub fn shopping(needs: &[Need<'_>]) -> String {
    let mut grid =
        Grid::new(&["kind", "colour", "from the shelf"], &["rings", "on hand", "short", "packs", "price"], &[]);
    let words = |n: Option<u64>| n.map_or("?".to_owned(), |n| n.to_string());
    for need in needs {
        let line = need.line.map_or("not on the shelf".to_owned(), ShelfRing::called);
        let (packs, price) = match (need.short(), need.line) {
            (0, _) | (_, None) => (String::new(), String::new()),
            _ => (words(need.packs()), fixed(need.price_to_buy(), 2)),
        };
        grid.row(
            [need.kind.clone(), need.colour.clone().unwrap_or_default(), line],
            [
                need.rings.to_string(),
                if need.line.is_some() { words(need.on_hand) } else { "0".to_owned() },
                need.short().to_string(),
                packs,
                price,
            ],
            std::iter::empty(),
        );
    }
    let mut out = grid.text();
    let sold: Vec<String> = needs.iter().filter(|n| n.short() > 0).filter_map(sold_as).collect();
    for line in sold {
        out += &line;
    }
    let each: Option<f64> = needs.iter().map(Need::price_in_a_piece).sum();
    if let Some(each) = each.filter(|_| !needs.is_empty()) {
        out += &format!("Rings for one piece: {:.2}, at the prices of the shelf.\n", half_up(each, 2));
    }
    match needs.iter().map(Need::short).sum::<u64>() {
        0 => out + "Everything is on hand.\n",
        short => out + &format!("{} short.\n", super::table::count(short, "ring")),
    }
}

/// How what is short is sold.
fn sold_as(need: &Need<'_>) -> Option<String> {
    let line = need.line?;
    let (sold, packs) = (line.sold.as_deref()?, need.packs()?);
    let price = line.price.as_deref().map_or(String::new(), |p| format!(", {p} each"));
    Some(format!("Buy {packs} × {sold} of {}{price}.\n", line.called()))
}

/// The list as JSON: `kind`, `colour`, `rings`, `in_a_piece`, `line` (of the shelf, from 1), `on_hand`, `short`, `packs`,
/// `price_to_buy`, `price_in_a_piece`; what is not known is null.
pub fn shopping_json(needs: &[Need<'_>]) -> Value {
    let cents = |price: Option<f64>| price.map(|p| half_up(p, 4));
    let needs: Vec<Value> = needs
        .iter()
        .map(|n| {
            json!({
                "kind": n.kind, "colour": n.colour, "rings": n.rings, "in_a_piece": n.in_a_piece,
                "line": n.line.map(|l| l.line), "on_hand": n.on_hand, "short": n.short(), "packs": n.packs(),
                "price_to_buy": cents(n.price_to_buy()), "price_in_a_piece": cents(n.price_in_a_piece()),
            })
        })
        .collect();
    json!(needs)
}
