//! What a text says in plain words, outside of its steps.

use super::found_in;
use crate::common::{examples, kept};
use byrnie::lint::Needs;
use byrnie::steps::read;
use byrnie::text::Source;
use byrnie::tutorial::prose;
use proptest::prelude::*;

/// A sentence, or lines, in a text about a weave, and the rules that are to find something in it.
const CASES: &[(&str, &str, &[&str])] = &[
    // Gauges and millimetres: ASTM B258 and BS 3737 by name, a bare gauge by either.
    ("simple-chain", "We use 18 AWG (1.02 mm) wire.", &[]),
    ("simple-chain", "We use 18 SWG (1.2 mm) wire.", &[]),
    ("simple-chain", "We use 18 AWG (1.2 mm) wire.", &["wrong-gauge-system"]),
    ("simple-chain", "Wire of 1.2 mm, that is 18 AWG, is stiff.", &["wrong-gauge-system"]),
    ("simple-chain", "We use 16 SWG / 1.5 mm wire.", &["gauge-disagrees"]),
    ("simple-chain", "An 18-gauge copper wire (1.2 mm) will do.", &[]),
    ("simple-chain", "An 18-gauge copper wire (1.02 mm) will do.", &[]),
    ("simple-chain", "An 18-gauge copper wire (1.6 mm) will do.", &["gauge-disagrees"]),
    ("simple-chain", "18 gauge (about 1 mm) is fine.", &[]),
    ("simple-chain", "16 SWG, 1.6 mm wire, is easy to bend.", &[]),
    ("simple-chain", "16 SWG, 1.4 mm wire, is easy to bend.", &["gauge-disagrees"]),
    // Wire by its gauge and the hole in mm: two different things.
    ("simple-chain", "Take 18 AWG, 7 mm rings.", &[]),
    ("simple-chain", "Take 18 AWG / 5/16 in rings.", &[]),
    ("simple-chain", "Mind that 18 AWG is not 1.2 mm.", &[]),
    ("simple-chain", "18 SWG and 1.6 mm wire both work.", &[]),
    ("simple-chain", "Take 18 AWG ID 5 mm rings, or 7 mm wire 1.6 mm.", &[]),
    ("simple-chain", "Take an inner diameter of 18 AWG.", &["no-such-size"]),
    // Fractions of an inch; a fraction with a dot, as dictation writes it.
    ("simple-chain", "The hole is 5/16 in (7.94 mm) wide.", &[]),
    ("simple-chain", "The hole is 5/16\" (7.9 mm) wide.", &[]),
    ("simple-chain", "The hole is 5/16 in. (8.5 mm) wide.", &["inch-disagrees"]),
    ("simple-chain", "The hole is 7.32 inch (5.56 mm) wide.", &["inch-disagrees"]),
    ("simple-chain", "Rings of 5.56 mm, that is 7.32 inch, fit.", &["inch-disagrees"]),
    ("simple-chain", "An inner diameter of 5.16 inches fits.", &["inch-disagrees"]),
    ("simple-chain", "The work lies 7.5 inch from the edge.", &[]),
    ("simple-chain", "Take ¼ inch (6.35 mm) rings, or 1 1/4 inch (31.75 mm).", &[]),
    ("simple-chain", "Put 12 in the box, 3 in the bag and step 2.4 in the album.", &[]),
    ("simple-chain", "- two pairs of flat-nose pliers, 5 inch (130 mm)", &[]),
    // Aspect ratios.
    ("simple-chain", "An AR of 4.4 mm is usual.", &["aspect-ratio-unit"]),
    ("simple-chain", "With 1.2 mm wire, inner diameter 6 mm, the AR is 5.", &[]),
    ("simple-chain", "With 1.2 mm wire, inner diameter 6 mm, the AR is 5.5.", &["aspect-ratio-disagrees"]),
    ("simple-chain", "With 1.2 mm wire and an inner diameter of 6 mm the AR is at least 4.", &[]),
    ("simple-chain", "AR 4.4 to 5 is usual, from AR 3 on it is supple.", &[]),
    // A hole and a wire that changed places.
    ("simple-chain", "- rings with wire 6 mm, inner diameter 1.2 mm", &["wire-and-inner-swapped"]),
    ("larkspur-lane-first-chain-kit", "The 1.29 mm inner diameter is easy to see.", &["wire-and-inner-swapped"]),
    ("larkspur-lane-first-chain-kit", "Wire of 1/4 inch is easy to see.", &["wire-and-inner-swapped"]),
    ("larkspur-lane-first-chain-kit", "Trim the wire 1/4 inch from the end.", &[]),
    ("larkspur-lane-first-chain-kit", "You need a wire 500 mm long, and rings with an inner diameter of 1/4 in.", &[]),
    ("larkspur-lane-first-chain-kit", "A coil takes 500 mm wire; the rings have an inner diameter of 1/4 in.", &[]),
    // Sizes against those of the weave.
    ("larkspur-lane-first-chain-kit", "- 14 rings a, closed, wire 16 AWG, inner diameter 1/4 in", &[]),
    ("larkspur-lane-first-chain-kit", "- 14 rings a, closed, wire 16 AWG, inner diameter 5/16 in", &["wrong-size"]),
    ("larkspur-lane-first-chain-kit", "- 14 rings a, closed, wire 1.2 mm, inner diameter 1/4 in", &["wrong-size"]),
    ("larkspur-lane-first-chain-kit", "- 14 rings a, closed, AR 4.92", &[]),
    ("larkspur-lane-first-chain-kit", "- 14 rings a, closed, AR 5.2", &["claim-aspect-ratio"]),
    ("larkspur-lane-first-chain-kit", "These rings have an AR of 5.2.", &["claim-aspect-ratio"]),
    ("larkspur-lane-first-chain-kit", "These rings have an AR of 4.9.", &[]),
    ("larkspur-lane-first-chain-kit", "A thinner wire would have an AR of 5.2.", &[]),
    // Sizes against the floor: below 3.893 no half Persian 3-in-1 was found.
    ("half-persian-3-in-1", "Our rings have wire 1.6 mm, inner diameter 6 mm.", &["rings-too-small"]),
    ("half-persian-3-in-1", "Our rings have wire 1.6 mm, inner diameter 7 mm.", &[]),
    ("half-persian-3-in-1", "Wire 1.6 mm, inner diameter 6 mm is too tight.", &[]),
    ("half-persian-3-in-1", "- wire 1.6 mm, inner diameter 6 mm", &["rings-too-small"]),
    (
        "half-persian-3-in-1",
        "- 8 rings a, closed, wire 1.6 mm, inner diameter 6 mm\n- 8 rings b, open, the same",
        &["rings-too-small"],
    ),
    ("half-persian-3-in-1", "- 2 jump rings for the ear wires, wire 0.8 mm, inner diameter 2.5 mm", &[]),
    ("half-persian-3-in-1", "Take 1.2 mm wire, inner diameter 4 mm, for the end loops.", &[]),
    ("half-persian-3-in-1", "- clasp: one ring, wire 1.2 mm, inner diameter 4 mm", &[]),
    ("larkspur-lane-first-chain-kit", "- 2 jump rings for the clasp, wire 0.8 mm, inner diameter 2.5 mm", &[]),
    // "N in M".
    ("half-persian-3-in-1", "This is a 3-in-1 weave.", &[]),
    ("half-persian-3-in-1", "This is a 4-in-1 weave.", &["links-per-ring"]),
    ("half-persian-3-in-1", "This weave is a cousin of European 4-in-1.", &[]),
    ("half-persian-3-in-1", "Each ring holds three others.", &[]),
    ("half-persian-3-in-1", "Every closed ring is linked with 4 other rings.", &["links-per-ring"]),
    ("simple-chain", "Put a drop of 3-in-1 oil on your pliers.", &[]),
    ("box-chain", "It is made of a 2-in-2 chain whose pairs are folded back.", &[]),
    // Lean, lying and held upright.
    ("half-persian-3-in-1", "The strip leans left.", &[]),
    ("half-persian-3-in-1", "The strip leans to the right.", &["claim-lean"]),
    ("half-persian-3-in-1", "Held upright it leans right.", &[]),
    ("half-persian-3-in-1", "If it leans right, you have turned it over.", &[]),
    // Counts, of the size the weave asks for.
    ("larkspur-lane-first-chain-kit", "The bracelet takes 27 rings.", &[]),
    ("larkspur-lane-first-chain-kit", "The bracelet takes 30 rings.", &["claim-rings"]),
    ("larkspur-lane-first-chain-kit", "You need 14 closed rings and 13 open rings.", &[]),
    ("larkspur-lane-first-chain-kit", "You need 13 closed rings and 14 open rings.", &["claim-rings", "claim-rings"]),
    ("larkspur-lane-first-chain-kit", "Close 14 rings before you start.", &[]),
    ("larkspur-lane-first-chain-kit", "Close 12 rings before you start.", &["claim-rings"]),
    ("larkspur-lane-first-chain-kit", "That makes 28 rings in all.", &["claim-rings"]),
    ("larkspur-lane-first-chain-kit", "A bag holds 250 rings, and you can weave about 30 rings an hour.", &[]),
    ("larkspur-lane-first-chain-kit", "Take three more rings and weave on.", &[]),
    ("simple-chain", "At least two rings must be closed before you start.", &[]),
    ("simple-chain", "At least five rings must be closed before you start.", &["step-miscounted"]),
    ("japanese-4-in-1-sheet", "A square of 5 by 5 flat rings takes 65 rings in all.", &[]),
    ("japanese-4-in-1-sheet", "My sheet takes 65 rings in all.", &[]),
    ("half-persian-3-in-1", "It leans left lying; hold it upright and it seems to lean right.", &[]),
    ("half-persian-3-in-1", "1. Close half the rings.\n2. Weave as you like.", &[]),
    (
        "half-persian-3-in-1",
        "1. Thread a1 and a2 on a tie.\n2. Open b1. Go down through a1 and a2. Close b1.\n3. Go on in the same way.",
        &[],
    ),
    ("larkspur-lane-first-chain-kit", "You need two closed rings to start.", &[]),
    ("larkspur-lane-first-chain-kit", "Close the last 2 rings before you start the clasp.", &[]),
    ("larkspur-lane-first-chain-kit", "The bracelet needs 4 rings for each centimetre.", &[]),
    ("larkspur-lane-first-chain-kit", "- 10 open rings for the clasp", &[]),
    ("simple-chain", "At the very least two rings must be closed to begin.", &[]),
    (
        "european-4-in-1-sheet",
        "1. Close 60 rings.\n2. Open a ring, slip four closed rings on and close it.\n3. Carry on row by row.",
        &[],
    ),
    ("box-chain", "1. Close two rings a and two rings b.", &["step-miscounted", "step-miscounted"]),
    // Lengths: a simple chain is its inner diameters one after the other, 27 × 6.35 mm + 18 mm of clasp.
    ("larkspur-lane-first-chain-kit", "The finished bracelet is 190 mm long.", &[]),
    ("larkspur-lane-first-chain-kit", "The finished bracelet is 19 cm long.", &[]),
    ("larkspur-lane-first-chain-kit", "The finished bracelet is 7 1/2 inches long.", &[]),
    ("larkspur-lane-first-chain-kit", "The finished bracelet is 230 mm long.", &["claim-length"]),
    ("larkspur-lane-first-chain-kit", "Cut a piece of wire 230 mm long for the bracelet.", &[]),
    // Headings.
    ("half-persian-3-in-1", "## Half Persian 4-in-1", &["claim-weave"]),
    ("half-persian-3-in-1", "## From half Persian 3-in-1 on to half Persian 4-in-1", &[]),
];

