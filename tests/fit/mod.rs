//! Which rings make a weave: from a shelf, and of the sizes in common use.

use crate::common::{compile, examples, kept, schema_can_fail, valid_json};
use byrnie::Weave;
use byrnie::fit::{Enough, Fit, NotFitted, Standing, common_sizes, fit, fit_kind, offers};
use byrnie::settle::{Hold, Word};
use byrnie::shelf::Shelf;
use proptest::prelude::*;
use std::sync::OnceLock;

fn shelf(text: &str) -> Shelf {
    let shelf = Shelf::read(text.as_bytes()).unwrap();
    assert!(shelf.faults.is_empty(), "{:?}", shelf.faults);
    shelf
}

fn example(name: &str) -> &'static str {
    examples().into_iter().find(|(n, _)| *n == name).unwrap().1
}

fn fitted(weave: &Weave, rings: &str) -> Fit {
    fit(weave, Some(&shelf(rings)), 4).unwrap()
}

/// The workshop's shelf and bracelet, answered once for all tests.
fn workshop() -> &'static Fit {
    static FIT: OnceLock<Fit> = OnceLock::new();
    FIT.get_or_init(|| {
        let rings = crate::common::example_file("larkspur-lane-shelf.csv");
        fit(kept(example("tideline-bracelet")), Some(&shelf(&rings)), 8).unwrap()
    })
}

/// A ring of a simple chain drawn out is one inner diameter long, so a repeat of two is two; its floor is 2 (geometry:
/// exact values); and all wires can be thicker by (AR + 1) / 3.
#[test]
fn a_simple_chain_is_two_inner_diameters_a_repeat() {
    let rings = "wire,inner\n1 mm,5 mm\n16 awg,1/4 in\n2 mm,4 mm\n2 mm,3.9 mm\n";
    let fit = fitted(kept(example("simple-chain")), rings);
    assert_eq!((fit.rows.len(), fit.misses.proved, fit.misses.not_found), (3, 1, 0));
    for row in &fit.rows {
        let offer = &row.picks[0].offer;
        assert!((row.repeat_mm[0] / offer.inner_mm - 2.0).abs() < 1e-3, "{}: {:?}", offer.size(), row.repeat_mm);
        assert!((row.room - ((offer.ratio() + 1.0) / 3.0 - 1.0)).abs() < 1e-3, "{}: {}", offer.size(), row.room);
    }
    let floor = fit.rows.iter().find(|r| r.picks[0].offer.ratio() < 2.1).unwrap();
    assert!(floor.room < 1e-5 && floor.little_room() && floor.hold() == Hold::Dense);
}

/// What is said of one kind of ring without settling is what settling says.
#[test]
fn one_kind_agrees_with_settling_each() {
    let rings = "wire (mm),inner (mm)\n1.6,6.4\n1.6,7\n1.2,5.6\n2,9.6\n1,3.8\n1,2\n";
    for (name, base) in [("half-persian-3-in-1", 3.893), ("european-4-in-1-sheet", 2.981), ("rosette-of-four", 2.337)] {
        let fit = fitted(kept(example(name)), rings);
        assert!((fit.floors[0].found - base).abs() < 2e-3, "{name}: {}", fit.floors[0].found);
        for row in fit.rows.iter().take(1) {
            let offer = &row.picks[0].offer;
            let text = format!(
                "base \"{}\"\nrings\n  main wire {} mm, inner {} mm\n",
                fit.weave, offer.wire_mm, offer.inner_mm
            );
            let weave = compile(&text);
            let settled = weave.settled().unwrap();
            assert_eq!(settled.closes(), Some(true), "{name}: {}", offer.size());
            assert!((settled.room().unwrap() - row.room).abs() < 1e-3, "{name}: {}", offer.size());
            // Lengths are worked out at aspect ratios rounded down to a hundredth, which are shorter.
            for (mine, settled) in row.repeat_mm.iter().zip(settled.natural.as_deref().unwrap_or_default()) {
                assert!((mine / settled - 1.0).abs() < 5e-3, "{name}: {}: {mine} and {settled}", offer.size());
            }
            assert_eq!(row.repeat_mm.len(), settled.natural.as_ref().map_or(0, Vec::len), "{name}");
        }
        let closing = offers(Some(&shelf(rings))).0.iter().filter(|o| o.ratio() >= fit.floors[0].found).count();
        assert_eq!(fit.rows.len(), closing, "{name}");
        assert_eq!(fit.rows.len() + fit.misses.proved + fit.misses.not_found, 6, "{name}");
    }
}

