//! What is made, and what of it is on the shelf, for other programs.

use super::shopping::Need;
use crate::count::{Class, ClassJson, Gauge, GaugeJson, PieceJson, SoldJson, Want};
use crate::text::Rounded;
use schemars::JsonSchema;
use serde::Serialize;

/// What `byrnie count --json` prints: of a text without bags its piece, of one with bags each of them and what they come
/// to. What is not known is null. Lengths are in mm, weights in g, densities in g/cm³.
#[derive(Serialize, JsonSchema)]
#[schemars(title = "What a piece, a kit or a class takes")]
#[serde(untagged)]
pub enum CountJson<'c> {
    /// Of a text without bags.
    Piece(Box<With<'c, PieceJson<'c>>>),
    /// Of a text with bags.
    Class(With<'c, ClassJson<'c>>),
}

/// What is made, and what there is besides.
#[derive(Serialize, JsonSchema)]
#[schemars(rename = "{T}WithShopping")]
pub struct With<'c, T> {
    #[serde(flatten)]
    made: T,
    /// The same piece in the rings without a name and in each set of rings; left out where the text has one set alone.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    gauges: Vec<GaugeJson<'c>>,
    /// What is wanted, by the line of the shelf it comes from; left out without a shelf.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Vec<Needed>")]
    shopping: Option<Vec<Needed<'c>>>,
}

#[derive(Serialize, JsonSchema)]
struct Needed<'c> {
    #[schemars(length(min = 1))]
    kinds: &'c [String],
    #[schemars(range(min = 0))]
    grams: Option<Rounded<4>>,
    #[serde(flatten)]
    sold: SoldJson<'c>,
    /// Several where some are not said.
    #[schemars(length(min = 1))]
    colours: &'c [Option<String>],
    /// Of the shelf, from 1; null where the shelf has none.
    #[schemars(range(min = 1))]
    line: Option<usize>,
    /// Null where the shelf does not say.
    on_hand: Option<u64>,
    /// Rings that are missing.
    short: u64,
    /// Whole packs to buy for what is short; null where the shelf does not say how many rings are in a pack.
    packs: Option<u64>,
    /// Of the packs, in the money of the shelf.
    price_to_buy: Option<Rounded<4>>,
    /// Of these rings in one piece of each bag, in the money of the shelf.
    price_in_a_piece: Vec<Option<Rounded<4>>>,
}

impl<'c> CountJson<'c> {
    /// What is made with the same piece in several gauges, empty where there is one alone, what is wanted, and, with a
    /// shelf, what comes from it.
    pub fn of(class: &'c Class, gauges: &'c [Gauge], wants: &'c [Want], needs: Option<&'c [Need<'c>]>) -> Self {
        let gauges = gauges.iter().map(Gauge::json).collect();
        let shopping = needs.map(|needs| needs.iter().map(Need::json).collect());
        match class.bags.as_slice() {
            [only] if only.name.is_none() => Self::Piece(Box::new(With { made: only.counts.json(), gauges, shopping })),
            _ => Self::Class(With { made: class.json(wants), gauges, shopping }),
        }
    }
}

impl Need<'_> {
    fn json(&self) -> Needed<'_> {
        let bags = 0..self.want.in_a_piece.len();
        Needed {
            kinds: &self.want.kinds,
            grams: self.want.grams().map(Rounded),
            sold: self.want.sold_json(),
            colours: &self.colours,
            line: self.line.map(|line| line.line),
            on_hand: self.on_hand(),
            short: self.short(),
            packs: self.packs(),
            price_to_buy: self.price_to_buy().map(Rounded),
            price_in_a_piece: bags.map(|bag| self.price_in_a_piece(bag).map(Rounded)).collect(),
        }
    }
}
