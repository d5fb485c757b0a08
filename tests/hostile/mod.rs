//! Texts made to be too much: each must come to an end, with findings or without. (How long it takes is
//! not asserted; a text that hangs would hang the test.)

use crate::common::{compile_alone, lint_json, valid_json};
use byrnie::notation::{read, tidy};
use byrnie::{lint, report};
use std::fmt::Write as _;

fn through(text: &str) {
    assert!(text.len() <= byrnie::text::MAX_BYTES);
    let weave = compile_alone(text);
    let findings = lint::check(&weave);
    assert!(findings.len() <= lint::MOST_FINDINGS);
    report::plain(weave.sources(), &findings);
    valid_json(&lint_json(weave.sources(), &findings));
    let (tree, faults) = read(0, text);
    if faults.is_empty() {
        tidy(&tree);
    }
    weave.fingerprint();
}

fn lines(head: &str, count: usize, line: impl Fn(usize) -> String) -> String {
    let mut text = head.to_owned();
    for i in 0..count {
        let _ = writeln!(text, "{}", line(i));
        if text.len() > 900_000 {
            break;
        }
    }
    text
}

fn letters(mut n: usize) -> String {
    let mut name = String::from("x");
    loop {
        name.push(char::from(b'a' + u8::try_from(n % 26).unwrap()));
        n /= 26;
        if n == 0 {
            return name + "z";
        }
    }
}

const TWO: &str = "ring a\nring b\nrepeat n\n";

#[test]
fn many_names() {
    through(&lines("", 60_000, |i| format!("ring {}", letters(i))));
    through(&lines(TWO, 60_000, |i| format!("a[n] down {}[n]", letters(i))));
    through(&lines(TWO, 60_000, |_| "ring a".to_owned()));
    through(&lines("rings\n", 60_000, |i| format!("{} wire {} awg, inner 1 mm", letters(i % 900), i % 50)));
    for last in ["", "gauges swg\n"] {
        let bare = lines("rings\n", 60_000, |i| format!("{} wire 18 ga (1 mm)", letters(i % 900)));
        through(&(bare + last));
    }
}

#[test]
fn many_slips() {
    through(&lines(TWO, 60_000, |_| {
        "a[n] dwon b[n+1], throgh eey(a[n], b[n]), ovr b[n], fra sdie, betwen a[n], b[n], upp".to_owned()
    }));
    through(&lines(TWO, 60_000, |_| "rign wevae repaet lfet claim cliam mirored".to_owned()));
    through(&format!("{TWO}a[n] {}", "dwon ".repeat(100_000)));
    through(&"#".repeat(900_000));
    through(&"\n".repeat(900_000));
    through(&"\"".repeat(900_000));
    through(&"(".repeat(900_000));
    through(&"a[n] down eye(".repeat(60_000));
}

#[test]
fn many_passes() {
    through(&format!(
        "{TWO}a[n] down {}",
        (0..60_000).map(|i| format!("b[n{:+}]", i % 201 - 100)).collect::<Vec<_>>().join(", ")
    ));
    let pairs = (0..200).map(|i| format!("eye(b[n{:+}], b[n{:+}])", 100 - i, 99 - i)).collect::<Vec<_>>().join(", ");
    through(&format!("{TWO}a[n] through {pairs}, around {pairs}"));
    through(&lines(TWO, 60_000, |i| format!("a[n] up b[n{:+}], down b[n{:+}]", i % 100, i % 99)));
    through(&lines(TWO, 60_000, |i| format!("lay a[n] behind a[n{:+}]", i % 100 + 1)));
    let names: Vec<String> = (0..400).map(letters).collect();
    let head = format!("ring {}\nrepeat n\n", names.join(", "));
    through(&lines(&head, 40_000, |i| format!("{}[n] down {}[n{:+}]", names[i % 400], names[i / 400 % 400], i % 7)));
}

