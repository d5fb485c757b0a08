//! Every rule's page is its test: the `wrong` fence must be found, the `right` and `fixed` ones must be
//! clean, and where the rule offers a change, that change must make the `fixed` text.

use byrnie::lint::{self, RULES};
use byrnie::text::Source;
use byrnie::{Library, Weave, report};

/// The text in the fence with this info string.
fn fence<'p>(page: &'p str, info: &str) -> &'p str {
    let open = format!("```{info}\n");
    let start = page.find(&open).unwrap_or_else(|| panic!("no fence `{info}`")) + open.len();
    let end = page[start..].find("```").expect("the fence is closed");
    &page[start..start + end]
}

fn compile(text: &str) -> Weave {
    Weave::compile(Source::new("page.weave", text), &Library)
}

#[test]
fn every_page_holds() {
    for rule in RULES {
        let name = rule.name;
        for heading in
            ["## What it checks", "## Why it matters at the bench", "## Wrong", "## Right", "## How to fix"]
        {
            assert_eq!(rule.page.matches(heading).count(), 1, "{name}: heading `{heading}`");
        }
        assert!(rule.page.starts_with(&format!("# {name}\n")), "{name}: title");
        for info in ["weave right", "weave fixed"] {
            let weave = compile(fence(rule.page, info));
            let findings = lint::check(&weave);
            assert!(findings.is_empty(), "{name}: `{info}`:\n{}", report::plain(&weave.sources, &findings));
        }
        let wrong = fence(rule.page, "weave wrong");
        let weave = compile(wrong);
        let findings = lint::check(&weave);
        let shown = report::plain(&weave.sources, &findings);
        assert!(!findings.is_empty(), "{name}: nothing found");
        assert!(findings.iter().all(|f| f.rule == name), "{name}: `wrong` finds something else too:\n{shown}");
        let mut fixed = wrong.to_owned();
        for fix in findings.iter().rev().filter_map(|f| f.fix.as_ref()) {
            fixed = fix.apply(0, &fixed);
        }
        if fixed != wrong {
            assert_eq!(fixed, fence(rule.page, "weave fixed"), "{name}: the offered change");
        }
        insta::assert_snapshot!(format!("rule_{name}"), format!("{wrong}\n---\n{shown}"));
    }
}
