//! Tidy writes one text for one weave, keeps what it means and every comment, and is its own fixed point.

use crate::common::{compile, examples, page_fences};
use byrnie::notation::{read, tidy};
use byrnie::weave::graph_json;

fn tidied(text: &str) -> String {
    let (tree, faults) = read(0, text);
    assert!(faults.is_empty(), "{faults:?}\n{text}");
    tidy(&tree)
}

#[test]
fn the_examples_are_tidy() {
    for (name, text) in examples() {
        assert_eq!(tidied(text), text, "{name}");
    }
}

#[test]
fn tidying_keeps_the_graph_and_is_idempotent() {
    for text in page_fences() {
        if !read(0, &text).1.is_empty() {
            continue;
        }
        let once = tidied(&text);
        assert_eq!(tidied(&once), once);
        assert_eq!(graph_json(&compile(&text), None), graph_json(&compile(&once), None), "{once}");
    }
}

const UNTIDY: &str = "\u{FEFF}# Larkspur Lane Workshop\r
# the harbour band\r
\r
Claim 3 IN 1 for a , b   # checked\r
make\r
# for the class\r
  REPEATS 38 , pieces 2\r
lean   left\r
rings\r
 main wire 1.6mm,inner 9.5   mm , copper,  MEASURED  inner 9.71mm\r
  accent\tmeasured Wire 1.2 mm, wire 18 Ga(1.22 mm), inner  1  1/4 inches, fine   silver, \u{201C}dusk violet\u{201D}\r
Rings  \u{201C}fine\u{201D}  # thinner\r
main   wire 1.2 mm\r
claim 30 rings IN \u{201C}Table 1\u{201D}\r
 accent   AR 4\r
repeat n # the row\r
  lay a[n] in front of a[n - 1]\r
\r
\r
  # one eye farther each time\r
b[ n ] through  eye( a[n],a[n+1] ) , around eye(a[n-1],a[n]),far side\r
ring a\r
ring b   open\r
make\r
  \u{201C}Table 1\u{201D} , Pieces 3, RINGS \"fine\" # by the window\r
\"2\"\r
  length 190 mm, clasp 18 mm\r
Claim 90 closed rings in ALL\r
colors\r
  b : teal, \"sea  green\", teal\r
GAUGES   SWG # as on the reel\r
spiral\r
weave \u{201E}Harbour band\u{201C}\r
ends\r
 drop b[ last-1 ] , b[last]\r
# the end\r
";

#[test]
fn an_untidy_text_becomes_the_tidy_one() {
    let once = tidied(UNTIDY);
    insta::assert_snapshot!("untidy", once);
    assert_eq!(tidied(&once), once);
    assert_eq!(graph_json(&compile(UNTIDY), None), graph_json(&compile(&once), None));
    for comment in UNTIDY.lines().filter_map(|l| l.split_once('#')).map(|(_, c)| c.trim()) {
        assert_eq!(once.matches(comment).count(), 1, "{comment}");
    }
}

#[test]
fn headings_said_twice_become_one_and_missing_ones_are_written() {
    assert_eq!(
        tidied("ring a\nmain wire 1 mm\nrings\nother wire 2 mm # x\nrings # y\nlength 100 mm\na: teal\ndrop a[1]"),
        "ring a main, open\n\nends\n  drop a[1]\n\nrings\n  # y\n  main   wire 1 mm\n  other  wire 2 mm  # x\n\ncolours\n  a: teal\n\nmake\n  length 100 mm\n"
    );
}
