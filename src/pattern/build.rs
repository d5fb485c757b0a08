//! Trees → the pattern.

use super::base::WeaveFile;
use super::model::{
    Accent, Bag, ColourPattern, End, EndPlace, Family, Kind, Lattice, Lying, Make, Meet, Pass, Pattern, RingSet, Sense,
    Target,
};
use super::{Lies, PerFamily, Shift};
use crate::notation::{Act, Along, Anchor, Claim, Clause, KindPart, Of, Place, RingRef, State, Statement, What};
use crate::pattern::{FARTHEST, MOST_BAGS, MOST_EXTRAS, MOST_FAMILIES, MOST_SETS};
use crate::text::{Span, Spanned};

/// What the files mean together: bases first, the file asked for (number 0) last.
pub fn build(files: &[WeaveFile]) -> Pattern {
    let mut builder = Builder {
        pattern: Pattern {
            name: None,
            lattice: Lattice::Unit,
            indices: Vec::new(),
            spiral: false,
            families: PerFamily::default(),
            accents: Vec::new(),
            passes: Vec::new(),
            lying: Vec::new(),
            lean: Vec::new(),
            ends: Vec::new(),
            kinds: Vec::new(),
            colours: Vec::new(),
            make: Make::default(),
            sets: Vec::new(),
            bags: Vec::new(),
            claims: Vec::new(),
            claims_of_all: Vec::new(),
            whole: files.iter().all(|f| f.read_whole && f.base_fault.is_none()),
        },
        body: Body::Top,
        claims: Vec::new(),
    };
    for (number, file) in files.iter().enumerate().rev() {
        builder.file(file, number > 0);
    }
    builder.accents_own();
    builder.claims_own();
    let mut pattern = builder.pattern;
    pattern.sets.iter_mut().for_each(|set| set.fill(&pattern.kinds));
    pattern.make.share(&mut pattern.bags);
    pattern
}

/// Where a statement of passes stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Body {
    /// Under no heading: right for a unit only.
    Top,
    Repeat,
    Accent(usize),
}

struct Builder {
    pattern: Pattern,
    body: Body,
    /// What is claimed, of what.
    claims: Vec<(Spanned<Claim>, Of)>,
}

impl Builder {
    fn file(&mut self, file: &WeaveFile, is_base: bool) {
        self.body = Body::Top;
        let statements = &file.tree.statements;
        // Rings and the repeat are declared wherever they stand: order of sections is free.
        for statement in statements {
            match &statement.what {
                What::Ring { names, kind, state } => self.declare(names, kind.as_ref(), *state, is_base),
                What::Repeat(names) => self.repeat(names),
                _ => {}
            }
        }
        for (statement, set) in file.tree.with_sets() {
            if self.statement(statement, set, is_base).is_none() {
                self.pattern.whole = false;
            }
        }
        if statements.iter().any(|s| matches!(s.what, What::Mirrored)) {
            self.mirror();
        }
    }

    fn declare(
        &mut self,
        names: &[Spanned<String>],
        kind: Option<&Spanned<String>>,
        state: Option<State>,
        is_base: bool,
    ) {
        for name in names {
            if self.pattern.family(&name.value).is_some() || self.pattern.families.len() > MOST_FAMILIES {
                self.pattern.whole = false;
                continue;
            }
            self.pattern.families.push(Family {
                name: name.clone(),
                kind: kind.map_or_else(|| "main".to_owned(), |k| k.value.clone()),
                state: state.unwrap_or(State::Open),
                accent: None,
                from_base: is_base,
            });
        }
    }

    fn repeat(&mut self, names: &[Spanned<String>]) {
        if self.pattern.lattice != Lattice::Unit {
            return;
        }
        self.pattern.lattice = if names.len() == 2 { Lattice::Sheet } else { Lattice::Chain };
        self.pattern.indices = names.iter().map(|n| n.value.clone()).collect();
    }

