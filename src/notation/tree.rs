//! What was read: a flat list of statements in the order of the file, each with its place.

use super::size::{Number, Size, Unit};
use crate::text::{Span, Spanned};
use schemars::JsonSchema;
use serde::Serialize;

/// One weave file as read. A statement belongs to the heading before it.
#[derive(Clone, Debug, Default)]
pub struct Tree {
    /// The statements, in the order of the file.
    pub statements: Vec<Statement>,
    /// Comment lines at the top, with a blank line between them and the first statement.
    pub opening: Vec<String>,
    /// Comment lines after the last statement.
    pub closing: Vec<String>,
}

impl Tree {
    /// Every statement, and the set of rings whose heading it is under; `None` for the rings without a name.
    pub fn with_sets(&self) -> impl Iterator<Item = (&Statement, Option<&Spanned<String>>)> {
        let mut set = None;
        self.statements.iter().map(move |statement| {
            match &statement.what {
                What::Rings(name) => set = name.as_ref(),
                What::Kind { .. } => {}
                other if other.stands_anywhere() => {}
                _ => set = None,
            }
            (statement, set)
        })
    }
}

/// A statement and the comments that go with it.
#[derive(Clone, Debug)]
pub struct Statement {
    /// What it says.
    pub what: What,
    /// Its words, without comment.
    pub span: Span,
    /// Comment lines above it, `#` included; an empty string is a blank line between comments.
    pub above: Vec<String>,
    /// The comment behind it, `#` included.
    pub behind: Option<String>,
}

impl Statement {
    /// Every ring the statement names, in order.
    pub fn rings(&self) -> Vec<&RingRef> {
        match &self.what {
            What::Pass { ring, clauses } => {
                std::iter::once(ring).chain(clauses.iter().flat_map(Clause::rings)).collect()
            }
            What::Lay { ring, of, .. } => std::iter::once(ring).chain(of).collect(),
            What::Fold(one, other) => vec![one, other],
            What::End(_, rings) => rings.iter().collect(),
            _ => Vec::new(),
        }
    }
}

/// Whether a ring is closed before weaving or woven in and then closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum State {
    /// Closed before weaving.
    Closed,
    /// Woven in open, then closed.
    Open,
}

impl State {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Closed => "closed",
            Self::Open => "open",
        }
    }
}

/// Left or right.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Hand {
    /// `\`
    Left,
    /// `/`
    Right,
}

impl Hand {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }

    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// The edge of the strip on which a woven ring comes to lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Away from the maker.
    Far,
    /// Towards the maker.
    Near,
}

impl Side {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Far => "far",
            Self::Near => "near",
        }
    }

    /// The other one.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Self::Far => Self::Near,
            Self::Near => Self::Far,
        }
    }
}

/// Which way of a sheet something runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// From row to row.
    Row,
    /// From column to column.
    Column,
}