#[test]
fn sentences() {
    let mut wrong = Vec::new();
    for (weave, text, rules) in CASES {
        let (found, shown) = found_in(weave, &format!("Some words before.\n\n{text}\n"));
        if found != *rules {
            wrong.push(format!("{weave}: {text}\n  expected {rules:?}\n  {shown}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Words that mean something, and some that do not.
const WORDS: [&str; 44] = [
    "1.2",
    "mm",
    "18",
    "AWG",
    "swg",
    "gauge",
    "wire",
    "inner",
    "diameter",
    "ID",
    "7",
    "in",
    "5/16",
    "\"",
    "inch",
    "7.32",
    "(",
    ")",
    ",",
    ".",
    "AR",
    "4.4",
    "rings",
    "closed",
    "a",
    "b",
    "24",
    "3",
    "-",
    "leans",
    "left",
    "long",
    "bracelet",
    "need",
    "before",
    "you",
    "start",
    "at",
    "least",
    "½",
    "that",
    "is",
    "|",
    "\n\n| Wire | Rings |\n|---|---|\n| ",
];

/// Whatever stands in a text, it is read without a panic, and every finding stands on whole characters of it.
#[test]
fn nothing_is_too_odd() {
    proptest!(ProptestConfig { cases: 200, ..ProptestConfig::default() }, |(picks in proptest::collection::vec(0..WORDS.len(), 0..60), glue in any::<bool>())| {
        let words: Vec<&str> = picks.iter().map(|n| WORDS[*n]).collect();
        let text = words.join(if glue { "" } else { " " });
        let weave = kept(examples().into_iter().find(|(n, _)| *n == "larkspur-lane-first-chain-kit").unwrap().1);
        weave.settled().unwrap();
        let source = Source::new("tutorial.md", text.as_str());
        let (number, found) = prose(weave, &source, &read(&text), None, Needs::Pose);
        for finding in found.iter().filter(|f| f.span.source == number) {
            prop_assert!(text.get(finding.span.range()).is_some(), "{finding:?}");
        }
    });
}

/// Long texts of little sense are read in the time of long texts.
#[test]
fn long_texts() {
    for text in [
        "1.2 mm (18 AWG) wire, inner 7.32 inch. ".repeat(2_000),
        "a.\n".repeat(4_000),
        "1. a.\n".repeat(10_000),
        "| Wire | Rings |\n|---|---|\n".to_owned() + &"| 1.2 mm (18 AWG) | 24 |\n".repeat(20_000),
        "## Half Persian 4-in-1\n\n".repeat(5_000),
        "The bracelet of 27 rings is 300 mm long.\n\n".repeat(5_000),
    ] {
        let weave = kept(examples().into_iter().find(|(n, _)| *n == "simple-chain").unwrap().1);
        let found = prose(weave, &Source::new("long.md", text.as_str()), &read(&text), None, Needs::Pose).1;
        assert!(found.len() <= 4 * byrnie::lint::MOST_FINDINGS);
    }
}
