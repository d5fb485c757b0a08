//! What `byrnie settle --json` prints keeps to its schema.

use crate::common::{compile, examples, kept, schema_can_fail, valid_json};

#[test]
fn the_printed_pose_keeps_to_its_schema() {
    // With sizes that fit, that do not, and aspect ratios alone.
    let base = "weave \"Harbour band\"\nbase \"half Persian 3-in-1\"\nrings\n  main";
    let more = ["wire 1.6 mm, inner 7 mm", "wire 1.6 mm, inner 5.6 mm", "AR 5"].map(|size| format!("{base} {size}\n"));
    for text in examples().iter().map(|(_, text)| *text).chain(more.iter().map(String::as_str)) {
        let weave = kept(text);
        valid_json(&weave.settled().unwrap().json(weave.name(), weave.pattern()));
    }
    let weave = compile(&more[0]);
    let printed = weave.settled().unwrap().json(weave.name(), weave.pattern());
    for pointer in ["/lattice", "/floor/proved", "/pose/links/0/sign", "/poses/0/lean"] {
        schema_can_fail(&printed, pointer);
    }
}
