//! What must not matter does not: names, order, which way rings are turned, where counting starts, the unit.
//! Random starts go by the order of rings, so this holds only where the solver truly arrives.

use super::{CHAIN, HALF_PERSIAN, JAPANESE_4, SPIRAL, settled};
use byrnie::settle::{Lengths, Settled};

const HALF_PERSIAN_4: &str = "ring a, b\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n]), through eye(a[n-2], a[n-1]), over b[n-1], far side\n";
const EUROPEAN: &str =
    "ring a, b\nrepeat row r, column c\nb[r,c] down eye(a[r,c], a[r,c+1]), up eye(a[r+1,c], a[r+1,c+1])\n";
const KNOT: &str = "ring a, b, c\nb down a\nc down a, b\n";
const ROSETTE: &str = "ring a, b, c, d, e\nb down a\nc down a, b\nd down a, b, c\ne down a, b, c, d\n";
const ACCENTED: &str =
    "base \"half Persian 3-in-1\"\nring c accent\naccent every 3, from 2\nc[n] around eye(a[n], a[n+1])\n";

/// Weaves and sizes.
const ALL: [(&str, &str); 9] = [
    (CHAIN, "rings\nmain wire 1 mm, inner 3 mm\n"),
    (HALF_PERSIAN, "rings\nmain wire 1.6 mm, inner 8 mm\n"),
    (HALF_PERSIAN_4, "rings\nmain wire 1 mm, inner 5.2 mm\n"),
    (SPIRAL, "rings\nmain wire 1 mm, inner 4 mm\n"),
    (KNOT, "rings\nmain wire 1 mm, inner 4 mm\n"),
    (ROSETTE, "rings\nmain wire 1 mm, inner 4 mm\n"),
    (JAPANESE_4, "rings\nmain wire 1 mm, inner 4 mm\n"),
    (EUROPEAN, "rings\nmain wire 1 mm, inner 4.5 mm\n"),
    (ACCENTED, "rings\nmain wire 1.6 mm, inner 7 mm\naccent wire 1.6 mm, inner 6 mm\n"),
];

/// Names and figures that must not change by more than a millionth: floors, room, lengths in inner diameters.
/// Of a sheet it is both ways together that are drawn out.
fn figures(s: &Settled) -> Vec<(String, f64)> {
    let mut figures: Vec<(String, f64)> = s.floors.iter().map(|f| (format!("floor of {}", f.kind), f.found)).collect();
    figures.extend(s.room().map(|r| ("room".to_owned(), r)));
    let total = |l: &Lengths| l.iter().sum::<f64>() / s.inner();
    figures.extend(s.taut.iter().map(|l| ("taut".to_owned(), total(l))));
    figures.extend(s.natural.iter().map(|l| ("natural".to_owned(), total(l))));
    figures.extend(s.pushed.iter().map(|l| ("pushed together".to_owned(), total(l))));
    figures
}

/// What is known to change by more than that, and the part by which it may.
fn known(text: &str, figure: &str) -> Option<f64> {
    match figure {
        // A sheet with many free rings is pushed into one of many heaps; which one hangs on the start.
        "pushed together" if text.starts_with(JAPANESE_4) => Some(0.1),
        _ => None,
    }
}

/// What changed from one text to the other.
fn changes(one: &str, other: &str) -> Vec<String> {
    let (a, b) = (&settled(one).1, &settled(other).1);
    let words = |s: &Settled| {
        let sits: Vec<&str> = s.sits.iter().map(|s| s.word.word()).collect();
        format!("lean {:?}, either hand {}, straight {:?}, accents {sits:?}", s.lean, s.either_hand, s.straight)
    };
    let mut changes = Vec::new();
    if words(a) != words(b) {
        changes.push(format!("{} — {}", words(a), words(b)));
    }
    let (x, y) = (figures(a), figures(b));
    assert_eq!(x.len(), y.len(), "{one}\n---\n{other}");
    for ((name, x), (_, y)) in x.into_iter().zip(y) {
        let within = known(one, &name).unwrap_or(1e-6);
        if (x - y).abs() > within * x.abs().max(1.0) {
            changes.push(format!("{name} {x} — {y}, {:.1e}", x - y));
        }
    }
    // Between its two ways the length of a sheet shifts with less than the rounding of the whole.
    let ways = |s: &Settled| s.taut.iter().flatten().map(|l| l / s.inner()).collect::<Vec<f64>>();
    if ways(a).iter().zip(&ways(b)).any(|(x, y)| (x - y).abs() > 1e-5) {
        changes.push(format!("taut {:?} — {:?}", ways(a), ways(b)));
    }
    changes
}

