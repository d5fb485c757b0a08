//! Tutorials as teachers write them.

use crate::common::{examples, kept};
use byrnie::notation::Hand;
use byrnie::report;
use byrnie::steps::{Claim, Letters, check, follow, read};
use byrnie::text::{Source, Sources};
use byrnie::tutorial::{WeaveIn, only, weave_in};

/// What is found in a tutorial on a built-in weave, as plain lines.
fn found(text: &str, weave: &str) -> (String, usize) {
    let weave = kept(examples().into_iter().find(|(n, _)| *n == weave).unwrap().1);
    let checked = check(weave, weave.settled().ok(), text);
    let mut sources = Sources::default();
    sources.add(Source::new("tutorial.md", text));
    (report::plain(&sources, &checked.findings), checked.unread.len())
}

/// Every mistake planted in it is found, each once and where it is, and nothing else.
#[test]
fn thirteen_mistakes() {
    let text = include_str!("mistakes.md");
    let (shown, unread) = found(text, "half-persian-3-in-1");
    assert_eq!((unread, shown.matches("error[").count()), (0, 13), "{shown}");
    insta::assert_snapshot!(shown);
}

/// A tutorial in free words, with its weave in it: all of its steps are read, and nothing is found.
#[test]
fn a_tutorial_in_free_words() {
    let text = include_str!("../../examples/saturday-bracelet.md");
    let Some(WeaveIn::Fence(lines)) = weave_in(text) else { panic!("it has a weave in it") };
    let own = only(text, &lines);
    assert_eq!((own.len(), own.lines().count()), (text.len(), text.lines().count()));
    assert!(own.trim().starts_with("weave \"Saturday bracelet\"") && own.trim().ends_with("repeats 12"));
    let weave = kept(&own);
    let checked = check(weave, weave.settled().ok(), text);
    assert_eq!(checked.findings, []);
    let unread: Vec<&str> = checked.unread.iter().map(|s| &text[s.range()]).collect();
    assert_eq!(unread, ["It lies in front of you now.", "That is how it should be!"]);
    let work = follow(&read(text), Some(Letters::default()));
    assert_eq!(work.rings.len(), 24);
    assert!(work.claims.iter().any(|c| c.claim.what == Claim::Leans(Hand::Left)));
}

/// 200 steps told one by one: no time is asserted here, but that they are all followed and right.
#[test]
fn two_hundred_steps() {
    let mut text =
        "# simple chain\n\n1. Thread a1 and a2 on a tie.\n2. Open b1. Go down through a1 and a2. Close b1.\n"
            .to_owned();
    for n in 2..=200 {
        text +=
            &format!("{}. Open b{n}. Pick up a{}. Go down through a{n} and a{}. Close b{n}.\n", n + 1, n + 1, n + 1);
    }
    assert_eq!(found(&text, "simple-chain"), (String::new(), 0));
    let wrong = text.replace("through a150 and a151", "through a149 and a151");
    let (shown, _) = found(&wrong, "simple-chain");
    assert!(shown.lines().count() < 4 && shown.contains("b150 goes through a149"), "{shown}");
}
