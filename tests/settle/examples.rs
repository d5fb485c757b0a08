//! Every example settles, and its figures are on record.

use super::settled;
use crate::common::examples;
use byrnie::settle::{has_links, scale};

#[test]
fn every_example_settles() {
    for (name, text) in examples() {
        let (weave, s) = settled(text);
        for floor in &s.floors {
            assert!(floor.found >= floor.proved - 1e-6, "{name}: {floor:?}");
        }
        let poses = [(&s.at_floor.view.pose, s.at_floor.scale), (&s.view.pose, s.wire)];
        for (pose, wire) in poses {
            assert!(has_links(&s.problem, pose), "{name}");
            let held = scale(&s.problem, pose);
            assert!(held >= wire * (1.0 - 1e-8), "{name}: {held} {wire}");
        }
        if let (Some(taut), Some(pushed)) = (&s.taut, &s.pushed) {
            assert!(taut.iter().sum::<f64>() >= pushed.iter().sum::<f64>(), "{name}");
        }
        assert!(s.broken.is_empty() && s.view.no_eyes.is_empty(), "{name}");
        assert!(s.poses[s.chosen].allowed, "{name}");
        insta::assert_snapshot!(format!("settle_{name}"), s.table(weave.name(), weave.pattern()));
    }
}