#[test]
fn many_repeats() {
    let accents = [7, 11, 13, 17, 19].map(|k| format!("accent every {k}, from 1\na[n] over b[n+1]\n")).concat();
    through(&format!("{TWO}b[n] down a[n], a[n+1]\n{accents}make\nrepeats 9999999"));
    through(&lines("ring a, b, c\nrepeat n\nb[n] down a[n], a[n+1]\n", 9_000, |i| {
        format!("accent every {}, from 9999999\nc[n] down a[n]", i + 1)
    }));
    through(&lines(&format!("{TWO}b[n] down a[n], a[n+1]\n"), 30_000, |_| {
        "ends\nadd a[9999999]\ndrop a[0]".to_owned()
    }));
    through(
        "ring a\nrepeat row r, column c\na[r,c] down a[r-1,c], a[r,c-1]\nends\nadd a[9999999,all]\nmake\nrows 9999999, columns 9999999",
    );
    through(&lines(
        "ring a\nrepeat row r, column c\na[r,c] down a[r-1,c], a[r,c-1]\nmake\nrows 1000, columns 1000\nends\n",
        30_000,
        |_| "close a[all,all]".to_owned(),
    ));
    through(&lines(&format!("{TWO}b[n] down a[n], a[n+1]\nmake\nrepeats 500000\n"), 60_000, |_| {
        "claim 3 in 2 for a, b".to_owned()
    }));
    through(&lines(&format!("{TWO}b[n] down a[n], a[n+1]\n"), 60_000, |i| format!("claim {i} a rings")));
    through("ring a, b\nrepeat n\nb[n] down a[n]\naccent every 9999999, from 9999999\nb[n] down a[n+100]");
}

#[test]
fn many_rings_all_alike() {
    // A repeat in which everything is linked with everything: no ring can be told from another.
    let names: Vec<String> = (0..120).map(letters).collect();
    let mut text = format!("ring {}\nrepeat n\n", names.join(", "));
    for (i, name) in names.iter().enumerate() {
        if i > 0 {
            let _ = writeln!(
                text,
                "{name}[n] down {}",
                names[..i].iter().map(|n| format!("{n}[n]")).collect::<Vec<_>>().join(", ")
            );
        }
    }
    let _ = writeln!(text, "{}[n] down {}[n-1]", names[0], names[119]);
    through(&text);
    // A cube of seven dimensions: much alike, and no two rings twins.
    let mut cube = format!("ring {}\n", (0..128).map(letters).collect::<Vec<_>>().join(", "));
    for i in 0..128_usize {
        for bit in 0..7 {
            if i & (1 << bit) != 0 {
                let _ = writeln!(
                    cube,
                    "{} {} {}",
                    letters(i),
                    if (i.count_ones() + bit) % 2 == 0 { "down" } else { "up" },
                    letters(i ^ (1 << bit))
                );
            }
        }
    }
    through(&cube);
}

/// Bags and sets of rings: so many are counted and settled, and what is more is said.
#[test]
fn many_bags_and_sets() {
    let head = "weave \"x\"\nbase \"simple chain\"\nrings\n  main wire 1 mm, inner 5 mm\n";
    let bags = lines(&format!("{head}make\n  length 190 mm\n"), 5000, |n| format!("  \"{n}\" pieces 2\n"));
    let sets = lines(head, 5000, |n| format!("rings \"{n}\"\n  main wire 1 mm, inner {}.5 mm\n", 3 + n % 50));
    let large = lines(&format!("{head}make\n"), 150, |n| format!("  \"{n}\" repeats {}\n", 40_000 + n));
    let far =
        lines(&format!("{head}ends\n  add a[400000]\nmake\n"), 20, |n| format!("  \"{n}\" length {} mm\n", 190 + n));
    for (text, said) in
        [(bags, "more than 200 bags"), (sets, "more than 12 sets of rings"), (large, "the limit is 2000000"), (far, "")]
    {
        through(&text);
        let weave = crate::common::compile_alone(&text);
        let shown = byrnie::report::plain(weave.sources(), &byrnie::lint::check(&weave));
        assert!(shown.contains(said), "{shown}");
        let _ = byrnie::count::Class::of(&weave).map(|class| class.table(byrnie::text::Layout::Markdown));
    }
}
