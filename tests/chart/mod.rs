//! The chart of a repeat: what is on it is what the text says, and it can be read.

#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::cast_precision_loss, clippy::format_push_string)]

mod picture;

use byrnie::text::Source;
use byrnie::{Library, Weave, draw};
use picture::{circles, corners, marks, view_box};
use roxmltree::Document;

/// The marks of every example, read off its text by hand.
const MARKS: &[(&str, &[&str])] = &[
    ("european-4-in-1-sheet", &["b[r,c] down a[r,c]; a[r,c+1]", "b[r,c] up a[r+1,c]; a[r+1,c+1]"]),
    ("half-persian-3-in-1", &["b[n] down a[n]; a[n+1]", "b[n] up a[n-1]"]),
    ("half-persian-4-in-1", &["b[n] down a[n]; a[n+1]", "b[n] up a[n-2]; a[n-1]"]),
    (
        "japanese-4-in-1-sheet",
        &["h[r,c] down a[r,c+1]", "h[r,c] down a[r,c]", "v[r,c] down a[r+1,c]", "v[r,c] down a[r,c]"],
    ),
    ("larkspur-lane-first-chain-kit", &["b[n] down a[n+1]", "b[n] down a[n]"]),
    (
        "rosette-of-five",
        &[
            "b down a", "c down a", "c down b", "d down a", "d down b", "d down c", "e down a", "e down b", "e down c",
            "e down d",
        ],
    ),
    ("simple-chain", &["b[n] down a[n+1]", "b[n] down a[n]"]),
    ("three-ring-spiral", &["a[n] down a[n-1]", "a[n] down a[n-2]"]),
    ("tideline-bracelet", &["b[n] down a[n]; a[n+1]", "b[n] up a[n-1]", "c[n] down a[n]", "c[n] up a[n+1]"]),
];

fn weave(text: &str) -> Weave {
    Weave::compile(Source::new("chart.weave", text), &Library)
}

fn examples() -> Vec<(&'static str, Weave, String)> {
    let drawn = |(name, text): (&'static str, &str)| {
        let weave = weave(text);
        let chart = draw::chart(&weave);
        (name, weave, chart)
    };
    Library::weaves().into_iter().map(drawn).collect()
}

/// Texts that try the chart: none, one ring, pairs, layers, a mirrored base, an accent on an accent,
/// 500 families, far passes, a name that is no XML, and a text with faults.
fn odd() -> Vec<String> {
    let names: Vec<String> = (0..500).map(|i| format!("r{i}x")).collect();
    let mut many = format!("ring {} main\nrepeat n\n", names.join(", "));
    for i in 0..250 {
        many +=
            &format!("  {}[n] down {}[n], {}[n+{}]\n", names[i], names[250 + i], names[250 + (i + 1) % 250], i % 100);
    }
    let wide: Vec<String> = (0..100).map(|i| format!("a[n+{i}]")).collect();
    let long = "averylongnameforaring".repeat(9);
    let texts = [
        "",
        "ring a",
        "weave \"<&>\u{1}\u{202e}\"\nring a\na down a",
        "ring a, b, c, d\nrepeat n\n  c[n] down a[n], b[n]\n  d[n] down a[n], b[n]\n  a[n] up c[n-1], d[n-1]\n  b[n] up c[n-1], d[n-1]",
        "ring a, b, c\nrepeat n\n  b[n] down a[n], a[n+1]\n  c[n] down b[n], b[n+1], near side",
        "base \"half Persian 3-in-1\"\nmirrored",
        "base \"half Persian 4-in-1\"\nring c, d accent\naccent every 3\n  c[n] down b[n]\naccent every 5, from 3\n  d[n] up c[n], down c[n]",
        "ring a, b\nrepeat n\n  b[n] through eye(a[n], a[n+1]), through eye(a[n+1], a[n+2]), up a[n+9], under q[n]",
        "ring a, b\nrepeat row r, column c\n  b[r,c] down a[r,c], a[r+1,c], a[r,c+1], a[r+1,c+1], near side",
        "ring a\nrepeat n\n  a[n] down a[n+100], a[n-100], a[n+7]",
        &many,
        &format!("ring a, b\nrepeat n\n  b[n] down {}", wide.join(", ")),
        &format!("weave \"{long}\"\nring {long}, b\nrepeat n\n  b[n] down {long}[n], {long}[n+1]"),
    ];
    texts.iter().map(|t| draw::chart(&weave(t))).collect()
}

#[test]
fn every_chart_is_a_picture_with_words_inside_its_frame() {
    for chart in examples().into_iter().map(|(_, _, chart)| chart).chain(odd()) {
        let svg = Document::parse(&chart).unwrap();
        let root = svg.root_element();
        assert_eq!(root.attribute("role"), Some("img"));
        for part in ["title", "desc"] {
            let words = root.children().find(|n| n.has_tag_name(("http://www.w3.org/2000/svg", part))).unwrap();
            assert!(root.attribute("aria-labelledby").unwrap().contains(words.attribute("id").unwrap()));
            assert!(words.text().is_some_and(|t| !t.trim().is_empty()), "{part}");
        }
        let [wide, high] = view_box(&svg);
        for node in svg.descendants() {
            let Some([low, top]) = corners(&node) else { continue };
            let inside = low[0] >= 0.0 && low[1] >= 0.0 && top[0] <= wide && top[1] <= high;
            assert!(inside, "{low:?} to {top:?} in {wide} × {high}: {node:?}");
        }
        assert!(chart.len() < 150_000, "{} bytes", chart.len());
        assert!(!chart.contains("NaN") && !chart.contains("inf"));
    }
}

