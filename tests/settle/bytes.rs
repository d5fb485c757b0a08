//! The same text gives the same bytes: again and again, and in every build.

use super::{example, settled, settled_anew};
use crate::common::examples;
use byrnie::Weave;
use byrnie::settle::Settled;
use sha2::{Digest, Sha256};

fn digest((weave, settled): (&Weave, &Settled)) -> String {
    let bytes = serde_json::to_string_pretty(&settled.json(weave.name(), weave.pattern())).unwrap();
    Sha256::digest(bytes.as_bytes()).iter().take(8).map(|b| format!("{b:02x}")).collect()
}

/// One snapshot for debug and release: `cargo test --release settle::bytes` compares with the same.
#[test]
fn debug_and_release_settle_to_the_same_bytes() {
    let digests: Vec<String> =
        examples().iter().map(|(name, text)| format!("{} {name}", digest(settled(text)))).collect();
    insta::assert_snapshot!(digests.join("\n"));
}

#[test]
fn twenty_runs_settle_to_the_same_bytes() {
    for name in ["half-persian-3-in-1", "three-ring-spiral"] {
        let first = digest(settled(example(name)));
        for _ in 1..20 {
            let (weave, settled) = &settled_anew(example(name));
            assert_eq!(digest((weave, settled)), first, "{name}");
        }
    }
}