/// What is said of a pair is what settling says of it.
#[test]
fn pairs_agree_with_settling_each() {
    let fit = workshop();
    assert!(fit.rows.len() >= 6);
    for row in fit.rows.iter().take(3) {
        let [base, accent] = [0, 1].map(|n| &row.picks[n].offer);
        let weave = kept(example("tideline-bracelet"));
        let sizes = [("main", (base.wire_mm, base.inner_mm)), ("accent", (accent.wire_mm, accent.inner_mm))];
        let there = weave.with_sizes(&sizes);
        let settled = there.settled().unwrap();
        assert_eq!(settled.closes(), Some(true));
        // Shapes are rounded to a thousandth.
        assert!((settled.room().unwrap() - row.room).abs() < 2e-3, "{} {}", settled.room().unwrap(), row.room);
        let natural = settled.natural.as_ref().unwrap()[0];
        assert!((natural / row.repeat_mm[0] - 1.0).abs() < 5e-3, "{natural} {:?}", row.repeat_mm);
        assert_eq!(row.sits, [("c".to_owned(), settled.sits[0].word)]);
    }
}

/// The workshop's own rings come first and sit straight; the black steel has no accent of the right size, and what it
/// wants is said; there is enough copper and too little of what runs short; rubber is left out.
#[test]
fn the_workshop_knows_what_to_reach_for() {
    let fit = workshop();
    let first = &fit.rows[0];
    assert_eq!(first.worst(), Some(Word::Straight));
    assert_eq!(first.picks[0].offer.size(), "1.6 mm × 7 mm");
    assert_eq!(first.picks[1].offer.size(), "16 swg (1.63 mm) × 15/64 in (5.95 mm)");
    // As `byrnie count` says of the same bracelet: 60 and 10 rings.
    assert_eq!((first.picks[0].needed, first.picks[1].needed), (Some(60), Some(10)));
    assert!(first.picks.iter().all(|p| p.enough.iter().all(|e| *e == Enough::Yes)));
    let [wanted] = &fit.wanted[..] else { panic!("{:?}", fit.wanted) };
    assert_eq!(wanted.base.size(), "2 mm × 8.8 mm");
    let inner = wanted.inner_mm.unwrap();
    assert!((7.0..8.0).contains(&inner), "{inner}");
    assert_eq!(fit.stretching.iter().map(|r| r.line).collect::<Vec<_>>(), [13]);
    insta::assert_snapshot!("workshop", fit.table(8, false));
    insta::assert_snapshot!("workshop_markdown", fit.table(3, true));
}

/// Every pair is accounted for once.
#[test]
fn every_pair_is_accounted_for() {
    let fit = workshop();
    let m = &fit.misses;
    let all = fit.rows.len() + m.proved + m.base + m.not_found + m.tight + m.promising + m.beyond;
    assert_eq!(all, fit.offers.len() * fit.offers.len());
}

/// Long names, sizes that were measured, lines without a number, and lines that are short.
#[test]
fn a_table_with_long_names() {
    let rings = "material;colour;wire;inner;measured inner;on hand\n\
        anodised niobium, hand finished;\"dusk violet fading to | lagoon\";1,6 mm;7 mm;7,2 mm;12\n\
        copper;;1,6 mm;7 mm;;\n\
        copper;;1,6 mm;7 mm;;500\n\
        brass;;1,6 mm;6 mm;;9\n";
    let text = "weave \"The very long bracelet of the lighthouse keeper's second Saturday class\"\n\
        base \"half Persian 3-in-1\"\nmake\n  length 190 mm, clasp 18 mm\n  pieces 3\n";
    let fit = fitted(kept(text), rings);
    insta::assert_snapshot!("long_names", fit.table(8, false));
    insta::assert_snapshot!("long_names_markdown", fit.table(8, true));
    insta::assert_json_snapshot!("long_names_json", valid_json(&fit.json()));
    let short =
        fit.rows.iter().flat_map(|r| &r.picks).flat_map(|p| &p.enough).filter(|e| matches!(e, Enough::Short(_)));
    assert_eq!(short.count(), 1);
}

#[test]
fn nothing_on_the_shelf_is_said_and_counted() {
    let fit = fitted(kept(example("half-persian-3-in-1")), "wire,inner\n2 mm,4 mm\n2 mm,7 mm\n2 mm,7.7 mm\n");
    assert!(fit.rows.is_empty());
    assert_eq!((fit.misses.proved, fit.misses.not_found), (1, 2));
    let table = fit.table(8, false);
    assert!(table.contains("Nothing on the shelf was found to make this weave."), "{table}");
    assert!(table.contains("Nearest to closing: 2 mm × 7.7 mm (all wires 0.9 % too thick)"), "{table}");
    assert!(!table.contains("impossible"));
}

