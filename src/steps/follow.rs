//! Instructions carried out, ring by ring, on a graph that grows.

use super::read::Reading;
use super::sentence::{Lay, RingList, RingWords, Saying, Way};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// A ring by its letter, and its number or row and place; no numbers in a unit.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Name(pub String, pub Vec<i32>);

impl std::fmt::Display for Name {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let numbers: Vec<String> = self.1.iter().map(i32::to_string).collect();
        if numbers.is_empty() { write!(f, "ring {}", self.0) } else { write!(f, "{}{}", self.0, numbers.join(".")) }
    }
}

impl Name {
    /// The same ring so many places on.
    fn on(&self, by: &[i32], times: i32) -> Self {
        let moved = self.1.iter().zip(by.iter().chain(std::iter::repeat(&0)));
        Self(self.0.clone(), moved.map(|(n, by)| n.saturating_add(by.saturating_mul(times))).collect())
    }
}

/// Something that cannot be done as it is said, or that is not as it is said to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// The number of the item.
    pub item: usize,
    /// The sentence, in bytes of the text.
    pub span: Range<usize>,
    /// What is wrong.
    pub message: String,
}

/// A ring woven in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Woven {
    /// The ring.
    pub ring: Name,
    /// The closed rings it picks up.
    pub picks: Vec<Name>,
    /// What it passes, and whether down; `None` where no way is said.
    pub passes: Vec<(Name, Option<bool>)>,
    /// Pairs it goes through in one direction, and pairs it goes in by the one of and out by the other.
    pub pairs: Vec<(Name, Name, bool)>,
    /// How rings lie.
    pub lays: Vec<Lies>,
}

/// How rings lie, as it is told.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lies {
    /// The first behind the second.
    Behind(Name, Name),
    /// The first over the second.
    Over(Name, Name),
    /// On the far side; else on the near one.
    Side(Name, bool),
    /// The first between the others.
    Between(Name, Vec<Name>),
    /// Folded back.
    Folded(Vec<Name>),
}

impl Lies {
    fn on(&self, by: &[i32], times: i32) -> Self {
        let on = |name: &Name| name.on(by, times);
        match self {
            Self::Behind(a, b) => Self::Behind(on(a), on(b)),
            Self::Over(a, b) => Self::Over(on(a), on(b)),
            Self::Side(a, far) => Self::Side(on(a), *far),
            Self::Between(a, all) => Self::Between(on(a), all.iter().map(on).collect()),
            Self::Folded(all) => Self::Folded(all.iter().map(on).collect()),
        }
    }
}

impl Woven {
    fn new(ring: Name) -> Self {
        Self { ring, picks: Vec::new(), passes: Vec::new(), pairs: Vec::new(), lays: Vec::new() }
    }

    /// The same so many places on.
    fn on(&self, by: &[i32], times: i32) -> Self {
        let on = |name: &Name| name.on(by, times);
        Self {
            ring: on(&self.ring),
            picks: self.picks.iter().map(on).collect(),
            passes: self.passes.iter().map(|(name, down)| (on(name), *down)).collect(),
            pairs: self.pairs.iter().map(|(a, b, one_way)| (on(a), on(b), *one_way)).collect(),
            lays: self.lays.iter().map(|l| l.on(by, times)).collect(),
        }
    }
}

/// The work as it stands when all that could be read is done.
#[derive(Clone, Debug, Default)]
pub struct Work {
    /// Every ring in the work, and how many links it has.
    pub rings: BTreeMap<Name, usize>,
    /// The rings woven in, in order.
    pub woven: Vec<Woven>,
    /// The rings that were closed when they came in.
    pub closed: BTreeSet<Name>,
    /// The lean that is told: to the left, or to the right.
    pub leans_left: Option<bool>,
    /// What cannot be done, or is not so.
    pub faults: Vec<Fault>,
    /// Sentences that could not be read: the number of their item, and where they stand.
    pub unread: Vec<(usize, Range<usize>)>,
    /// Rings woven in with each item.
    by_item: BTreeMap<usize, Range<usize>>,
    hand: Option<Woven>,
}

/// The most rings that instructions may make.
const MOST_RINGS: usize = 200_000;

/// Carries instructions out.
pub fn follow(reading: &Reading) -> Work {
    let mut work = Work::default();
    for item in &reading.items {
        let before = work.woven.len();
        for sentence in &item.sentences {
            let Some(says) = &sentence.says else {
                work.unread.push((item.number, sentence.span.clone()));
                continue;
            };
            for saying in says {
                if let Err(message) = work.obey(saying, reading) {
                    work.faults.push(Fault { item: item.number, span: sentence.span.clone(), message });
                }
            }
        }
        work.by_item.insert(item.number, before..work.woven.len());
    }
    work.end(reading);
    work
}