    /// Takes in one statement; `None` where some of it had to be left out.
    fn statement(&mut self, statement: &Statement, set: Option<&Spanned<String>>, is_base: bool) -> Option<()> {
        let span = statement.span;
        match &statement.what {
            What::Weave(name) if !is_base && self.pattern.name.is_none() => self.pattern.name = Some(name.clone()),
            What::Spiral(hand) => {
                self.pattern.spiral = true;
                if let Some(hand) = hand {
                    self.lie(Lies::Turning(*hand), span);
                }
            }
            What::Repeat(names) => {
                self.body = Body::Repeat;
                let same = names.iter().map(|n| &n.value).eq(self.pattern.indices.iter());
                return same.then_some(());
            }
            What::Accent { every, from } => return self.accent(every, from, span),
            What::Pass { ring, clauses } => return self.pass(ring, clauses, span),
            What::Lay { ring, behind, of } => {
                let (subject, base) = self.subject(ring)?;
                for other in of {
                    let other = self.target(other, base)?;
                    let lies = if *behind { Lies::Behind(subject, other) } else { Lies::Behind(other, subject) };
                    self.lie(lies, span);
                }
            }
            What::Fold(one, other) => {
                let (one, base) = self.subject(one)?;
                let other = self.target(other, base)?;
                self.lie(Lies::Folded(one, other), span);
            }
            What::Lean(hand) => self.pattern.lean.push(Spanned::new(*hand, span)),
            What::End(verb, rings) => {
                for ring in rings {
                    if self.pattern.ends.len() > MOST_EXTRAS {
                        return None;
                    }
                    let family = self.pattern.family(&ring.family.value)?;
                    let at = self.end_places(ring)?;
                    self.pattern.ends.push(End { verb: *verb, family, at, span: ring.span });
                }
            }
            What::Rings(Some(name)) => {
                self.set(name)?;
            }
            What::Kind { name, parts } => self.kind(name, parts, set),
            What::Colour { family, by, colours } => {
                let family = self.pattern.family(&family.value)?;
                let by = by.unwrap_or(Along::Row);
                self.pattern.colours.retain(|c| c.family != family);
                self.pattern.colours.push(ColourPattern { family, by, colours: colours.clone() });
            }
            What::MakePart(parts) if !is_base => parts.iter().for_each(|p| self.pattern.make.take(p)),
            What::Bag { name, rings, parts } if !is_base => {
                if self.pattern.bags.len() > MOST_BAGS {
                    return None;
                }
                let mut make = Make::default();
                for part in parts {
                    make.take(part);
                }
                let rings = rings.last().cloned();
                self.pattern.bags.push(Bag { name: name.clone(), rings, make, claims: Vec::new() });
            }
            What::Claim(claim, of) if !is_base => self.claims.push((Spanned::new(claim.clone(), span), of.clone())),
            _ => {}
        }
        Some(())
    }

    fn accent(&mut self, every: &[Spanned<u32>], from: &[Spanned<u32>], span: Span) -> Option<()> {
        let number =
            |list: &[Spanned<u32>], i: usize| list.get(i).map_or(1, |n| i32::try_from(n.value).unwrap_or(1).max(1));
        let both = |list: &[Spanned<u32>]| Shift::new(number(list, 0), number(list, 1));
        let accent = Accent { every: both(every), from: both(from), span };
        if self.pattern.accents.len() > MOST_EXTRAS {
            return None;
        }
        self.pattern.accents.push(accent);
        self.body = Body::Accent(self.pattern.accents.len() - 1);
        let dimensions = self.pattern.lattice.dimensions();
        let fits = every.len() == dimensions && (from.is_empty() || from.len() == dimensions);
        fits.then_some(())
    }

    fn accent_number(&self) -> Option<usize> {
        match self.body {
            Body::Accent(number) => Some(number),
            Body::Top | Body::Repeat => None,
        }
    }

