//! The built-in weaves together: what is computed of all of them, the table, and which of them a text describes.

use crate::common::{compile, examples, findings, kept, schema_can_fail, valid_json};
use byrnie::catalogue::{Entry, Folders, weaves_json, weaves_table};
use byrnie::library::Identity;
use byrnie::notation::Hand;
use rayon::prelude::*;
use std::sync::OnceLock;

/// Every built-in weave, settled once for all tests.
fn entries() -> &'static [Entry] {
    static ENTRIES: OnceLock<Vec<Entry>> = OnceLock::new();
    ENTRIES.get_or_init(|| examples().par_iter().map(|(short, text)| Entry::of(short, kept(text))).collect())
}

fn entry(short: &str) -> &'static Entry {
    entries().iter().find(|e| e.short == short).unwrap()
}

/// The table and its pictures are in `examples/README.md`, which links to the pictures from `examples/`.
const PICTURES: &str = "tests/weaves/pictures";
const LINKED: &str = "../tests/weaves/pictures";
const REGENERATE: &str =
    "`cargo run --release -- weaves --table --pictures ../tests/weaves/pictures`, run in `examples`";

/// The small pictures are those of the weaves as they settle, to the byte, and there are no others.
#[test]
fn the_pictures_are_of_the_built_in_weaves() {
    let folder = format!("{}/{PICTURES}", env!("CARGO_MANIFEST_DIR"));
    let mut there: Vec<String> =
        std::fs::read_dir(&folder).unwrap().map(|f| f.unwrap().file_name().into_string().unwrap()).collect();
    there.sort();
    let mut expected: Vec<String> = entries().iter().map(|e| format!("{}.svg", e.short)).collect();
    expected.sort();
    assert_eq!(there, expected, "{REGENERATE}");
    for entry in entries() {
        let drawn = std::fs::read_to_string(format!("{folder}/{}.svg", entry.short)).unwrap();
        assert!(entry.thumbnail.as_ref() == Some(&drawn), "{}: {REGENERATE}", entry.short);
    }
}

/// People see the table as it is computed.
#[test]
fn the_table_is_in_the_examples_folder() {
    let table = weaves_table(entries(), Folders { charts: None, pictures: Some(LINKED) });
    insta::assert_snapshot!(table);
    let page = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/examples/README.md")).unwrap();
    assert!(page.contains(&table), "{REGENERATE} prints the table for examples/README.md");
    let linked = weaves_table(entries(), Folders { charts: Some("charts"), pictures: None });
    assert!(linked.contains("| [box chain](charts/box-chain.svg) |"));
}

#[test]
fn the_json_table_keeps_to_its_schema() {
    let printed = weaves_json(entries());
    let value = valid_json(&printed);
    schema_can_fail(&printed, "/weaves/0/lean");
    let weaves = value["weaves"].as_array().unwrap();
    assert_eq!(weaves.len(), examples().len());
    let spiral = weaves.iter().find(|w| w["name"] == "three-ring spiral").unwrap();
    assert_eq!(spiral["found"], 2.7343);
}

/// All of them settle, within what is proved, and the aspect ratios that suit begin above the floor.
#[test]
fn every_weave_settles_and_suits_some_rings() {
    assert!(entries().len() >= 40);
    for entry in entries() {
        let figures = entry.figures.as_ref().unwrap_or_else(|why| panic!("{}: {why}", entry.name));
        assert!(figures.proved >= 1.0 && figures.found >= figures.proved - 1e-6, "{}: {figures:?}", entry.name);
        // Where all wires could be 3 % thicker: AR + 1 is 3 % more.
        let from = (figures.found + 1.0) * 1.03 - 1.0;
        assert!((figures.suits.from - from).abs() < 1e-6, "{}: {from} {figures:?}", entry.name);
        assert!(figures.suits.to.is_none_or(|to| to > figures.suits.from), "{}: {figures:?}", entry.name);
        assert!(!entry.used.is_empty() && entry.used.ends_with('.'), "{}: say what it is for", entry.name);
    }
}

/// Common practice, from memory, no source. Full Persian is the one weave that is made of smaller rings than any
/// pose found allows; the text may not be what makers weave.
#[test]
fn only_full_persian_lies_outside_common_practice() {
    let outside: Vec<&str> = entries().iter().filter(|e| e.agrees() == Some(false)).map(|e| e.short.as_str()).collect();
    assert_eq!(outside, ["full-persian-6-in-1"]);
    let known = entries().iter().filter(|e| e.agrees() == Some(true)).count();
    assert!(known >= 15, "{known}");
    assert!(
        weaves_table(entries(), Folders::default()).contains("**Outside common practice**, which is about AR 4.9 to 6")
    );
}

