//! Every example, all the way: adding a file to `examples/` adds it here.

mod library;
mod settled;

use crate::common::{compile, examples, kept};
use byrnie::count::Class;
use byrnie::notation::tidy;
use byrnie::text::{Layout, short_name};
use byrnie::weave::graph_json;
use byrnie::{draw, lint, report};

#[test]
fn every_example_holds() {
    assert!(examples().len() >= 40);
    for (name, text) in examples() {
        let weave = kept(text);
        assert_eq!(short_name(weave.name()), name, "a file is named after its weave");
        let findings = lint::check(weave);
        assert!(findings.is_empty(), "{name}:\n{}", report::plain(weave.sources(), &findings));
        assert_eq!(tidy(&weave.files()[0].tree), text, "{name} is tidy");
        let counts = Class::of(weave).unwrap().table(Layout::Plain);
        let graph = graph_json(weave, None);
        insta::assert_snapshot!(
            format!("example_{name}"),
            format!("{text}\n--- count\n{counts}\n--- one repeat\n{graph}")
        );
        assert!(draw::chart(weave).contains(&format!(">Chart of {}</title>", weave.name())), "{name}");
    }
}

#[test]
fn no_two_examples_are_the_same_weave_but_a_piece_and_its_base() {
    let mut seen: Vec<(String, &str)> = Vec::new();
    for (name, text) in examples() {
        let weave = kept(text);
        let print = weave.fingerprint().unwrap().weave;
        let base = weave.sources().get(1).map(|base| compile(base.text()).fingerprint().unwrap().weave);
        if base.as_ref() != Some(&print) {
            let twin = seen.iter().find(|(p, _)| *p == print);
            assert!(twin.is_none(), "{name} and {}", twin.unwrap().1);
            seen.push((print, name));
        }
    }
}
