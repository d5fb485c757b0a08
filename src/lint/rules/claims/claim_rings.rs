//! A claimed number of rings is not the number there are.

use crate::count::{Class, Counts, FamilyCount};
use crate::lint::Context;
use crate::notation::Claim;
use crate::report::Diagnostic;
use crate::text::{Spanned, nearest};

const NAME: &str = "claim-rings";

pub fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    of_a_piece(context, findings);
    of_all(context, findings);
}

/// What is claimed of all that is made.
fn of_all(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let claims = context.pattern.claims_of_all.iter().filter_map(|c| match &c.value {
        Claim::Rings { count, which } => Some((count, which.as_ref(), c.span)),
        _ => None,
    });
    let claims: Vec<_> = claims.collect();
    if claims.is_empty() {
        return;
    }
    let class = Class::without_length(context.weave).ok().filter(Class::size_asked);
    for (claimed, which, span) in claims {
        if let Some(word) = which.filter(|w| !known(context, &w.value)) {
            findings.push(unknown(context, word));
            continue;
        }
        let Some(class) = &class else { continue };
        let there = class.sum(|counts| count(counts, which.map(|w| w.value.as_str())));
        let off = there.abs_diff(u64::from(claimed.value));
        if off == 0 {
            continue;
        }
        let sort = sort(which);
        let pieces = match class.pieces() {
            1 => "the one piece has".to_owned(),
            n => format!("the {n} pieces have"),
        };
        let more = if there > u64::from(claimed.value) { "more" } else { "fewer" };
        let message = format!("{} {sort}rings are claimed in all, but {pieces} {there}: {off} {more}", claimed.value);
        findings.push(Diagnostic::error(NAME, span, message).label(format!("counted: {there}")).help(format!(
            "claim {there} {}rings in all (spares are not counted), or correct `make`",
            sort.replace('`', "")
        )));
    }
}

fn sort(which: Option<&Spanned<String>>) -> String {
    which.map_or(String::new(), |w| match w.value.to_lowercase().as_str() {
        state @ ("closed" | "open") => format!("{state} "),
        _ => format!("`{}` ", w.value),
    })
}

fn of_a_piece(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let claims = context.pattern.claims.iter().filter_map(|c| match &c.value {
        Claim::Rings { count, which } => Some((count, which.as_ref(), c.span)),
        _ => None,
    });
    let mut claims = claims.peekable();
    if claims.peek().is_none() {
        return;
    }
    let counted =
        context.piece.zip(context.weave.size_asked()).map(|(p, size)| (Counts::without_length(context.weave, p), size));
    for (claimed, which, span) in claims {
        if let Some(word) = which.filter(|w| !known(context, &w.value)) {
            findings.push(unknown(context, word));
            continue;
        }
        let Some((counts, size)) = &counted else { continue };
        let there = count(counts, which.map(|w| w.value.as_str()));
        if there == claimed.value {
            continue;
        }
        let sort = sort(which);
        findings.push(
            Diagnostic::error(
                NAME,
                span,
                format!(
                    "{} {sort}rings are claimed, but one piece ({}) has {there}: {} {}",
                    claimed.value,
                    size.words(counts.lattice),
                    there.abs_diff(claimed.value),
                    if there > claimed.value { "more" } else { "fewer" }
                ),
            )
            .label(format!("counted: {there}"))
            .help(format!("claim {there} {}rings, or correct `make` or `ends`", sort.replace('`', ""))),
        );
    }
}

/// Whether a word says which rings: a state, a family, a kind, or all accents.
fn known(context: &Context<'_>, word: &str) -> bool {
    let families = &context.pattern.families;
    ["closed", "open", "accent"].contains(&word.to_lowercase().as_str())
        || families.iter().any(|f| f.name.value == word || f.kind == word)
        || context.pattern.kind(word).is_some()
}

/// How many rings a word means. A family comes before a kind of the same name, and `accent` is all
/// accents where nothing else is called so.
fn count(counts: &Counts, word: Option<&str>) -> u32 {
    let sum = |which: &dyn Fn(&FamilyCount) -> bool| {
        let chosen: Vec<_> = counts.families.iter().filter(|f| which(f)).map(FamilyCount::rings).collect();
        (!chosen.is_empty()).then(|| chosen.iter().sum::<u32>())
    };
    let Some(word) = word else { return counts.rings() };
    match word.to_lowercase().as_str() {
        "closed" => counts.closed(),
        "open" => counts.open(),
        _ => sum(&|f| f.name == word)
            .or_else(|| sum(&|f| f.kind == word))
            .or_else(|| sum(&|f| f.accent && word.eq_ignore_ascii_case("accent")))
            .unwrap_or(0),
    }
}

fn unknown(context: &Context<'_>, word: &Spanned<String>) -> Diagnostic {
    let families = &context.pattern.families;
    let mut names: Vec<&str> = families.iter().flat_map(|f| [f.name.value.as_str(), f.kind.as_str()]).collect();
    names.sort_unstable();
    names.dedup();
    let found = Diagnostic::error(NAME, word.span, format!("no family and no kind of ring is called `{}`", word.value))
        .label("counts nothing");
    match nearest(&word.value, names.iter().copied().chain(["closed", "open"])) {
        Some(near) => found.fix(format!("write `{near}`"), word.span, near),
        None => found.help(format!(
            "write closed, open, or one of {}",
            names.into_iter().take(12).collect::<Vec<_>>().join(", ")
        )),
    }
}