    /// The ring a statement is about, and the place it counts from.
    fn subject(&self, ring: &RingRef) -> Option<(Target, Shift)> {
        let stands = self.body != Body::Top || self.pattern.lattice == Lattice::Unit;
        let base = self.offset(ring).filter(|_| stands)?;
        self.target(ring, base).map(|t| (t, base))
    }

    fn target(&self, ring: &RingRef, from: Shift) -> Option<Target> {
        let family = self.pattern.family(&ring.family.value)?;
        let at = self.offset(ring)?;
        let offset = at - from;
        let near = offset.to_array().iter().all(|o| o.abs() <= FARTHEST);
        near.then_some(Target { family, offset, span: ring.span })
    }

    fn offset(&self, ring: &RingRef) -> Option<Shift> {
        if ring.index.len() != self.pattern.lattice.dimensions() {
            return None;
        }
        let mut offset = Shift::ZERO;
        for (way, (position, name)) in ring.index.iter().zip(&self.pattern.indices).enumerate() {
            if position.anchor != Anchor::Name(name.clone()) || position.step.abs() > FARTHEST {
                return None;
            }
            *offset.along_mut(way) = position.step;
        }
        Some(offset)
    }

    fn end_places(&self, ring: &RingRef) -> Option<Vec<EndPlace>> {
        if ring.index.len() != self.pattern.lattice.dimensions() {
            return None;
        }
        let place = |p: &crate::notation::Position| match p.anchor {
            Anchor::Number(n) => Some(EndPlace::At(n.saturating_add(p.step))),
            Anchor::Last => (p.step.abs() <= FARTHEST).then_some(EndPlace::Last(p.step)),
            Anchor::All => (p.step == 0).then_some(EndPlace::All),
            Anchor::Name(_) => None,
        };
        ring.index.iter().map(place).collect()
    }

    fn pass(&mut self, ring: &RingRef, clauses: &[Clause], span: Span) -> Option<()> {
        let (subject, from) = self.subject(ring)?;
        let mut whole = Some(());
        let mut meets = Vec::new();
        for clause in clauses {
            let mut take = |places: &[Place], sense: Sense| {
                for place in places {
                    match self.meet(place, sense, from, clause.span) {
                        Some(meet) => meets.push(meet),
                        None => whole = None,
                    }
                }
            };
            match &clause.act {
                Act::Through(places) => take(places, Sense::Through),
                Act::Around(places) => take(places, Sense::Around),
                Act::Down(places) => take(places, Sense::Down),
                Act::Up(places) => take(places, Sense::Up),
                Act::Over(rings) | Act::Under(rings) => {
                    let over = matches!(clause.act, Act::Over(_));
                    for other in rings {
                        match self.target(other, from) {
                            Some(other) if over => self.lie(Lies::Over(subject, other), clause.span),
                            Some(other) => self.lie(Lies::Over(other, subject), clause.span),
                            None => whole = None,
                        }
                    }
                }
                Act::Between(one, other) => match (self.target(one, from), self.target(other, from)) {
                    (Some(one), Some(other)) => self.lie(Lies::Between(subject, one, other), clause.span),
                    _ => whole = None,
                },
                Act::Side(side) => self.lie(Lies::On(subject, *side), clause.span),
            }
        }
        if !meets.is_empty() {
            let accent = self.accent_number();
            let family = subject.family;
            self.pattern.passes.push(Pass { family, meets, accent, mirrored: false, ring: ring.span, span });
        }
        whole
    }

    fn meet(&self, place: &Place, sense: Sense, from: Shift, span: Span) -> Option<Meet> {
        match place {
            Place::Ring(ring) => Some(Meet { at: vec![self.target(ring, from)?], eye: false, sense, span }),
            Place::Eye(one, other, _) => {
                Some(Meet { at: vec![self.target(one, from)?, self.target(other, from)?], eye: true, sense, span })
            }
        }
    }

