//! One step of the work: what is there, the ring that is added, how it goes, and what comes next.

use super::callout::{ROW, text};
use super::ellipse::Ellipse;
use super::going::Going;
use super::page::{Page, Room};
use super::scene::Scene;
use super::strokes::Tone;
use super::svg::{Rings, document};
use crate::draw::picture::{NotDrawn, Options};
use crate::pattern::Repeats;
use crate::rings::Piece;
use crate::settle::Settled;
use crate::steps::{Directions, Order, Step, ring_name};
use crate::weave::Weave;
use glam::DVec3;
use petgraph::graph::NodeIndex;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// Room for the words over the picture: the number of the step, and a row of words.
const CAPTION: f64 = 5.0;
/// The page is at least so wide, mm: two labels go side by side.
const WORDS: f64 = 50.0;

/// The frames of a piece, step by step: all of one scale and position, so that they read as a strip.
pub struct Frames<'w> {
    weave: &'w Weave,
    order: Order,
    options: Options,
    scene: Scene,
    page: Page,
    piece: Piece,
    directions: Directions,
}

impl<'w> Frames<'w> {
    /// The frames of a piece of so many repeats.
    ///
    /// # Errors
    /// [`NotDrawn`]; [`NotDrawn::NoOrder`] where two closed rings are linked.
    pub fn of(weave: &'w Weave, settled: &Settled, size: Repeats, options: &Options) -> Result<Self, NotDrawn> {
        let scene = Scene::of(weave, settled, size, options.from)?;
        let piece = weave.piece(size).map_err(NotDrawn::TooMany)?;
        let order = Order::of(weave.pattern(), &piece).map_err(|_| NotDrawn::NoOrder)?;
        let ellipses: Vec<Ellipse> = scene.rings.iter().map(|r| Ellipse::of(&r.circle, r.wire)).collect();
        let room = Room { above: CAPTION + ROW, below: ROW, least_wide: WORDS, ..Room::default() };
        let page = Page::of(settled, &ellipses, options.scale, room)?;
        let directions = Directions::of(weave, Some(settled), &piece, &order);
        Ok(Self { weave, order, options: *options, scene, page, piece, directions })
    }

    /// The order of work they follow.
    pub fn order(&self) -> &Order {
        &self.order
    }

    /// The frame of one step of the [order](Self::order), by its place there from 0, as a whole SVG document; `None` beyond
    /// the last. `number`: the step's number in the written instructions, for the heading.
    pub fn frame(&self, place: usize, number: usize) -> Option<String> {
        let caption = format!("step {number}");
        let step = self.order.steps.get(place)?;
        let next = self.order.steps.get(place + 1);
        let mut tones: BTreeMap<NodeIndex, Tone> = BTreeMap::new();
        for done in self.order.steps.iter().take(place) {
            tones.extend(done.came().map(|ring| (ring, Tone::Calm)));
        }
        tones.extend(step.came().map(|ring| (ring, Tone::Plain)));
        tones.insert(step.ring, Tone::Strong);
        let coming: BTreeSet<NodeIndex> =
            next.into_iter().flat_map(Step::came).filter(|r| !tones.contains_key(r)).collect();
        // What comes next hides nothing of what is there.
        let faint = self.scene.only(|ring| coming.contains(&ring.node));
        let mut body = Rings::of(self.weave, &faint).drawn(&self.page, self.options.look, |_| Tone::Faint);
        let scene = self.scene.only(|ring| tones.contains_key(&ring.node));
        let drawn = Rings::of(self.weave, &scene);
        let tone = |ring: usize| scene.rings.get(ring).and_then(|r| tones.get(&r.node)).copied().unwrap_or(Tone::Calm);
        body.extend(drawn.drawn(&self.page, self.options.look, tone));
        let going = Going::of(&drawn, step.ring, &self.directions.passes(&self.piece, step));
        // Words stand beside what is drawn of the piece so far.
        let reach = drawn.ellipses.iter().map(Ellipse::reach);
        let (low, high) = reach.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), r| (l.min(r[1]), h.max(r[3])));
        let edge = |y: f64| self.page.place(DVec3::new(0.0, y, 0.0)).1;
        body.extend(going.elements(&self.page, (edge(high), edge(low))));
        body.push(text(&caption, (3.0, 3.0 + 3.0), "start", " font-weight=\"bold\""));
        let id = format!("{}-{}", crate::text::short_name(self.weave.name()), crate::text::short_name(&caption));
        let about = self.about(step, next, &going);
        Some(document(&self.page, &id, (&format!("{}, {caption}", self.weave.name()), &about), &body))
    }

    /// A ring's name as it is read aloud.
    fn name(&self, ring: NodeIndex) -> String {
        let ring = self.scene.rings.iter().find(|r| r.node == ring);
        ring.map_or_else(String::new, |r| ring_name(self.weave.pattern(), r.family, r.at))
    }

    /// The frame in words.
    fn about(&self, step: &Step, next: Option<&Step>, going: &Going<'_>) -> String {
        let mut about = format!("{} is added", self.name(step.ring));
        let fresh: Vec<String> = step.picked_up().map(|ring| self.name(ring)).collect();
        if !fresh.is_empty() {
            let _ = write!(about, " and picks up {}", fresh.join(", "));
        }
        for run in going.in_order().chunk_by(|a, b| a.direction == b.direction) {
            let rings: Vec<String> = run.iter().map(|pass| self.name(pass.ring)).collect();
            let way = run.iter().find_map(|pass| pass.direction).map_or(String::new(), |d| format!("{} ", d.word()));
            let _ = write!(about, "; {way}through {}", rings.join(", "));
        }
        about.push('.');
        if let Some(next) = next {
            let _ = write!(about, " Next comes {}.", self.name(next.ring));
        }
        about
    }
}
