//! Every rule's page is its test: the `wrong` fence must be found, the `right` and `fixed` ones must be
//! clean, and where the rule offers a change, that change must make the `fixed` text.

mod limits;

use crate::common::{examples, kept};
use byrnie::lint::RULES;
use byrnie::report::Diagnostic;
use byrnie::shelf::Shelf;
use byrnie::text::Source;
use byrnie::tutorial::{Tutorial, WeaveIn, weave_in};
use byrnie::{Library, Weave, lint, report};
use rayon::prelude::*;

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
fn the_table_is_in_the_order_of_the_alphabet() {
    let names: Vec<&str> = RULES.iter().map(|r| r.name).collect();
    assert!(names.is_sorted_by(|a, b| a < b), "{names:?}");
}

#[test]
fn every_page_holds() {
    // Each fence is settled, so the pages are shared out among all cores.
    let faults: Vec<String> = RULES.par_iter().filter_map(|rule| page_fault(rule.name, rule.page)).collect();
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
    if page.contains("```markdown wrong") {
        return told_fault(name, page);
    }
    let alike = fence(page, "weave right") == fence(page, "weave fixed");
    for info in ["weave right", "weave fixed"].into_iter().take(if alike { 1 } else { 2 }) {
        let weave = compile(fence(page, info));
        let findings = check(page, &weave);
        if !findings.is_empty() {
            return Some(format!("{name}: `{info}`:\n{}", report::plain(weave.sources(), &findings)));
        }
    }
    let wrong = fence(page, "weave wrong");
    let weave = compile(wrong);
    let findings = check(page, &weave);
    let shown = report::plain(weave.sources(), &findings);
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
    // What is mended unattended is mended for good.
    let mended = report::mended(wrong, &findings);
    if !mended.done.is_empty() && mended.text != fence(page, "weave fixed") {
        return Some(format!("{name}: the safe changes make\n{}", mended.text));
    }
    insta::assert_snapshot!(format!("rule_{name}"), format!("{wrong}\n---\n{shown}"));
    None
}

/// What is found in a fence; with the shelf of the page, where it has one.
fn check(page: &str, weave: &Weave) -> Vec<Diagnostic> {
    let mut findings = lint::check(weave);
    if page.contains("```csv shelf\n") {
        let shelf = Shelf::read(fence(page, "csv shelf").as_bytes()).unwrap();
        assert_eq!(shelf.faults, []);
        findings.extend(lint::check_shelf(weave, &shelf));
    }
    findings
}

/// The same of a rule on written instructions, which name a built-in weave as their heading.
fn told_fault(name: &str, page: &str) -> Option<String> {
    let check = |text: &str| {
        let Some(WeaveIn::BuiltIn(short)) = weave_in(text) else { panic!("{name}: which weave?") };
        let weave = kept(examples().into_iter().find(|(n, _)| *n == short).unwrap().1);
        let found = Tutorial::of(Source::new("page.md", text), weave);
        assert!(found.checked.unread.is_empty(), "{name}");
        (report::plain(&found.sources, &found.findings), found.findings)
    };
    for info in ["markdown right", "markdown fixed"] {
        let (shown, findings) = check(fence(page, info));
        if !findings.is_empty() {
            return Some(format!("{name}: `{info}`:\n{shown}"));
        }
    }
    let wrong = fence(page, "markdown wrong");
    let (shown, findings) = check(wrong);
    if findings.len() != 1 || findings[0].rule != name {
        return Some(format!("{name}: `wrong` should find this rule, once, and nothing else:\n{shown}"));
    }
    if let Some(fix) = &findings[0].fix {
        // Whether a step is wrong or its weave is for the writer to say.
        assert!(!fix.safe, "{name}");
        let fixed = fix.apply(0, wrong);
        if fixed != fence(page, "markdown fixed") {
            return Some(format!("{name}: the offered change makes\n{fixed}"));
        }
    }
    insta::assert_snapshot!(format!("rule_{name}"), format!("{wrong}\n---\n{shown}"));
    None
}

/// What is said of claims that are not checked; what is found besides.
fn unchecked(text: &str) -> (Vec<String>, Vec<&'static str>) {
    let weave = compile(text);
    let findings = lint::check(&weave);
    let why = lint::unchecked_claims(&weave, &findings);
    let why = why.into_iter().map(|(span, why)| format!("{}: {why}", weave.sources().words(span))).collect();
    (why, findings.iter().map(|f| f.rule).collect())
}

