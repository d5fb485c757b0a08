//! Colours of pictures: told apart by everyone, on paper as well, and never alone.

use crate::common::kept;
use byrnie::draw::picture::{Frames, Options, picture};
use byrnie::pattern::Repeats;
use std::collections::BTreeSet;

/// Rings of seven kinds in a chain.
fn seven() -> String {
    let kinds = ["main", "two", "three", "four", "five", "six", "seven"];
    let rings: Vec<String> = kinds.iter().zip('a'..).map(|(kind, ring)| format!("ring {ring} {kind}\n")).collect();
    format!(
        "{}repeat n\na[n] down g[n-1]\nb[n] down a[n]\nc[n] down b[n]\nd[n] down c[n]\ne[n] down d[n]\nf[n] down e[n]\ng[n] down f[n]\n",
        rings.concat()
    )
}

/// An element's colours and dashes: of the first arc of each ring its edge, wire, shine and mark.
#[derive(Debug)]
struct Seen {
    edge: [u8; 3],
    wire: [u8; 3],
    shine: Option<[u8; 3]>,
    mark: Option<([u8; 3], String)>,
}

fn rgb(hex: &str) -> [u8; 3] {
    [1, 3, 5].map(|at| u8::from_str_radix(&hex[at..at + 2], 16).unwrap())
}

fn seen(svg: &str) -> Vec<Seen> {
    let mut told = BTreeSet::new();
    let mut all = Vec::new();
    for part in svg.split("data-ring=\"").skip(1) {
        if !told.insert(part.split('"').next().unwrap().to_owned()) {
            continue;
        }
        let arc = part.split("</g>").next().unwrap();
        let of = |class: &str| arc.lines().find(|l| l.contains(&format!("class=\"{class}\"")));
        let value = |line: &str, key: &str| {
            line.split(&format!(" {key}=\"")).nth(1).map(|l| l.split('"').next().unwrap().to_owned())
        };
        let ink = |class: &str| of(class).map(|l| rgb(&value(l, "stroke").unwrap()));
        let mark =
            of("mark").map(|l| (rgb(&value(l, "stroke").unwrap()), value(l, "stroke-dasharray").unwrap_or_default()));
        all.push(Seen { edge: ink("edge").unwrap(), wire: ink("wire").unwrap(), shine: ink("shine"), mark });
    }
    all
}

fn linear(c: u8) -> f64 {
    let c = f64::from(c) / 255.0;
    if c <= 0.040_45 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
}

/// Contrast by WCAG 2.2: (L₁ + 0.05) / (L₂ + 0.05).
fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let luminance = |rgb: [u8; 3]| {
        let [r, g, b] = rgb.map(linear);
        0.2126 * r + 0.7152 * g + 0.0722 * b
    };
    let (one, other) = (luminance(one) + 0.05, luminance(other) + 0.05);
    (one / other).max(other / one)
}

/// Known pairs, from the definition: black on white is 21 to 1; #767676 on white 4.54, #949494 on white 3.03.
#[test]
fn contrast_is_that_of_wcag() {
    assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
    assert!((contrast([0x76; 3], [255; 3]) - 4.54).abs() < 0.005);
    assert!((contrast([0x94; 3], [255; 3]) - 3.03).abs() < 0.005);
}

