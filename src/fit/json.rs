//! The answer for other programs.

use super::answer::{Fit, Held, Nearest};
use super::gaps::Gap;
use super::offer::Offer;
use super::row::{Enough, Pick, Row};
use serde_json::{Value, json};

impl Fit {
    /// The answer as one JSON object; what is not known is null. The schema (`grammar/fit.schema.json`) says what each part
    /// means.
    pub fn json(&self) -> Value {
        let m = &self.misses;
        json!({
            "weave": self.weave,
            "kinds": self.kinds,
            "as_written": self.held.iter().map(|Held { kind, offer }| {
                let mut own = size(offer);
                if let Some(own) = own.as_object_mut() {
                    own.insert("kind".to_owned(), json!(kind));
                }
                own
            }).collect::<Vec<_>>(),
            "from": if self.from_shelf { "shelf" } else { "common sizes" },
            "sizes": self.offers.len(),
            "stretching": self.stretching.iter().map(|r| r.line).collect::<Vec<_>>(),
            "floors": self.floors.iter().map(|f| {
                json!({ "kind": f.kind, "proved": fixed(f.proved, 6), "found": fixed(f.found, 6) })
            }).collect::<Vec<_>>(),
            "base_floor": self.base_floor.map(|f| fixed(f, 6)),
            "rows": self.rows.iter().map(Row::json).collect::<Vec<_>>(),
            "misses": {
                "proved": m.proved, "base_not_found": m.base, "not_found": m.not_found,
                "looks_tight": m.tight, "looks_promising": m.promising, "not_surveyed": m.beyond,
                "nearest": m.nearest.iter().map(|Nearest { offers, room }| json!({
                    "sizes": offers.iter().map(size).collect::<Vec<_>>(),
                    "room": room.map(|room| fixed(room, 4)),
                })).collect::<Vec<_>>(),
            },
            "wanted": self.gaps.iter().map(Gap::json).collect::<Vec<_>>(),
            "work": { "settled": self.work.settled, "surveyed": self.work.surveyed, "pulled": self.work.pulled },
        })
    }
}

impl Row {
    fn json(&self) -> Value {
        json!({
            "picks": self.picks.iter().map(Pick::json).collect::<Vec<_>>(),
            "room": fixed(self.room, 4),
            "little_room": self.little_room(),
            "lies": self.hold().word(),
            "repeat_mm": self.repeat_mm.iter().map(|l| fixed(*l, 3)).collect::<Vec<_>>(),
            "sits": self.sits.iter().map(|s| json!({ "family": s.family, "word": s.word.word() })).collect::<Vec<_>>(),
            "repeats": self.size.map(|s| s.0),
        })
    }
}

impl Pick {
    fn json(&self) -> Value {
        let mut value = size(&self.offer);
        let rings = self.offer.rings.iter().zip(&self.enough).map(|(ring, enough)| {
            json!({
                "line": ring.line,
                "material": ring.material,
                "colour": ring.colour,
                "on_hand": ring.on_hand,
                "enough": match enough {
                    Enough::Yes => Value::Bool(true),
                    Enough::Short(_) => Value::Bool(false),
                    Enough::Unknown => Value::Null,
                },
                "short_by": match enough {
                    Enough::Short(by) => json!(by),
                    _ => Value::Null,
                },
            })
        });
        let more = json!({ "kind": self.kind, "needed": self.needed, "rings": rings.collect::<Vec<_>>() });
        if let (Some(value), Value::Object(more)) = (value.as_object_mut(), more) {
            value.extend(more);
        }
        value
    }
}

impl Gap {
    fn json(&self) -> Value {
        json!({
            "base": size(&self.base),
            "kind": self.kind,
            "wire_mm": fixed(self.base.wire_mm, 4),
            "inner_mm": self.inner_mm.map(|mm| fixed(mm, 4)),
            "tried": self.tried,
            "some_close": self.some_close,
            "nearest": self.nearest.as_ref().map(size),
        })
    }
}

fn size(offer: &Offer) -> Value {
    json!({
        "wire_mm": fixed(offer.wire_mm, 4), "inner_mm": fixed(offer.inner_mm, 4),
        "aspect_ratio": fixed(offer.ratio(), 4), "words": offer.size(),
    })
}

/// A number to so many decimals, the same on every machine; −0 is 0.
fn fixed(x: f64, decimals: i32) -> Value {
    let unit = libm::pow(10.0, f64::from(decimals));
    let rounded = libm::round(x * unit) / unit;
    if rounded.is_finite() { json!(if rounded == 0.0 { 0.0 } else { rounded }) } else { Value::Null }
}

/// The schema of what [`Fit::json`] gives.
pub const FIT_SCHEMA: &str = include_str!("../../grammar/fit.schema.json");
