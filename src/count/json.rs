//! Counts for machines.

use super::class::Class;
use super::counts::{Counts, KindCount};
use super::wants::{wants, wants_json};
use crate::pattern::Lattice;
use serde_json::{Value, json};

impl Counts {
    /// The counts as one JSON object, described in `grammar/count.schema.json`. All counts and weights but `total` are of
    /// one piece; what is not known is null.
    ///
    /// - `weave`, `lattice` (unit, chain, sheet), `repeats` (chain) or `rows` and `columns` (sheet),
    ///   `size_asked` (false where the file does not ask for this size), `pieces`
    /// - `rings`, `closed`, `open`, `accents`, `grams`
    /// - `families`: `family`, `kind`, `accent`, `rings`, `closed`, `open`, `end_rings`
    /// - `kinds`: `kind`, `rings`, `closed`, `open`, `wire_mm`, `inner_mm` (as measured, or else nominal), `nominal_wire_mm`,
    ///   `nominal_inner_mm` (what the rings are sold by), `aspect_ratio` (of the sizes that count), `material` as written, `known_material`, `density` (g/cm³), `density_source`, `care`, `ring_grams`, `grams`
    /// - `colours`: `colour`, `kind`, `rings`, `closed`, `open`, `at_hand` (for all pieces, with spares)
    /// - `extent` of a sheet: `height_mm`, `width_mm`, of one repeat `row_mm`, `column_mm`, `asked_height_mm`, `asked_width_mm`
    /// - `spares_percent`
    /// - `length`: `by` (measured, computed), `measured_repeats`, `measured_mm`, `computed_pitch_mm`, `pitch_mm` (the
    ///   one it goes by), `ends_mm` (what the end rings make of whole repeats), `clasp_mm`, `asked_mm`, `length_mm`
    /// - `total`, over all pieces: `rings`, `closed`, `open`, `grams`
    pub fn json(&self) -> Value {
        let pieces = u64::from(self.pieces);
        let [rows, columns] = self.size.0;
        let size = match self.lattice {
            Lattice::Unit => json!({}),
            Lattice::Chain => json!({ "repeats": rows }),
            Lattice::Sheet => json!({ "rows": rows, "columns": columns }),
        };
        let families = self.families.iter().map(|f| {
            json!({
                "family": f.name, "kind": f.kind, "accent": f.accent,
                "rings": f.rings(), "closed": f.closed, "open": f.open, "end_rings": f.end_rings,
            })
        });
        let colours = self.colours.iter().map(|c| {
            json!({
                "colour": c.colour, "kind": c.kind, "rings": c.rings, "closed": c.closed, "open": c.rings - c.closed,
                "at_hand": self.at_hand(c.rings),
            })
        });
        let rest = json!({
            "size_asked": self.size_asked,
            "pieces": pieces,
            "rings": self.rings(), "closed": self.closed(), "open": self.open(),
            "accents": self.accents(), "grams": rounded(self.grams(), 4),
            "families": families.collect::<Vec<_>>(),
            "kinds": self.kinds.iter().map(kind).collect::<Vec<_>>(),
            "colours": colours.collect::<Vec<_>>(),
            "length": self.length.map(|l| json!({
                "by": if l.measured.is_some() { "measured" } else { "computed" },
                "measured_repeats": l.measured.map(|m| m.0),
                "measured_mm": rounded(l.measured.map(|m| m.1), 4),
                "computed_pitch_mm": rounded(l.computed_pitch_mm, 4),
                "pitch_mm": rounded(Some(l.pitch_mm), 4),
                "ends_mm": rounded(l.ends_mm, 4),
                "clasp_mm": rounded(Some(l.clasp_mm), 4),
                "asked_mm": rounded(l.asked_mm, 4),
                "length_mm": rounded(Some(l.length_mm), 4),
            })),
            "extent": self.extent.map(|e| json!({
                "height_mm": rounded(Some(e.mm[0]), 4), "width_mm": rounded(Some(e.mm[1]), 4),
                "row_mm": rounded(Some(e.pitch_mm[0]), 4), "column_mm": rounded(Some(e.pitch_mm[1]), 4),
                "asked_height_mm": rounded(e.asked_mm[0], 4), "asked_width_mm": rounded(e.asked_mm[1], 4),
            })),
            "spares_percent": self.spares,
            "total": {
                "rings": u64::from(self.rings()) * pieces,
                "closed": u64::from(self.closed()) * pieces,
                "open": u64::from(self.open()) * pieces,
                "grams": rounded(self.grams().map(|g| g * f64::from(self.pieces)), 4),
            },
        });
        let head = json!({ "weave": self.name, "lattice": self.lattice.word() });
        [head, size, rest].into_iter().filter_map(|v| v.as_object().cloned()).flatten().collect()
    }
}

impl Class {
    /// What is made as one JSON object, as `grammar/count.schema.json` describes it: of a text without bags the counts of its
    /// piece, of one with bags each of them (`bag`, `rings_of`, `piece`, `packed`), their `total`, and what is `wanted`.
    pub fn json(&self) -> Value {
        if let [only] = self.bags.as_slice()
            && only.name.is_none()
        {
            return only.counts.json();
        }
        let bags = self.bags.iter().map(|bag| {
            let packed = bag
                .counts
                .colours
                .iter()
                .map(|c| json!({ "kind": c.kind, "colour": c.colour, "rings": bag.counts.packed(c.rings) }));
            json!({
                "bag": bag.name, "rings_of": bag.rings, "piece": bag.counts.json(),
                "packed": packed.collect::<Vec<_>>(),
            })
        });
        json!({
            "weave": self.name,
            "bags": bags.collect::<Vec<_>>(),
            "total": {
                "pieces": self.pieces(),
                "rings": self.sum(Counts::rings), "closed": self.sum(Counts::closed), "open": self.sum(Counts::open),
                "grams": rounded(self.grams(), 4),
            },
            "wanted": wants_json(&wants(self)),
        })
    }
}

fn kind(kind: &KindCount) -> Value {
    let size = kind.size.as_ref();
    json!({
        "kind": kind.name,
        "rings": kind.rings(), "closed": kind.closed, "open": kind.open,
        "wire_mm": rounded(size.and_then(|s| s.wire_mm), 4),
        "inner_mm": rounded(size.and_then(|s| s.inner_mm), 4),
        "nominal_wire_mm": rounded(size.and_then(|s| s.nominal_wire_mm), 4),
        "nominal_inner_mm": rounded(size.and_then(|s| s.nominal_inner_mm), 4),
        "aspect_ratio": rounded(size.and_then(|s| s.aspect_ratio), 4),
        "material": kind.material,
        "known_material": kind.known.map(|m| m.name),
        "density": kind.known.map(|m| m.density),
        "density_source": kind.known.map(|m| m.source),
        "care": kind.known.and_then(|m| m.care),
        "ring_grams": rounded(kind.ring_grams, 6),
        "grams": rounded(kind.grams(), 4),
    })
}

/// Rounded to so many decimals, so that the last bits of a sum never show.
fn rounded(value: Option<f64>, decimals: i32) -> Option<f64> {
    let scale = libm::pow(10.0, f64::from(decimals));
    value.map(|v| libm::round(v * scale) / scale).filter(|v| v.is_finite())
}

/// JSON Schema of what `byrnie count --json` prints.
pub const COUNT_SCHEMA: &str = include_str!("../../grammar/count.schema.json");
