//! All that is known of one weave file: the stages called in order.

use crate::notation::{self, Number, Unit};
use crate::pattern::{self, Bag, Bases, Kind, Lattice, Pattern, RingSet, WeaveFile};
use crate::report::Diagnostic;
use crate::rings::{Cell, Fingerprint, Links, Piece, Size, TooMany, TooWide, fingerprint};
use crate::settle::{NotSettled, Settled};
use crate::text::{Source, Sources, Span};
use std::sync::{Arc, OnceLock};

/// One weave, compiled. Nothing in a file keeps it from being made: what could not be read or made
/// sense of is in `reading`, or found by [`lint`](crate::lint).
#[derive(Clone, Debug)]
pub struct Weave {
    /// The texts it was read from: the file asked for, then its bases.
    pub sources: Sources,
    /// What was read from each of them, in the same order.
    pub files: Vec<WeaveFile>,
    /// What could not be read.
    pub reading: Vec<Diagnostic>,
    /// What it means.
    pub pattern: Pattern,
    /// Its links.
    pub links: Links,
    /// The graph of one repeat.
    pub cell: Result<Cell, TooWide>,
    /// Where its rings lie, once somebody asks; the same for whatever is the same weave in the same rings.
    settled: Arc<OnceLock<Result<Settled, NotSettled>>>,
    /// The same weave in each of its sets of rings, in their order.
    in_sets: OnceLock<Vec<Self>>,
}

impl Weave {
    /// Compiles a text, with its bases from `bases`.
    pub fn compile(source: Source, bases: &dyn Bases) -> Self {
        let (sources, files, reading) = pattern::gather(source, bases);
        let pattern = pattern::build(&files);
        let links = Links::of(&pattern);
        let cell = Cell::of(&pattern, &links);
        Self { sources, files, reading, pattern, links, cell, settled: Arc::default(), in_sets: OnceLock::new() }
    }

    /// Where its rings lie: worked out when first asked for, which takes from a tenth of a second to some
    /// seconds, and kept.
    ///
    /// # Errors
    /// [`NotSettled`], when the graph is broken or too large, or no pose is found.
    pub fn settled(&self) -> Result<&Settled, &NotSettled> {
        self.settled.get_or_init(|| Settled::of(self)).as_ref()
    }

    /// The same weave in a set of rings of the text; `None` where there is no such set. Nothing is claimed of it, and the
    /// piece is that of the weave.
    pub fn in_rings(&self, set: &str) -> Option<&Self> {
        let all = self.in_sets.get_or_init(|| self.pattern.sets.iter().map(|set| self.made_of(set)).collect());
        let number = self.pattern.sets.iter().position(|s| s.name.value == set)?;
        all.get(number)
    }

    fn made_of(&self, set: &RingSet) -> Self {
        let mut weave = Self { settled: Arc::default(), in_sets: OnceLock::new(), ..self.clone() };
        weave.pattern.kinds.clone_from(&set.kinds);
        weave.pattern.make.measured = None;
        weave.alone()
    }

    /// Each bag of a kit or class as a weave of its own: in its set of rings, with its size, its number of pieces and its
    /// claims. Settling one settles all in the same rings. A bag of a set that the text does not have is of the rings that
    /// have no name.
    pub fn bags(&self) -> Vec<Self> {
        let bag = |bag: &Bag| {
            let set = bag.rings.as_ref().and_then(|set| self.in_rings(&set.value));
            let mut weave = set.unwrap_or(self).clone().alone();
            weave.pattern.make.clone_from(&bag.make);
            weave.pattern.claims.clone_from(&bag.claims);
            weave
        };
        self.pattern.bags.iter().map(bag).collect()
    }

    /// Without bags, sets and claims.
    fn alone(mut self) -> Self {
        self.pattern.bags.clear();
        self.pattern.sets.clear();
        self.pattern.claims.clear();
        self.pattern.claims_of_all.clear();
        self.in_sets = OnceLock::new();
        self
    }

    /// What another pattern makes of the same text.
    #[must_use]
    pub(crate) fn with(&self, pattern: Pattern) -> Self {
        let links = Links::of(&pattern);
        let cell = Cell::of(&pattern, &links);
        Self { pattern, links, cell, settled: Arc::default(), in_sets: OnceLock::new(), ..self.clone() }
    }