impl Work {
    fn obey(&mut self, saying: &Saying, reading: &Reading) -> Result<(), String> {
        match saying {
            Saying::CloseAll(all) => all.iter().try_for_each(|(count, letter)| {
                let needed = reading.needs.iter().find(|(_, l, closed)| l == letter && *closed);
                match needed {
                    Some((needed, ..)) if needed != count => {
                        Err(format!("{count} rings {letter} are closed, and {needed} are needed"))
                    }
                    _ => Ok(()),
                }
            }),
            Saying::Thread(rings) => self.names(rings)?.into_iter().try_for_each(|ring| self.enter(ring)),
            Saying::Open(ring) => {
                let ring = self.name(ring)?;
                // "Take b2 down through a2" after "Open b2".
                if self.hand.as_ref().is_some_and(|hand| hand.ring == ring) {
                    return Ok(());
                }
                let left = self.hand.take().map(|hand| hand.ring);
                self.hand = Some(Woven::new(ring));
                left.map_or(Ok(()), |ring| Err(format!("{ring} was opened before and is not closed")))
            }
            Saying::Pick(rings) => {
                let rings = self.names(rings)?;
                let hand = self.hand.as_mut().ok_or("no ring is open that could pick them up")?;
                hand.picks.extend(rings);
                Ok(())
            }
            Saying::Go(way, rings) => self.go(*way, rings),
            Saying::Close(rings) => self.names(rings)?.into_iter().try_for_each(|ring| self.close(&ring)),
            Saying::Lay(lay) => {
                let lies = self.lies(lay)?;
                match (&mut self.hand, self.woven.last_mut()) {
                    (Some(hand), _) | (None, Some(hand)) => hand.lays.push(lies),
                    (None, None) => {}
                }
                Ok(())
            }
            Saying::Repeat { from, to, times, until } => self.repeat(*from..=*to, *times, until.as_ref()),
            Saying::Count(count) => match self.rings.len() {
                there if there == *count => Ok(()),
                there => Err(format!("{there} rings are in the work here, not {count}")),
            },
            Saying::Dangle(rings) => self.names(rings)?.into_iter().try_for_each(|ring| match self.rings.get(&ring) {
                Some(1) => Ok(()),
                Some(links) => Err(format!("{ring} is held by {links} rings here")),
                None => Err(format!("{ring} is not in the work here")),
            }),
            Saying::Lean(left) => {
                self.leans_left = Some(*left);
                Ok(())
            }
            // Nothing is known of how the turned work is named.
            Saying::Turn => Ok(()),
        }
    }

    fn name(&self, ring: &RingWords) -> Result<Name, String> {
        match ring {
            RingWords::Named(letter, numbers) => Ok(Name(letter.clone(), numbers.clone())),
            RingWords::It => {
                let last = self.hand.as_ref().or(self.woven.last()).map(|w| w.ring.clone());
                last.ok_or_else(|| "no ring was spoken of yet".to_owned())
            }
        }
    }

    fn names(&self, rings: &RingList) -> Result<Vec<Name>, String> {
        rings.iter().map(|r| self.name(r)).collect()
    }

    fn lies(&self, lay: &Lay) -> Result<Lies, String> {
        Ok(match lay {
            Lay::Behind(a, b) => Lies::Behind(self.name(a)?, self.name(b)?),
            Lay::Over(a, b) => Lies::Over(self.name(a)?, self.name(b)?),
            Lay::Side(a, far) => Lies::Side(self.name(a)?, *far),
            Lay::Between(a, all) => Lies::Between(self.name(a)?, self.names(all)?),
            Lay::Folded(all) => Lies::Folded(self.names(all)?),
        })
    }

    /// A closed ring comes into the work.
    fn enter(&mut self, ring: Name) -> Result<(), String> {
        if self.rings.contains_key(&ring) {
            return Err(format!("{ring} is in the work already"));
        }
        self.closed.insert(ring.clone());
        self.rings.insert(ring, 0);
        Ok(())
    }

    fn go(&mut self, way: Way, rings: &RingList) -> Result<(), String> {
        let rings = self.names(rings)?;
        let hand = self.hand.as_mut().ok_or("no ring is open that could go there")?;
        let down = match way {
            Way::Down => Some(true),
            Way::Up => Some(false),
            Way::Through | Way::Around => None,
        };
        for pair in rings.windows(2) {
            if let [one, other] = pair {
                hand.pairs.push((one.clone(), other.clone(), way != Way::Around));
            }
        }
        for ring in rings {
            // What is around an eye is often told after its rings were passed.
            if !(down.is_none() && hand.passes.iter().any(|(r, _)| *r == ring)) {
                hand.passes.push((ring, down));
            }
        }
        Ok(())
    }

