//! What is called out: eyes, lean, aspect ratios, an eye enlarged; and hidden outlines, dashed.

use super::size;
use crate::common::{examples, kept};
use byrnie::draw::picture::{CallOut, Look, NotDrawn, Options, Scale, Viewpoint, picture};
use byrnie::pattern::Repeats;

const ALL: CallOut = CallOut { eye: true, lean: true, aspect_ratio: true, enlarged: true };

fn example(name: &str) -> &'static str {
    examples().into_iter().find(|(n, _)| *n == name).unwrap().1
}

fn called(name: &str, call_out: CallOut) -> Result<String, NotDrawn> {
    let weave = kept(example(name));
    let options = Options { call_out, scale: Scale::Fit(160.0, 100.0), ..Options::default() };
    picture(weave, weave.settled().unwrap(), size(example(name)), &options)
}

fn labels(svg: &str) -> Vec<String> {
    let document = roxmltree::Document::parse(svg).unwrap();
    let texts = document.descendants().filter(|n| n.tag_name().name() == "text");
    texts.map(|n| n.text().unwrap().to_owned()).collect()
}

#[test]
fn an_eye_its_lean_and_aspect_ratios_are_called_out() {
    let words = |name| labels(&called(name, ALL).unwrap()).join(" | ");
    insta::assert_snapshot!(
        [
            words("half-persian-3-in-1"),
            words("half-persian-3-in-1-leaning-right"),
            words("half-persian-4-in-1"),
            words("tideline-bracelet"),
        ]
        .join("\n")
    );
    let sheet = CallOut { lean: false, ..ALL };
    insta::assert_snapshot!(labels(&called("european-4-in-1-sheet", sheet).unwrap()).join(" | "));
}

/// The lean called out is the lean that was settled, and as many degrees.
#[test]
fn the_lean_called_out_is_the_one_settled() {
    for (name, text) in examples() {
        let settled = kept(text).settled().unwrap();
        let drawn = called(name, CallOut { lean: true, ..CallOut::default() });
        match settled.lean {
            Some(lean) => {
                let words = labels(&drawn.unwrap()).join(" ");
                let way = format!("{lean:?}").to_lowercase();
                assert!(words.contains(&format!("leans {way}, ")), "{name}: {words}");
                let degrees: f64 = words.split(", ").nth(1).unwrap().trim_end_matches('°').parse().unwrap();
                let tips = settled.view.tips.iter().map(|t| t.abs());
                let near = tips.map(|t| (t - degrees).abs()).fold(f64::INFINITY, f64::min);
                assert!(near < 1.0, "{name}: {degrees} of {:?}", settled.view.tips);
            }
            None => assert!(matches!(drawn, Err(NotDrawn::NoLean | NotDrawn::NoEye)), "{name}"),
        }
    }
}

#[test]
fn what_is_not_there_is_not_called_out() {
    assert!(matches!(called("simple-chain", CallOut { eye: true, ..CallOut::default() }), Err(NotDrawn::NoEye)));
    let weave = kept(example("half-persian-3-in-1"));
    let options = Options { call_out: ALL, from: Viewpoint::BACK, ..Options::default() };
    assert!(matches!(picture(weave, weave.settled().unwrap(), Repeats([4, 1]), &options), Err(NotDrawn::NoLean)));
    let options = Options { call_out: ALL, scale: Scale::Fit(30.0, 30.0), ..Options::default() };
    assert!(matches!(picture(weave, weave.settled().unwrap(), Repeats([4, 1]), &options), Err(NotDrawn::NoRoom)));
}

/// Every picture keeps to the page it is asked to fit, words and all, and no word leaves the page.
#[test]
fn words_stay_on_the_page() {
    for (name, text) in examples() {
        let weave = kept(text);
        let eyes = weave.pattern().passes.iter().flat_map(|p| &p.meets).any(|m| m.eye);
        let lean = weave.settled().unwrap().lean.is_some();
        let call_out = CallOut { eye: eyes, lean, aspect_ratio: true, enlarged: eyes };
        let Ok(svg) = called(name, call_out) else { panic!("{name}") };
        let document = roxmltree::Document::parse(&svg).unwrap();
        let number = |n: &roxmltree::Node<'_, '_>, of: &str| {
            n.attribute(of).unwrap().trim_end_matches("mm").parse::<f64>().unwrap()
        };
        let root = document.root_element();
        let (wide, tall) = (number(&root, "width"), number(&root, "height"));
        assert!(wide <= 160.01 && tall <= 100.01, "{name}: {wide} × {tall}");
        for rect in
            document.descendants().filter(|n| n.attribute("class") == Some("label") && n.tag_name().name() == "rect")
        {
            let [x, y, w, h] = ["x", "y", "width", "height"].map(|of| number(&rect, of));
            assert!(
                x >= -0.01 && y >= -0.01 && x + w <= wide + 0.01 && y + h <= tall + 0.01,
                "{name}: {x} {y} {w} {h}"
            );
        }
    }
}

/// Hidden outlines are there, dashed, and only where something is over them; nothing else changes against bare outlines.
#[test]
fn hidden_outlines_are_dashed() {
    for (name, text) in examples() {
        let weave = kept(text);
        let of = |look| {
            picture(weave, weave.settled().unwrap(), size(text), &Options { look, ..Options::default() }).unwrap()
        };
        let (bare, dashed) = (of(Look::Outline), of(Look::Dashed));
        let without: Vec<&str> = dashed.lines().filter(|l| !l.contains("class=\"hidden\"")).collect();
        assert_eq!(without, bare.lines().collect::<Vec<_>>(), "{name}");
        assert!(dashed.contains("stroke-dasharray"), "{name}");
        assert!(!bare.contains("class=\"hidden\""), "{name}");
    }
}
