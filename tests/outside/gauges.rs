use super::same;
use byrnie::Weave;
use byrnie::measure::{awg_mm, gauge_near, length_mm, millimetres, swg_mm};
use byrnie::pattern::NoBases;
use byrnie::text::Source;

/// Number, AWG (ASTM B258: 0.127 mm · 92^((36 − n)/39)), British SWG (BS 3737:1964, withdrawn) and the US
/// steel gauge (Machinery's Handbook, as in the Python library `fluids` 1.3.1, which calls it "SWG").
const GAUGES: [(u32, f64, f64, f64); 10] = [
    (10, 2.58819, 3.2512, 3.4290),
    (12, 2.05253, 2.6416, 2.6797),
    (14, 1.62773, 2.0320, 2.0320),
    (16, 1.29085, 1.6256, 1.5875),
    (17, 1.14953, 1.4224, 1.3716),
    (18, 1.02369, 1.2192, 1.2065),
    (19, 0.91162, 1.0160, 1.0414),
    (20, 0.81182, 0.9144, 0.8839),
    (22, 0.64380, 0.7112, 0.7264),
    (24, 0.51056, 0.5588, 0.5842),
];

#[test]
fn gauges_are_those_of_the_standards() {
    for (n, awg, swg, _) in GAUGES {
        assert!(same(awg_mm(n).unwrap(), awg, 5), "{n} AWG: {:?}", awg_mm(n));
        assert!(same(swg_mm(n).unwrap(), swg, 4), "{n} SWG: {:?}", swg_mm(n));
    }
    // The formula's own fixed points: 36 AWG is 0.127 mm; 0000 would be 11.684 mm (ASTM B258).
    assert!(same(awg_mm(36).unwrap(), 0.127, 9));
    // The table runs from 0 to 40, thinner each time.
    for table in [awg_mm, swg_mm] {
        assert!((0..40).all(|n| table(n) > table(n + 1)));
        assert_eq!(table(41), None);
    }
}

/// A bare gauge is the wire of the system the file names: 18 gauge is 1.02369 mm by ASTM B258, 1.2192 mm by BS 3737.
#[test]
fn a_bare_gauge_is_that_of_the_standard_the_file_names() {
    for (n, awg, swg, _) in GAUGES {
        for (system, mm, places) in [("awg", awg, 5), ("swg", swg, 4)] {
            let text = format!("rings\n  main wire {n} gauge (1 mm), inner 9 mm\ngauges {system}\n");
            let weave = Weave::compile(Source::new("bare.weave", text), &NoBases);
            let (wire, _) = weave.pattern().kinds[0].wire.as_ref().unwrap();
            assert!(same(millimetres(wire).unwrap(), mm, places), "{n} {system}");
            assert_eq!((wire.words(), wire.as_written()), (format!("{n} {system}"), format!("{n} gauge")));
        }
    }
}

/// The trap: lists that call the US steel gauge "SWG". Only number 14 is the same wire in both.
#[test]
fn british_gauge_is_not_the_us_steel_gauge() {
    for (n, _, _, steel) in GAUGES {
        assert_eq!(same(swg_mm(n).unwrap(), steel, 4), n == 14, "{n}");
    }
}

/// The same number is a different wire in each system; the nearest numbers lie one or two apart.
#[test]
fn american_and_british_numbers_differ() {
    for (n, awg, swg, _) in GAUGES {
        assert!(swg - awg > 0.04, "{n}");
        assert_eq!(gauge_near(awg, awg_mm), Some(n));
        assert_eq!(gauge_near(swg, swg_mm), Some(n));
    }
    assert_eq!(gauge_near(1.0, swg_mm), Some(19));
    assert_eq!(gauge_near(1.2, awg_mm), None, "no American wire is within 3 % of 1.2 mm");
}

/// The inch is 25.4 mm (international yard, 1959), so 3/8 in = 9.525 mm, 1 1/4 in = 31.75 mm.
#[test]
fn inches_are_25_4_millimetres() {
    for (words, mm) in
        [("3/8 in", 9.525), ("1 1/4 in", 31.75), ("0.375 in", 9.525), ("5/32 inch", 3.96875), ("2 inches", 50.8)]
    {
        let text = format!("ring a main\nrings\n  main wire 18 swg, inner {words}\n");
        let weave = Weave::compile(Source::new("inch.weave", text), &NoBases);
        let kind = &weave.pattern().kinds[0];
        assert!(same(length_mm(&kind.inner.as_ref().unwrap().0).unwrap(), mm, 9), "{words}");
        let wire = &kind.wire.as_ref().unwrap().0;
        assert!(same(millimetres(wire).unwrap(), 1.2192, 9));
        assert_eq!(length_mm(wire), None, "a gauge is no length");
    }
}
