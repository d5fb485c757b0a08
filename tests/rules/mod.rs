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
    let faults: Vec<String> = RULES.iter().filter_map(|rule| page_fault(rule.name, rule.page)).collect();
    assert!(faults.is_empty(), "{}", faults.join("\n\n"));
}

/// What is wrong with a rule's page, if anything; takes the snapshot of its `wrong` fence.
fn page_fault(name: &str, page: &str) -> Option<String> {
    for heading in ["## What it checks", "## Why it matters at the bench", "## Wrong", "## Right", "## How to fix"] {
        if page.matches(heading).count() != 1 {
            return Some(format!("{name}: heading `{heading}`"));
        }
    }
    assert!(page.starts_with(&format!("# {name}\n")), "{name}: title");
    for info in ["weave right", "weave fixed"] {
        let weave = compile(fence(page, info));
        let findings = lint::check(&weave);
        if !findings.is_empty() {
            return Some(format!("{name}: `{info}`:\n{}", report::plain(&weave.sources, &findings)));
        }
    }
    let wrong = fence(page, "weave wrong");
    let weave = compile(wrong);
    let findings = lint::check(&weave);
    let shown = report::plain(&weave.sources, &findings);
    if findings.is_empty() || findings.iter().any(|f| f.rule != name) {
        return Some(format!("{name}: `wrong` should find this rule and nothing else:\n{shown}"));
    }
    let mut fixed = wrong.to_owned();
    for fix in findings.iter().rev().filter_map(|f| f.fix.as_ref()) {
        fixed = fix.apply(0, &fixed);
    }
    if fixed != wrong && fixed != fence(page, "weave fixed") {
        return Some(format!("{name}: the offered change makes\n{fixed}"));
    }
    insta::assert_snapshot!(format!("rule_{name}"), format!("{wrong}\n---\n{shown}"));
    None
}
