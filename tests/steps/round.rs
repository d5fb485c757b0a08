//! Instructions are read back to the graph they were written from.

use crate::common::{compile, examples, kept};
use byrnie::Weave;
use byrnie::pattern::{FamilyId, Lies, Repeats, Shift};
use byrnie::rings::Piece;
use byrnie::settle::Settled;
use byrnie::steps::{ByPair, Claim, InText, Instructions, Letters, Name, Passed, PassedPair, Work, follow, read};
use petgraph::graph::NodeIndex;
use petgraph::visit::EdgeRef;
use std::collections::{BTreeMap, BTreeSet};

/// The rings and links of the work, against those of a piece: the same, up to turning rings over.
pub fn same_graph(weave: &Weave, piece: &Piece, work: &Work) -> Result<(), String> {
    let name = |ring: NodeIndex| Name::of(weave.pattern(), piece.graph[ring].family, piece.graph[ring].at);
    let expected: BTreeSet<Name> = piece.graph.node_indices().map(name).collect();
    if expected != work.rings.keys().cloned().collect() {
        return Err("other rings".to_owned());
    }
    let closed: BTreeSet<Name> = piece
        .graph
        .node_indices()
        .filter(|r| piece.graph[*r].state == byrnie::notation::State::Closed)
        .map(name)
        .collect();
    if closed != work.closed {
        return Err("other closed rings".to_owned());
    }
    let mut told: BTreeMap<(Name, Name), i8> = BTreeMap::new();
    for woven in &work.woven {
        for InText { what: Passed { ring: other, direction }, .. } in &woven.moves.passes {
            // Where no way is told, the pair it is one of says how it goes against the other.
            let by_pair = woven.moves.pairs.iter().map(|p| &p.what).find_map(|pair| {
                let with = match other {
                    other if *other == pair.one => &pair.other,
                    other if *other == pair.other => &pair.one,
                    _ => return None,
                };
                let way = woven.moves.passed(with)?.what.direction?;
                Some(if pair.goes == ByPair::Through { way } else { way.other() })
            });
            let sign = direction.or(by_pair).ok_or("a way is not told")?.sign();
            let ring = &woven.ring.what;
            let key = if ring < other { (ring.clone(), other.clone()) } else { (other.clone(), ring.clone()) };
            if told.insert(key, sign).is_some() {
                return Err("linked twice".to_owned());
            }
        }
    }
    let mut graph: BTreeMap<Name, Vec<(Name, i8)>> = BTreeMap::new();
    for edge in piece.graph.edge_references() {
        let (a, b) = (name(edge.source()), name(edge.target()));
        let key = if a < b { (a.clone(), b.clone()) } else { (b.clone(), a.clone()) };
        let sign = told.remove(&key).ok_or_else(|| format!("{a} and {b} are not linked"))?;
        graph.entry(a.clone()).or_default().push((b.clone(), sign * edge.weight().sign));
        graph.entry(b).or_default().push((a, sign * edge.weight().sign));
    }
    if let Some(((a, b), _)) = told.into_iter().next() {
        return Err(format!("{a} and {b} are linked"));
    }
    // Every ring is turned over or not, and all signs agree.
    let mut turned: BTreeMap<Name, i8> = BTreeMap::new();
    for start in graph.keys() {
        let mut front = vec![start.clone()];
        turned.entry(start.clone()).or_insert(1);
        while let Some(ring) = front.pop() {
            for (other, sign) in &graph[&ring] {
                let wanted = turned[&ring] * sign;
                match turned.get(other) {
                    Some(known) if *known != wanted => {
                        return Err(format!("{ring} goes the other way through {other}"));
                    }
                    Some(_) => {}
                    None => {
                        turned.insert(other.clone(), wanted);
                        front.push(other.clone());
                    }
                }
            }
        }
    }
    Ok(())
}

/// Everything the text says of how rings of a piece lie, and what the instructions say.
pub fn lying(weave: &Weave, piece: &Piece, work: &Work) -> (BTreeSet<Lies<Name>>, BTreeSet<Lies<Name>>) {
    let there: BTreeSet<(FamilyId, Shift)> = piece.graph.node_weights().map(|r| (r.family, r.at)).collect();
    let mut said = BTreeSet::new();
    for lies in weave.pattern().lying.iter().map(|statement| &statement.lies) {
        let rings = lies.rings();
        let Some(first) = rings.first() else { continue };
        for (_, at) in there.iter().filter(|(family, _)| *family == first.family) {
            let from = *at - first.offset;
            if rings.iter().all(|t| there.contains(&(t.family, from + t.offset))) {
                said.insert(lies.map(|t| Name::of(weave.pattern(), t.family, from + t.offset)));
            }
        }
    }
    let lies = work.woven.iter().flat_map(|w| &w.moves.lies).map(|l| l.what.clone());
    (said, lies.collect())
}

