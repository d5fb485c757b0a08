//! Whether instructions lay rings as the weave has them.

use super::check::{Checker, LIES_OTHERWISE};
use super::events::{InText, Name};
use super::would_make::would_lie;
use crate::pattern::Lies;

impl Checker<'_> {
    /// How rings lie, where the weave says how.
    pub(super) fn lies(&mut self, told: &InText<Lies<Name>>) {
        let Some(right) = self.contradicted(&told.what) else { return };
        let made = would_lie(self.expected, &told.what).map_or(String::new(), |made| format!("; {made}"));
        let message = format!("the text says {}; in the weave {}{made}", words(&told.what), words(&right));
        self.find(LIES_OTHERWISE, &told.span, message, "it lies otherwise");
    }

    /// What the weave says instead of it.
    fn contradicted(&self, told: &Lies<Name>) -> Option<Lies<Name>> {
        let in_the_weave = &self.expected.lies;
        let either = |one: Lies<Name>, other: Lies<Name>| [one, other].into_iter().find(|l| in_the_weave.contains(l));
        match told {
            Lies::Behind(a, b) => either(Lies::Behind(b.clone(), a.clone()), Lies::Over(a.clone(), b.clone())),
            Lies::Over(a, b) => either(Lies::Over(b.clone(), a.clone()), Lies::Behind(a.clone(), b.clone())),
            Lies::On(a, side) => Some(Lies::On(a.clone(), side.other())).filter(|l| in_the_weave.contains(l)),
            Lies::Between(a, ..) => {
                let other = |l: &&Lies<Name>| matches!(l, Lies::Between(b, ..) if b == a) && !alike(l, told);
                in_the_weave.iter().find(other).cloned()
            }
            Lies::Folded(a, b) => {
                let shares =
                    |l: &&Lies<Name>| matches!(l, Lies::Folded(..)) && l.rings().iter().any(|r| [a, b].contains(r));
                let right = in_the_weave.iter().any(|l| alike(l, told));
                in_the_weave.iter().find(shares).filter(|_| !right).cloned()
            }
            Lies::Turning(_) => None,
        }
    }
}

/// Whether two say the same: of two rings between which one lies, or which are folded back, either may be named first.
fn alike(one: &Lies<Name>, other: &Lies<Name>) -> bool {
    let same = |one: [&Name; 2], [first, second]: [&Name; 2]| one == [first, second] || one == [second, first];
    match (one, other) {
        (Lies::Between(ring, a, b), Lies::Between(with, c, d)) => ring == with && same([a, b], [c, d]),
        (Lies::Folded(a, b), Lies::Folded(c, d)) => same([a, b], [c, d]),
        _ => one == other,
    }
}

/// How rings lie, in words.
fn words(lies: &Lies<Name>) -> String {
    match lies {
        Lies::Behind(a, b) => format!("{a} lies behind {b}"),
        Lies::Over(a, b) => format!("{a} lies over {b}"),
        Lies::On(a, side) => format!("{a} lies on the {} side", side.word()),
        Lies::Between(a, b, c) => format!("{a} lies between {b} and {c}"),
        Lies::Folded(a, b) => format!("{a} and {b} are folded back"),
        Lies::Turning(hand) => format!("each repeat is turned to the {}", hand.word()),
    }
}