    fn lie(&mut self, lies: Lies<Target>, span: Span) {
        let accent = self.accent_number();
        self.pattern.lying.push(Lying { lies, accent, span });
    }

    /// The set of rings with this name.
    fn set(&mut self, name: &Spanned<String>) -> Option<&mut RingSet> {
        let sets = &mut self.pattern.sets;
        let known = sets.iter().position(|s| s.name.value == name.value);
        if known.is_none() && sets.len() <= MOST_SETS {
            sets.push(RingSet { name: name.clone(), kinds: Vec::new() });
        }
        sets.iter_mut().find(|s| s.name.value == name.value)
    }

    fn kind(&mut self, name: &Spanned<String>, parts: &[Spanned<KindPart>], set: Option<&Spanned<String>>) {
        let mut kind = Kind { name: name.value.clone(), span: Some(name.span), ..Kind::default() };
        for part in parts {
            match &part.value {
                KindPart::Wire(size, also) => kind.wire = Some((size.clone(), also.clone())),
                KindPart::Inner(size, also) => kind.inner = Some((size.clone(), also.clone())),
                KindPart::MeasuredWire(size) => kind.measured_wire = Some(size.clone()),
                KindPart::MeasuredInner(size) => kind.measured_inner = Some(size.clone()),
                KindPart::AspectRatio(number, _) => kind.aspect_ratio = Some(Spanned::new(number.value, part.span)),
                KindPart::Colour(colour) => kind.colour = Some(colour.clone()),
                KindPart::Material(material) => kind.material = Some(Spanned::new(material.clone(), part.span)),
            }
        }
        let kinds = match set {
            None => &mut self.pattern.kinds,
            Some(name) => match self.set(name) {
                Some(set) => &mut set.kinds,
                None => return,
            },
        };
        kinds.retain(|k| k.name != kind.name);
        kinds.push(kind);
    }

    /// Mirrors all that stands so far: the strip's far edge becomes its near edge, every pass turns
    /// round, and what was behind stays behind.
    fn mirror(&mut self) {
        for pass in &mut self.pattern.passes {
            pass.mirrored = !pass.mirrored;
        }
        for lying in &mut self.pattern.lying {
            match &mut lying.lies {
                Lies::On(_, side) => *side = side.other(),
                Lies::Turning(hand) => *hand = hand.other(),
                _ => {}
            }
        }
        for lean in &mut self.pattern.lean {
            lean.value = lean.value.other();
        }
    }

    /// Claims go to the piece, to a bag, or to all that is made.
    fn claims_own(&mut self) {
        for (claim, of) in std::mem::take(&mut self.claims) {
            match of {
                Of::Piece => self.pattern.claims.push(claim),
                Of::All(_) => self.pattern.claims_of_all.push(claim),
                Of::Bag(name) => {
                    if let Some(bag) = self.pattern.bags.iter_mut().find(|b| b.name.value == name.value) {
                        bag.claims.push(claim);
                    }
                }
            }
        }
    }

    /// A family belongs to an accent when an accent names it and no repeat does.
    fn accents_own(&mut self) {
        let pattern = &mut self.pattern;
        let mut in_repeat = pattern.families.map(|_| false);
        let mut in_accent = pattern.families.map(|_| None);
        let named = pattern.passes.iter().flat_map(|pass| {
            let targets = pass.meets.iter().flat_map(|m| m.at.iter().map(|t| t.family));
            targets.chain([pass.family]).map(move |family| (pass.accent, family))
        });
        let lain = pattern.lying.iter().flat_map(|l| l.lies.rings().into_iter().map(|ring| (l.accent, ring.family)));
        for (accent, family) in named.chain(lain) {
            match accent {
                None => in_repeat[family] = true,
                Some(_) => in_accent[family] = in_accent[family].or(accent),
            }
        }
        for family in pattern.families.ids() {
            pattern.families[family].accent = in_accent[family].filter(|_| !in_repeat[family]);
        }
    }
}