fn round_trip(weave: &Weave, settled: Option<&Settled>, size: Repeats) -> usize {
    let told = Instructions::of(weave, settled, size).unwrap();
    let text = told.markdown(|n| Some(format!("pictures/step-{n}.svg")));
    let name = weave.name();
    let reading = read(&text);
    assert_eq!(reading.items.len(), told.items.len(), "{name}");
    assert_eq!(reading.needs.len(), told.needs.len(), "{name}");
    let work = follow(&reading, Some(Letters::default()));
    let unread: Vec<&str> = work.unread.iter().map(|span| &text[span.clone()]).collect();
    assert_eq!(unread, [""; 0], "{name}");
    assert_eq!(work.faults, [], "{name}\n{text}");
    let piece = weave.piece(size).unwrap();
    if let Err(why) = same_graph(weave, &piece, &work) {
        panic!("{name}: {why}\n{text}");
    }
    let (said, lies) = lying(weave, &piece, &work);
    assert_eq!(said, lies, "{name}");
    // "Around" and "through" are what down and up make of them.
    for woven in &work.woven {
        let way = |ring: &Name| woven.moves.passed(ring).unwrap().what.direction.unwrap();
        for InText { what: PassedPair { one, other, goes }, .. } in &woven.moves.pairs {
            let made = ByPair::of_signs(way(one).sign(), way(other).sign());
            assert_eq!(made, *goes, "{name}: {woven:?}");
        }
    }
    let leans = work.claims.iter().find_map(|c| if let Claim::Leans(hand) = c.claim.what { Some(hand) } else { None });
    assert_eq!(leans, settled.and_then(|s| s.lean), "{name}");
    reading.items.iter().map(|i| i.sentences.len()).sum()
}

/// Every built-in weave, with what is known of how its rings lie and without, as large as its text asks for and small.
#[test]
fn instructions_are_read_back_to_the_same_graph() {
    let mut sentences = 0;
    for (_, text) in examples() {
        let weave = kept(text);
        let settled = weave.settled().unwrap();
        let full = weave.size();
        let small = Repeats(full.0.map(|n| n.min(3)));
        for size in [full, small] {
            sentences += round_trip(weave, Some(settled), size);
            sentences += round_trip(&compile(text), None, size);
        }
    }
    println!("{sentences} sentences read");
    assert!(sentences > 5_000, "{sentences}");
}

/// The check can fail: one word changed gives another graph, or work that cannot be done.
#[test]
fn a_word_changed_is_another_graph() {
    let text = examples().into_iter().find(|(n, _)| *n == "half-persian-3-in-1").unwrap().1;
    let weave = compile(text);
    let size = Repeats([8, 1]);
    let told = Instructions::of(&weave, None, size).unwrap().markdown(|_| None);
    let piece = weave.piece(size).unwrap();
    let followed = |text: &str| {
        let work = follow(&read(text), Some(Letters::default()));
        (work.faults.is_empty() && work.unread.is_empty(), same_graph(&weave, &piece, &work).is_ok())
    };
    assert_eq!(followed(&told), (true, true));
    for (from, to, fine) in [
        ("Come up through a1.", "Come down through a1.", false),
        ("Come up through a1.", "Go down through a1.", true),
        ("the eye of a2 and a3. Come", "the eye of a1 and a3. Come", false),
        ("Pick up a3.", "", false),
        ("until b7", "until b6", false),
        ("8 rings a, closed", "7 rings a, closed", false),
        ("Come up through a7.", "Come up through a6.", true),
    ] {
        let changed = told.replace(from, to);
        assert_ne!(changed, told, "{from}");
        let (fault_free, same) = followed(&changed);
        assert!(!fault_free || !same, "{from} → {to}");
        assert!(!fine || fault_free || from.contains("a7"), "{from} → {to}");
    }
}

