use crate::notation::{Claim, Statement, What};
use crate::pattern::{FamilyId, KindSize, Pattern, Shift, Target, some_stretch};
use crate::rings::{Cell, Piece, Ring, TooMany};
use crate::settle::{NotSettled, Settled, Sizes};
use crate::text::{Sources, Span, Spanned};
use crate::weave::Weave;
use petgraph::graph::NodeIndex;
use std::borrow::Cow;
use std::collections::BTreeSet;

/// What a rule may look at.
pub struct Context<'w> {
    /// The weave.
    pub weave: &'w Weave,
    /// What it means.
    pub pattern: &'w Pattern,
    /// The texts that spans point into.
    pub sources: &'w Sources,
    /// The statements looked at: those of the file asked for and its bases, or what another text says of the weave.
    pub statements: Vec<&'w Statement>,
    /// The claims looked at that are made about one piece.
    pub claims: &'w [Spanned<Claim>],
    /// The claims looked at that are made about all that is made.
    pub claims_of_all: &'w [Spanned<Claim>],
    /// The graph of one repeat, where there is one.
    pub cell: Option<&'w Cell>,
    /// The piece, where it was made.
    pub piece: Option<&'w Piece>,
    /// How many rings it would have, where those are too many.
    pub too_many: Option<&'w TooMany>,
    /// Where its rings lie; for rules that need the pose.
    pub settled: Option<&'w Settled>,
    /// Why that is not known, where it was asked.
    pub not_settled: Option<&'w NotSettled>,
    /// The sizes of every kind that has a line in `rings`, in millimetres.
    pub sizes: Vec<KindSize>,
    /// Families that passes or lying statements name.
    pub(super) named: BTreeSet<&'w str>,
}

impl<'w> Context<'w> {
    /// The context of a weave; rules on the piece stay silent without one.
    pub fn new(weave: &'w Weave, piece: Option<Result<&'w Piece, &'w TooMany>>) -> Self {
        let pattern = weave.pattern();
        let statements: Vec<&Statement> = weave.files().iter().flat_map(|f| &f.tree.statements).collect();
        let woven = statements.iter().filter(|s| !matches!(s.what, What::End(..)));
        let named = woven.flat_map(|s| s.rings()).map(|r| r.family.value.as_str()).collect();
        Self {
            named,
            weave,
            pattern,
            sources: weave.sources(),
            statements,
            claims: &pattern.claims,
            claims_of_all: &pattern.claims_of_all,
            cell: weave.cell().ok(),
            piece: piece.and_then(Result::ok),
            too_many: piece.and_then(Result::err),
            settled: None,
            not_settled: None,
            sizes: crate::pattern::sizes(pattern),
        }
    }

    /// Settles the weave, for rules that need the pose.
    pub fn settle(&mut self) {
        let settled = self.weave.settled();
        (self.settled, self.not_settled) = (settled.ok(), settled.err());
    }

    /// The settled weave where its sizes mean something: they say how every ring stands to every other, and no
    /// ring stretches.
    pub fn settled_at_sizes(&self) -> Option<&'w Settled> {
        self.settled.filter(|_| Sizes::of(self.pattern).complete && !some_stretch(self.pattern))
    }

    /// The words a fault of the whole piece is pinned to: the weave's name, or else the first statement.
    pub fn whole(&self) -> Span {
        let statements = self.weave.files().first().map(|f| f.tree.statements.as_slice()).unwrap_or_default();
        let name = statements.iter().find(|s| matches!(s.what, What::Weave(_)));
        name.or(statements.first()).map_or(Span::new(0, 0, 0), |s| s.span)
    }

    /// The words that give a kind its size, or else the whole.
    pub fn kind_span(&self, kind: &str) -> Span {
        self.pattern.kind(kind).and_then(|k| k.span).unwrap_or(self.whole())
    }

    /// The sizes of a kind that has a line in `rings`.
    pub fn size(&self, kind: &str) -> Option<&KindSize> {
        self.sizes.iter().find(|s| s.name == kind)
    }

    /// The words that declare a family.
    pub fn declared(&self, family: FamilyId) -> Span {
        self.pattern.families[family].name.span
    }

    /// The name of a family.
    pub fn family(&self, family: FamilyId) -> &'w str {
        self.pattern.family_name(family)
    }

    /// A ring of a family in the repeat that is spoken of: `b[n]`.
    pub fn ring(&self, family: FamilyId) -> String {
        self.pattern.ring_name(&Target { family, offset: Shift::ZERO, span: self.declared(family) })
    }

    /// The words of the text at a span, cut short where they are too long to quote.
    pub fn words(&self, span: Span) -> Cow<'w, str> {
        const LONGEST: usize = 80;
        let words = self.sources.words(span);
        match words.char_indices().nth(LONGEST) {
            Some((end, _)) => Cow::Owned(format!("{}…", words.get(..end).unwrap_or(words))),
            None => Cow::Borrowed(words),
        }
    }

    /// Families that have no link in any repeat.
    pub fn unlinked(&self) -> impl Iterator<Item = FamilyId> + '_ {
        let linked = |f: FamilyId| self.weave.links().links.iter().any(|l| l.from == f || l.to == f);
        self.pattern.families.ids().filter(move |f| !linked(*f))
    }

    /// Whether any pass or lying statement names a family.
    pub fn is_named(&self, family: FamilyId) -> bool {
        self.named.contains(self.family(family))
    }

    /// A ring of the piece as `ends` names it: counted from the nearer end.
    pub fn end_name(&self, piece: &Piece, ring: NodeIndex) -> String {
        let ring = &piece.graph[ring];
        self.end_place(piece, ring.family, ring.at)
    }

    /// A place of the piece as `ends` names it, counted from the nearer end.
    pub fn end_place(&self, piece: &Piece, family: FamilyId, at: Shift) -> String {
        let place = |way: usize| {
            let (at, last) = (at.along(way), piece.size.last().along(way));
            match at - last {
                0 if last > 1 => "last".to_owned(),
                step if at > last / 2 && last > 1 => format!("last{step:+}"),
                _ => at.to_string(),
            }
        };
        let dimensions = self.pattern.lattice.dimensions();
        let places: Vec<String> = (0..dimensions).map(place).collect();
        let name = self.family(family);
        if places.is_empty() { name.to_owned() } else { format!("{name}[{}]", places.join(",")) }
    }

    /// The ring of the repeat that a ring of the piece is an image of.
    pub fn in_repeat(&self, ring: &Ring) -> Option<NodeIndex> {
        self.cell?.ring(ring.family, ring.at - Shift::ONE)
    }

    /// How many links a ring of the piece would have in the middle of a long piece.
    pub fn links_inside(&self, ring: &Ring) -> Option<usize> {
        self.in_repeat(ring).and_then(|n| self.cell.map(|c| c.degree(n)))
    }
}
