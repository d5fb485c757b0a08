use super::{FamilyId, Lies, PerFamily, Shift};
use crate::notation::{Along, Claim, EndVerb, Hand, MakePart, Size, State};
use crate::text::{Span, Spanned};
use schemars::JsonSchema;
use serde::Serialize;

/// Along how many ways a piece repeats.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Lattice {
    /// Not at all.
    Unit,
    /// Along one index.
    Chain,
    /// Along rows and columns.
    Sheet,
}

impl Lattice {
    /// How many indices a ring has.
    pub fn dimensions(self) -> usize {
        match self {
            Self::Unit => 0,
            Self::Chain => 1,
            Self::Sheet => 2,
        }
    }

    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Unit => "unit",
            Self::Chain => "chain",
            Self::Sheet => "sheet",
        }
    }
}

/// A family of rings, one per repeat.
#[derive(Clone, Debug)]
pub struct Family {
    /// Its name, where it is declared.
    pub name: Spanned<String>,
    /// Its kind.
    pub kind: String,
    /// Closed before weaving, or open.
    pub state: State,
    /// The accent it belongs to, by number.
    pub accent: Option<usize>,
    /// Whether it came with a base.
    pub from_base: bool,
}

/// Rings on every K-th repeat from S on, along each way of the piece.
#[derive(Clone, Debug)]
pub struct Accent {
    /// Every how many repeats, at least 1.
    pub every: Shift,
    /// The first repeat, from 1.
    pub from: Shift,
    /// The heading's words.
    pub span: Span,
}

/// A ring named in a statement, by family and shift from the ring the statement is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Target {
    /// Family number.
    pub family: FamilyId,
    /// Shift.
    pub offset: Shift,
    /// The words that name it.
    pub span: Span,
}

/// In what sense a ring passes the rings of a [`Meet`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sense {
    /// Both in the same direction.
    Through,
    /// In opposite directions.
    Around,
    /// Front to back.
    Down,
    /// Back to front.
    Up,
}

/// One passing of a ring or an eye.
#[derive(Clone, Debug)]
pub struct Meet {
    /// One ring, or the two of an eye.
    pub at: Vec<Target>,
    /// Whether it was called an eye.
    pub eye: bool,
    /// In what sense.
    pub sense: Sense,
    /// The words of the clause.
    pub span: Span,
}

/// One statement of passes.
#[derive(Clone, Debug)]
pub struct Pass {
    /// The family whose ring passes.
    pub family: FamilyId,
    /// What it passes, in order.
    pub meets: Vec<Meet>,
    /// The accent it stands under.
    pub accent: Option<usize>,
    /// Whether `mirrored` turns its passes round.
    pub mirrored: bool,
    /// The words that name the passing ring.
    pub ring: Span,
    /// The whole statement.
    pub span: Span,
}

/// A statement about lying.
#[derive(Clone, Debug)]
pub struct Lying {
    /// What it says. Shifts are from the first ring named.
    pub lies: Lies<Target>,
    /// The accent it stands under.
    pub accent: Option<usize>,
    /// Its words.
    pub span: Span,
}

/// Which repeats a line of `ends` means, along one way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndPlace {
    /// This repeat, from 1.
    At(i32),
    /// So many after the last.
    Last(i32),
    /// Each.
    All,
}

/// A change at the ends.
#[derive(Clone, Debug)]
pub struct End {
    /// What is done.
    pub verb: EndVerb,
    /// The family.
    pub family: FamilyId,
    /// Where, one per index.
    pub at: Vec<EndPlace>,
    /// The words that name the ring.
    pub span: Span,
}

/// Sizes and material of a kind of ring, as written.
#[derive(Clone, Debug, Default)]
pub struct Kind {
    /// Name, where it is said.
    pub name: String,
    /// The words of the name.
    pub span: Option<Span>,
    /// Wire diameter the rings are sold by, and the same again.
    pub wire: Option<(Size, Option<Size>)>,
    /// Inner diameter the rings are sold by, and the same again.
    pub inner: Option<(Size, Option<Size>)>,
    /// Wire diameter as measured.
    pub measured_wire: Option<Size>,
    /// Inner diameter as measured.
    pub measured_inner: Option<Size>,
    /// Aspect ratio.
    pub aspect_ratio: Option<Spanned<f64>>,
    /// Material as written.
    pub material: Option<Spanned<String>>,
    /// Colour.
    pub colour: Option<String>,
}

/// Colours of a family in turn.
#[derive(Clone, Debug)]
pub struct ColourPattern {
    /// The family.
    pub family: FamilyId,
    /// The way they run over a sheet.
    pub by: Along,
    /// The colours, at least one.
    pub colours: Vec<String>,
}

