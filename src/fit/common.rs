//! Wires and inner diameters in common use. Common practice, no source.

use super::offer::Offer;
use crate::measure::millimetres;
use crate::notation::{Number, Size, Unit};
use crate::text::Span;

/// Wires in mm, and inner diameters that go with them: from, to, in steps of, in tenths of a mm.
const METRIC_WIRES: [&str; 9] = ["0.6", "0.8", "0.9", "1", "1.2", "1.5", "1.6", "2", "2.5"];
const METRIC_INNERS: (u32, u32, u32) = (20, 140, 5);
/// Gauges, American and British.
const GAUGES: [u32; 7] = [14, 16, 17, 18, 19, 20, 22];
/// Inner diameters that go with gauges, in 64ths of an inch: by 64ths up to 5/16, by 32nds from there to 1/2.
const SIXTY_FOURTHS: [u32; 20] = [5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 22, 24, 28, 32];
/// Aspect ratios makers weave with.
const RATIOS: std::ops::RangeInclusive<f64> = 2.0..=12.0;

/// Every wire in common use with every inner diameter that goes with it, of an aspect ratio from 2 to 12; from the
/// thinnest wire and the smallest ring up.
pub fn common_sizes() -> Vec<Offer> {
    let size = |text: String, value: f64, unit: Unit| {
        let size = Size::new(Number { text, value }, unit, Span::new(0, 0, 0));
        millimetres(&size).map(|mm| (mm, size))
    };
    let metric = METRIC_WIRES.iter().filter_map(|w| size((*w).to_owned(), w.parse().ok()?, Unit::Mm));
    let (from, to, step) = METRIC_INNERS;
    let tenths = (from..=to).step_by(step as usize).filter_map(|tenths| {
        let mm = f64::from(tenths) / 10.0;
        size(format!("{mm}"), mm, Unit::Mm)
    });
    let gauges = [Unit::Awg, Unit::Swg].into_iter().flat_map(|system| GAUGES.into_iter().map(move |n| (n, system)));
    let gauges = gauges.filter_map(|(n, system)| size(n.to_string(), f64::from(n), system));
    let inches = SIXTY_FOURTHS.into_iter().filter_map(|parts| {
        let under = 64 >> parts.trailing_zeros().min(6);
        size(format!("{}/{under}", parts * under / 64), f64::from(parts) / 64.0, Unit::Inch)
    });
    let (tenths, inches): (Vec<_>, Vec<_>) = (tenths.collect(), inches.collect());
    let mut all: Vec<Offer> = Vec::new();
    for (wires, inners) in [(metric.collect::<Vec<_>>(), &tenths), (gauges.collect(), &inches)] {
        for (wire_mm, wire) in &wires {
            let offers = inners.iter().map(|(mm, inner)| Offer::plain((*wire_mm, wire), (*mm, inner)));
            all.extend(offers.filter(|o| RATIOS.contains(&o.ratio())));
        }
    }
    all.sort_by(|a, b| a.wire_mm.total_cmp(&b.wire_mm).then(a.inner_mm.total_cmp(&b.inner_mm)));
    all
}