const CLAIMS: &str = "claim lean left\nclaim fits\nclaim straight\nclaim length 90 mm\nclaim pitch 6 mm\n";

#[test]
fn claims_that_cannot_be_checked_are_named_with_the_reason() {
    let chain = |rest: &str| unchecked(&format!("weave \"Harbour chain\"\nbase \"simple chain\"\n{rest}"));
    let sizes = "write in `rings` the wire and the inner diameter";
    let make = "write in `make` how many to make";
    let (why, found) = chain(&format!("claim 2 in 1\n{CLAIMS}claim 8 rings\nclaim weight 3 g\nclaim AR 5\n"));
    assert!(found.is_empty());
    assert_eq!(
        why,
        [
            "claim lean left: only the eyes of a straight chain have a lean".to_owned(),
            format!("claim fits: {sizes}"),
            format!("claim straight: {sizes}"),
            format!("claim length 90 mm: {sizes}"),
            format!("claim pitch 6 mm: {sizes}"),
            format!("claim 8 rings: {make}"),
            format!("claim weight 3 g: {make}"),
            format!("claim AR 5: {sizes}"),
        ]
    );
    // Sizes and a number of repeats, and all but the lean is checked: 29 rings of 3 mm, and the wire of the two at the ends.
    let (why, found) = chain(
        "rings\n  main wire 1 mm, inner 3 mm\nmake\n  repeats 15\nclaim fits\nclaim straight\nclaim length 89 mm\nclaim pitch 6 mm\n",
    );
    assert!(why.is_empty() && found.is_empty(), "{why:?} {found:?}");
    let (why, _) = chain("rings\n  main wire 1 mm, inner 3 mm\nclaim length 90 mm\n");
    assert_eq!(why, [format!("claim length 90 mm: {make}")]);
    let (why, found) = chain(
        "rings\n  main wire 1 mm, inner 5 mm\nmake\n  repeats 10\n  measured 10 repeats 100 mm\nclaim length 97 mm\nclaim pitch 10 mm\nclaim 19 rings\nclaim AR 5\nclaim weight 1 g\n",
    );
    assert!(found.is_empty(), "{found:?}");
    assert_eq!(why, ["claim weight 1 g: write in `rings` the wire, inner diameter and material of every kind"]);
    let (why, _) = chain("rings\n  main wire 1 mm, inner 5 mm, rubber\nclaim fits\n");
    assert_eq!(why, ["claim fits: some rings stretch; only rigid rings are settled"]);
}

#[test]
fn claims_wait_for_errors_and_for_a_hand() {
    // A faulty weave is not settled.
    let faulty = format!("weave \"x\"\nring a\nrepeat n\n  a[n] down b[n]\n{CLAIMS}");
    let (why, found) = unchecked(&faulty);
    assert!(found == ["unknown-ring"] && why.len() == 5, "{found:?} {why:?}");
    assert!(why.iter().all(|w| w.ends_with(": correct the errors first")), "{why:?}");
    // A claim that contradicts what is stated is an error, and the others are checked all the same.
    let base = "weave \"x\"\nbase \"half Persian 3-in-1\"\nrings\n  main wire 1 mm, inner 5 mm\n";
    let (why, found) = unchecked(&format!("{base}claim lean right\nclaim fits\n"));
    assert!(found == ["claim-lean"] && why.is_empty(), "{found:?} {why:?}");
    let open =
        "weave \"x\"\nring a, b\nrepeat n\n  lay a[n] behind a[n-1]\n  b[n] down a[n], a[n+1], up a[n-1], a[n-2]\n";
    let (why, _) = unchecked(&format!("{open}  b[n] through eye(a[n], a[n+1])\nclaim lean right\n"));
    assert!(why.len() == 1 && why[0].contains("allows both hands"), "{why:?}");
    let (why, found) = unchecked("weave \"x\"\nbase \"Japanese 4-in-1 sheet\"\nclaim straight\nclaim pitch 3 mm\n");
    assert!(found.is_empty(), "{found:?}");
    assert_eq!(
        why,
        [
            "claim straight: only a chain can be straight",
            "claim pitch 3 mm: only the pitch and length of chains are computed"
        ]
    );
    // No pose: nothing to check against.
    let none = "weave \"x\"\nring a\nrepeat n\n  a[n] down a[n-1], a[n-2]\nclaim lean left\n";
    let (why, found) = unchecked(none);
    assert_eq!(
        (why, found),
        (vec!["claim lean left: no pose of these rings was found in 288 starts".to_owned()], vec!["no-pose-found"])
    );
}