/// A weave that does not settle stays in the table, marked, with what was tried.
#[test]
fn a_weave_that_does_not_settle_stays_in_the_table() {
    let text = "# For a test.\nweave \"garden gate\"\nring a main, open\nrepeat n\n  a[n] down a[n-1], a[n-2]\n";
    let entries = [Entry::of("garden-gate", &compile(text))];
    let table = weaves_table(&entries, Folders::default());
    let row = "| garden gate |  |  |  |  |  | For a test. **Does not settle**: no pose of these rings was found in 288 starts. |";
    assert!(table.contains(row), "{table}");
    let value = valid_json(&weaves_json(&entries));
    assert_eq!(value["weaves"][0]["settles"], false);
}

/// Rings to a centimetre and a square centimetre, worked by hand from lengths that are known exactly: a simple chain
/// has one ring for each inner diameter, with 1 mm wire at AR 2.06 (2 % thinner than the floor allows); flat rings of
/// Japanese 4-in-1 stand two inner diameters apart, three rings to each place.
#[test]
fn rings_per_centimetre_are_those_of_exact_lengths() {
    let chain = entry("simple-chain").figures.as_ref().unwrap();
    assert!((chain.rings_per_cm.unwrap() - 10.0 / (3.0 / 0.98 - 1.0)).abs() < 1e-3, "{chain:?}");
    let sheet = entry("japanese-4-in-1-sheet").figures.as_ref().unwrap();
    let inner = (2.0 + 2.0_f64.sqrt()) / 0.98 - 1.0;
    assert!((sheet.rings_per_cm.unwrap() - 300.0 / (2.0 * inner).powi(2)).abs() < 0.05, "{sheet:?}");
}

/// The mirror image settles to the same figures and leans the other way.
#[test]
fn mirror_images_lean_the_other_way() {
    for name in ["half-persian-3-in-1", "half-persian-4-in-1", "half-persian-5-in-1"] {
        let one = entry(name).figures.as_ref().unwrap();
        let other = entry(&format!("{name}-leaning-right")).figures.as_ref().unwrap();
        assert_eq!((one.lean, other.lean), (Some(Hand::Left), Some(Hand::Right)), "{name}");
        assert!((one.found - other.found).abs() < 1e-4, "{name}");
    }
}

/// A text in other words, rings renamed and counted from another repeat, lines turned round, has the fingerprint of
/// the weave and is taken for it.
#[test]
fn every_weave_is_known_again_when_it_is_written_otherwise() {
    for (short, text) in examples() {
        let weave = kept(text);
        if weave.files().len() > 1 {
            continue;
        }
        let names: Vec<&str> = weave.pattern().families.iter().map(|f| f.name.value.as_str()).collect();
        let mut passes: Vec<String> = Vec::new();
        let mut rest: Vec<String> = Vec::new();
        for line in text.lines().filter(|l| !l.starts_with('#') && !l.starts_with("claim")) {
            let pass = line.contains(" down ") || line.contains(" through ") || line.contains(" side");
            let mut words = line.split('#').next().unwrap().to_owned();
            if !line.starts_with("weave") {
                words = renamed(&words, &names);
            }
            if pass {
                // Counted from two repeats on.
                passes.push(
                    words
                        .replace("[n", "[n+2")
                        .replace("[n+2+1]", "[n+3]")
                        .replace("[n+2-1]", "[n+1]")
                        .replace("[n+2-2]", "[n]")
                        .replace("[n+2+2]", "[n+4]"),
                );
            } else if !line.trim_start().starts_with("drop") && line != "ends" {
                rest.push(words);
            }
        }
        passes.reverse();
        let at = rest.iter().position(|l| l.starts_with("repeat")).map_or(rest.len(), |at| at + 1);
        rest.splice(at..at, passes);
        let again = compile(&rest.join("\n"));
        assert!(again.pattern().whole, "{short}:\n{}", rest.join("\n"));
        assert_eq!(again.fingerprint(), weave.fingerprint(), "{short}:\n{}", rest.join("\n"));
        assert!(Identity::built_in(short).unwrap().is(&Identity::of(&again)), "{short}");
    }
}

/// Every ring name with an x before it.
fn renamed(line: &str, names: &[&str]) -> String {
    let mut out = String::new();
    let mut word = String::new();
    for c in line.chars().chain(['\n']) {
        if c.is_alphanumeric() {
            word.push(c);
            continue;
        }
        if names.contains(&word.as_str()) {
            out.push('x');
        }
        out.push_str(&word);
        word.clear();
        out.push(c);
    }
    out.trim_end().to_owned()
}

