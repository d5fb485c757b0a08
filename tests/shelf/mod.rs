//! A maker's shelf, read from CSV.

use crate::common::example_file;
use byrnie::measure::ring_grams;
use byrnie::shelf::{Fault, NoShelf, Shelf, ShelfRing};
use byrnie::text::MAX_BYTES;
use proptest::prelude::*;

fn read(text: &str) -> Shelf {
    Shelf::read(text.as_bytes()).unwrap()
}

fn sizes(shelf: &Shelf) -> Vec<(f64, f64)> {
    shelf.rings.iter().map(|r| (r.wire_mm(), r.inner_mm())).collect()
}

fn faults(text: &str) -> Vec<String> {
    read(text).faults.iter().map(ToString::to_string).collect()
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-9
}

#[test]
fn the_shelf_of_the_workshop_is_read_whole() {
    let shelf = read(&example_file("larkspur-lane-shelf.csv"));
    assert!(shelf.faults.is_empty(), "{:?}", shelf.faults);
    let shown: String = shelf
        .rings
        .iter()
        .map(|r| {
            format!(
                "{:>2} {:<28} {:.3} {:.3} {:?} {:.4}\n",
                r.line,
                r.called(),
                r.wire_mm(),
                r.inner_mm(),
                r.on_hand,
                r.ring_grams.unwrap_or(0.0)
            )
        })
        .collect();
    insta::assert_snapshot!("larkspur_lane_shelf", shown);
}

/// The same ring in every spelling: 16 SWG is 0.064 in = 1.6256 mm (BS 3737:1964), 1/4 in is 6.35 mm.
#[test]
fn sizes_are_written_as_makers_write_them() {
    for text in [
        "wire,inner\n16 swg,1/4 in\n",
        "inner,wire\n0.25\",16 SWG\n",
        "Inner Diameter (mm);Wire [swg]\n6,35;16\n",
        "gauge (swg)\tID in\n16 ga\t.25\n",
        "material,wire,notes,inner\nbrass,swg 16,\"fine, soft\",6.35 mm\n",
        "\u{FEFF}wire,inner\r\n0.064 in,6.35mm\r\n",
        "wire,inner\n1.6256 mm,\"6,35 mm\"\n",
        "wire (mm),inner (mm)\n16 swg,1/4 inch\n",
    ] {
        let shelf = read(text);
        assert!(shelf.faults.is_empty() && shelf.rings.len() == 1, "{text}: {:?}", shelf.faults);
        let [(wire, inner)] = sizes(&shelf)[..] else { panic!("{text}") };
        assert!(near(wire, 1.6256) && near(inner, 6.35), "{text}: {wire} {inner}");
    }
    // 1 1/4 in is 31.75 mm, with a hyphen too.
    let shelf = read("wire,inner\n2 mm,1 1/4 in\n2 mm,1-1/4\"\n");
    assert!(sizes(&shelf).iter().all(|(_, inner)| near(*inner, 31.75)), "{shelf:?}");
}

/// What was measured counts before what the seller says, and both are kept.
#[test]
fn measured_sizes_are_kept_apart() {
    let shelf = read("wire,inner,measured wire,measured inner\n1.6 mm,7 mm,1.58 mm,\n1.6 mm,7 mm,,7.28 mm\n");
    assert_eq!(sizes(&shelf), [(1.58, 7.0), (1.6, 7.28)]);
    assert!(shelf.rings.iter().all(|r| r.nominal[0].number.text == "1.6" && r.nominal[1].number.text == "7"));
}