#[test]
fn what_cannot_be_answered_is_said() {
    let rubber = shelf("material,wire,inner\nrubber,1.6 mm,7 mm\n");
    let chain = kept(example("simple-chain"));
    assert_eq!(fit(chain, Some(&rubber), 4).unwrap_err(), NotFitted::NoRings);
    let three =
        compile("ring a main\nring b small\nring c tiny\nrepeat n\n  b[n] down a[n], a[n+1]\n  c[n] down a[n]\n");
    let why = fit(&three, None, 4).unwrap_err();
    assert!(why.to_string().starts_with("it has 3 kinds of ring (main, small, tiny)"), "{why}");
    assert!(why.to_string().contains("--kind tiny"), "{why}");
    let why = fit_kind(&three, "tiny", None, 4).unwrap_err();
    assert_eq!(why, NotFitted::OthersOpen(vec!["main".to_owned(), "small".to_owned()]));
    assert!(why.to_string().contains("no size in mm to rigid rings of the kind main, small"), "{why}");
    let why = fit_kind(&three, "tinny", None, 4).unwrap_err();
    assert_eq!(why.to_string(), "no ring is of the kind `tinny`; the kinds are main, small, tiny");
    let none = compile("ring a\n");
    assert!(matches!(fit(&none, None, 4), Err(NotFitted::NotSettled(_))));
}

/// The base and two accents of unlike rings, each of a kind of its own.
const THREE_KINDS: &str = "weave \"Harbour strip\"\nbase \"European 4-in-1 strip\"\nring e upper, open\nring f lower, open\n\
    accent every 1, from 1\n  e[n] through eye(a[n], a[n+1])\n  f[n] through eye(c[n], c[n+1])\n\
    rings\n  main  wire 1.2 mm, inner 6 mm, brass\n  upper  wire 1 mm, inner 3 mm, copper\n  lower  wire 1.2 mm, inner 3.5 mm, copper\n\
    make\n  repeats 20, pieces 2, spares 10 %\n";

/// Of each kind of a weave of three, the others as written: what is said of a size is what settling says of it, every size
/// of the shelf is accounted for, and a larger ring of the same wire has no less room.
#[test]
fn one_kind_of_three() {
    let weave = compile(THREE_KINDS);
    let rings = shelf(
        "wire (mm),inner (mm),material,on hand\n1.2,6,brass,900\n1.2,5,brass,90\n1.2,4,brass,\n1,3,copper,200\n1,4,copper,30\n1,2,copper,7\n1.2,3.5,copper,60\n0.8,3,copper,60\n2,3,copper,60\n1.6,7,copper,60\n",
    );
    let lower = fit_kind(&weave, "lower", Some(&rings), 2).unwrap();
    for (kind, fit) in [("main", fit_kind(&weave, "main", Some(&rings), 1).unwrap()), ("lower", lower.clone())] {
        assert_eq!((fit.kinds.as_slice(), fit.held.len()), (&[kind.to_owned()][..], 2));
        assert!(!fit.rows.is_empty() && fit.rows.len() <= 4, "{kind}");
        for row in &fit.rows {
            let offer = &row.picks[0].offer;
            let there = weave.with_sizes(&[(kind, (offer.wire_mm, offer.inner_mm))]);
            let settled = there.settled().unwrap();
            assert_eq!(settled.closes(), Some(true), "{kind} {}", offer.size());
            assert!((settled.room().unwrap() - row.room).abs() < 1e-9);
            assert_eq!(row.sits.len(), 2);
        }
        let m = &fit.misses;
        assert_eq!(
            fit.rows.len() + m.proved + m.not_found + m.tight + m.beyond + m.promising,
            fit.offers.len(),
            "{kind} {m:?}"
        );
        valid_json(&fit.json());
    }
    // 20 of each accent in one piece, none left out at the ends; of 2 pieces with 10 % to spare 44.
    assert!(lower.rows.iter().all(|r| r.picks[0].needed == Some(lower_needed(&weave))), "{:?}", lower.rows[0].picks);
    insta::assert_snapshot!("one_kind_of_three", lower.table(2, false));
    let map = byrnie::draw::fit_map(&lower);
    assert!(roxmltree::Document::parse(&map).is_ok());
    // The accent of a base that is there already: the other one of two kinds stays as it is.
    let few = shelf("wire,inner\n16 swg,15/64 in\n16 swg,1/4 in\n2 mm,8.8 mm\n");
    let accent = fit_kind(kept(example("tideline-bracelet")), "accent", Some(&few), 2).unwrap();
    assert_eq!(accent.held[0].1.size(), "1.6 mm × 7 mm");
    let own = &accent.rows[0];
    assert_eq!(own.picks[0].offer.size(), "16 swg (1.63 mm) × 15/64 in (5.95 mm)");
    assert_eq!((own.worst(), own.picks[0].needed), (Some(Word::Straight), Some(10)));
    // A weave of one kind has no others.
    let chain = kept(example("simple-chain"));
    assert_eq!(fit_kind(chain, "main", Some(&rings), 3).unwrap().rows, fit(chain, Some(&rings), 3).unwrap().rows);
}

