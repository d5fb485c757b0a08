//! Reading never fails, and its messages are made for the person who wrote the text.

use crate::common::{compile, findings};

/// Ten slips of ten kinds, ten messages, and everything else is still read.
const TEN_TYPOS: &str = r#"waeve "Harbour band"

rign a main, closed
ring b main opne
ring c accent, open

repaet n
  lay a[n] behnd a[n-1]
  b[n] thruogh eye(a[n], a[n+1]), around eye(a[n-1], a[n]), over b[n-1], far side

accent evry 3, from 2
  c[n] around eye(a[n] a[n+1])

rings
  main    wrie 1.6 mm, inner 9.5 mm
  accent  wire 18 ga, inner 3/8 in

claim 3 in 1 fro a, b
lean lfet
"#;

#[test]
fn ten_typos_give_ten_good_messages() {
    let shown = findings(TEN_TYPOS);
    insta::assert_snapshot!("ten_typos", format!("{TEN_TYPOS}\n---\n{shown}"));
}

#[test]
fn a_slip_of_each_word_is_mended() {
    for (wrong, word) in [
        ("ring a main, closde", "closed"),
        ("repeat row r, colunm c", "column"),
        ("mirored", "mirrored"),
        ("sprial", "spiral"),
        ("guages swg", "gauges"),
        ("gauge swg", "gauges"),
        ("rings\ngauge swg", "gauges"),
        ("gauges sgw", "swg"),
        ("rings\n  main wire 18 guage", "gauge"),
        ("rings\n  main wire 1 mm, mesured inner 4 mm", "measured"),
        ("lean rihgt", "right"),
        ("claim fitz", "fits"),
        ("maek\n  repeats 3", "make"),
        ("make\n  lenght 190 mm", "length"),
        ("make\n  mesured 10 repeats 47 mm", "measured"),
        ("ends\n  dorp b[last]", "drop"),
        ("a[n] donw b[n]", "down"),
        ("a[n] down eey(b[n], b[n+1])", "eye"),
        ("a[n] betwen b[n], c[n]", "between"),
        ("fold a[n], b[n] bakc", "back"),
        ("lay a[n] in fornt of b[n]", "front"),
        ("rigns\n  main wire 1 mm", "rings"),
        ("rings\n  main wire 1 mm, innner 4 mm", "inner"),
        ("colurs\n  a: teal", "colours"),
        ("a[n] thru eye(b[n], b[n+1])", "through"),
    ] {
        let weave = compile(wrong);
        let found: Vec<_> = weave.reading().iter().map(|f| (f.rule, f.fix.as_ref().map(|x| x.title.clone()))).collect();
        assert_eq!(found, [("misspelled-word", Some(format!("write `{word}`")))], "{wrong}: {:?}", weave.reading());
    }
}

#[test]
fn lines_that_cannot_be_read_say_what_was_expected() {
    let lines = [
        "b[n] through a[n]",
        "b[n] through eye(a[n])",
        "b[n] down",
        "b[n down a[n]",
        "b[n+] down a[n]",
        "b[n] down a[n],",
        "b[n] down a[n] a[n+1]",
        "b[n]",
        "ring",
        "ring down main",
        "ring a-b main",
        "repeat",
        "repeat row r",
        "accent every",
        "accent every three",
        "weave Tideline",
        "weave \"Tideline",
        "lean",
        "claim",
        "claim 3 on 1",
        "claim AR",
        "gauges",
        "gauges mm",
        "gauges 18 swg",
        "rings\n  main wire 16 g",
        "rings\n  main measured wire",
        "rings\n  main wire 1 mm, measured 4 mm",
        "rings\n  main wire 1 mm, measured inner 9.7 mm (9.5 mm)",
        "rings\n  main wire 1,6 mm",
        "rings\n  main inner 3/8\"",
        "rings\n  main wire 1.6 cm",
        "rings\n  main wire mm",
        "make\n  length",
        "make\n  repeats 3.5",
        "colours\n  a:",
        "ends\n  drop",
        "ends\n  add a[last+]",
        "???",
        "hello there",
        "repeat 10",
        "claim 3-in-1",
        "b[n] through the eye of a[n] and a[n+1]",
        "rings\n  main 1.6mm x 9.5mm",
        "ring a\nrepeat n\na[n] down a1",
    ];
    let shown: String =
        lines.iter().map(|line| format!("{line}\n{}\n", findings(line).replace("test.weave:", "  "))).collect();
    insta::assert_snapshot!("unreadable", shown);
}

#[test]
fn line_ends_tabs_marks_and_other_scripts_are_read() {
    let plain = "weave \"Küstenband\"\nring röd main, closed\nring blå main, open\nrepeat n\n  blå[n] down röd[n], röd[n+1]\nends\n  drop blå[last]\n";
    let one = compile(plain);
    assert!(one.reading().is_empty() && one.pattern().whole);
    for other in [
        plain.replace('\n', "\r\n"),
        format!("\u{FEFF}{plain}"),
        plain.replace("  ", "\t"),
        plain.replace("  ", ""),
        plain.replace("  ", "\u{00A0}"),
        plain.replace("\"Küstenband\"", "“Küstenband”"),
        plain.replace("ring ", "RING ").replace("repeat", "Repeat"),
        plain.trim_end().to_owned(),
        format!("{plain}\n# a comment\n   # another \"\n"),
        plain.replace("main, open", "main, open # rings of the class's \"first\" kit"),
    ] {
        let weave = compile(&other);
        assert!(weave.reading().is_empty() && weave.pattern().whole, "{other:?}: {:?}", weave.reading());
        assert_eq!(weave.name(), "Küstenband");
        assert_eq!(weave.fingerprint(), one.fingerprint());
    }
}

#[test]
fn places_are_counted_in_characters() {
    let shown = findings("\u{FEFF}weave \"Küste\"\r\nring å main, closed\r\nå[n] dwon x\r\n");
    assert!(shown.starts_with("test.weave:3:"), "{shown}");
    assert!(shown.contains("test.weave:3:6: error[misspelled-word]"), "{shown}");
}

#[test]
fn a_missing_quote_or_a_strange_sign_costs_one_line() {
    let text = "weave \"Harbour\nring a main, closed\nring b main, open\nrepeat n\n  b[n] down a[n], a[n+1] !\nends\n  drop b[last]\n";
    let weave = compile(text);
    assert_eq!(weave.reading().len(), 2, "{:?}", weave.reading());
    assert_eq!(weave.pattern().families.len(), 2);
}

#[test]
fn a_kind_may_be_called_like_a_word_that_opens_a_line() {
    let text = "ring a length\nring b accent\nring c gauges\nring d measured\nrepeat n\nb[n] down a[n], a[n+1], c[n], d[n]\nrings\nlength wire 1 mm, inner 5 mm\naccent measured wire 1 mm, inner 4 mm\ngauges wire 1 mm\nmeasured measured wire 1 mm\n";
    let weave = compile(text);
    assert!(weave.reading().is_empty(), "{:?}", weave.reading());
    assert_eq!(
        weave.pattern().kinds.iter().map(|k| k.name.as_str()).collect::<Vec<_>>(),
        ["length", "accent", "gauges", "measured"]
    );
}
