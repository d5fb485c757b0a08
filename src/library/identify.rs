//! Which built-in weave a text describes: by fingerprint, and where the words differ, by links and pose.

use crate::library::Library;
use crate::notation::Hand;
use crate::pattern::Pattern;
use crate::rings::{Cell, Fingerprint, Links, fingerprint};
use crate::settle::{NotSettled, Settled};
use crate::text::{Source, short_name};
use crate::weave::Weave;
use std::sync::OnceLock;

/// Floors within this part of each other are those of one pose.
const SAME_FLOOR: f64 = 2e-3;
/// Lengths of a repeat, in inner diameters, likewise.
const SAME_LENGTH: f64 = 1e-2;

/// What is compared of a weave.
pub struct Identity {
    /// Its name.
    pub name: String,
    /// Whether it has accents.
    accented: bool,
    /// The fingerprint of all of it, and of its base alone.
    whole: Option<Fingerprint>,
    base: Option<Fingerprint>,
    /// The fingerprint of the links of its base, whatever is said of lying.
    links: Option<Fingerprint>,
    weave: Weave,
    /// How its base lies, once somebody asks.
    pose: OnceLock<Result<Lies, NotSettled>>,
}

impl Identity {
    /// What is compared of a weave: nothing of it is settled yet.
    pub fn of(weave: &Weave) -> Self {
        let pattern = weave.pattern();
        let cell = Cell::of_base(pattern, weave.links());
        let silent = Pattern { lying: Vec::new(), lean: Vec::new(), ..pattern.clone() };
        let unsaid = Links::of(&silent);
        Self {
            name: weave.name().to_owned(),
            accented: !pattern.accents.is_empty(),
            whole: weave.fingerprint(),
            base: fingerprint(&without_accents(pattern), &cell),
            links: fingerprint(&silent, &Cell::of_base(&silent, &unsaid)),
            weave: weave.clone(),
            pose: OnceLock::new(),
        }
    }

    /// A built-in weave by its name.
    pub fn built_in(name: &str) -> Option<Self> {
        let short = short_name(name);
        let (file, text) = Library::weaves().into_iter().find(|(file, _)| *file == short)?;
        Some(Self::of(&Weave::compile(Source::new(format!("library: {file}"), text), &Library)))
    }

    /// Every built-in weave, in alphabetical order; not the pieces made of one, which are the same weave.
    pub fn all() -> Vec<Self> {
        let mut all: Vec<Self> = Vec::new();
        let built_in = Library::weaves().into_iter().filter_map(|(short, _)| Self::built_in(short));
        let mut built_in: Vec<Self> = built_in.collect();
        // A piece stands behind what it is made of.
        built_in.sort_by_key(|one| one.weave.files().len());
        for one in built_in {
            if !all.iter().any(|other| other.whole.is_some() && other.whole == one.whole) {
                all.push(one);
            }
        }
        all.sort_by(|a, b| a.name.cmp(&b.name));
        all
    }

    /// The same as [`Identity::all`], made once.
    pub fn kept() -> &'static [Self] {
        static ALL: OnceLock<Vec<Identity>> = OnceLock::new();
        ALL.get_or_init(Self::all)
    }

    /// Whether it could be compared at all.
    pub fn told(&self) -> bool {
        self.whole.is_some()
    }

    /// Whether the words of the two say the same weave: nothing is settled.
    pub fn same_text(&self, text: &Self) -> bool {
        self.whole.is_some() && self.whole.as_ref().map(|f| &f.weave) == text.whole.as_ref().map(|f| &f.weave)
    }

    /// Whether the words of the one say the mirror image of the other.
    pub fn mirrors(&self, text: &Self) -> bool {
        self.whole.is_some() && self.whole.as_ref().map(|f| &f.weave) == text.whole.as_ref().map(|f| &f.mirror)
    }

    /// Whether the links of the two bases are the same.
    pub fn same_links(&self, text: &Self) -> bool {
        self.links.is_some() && self.links.as_ref().map(|f| &f.weave) == text.links.as_ref().map(|f| &f.weave)
    }

    /// Whether a text describes this weave: all of it does, or its base where this weave has no accents. What the
    /// words leave open is settled.
    pub fn is(&self, text: &Self) -> bool {
        let same = |a: &Option<Fingerprint>, b: &Option<Fingerprint>| a.is_some() && a == b;
        same(&self.whole, &text.whole)
            || !self.accented && (same(&self.whole, &text.base) || self.links_of(text) && self.lies_like(text))
    }

    /// Whether the links of the two bases are the same, or mirror images of each other.
    pub fn links_of(&self, text: &Self) -> bool {
        match (&self.links, &text.links) {
            (Some(own), Some(other)) => own.weave == other.weave || own.weave == other.mirror,
            _ => false,
        }
    }

    /// Whether the bases of the two lie in one pose.
    fn lies_like(&self, text: &Self) -> bool {
        let (Ok(own), Ok(other)) = (self.pose(), text.pose()) else { return false };
        let near = |a: f64, b: f64, part: f64| (a - b).abs() <= part * a.abs().max(b.abs());
        let lengths = own.length.zip(other.length).is_none_or(|(a, b)| near(a, b, SAME_LENGTH));
        near(own.floor, other.floor, SAME_FLOOR) && lengths && own.hand == other.hand
    }

    /// The pose of the base, all rings taken as alike.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn pose(&self) -> Result<Lies, NotSettled> {
        self.pose.get_or_init(|| self.settled_pose()).clone()
    }

    fn settled_pose(&self) -> Result<Lies, NotSettled> {
        let alone;
        let settled = if self.accented || !self.weave.pattern().kinds.is_empty() {
            alone = Settled::of_base(self.weave.graph())?;
            &alone
        } else {
            self.weave.settled().map_err(Clone::clone)?
        };
        let chosen = settled.poses.get(settled.chosen);
        let turned = chosen.and_then(|p| p.twist_deg).filter(|t| (1.0..179.0).contains(&t.abs()));
        let turns = turned.map(|t| if t > 0.0 { Hand::Right } else { Hand::Left });
        Ok(Lies {
            floor: settled.floors.first().map_or(0.0, |f| f.found),
            length: chosen.and_then(|p| p.length_inner),
            hand: settled.lean.filter(|_| !settled.either_hand).or(turns),
            spiral: settled.problem.spiral,
        })
    }
}

/// How the base of a weave lies.
#[derive(Clone, Copy, Debug)]
pub struct Lies {
    /// The aspect ratio from which on it closes.
    pub floor: f64,
    /// The length of a repeat at the floor, in inner diameters.
    pub length: Option<f64>,
    /// Which way it leans, or, a spiral, turns.
    pub hand: Option<Hand>,
    /// Whether it is a spiral.
    pub spiral: bool,
}

impl std::fmt::Display for Lies {
    /// "closes from AR 3.893 and leans left".
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "closes from AR {:.3}", self.floor)?;
        let length = self.length.map(|l| format!(", {l:.2} ID a repeat there"));
        write!(f, "{}", length.unwrap_or_default())?;
        match self.hand {
            Some(hand) if self.spiral => write!(f, ", turns {}", hand.word()),
            Some(hand) => write!(f, ", leans {}", hand.word()),
            None => Ok(()),
        }
    }
}

fn without_accents(pattern: &Pattern) -> Pattern {
    let mut bare = pattern.clone();
    bare.lying.retain(|l| l.accent.is_none());
    bare
}