/// What a statement says.
#[derive(Clone, Debug)]
pub enum What {
    /// `weave "…"`
    Weave(Spanned<String>),
    /// `base "…"`
    Base(Spanned<String>),
    /// `mirrored`
    Mirrored,
    /// `spiral`, `spiral left`
    Spiral(Option<Hand>),
    /// `gauges swg`: [`Unit::Awg`] or [`Unit::Swg`].
    Gauges(Unit),
    /// `ring a, b main, closed`
    Ring {
        /// The families named.
        names: Vec<Spanned<String>>,
        /// Their kind, where it is given.
        kind: Option<Spanned<String>>,
        /// Closed or open, where it is given.
        state: Option<State>,
    },
    /// Heading `repeat n` (one name) or `repeat row r, column c` (two).
    Repeat(Vec<Spanned<String>>),
    /// Heading `accent every K, from S`; two numbers each (rows, columns) for a sheet.
    Accent {
        /// The repeats from one to the next.
        every: Vec<Spanned<u32>>,
        /// The first repeat.
        from: Vec<Spanned<u32>>,
    },
    /// Heading `ends`.
    Ends,
    /// Heading `rings`, or `rings "fine"` for a set with a name.
    Rings(Option<Spanned<String>>),
    /// Heading `colours`.
    Colours,
    /// Heading `make`.
    Make,
    /// `b[n] through eye(…), …`
    Pass {
        /// The ring that passes.
        ring: RingRef,
        /// What it does, in order.
        clauses: Vec<Clause>,
    },
    /// `lay a[n] behind a[n-1]`
    Lay {
        /// The ring that is laid.
        ring: RingRef,
        /// True for `behind`, false for `in front of`.
        behind: bool,
        /// The rings it lies behind or in front of.
        of: Vec<RingRef>,
    },
    /// `fold a[n], b[n] back`
    Fold(RingRef, RingRef),
    /// `lean left`
    Lean(Hand),
    /// A line of `ends`.
    End(EndVerb, Vec<RingRef>),
    /// A line of `rings`.
    Kind {
        /// The kind.
        name: Spanned<String>,
        /// Its sizes and material, as written.
        parts: Vec<Spanned<KindPart>>,
    },
    /// A line of `colours`.
    Colour {
        /// The family.
        family: Spanned<String>,
        /// Which way they run over a sheet.
        by: Option<Along>,
        /// The colours in turn.
        colours: Vec<String>,
    },
    /// A line of `make`.
    MakePart(Vec<Spanned<MakePart>>),
    /// A line of `make` that starts with a name.
    Bag {
        /// The name.
        name: Spanned<String>,
        /// The set of rings it is made of, where it is given.
        rings: Vec<Spanned<String>>,
        /// What else it says.
        parts: Vec<Spanned<MakePart>>,
    },
    /// `claim …`, and what it is about.
    Claim(Claim, Of),
}

impl What {
    /// Whether it belongs to no heading, and so does not end one.
    pub fn stands_anywhere(&self) -> bool {
        matches!(
            self,
            Self::Weave(_)
                | Self::Base(_)
                | Self::Mirrored
                | Self::Spiral(_)
                | Self::Gauges(_)
                | Self::Ring { .. }
                | Self::Lean(_)
                | Self::Claim(..)
        )
    }
}

/// A ring as it is named in a statement.
#[derive(Clone, Debug)]
pub struct RingRef {
    /// The family.
    pub family: Spanned<String>,
    /// None for a unit, one for a chain, two (row, column) for a sheet.
    pub index: Vec<Position>,
    /// The whole name.
    pub span: Span,
}

/// One place in an index: `n-1`, `last`, `3`, `all`.
#[derive(Clone, Debug)]
pub struct Position {
    /// What it counts from.
    pub anchor: Anchor,
    /// How many repeats are added to that.
    pub step: i32,
    /// Its words.
    pub span: Span,
}

/// What an index counts from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The repeat's own index, by name.
    Name(String),
    /// The last repeat.
    Last,
    /// Every repeat.
    All,
    /// A repeat by number.
    Number(i32),
}

/// Where a ring passes: one ring or an eye of two.
#[derive(Clone, Debug)]
pub enum Place {
    /// One ring.
    Ring(RingRef),
    /// `eye(x, y)` with its words.
    Eye(RingRef, RingRef, Span),
}

/// One thing a ring does.
#[derive(Clone, Debug)]
pub struct Clause {
    /// What.
    pub act: Act,
    /// Its words.
    pub span: Span,
}

impl Clause {
    /// Every ring the clause names, in order.
    pub fn rings(&self) -> Vec<&RingRef> {
        fn of_place(place: &Place) -> [Option<&RingRef>; 2] {
            match place {
                Place::Ring(ring) => [Some(ring), None],
                Place::Eye(one, other, _) => [Some(one), Some(other)],
            }
        }
        match &self.act {
            Act::Through(places) | Act::Around(places) | Act::Down(places) | Act::Up(places) => {
                places.iter().flat_map(of_place).flatten().collect()
            }
            Act::Over(rings) | Act::Under(rings) => rings.iter().collect(),
            Act::Between(one, other) => vec![one, other],
            Act::Side(_) => Vec::new(),
        }
    }
}

