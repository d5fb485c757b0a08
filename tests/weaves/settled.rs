//! What `byrnie settle --json` prints keeps to its schema.

use crate::common::{compile, examples, kept};
use byrnie::settle::SETTLE_SCHEMA;

#[test]
fn the_printed_pose_keeps_to_its_schema() {
    let schema: serde_json::Value = serde_json::from_str(SETTLE_SCHEMA).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    // With sizes that fit, that do not, and aspect ratios alone.
    let base = "weave \"Harbour band\"\nbase \"half Persian 3-in-1\"\nrings\n  main";
    let more = ["wire 1.6 mm, inner 7 mm", "wire 1.6 mm, inner 5.6 mm", "AR 5"].map(|size| format!("{base} {size}\n"));
    for text in examples().iter().map(|(_, text)| *text).chain(more.iter().map(String::as_str)) {
        let weave = kept(text);
        let value = weave.settled().unwrap().json(weave.name(), weave.pattern());
        let faults: Vec<String> =
            validator.iter_errors(&value).map(|e| format!("{}: {e}", e.instance_path())).collect();
        assert!(faults.is_empty(), "{text}\n{faults:?}");
    }
    let weave = compile(&more[0]);
    let mut wrong = weave.settled().unwrap().json(weave.name(), weave.pattern());
    wrong["pose"]["links"][0]["sign"] = 2.into();
    assert!(!validator.is_valid(&wrong), "the schema can fail");
}
