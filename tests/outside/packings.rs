use super::same;
use byrnie::measure::{PROVED, hole_needed, packing_ratio, proved_ratio};
use proptest::prelude::*;

/// Graham, Lubachevsky, Nurmela, Östergård, Discrete Math. 181 (1998) 139–154; Kravitz, Math. Mag. 40
/// (1967) 65–70.
pub const RATIOS: [f64; 20] = [
    1.0,
    2.0,
    2.154_700_538,
    2.414_213_562,
    2.701_301_617,
    3.0,
    3.0,
    3.304_764_871,
    3.613_125_930,
    3.813_025_631,
    3.923_804_400,
    4.029_601_930,
    4.236_067_978,
    4.328_428_555,
    4.521_356_965,
    4.615_425_595,
    4.792_033_748,
    4.863_703_305,
    4.863_703_305,
    5.122_320_737,
];

#[test]
fn ratios_are_those_of_the_literature() {
    for (i, ratio) in RATIOS.into_iter().enumerate() {
        assert_eq!(packing_ratio(i + 1), Some(ratio));
    }
    assert_eq!(packing_ratio(0), Some(0.0));
    assert_eq!(packing_ratio(21), None);
    // Those with a closed form: n circles in a ring are 1 + 1/sin(180°/n) across. Five lie in a ring; 7, 8
    // and 9 are rings of 6, 7 and 8 with one in the middle; 13 are 2 + √5 across.
    let ring_of = |n: f64| 1.0 + 1.0 / (std::f64::consts::PI / n).sin();
    for (n, exact) in [
        (3, 1.0 + 2.0 / 3_f64.sqrt()),
        (4, 1.0 + 2_f64.sqrt()),
        (5, ring_of(5.0)),
        (6, ring_of(6.0)),
        (7, ring_of(6.0)),
        (8, ring_of(7.0)),
        (9, ring_of(8.0)),
        (13, 2.0 + 5_f64.sqrt()),
    ] {
        assert!(same(packing_ratio(n).unwrap(), exact, 8), "{n}: {exact}");
    }
}

/// Only n ≤ 13 is proved (Melissen 1994, Fodor 2000, Fodor 2003): beyond, the bound must stay below the
/// best known packing.
#[test]
fn only_proved_values_are_called_a_proof() {
    assert_eq!(PROVED, 13);
    for n in 0..=20 {
        let (proved, known) = (proved_ratio(n), packing_ratio(n).unwrap());
        assert!(if n <= 13 { proved == known } else { proved < known }, "{n}");
    }
    assert!((0..1000).all(|n| proved_ratio(n) <= proved_ratio(n + 1)));
    assert!(same(proved_ratio(10_000), 100.0, 9));
}

#[test]
fn odd_thicknesses_do_no_harm() {
    assert_eq!(hole_needed(&[]), 0.0);
    assert_eq!(hole_needed(&[f64::NAN, f64::INFINITY, -1.0, 0.0]), 0.0);
    assert_eq!(hole_needed(&[1.3]), 1.3);
}

/// Two unlike wires need exactly the sum. Two of 1 mm leave room for a third of 2/3 mm on either side of
/// where they touch (Descartes' circle theorem, curvatures −1, 2, 2, 3 in units of the outer circle), so
/// that one needs no more.
#[test]
fn unlike_wires() {
    assert_eq!(hole_needed(&[1.0, 1.6]), 2.6);
    assert!(same(hole_needed(&[1.0, 2.0 / 3.0, 1.0]), 2.0, 12));
    assert!(hole_needed(&[1.0, 1.0, 1.0, 0.1]) >= 2.1547);
}

proptest! {
    /// The bound never exceeds what surely holds the wires (a row of them along the diameter, or equal
    /// wires as thick as the thickest), never falls when a wire is added, and does not care for order.
    #[test]
    fn the_bound_is_sound(wires in prop::collection::vec(0.3_f64..3.0, 1..20), more in 0.3_f64..3.0) {
        let needed = hole_needed(&wires);
        let thickest = wires.iter().copied().fold(0.0, f64::max);
        prop_assert!(needed <= wires.iter().sum::<f64>() + 1e-9);
        prop_assert!(needed <= packing_ratio(wires.len()).unwrap() * thickest + 1e-9);
        prop_assert!(needed >= thickest);
        let mut with = wires.clone();
        with.insert(0, more);
        prop_assert!(hole_needed(&with) >= needed - 1e-12);
        with.reverse();
        let reversed = hole_needed(&with);
        with.reverse();
        prop_assert!((hole_needed(&with) - reversed).abs() < 1e-12);
    }
}