/// How much to make.
#[derive(Clone, Debug, Default)]
pub struct Make {
    /// Finished length, clasp included.
    pub length: Option<Size>,
    /// Length of the clasp.
    pub clasp: Option<Size>,
    /// Repeats of a chain.
    pub repeats: Option<Spanned<u32>>,
    /// Rows of a sheet.
    pub rows: Option<Spanned<u32>>,
    /// Columns of a sheet.
    pub columns: Option<Spanned<u32>>,
    /// Height of a sheet: along its rows, one below the other.
    pub height: Option<Size>,
    /// Width of a sheet: along its columns.
    pub width: Option<Size>,
    /// Pieces alike.
    pub pieces: Option<Spanned<u32>>,
    /// Rings to have at hand beyond those of the pieces, percent.
    pub spares: Option<f64>,
    /// So many repeats measured so long.
    pub measured: Option<(u32, Size)>,
}

/// A set of rings with a name: the same weave in other sizes or materials.
#[derive(Clone, Debug)]
pub struct RingSet {
    /// Its name.
    pub name: Spanned<String>,
    /// The kinds as the set has them: what its own lines do not say is as under `rings`.
    pub kinds: Vec<Kind>,
}

impl RingSet {
    /// What the lines of the set do not say is as under `rings`: of wire, inner diameter and aspect ratio, where the set says
    /// two, nothing else; where it says the ratio alone, the wire.
    pub(super) fn fill(&mut self, shared: &[Kind]) {
        for own in &mut self.kinds {
            let Some(other) = shared.iter().find(|k| k.name == own.name) else { continue };
            let ratio = own.aspect_ratio.is_some();
            // What was measured is of the rings sold by that size, and of no others.
            if own.measured_wire.is_none() && own.wire.is_none() && !ratio {
                own.measured_wire.clone_from(&other.measured_wire);
            }
            if own.measured_inner.is_none() && own.inner.is_none() && !ratio {
                own.measured_inner.clone_from(&other.measured_inner);
            }
            if own.wire.is_none() && !(ratio && own.inner.is_some()) {
                own.wire.clone_from(&other.wire);
            }
            if own.inner.is_none() && !ratio {
                own.inner.clone_from(&other.inner);
            }
            own.material = own.material.take().or_else(|| other.material.clone());
            own.colour = own.colour.take().or_else(|| other.colour.clone());
        }
        let missing = shared.iter().filter(|k| !self.kinds.iter().any(|own| own.name == k.name));
        let missing: Vec<Kind> = missing.cloned().collect();
        self.kinds.extend(missing);
    }
}

/// A bag of a kit or a class: pieces of its own, of one size.
#[derive(Clone, Debug)]
pub struct Bag {
    /// Its name.
    pub name: Spanned<String>,
    /// The set of rings it is made of, where it is said.
    pub rings: Option<Spanned<String>>,
    /// How much to make: as it says itself, or else as the lines without a name do.
    pub make: Make,
    /// What is claimed of it.
    pub claims: Vec<Spanned<Claim>>,
}

impl Make {
    /// What `shared` says where this says nothing. A length and a number of repeats, and so along each way of a sheet, are
    /// two words for one thing: of those the own counts alone. A sample was measured of the rings under `rings`, and says
    /// nothing of others.
    fn over(self, shared: &Self, own_rings: bool) -> Self {
        let chain = self.length.is_some() || self.repeats.is_some();
        let (rows, columns) =
            (self.height.is_some() || self.rows.is_some(), self.width.is_some() || self.columns.is_some());
        Self {
            length: self.length.or_else(|| shared.length.clone().filter(|_| !chain)),
            repeats: self.repeats.or_else(|| shared.repeats.clone().filter(|_| !chain)),
            height: self.height.or_else(|| shared.height.clone().filter(|_| !rows)),
            rows: self.rows.or_else(|| shared.rows.clone().filter(|_| !rows)),
            width: self.width.or_else(|| shared.width.clone().filter(|_| !columns)),
            columns: self.columns.or_else(|| shared.columns.clone().filter(|_| !columns)),
            clasp: self.clasp.or_else(|| shared.clasp.clone()),
            pieces: self.pieces.or_else(|| shared.pieces.clone()),
            spares: self.spares.or(shared.spares),
            measured: self.measured.or_else(|| shared.measured.clone().filter(|_| !own_rings)),
        }
    }

    /// Fills in what bags leave to the lines without a name; and where those say no size, the size of the first bag.
    pub(super) fn share(&mut self, bags: &mut [Bag]) {
        for bag in bags.iter_mut() {
            bag.make = std::mem::take(&mut bag.make).over(self, bag.rings.is_some());
        }
        if let Some(first) = bags.first().filter(|_| !self.says_size()) {
            let pieces = self.pieces.take();
            let measured = self.measured.take();
            *self = Self { pieces, measured, ..first.make.clone() };
        }
    }

