//! Several ways of saying each thing.

use byrnie::steps::{Letters, Work, Woven, follow, read};

/// What a text makes whose list says which letters there are.
fn followed(text: &str) -> Work {
    follow(&read(text), Some(Letters::default()))
}

/// What an item says, in brief; what could not be read stands as it is.
fn said(words: &str) -> String {
    let reading = read(&format!("1. {words}\n"));
    let told: Vec<String> = reading.items[0]
        .sentences
        .iter()
        .map(|s| {
            s.says.as_ref().map_or_else(
                || format!("? {}", s.words),
                |all| all.iter().map(|s| format!("{s:?}")).collect::<Vec<_>>().join(" + "),
            )
        })
        .collect();
    told.join("\n")
}

#[test]
fn one_thing_is_said_in_several_ways() {
    let groups: [&[&str]; 19] = [
        &["Open b2.", "open b2", "Take b2.", "Take an open ring, b2.", "Now open b2."],
        &["Close b2.", "Shut b2.", "Then close b2!"],
        &["Close it.", "Close this ring.", "Shut the ring."],
        &["Pick up a3 and a4.", "Add a3 and a4.", "Scoop up a3, a4.", "Slip a3 and a4 on.", "Load a3 & a4."],
        &[
            "Go down through a2 and a3.",
            "Pass down through a2 and a3.",
            "Take it down through a2 and a3.",
            "It goes down through a2, a3.",
            "Bring it down through rings a2 and a3.",
        ],
        &["Come up through a1.", "Go back up through a1.", "It comes up through a1.", "Up through ring a1."],
        &[
            "Go around the eye of a1 and a2.",
            "It goes around the eye of a1 and a2.",
            "Pass round the eye between a1 and a2.",
        ],
        &["Lay a3 behind a2.", "Put a2 in front of a3.", "Keep ring a3 behind ring a2."],
        &[
            "Keep b2 over b1.",
            "Lay b2 on top of b1.",
            "Let b2 lie over b1.",
            "Tuck b1 under b2.",
            "Keep b1 beneath b2.",
        ],
        &["Keep b2 on the far side.", "Let b2 lie on the far side.", "b2 lies on the far side."],
        &[
            "Thread a1 and a2 on a tie.",
            "Slide a1 and a2 onto a piece of wire.",
            "Hang a1 and a2 on a paper clip.",
            "String a1 and a2 on your needle.",
        ],
        &[
            "Repeat step 4 another five times, until b7 is closed.",
            "Repeat step 4 5 more times until b7 is closed.",
            "Repeat step 4, five more times, each time one place further on, until b7 has been closed.",
        ],
        &["Open the next ring.", "Open another ring.", "Open a new ring.", "Take your next ring."],
        &["Pick up two closed rings.", "Add two more closed rings.", "Scoop up 2 fresh closed rings."],
        &[
            "Go down through the loose ring.",
            "Pass down through the ring that dangles.",
            "Go down through the dangling ring.",
        ],
        &["Come up through the last closed ring.", "Bring it up through the previous closed ring."],
        &["Skip an eye.", "Skip one eye."],
        &["Go around the last eye.", "It goes round the last eye."],
        &["Now three rings hang together.", "3 rings are linked.", "All three rings are in the work."],
    ];
    for group in groups {
        let first = said(group[0]).replace("on a tie", "");
        assert!(!first.starts_with('?'), "{}", group[0]);
        for other in &group[1..] {
            assert_eq!(said(other), first, "{other}");
        }
    }
}

#[test]
fn several_things_in_one_sentence() {
    insta::assert_snapshot!(
        [
            said("Open b2, pick up a3 and go down through a2 and a3. Then come up through a1 and close it."),
            said("Take b2 down through the eye of a2 and a3, then back up through a1."),
            said("Open ring d and pass it down through rings a, b and c. Close ring d."),
            said("Have a cup of tea. Open b2. It will look wrong at first."),
        ]
        .join("\n\n")
    );
}

/// Rings told by what they are make the same piece as rings that are named.
#[test]
fn rings_told_by_what_they_are() {
    let needs = "- 6 rings a, closed\n- 6 rings b, open\n\n";
    let named = "1. Thread a1 and a2 on a tie.\n2. Open b1. Go down through the eye of a1 and a2. Close b1.\n3. Open b2. Pick up a3. Go down through the eye of a2 and a3. Go around the eye of a1 and a2. Close b2.\n4. Repeat step 3 another three times, until b5 is closed.\n5. Open b6. Go down through a6. Come up through a5. Close b6.\n";
    let told = "1. Thread two closed rings on a tie.\n2. Open a new ring. Go down through the first eye. Close it.\n3. Open the next ring and pick up another closed ring. Go down through the next eye and around the last eye. Close it.\n4. Repeat step 3 three more times.\n5. Take your next ring. Go down through the loose ring. Come up through a5. Close it.\n";
    let (named, told) = (followed(&format!("{needs}{named}")), followed(&format!("{needs}{told}")));
    assert_eq!((&named.faults, &told.faults), (&vec![], &vec![]));
    assert!(named.unread.is_empty() && told.unread.is_empty());
    let passes = |work: &Work| {
        let of = |w: &Woven| {
            format!(
                "{} {:?} {:?}",
                w.ring.what,
                w.moves.passes.iter().map(|p| &p.what).collect::<Vec<_>>(),
                w.moves.pairs.iter().map(|p| &p.what).collect::<Vec<_>>()
            )
        };
        work.woven.iter().map(of).collect::<Vec<_>>()
    };
    assert_eq!(passes(&named), passes(&told));
    // Without a list of what is needed nobody can say which ring is meant: that is not read, and no mistake.
    let work = followed("1. Open the next ring. Go down through the first eye.\n2. Repeat step 1 until you like it.\n");
    assert!(work.faults.is_empty() && work.unread.len() == 3, "{:?}", work.faults);
}

/// What cannot be done is said, and where.
#[test]
fn what_cannot_be_done_is_said() {
    let text = "- 2 rings a, closed\n- 2 rings b, open\n\n1. Close 3 rings a. Thread a1 and a2 on a tie.\n2. Open b1. Go down through a1 and a2. Close b2.\n3. Close b1. Now four rings hang together. a1 dangles.\n4. Open b2. Pick up a1. Go down through a5. Close b2.\n5. Repeat step 4 twice more, until c4 is closed. Repeat step 9 once more, until b3 is closed.\n6. Go up through a1. Pick up a9. Open b3.\n";
    let work = followed(text);
    let faults: Vec<String> =
        work.faults.iter().map(|f| format!("{} “{}”: {}", f.item, &text[f.span.clone()], f.why)).collect();
    insta::assert_snapshot!(faults.join("\n"));
}

/// Any text at all is read and followed.
#[test]
fn nothing_is_too_odd() {
    for text in [
        "",
        "1.",
        "1. 1. 1. Close b1",
        "- 1. Open b1.\n  - x",
        "1. Open b1.\n2. Repeat step 1 99999999 more times, until b99999999 is closed.",
        "9999999999999999999999. Close a1.",
        "1. Close a1.\n2. Repeat step 1 another twelve times, until a2147483647 is closed.",
        "```\n1. Close a1\n```",
        "1. Close a-5. Open a99999999999.",
        "\u{0}1. Ö.",
    ] {
        let _ = followed(text);
    }
}