/// Every pair of texts settles alike.
fn alike(pairs: &[(String, String)]) {
    assert!(pairs.len() > 4);
    let changed = pairs.iter().map(|(one, other)| (one, other, changes(one, other))).filter(|c| !c.2.is_empty());
    let told: Vec<String> =
        changed.map(|(one, other, what)| format!("{}\n\n{one}---\n{other}", what.join("\n"))).collect();
    assert!(told.is_empty(), "{} of {} pairs differ\n{}", told.len(), pairs.len(), told.join("\n===\n"));
}

fn pair((one, sizes): (&str, &str), other: &str) -> (String, String) {
    assert_ne!(one, other);
    (format!("{one}{sizes}"), format!("{other}{sizes}"))
}

#[test]
fn other_names() {
    let other = |name: &str| match name {
        "a" => "zeta".to_owned(),
        "b" => "ring_b".to_owned(),
        "h" => "along".to_owned(),
        "v" => "across".to_owned(),
        _ => name.to_owned(),
    };
    let renamed = |text: &str| -> String {
        let words = text.split_inclusive(|c: char| !c.is_alphanumeric());
        words.filter_map(|w| w.char_indices().next_back().map(|(end, _)| other(&w[..end]) + &w[end..])).collect()
    };
    alike(&ALL.into_iter().filter(|w| w.0 != ACCENTED).map(|w| pair(w, &renamed(w.0))).collect::<Vec<_>>());
}

/// Families named in another order, statements in another order, passes in another order.
#[test]
fn other_order() {
    let mut pairs = vec![
        pair(ALL[0], &CHAIN.replace("a[n], a[n+1]", "a[n+1], a[n]")),
        pair(ALL[1], &HALF_PERSIAN.replace("over b[n-1], far side", "far side, over b[n-1]")),
    ];
    for weave in ALL.into_iter().filter(|w| w.0 != ACCENTED) {
        let lines: Vec<&str> = weave.0.lines().collect();
        let first = 1 + lines.iter().rposition(|l| l.starts_with("ring ") || l.starts_with("repeat ")).unwrap();
        let (head, mut statements) = (lines[..first].join("\n"), lines[first..].to_vec());
        if statements.len() > 1 {
            statements.reverse();
            pairs.push(pair(weave, &format!("{head}\n{}\n", statements.join("\n"))));
        }
        let line = lines.iter().find_map(|l| l.strip_prefix("ring ")).unwrap();
        let mut families: Vec<&str> = line.split(", ").collect();
        if families.len() > 1 {
            families.reverse();
            pairs.push(pair(weave, &weave.0.replacen(line, &families.join(", "), 1)));
        }
    }
    alike(&pairs);
}

/// Where the text has no eyes, whose rings face one way, any ring may be turned over.
#[test]
fn rings_turned_over() {
    let mut pairs = vec![
        pair(ALL[4], &KNOT.replace("c down a, b", "c up a, down b").replace("b down a", "b up a")),
        pair(ALL[6], &JAPANESE_4.replace("h[r,c] down", "h[r,c] up")),
    ];
    let without_eyes = ALL.into_iter().filter(|w| !w.0.contains("eye("));
    pairs.extend(without_eyes.map(|w| pair(w, &w.0.replace("down", "up"))));
    alike(&pairs);
}

/// Rings of one family counted from another repeat on.
#[test]
fn another_starting_cell() {
    let on = |text: &str| text.replace("a[n+1]", "a[n+2]").replace("a[n]", "a[n+1]").replace("a[n-1]", "a[n]");
    let aside = |text: &str| {
        let row = text.replace("a[r,c+1]", "a[r,c+2]").replace("a[r,c]", "a[r,c+1]");
        row.replace("a[r+1,c+1]", "a[r+1,c+2]").replace("a[r+1,c]", "a[r+1,c+1]")
    };
    let chains = [ALL[0], ALL[1]].map(|w| pair(w, &on(w.0)));
    let sheets = [ALL[6], ALL[7]].map(|w| pair(w, &aside(w.0)));
    let down = pair(ALL[6], &aside(JAPANESE_4).replace("[r,c+", "[r+1,c+").replace("a[r+1,c+1]\n", "a[r+2,c+1]\n"));
    alike(&chains.into_iter().chain(sheets).chain([down]).collect::<Vec<_>>());
}

/// All sizes in inches, not mm; and where there is one kind its ratio alone.
#[test]
fn another_unit() {
    let inches = ALL.map(|(text, sizes)| (format!("{text}{sizes}"), format!("{text}{}", sizes.replace(" mm", " in"))));
    let ratios = [(ALL[0], "3"), (ALL[1], "5"), (ALL[3], "4"), (ALL[4], "4"), (ALL[6], "4")];
    let ratios =
        ratios.map(|((text, sizes), ratio)| (format!("{text}{sizes}"), format!("{text}rings\nmain AR {ratio}\n")));
    alike(&inches.into_iter().chain(ratios).collect::<Vec<_>>());
}
