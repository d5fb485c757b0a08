//! A picture of one step of the work: what is there, the ring that is added and its way, and what comes next.

use super::ellipse::Ellipse;
use super::labels::{ROW, text};
use super::page::{MARGIN, Page, Room};
use super::rings::Rings;
use super::route::Route;
use super::scene::Scene;
use super::strokes::Tone;
use crate::draw::picture::{NotDrawn, Options};
use crate::draw::svg::Anchor;
use crate::pattern::Repeats;
use crate::rings::Piece;
use crate::settle::Settled;
use crate::steps::{Direction, Directions, Order, Step, ring_name};
use crate::text::{list, short_name};
use crate::weave::Weave;
use kurbo::Point;
use petgraph::graph::NodeIndex;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// Room for the caption above the picture, mm.
const CAPTION: f64 = 5.0;
/// The least width of the page, mm: two labels go side by side.
const WORDS: f64 = 50.0;

/// The frames of a piece, step by step. All have one scale and one position, so that they read as a strip.
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
    /// The frames of a piece of this size.
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
        let mut svg = Page::body();
        // What comes next is drawn first, so that it hides nothing.
        let faint = self.scene.only(|ring| coming.contains(&ring.node));
        Rings::of(self.weave, &faint).draw(&mut svg, &self.page, self.options.look, |_| Tone::Faint);
        let scene = self.scene.only(|ring| tones.contains_key(&ring.node));
        let rings = Rings::of(self.weave, &scene);
        let tone = |ring: usize| scene.rings.get(ring).and_then(|r| tones.get(&r.node)).copied().unwrap_or(Tone::Calm);
        rings.draw(&mut svg, &self.page, self.options.look, tone);
        let route = Route::of(&rings, step.ring, &self.directions.passes(&self.piece, step));
        if let Some(route) = &route {
            route.draw(&mut svg, &self.page, self.page.band_of(&rings.ellipses));
        }
        let corner = Point::new(MARGIN, MARGIN + 3.0);
        text(&mut svg, corner, Anchor::Start).set("font-weight", "bold").words(&caption);
        let id = format!("picture-{}-{}", short_name(self.weave.name()), short_name(&caption));
        let title = format!("{}, {caption}", self.weave.name());
        Some(self.page.document(svg, &id, &title, &self.description(step, next, route.as_ref())))
    }

    /// A ring's name as a person reads it out.
    fn name(&self, ring: NodeIndex) -> String {
        let ring = self.scene.rings.iter().find(|r| r.node == ring);
        ring.map_or_else(String::new, |r| ring_name(self.weave.pattern(), r.family, r.at))
    }

    /// The frame in words.
    fn description(&self, step: &Step, next: Option<&Step>, route: Option<&Route<'_>>) -> String {
        let mut about = format!("{} is added", self.name(step.ring));
        let fresh: Vec<String> = step.picked_up().map(|ring| self.name(ring)).collect();
        if !fresh.is_empty() {
            let _ = write!(about, " and picks up {}", list(&fresh, "and"));
        }
        about.push('.');
        let passes = route.map_or_else(Vec::new, Route::in_order);
        let ways = passes.chunk_by(|a, b| a.way == b.way).map(|run| {
            let rings: Vec<String> = run.iter().map(|pass| self.name(pass.ring)).collect();
            let way = match run.iter().find_map(|pass| pass.way) {
                Some(Direction::Down) => "down through",
                Some(Direction::Up) => "up through",
                None => "through",
            };
            format!("{way} {}", list(&rings, "and"))
        });
        let ways: Vec<String> = ways.collect();
        if !ways.is_empty() {
            let _ = write!(about, " It goes {}.", ways.join(", then "));
        }
        if let Some(next) = next {
            let _ = write!(about, " Next comes {}.", self.name(next.ring));
        }
        about
    }
}
