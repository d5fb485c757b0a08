//! Changes of text, as hostile as they come: none that cannot be made whole is made, and no other text is touched.

use byrnie::report::{Diagnostic, mended};
use byrnie::text::Span;
use proptest::prelude::*;

fn finding(edits: Vec<(Span, String)>, safe: bool) -> Diagnostic {
    let at = edits.first().map_or(Span::new(0, 0, 0), |(span, _)| *span);
    Diagnostic::error("misspelled-word", at, "x").fix_all("x", edits).safe(safe)
}

fn edit(from: usize, to: usize, with: &str) -> (Span, String) {
    (Span::new(0, from, to), with.to_owned())
}

#[test]
fn the_first_of_two_that_overlap_is_made() {
    let text = "one two three";
    let first = finding(vec![edit(4, 7, "2")], true);
    let over = finding(vec![edit(5, 9, "!"), edit(0, 1, "O")], true);
    let beside = finding(vec![edit(8, 13, "3")], true);
    // One that starts earlier comes first, whichever was found first, and is made whole or not at all.
    let done = mended(text, [&first, &over, &beside]);
    assert_eq!((done.text.as_str(), done.done), ("One t!hree", vec![over.clone()]));
    let done = mended(text, [&beside, &first]);
    assert_eq!((done.text.as_str(), done.done.len()), ("one 2 3", 2));
}

#[test]
fn what_cannot_be_made_whole_is_left_out() {
    let text = "häfen";
    let away = (Span::new(1, 0, 1), "H".to_owned());
    for edits in [
        vec![],
        // Another source; outside; inside of a letter; backwards; over itself; twice at one place.
        vec![edit(0, 1, "H"), away],
        vec![edit(0, 1, "H"), edit(5, 9, "")],
        vec![edit(2, 3, "")],
        vec![edit(3, 1, "")],
        vec![edit(0, 3, ""), edit(1, 4, "")],
        vec![edit(0, 0, "a"), edit(0, 0, "b")],
    ] {
        let done = mended(text, [&finding(edits, true)]);
        assert!(done.text == text && done.done.is_empty(), "{done:?}");
    }
    assert!(mended(text, [&finding(vec![edit(0, 1, "H")], false)]).done.is_empty(), "it is not safe");
    assert_eq!(mended(text, [&finding(vec![edit(6, 6, "!"), edit(0, 1, "")], true)]).text, "äfen!");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 500, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn no_text_is_lost(
        text in "[a-zäß🔗 \r\n]{0,30}",
        fixes in proptest::collection::vec((proptest::collection::vec((0_u16..8, 0_usize..40, 0_usize..6, "[A-Z]{0,3}"), 0..4), 0_u8..4), 0..8),
    ) {
        let findings: Vec<Diagnostic> = fixes.into_iter().map(|(edits, safe)| {
            let edits = edits.into_iter().map(|(source, from, long, with)| (Span::new(source / 7, from, from + long), with));
            finding(edits.collect(), safe > 0)
        }).collect();
        let done = mended(&text, &findings);
        let mut edits: Vec<(Span, String)> = Vec::new();
        for finding in &done.done {
            let fix = finding.fix.as_ref().unwrap();
            prop_assert!(fix.safe && !fix.edits.is_empty());
            edits.extend(fix.edits.iter().cloned());
        }
        edits.sort_by_key(|(span, _)| *span);
        // Every letter is deleted by one change or stands where it stood.
        let mut left = String::new();
        let mut from = 0;
        for (span, with) in &edits {
            prop_assert!(span.source == 0 && span.range().start >= from, "{edits:?}");
            left += &text[from..span.range().start];
            left += with;
            from = span.range().end;
        }
        left += &text[from..];
        prop_assert_eq!(&left, &done.text);
        // The first that can be made is made.
        let can = |f: &&Diagnostic| mended(&text, [*f]).done.len() == 1;
        prop_assert_eq!(findings.iter().any(|f| can(&f)), !done.done.is_empty());
    }
}