    /// The same weave, its kinds of these sizes (wire and inner diameter, mm) and not yet settled. Kinds that are not
    /// named stay as they are.
    #[must_use]
    pub fn with_sizes(&self, sizes: &[(&str, (f64, f64))]) -> Self {
        let mut weave = Self { settled: Arc::default(), in_sets: OnceLock::new(), ..self.clone() };
        for (name, (wire, inner)) in sizes {
            let written = |mm: f64| {
                let number = Number { text: mm.to_string(), value: mm };
                Some((notation::Size::new(number, Unit::Mm, Span::new(0, 0, 0)), None))
            };
            let kinds = &mut weave.pattern.kinds;
            if !kinds.iter().any(|k| k.name == *name) {
                kinds.push(Kind { name: (*name).to_owned(), ..Kind::default() });
            }
            for kind in kinds.iter_mut().filter(|k| k.name == *name) {
                (kind.wire, kind.inner, kind.aspect_ratio) = (written(*wire), written(*inner), None);
                (kind.measured_wire, kind.measured_inner) = (None, None);
            }
        }
        weave
    }

    /// What the weave is called: its name, or the name of its file.
    pub fn name(&self) -> &str {
        match &self.pattern.name {
            Some(name) => &name.value,
            None => self.sources.get(0).map_or("?", Source::name),
        }
    }

    /// What it is for, as its text says: the comment above its first statement, in one line; empty where there is none.
    pub fn used(&self) -> String {
        let first = self.files.first().and_then(|file| file.tree.statements.first());
        let comment = first.map(|s| s.above.join(" ")).unwrap_or_default();
        comment.replace('#', "").split_whitespace().collect::<Vec<_>>().join(" ")
    }

    /// The canonical form's short name; `None` where the repeat is too large or too alike to compare.
    pub fn fingerprint(&self) -> Option<Fingerprint> {
        self.cell.as_ref().ok().and_then(|cell| fingerprint(&self.pattern, cell))
    }

    /// How many repeats the file asks for, if it says: by number, or by a length and the length of a repeat, as
    /// measured or else as computed. A number of 0 is taken as 1. The weave is settled only where nothing but a
    /// length is given.
    pub fn size_asked(&self) -> Option<Size> {
        let make = &self.pattern.make;
        let number = |n: &Option<crate::text::Spanned<u32>>| n.as_ref().map(|n| n.value.max(1));
        match self.pattern.lattice {
            Lattice::Unit => Some(Size([1, 1])),
            Lattice::Chain => {
                number(&make.repeats).or_else(|| crate::supply::repeats_for_length(self)).map(|n| Size([n, 1]))
            }
            Lattice::Sheet => {
                let [rows, columns] = [number(&make.rows), number(&make.columns)];
                let missing = rows.is_none() || columns.is_none();
                let [height, width] = if missing { crate::supply::repeats_for_extent(self) } else { [None, None] };
                Some(Size([rows.or(height)?, columns.or(width)?]))
            }
        }
    }

    /// The size asked for, or one just large enough to show both ends, the inside and every accent.
    pub fn size(&self) -> Size {
        self.size_asked().unwrap_or_else(|| {
            let mut least = [8_u32, 8];
            for link in &self.links.links {
                for (least, offset) in least.iter_mut().zip(link.offset) {
                    *least = (*least).max(2 * offset.unsigned_abs() + 4);
                }
            }
            for accent in &self.pattern.accents {
                for ((least, from), every) in least.iter_mut().zip(accent.from).zip(accent.every) {
                    *least = (*least).max(from.unsigned_abs().saturating_add(3 * every.unsigned_abs()).min(100_000));
                }
            }
            // What nobody asked for must not be too large.
            let room = 200_000 / u32::try_from(self.pattern.families.len()).unwrap_or(1).max(1);
            match self.pattern.lattice {
                Lattice::Unit => Size([1, 1]),
                Lattice::Chain => Size([least[0].min(room), 1]),
                Lattice::Sheet => Size(least.map(|n| n.min(room.isqrt().max(8)))),
            }
        })
    }

    /// The piece of the given size.
    ///
    /// # Errors
    /// [`TooMany`] beyond the most rings a piece may have.
    pub fn piece(&self, size: Size) -> Result<Piece, TooMany> {
        Piece::expand(&self.pattern, &self.links, size)
    }
}
