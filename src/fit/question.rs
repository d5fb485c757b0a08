//! What is asked, and which way it is answered.

use super::answer::{Fit, Held, NotFitted};
use super::offer::Offers;
use super::{beside, pairs, ratio};
use crate::Weave;
use crate::settle::Settled;
use crate::shelf::Shelf;

/// Which rings make a weave: of a shelf, or, without one, of the sizes in common use. Of two kinds at most `most` pairs come
/// out, each settled; of one kind all sizes that close.
///
/// # Errors
/// [`NotFitted`].
pub fn fit(weave: &Weave, shelf: Option<&Shelf>, most: usize) -> Result<Fit, NotFitted> {
    let offers = offers(shelf)?;
    let kinds = kinds(weave);
    if kinds.len() > 2 {
        return Err(NotFitted::TooManyKinds(kinds));
    }
    let settled = settled(weave)?;
    let mut fit = Fit::new(weave, settled, kinds, offers);
    fit.base_floor = base_floor(weave, &fit.kinds);
    if fit.kinds.len() == 1 && !has_accents(weave) {
        ratio::choose(&mut fit, weave, settled);
    } else {
        pairs::choose(&mut fit, weave, settled, most);
    }
    Ok(fit.in_order())
}

/// Which rings make a weave as rings of one kind, the others being as the text has them: of a shelf, or, without one, of the
/// sizes in common use. For each of the `most` rows that are asked for two sizes are settled, and all that close come out.
///
/// # Errors
/// [`NotFitted`]; also where there is no such kind, or where the text does not give the size of another.
pub fn fit_kind(weave: &Weave, kind: &str, shelf: Option<&Shelf>, most: usize) -> Result<Fit, NotFitted> {
    let offers = offers(shelf)?;
    let kinds = kinds(weave);
    if !kinds.iter().any(|k| k == kind) {
        return Err(NotFitted::NoSuchKind { kind: kind.to_owned(), kinds });
    }
    if kinds.len() == 1 {
        return fit(weave, shelf, most);
    }
    let held = all_written(weave, kinds.iter().filter(|k| *k != kind))?;
    let settled = settled(weave)?;
    let mut fit = Fit::new(weave, settled, vec![kind.to_owned()], offers);
    fit.held = held;
    beside::choose(&mut fit, weave, settled, most);
    Ok(fit.in_order())
}

fn offers(shelf: Option<&Shelf>) -> Result<Offers, NotFitted> {
    let offers = Offers::of(shelf);
    if offers.sizes.is_empty() { Err(NotFitted::NoRings) } else { Ok(offers) }
}

fn settled(weave: &Weave) -> Result<&Settled, NotFitted> {
    weave.settled().map_err(|why| NotFitted::NotSettled(why.clone()))
}

/// The sizes the text gives these kinds; an error names all it does not give.
fn all_written<'k>(weave: &Weave, kinds: impl Iterator<Item = &'k String>) -> Result<Vec<Held>, NotFitted> {
    let (mut held, mut open) = (Vec::new(), Vec::new());
    for kind in kinds {
        match beside::as_written(weave, kind) {
            Some(own) => held.push(own),
            None => open.push(kind.clone()),
        }
    }
    if open.is_empty() { Ok(held) } else { Err(NotFitted::OthersOpen(open)) }
}

/// The kinds of a weave, the first family's first.
fn kinds(weave: &Weave) -> Vec<String> {
    let mut kinds: Vec<String> = Vec::new();
    for family in &weave.pattern().families {
        if !kinds.contains(&family.kind) {
            kinds.push(family.kind.clone());
        }
    }
    kinds
}

fn has_accents(weave: &Weave) -> bool {
    weave.pattern().families.iter().any(|family| family.accent.is_some())
}

/// The smallest aspect ratio with which the base closes without its accents, where it is of the first kind alone.
fn base_floor(weave: &Weave, kinds: &[String]) -> Option<f64> {
    let mut base = weave.pattern().families.iter().filter(|family| family.accent.is_none());
    if !has_accents(weave) || !base.all(|family| Some(&family.kind) == kinds.first()) {
        return None;
    }
    Settled::of_base(weave.graph()).ok()?.floors.first().map(|floor| floor.found)
}
