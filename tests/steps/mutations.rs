//! Instructions with one change: what alters the piece is found, at the step where it is; what does not is left alone.

use super::round::{lying, same_graph};
use crate::common::{every_case, examples, kept};
use byrnie::Weave;
use byrnie::notation::Hand;
use byrnie::pattern::Repeats;
use byrnie::steps::{Claim, Direction, Instructions, Letters, Name, PassedPair, Work, Woven, check, follow, read};
use rayon::prelude::*;
use std::collections::BTreeMap;
use std::ops::Range;

fn followed(text: &str) -> Work {
    follow(&read(text), Some(Letters::default()))
}

/// Of so many changes of a weave's instructions one is tried, where not all are.
const ONE_IN: usize = 8;

/// A change: what sort it is, where it is, and the text with it.
struct Mutant {
    sort: &'static str,
    at: Range<usize>,
    text: String,
}

/// Places of ring names (`a3`, `a2.3`, in a unit `ring a`) in a text, as letter and numbers.
fn rings(text: &str) -> Vec<(Range<usize>, Name)> {
    let mut all = Vec::new();
    let bytes = text.as_bytes();
    let mut at = 0;
    while at < bytes.len() {
        let before = at == 0 || !bytes[at - 1].is_ascii_alphanumeric();
        if before && bytes[at].is_ascii_lowercase() {
            let letters = bytes[at..].iter().take_while(|b| b.is_ascii_lowercase()).count();
            let number = bytes[at + letters..].iter().take_while(|b| b.is_ascii_digit()).count();
            if number > 0 {
                let mut end = at + letters + number;
                if bytes.get(end) == Some(&b'.') && bytes.get(end + 1).is_some_and(u8::is_ascii_digit) {
                    end += 1 + bytes[end + 1..].iter().take_while(|b| b.is_ascii_digit()).count();
                }
                let numbers = text[at + letters..end].split('.').map(|n| n.parse().unwrap()).collect();
                all.push((at..end, Name { letter: text[at..at + letters].to_owned(), numbers }));
                at = end;
                continue;
            }
        }
        at += 1;
    }
    all
}

/// Every single change of a text.
fn mutants(text: &str) -> Vec<Mutant> {
    let mut all = Vec::new();
    let mut put = |sort: &'static str, at: Range<usize>, with: &str| {
        let text = format!("{}{with}{}", &text[..at.start], &text[at.end..]);
        all.push(Mutant { sort, at, text });
    };
    let reading = read(text);
    for need in &reading.needs {
        let digits = text[need.span.clone()].chars().take_while(char::is_ascii_digit).count();
        let at = need.span.start..need.span.start + digits;
        let count: usize = text[at.clone()].parse().unwrap();
        put("count needed", at.clone(), &(count + 1).to_string());
        put("count needed", at, &(count + 20).to_string());
    }
    for sentence in reading.items.iter().flat_map(|i| &i.sentences) {
        let own = &text[sentence.span.clone()];
        let place = |range: Range<usize>| sentence.span.start + range.start..sentence.span.start + range.end;
        let mut swap = |sort: &'static str, from: &str, to: &str| {
            for (at, _) in own.match_indices(from) {
                put(sort, place(at..at + from.len()), to);
            }
        };
        swap("down for up", "Come up", "Go down");
        swap("up for down", "Go down", "Come up");
        swap("through for around", "goes around", "goes through");
        swap("far for near", "near side", "far side");
        swap("near for far", "far side", "near side");
        swap("in front for behind", " behind ", " in front of ");
        if own.starts_with("Keep") {
            swap("under for over", " over ", " under ");
        }
        swap("lean", "to the left", "to the right");
        swap("lean", "to the right", "to the left");
        let goes = own.starts_with("Go ") || own.starts_with("Come ");
        let picks = own.starts_with("Pick up") || own.starts_with("Thread");
        let opens = own.starts_with("Open") || own.starts_with("Close ");
        if goes || picks || own.starts_with("It goes") || opens {
            put("sentence dropped", sentence.span.clone(), "");
        }
        if goes || picks {
            let named = rings(own);
            for (at, name) in &named {
                let other = |step: i32| {
                    let mut numbers = name.numbers.clone();
                    *numbers.last_mut().unwrap() += step;
                    let numbers: Vec<String> = numbers.iter().map(i32::to_string).collect();
                    format!("{}{}", name.letter, numbers.join("."))
                };
                put("another ring", place(at.clone()), &other(1));
                put("another ring", place(at.clone()), &other(-1));
                put("ring doubled", place(at.clone()), &format!("{} and {}", &own[at.clone()], &own[at.clone()]));
            }
            // A ring dropped, with the comma or "and" beside it.
            for (number, (at, _)) in named.iter().enumerate().filter(|_| named.len() > 1) {
                let from = if number == 0 { at.start } else { named[number - 1].0.end };
                let to = if number == 0 { named[1].0.start } else { at.end };
                put("ring dropped", place(from..to), "");
            }
        }
        if own.starts_with("Repeat") {
            let digits = own.find(|c: char| c.is_ascii_digit()).unwrap();
            let length = own[digits..].chars().take_while(char::is_ascii_digit).count();
            let step: usize = own[digits..digits + length].parse().unwrap();
            put("repeat out of step", place(digits..digits + length), &(step - 1).to_string());
            let named = rings(own);
            let (at, name) = named.last().unwrap();
            for step in [-1, 1] {
                let mut numbers = name.numbers.clone();
                *numbers.last_mut().unwrap() += step;
                let numbers: Vec<String> = numbers.iter().map(i32::to_string).collect();
                put("repeat too short or long", place(at.clone()), &format!("{}{}", name.letter, numbers.join(".")));
            }
            for (from, to) in [
                ("once more", "twice more"),
                ("another two", "another three"),
                ("another three", "another four"),
                ("another four", "another three"),
                ("another five", "another six"),
                ("another six", "another five"),
            ] {
                if let Some(found) = own.find(from) {
                    put("wrong number of times", place(found..found + from.len()), to);
                }
            }
        }
        let counted = own.starts_with("Close ") && own.contains(" ring") || own.starts_with("Now all");
        if let Some(digits) = own.find(|c: char| c.is_ascii_digit()).filter(|_| counted) {
            let length = own[digits..].chars().take_while(char::is_ascii_digit).count();
            let count: usize = own[digits..digits + length].parse().unwrap();
            put("count told", place(digits..digits + length), &(count + 2).to_string());
        }
    }
    all
}