/// Graphics want 3 to 1 (WCAG 2.2, 1.4.11): outlines against paper and against their own fill, marks against what they lie on.
#[test]
fn outlines_and_marks_have_contrast() {
    let text = seven();
    let weave = kept(&text);
    let settled = weave.settled().unwrap();
    let svg = picture(weave, settled, Repeats([1, 1]), &Options::default()).unwrap();
    assert_eq!(seen(&svg).len(), 7);
    for ring in seen(&svg) {
        assert!(contrast(ring.edge, [255; 3]) >= 3.0 && contrast(ring.edge, ring.wire) >= 3.0, "{ring:?}");
        if let Some((ink, _)) = ring.mark {
            assert!(contrast(ink, ring.shine.unwrap()) >= 3.0);
        }
    }
    let frames = Frames::of(weave, settled, Repeats([2, 1]), &Options::default()).unwrap();
    for number in 0..frames.order().steps.len() {
        for ring in seen(&frames.frame(number, number + 1).unwrap()) {
            assert!(contrast(ring.edge, [255; 3]) >= 3.0, "{ring:?}");
            if let Some((ink, _)) = &ring.mark {
                assert!(contrast(*ink, ring.shine.unwrap_or(ring.wire)) >= 3.0, "{ring:?}");
            }
            // The ring that is added is darker than all that is calm, in grey as well.
            let strong = ring.wire == rgb("#d55e00");
            assert_eq!(
                contrast(ring.wire, [255; 3]) > 3.0,
                strong || ring.shine.is_some() && contrast(ring.wire, [255; 3]) > 3.0
            );
        }
    }
}

/// Protanopia, deuteranopia and tritanopia, on linear RGB: Machado, Oliveira, Fernandes, "A physiologically-based model for
/// simulation of color vision deficiency", IEEE Trans. Vis. Comput. Graph. 15 (2009), severity 1.0; from memory. Each row
/// adds up to 1, so that grey stays grey.
const VISIONS: [[[f64; 3]; 3]; 4] = [
    [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
    [[0.152_286, 1.052_583, -0.204_868], [0.114_503, 0.786_281, 0.099_216], [-0.003_882, -0.048_116, 1.051_998]],
    [[0.367_322, 0.860_646, -0.227_968], [0.280_085, 0.672_501, 0.047_413], [-0.011_820, 0.042_940, 0.968_881]],
    [[1.255_528, -0.076_749, -0.178_779], [-0.078_411, 0.930_809, 0.147_602], [0.004_733, 0.691_367, 0.303_900]],
];

/// CIE L*a*b* for D65, from linear sRGB (IEC 61966-2-1; ISO/CIE 11664-4).
fn lab([r, g, b]: [f64; 3]) -> [f64; 3] {
    let x = 0.4124 * r + 0.3576 * g + 0.1805 * b;
    let y = 0.2126 * r + 0.7152 * g + 0.0722 * b;
    let z = 0.0193 * r + 0.1192 * g + 0.9505 * b;
    let f = |t: f64| if t > 216.0 / 24389.0 { t.cbrt() } else { (24389.0 / 27.0 * t + 16.0) / 116.0 };
    let (fx, fy, fz) = (f(x / 0.9505), f(y), f(z / 1.089));
    [116.0 * fy - 16.0, 500.0 * (fx - fy), 200.0 * (fy - fz)]
}

/// Any two kinds have other marks, and fills at least three times the least difference the eye sees (ΔE*ab 2.3, Mahy and
/// others, Color Res. Appl. 19, 1994) apart in every kind of colour vision.
#[test]
fn kinds_are_told_apart_by_everyone() {
    for rows in VISIONS {
        for row in rows {
            assert!((row.iter().sum::<f64>() - 1.0).abs() < 2e-3, "{row:?}");
        }
    }
    let text = seven();
    let weave = kept(&text);
    let rings = seen(&picture(weave, weave.settled().unwrap(), Repeats([1, 1]), &Options::default()).unwrap());
    for (number, one) in rings.iter().enumerate() {
        for other in &rings[number + 1..] {
            assert_ne!(one.mark.as_ref().map(|m| &m.1), other.mark.as_ref().map(|m| &m.1));
            for vision in VISIONS {
                let as_seen = |rgb: [u8; 3]| {
                    let c = rgb.map(linear);
                    lab(vision.map(|row| row.iter().zip(c).map(|(m, c)| m * c).sum::<f64>().clamp(0.0, 1.0)))
                };
                let (a, b) = (as_seen(one.wire), as_seen(other.wire));
                let apart = a.iter().zip(b).map(|(a, b)| (a - b).powi(2)).sum::<f64>().sqrt();
                assert!(apart > 3.0 * 2.3, "{one:?} {other:?} {vision:?}: {apart}");
            }
        }
    }
}
