//! What must not matter does not: names, order, which way rings are turned, where counting starts, the unit.

use super::settled;

/// Floors, room, lengths and lean of a text, in inner diameters where they are lengths.
fn figures(text: &str) -> (Vec<f64>, Option<byrnie::notation::Hand>) {
    let (_, s) = settled(text);
    let mut figures: Vec<f64> = s.floors.iter().map(|f| f.found).collect();
    figures.extend(s.room());
    figures.extend(s.taut.iter().flatten().map(|l| l / s.inner()));
    (figures, s.lean)
}

fn alike(one: &str, other: &str) {
    let (a, b) = (figures(one), figures(other));
    assert_eq!(a.1, b.1, "{one}\n---\n{other}");
    assert_eq!(a.0.len(), b.0.len());
    for (x, y) in a.0.iter().zip(&b.0) {
        assert!((x - y).abs() < 1e-6 * x.abs().max(1.0), "{x} {y}: {:e}\n{one}\n---\n{other}", x - y);
    }
}

const HALF_PERSIAN: &str = "ring a, b\nrepeat n\nlay a[n] behind a[n-1]\nb[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n]), over b[n-1], far side\nrings\nmain wire 1.6 mm, inner 8 mm\n";
const CHAIN: &str = "ring a, b\nrepeat n\nb[n] down a[n], a[n+1]\nrings\nmain wire 1 mm, inner 3 mm\n";
const SPIRAL: &str = "spiral\nring a\nrepeat n\na[n] down a[n-1], a[n-2]\nrings\nmain wire 1 mm, inner 4 mm\n";
const KNOT: &str = "ring a, b, c\nb down a\nc down a, b\nrings\nmain wire 1 mm, inner 4 mm\n";
const SHEET: &str = "ring a, h, v\nrepeat row r, column c\nh[r,c] down a[r,c], a[r,c+1]\nv[r,c] down a[r,c], a[r+1,c]\nrings\nmain wire 1 mm, inner 4 mm\n";

#[test]
fn other_names() {
    alike(
        HALF_PERSIAN,
        &HALF_PERSIAN.replace("a[", "zeta[").replace("b[", "ring_b[").replace("ring a, b", "ring zeta, ring_b"),
    );
    alike(CHAIN, &CHAIN.replace("a[", "y[").replace("b[", "x[").replace("ring a, b", "ring y, x"));
    alike(SHEET, &SHEET.replace("h[", "w[").replace("h, v", "w, v"));
}

#[test]
fn other_order() {
    alike(HALF_PERSIAN, &HALF_PERSIAN.replace("ring a, b", "ring b, a"));
    alike(CHAIN, &CHAIN.replace("ring a, b", "ring b, a"));
    alike(CHAIN, &CHAIN.replace("a[n], a[n+1]", "a[n+1], a[n]"));
    alike(KNOT, &KNOT.replace("ring a, b, c", "ring c, b, a"));
    alike(SHEET, &SHEET.replace("ring a, h, v", "ring v, a, h"));
}

#[test]
fn rings_turned_over() {
    alike(CHAIN, &CHAIN.replace("down", "up"));
    alike(SPIRAL, &SPIRAL.replace("down", "up"));
    alike(KNOT, &KNOT.replace("down a, b", "up a, down b").replace("b down a", "b up a"));
    alike(SHEET, &SHEET.replace("h[r,c] down", "h[r,c] up"));
}

#[test]
fn another_starting_cell() {
    alike(
        HALF_PERSIAN,
        &HALF_PERSIAN.replace(
            "b[n] through eye(a[n], a[n+1]), around eye(a[n-1], a[n])",
            "b[n] through eye(a[n+1], a[n+2]), around eye(a[n], a[n+1])",
        ),
    );
    alike(CHAIN, &CHAIN.replace("a[n], a[n+1]", "a[n-1], a[n]"));
    alike(SHEET, &SHEET.replace("v[r,c] down a[r,c], a[r+1,c]", "v[r,c] down a[r,c+1], a[r+1,c+1]"));
}

#[test]
fn another_unit() {
    for text in [HALF_PERSIAN, CHAIN, SPIRAL, KNOT, SHEET] {
        let (sizes, inner) = text.split_once("wire ").unwrap().1.split_once(" mm, inner ").unwrap();
        let wire: f64 = sizes.parse().unwrap();
        let inner: f64 = inner.split_once(" mm").unwrap().0.parse().unwrap();
        let head = text.split_once("rings\n").unwrap().0;
        alike(text, &format!("{head}rings\nmain wire {} mm, inner {} mm\n", 2.0 * wire, 2.0 * inner));
        alike(text, &format!("{head}rings\nmain wire {:.7} in, inner {:.7} in\n", wire / 25.4, inner / 25.4));
        alike(text, &format!("{head}rings\nmain AR {:.7}\n", inner / wire));
    }
}