/// What beginners confuse: the claim, the text, and what the finding says it is.
const CONFUSED: &[(&str, &str, &str)] = &[
    // 3-in-1 for 4-in-1, and the other way round.
    ("half Persian 4-in-1", "base \"half Persian 3-in-1\"", "; it is half Persian 3-in-1"),
    ("half Persian 3-in-1", "base \"half Persian 4-in-1\"", "; it is half Persian 4-in-1"),
    // Left for right.
    ("half Persian 3-in-1", "base \"half Persian 3-in-1\"\nmirrored", "; it is half Persian 3-in-1 leaning right"),
    ("half Persian 4-in-1 leaning right", "base \"half Persian 4-in-1\"", "; it is half Persian 4-in-1"),
    // Through for around: all three the same way is the weave of other cycles.
    (
        "half Persian 3-in-1",
        "ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), through eye(a[n-1], a[n])",
        "another weave, none of the built-in ones",
    ),
    // Around for through: the eyes change places, and it leans the other way.
    (
        "half Persian 3-in-1",
        "ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n-1]\nb[n] around eye(a[n], a[n+1]), through eye(a[n-1], a[n]), far side",
        "; it is half Persian 3-in-1 leaning right",
    ),
    // Pairs left open for a box, and a box for open pairs; Byzantine for a box.
    ("box chain", "base \"2-in-2 chain\"", "; it is 2-in-2 chain"),
    ("2-in-2 chain", "base \"box chain\"", "; it is box chain"),
    ("box chain", "base \"Byzantine chain\"", "; it is Byzantine chain"),
    // A spiral turned the other way.
    ("three-ring spiral", "base \"loose three-ring spiral\"", "; it is loose three-ring spiral"),
    ("European 4-in-1 strip", "base \"2-in-1 chain\"", "; it is 2-in-1 chain"),
];

#[test]
fn a_text_claimed_to_be_another_weave_is_told_which_it_is() {
    let all: Vec<String> = CONFUSED
        .iter()
        .map(|(claim, text, is)| {
            let found = findings(&format!("weave \"Harbour band\"\n{text}\nclaim weave \"{claim}\"\n"));
            assert!(found.contains("[claim-weave]") && found.contains(is), "{claim}: {is}:\n{found}");
            format!("{text}\nclaim weave \"{claim}\"\n\n{found}")
        })
        .collect();
    insta::assert_snapshot!(all.join("\n────\n"));
    // What is claimed rightly is not told anything: by the same words, by other words, and with accents on it.
    for right in [
        "base \"half Persian 3-in-1\"\nclaim weave \"half Persian 3-in-1\"",
        "base \"half Persian 3-in-1\"\nmirrored\nclaim weave \"half Persian 3-in-1 leaning right\"",
        "ring a main, closed\nring b main, open\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n])\nlean left\nclaim weave \"half Persian 3-in-1\"",
        "ring a, b main, closed\nring c, d main, open\nrepeat n\nc[n] down a[n], b[n], a[n+1], b[n+1]\nd[n] down a[n], b[n], a[n+1], b[n+1]\nfold d[n], c[n] back\nends\ndrop c[last], d[last]\nclaim weave \"box chain\"",
        "ring a main, closed\nring b, c main, open\nrepeat n\nb[n] down a[n], a[n+1]\nc[n] down a[n], a[n+1]\nends\ndrop b[last], c[last]\nclaim weave \"2-in-1 chain\"",
        "base \"Tideline bracelet\"\nclaim weave \"half Persian 3-in-1\"",
        "base \"Tideline bracelet\"\nclaim weave \"Tideline bracelet\"",
        "spiral\nring a main, open\nrepeat n\na[n] down a[n-1], a[n-2]\nclaim weave \"three-ring spiral\"",
    ] {
        let found = findings(&format!("weave \"Harbour band\"\n{right}\n"));
        assert!(!found.contains("claim-weave"), "{right}:\n{found}");
    }
}

#[test]
fn a_claimed_weave_that_is_unknown_is_told_so() {
    let found = findings("weave \"x\"\nbase \"simple chain\"\nclaim weave \"simpel chain\"\n");
    assert!(
        found.contains("no built-in weave is called simpel chain") && found.contains("did you mean `simple chain`?"),
        "{found}"
    );
    let found = findings("weave \"x\"\nbase \"simple chain\"\nclaim weave \"garden gate\"\n");
    assert!(found.contains("`byrnie weaves` lists them"), "{found}");
}