/// Whether the text still makes the piece, and says nothing untrue of it: turning rings over, and threading a ring from its
/// other end, changes nothing.
fn makes_the_piece(weave: &Weave, size: Repeats, right: &Work, text: &str) -> Result<(), String> {
    let work = followed(text);
    if let Some(fault) = work.faults.first() {
        return Err(fault.why.to_string());
    }
    if let Some(unread) = work.unread.first() {
        return Err(format!("unread: {}", &text[unread.clone()]));
    }
    let piece = weave.piece(size).unwrap();
    // A ring that goes the other way all along is threaded from its other end.
    let mut turned: Work = work.clone();
    let ways = |woven: &Woven| -> BTreeMap<Name, Option<Direction>> {
        woven.moves.passes.iter().map(|p| (p.what.ring.clone(), p.what.direction)).collect()
    };
    let other = |a: &Option<Direction>, b: &Option<Direction>| matches!((a, b), (Some(a), Some(b)) if a != b);
    for own in &mut turned.woven {
        let same = right.woven.iter().find(|r| r.ring.what == own.ring.what);
        let told = ways(own);
        if same.is_some_and(|s| ways(s).iter().all(|(r, way)| told.get(r).is_some_and(|own| other(own, way)))) {
            for pass in &mut own.moves.passes {
                pass.what.direction = pass.what.direction.map(Direction::other);
            }
        }
    }
    same_graph(weave, &piece, &turned)?;
    let (said, told) = lying(weave, &piece, &work);
    if let Some(odd) = told.difference(&said).next() {
        return Err(format!("lies {odd:?}"));
    }
    let pairs = |work: &Work| -> Vec<PassedPair> {
        work.woven.iter().flat_map(|w| w.moves.pairs.iter().map(|p| p.what.clone())).collect()
    };
    if pairs(&work).iter().any(|p| !pairs(right).contains(p)) {
        return Err("around for through".to_owned());
    }
    let has = |work: &Work, hand: Hand| work.claims.iter().any(|c| c.claim.what == Claim::Leans(hand));
    if [Hand::Left, Hand::Right].into_iter().any(|hand| has(&work, hand) && has(right, hand.other())) {
        return Err("lean".to_owned());
    }
    for claim in &work.claims {
        let Claim::Closed(count, letter) = &claim.claim.what else { continue };
        if work.closed.iter().filter(|r| r.letter == *letter).count() != *count {
            return Err("closed miscounted".to_owned());
        }
    }
    Ok(())
}

#[derive(Default)]
struct Score {
    altering: usize,
    caught: usize,
    at_the_step: usize,
    one_finding: usize,
    equivalent: usize,
    /// What following them would make, each with how often that is said.
    becomes: BTreeMap<String, usize>,
    missed: Vec<String>,
    false_alarms: Vec<String>,
}

