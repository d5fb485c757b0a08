//! The order of work in plain English: numbered items of short sentences, one action each, in the words that
//! `grammar/steps.pest` reads back.

use super::colours::RingColours;
use super::order::{ClosedTogether, Order};
use super::tell::Teller;
use crate::count::{Counts, sold_and_measured};
use crate::notation::State;
use crate::pattern::{KindSize, Lattice, Repeats};
use crate::rings::{Piece, TooMany};
use crate::settle::Settled;
use crate::text::{count, half_up};
use crate::weave::Weave;

/// Why there are no instructions.
#[derive(Clone, Debug, thiserror::Error)]
pub enum NotTold {
    /// The piece would have too many rings.
    #[error("it has {} rings, more than can be made", .0.rings)]
    TooMany(TooMany),
    /// Two closed rings are linked, so nobody can weave it: their names.
    #[error("{0} and {1} are both closed and linked, so there is no order of work; one must be open")]
    ClosedTogether(String, String),
    /// It has no ring that is woven in.
    #[error("it has no ring to weave in; declare one `open` and say what it passes")]
    NoSteps,
    /// No step is repeated, and this number of steps is too many to read.
    #[error("its instructions would have {0} steps, because no step is repeated; ask for a shorter piece")]
    TooLong(usize),
}

/// The most numbered items.
pub(super) const MOST_ITEMS: usize = 2000;

/// A numbered item.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// Its sentences.
    pub words: String,
    /// The step of the order of work it tells, from 0, where it tells just one.
    pub step: Option<usize>,
    /// Whether it is part of an accent's pass over the finished base.
    pub accent: bool,
}

/// Instructions for a piece.
#[derive(Clone, Debug)]
pub struct Instructions {
    /// What is needed, each a line of a list.
    pub needs: Vec<String>,
    /// The numbered items, in order.
    pub items: Vec<Item>,
    title: String,
    used: String,
    lattice: Lattice,
}

impl Instructions {
    /// Instructions for a piece of this size. With a settled weave, fronts face the maker and the text tells the lean.
    ///
    /// # Errors
    /// [`NotTold`].
    pub fn of(weave: &Weave, settled: Option<&Settled>, size: Repeats) -> Result<Self, NotTold> {
        let piece = weave.piece(size).map_err(NotTold::TooMany)?;
        let order = Order::of(weave.pattern(), &piece).map_err(|ClosedTogether { one, other }| {
            NotTold::ClosedTogether(piece.ring_name(weave.pattern(), one), piece.ring_name(weave.pattern(), other))
        })?;
        if order.steps.is_empty() {
            return Err(NotTold::NoSteps);
        }
        let mut teller = Teller::of(weave, settled, &piece, &order);
        teller.begin();
        for part in &order.parts {
            teller.part(part, 0)?;
        }
        teller.finish(settled);
        Ok(Self {
            needs: needs(weave, &piece),
            items: teller.items,
            title: weave.name().to_owned(),
            used: weave.used(),
            lattice: weave.pattern().lattice,
        })
    }

    /// All of it as Markdown (`CommonMark`). `picture` gives for an item, by its number from 1, where its picture is.
    pub fn markdown(&self, picture: impl Fn(usize) -> Option<String>) -> String {
        let mut out = format!("# {}\n\n", self.title);
        if !self.used.is_empty() {
            out.push_str(&format!("{}\n\n", self.used));
        }
        out.push_str("## What you need\n\n");
        for need in &self.needs {
            out.push_str(&format!("- {need}\n"));
        }
        out.push_str(&format!("\n{}\n\n## How it goes\n\n", self.how_to_read()));
        if (1..=self.items.len()).any(|n| picture(n).is_some()) {
            out.push_str("The pictures show a shorter piece where that shows as much. The ring that is added is dark; the rings it passes are numbered in the order it goes.\n\n");
        }
        for (item, number) in self.items.iter().zip(1_usize..) {
            let before = number.checked_sub(2).and_then(|n| self.items.get(n));
            if item.accent && before.is_some_and(|b| !b.accent) {
                out.push_str("\n## The accents\n\n");
            }
            out.push_str(&format!("{number}. {}\n", item.words));
            if let Some(picture) = picture(number).filter(|_| item.step.is_some()) {
                let indent = " ".repeat(number.to_string().len() + 2);
                out.push_str(&format!("\n{indent}![Step {number}]({picture})\n\n"));
            }
        }
        out.push_str(&format!("\n## Mind your hands\n\n{CAUTIONS}\n"));
        out
    }

    fn how_to_read(&self) -> String {
        let names = match self.lattice {
            Lattice::Unit => "",
            Lattice::Chain => " A ring is called by its letter and its number: b2 is the second b.",
            Lattice::Sheet => {
                " A ring is called by its letter, its row and its place in it: b2.3 is the third b of the second row."
            }
        };
        format!(
            "Work from left to right, the front towards you. Down through a ring is away from you, up is towards you.{names}"
        )
    }
}

/// The usual cautions (ANSI/ISEA Z87.1, EN 166; 16 CFR 1501; EU REACH Annex XVII, entry 27).
const CAUTIONS: &str = "Wear eye protection when you cut wire, and rest hands and wrists. Small rings are not for children \
under three. Nickel can harm whoever wears it. Local codes and licensed practice come first.";

/// The aspect ratio of the rings as they are sold, like the sizes before it, and as measured.
fn ratio(size: &KindSize) -> Option<String> {
    let counts = half_up(size.aspect_ratio?, 2);
    Some(match size.sold_as() {
        Some(sold) => format!("AR {:.2} (measured {counts:.2})", half_up(sold, 2)),
        None => format!("AR {counts:.2}"),
    })
}

/// The rings of every family, as a list to have at hand.
fn needs(weave: &Weave, piece: &Piece) -> Vec<String> {
    let counts = Counts::without_length(weave, piece);
    let colours = RingColours::of(weave.pattern(), piece);
    let mut all = Vec::new();
    for family in &counts.families {
        let kind = counts.kinds.iter().find(|k| k.name == family.kind);
        let mut words = Vec::new();
        if counts.kinds.len() > 1 {
            words.push(family.kind.clone());
        }
        if let Some(kind) = kind {
            let mm = kind.size.as_ref();
            let [wire, inner] = sold_and_measured(kind);
            words.extend(wire.map(|size| format!("wire {size}")));
            words.extend(inner.map(|size| format!("inner diameter {size}")));
            words.extend(mm.and_then(ratio));
            words.extend(kind.material.clone());
        }
        for (rings, state) in [(family.closed, State::Closed), (family.open, State::Open)] {
            if rings > 0 {
                let coloured = colours.told(family.name.as_str(), state);
                let more: String = words.iter().chain(&coloured).map(|w| format!(", {w}")).collect();
                all.push(format!("{} {}, {}{more}", count(rings, "ring"), family.name, state.word()));
            }
        }
    }
    all
}
