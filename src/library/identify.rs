//! Which built-in weave a text describes: by fingerprint, and where the words differ, by links and pose.

use crate::library::Library;
use crate::notation::Hand;
use crate::pattern::Pattern;
use crate::rings::{Cell, Fingerprint, Links, fingerprint};
use crate::settle::{NotSettled, Settled};
use crate::text::{Source, short_name};
use crate::weave::Weave;
use std::sync::OnceLock;

/// Poses whose floors differ by less than this part are the same.
const SAME_FLOOR: f64 = 2e-3;
/// So are those whose lengths of a repeat, in inner diameters, differ by less than this part.
const SAME_LENGTH: f64 = 1e-2;
/// A chain that turns by less than this many degrees a repeat, or by less than this short of half a turn, has no hand.
const TURNS_FROM: f64 = 1.0;

/// What tells one weave from another.
pub struct Identity {
    /// The name of the weave.
    pub name: String,
    accented: bool,
    /// The fingerprint of all of it, and of its base alone; `None` where its graph has none.
    whole: Option<Fingerprint>,
    base: Option<Fingerprint>,
    /// The fingerprint of the links of its base, whatever the text says about lying.
    links: Option<Fingerprint>,
    weave: Weave,
    /// How its base lies, once somebody asks.
    pose: OnceLock<Result<BasePose, NotSettled>>,
}

impl Identity {
    /// The identity of a weave; nothing is settled for it.
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

    /// Every built-in weave, in alphabetical order, without the pieces made of one, which are the same weave. Made once.
    pub fn all() -> &'static [Self] {
        static ALL: OnceLock<Vec<Identity>> = OnceLock::new();
        ALL.get_or_init(|| {
            let mut built_in: Vec<Self> =
                Library::weaves().into_iter().filter_map(|(short, _)| Self::built_in(short)).collect();
            // A piece comes after what it is made of.
            built_in.sort_by_key(|one| one.weave.files().len());
            let mut all: Vec<Self> = Vec::new();
            for one in built_in {
                if !all.iter().any(|other| same(other.whole.as_ref(), one.whole.as_ref())) {
                    all.push(one);
                }
            }
            all.sort_by(|a, b| a.name.cmp(&b.name));
            all
        })
    }

    /// Whether it can be compared with others.
    pub fn is_known(&self) -> bool {
        self.whole.is_some()
    }

    /// Whether the words of both texts describe the same weave. Nothing is settled.
    pub fn same_words(&self, other: &Self) -> bool {
        same(self.whole.as_ref().map(|f| &f.weave), other.whole.as_ref().map(|f| &f.weave))
    }

    /// Whether the words of one describe the mirror image of the other. Nothing is settled.
    pub fn is_mirror_of(&self, other: &Self) -> bool {
        same(self.whole.as_ref().map(|f| &f.weave), other.whole.as_ref().map(|f| &f.mirror))
    }

    /// Whether the links of both bases are the same.
    pub fn same_links(&self, other: &Self) -> bool {
        same(self.links.as_ref().map(|f| &f.weave), other.links.as_ref().map(|f| &f.weave))
    }

    /// Whether the links of both bases are the same, or mirror images of each other.
    pub fn same_links_or_mirrored(&self, other: &Self) -> bool {
        self.same_links(other) || same(self.links.as_ref().map(|f| &f.weave), other.links.as_ref().map(|f| &f.mirror))
    }

    /// Whether a text describes this weave: the whole text does, or its base where this weave has no accents. What the words
    /// leave open is settled.
    pub fn is_described_by(&self, text: &Self) -> bool {
        let base = || same(self.whole.as_ref(), text.base.as_ref());
        let pose = || self.same_links_or_mirrored(text) && self.same_pose(text);
        same(self.whole.as_ref(), text.whole.as_ref()) || !self.accented && (base() || pose())
    }

    /// Whether both bases lie in the same pose.
    fn same_pose(&self, other: &Self) -> bool {
        let (Ok(own), Ok(other)) = (self.pose(), other.pose()) else { return false };
        let near = |a: f64, b: f64, part: f64| (a - b).abs() <= part * a.abs().max(b.abs());
        let lengths = own.length.zip(other.length).is_none_or(|(a, b)| near(a, b, SAME_LENGTH));
        near(own.floor, other.floor, SAME_FLOOR) && lengths && own.hand == other.hand
    }

    /// How the base lies, all rings taken as equal. Settles it when first asked for.
    ///
    /// # Errors
    /// Where it does not settle.
    pub fn pose(&self) -> Result<BasePose, NotSettled> {
        self.pose.get_or_init(|| self.settled_pose()).clone()
    }

    fn settled_pose(&self) -> Result<BasePose, NotSettled> {
        if self.accented || !self.weave.pattern().kinds.is_empty() {
            Settled::of_base(self.weave.graph()).map(|settled| BasePose::of(&settled))
        } else {
            self.weave.settled().map(BasePose::of).map_err(Clone::clone)
        }
    }
}

/// Whether both are known, and the same.
fn same<T: PartialEq>(one: Option<&T>, other: Option<&T>) -> bool {
    one.is_some() && one == other
}

/// How the base of a weave lies.
#[derive(Clone, Copy, Debug)]
pub struct BasePose {
    /// The smallest aspect ratio found to close.
    pub floor: f64,
    /// The length of a repeat at the floor, in inner diameters.
    pub length: Option<f64>,
    /// Which way it leans, or, of a spiral, turns.
    pub hand: Option<Hand>,
    /// Whether it is a spiral.
    pub spiral: bool,
}

impl BasePose {
    fn of(settled: &Settled) -> Self {
        let chosen = settled.poses.get(settled.chosen);
        let twist = chosen.and_then(|pose| pose.twist_deg);
        let twist = twist.filter(|twist| (TURNS_FROM..180.0 - TURNS_FROM).contains(&twist.abs()));
        let turns = twist.map(|twist| if twist > 0.0 { Hand::Right } else { Hand::Left });
        Self {
            floor: settled.floors.first().map_or(0.0, |f| f.found),
            length: chosen.and_then(|pose| pose.length_inner),
            hand: settled.lean.filter(|_| !settled.either_hand).or(turns),
            spiral: settled.problem.spiral,
        }
    }
}

impl std::fmt::Display for BasePose {
    /// "closes from AR 3.893, with a repeat of 0.79 ID, leans left".
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "closes from AR {:.3}", self.floor)?;
        if let Some(length) = self.length {
            write!(f, ", with a repeat of {length:.2} ID")?;
        }
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