/// A dealer prints 225 rings of sterling, wire 0.039 in, inner 0.160 in, to the ounce; by the torus and density 10.36
/// they are 223.6 (check-values: real rings). 1 oz avoirdupois is 28.349523125 g.
#[test]
fn rings_on_hand_by_number_weight_and_pack() {
    let on_hand = |line: &str| read(&format!("material,wire,inner,sold,weight,on hand\n{line}\n")).rings[0].on_hand;
    assert_eq!(on_hand("sterling,0.039 in,0.160 in,,,1 oz"), Some(223));
    assert_eq!(on_hand("sterling,0.039 in,0.160 in,,,28.349523125 g"), Some(223));
    assert_eq!(on_hand("x,1 mm,5 mm,bag of 100,,3 packs"), Some(300));
    assert_eq!(on_hand("x,1 mm,5 mm,100,,\"2,5 bags\""), Some(250));
    assert_eq!(on_hand("x,1 mm,5 mm,50 g,0.5 g,2 bags"), Some(200));
    assert_eq!(on_hand("x,1 mm,5 mm,,0.1,30 g"), Some(300), "a weight of one ring is in g");
    assert_eq!(on_hand("x,1 mm,5 mm,,,0"), Some(0));
    assert_eq!(on_hand("x,1 mm,5 mm,,,"), None, "not said");
    let by_heading = read("wire mm,inner mm,weight (g),on hand (g),price EUR\n1,5,0.1,30,2.40\n");
    assert_eq!((by_heading.rings[0].on_hand, by_heading.rings[0].price.as_deref()), (Some(300), Some("2.40")));
    // Written or worked out, the weight of one ring is that of the torus.
    let sterling = &read("material,wire,inner\nsterling,0.039 in,0.160 in\n").rings[0];
    assert!((sterling.ring_grams.unwrap() - 0.1268).abs() < 5e-5);
    assert!(near(sterling.ring_grams.unwrap(), ring_grams(10.36, 0.039 * 25.4, 0.160 * 25.4)));
}

/// Every bad line is named with its line and column, and the good ones around it are read.
#[test]
fn bad_lines_are_named_and_stop_nothing() {
    let text = "material,wire,inner,sold,on hand,colur\n\
                copper,1.6 mm,7 mm,,,\n\
                copper,-1.6 mm,7 mm,,,\n\
                copper,18 ga,7 mm,,,\n\
                copper,1.6,7 mm,,,\n\
                copper,1.6 furlongs,7 mm,,,\n\
                copper,1.6 mm,16 swg,,,\n\
                copper,1.6 mm,,,,\n\
                copper,7 mm,1.6 mm,,,\n\
                copper,0 mm,7 mm,,,\n\
                copper,1/0 in,7 mm,,,\n\
                copper,\"1,600.5 mm\",7 mm,,,\n\
                copper,1,6 mm,7 mm,,,\n\
                copper,41 awg,7 mm,,,\n\
                copper,1.6\u{0}mm,7 mm,,,\n\
                mystery,1.6 mm,7 mm,,20 g,\n\
                copper,1.6 mm,7 mm,,3 packs,\n\
                copper,1.6 mm,7 mm,,lots,\n\
                copper,1.6 mm,7 mm,,-3,\n\
                copper,\"1.6 mm,7 mm,,,\n\
                copper,60 mm,7 in,,,\n\
                ,,,,,\n\
                \n\
                brass,1.6 mm,7 mm,,,\n";
    let shelf = read(text);
    assert_eq!(shelf.rings.iter().map(|r| r.line).collect::<Vec<_>>(), [2, 24], "{:?}", shelf.faults);
    let named: String = shelf.faults.iter().map(|f| format!("{f}\n")).collect();
    insta::assert_snapshot!("bad_lines", named);
    let what = |line: usize| shelf.faults.iter().find(|f| f.line == line).map(|f| f.what.clone());
    assert_eq!(what(13), Some(Fault::TooManyCells { cells: 7, headings: 6 }));
    assert_eq!(what(9), Some(Fault::WireFillsHole { wire_mm: 7.0, inner_mm: 1.6 }));
}

/// A cell may hold a line break in quotes; a quote that is never closed costs its own line alone.
#[test]
fn quotes_cost_one_line_at_most() {
    let shelf = read("material,wire,inner\n\"copper,\nbright\",1.6 mm,7 mm\nbrass,1.6 mm,7 mm\n");
    let [fault] = &shelf.faults[..] else { panic!("{shelf:?}") };
    assert!(fault.to_string().starts_with("line 2, column 1 (material): contains a character"), "{fault}");
    assert_eq!(shelf.rings.len(), 1);
    let notes = read("wire,notes,inner\n1.6 mm,\"soft,\nbright\",7 mm\n1 mm,x,5 mm\n");
    assert_eq!((notes.rings.len(), notes.faults.len()), (2, 0), "{:?}", notes.faults);
    assert_eq!(notes.rings[1].line, 4);
    let open = faults("wire,inner,colour\n1 mm,5 mm,\"red\n1 mm,6 mm,blue\n1 mm,7 mm,\"teal\"\n");
    assert_eq!(open.len(), 1);
    assert!(open[0].starts_with("line 2, column 3 (colour): a quote is opened here"), "{open:?}");
    // An inch mark is no quote.
    assert!(faults("wire,inner\n1 mm,1/4\"\n1 mm,5/16\"\n").is_empty());
}

