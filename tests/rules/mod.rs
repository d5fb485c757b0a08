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

#[test]
fn claims_that_cannot_be_checked_are_named_with_the_reason() {
    let chain = "weave \"Harbour chain\"\nring a main, closed\nring b main, open\nrepeat n\n  b[n] down a[n], a[n+1]\nends\n  drop b[last]\n";
    let unchecked = |rest: &str| {
        let weave = compile(&format!("{chain}{rest}"));
        assert!(lint::check(&weave).is_empty(), "{rest}");
        let why = lint::unchecked_claims(&weave, &[]);
        why.into_iter().map(|(span, why)| format!("{}: {why}", weave.sources.words(span))).collect::<Vec<_>>()
    };
    let settled = "needs the settled piece";
    let make = "say in `make` how many to make";
    assert_eq!(
        unchecked(
            "claim 2 in 1\nclaim lean left\nclaim fits\nclaim straight\nclaim length 90 mm\nclaim 8 rings\nclaim weight 3 g\nclaim AR 5\n"
        ),
        [
            format!("claim lean left: {settled}"),
            format!("claim fits: {settled}"),
            format!("claim straight: {settled}"),
            format!("claim length 90 mm: {settled}"),
            format!("claim 8 rings: {make}"),
            format!("claim weight 3 g: {make}"),
            "claim AR 5: say in `rings` the wire and the inner diameter".to_owned(),
        ]
    );
    assert_eq!(
        unchecked(
            "rings\n  main wire 1 mm, inner 5 mm\nmake\n  repeats 10\n  measured 10 repeats 100 mm\nclaim length 100 mm\nclaim pitch 10 mm\nclaim 19 rings\nclaim AR 5\nclaim weight 1 g\n"
        ),
        ["claim weight 1 g: say in `rings` wire, inner diameter and material of every kind"]
    );
}