/// By the counts: lower rings of two pieces, each kind and colour with 10 % and rounded up.
fn lower_needed(weave: &byrnie::Weave) -> u64 {
    let counts = byrnie::count::Counts::without_length(weave, &weave.piece(weave.size()).unwrap());
    let in_one = counts.kinds.iter().find(|k| k.name == "lower").unwrap().rings();
    (u64::from(in_one) * 2 * 11).div_ceil(10)
}

/// For pairs too the order of the shelf changes nothing, and no more rows come out than were asked for.
#[test]
fn the_order_of_the_shelf_changes_no_pair() {
    let weave = kept(example("half-persian-4-in-1-every-eye-ringed"));
    let lines = ["1.2,9.4,90", "1.2,7.9,30", "1,8.2,40", "1,9,60"];
    let table = |lines: &[&str]| {
        let shelf = shelf(&format!("wire (mm),inner (mm),on hand\n{}\n", lines.join("\n")));
        let fit = fit(weave, Some(&shelf), 2).unwrap();
        assert_eq!(fit.rows.len(), 2);
        fit.table(2, false)
    };
    let there = table(&lines);
    // Lines without a name are called by their number; here none is.
    let called =
        |text: &str| text.replace("line 2", "").replace("line 3", "").replace("line 4", "").replace("line 5", "");
    let back: Vec<&str> = lines.iter().rev().copied().collect();
    assert_eq!(called(&there), called(&table(&back)));
}

/// A base of two kinds, both of them chosen; and accents that are of the same kind as the base.
#[test]
fn two_kinds_in_the_base_and_one_kind_for_all() {
    let rings = "wire (mm),inner (mm)\n1.2,3\n1.2,5\n1.2,6\n1.2,7.2\n1,4.2\n";
    let sheet = fitted(kept(example("european-sheet-in-two-sizes")), rings);
    assert_eq!(sheet.base_floor, None);
    assert!(!sheet.rows.is_empty());
    for row in &sheet.rows {
        assert!(row.repeat_mm.len() == 2 && row.sits.is_empty());
    }
    let text = "base \"half Persian 3-in-1\"\nring c main\naccent every 2, from 2\n  c[n] around eye(a[n], a[n+1])\n";
    let alike = fitted(kept(text), rings);
    assert_eq!(alike.kinds, ["main"]);
    assert!(alike.rows.iter().all(|r| r.sits.len() == 1), "{:?}", alike.rows);
    assert_eq!(
        alike.rows.len()
            + alike.misses.proved
            + alike.misses.base
            + alike.misses.not_found
            + alike.misses.tight
            + alike.misses.promising,
        5
    );
}

/// Rings of one size for two kinds come out of one bag: ten repeats of a simple chain whose last ring b is dropped, with a
/// ring around every second link, take 19 and 9 or 10; 20 are there.
#[test]
fn one_bag_for_two_kinds() {
    let text = format!("{}\nmake\n  repeats 10\n", example("simple-chain-every-second-link-ringed"));
    let weave = kept(&text);
    let fit = fitted(weave, "wire,inner,on hand\n1 mm,5 mm,20\n");
    let [row] = &fit.rows[..] else { panic!("{fit:?}") };
    let needed: u64 = row.picks.iter().map(|p| p.needed.unwrap()).sum();
    assert!(row.picks.len() == 2 && needed > 20, "{row:?}");
    assert!(row.picks.iter().all(|p| p.enough == [Enough::Short(needed - 20)]), "{row:?}");
}

