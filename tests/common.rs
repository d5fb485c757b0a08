//! What several tests need.

use byrnie::count::Counts;
use byrnie::report::{Diagnostic, LintJson};
use byrnie::text::{Source, Sources};
use byrnie::{Library, Weave, lint, report};
use rayon::prelude::*;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;
use std::sync::{Mutex, OnceLock};

/// A weave from a text called `test.weave`, whose pose it shares with every other weave of this run from the same text.
pub fn compile(text: &str) -> Weave {
    kept(text).clone()
}

/// A weave from a text that no other test has: nothing of it is kept.
pub fn compile_alone(text: &str) -> Weave {
    Weave::compile(Source::new("test.weave", text), &Library)
}

/// A weave from a text, compiled once and so settled once, however many tests ask.
pub fn kept(text: &str) -> &'static Weave {
    type Slot = &'static OnceLock<Weave>;
    static ALL: Mutex<BTreeMap<String, Slot>> = Mutex::new(BTreeMap::new());
    let slot: Slot = ALL.lock().unwrap().entry(text.to_owned()).or_insert_with(|| Box::leak(Box::default()));
    slot.get_or_init(|| compile_alone(text))
}

/// Whether every case of the long tests is tried, as `.ci/run` does, and not a sample of them.
pub fn every_case() -> bool {
    std::env::var_os("BYRNIE_EVERY_CASE").is_some()
}

/// Settles all examples side by side, where two tests that want all of them one after the other would wait for each other.
pub fn settle_examples() {
    static DONE: OnceLock<()> = OnceLock::new();
    DONE.get_or_init(|| {
        examples().par_iter().for_each(|(_, text)| {
            let _ = kept(text).settled();
        });
    });
}

/// Everything found in a text, as plain lines.
pub fn findings(text: &str) -> String {
    let weave = compile(text);
    report::plain(weave.sources(), &lint::check(&weave))
}

/// Findings as `byrnie lint --format json` prints them.
pub fn lint_json(sources: &Sources, findings: &[Diagnostic]) -> LintJson {
    let mut json = LintJson::default();
    json.add(sources, findings, &[]);
    json
}

/// Every example: short name and text.
pub fn examples() -> Vec<(&'static str, &'static str)> {
    Library::weaves()
}

/// One of the built-in weaves.
pub fn example(name: &str) -> &'static str {
    examples().into_iter().find(|(n, _)| *n == name).unwrap().1
}

/// A file of the examples that is not a weave.
pub fn example_file(name: &str) -> String {
    std::fs::read_to_string(std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("examples").join(name)).unwrap()
}

/// The rings of one piece of a text.
pub fn counts(text: &str) -> Counts {
    let weave = compile(text);
    let piece = weave.piece(weave.size()).unwrap();
    Counts::of(&weave, &piece)
}

/// The texts of every fence of every rule's page, right and wrong.
pub fn page_fences() -> Vec<String> {
    let pages = lint::RULES.iter().map(|r| r.page);
    pages
        .flat_map(|page| page.split("```").skip(1).step_by(2))
        .map(|f| f.split_once('\n').unwrap().1.to_owned())
        .collect()
}

/// What checks JSON against the schema of a type.
pub fn validator<T: JsonSchema>() -> jsonschema::Validator {
    jsonschema::validator_for(&byrnie::text::schema::<T>()).unwrap()
}

/// Something as it is printed in JSON, read again, and found to keep to the schema of its type.
pub fn valid_json<T: JsonSchema + Serialize>(printed: &T) -> Value {
    let value = serde_json::to_value(printed).unwrap();
    let validator = validator::<T>();
    let faults: Vec<String> = validator.iter_errors(&value).map(|e| format!("{}: {e}", e.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:?}\n{value:#}");
    value
}

/// Checks that a schema can fail: on a key that is misspelled or missing, and on a word in the place of what is at `pointer`.
pub fn schema_can_fail<T: JsonSchema + Serialize>(printed: &T, pointer: &str) {
    let (validator, right) = (validator::<T>(), valid_json(printed));
    let (parent, key) = pointer.rsplit_once('/').unwrap();
    let wrong = |change: &dyn Fn(&mut serde_json::Map<String, Value>)| {
        let mut value = right.clone();
        change(value.pointer_mut(parent).unwrap().as_object_mut().unwrap());
        assert!(!validator.is_valid(&value), "{pointer}");
    };
    wrong(&|object| object[key] = "grave".into());
    wrong(&|object| {
        object.shift_remove(key);
    });
    wrong(&|object| {
        object.insert(format!("{key}s"), Value::Null);
    });
}