fn score(name: &str, weave: &Weave) -> BTreeMap<&'static str, Score> {
    let size = Repeats(weave.size().0.map(|n| n.min(7)));
    let settled = weave.settled().ok();
    let right = Instructions::of(weave, settled, size).unwrap().markdown(|_| None);
    let clean = check(weave, settled, &right);
    assert!(clean.findings.is_empty() && clean.unread.is_empty(), "{name}: {:?}", clean.findings);
    let mut scores: BTreeMap<&'static str, Score> = BTreeMap::new();
    let work = followed(&right);
    let (one_in, from) = if every_case() { (1, 0) } else { (ONE_IN, name.len() % ONE_IN) };
    for mutant in mutants(&right).into_iter().skip(from).step_by(one_in) {
        let score = scores.entry(mutant.sort).or_default();
        let checked = check(weave, settled, &mutant.text);
        let alters = makes_the_piece(weave, size, &work, &mutant.text);
        let shown = || {
            let findings: Vec<String> = checked
                .findings
                .iter()
                .map(|f| format!("{} “{}”: {}", f.rule, &mutant.text[f.span.range()], f.message))
                .collect();
            let line = mutant.text[..mutant.at.start].rfind('\n').map_or(0, |n| n + 1);
            format!(
                "{name}, {}: {} → {alters:?} {findings:?}",
                mutant.sort,
                mutant.text[line..].lines().next().unwrap()
            )
        };
        if alters.is_ok() {
            score.equivalent += 1;
            if !checked.findings.is_empty() {
                score.false_alarms.push(shown());
            }
            continue;
        }
        score.altering += 1;
        if checked.findings.is_empty() {
            score.missed.push(shown());
            continue;
        }
        score.caught += 1;
        for finding in &checked.findings {
            if let Some((_, becomes)) = finding.message.split_once("; from here on ") {
                *score.becomes.entry(format!("{name}: {becomes}")).or_insert(0) += 1;
            }
        }
        score.one_finding += usize::from(checked.findings.len() == 1);
        // In the changed item: the line it is on. What is missing is missed there, or where it is needed next.
        let from = mutant.text[..mutant.at.start].rfind('\n').map_or(0, |n| n + 1);
        let lines = if mutant.sort == "sentence dropped" { 2 } else { 1 };
        let to = from + mutant.text[from..].match_indices('\n').nth(lines - 1).unwrap().0;
        let there = checked.findings.iter().any(|f| f.span.start as usize >= from && f.span.end as usize <= to);
        score.at_the_step += usize::from(there);
        if !there {
            score.missed.push(format!("elsewhere: {}", shown()));
        }
    }
    scores
}

#[test]
fn single_changes_are_found_where_they_are() {
    let all: Vec<BTreeMap<&'static str, Score>> =
        examples().par_iter().map(|(name, text)| score(name, kept(text))).collect();
    let mut sums: BTreeMap<&str, Score> = BTreeMap::new();
    for (sort, score) in all.into_iter().flatten() {
        let sum = sums.entry(sort).or_default();
        sum.altering += score.altering;
        sum.caught += score.caught;
        sum.at_the_step += score.at_the_step;
        sum.one_finding += score.one_finding;
        sum.equivalent += score.equivalent;
        for (what, times) in score.becomes {
            *sum.becomes.entry(what).or_insert(0) += times;
        }
        sum.missed.extend(score.missed);
        sum.false_alarms.extend(score.false_alarms);
    }
    let (mut altering, mut caught, mut there, mut one, mut alarms) = (0, 0, 0, 0, Vec::new());
    let mut missed = Vec::new();
    let becomes: BTreeMap<&String, &usize> = sums.values().flat_map(|s| &s.becomes).collect();
    for (what, times) in &becomes {
        println!("{times:4} {what}");
    }
    let said = |words: &str| !every_case() || becomes.keys().any(|b| b.contains(words));
    assert!(said("it would be half Persian") && said("not hold together") && said("not built in"));
    for (sort, sum) in &sums {
        println!(
            "{sort:26} {:5} alter, {:5} caught, {:5} at the step, {:5} by one finding; {:4} change nothing",
            sum.altering, sum.caught, sum.at_the_step, sum.one_finding, sum.equivalent
        );
        altering += sum.altering;
        caught += sum.caught;
        there += sum.at_the_step;
        one += sum.one_finding;
        missed.extend(&sum.missed);
        alarms.extend(&sum.false_alarms);
    }
    println!("{altering} changes alter the piece: {caught} caught, {there} at the step, {one} by one finding");
    assert!(alarms.is_empty(), "found where nothing changed:\n{alarms:#?}");
    let least = if every_case() { 5_000 } else { 5_000 / ONE_IN };
    assert!(altering > least && caught == altering, "{caught} of {altering}:\n{missed:#?}");
    // The same ring may be missed somewhere else: where what was left out is needed.
    assert!(there * 1_000 > altering * 995, "{there} of {altering}:\n{missed:#?}");
    assert!(one * 100 > altering * 97, "{one} of {altering}");
}