#[test]
fn marks_are_what_the_text_says() {
    let charts = examples();
    for (name, weave, chart) in &charts {
        let marks = marks(&Document::parse(chart).unwrap());
        if let Some((_, expected)) = MARKS.iter().find(|m| m.0 == *name) {
            let mut said: Vec<String> =
                marks.iter().map(|m| format!("{} {} {}", m.ring, m.sense, m.passes.join("; "))).collect();
            said.sort();
            assert_eq!(said, *expected, "{name}");
        }
        // Each solved link stands in one mark.
        assert_eq!(marks.iter().map(|m| m.passes.len()).sum::<usize>(), weave.links().links.len(), "{name}");
    }
    assert!(MARKS.iter().all(|m| charts.iter().any(|c| c.0 == m.0)));
}

#[test]
fn marks_lie_inside_what_they_go_through_and_outside_of_all_else() {
    for (name, _, chart) in examples() {
        let svg = Document::parse(&chart).unwrap();
        let circles = circles(&svg);
        for mark in marks(&svg) {
            // Where rings of a row pass one another, every mark lies in several.
            let in_row = circles.iter().any(|c| c.name == mark.ring);
            for circle in circles.iter().filter(|c| c.name != mark.ring) {
                let depth = circle.depth(mark.at);
                let through = mark.passes.contains(&circle.name);
                // Rings three places apart in a row share a narrow lens only.
                let right = if through { depth > 0.04 } else { in_row || depth < -0.1 };
                assert!(right, "{name}: {} {:?}, {} has depth {depth}", mark.ring, mark.passes, circle.name);
            }
            // What it goes through is drawn: as a circle, or as a line where it is itself woven.
            assert!(mark.passes.iter().all(|p| chart.contains(&format!(">{p}<"))), "{name} {:?}", mark.passes);
        }
    }
}

#[test]
fn no_mark_of_an_odd_text_lies_outside_of_what_it_goes_through() {
    for chart in odd() {
        let svg = Document::parse(&chart).unwrap();
        let circles = circles(&svg);
        for mark in marks(&svg) {
            let through = circles.iter().filter(|c| mark.passes.contains(&c.name));
            assert!(through.into_iter().all(|c| c.depth(mark.at) > 0.0), "{} {:?}", mark.ring, mark.passes);
        }
    }
}

#[test]
fn every_mark_on_a_row_lies_on_its_own_ring() {
    for (name, _, chart) in examples() {
        let svg = Document::parse(&chart).unwrap();
        let circles = circles(&svg);
        for mark in marks(&svg) {
            let own = circles.iter().find(|c| c.name == mark.ring);
            assert!(own.is_none_or(|c| c.depth(mark.at).abs() < 0.01), "{name}: {}", mark.ring);
        }
    }
}

/// Text 4.5:1 and graphics 3:1 (WCAG 2.2, 1.4.3 and 1.4.11), and no colour that print would lose.
#[test]
fn inks_are_grey_and_stand_out() {
    for (name, _, chart) in examples() {
        for ink in chart.split('#').skip(1).map(|rest| &rest[..6]) {
            let channel = u8::from_str_radix(&ink[..2], 16).unwrap();
            assert_eq!(ink, format!("{channel:02x}").repeat(3), "{name}: not a grey");
            // Relative luminance as WCAG 2.2 defines it.
            let light = libm::pow((f64::from(channel) / 255.0 + 0.055) / 1.055, 2.4);
            assert!(channel == 255 || 1.05 / (light + 0.05) >= 4.5, "{name}: {ink}");
        }
    }
}

#[test]
fn what_is_left_out_is_said() {
    let wide: Vec<String> = (0..100).map(|i| format!("a[n+{i}]")).collect();
    let chart = draw::chart(&weave(&format!("ring a, b\nrepeat n\n  b[n] down {}", wide.join(", "))));
    let drawn = marks(&Document::parse(&chart).unwrap()).len();
    assert!(chart.contains(&format!("The chart has no room for {} passes.", 100 - drawn)));
    let chart = draw::chart(&weave("ring a, b\nrepeat n\n  b[n] down a[n], q[n]"));
    assert!(chart.contains("Part of the text is unclear"));
}

#[test]
fn same_text_same_bytes() {
    for ((name, _, one), (_, _, other)) in examples().into_iter().zip(examples()) {
        assert_eq!(one, other, "{name}");
    }
}

#[test]
fn charts_of_the_small_examples() {
    for (name, _, chart) in examples() {
        if ["simple-chain", "half-persian-3-in-1", "three-ring-spiral"].contains(&name) {
            insta::assert_snapshot!(format!("chart_{name}"), chart);
        }
    }
}
