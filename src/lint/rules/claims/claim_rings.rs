use crate::count::{Class, Counts, FamilyCount};
use crate::lint::{Context, Found, Known, Rule};
use crate::notation::Claim;
use crate::report::Diagnostic;
use crate::text::{Spanned, count};

/// A claimed number of rings is not the number there are.
pub struct ClaimRings;

impl Rule for ClaimRings {
    const NAME: &str = "claim-rings";
    const PAGE: &str = include_str!("claim_rings.md");
    const FOUND: Found = Found::InText(check);
}

fn check(context: &Context<'_>, findings: &mut Vec<Diagnostic>) {
    let of_piece = claims(context, context.claims, findings);
    if let (Some(piece), Some(size), false) = (context.piece, context.weave.size_asked(), of_piece.is_empty()) {
        let counts = Counts::without_length(context.weave, piece);
        for claim in of_piece {
            let there = rings(&counts, claim.word()).into();
            let piece = format!("one piece ({}) has", size.words(counts.lattice));
            findings.extend(
                claim
                    .compared(there, &piece)
                    .map(|(found, say)| found.help(format!("claim {say}, or correct `make` or `ends`"))),
            );
        }
    }
    let of_all = claims(context, context.claims_of_all, findings);
    if of_all.is_empty() {
        return;
    }
    let Some(class) = Class::without_length(context.weave).ok().filter(Class::size_asked) else { return };
    let pieces = match class.pieces() {
        1 => "the one piece has".to_owned(),
        n => format!("the {n} pieces have"),
    };
    for claim in of_all {
        let there = class.sum(|counts| rings(counts, claim.word()));
        findings.extend(
            claim.compared(there, &format!("all together, {pieces}")).map(|(found, say)| {
                found.help(format!("claim {say} in all (spares are not counted), or correct `make`"))
            }),
        );
    }
}

/// A claimed number of rings, and which rings it counts.
struct Claimed<'w> {
    claim: &'w Spanned<Claim>,
    rings: u64,
    which: Option<&'w Spanned<String>>,
}

/// The claims of numbers of rings; those that count unknown rings are found.
fn claims<'w>(context: &Context<'_>, claims: &'w [Spanned<Claim>], findings: &mut Vec<Diagnostic>) -> Vec<Claimed<'w>> {
    let mut all = Vec::new();
    for claim in claims {
        let Claim::Rings { count, which } = &claim.value else { continue };
        match which.as_ref().filter(|which| !known(context, &which.value)) {
            Some(word) => findings.push(unknown(context, word)),
            None => all.push(Claimed { claim, rings: count.value.into(), which: which.as_ref() }),
        }
    }
    all
}

impl Claimed<'_> {
    fn word(&self) -> Option<&str> {
        self.which.map(|w| w.value.as_str())
    }

    /// The finding where another number is there, and what is to be claimed: "19 closed rings". `piece` is what has the
    /// rings, with its verb.
    fn compared(&self, there: u64, piece: &str) -> Option<(Diagnostic, String)> {
        if there == self.rings {
            return None;
        }
        let sort = self.word().map_or(String::new(), |word| match word.to_lowercase().as_str() {
            state @ ("closed" | "open") => format!("{state} "),
            _ => format!("`{word}` "),
        });
        let message = format!("the text says {}; {piece} {there}", count(self.rings, &format!("{sort}ring")));
        let off = format!("{} {}", there.abs_diff(self.rings), if there > self.rings { "more" } else { "fewer" });
        let say = count(there, &format!("{}ring", sort.replace('`', "")));
        Some((ClaimRings::at(self.claim.span, message).label(off), say))
    }
}

/// Whether a word says which rings: a state, a family, a kind, or all accents.
fn known(context: &Context<'_>, word: &str) -> bool {
    let families = &context.pattern.families;
    ["closed", "open", "accent"].contains(&word.to_lowercase().as_str())
        || families.iter().any(|f| f.name.value == word || f.kind == word)
        || context.pattern.kind(word).is_some()
}

/// How many rings a word means. A family takes precedence over a kind of the same name, and `accent` is all
/// accents where nothing else is called so.
fn rings(counts: &Counts, word: Option<&str>) -> u32 {
    let sum = |which: &dyn Fn(&FamilyCount) -> bool| {
        let chosen: Vec<_> = counts.families.iter().filter(|f| which(f)).map(FamilyCount::rings).collect();
        (!chosen.is_empty()).then(|| chosen.iter().sum::<u32>())
    };
    let Some(word) = word else { return counts.rings() };
    match word.to_lowercase().as_str() {
        "closed" => counts.closed(),
        "open" => counts.open(),
        // A kind that no ring is of counts none.
        _ => sum(&|f| f.name == word)
            .or_else(|| sum(&|f| f.kind == word))
            .or_else(|| sum(&|f| f.accent && word.eq_ignore_ascii_case("accent")))
            .unwrap_or_default(),
    }
}

fn unknown(context: &Context<'_>, word: &Spanned<String>) -> Diagnostic {
    let message = format!("no ring and no kind of ring is called `{}`", word.value);
    let found = ClaimRings::at(word.span, message).label("counts nothing");
    let mut names: Vec<&str> =
        context.pattern.families.iter().flat_map(|f| [f.name.value.as_str(), f.kind.as_str()]).collect();
    names.sort_unstable();
    names.dedup();
    let help = format!("write `closed`, `open`, or one of {}", Known::words(names.iter().copied()).list());
    Known::words(names.into_iter().chain(["closed", "open"])).suggest(found, word, || help)
}
