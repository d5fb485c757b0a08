//! A size in every unit makers use.

use byrnie::measure::{
    KERF_MM, NotCoiled, closed_inner_mm, coil_inner_mm, coiled, conversion, millimetres, read_size, springback_percent,
};
use byrnie::notation::{NotANumber, NotASize, Number, Unit};
use proptest::prelude::*;

fn words(size: &str) -> String {
    conversion(&read_size(size, None).unwrap()).unwrap()
}

/// AWG by ASTM B258, SWG by BS 3737:1964 (check-values): 18 AWG is 1.02 mm; 1.2 mm wire is 18 SWG (1.22).
#[test]
fn which_wire_it_really_is() {
    let all: String = ["18 awg", "1.2 mm", "18 swg", "16 SWG", "0.062 in", "1/4 in", "1 1/4\"", "7 mm", "40 mm"]
        .iter()
        .map(|size| words(size) + "\n")
        .collect();
    insta::assert_snapshot!("conversions", all);
    assert!(words("18 awg").contains("18 SWG is another wire: 1.22 mm"));
    assert!(words("1.2 mm").contains("18 SWG (1.22 mm), 1.6 % larger"));
}

#[test]
fn what_is_no_size_is_said() {
    for (size, why) in [
        ("18 ga", "may be 1.02 mm (AWG, American) or 1.22 mm (SWG, British)"),
        ("18", "has no unit"),
        ("41 swg", "gauges are whole numbers from 0 to 40"),
        ("1.5 swg", "gauges are whole numbers from 0 to 40"),
        ("0 mm", "must be greater than 0"),
        ("-1 mm", "is negative"),
        ("1/0 in", "divides by 0"),
        ("0/0 in", "divides by 0"),
        ("1/2/3 in", "is not a number"),
        ("1.5/4 in", "is not a number"),
        ("12345678901234567 mm", "is not a number"),
        (". mm", "is not a number"),
        ("mm", "has no number"),
        ("", "has no number"),
        ("1.2.3 mm", "more than one decimal point"),
        ("1 2 mm", "is not a number"),
        ("1 m", "`m`, which is not a unit"),
        ("1e3 mm", "`e3 mm`, which is not a unit"),
    ] {
        let said = read_size(size, None).unwrap_err().to_string();
        assert!(said.contains(why), "{size}: {said}");
    }
    // A bare gauge takes the system of the heading, and no other unit.
    assert_eq!(read_size("18 ga", Some(Unit::Swg)).unwrap().unit, Unit::Swg);
    assert!(read_size("18 ga", Some(Unit::Mm)).is_err());
}

/// The same size again in brackets is checked, and says which gauge a bare one is: 18 AWG is 1.02 mm, 18 SWG 1.22 mm (ASTM
/// B258; BS 3737:1964).
#[test]
fn a_size_and_the_same_again() {
    let read = |words: &str| match read_size(words, None) {
        Ok(size) => Ok((size.number.text, size.unit)),
        Err(why) => Err(why.to_string()),
    };
    assert_eq!(read("18 swg (1.22 mm)"), Ok(("18".to_owned(), Unit::Swg)));
    assert_eq!(read("18 ga (1.22 mm)"), Ok(("18".to_owned(), Unit::Swg)));
    assert_eq!(read("18 gauge(1,02 mm)"), Ok(("18".to_owned(), Unit::Awg)));
    assert_eq!(read("1.63 mm (16 swg)"), Ok(("1.63".to_owned(), Unit::Mm)));
    assert_eq!(read("3/8 in (9.5 mm)"), Ok(("3/8".to_owned(), Unit::Inch)));
    for (words, why) in [
        ("18 awg (1.22 mm)", "gives two sizes: 18 awg is 1.02 mm; 1.22 mm is 18 swg"),
        ("3/8 in (9.2 mm)", "gives two sizes: 3/8 in is 9.53 mm, and 9.2 mm is 9.20 mm; write the right one"),
        ("18 awg (1.6 mm)", "gives two sizes: 18 awg is 1.02 mm, and 1.6 mm is 1.60 mm; write the right one"),
    ] {
        assert_eq!(read(words), Err(why.to_owned()));
    }
    for words in ["18 swg (", "18 swg ()", "(1.2 mm)", "()", "18 ga (1.6 mm)", ")", "1.2 mm ((1.2 mm))"] {
        assert!(read(words).is_err(), "{words}");
    }
    let deep = format!("1 mm {}{}", "(".repeat(400_000), ")".repeat(400_000));
    assert_eq!(read_size(&deep, None), Err(NotASize::NestedBrackets.into()));
}