/// What a student reads.
#[test]
fn instructions_as_they_are_read() {
    for name in [
        "half-persian-3-in-1",
        "tideline-bracelet",
        "european-4-in-1-sheet",
        "byzantine-chain",
        "rosette-of-four",
        "simple-chain",
    ] {
        let weave = kept(examples().into_iter().find(|(n, _)| *n == name).unwrap().1);
        let told = Instructions::of(weave, weave.settled().ok(), weave.size()).unwrap();
        insta::assert_snapshot!(format!("steps_{name}"), told.markdown(|_| None));
    }
}

/// What is written of a weave of so many repeats, rows or columns, as it was read back to the same graph.
fn read_back(text: &str, size: Repeats) -> String {
    let weave = compile(text);
    assert!(weave.pattern().whole, "{text}");
    round_trip(&weave, None, size);
    Instructions::of(&weave, None, size).unwrap().markdown(|_| None)
}

/// Colours that change from ring to ring are told: how many of each, and which ring has which.
#[test]
fn colours_are_told() {
    let chain = "weave \"Harbour band\"\nbase \"simple chain\"\nrings\n  main  wire 1.6 mm, inner 7 mm, copper\ncolours\n  a: silver\n  b: teal, teal, \"silver, matt\"\n";
    let told = read_back(chain, Repeats([7, 1]));
    assert!(told.contains("rings a, closed, wire 1.6 mm, inner diameter 7 mm, AR 4.38, copper, silver\n"), "{told}");
    assert!(
        told.contains(
            "- 6 rings b, open, wire 1.6 mm, inner diameter 7 mm, AR 4.38, copper, 4 teal and 2 “silver, matt”\n"
        ),
        "{told}"
    );
    assert!(told.contains("Sort rings b by colour: b1 and b2 are teal, b3 is “silver, matt”, and so on.\n"), "{told}");
    assert!(!told.contains("Sort rings a"), "{told}");
    // One turn alone: the base leaves out the last b.
    let told = read_back(chain, Repeats([4, 1]));
    assert!(told.contains("b3 is “silver, matt”.\n"), "{told}");
    let sheet = |by: &str| {
        format!(
            "weave \"Harbour cuff\"\nbase \"European 4-in-1 sheet\"\ncolours\n  a by {by}: teal, silver, dusk violet\n"
        )
    };
    for (by, line) in [("row", "row 1 is teal, row 2 is silver, row 3 is dusk violet"), ("column", "column 1 is teal")]
    {
        let told = read_back(&sheet(by), Repeats([5, 4]));
        assert!(told.contains(&format!("Sort rings a by colour: {line}")) && told.contains(", and so on."), "{told}");
    }
    let long = "ring a open\nrepeat n\na[n] down a[n-1]\ncolours\n  a: teal, teal, teal, teal, teal, silver\n";
    let told = read_back(long, Repeats([12, 1]));
    assert!(told.contains("Sort rings a by colour: a1 to a5 are teal, a6 is silver, and so on."), "{told}");
}

/// A pair that is to be folded back is told in whichever form the text has it, and whenever its rings come in.
#[test]
fn every_fold_is_told() {
    let byzantine = examples().into_iter().find(|(n, _)| *n == "byzantine-chain").unwrap().1;
    let fold = "fold c[n], d[n] back";
    for form in
        [fold, "fold d[n], c[n] back", "fold c[n] and d[n] back", "fold c[n-1], d[n-1] back", "fold c[n], d[n-1] back"]
    {
        let told = read_back(&byzantine.replace(fold, form), Repeats([5, 1]));
        assert!(told.contains("Fold "), "{form}:\n{told}");
    }
    for (text, size) in [
        ("ring a, b, c, d open\nc down a, b\nd down a, b\nfold a, b back\n", Repeats([1, 1])),
        ("ring a, b closed\nring c open\nc down a, b\nfold a, b back\n", Repeats([1, 1])),
        ("ring a, b open\nrepeat n\na[n] down b[n-1]\nb[n] down a[n]\nfold a[n], b[n+1] back\n", Repeats([4, 1])),
        (
            "ring a, b closed\nring c, d open\nrepeat n\nc[n] down a[n], a[n+1]\nd[n] down b[n], b[n+1], c[n]\nfold a[n], b[n] back\n",
            Repeats([4, 1]),
        ),
    ] {
        let told = read_back(text, size);
        assert!(told.contains("Fold "), "{text}:\n{told}");
    }
}
