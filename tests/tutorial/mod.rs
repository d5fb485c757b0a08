//! Tutorials: what is found in a Markdown text about a weave.

mod figures;
mod prose;
mod several;

use crate::common::{examples, kept};
use byrnie::report;
use byrnie::text::Source;
use byrnie::tutorial::{Tutorial, WeaveIn, only, weave_in};

/// The rules that find something in a text about a built-in weave, in order, and the findings as plain lines.
pub fn found_in(weave: &str, text: &str) -> (Vec<&'static str>, String) {
    let weave = kept(examples().into_iter().find(|(n, _)| *n == weave).unwrap().1);
    let found = Tutorial::of(Source::new("tutorial.md", text), weave);
    (found.findings.iter().map(|f| f.rule).collect(), report::plain(&found.sources, &found.findings))
}

/// All that is found in a tutorial with its weave in a fence, or with the name of a built-in one for its heading.
fn whole(text: &str) -> (Tutorial, String) {
    let weave = match weave_in(text) {
        Some(WeaveIn::Fence(lines)) => {
            byrnie::Weave::compile(Source::new("tutorial.md", only(text, &lines)), &byrnie::Library)
        }
        Some(WeaveIn::BuiltIn(name)) => kept(examples().into_iter().find(|(n, _)| *n == name).unwrap().1).clone(),
        other => panic!("{other:?}"),
    };
    let found = Tutorial::of(Source::new("tutorial.md", text), &weave);
    let shown = report::plain(&found.sources, &found.findings);
    (found, shown)
}

/// Two tutorials as teachers write them: one names its rings by letters, one only by what they are. Nothing is found.
#[test]
fn tutorials_without_mistakes() {
    for (text, sentences, unread) in [
        (
            include_str!("../../examples/saturday-bracelet.md"),
            19,
            &["It lies in front of you now.", "That is how it should be!"][..],
        ),
        (
            include_str!("../../examples/first-chain.md"),
            12,
            &[
                "Hold each with both pliers and twist; never pull it wide.",
                "Give it a little tug.",
                "Hang the clasp into the last ring.",
            ],
        ),
    ] {
        let (found, shown) = whole(text);
        assert_eq!(shown, "");
        let own: Vec<&str> = found.checked.unread.iter().map(|s| &text[s.range()]).collect();
        assert_eq!(own, unread);
        assert_eq!(found.checked.sentences, sentences);
    }
}

/// A tutorial in free words with its mistakes, of as many sorts: every one is found where it is, and nothing else.
#[test]
fn a_tutorial_with_mistakes_of_all_sorts() {
    let (found, shown) = whole(include_str!("mistakes.md"));
    insta::assert_snapshot!(shown);
    assert_eq!(found.checked.unread, []);
    assert_eq!(found.findings.len(), 18);
}

/// A weave that gives no sizes is settled with those of the list, and what follows stands at the line it follows from.
#[test]
fn sizes_the_text_alone_gives() {
    let text = |main: &str, accent: &str| {
        format!(
            "# Drops\n\n```weave\nweave \"Harbour drops\"\nbase \"half Persian 3-in-1\"\n\nring c accent, open\n\naccent every 3, from 2\n  c[n] around eye(a[n], a[n+1])\n```\n\n- 12 rings a, closed, {main}\n- 12 rings b, open, {main}\n- 4 rings c, open, {accent}\n"
        )
    };
    let main = "wire 1.6 mm, inner diameter 7 mm";
    assert_eq!(whole(&text(main, "wire 1.6 mm, inner diameter 6 mm")).1, "");
    let (found, shown) = whole(&text(main, "wire 1.2 mm, inner diameter 8 mm"));
    let [finding] = found.findings.as_slice() else { panic!("{shown}") };
    assert_eq!((finding.rule, shown.lines().next().map(|l| &l[..15])), ("sits-askew", Some("tutorial.md:15:")));
    let (found, shown) = whole(&text("wire 1.6 mm, inner diameter 5.5 mm", "wire 1.6 mm, inner diameter 6 mm"));
    assert!(found.findings.iter().any(|f| f.rule == "rings-too-small"), "{shown}");
}

/// Where neither weave nor steps say how large the piece is, a length is compared with the number of rings beside it: 60 rings are
/// 30 repeats, which at the computed 5.77 mm make 173 mm.
#[test]
fn a_length_beside_a_number_of_rings() {
    let text = |says: &str| {
        format!(
            "# Band\n\n```weave\nweave \"Harbour band\"\nbase \"half Persian 3-in-1\"\n\nrings\n  main  wire 1.6 mm, inner 7 mm\n```\n\n{says}\n"
        )
    };
    assert_eq!(whole(&text("A bracelet 173 mm long has 60 rings.")).1, "");
    assert_eq!(whole(&text("A bracelet about 180 mm long has 60 rings.")).1, "");
    let (found, shown) = whole(&text("A bracelet 230 mm long has 60 rings."));
    assert!(
        found.findings.len() == 1 && shown.contains("warning[claim-length]: the text says 60 rings make 230 mm"),
        "{shown}"
    );
}

#[test]
fn the_weave_of_a_tutorial() {
    let file = Some(WeaveIn::File("tide.weave".to_owned()));
    assert_eq!(weave_in("# x\n\nMade from [the weave](tide.weave)."), file);
    assert_eq!(weave_in("# box chain\n\nFrom `tide.weave`:"), file);
    assert_eq!(weave_in("# Box chain\n\n1. Close a1."), Some(WeaveIn::BuiltIn("box-chain".to_owned())));
    assert_eq!(weave_in("# Something else\n\n```text\nweave\n```\n"), None);
    assert!(
        matches!(weave_in("# box chain\n\n```weave\nring a\n\nring b\n```\n"), Some(WeaveIn::Fence(lines)) if lines == (22..37))
    );
}
