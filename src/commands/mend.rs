//! `byrnie lint --fix`: the safe changes that findings offer, made in the files that were named.

use super::tutorial::{is_tutorial, tutorial_up_to};
use super::{Stop, files};
use byrnie::lint;
use byrnie::lint::Needs;
use byrnie::report::{Diagnostic, mended};
use byrnie::text::Source;
use std::collections::BTreeMap;
use std::path::Path;

/// What is mended may show more to mend, but not for ever.
const MOST_ROUNDS: usize = 10;
/// How often a text is checked with some of its changes where all of them together do not do.
const MOST_TRIES: usize = 100;

/// A text with what could be mended in it mended.
pub struct Mended {
    /// The text, under the name of its file.
    pub source: Source,
    /// What was mended, line by line.
    pub done: Vec<String>,
}

/// Mends the text of a file; writes nothing.
///
/// A change is kept only where the text is better after it: checked again, it has so many findings fewer, and none of
/// a rule of which there were fewer. What rests on a pose is not looked at: it is a warning from something found and
/// not proved, and no reason to change a text unattended.
///
/// # Errors
/// Exit code 2 where the file cannot be read.
pub fn file(path: &Path) -> Result<Mended, Stop> {
    let mut source = if is_tutorial(path) { files::text(path)? } else { files::source(path)? };
    let (mut done, mut tries) = (Vec::new(), MOST_TRIES);
    for _ in 0..MOST_ROUNDS {
        let (before, broken) = check(path, source.clone(), Needs::Graph)?;
        if before.len() >= lint::MOST_FINDINGS {
            // Nobody could say then what a change mends.
            let many = lint::MOST_FINDINGS;
            files::complain(&format!(
                "{}: not mended: there are {many} findings, or more; is this a weave?",
                source.name()
            ));
            break;
        }
        let most = if broken { Needs::Text } else { Needs::Graph };
        let better = |text: &str, by: usize| {
            let after = check(path, Source::new(source.name(), text), most);
            after.is_ok_and(|(after, _)| fewer(&before, &after, by))
        };
        let offered = mended(source.text(), &before).done;
        if offered.is_empty() {
            break;
        }
        let (text, findings) = by_halves(source.text(), &offered, &mut tries, better);
        if findings.is_empty() {
            break;
        }
        done.extend(findings.iter().filter_map(|f| {
            let line = source.line_column(f.span.start).0;
            Some(format!("line {line}: {}", f.fix.as_ref()?.title))
        }));
        source = Source::new(source.name(), text);
    }
    Ok(Mended { source, done })
}

/// Puts a mended text where it belongs: in place of the old one, whole or not at all, or, from standard input, to
/// standard output.
///
/// # Errors
/// Exit code 2 where it cannot be written.
pub fn keep(path: &Path, mended: &Mended) -> Result<(), Stop> {
    if files::is_standard(path) {
        files::print(mended.source.text())
    } else if mended.done.is_empty() {
        Ok(())
    } else if std::fs::metadata(path).is_ok_and(|m| m.permissions().readonly()) {
        // The folder would let it be replaced; whoever protected the file would not.
        Err(Stop::WriteProtected { path: path.to_path_buf() })
    } else {
        files::write(path, mended.source.text())
    }
}

/// What is found without settling anything, and whether the ring graph cannot be relied on.
fn check(path: &Path, source: Source, most: Needs) -> Result<(Vec<Diagnostic>, bool), Stop> {
    if is_tutorial(path) {
        let found = tutorial_up_to(path, source, most)?;
        return Ok((found.findings, found.broken));
    }
    let weave = files::compile(path, source);
    Ok((lint::check_up_to(&weave, most), lint::graph_broken(&weave).is_some()))
}

/// Whether there are so many findings fewer, and of no rule more.
fn fewer(before: &[Diagnostic], after: &[Diagnostic], by: usize) -> bool {
    let count = |findings: &[Diagnostic]| {
        let mut rules: BTreeMap<&str, usize> = BTreeMap::new();
        for finding in findings {
            *rules.entry(finding.rule).or_default() += 1;
        }
        rules
    };
    let had = count(before);
    after.len() + by <= before.len() && count(after).iter().all(|(rule, n)| had.get(rule).is_some_and(|h| n <= h))
}

/// Those changes, in order, with each of which the text is better than with those before it: what does not do together
/// is tried by halves.
fn by_halves(
    text: &str,
    offered: &[Diagnostic],
    tries: &mut usize,
    better: impl Fn(&str, usize) -> bool,
) -> (String, Vec<Diagnostic>) {
    let mut kept = mended(text, []);
    let mut waiting = vec![offered];
    while let (Some(part), Some(left)) = (waiting.pop(), tries.checked_sub(1)) {
        *tries = left;
        let with = mended(text, kept.done.iter().chain(part));
        if better(&with.text, with.done.len()) {
            kept = with;
        } else if part.len() > 1 {
            let (first, second) = part.split_at(part.len() / 2);
            waiting.extend([second, first]);
        }
    }
    (kept.text, kept.done)
}