/// Makers' measurements (check-values: real rings): sterling +4 %, spring-temper stainless +10 to +14 %, copper about 0; a
/// saw cut takes 0.15 to 0.25 mm, and closing it shrinks the mean diameter by kerf / π.
#[test]
fn coils_spring_open_and_saws_take_their_part() {
    assert_eq!(springback_percent("sterling"), Some([4.0, 4.0]));
    assert_eq!(springback_percent("stainless"), Some([10.0, 14.0]));
    assert_eq!(springback_percent("copper"), Some([0.0, 0.0]));
    assert_eq!(springback_percent("titanium"), None);
    assert!((coil_inner_mm(5.0, 4.0) - 5.2).abs() < 1e-12);
    assert!((KERF_MM[0] - 0.15).abs() < 1e-12 && (KERF_MM[1] - 0.25).abs() < 1e-12);
    // The middle line is π (inner + wire) long, and the kerf shorter afterwards, whatever the wire.
    let (inner, wire, kerf) = (5.2, 1.0, 0.2);
    let long = std::f64::consts::PI * (inner + wire) - kerf;
    assert!((closed_inner_mm(inner, kerf) - (long / std::f64::consts::PI - wire)).abs() < 1e-12);
    let mandrel = read_size("5 mm", None).unwrap();
    let said =
        [coiled(&mandrel, "sterling", None).unwrap(), coiled(&mandrel, "stainless steel", None).unwrap()].concat();
    assert!(said.lines().all(|l| l.starts_with("Estimate (makers' measurements):")), "{said}");
    insta::assert_snapshot!("coiled", said);
    assert_eq!(
        coiled(&mandrel, "unobtainium", None).unwrap_err().to_string(),
        "how far a coil of unobtainium springs open is known only for: copper, sterling silver, stainless steel; measure a ring"
    );
    // A blade of one's own: 0.3 mm over π is 0.095 mm.
    let own = |kerf: &str| coiled(&mandrel, "copper", Some(&read_size(kerf, None).unwrap()));
    let (mm, said) = (millimetres(&mandrel).unwrap(), own("0.3 mm").unwrap());
    assert!(said.contains("your saw cut takes 0.30 mm"), "{said}");
    assert!(said.contains(&format!("{:.2} mm. Measure", mm - 0.0955)), "{said}");
    assert_eq!([own("20 mm"), own("18 swg")], [Err(NotCoiled::Kerf), Err(NotCoiled::Kerf)]);
}

/// Each spelling of a number is one number, written out with a point and single spaces.
#[test]
fn a_number_in_every_spelling() {
    for (words, text, value) in [
        ("1.6", "1.6", 1.6),
        ("1,6", "1.6", 1.6),
        (".25", ".25", 0.25),
        ("1/4", "1/4", 0.25),
        ("1⁄4", "1/4", 0.25),
        ("¼", "1/4", 0.25),
        ("1 1/4", "1 1/4", 1.25),
        ("1-1/4", "1 1/4", 1.25),
        ("1¼", "1 1/4", 1.25),
        ("1  ¼", "1 1/4", 1.25),
    ] {
        let number = Number::read(words).unwrap();
        assert_eq!((number.text.as_str(), number.value), (text, value), "{words}");
        for size in [format!("{words} in"), format!("in {words}"), format!("{words}\"")] {
            assert_eq!(millimetres(&read_size(&size, None).unwrap()), Some(value * 25.4), "{size}");
        }
    }
    assert_eq!(millimetres(&read_size("1.9 cm", None).unwrap()), Some(19.0));
    assert_eq!(Number::read("-1"), Err(NotANumber::Negative));
    assert_eq!(Number::read("a"), Err(NotANumber::Unreadable("a".to_owned())));
}

proptest! {
    /// Every unit goes round: written in mm and read again it is the same size.
    #[test]
    fn units_go_round(over in 1_u32..400, under in 1_u32..65, gauge in 0_u32..=40, comma in any::<bool>()) {
        for written in [format!("{over}/{under} in"), format!("{gauge} awg"), format!("swg {gauge}"), format!("{over} mm")] {
            let mm = millimetres(&read_size(&written, None).unwrap()).unwrap();
            let mut again = format!("{mm:.9}");
            if comma {
                again = again.replace('.', ",");
            }
            let there = millimetres(&read_size(&again, Some(Unit::Mm)).unwrap()).unwrap();
            prop_assert!((mm - there).abs() < 1e-8, "{written}: {mm} {there}");
        }
    }

    /// Any words are read to an end, and what is read is a size.
    #[test]
    fn any_words_are_read(words in ".{0,40}") {
        if let Ok(size) = read_size(&words, Some(Unit::Mm)) {
            prop_assert!(millimetres(&size).is_some());
            prop_assert!(conversion(&size).is_some());
        }
    }
}