#[test]
fn a_shelf_without_sound_headings_is_not_read() {
    assert_eq!(Shelf::read(b""), Err(NoShelf::Empty));
    assert_eq!(Shelf::read(b" \n\n"), Err(NoShelf::Empty));
    assert_eq!(Shelf::read(&vec![b'x'; MAX_BYTES + 1]), Err(NoShelf::TooLong));
    let why = |bytes: &[u8]| Shelf::read(bytes).unwrap_err().to_string();
    assert_eq!(why(b""), "the shelf is empty");
    assert!(why(b"1.6 mm,7 mm\n1.6 mm,8 mm\n").starts_with("line 1 has no column `wire` and no column `inner`;"));
    assert!(why(b"wire,colour\n").starts_with("line 1 has no column `inner`;"));
    assert_eq!(
        why(b"wire,inner,Wire diameter (mm)\n"),
        "columns 1 (`wire`) and 3 (`Wire diameter (mm)`) are the same; keep one of them"
    );
}

fn line() -> impl Strategy<Value = String> {
    let wire = prop::sample::select(vec!["1.6 mm", "16 swg", "18 awg", "1/16 in", "0,8 mm", "wrong", "-1 mm"]);
    let inner = prop::sample::select(vec!["7 mm", "1/4 in", "9/32\"", "0.375 in", "", "18 swg"]);
    (wire, inner, 0_u32..900).prop_map(|(wire, inner, have)| format!("copper;{wire};{inner};{have}"))
}

fn plain(ring: &ShelfRing) -> String {
    format!("{:?} {} {} {:?}", ring.called(), ring.wire_mm(), ring.inner_mm(), ring.on_hand)
}

proptest! {
    /// The order of lines changes nothing but the order, and neither does that of columns.
    #[test]
    fn the_order_of_lines_and_columns_does_not_matter(lines in prop::collection::vec(line(), 0..30)) {
        let there = read(&format!("material;wire;inner;on hand\n{}", lines.join("\n")));
        let back: Vec<String> = lines.iter().rev().map(|l| l.split(';').rev().collect::<Vec<_>>().join(";")).collect();
        let back = read(&format!("on hand;inner;wire;material\n{}", back.join("\n")));
        let mut back: Vec<String> = back.rings.iter().map(plain).collect();
        back.reverse();
        prop_assert_eq!(there.rings.iter().map(plain).collect::<Vec<_>>(), back);
        prop_assert_eq!(there.rings.len() + there.faults.len(), lines.len());
    }

    /// Any bytes are read to an end, and every line is accounted for at most once.
    #[test]
    fn any_bytes_are_read(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let text = [b"wire,inner,on hand\n".as_slice(), &bytes].concat();
        let shelf = Shelf::read(&text).unwrap();
        let lines = bytes.split(|b| *b == b'\n').count();
        prop_assert!(shelf.rings.len() + shelf.faults.len() <= lines);
        let _ = Shelf::read(&bytes);
    }

    #[test]
    fn any_text_is_read(cells in prop::collection::vec("[\"',;\\-/. 0-9a-z\u{2033}\u{0}]{0,12}", 0..60)) {
        let rows: Vec<String> = cells.chunks(3).map(|row| row.join(",")).collect();
        let shelf = read(&format!("wire (mm),inner (mm),on hand\n{}\n", rows.join("\n")));
        for ring in &shelf.rings {
            prop_assert!(ring.wire_mm() > 0.0 && ring.inner_mm() > ring.wire_mm() && ring.inner_mm() <= 1000.0);
        }
    }
}