    fn close(&mut self, ring: &Name) -> Result<(), String> {
        match self.hand.take() {
            Some(hand) if hand.ring == *ring => self.weave(hand),
            Some(hand) => {
                let open = hand.ring.clone();
                self.hand = Some(hand);
                Err(format!("{ring} is closed here, and {open} is the one that is open"))
            }
            // The ring the work begins with.
            None if self.rings.is_empty() => self.weave(Woven::new(ring.clone())),
            None => Err(format!("{ring} was not opened")),
        }
    }

    /// Puts a ring into the work; what is wrong with it does not keep it out.
    fn weave(&mut self, woven: Woven) -> Result<(), String> {
        if self.rings.len() > MOST_RINGS {
            return Err(format!("more than {MOST_RINGS} rings are not followed"));
        }
        let mut wrong = Vec::new();
        for ring in &woven.picks {
            wrong.extend(self.enter(ring.clone()).err());
            if !woven.passes.iter().any(|(r, _)| r == ring) {
                wrong.push(format!("{ring} is picked up and not passed"));
            }
        }
        let mut seen = BTreeSet::new();
        for (ring, _) in &woven.passes {
            if !seen.insert(ring.clone()) {
                wrong.push(format!("{ring} is passed twice"));
                continue;
            }
            match self.rings.get_mut(ring) {
                Some(links) => *links += 1,
                None => {
                    wrong.push(format!("{ring} is not in the work"));
                    self.rings.insert(ring.clone(), 1);
                }
            }
        }
        if self.rings.contains_key(&woven.ring) {
            wrong.push(format!("{} is in the work already", woven.ring));
        }
        self.rings.insert(woven.ring.clone(), seen.len());
        self.woven.push(woven);
        if wrong.is_empty() { Ok(()) } else { Err(wrong.join("; ")) }
    }

    fn repeat(
        &mut self,
        items: std::ops::RangeInclusive<usize>,
        times: Option<usize>,
        until: Option<&RingWords>,
    ) -> Result<(), String> {
        let ranges: Vec<Range<usize>> = self.by_item.range(items.clone()).map(|(_, r)| r.clone()).collect();
        let (Some(first), Some(last)) = (ranges.first(), ranges.last()) else {
            return Err(format!("there is no step {} before this one", items.start()));
        };
        let round: Vec<Woven> = self.woven.get(first.start..last.end).unwrap_or(&[]).to_vec();
        let Some(end) = round.last() else { return Err("no ring is woven in with what is repeated".to_owned()) };
        let until = until.ok_or("it is not said with which ring it ends")?;
        let until = self.name(until)?;
        let apart: Vec<i32> = until.1.iter().zip(&end.ring.1).map(|(a, b)| a.saturating_sub(*b)).collect();
        if until.0 != end.ring.0 || until.1.len() != end.ring.1.len() {
            return Err(format!("what is repeated ends with {}, never with {until}", end.ring));
        }
        let times = times.unwrap_or_else(|| {
            let most = apart.iter().map(|d| d.unsigned_abs()).max().unwrap_or(0);
            usize::try_from(most).unwrap_or(0)
        });
        let many = i32::try_from(times).ok().filter(|t| *t > 0).ok_or("it is repeated no time at all")?;
        if apart.iter().any(|d| d % many != 0) || apart.iter().all(|d| *d == 0) {
            return Err(format!("from {} to {until} are not {times} rounds", end.ring));
        }
        let by: Vec<i32> = apart.iter().map(|d| d / many).collect();
        let mut wrong = Ok(());
        for time in 1..=many {
            for woven in &round {
                let done = self.weave(woven.on(&by, time));
                // One fault in a round is one fault.
                if wrong.is_ok() {
                    wrong = done;
                }
                if self.rings.len() > MOST_RINGS {
                    return wrong;
                }
            }
        }
        wrong
    }

    /// What is still open, and whether as many rings were used as are said to be needed.
    fn end(&mut self, reading: &Reading) {
        let (item, span) = reading
            .items
            .last()
            .map_or((0, 0..0), |item| (item.number, item.sentences.last().map_or(0..0, |s| s.span.clone())));
        let mut wrong = Vec::new();
        if let Some(hand) = &self.hand {
            wrong.push(format!("{} is open still", hand.ring));
        }
        for (needed, letter, closed) in &reading.needs {
            let used = self.rings.keys().filter(|r| r.0 == *letter && self.closed.contains(*r) == *closed).count();
            if used != *needed {
                let state = if *closed { "closed" } else { "open" };
                wrong.push(format!("{needed} {state} rings {letter} are said to be needed, and {used} are used"));
            }
        }
        self.faults.extend(wrong.into_iter().map(|message| Fault { item, span: span.clone(), message }));
    }
}
