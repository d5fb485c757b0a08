//! Any bytes through the whole pipeline: nothing may panic, hang or eat memory, and what can be tidied
//! keeps its graph.

#![no_main]

use byrnie::notation::{read, tidy};
use byrnie::weave::graph_json;
use byrnie::text::Source;
use byrnie::{Library, Weave, lint, report};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|bytes: &[u8]| {
    let Ok(source) = Source::from_bytes("fuzz.weave", bytes.to_vec()) else { return };
    let text = source.text().to_owned();
    let weave = Weave::compile(source, &Library);
    let findings = lint::check(&weave);
    report::LintJson::default().add(&weave.sources, &findings, &[]);
    let (tree, faults) = read(0, &text);
    if faults.is_empty() {
        let once = tidy(&tree);
        let again = Weave::compile(Source::new("fuzz.weave", once.clone()), &Library);
        assert!(again.reading.is_empty());
        assert_eq!(graph_json(&weave, None), graph_json(&again, None));
    }
});
