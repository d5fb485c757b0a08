//! All that is known of one weave file: the stages called in order.

mod export;

pub use export::{GraphJson, graph_dot, graph_json};

use crate::notation::{Number, Size, Unit};
use crate::pattern::{self, Bag, Bases, Kind, Make, Pattern, Repeats, WeaveFile};
use crate::report::Diagnostic;
use crate::rings::{Cell, Fingerprint, Graph, Links, Piece, TooMany, TooWide};
use crate::settle::{NotSettled, Settled};
use crate::text::{Source, Sources, Span};
use std::sync::{Arc, OnceLock};

/// One weave, compiled. Nothing in a file keeps it from being made: what could not be read or made sense of is in
/// [`Weave::reading`], or found by [`lint`](crate::lint).
///
/// Its pattern, links, graph and pose always belong together: a changed weave is a new one.
#[derive(Clone, Debug)]
pub struct Weave {
    sources: Sources,
    files: Vec<WeaveFile>,
    reading: Vec<Diagnostic>,
    graph: Graph,
    pose: Pose,
    /// Where its rings lie in each of its sets of rings, in their order.
    poses_of_sets: Vec<Pose>,
}

/// Where rings lie, once somebody asks; shared by all weaves with the same graph in the same rings.
type Pose = Arc<OnceLock<Result<Settled, NotSettled>>>;

impl Weave {
    /// Compiles a text, with its bases from `bases`.
    pub fn compile(source: Source, bases: &dyn Bases) -> Self {
        let (sources, files, reading) = pattern::gather(source, bases);
        let graph = Graph::of(pattern::build(&files));
        let poses_of_sets = unsettled(graph.pattern());
        Self { sources, files, reading, graph, pose: Pose::default(), poses_of_sets }
    }

    /// The texts it was read from: the file asked for, then its bases.
    pub fn sources(&self) -> &Sources {
        &self.sources
    }

    /// What was read from each of them, in the same order.
    pub fn files(&self) -> &[WeaveFile] {
        &self.files
    }

    /// What could not be read.
    pub fn reading(&self) -> &[Diagnostic] {
        &self.reading
    }

    /// Its pattern, links and the graph of one repeat.
    pub fn graph(&self) -> &Graph {
        &self.graph
    }

    /// What its text means.
    pub fn pattern(&self) -> &Pattern {
        self.graph.pattern()
    }

    /// Its links.
    pub fn links(&self) -> &Links {
        self.graph.links()
    }

    /// The graph of one repeat.
    ///
    /// # Errors
    /// [`TooWide`], where one repeat has too many rings to be laid out.
    pub fn cell(&self) -> Result<&Cell, &TooWide> {
        self.graph.cell()
    }

    /// Where its rings lie: worked out when first asked for, which takes from a tenth of a second to some seconds, and
    /// kept.
    ///
    /// # Errors
    /// [`NotSettled`], when the graph is broken or too large, or no pose is found.
    pub fn settled(&self) -> Result<&Settled, &NotSettled> {
        self.pose.get_or_init(|| Settled::of(&self.graph)).as_ref()
    }

    /// The same weave in a set of rings of the text; `None` where there is no such set. It has no claims; its piece is that
    /// of the weave.
    pub fn in_rings(&self, set: &str) -> Option<Self> {
        let mut sets = self.pattern().sets.iter().zip(&self.poses_of_sets);
        let (set, pose) = sets.find(|(s, _)| s.name.value == set)?;
        let graph = self.graph.with(|pattern| {
            pattern.kinds.clone_from(&set.kinds);
            pattern.make.measured = None;
            alone(pattern);
        });
        Some(Self { graph, pose: Arc::clone(pose), poses_of_sets: Vec::new(), ..self.clone() })
    }

    /// Each bag of a kit or class as a weave of its own: in its set of rings, with its size, its number of pieces and its
    /// claims. Settling one settles all in the same rings. A bag whose set the text does not have takes the rings without
    /// a name.
    pub fn bags(&self) -> Vec<Self> {
        let of_bag = |bag: &Bag| {
            let set = bag.rings.as_ref().and_then(|set| self.in_rings(&set.value));
            set.as_ref().unwrap_or(self).reworded(|pattern| {
                alone(pattern);
                pattern.make.clone_from(&bag.make);
                pattern.claims.clone_from(&bag.claims);
            })
        };
        self.pattern().bags.iter().map(of_bag).collect()
    }

    /// The same weave with something else made of it. It shares the pose.
    #[must_use]
    pub fn with_make(&self, make: Make) -> Self {
        self.reworded(|pattern| pattern.make = make)
    }

    /// The same weave with other lines under `rings`, not yet settled.
    #[must_use]
    pub fn with_kinds(&self, kinds: Vec<Kind>) -> Self {
        self.resized(|pattern| pattern.kinds = kinds)
    }

    /// The same weave, its kinds of these sizes (wire and inner diameter, mm) and not yet settled. Kinds that are not
    /// named stay as they are.
    #[must_use]
    pub fn with_sizes(&self, sizes: &[(&str, (f64, f64))]) -> Self {
        let written = |mm: f64| {
            let number = Number { text: mm.to_string(), value: mm };
            Some((Size::new(number, Unit::Mm, Span::new(0, 0, 0)), None))
        };
        let mut kinds = self.pattern().kinds.clone();
        for (name, (wire, inner)) in sizes {
            if !kinds.iter().any(|k| k.name == *name) {
                kinds.push(Kind { name: (*name).to_owned(), ..Kind::default() });
            }
            for kind in kinds.iter_mut().filter(|k| k.name == *name) {
                (kind.wire, kind.inner, kind.aspect_ratio) = (written(*wire), written(*inner), None);
                (kind.measured_wire, kind.measured_inner) = (None, None);
            }
        }
        self.with_kinds(kinds)
    }

    /// What another pattern makes of the same text.
    #[must_use]
    pub(crate) fn with_pattern(&self, pattern: Pattern) -> Self {
        let poses_of_sets = unsettled(&pattern);
        Self { graph: Graph::of(pattern), pose: Pose::default(), poses_of_sets, ..self.clone() }
    }

    /// Other words about the same rings: the pose stays.
    fn reworded(&self, change: impl FnOnce(&mut Pattern)) -> Self {
        Self { graph: self.graph.with(change), ..self.clone() }
    }

    /// The same links in other rings: the pose is another one.
    fn resized(&self, change: impl FnOnce(&mut Pattern)) -> Self {
        Self { pose: Pose::default(), ..self.reworded(change) }
    }

    /// What the weave is called: its name, or the name of its file.
    pub fn name(&self) -> &str {
        match &self.pattern().name {
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

    /// The short name of the canonical form; `None` where the repeat is too large or too alike to compare.
    pub fn fingerprint(&self) -> Option<Fingerprint> {
        self.graph.fingerprint()
    }

    /// The piece of this size.
    ///
    /// # Errors
    /// [`TooMany`] beyond the most rings a piece may have.
    pub fn piece(&self, size: Repeats) -> Result<Piece, TooMany> {
        self.graph.piece(size)
    }
}

/// A pose for each set of rings, none of them asked for yet.
fn unsettled(pattern: &Pattern) -> Vec<Pose> {
    pattern.sets.iter().map(|_| Pose::default()).collect()
}

/// Leaves out bags, sets and claims.
fn alone(pattern: &mut Pattern) {
    pattern.bags.clear();
    pattern.sets.clear();
    pattern.claims.clear();
    pattern.claims_of_all.clear();
}