    /// Whether anything is said of how large a piece is.
    fn says_size(&self) -> bool {
        let numbers = [&self.repeats, &self.rows, &self.columns];
        let lengths = [&self.length, &self.height, &self.width];
        numbers.into_iter().any(Option::is_some) || lengths.into_iter().any(Option::is_some)
    }

    /// One part of a line of `make`.
    pub(super) fn take(&mut self, part: &Spanned<MakePart>) {
        match &part.value {
            MakePart::Length(size) => self.length = Some(size.clone()),
            MakePart::Clasp(size) => self.clasp = Some(size.clone()),
            MakePart::Repeats(n) => self.repeats = Some(Spanned::new(*n, part.span)),
            MakePart::Rows(n) => self.rows = Some(Spanned::new(*n, part.span)),
            MakePart::Columns(n) => self.columns = Some(Spanned::new(*n, part.span)),
            MakePart::Pieces(n) => self.pieces = Some(Spanned::new(*n, part.span)),
            MakePart::Height(size) => self.height = Some(size.clone()),
            MakePart::Width(size) => self.width = Some(size.clone()),
            MakePart::Spares(number) => self.spares = Some(number.value),
            MakePart::Measured(n, size) => self.measured = Some((*n, size.clone())),
        }
    }

    /// Takes this for the size of the piece, where there is one.
    pub(crate) fn take_size(&mut self, lattice: Lattice, size: Option<super::Repeats>) {
        let Some(size) = size else { return };
        let [one, two] = size.0.map(|n| Some(Spanned::new(n, Span::new(0, 0, 0))));
        match lattice {
            Lattice::Unit => {}
            Lattice::Chain => self.repeats = one,
            Lattice::Sheet => (self.rows, self.columns) = (one, two),
        }
    }
}

/// What a weave file means.
#[derive(Clone, Debug)]
pub struct Pattern {
    /// The name.
    pub name: Option<Spanned<String>>,
    /// Unit, chain or sheet.
    pub lattice: Lattice,
    /// The names of the indices, in order.
    pub indices: Vec<String>,
    /// Whether repeats may turn about the length.
    pub spiral: bool,
    /// Families of rings.
    pub families: PerFamily<Family>,
    /// Accents.
    pub accents: Vec<Accent>,
    /// Passes.
    pub passes: Vec<Pass>,
    /// Lying.
    pub lying: Vec<Lying>,
    /// `lean` statements; more than one is a fault unless they agree.
    pub lean: Vec<Spanned<Hand>>,
    /// Changes at the ends.
    pub ends: Vec<End>,
    /// Kinds with sizes.
    pub kinds: Vec<Kind>,
    /// Colour patterns.
    pub colours: Vec<ColourPattern>,
    /// How much to make.
    pub make: Make,
    /// Sets of rings with a name, in the order they are first named.
    pub sets: Vec<RingSet>,
    /// Bags of a kit or a class, in order.
    pub bags: Vec<Bag>,
    /// Claims of the file asked for, of its piece.
    pub claims: Vec<Spanned<Claim>>,
    /// Claims of all that is made.
    pub claims_of_all: Vec<Spanned<Claim>>,
    /// False where a statement or a name was left out.
    pub whole: bool,
}

impl Pattern {
    /// The family with this name.
    pub fn family(&self, name: &str) -> Option<FamilyId> {
        self.families.find(|f| f.name.value == name)
    }

    /// The name of a family.
    pub fn family_name(&self, family: FamilyId) -> &str {
        &self.families[family].name.value
    }

    /// The accent that a family belongs to.
    pub fn accent_of(&self, family: FamilyId) -> Option<&Accent> {
        self.families[family].accent.and_then(|accent| self.accents.get(accent))
    }

    /// The kind with this name, if it has sizes.
    pub fn kind(&self, name: &str) -> Option<&Kind> {
        self.kinds.iter().find(|k| k.name == name)
    }

    /// The lean that is stated.
    pub fn stated_lean(&self) -> Option<Hand> {
        self.lean.first().map(|l| l.value)
    }

    /// A ring's name as a maker writes it: `b[n-1]`.
    pub fn ring_name(&self, target: &Target) -> String {
        let family = self.family_name(target.family);
        let index: Vec<String> = self
            .indices
            .iter()
            .zip(target.offset.to_array())
            .map(|(name, step)| if step == 0 { name.clone() } else { format!("{name}{step:+}") })
            .collect();
        if index.is_empty() { family.to_owned() } else { format!("{family}[{}]", index.join(",")) }
    }
}