/// Gauges of the standards and sizes makers buy are among those in common use, none twice.
#[test]
fn common_sizes_are_common() {
    let sizes = common_sizes();
    let words: Vec<String> = sizes.iter().map(byrnie::fit::Offer::size).collect();
    for known in ["1.6 mm × 7 mm", "16 swg (1.63 mm) × 1/4 in (6.35 mm)", "18 awg (1.02 mm) × 5/32 in (3.97 mm)"] {
        assert!(words.iter().any(|w| w == known), "{known}");
    }
    assert!(sizes.windows(2).all(|w| (w[0].wire_mm, w[0].inner_mm) <= (w[1].wire_mm, w[1].inner_mm)));
    let mut each = words.clone();
    each.sort();
    each.dedup();
    assert_eq!(each.len(), words.len());
    let fit = fit(kept(example("half-persian-3-in-1")), None, 6).unwrap();
    assert!(!fit.from_shelf && fit.rows.len() > 50);
    insta::assert_snapshot!("common_sizes", fit.table(6, false));
}

#[test]
fn the_json_keeps_to_its_schema() {
    let chain = kept(example("simple-chain"));
    let plain = fit(chain, None, 4).unwrap();
    let nothing = fitted(kept(example("half-persian-3-in-1")), "wire,inner,on hand\n2 mm,4 mm,\n");
    for fit in [workshop(), &plain, &nothing] {
        valid_json(&fit.json());
    }
    for pointer in ["/from", "/rows/0/lies", "/rows/0/picks/0/wire_mm", "/misses/proved"] {
        schema_can_fail(&workshop().json(), pointer);
    }
}

fn ring() -> impl Strategy<Value = String> {
    let wire = prop::sample::select(vec!["1.6 mm", "16 swg", "18 awg", "1.2 mm"]);
    (wire, 30_u32..90, 0_u32..200, prop::sample::select(vec!["copper", "brass", "rubber"]))
        .prop_map(|(wire, tenths, have, of)| format!("{of},{wire},{}.{} mm,{have}", tenths / 10, tenths % 10))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    /// The order of the lines changes nothing but the numbers of lines.
    #[test]
    fn the_order_of_the_shelf_changes_nothing(mut lines in prop::collection::vec(ring(), 1..40)) {
        let weave = kept("base \"simple chain\"\nmake\n  repeats 20\n");
        let table = |lines: &[String]| {
            let shelf = shelf(&format!("material,wire,inner,on hand\n{}\n", lines.join("\n")));
            fit(weave, Some(&shelf), 100).map(|mut fit| {
                fit.stretching.clear();
                fit.table(100, false)
            })
        };
        let there = table(&lines);
        lines.reverse();
        prop_assert_eq!(there.clone(), table(&lines));
        lines.sort();
        prop_assert_eq!(there, table(&lines));
    }
}

/// The map in the README is drawn from the workshop's shelf. What is tinted and marked is what the answer says.
#[test]
fn the_map_shows_what_the_table_says() {
    let fit = workshop();
    let map = byrnie::draw::fit_map(fit);
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/fit/tideline-bracelet-map.svg");
    if std::env::var("INSTA_UPDATE").is_ok_and(|v| v == "always") {
        std::fs::write(&file, &map).unwrap();
    }
    assert!(std::fs::read_to_string(&file).unwrap() == map, "run with INSTA_UPDATE=always, and look at the map");
    let document = roxmltree::Document::parse(&map).unwrap();
    let texts: Vec<&str> = document.descendants().filter_map(|n| n.text()).collect();
    for words in ["Tideline bracelet", "AR 3.893 base alone: found", "wire, mm", "inner diameter, mm", "not settled"] {
        assert!(texts.contains(&words), "{words}");
    }
    let [base, accent] = &fit.panels()[..] else { panic!() };
    assert!(base.held.is_empty() && accent.held.len() == 1 && accent.guessed);
    // Of one kind the tints are exact: they begin at the floor.
    let chain = fitted(kept(example("simple-chain")), "wire,inner\n1 mm,2.5 mm\n1 mm,1.9 mm\n");
    assert!(chain.room_at(0, 1.0, 2.001).unwrap() > 0.0 && chain.room_at(0, 1.0, 1.999).unwrap() < 0.0);
    let standing: Vec<Standing> = chain.panels()[0].marks.iter().map(|m| m.standing).collect();
    assert_eq!(standing, [Standing::Not, Standing::Closes]);
}

/// The survey is a guess, and a near one: where pairs were settled it takes them to have about the room they have.
#[test]
fn the_survey_comes_near() {
    let fit = workshop();
    let held = &fit.rows[0].picks[0].offer;
    let with_it = fit.rows.iter().filter(|r| r.picks[0].offer == *held);
    for row in with_it {
        let accent = &row.picks[1].offer;
        let guess = fit.room_at(1, accent.wire_mm, accent.inner_mm).unwrap();
        assert!((guess - row.room).abs() < 0.03, "{}: {guess} {}", accent.size(), row.room);
    }
}