/// What a ring does.
#[derive(Clone, Debug)]
pub enum Act {
    /// Through eyes: both rings in the same direction.
    Through(Vec<Place>),
    /// Around eyes: in by one ring, out by the other.
    Around(Vec<Place>),
    /// From front to back.
    Down(Vec<Place>),
    /// From back to front.
    Up(Vec<Place>),
    /// Nearer to the eye than these.
    Over(Vec<RingRef>),
    /// Farther from the eye than these.
    Under(Vec<RingRef>),
    /// In the gap between two rings.
    Between(RingRef, RingRef),
    /// On this edge of the strip.
    Side(Side),
}

/// What is done to rings at the ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EndVerb {
    /// One ring more.
    Add,
    /// One ring less.
    Drop,
    /// Close it before weaving.
    Close,
    /// Weave it in open.
    Open,
}

impl EndVerb {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Add => "add",
            Self::Drop => "drop",
            Self::Close => "close",
            Self::Open => "open",
        }
    }
}

/// What a claim is about.
#[derive(Clone, Debug, PartialEq)]
pub enum Of {
    /// The piece.
    Piece,
    /// A bag, by its name.
    Bag(Spanned<String>),
    /// Everything that is made; the place of these words.
    All(Span),
}

/// One part of a line of `rings`.
#[derive(Clone, Debug)]
pub enum KindPart {
    /// Wire diameter, and the same again in brackets.
    Wire(Size, Option<Size>),
    /// Inner diameter, and the same again in brackets.
    Inner(Size, Option<Size>),
    /// Wire diameter as a maker measured it.
    MeasuredWire(Size),
    /// Inner diameter as a maker measured it.
    MeasuredInner(Size),
    /// Aspect ratio, and a unit it should not have.
    AspectRatio(Number, Option<Spanned<Unit>>),
    /// A colour in quotes.
    Colour(String),
    /// A material.
    Material(String),
}

/// One part of a line of `make`.
#[derive(Clone, Debug)]
pub enum MakePart {
    /// Finished length, clasp included.
    Length(Size),
    /// Length of the clasp.
    Clasp(Size),
    /// Number of repeats.
    Repeats(u32),
    /// Rows of a sheet.
    Rows(u32),
    /// Columns of a sheet.
    Columns(u32),
    /// Height of a sheet: along its rows, one below the other.
    Height(Size),
    /// Width of a sheet: along its columns.
    Width(Size),
    /// How many pieces of this size.
    Pieces(u32),
    /// Rings to have at hand beyond those of the pieces, percent.
    Spares(Number),
    /// A number of repeats, and the length that was measured over them.
    Measured(u32, Size),
}

/// What the maker believes.
#[derive(Clone, Debug)]
pub enum Claim {
    /// `lean left`, and whether held upright.
    Lean(Hand, bool),
    /// `N in M for a, b`
    In {
        /// How many rings each of these is linked with.
        links: Spanned<u32>,
        /// How many rings lie together as one.
        together: Spanned<u32>,
        /// The families meant; empty for all of the base.
        families: Vec<Spanned<String>>,
    },
    /// `AR 5.9 for main`
    AspectRatio {
        /// The number.
        number: Number,
        /// A unit it should not have.
        unit: Option<Spanned<Unit>>,
        /// The kinds meant; empty for the only one.
        kinds: Vec<Spanned<String>>,
    },
    /// `48 open rings`
    Rings {
        /// How many.
        count: Spanned<u32>,
        /// A state, kind or family; none for all.
        which: Option<Spanned<String>>,
    },
    /// Length of the finished piece.
    Length(Size),
    /// Length of one repeat.
    Pitch(Size),
    /// Weight of one piece, in grams.
    Weight(Number),
    /// The rings close at the given sizes.
    Fits,
    /// The chain lies straight.
    Straight,
    /// It is the built-in weave of this name.
    Weave(Spanned<String>),
}
