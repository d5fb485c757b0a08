//! Instructions carried out, ring by ring, on a graph that grows.

use super::read::Reading;
use super::sentence::{RingWords, Saying, Way};
use super::told::{Claim, Claimed, Fault, Here, Name, Told, Woven};
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

/// Why something cannot be done, and whether that hangs on what was done before.
pub(super) struct Wrong {
    pub message: String,
    pub follows: bool,
}

impl From<&str> for Wrong {
    fn from(message: &str) -> Self {
        Self { message: message.to_owned(), follows: false }
    }
}

impl From<String> for Wrong {
    fn from(message: String) -> Self {
        Self { message, follows: false }
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
    /// What is said of the work, in order.
    pub claims: Vec<Claimed>,
    /// What cannot be done, or is not so.
    pub faults: Vec<Fault>,
    /// Sentences that could not be read: the number of their item, and where they stand.
    pub unread: Vec<(usize, Range<usize>)>,
    /// Rings woven in with each item.
    by_item: BTreeMap<usize, Range<usize>>,
    /// Where the rings of the item begin that is being carried out.
    item_start: usize,
    pub(super) hand: Option<Woven>,
    /// The letters of closed and of open rings, where there is one of each.
    pub(super) closed_letter: Option<String>,
    pub(super) open_letter: Option<String>,
    /// The greatest number of each letter so far.
    pub(super) numbers: BTreeMap<String, i32>,
    /// The eye gone through last, by the number of its first ring; and by the ring in hand.
    pub(super) eye: i32,
    pub(super) eye_in_hand: Option<i32>,
}

/// The most rings that instructions may make.
const MOST_RINGS: usize = 200_000;

/// Carries instructions out.
pub fn follow(reading: &Reading) -> Work {
    follow_with(reading, Some([None, None]))
}

/// The same where the text may not say which letters closed and open rings have: then it is these. Without any, rings are known
/// by their names alone, as in a sheet, where "the next ring" says neither row nor place.
pub fn follow_with(reading: &Reading, letters: Option<[Option<String>; 2]>) -> Work {
    let by_words = letters.is_some();
    let [closed, open] = letters.unwrap_or_default();
    let only = |closed: bool| {
        let mut letters = reading.needs.iter().filter(|n| n.what.2 == closed).map(|n| n.what.1.clone());
        letters.next().filter(|_| letters.next().is_none())
    };
    let listed = !reading.needs.is_empty();
    let mut work = Work {
        closed_letter: if listed { only(true) } else { closed }.filter(|_| by_words),
        open_letter: if listed { only(false) } else { open }.filter(|_| by_words),
        ..Work::default()
    };
    for item in &reading.items {
        work.item_start = work.woven.len();
        for sentence in &item.sentences {
            let Some(says) = &sentence.says else {
                work.not_read(item.number, &sentence.span);
                continue;
            };
            let here = Here { item: item.number, span: sentence.span.clone() };
            for saying in says {
                match work.obey(saying, &here) {
                    // What it speaks of is not clear: as good as not read.
                    Err(Wrong { message, .. }) if message.is_empty() => {
                        work.not_read(item.number, &here.span);
                        break;
                    }
                    Err(Wrong { message, follows }) => {
                        work.faults.push(Fault { item: item.number, span: here.span.clone(), message, follows });
                    }
                    Ok(()) => {}
                }
            }
        }
        work.by_item.insert(item.number, work.item_start..work.woven.len());
    }
    work.end(reading);
    work
}

impl Work {
    fn not_read(&mut self, item: usize, span: &Range<usize>) {
        self.unread.push((item, span.clone()));
        if let Some(hand) = &mut self.hand {
            hand.unread = true;
        }
    }

    fn obey(&mut self, saying: &Saying, here: &Here) -> Result<(), Wrong> {
        match saying {
            Saying::CloseAll(all) => {
                for (count, letter) in all {
                    let letter = letter.clone().or_else(|| self.closed_letter.clone()).ok_or("")?;
                    self.claim(Claim::Closed(*count, letter), here);
                }
                Ok(())
            }
            Saying::Thread(rings) => {
                // Open rings do not stay on a tie.
                let closed = |ring: &RingWords| match ring {
                    RingWords::Next(None) => RingWords::Next(Some(true)),
                    ring => ring.clone(),
                };
                let rings = self.names(&rings.iter().map(closed).collect::<Vec<_>>())?;
                self.claim(Claim::Threaded(rings.clone()), here);
                twice(&rings)?;
                rings.into_iter().try_for_each(|ring| self.enter(ring))
            }
            Saying::Open(ring) => {
                let ring = self.name(ring)?;
                // "Take b2 down through a2" after "Open b2".
                if self.hand.as_ref().is_some_and(|hand| hand.ring.what == ring) {
                    return Ok(());
                }
                self.never_closed();
                self.hand = Some(Woven::new(ring, here));
                Ok(())
            }
            Saying::Pick(words) => {
                let rings = self.names(words)?;
                twice(&rings)?;
                let hand = self.in_hand(here);
                // "Pick up the next closed ring": it hangs in the open one then, whichever way.
                for (ring, _) in rings.iter().zip(words).filter(|(_, words)| matches!(words, RingWords::Next(_))) {
                    hand.passes.push(here.told((ring.clone(), None)));
                }
                hand.picks.extend(rings.into_iter().map(|ring| here.told(ring)));
                Ok(())
            }
            Saying::Go(_, rings, true) if rings.len() != 2 => Err("an eye belongs to two rings".into()),
            Saying::Go(way, rings, _) => self.go(*way, rings, here),
            Saying::Close(rings) => self.names(rings)?.into_iter().try_for_each(|ring| self.close(&ring, here)),
            Saying::Lay(lay) => {
                let lies = here.told(self.lies(lay)?);
                match (&mut self.hand, self.woven.last_mut()) {
                    (Some(hand), _) | (None, Some(hand)) => hand.lays.push(lies),
                    (None, None) => {}
                }
                Ok(())
            }
            Saying::Repeat { from, to, times, until } => {
                let until = until.as_ref().map(|u| self.name(u)).transpose()?;
                let done = self.repeat(*from..=*to, *times, until.as_ref(), here);
                if done.as_ref().is_err_and(|wrong| !wrong.follows) {
                    self.claim(Claim::Repeated(until), here);
                }
                done
            }
            Saying::Count(count) => {
                self.claim(Claim::Rings(*count), here);
                match self.rings.len() {
                    there if there == *count => Ok(()),
                    there => Err(follows(format!("{there} rings are in the work here, not {count}"))),
                }
            }
            Saying::Dangle(rings) => {
                let rings = self.names(rings)?;
                for ring in &rings {
                    self.claim(Claim::Dangles(ring.clone()), here);
                }
                rings.into_iter().try_for_each(|ring| match self.rings.get(&ring) {
                    Some(1) => Ok(()),
                    Some(links) => Err(follows(format!("{ring} is held by {links} rings here"))),
                    None => Err(follows(format!("{ring} is not in the work here"))),
                })
            }
            Saying::Lean(left) => {
                self.claim(Claim::LeansLeft(*left), here);
                Ok(())
            }
            // Nothing is known of how the turned work is named.
            Saying::Turn => Ok(()),
            Saying::Skip(eyes) => {
                self.eye = self.eye.saturating_add(i32::try_from(*eyes).unwrap_or(0));
                Ok(())
            }
        }
    }

    fn claim(&mut self, claim: Claim, here: &Here) {
        self.claims.push(Claimed { claim: here.told(claim), item: here.item, woven: self.woven.len() });
    }

    /// A closed ring comes into the work.
    fn enter(&mut self, ring: Name) -> Result<(), Wrong> {
        if self.rings.contains_key(&ring) {
            return Err(follows(format!("{ring} is in the work already")));
        }
        self.closed.insert(ring.clone());
        self.rings.insert(ring, 0);
        Ok(())
    }

    fn go(&mut self, way: Way, rings: &[RingWords], here: &Here) -> Result<(), Wrong> {
        let rings = self.names(rings)?;
        let hand = self.in_hand(here);
        let down = match way {
            Way::Down => Some(true),
            Way::Up => Some(false),
            Way::Through | Way::Around => None,
        };
        for pair in rings.windows(2).filter(|_| down.is_none()) {
            if let [one, other] = pair {
                hand.pairs.push(here.told((one.clone(), other.clone(), way != Way::Around)));
            }
        }
        for ring in rings {
            // What was picked up is told where it comes.
            if hand.picks.iter().any(|p| p.what == ring) {
                hand.passes.retain(|p| p.what != (ring.clone(), None));
            }
            // What is around an eye is often told after its rings were passed.
            if !(down.is_none() && hand.passes.iter().any(|p| p.what.0 == ring)) {
                hand.passes.push(here.told((ring, down)));
            }
        }
        Ok(())
    }

    /// The ring in hand. Where none was opened it has no name before it is closed.
    fn in_hand(&mut self, here: &Here) -> &mut Woven {
        self.hand.get_or_insert_with(|| Woven::new(Name(String::new(), Vec::new()), here))
    }

    /// What is open still is taken as closed.
    fn never_closed(&mut self) {
        let Some(hand) = self.hand.take() else { return };
        let Told { what: ring, span } = hand.ring.clone();
        let message = if ring.0.is_empty() {
            "no ring is open that could go there".to_owned()
        } else {
            format!("{ring} is opened here and never closed")
        };
        // What could not be read may have closed it.
        if !hand.unread {
            self.faults.push(Fault { item: hand.item, span, message, follows: false });
        }
        if !ring.0.is_empty() {
            let item = hand.item;
            // What else is wrong with it was said, or hangs on what was done before.
            drop(self.weave(hand));
            // It belongs to the item that opens it.
            if let Some(range) = self.by_item.get_mut(&item) {
                range.end = self.woven.len();
                self.item_start = self.woven.len();
            }
        }
    }

    fn close(&mut self, ring: &Name, here: &Here) -> Result<(), Wrong> {
        match self.hand.take() {
            Some(hand) if hand.ring.what == *ring => self.weave(hand),
            Some(mut hand) if hand.ring.what.0.is_empty() => {
                hand.ring.what = ring.clone();
                let done = self.weave(hand);
                done.and(Err(format!("{ring} was not opened").into()))
            }
            Some(hand) => {
                let open = hand.ring.what.clone();
                self.hand = Some(hand);
                Err(format!("{ring} is closed here, and {open} is the one that is open").into())
            }
            // The ring the work begins with.
            None if self.rings.is_empty() => self.weave(Woven::new(ring.clone(), here)),
            None => Err(format!("{ring} was not opened").into()),
        }
    }

    /// Puts a ring into the work; what is wrong with it does not keep it out.
    fn weave(&mut self, woven: Woven) -> Result<(), Wrong> {
        if self.rings.len() > MOST_RINGS {
            return Err(format!("more than {MOST_RINGS} rings are not followed").into());
        }
        let mut wrong: Vec<Wrong> = Vec::new();
        for Told { what: ring, .. } in &woven.picks {
            wrong.extend(self.enter(ring.clone()).err());
            if !woven.passes.iter().any(|p| p.what.0 == *ring) {
                wrong.push(format!("{ring} is picked up and not passed").into());
            }
        }
        let mut seen = BTreeSet::new();
        for Told { what: (ring, _), .. } in &woven.passes {
            if !seen.insert(ring.clone()) {
                wrong.push(format!("{ring} is passed twice").into());
                continue;
            }
            if let Some(links) = self.rings.get_mut(ring) {
                *links += 1;
            } else {
                wrong.push(follows(format!("{ring} is not in the work")));
                self.rings.insert(ring.clone(), 1);
            }
        }
        if self.rings.contains_key(&woven.ring.what) {
            wrong.push(follows(format!("{} is in the work already", woven.ring.what)));
        }
        self.rings.insert(woven.ring.what.clone(), seen.len());
        let named: Vec<Name> = woven.passes.iter().map(|p| p.what.0.clone()).chain([woven.ring.what.clone()]).collect();
        for name in named {
            self.note(&name);
        }
        // The eye it went through is the last of all from now on.
        self.eye = self.eye_in_hand.take().or_else(|| self.eye_of(&woven)).unwrap_or(self.eye);
        self.woven.push(woven);
        if wrong.is_empty() {
            return Ok(());
        }
        let messages: Vec<&str> = wrong.iter().map(|w| w.message.as_str()).collect();
        Err(Wrong { message: messages.join("; "), follows: wrong.iter().all(|w| w.follows) })
    }

    fn repeat(
        &mut self,
        items: std::ops::RangeInclusive<usize>,
        times: Option<usize>,
        until: Option<&Name>,
        here: &Here,
    ) -> Result<(), Wrong> {
        let ranges: Vec<Range<usize>> = self.by_item.range(items.clone()).map(|(_, r)| r.clone()).collect();
        let (Some(first), Some(last)) = (ranges.first(), ranges.last()) else {
            return Err(format!("there is no step {} before this one", items.start()).into());
        };
        // Of what is wrong itself it is not known how it goes on.
        if self.faults.iter().any(|f| !f.follows && items.contains(&f.item)) {
            self.claim(Claim::Repeated(until.cloned()), here);
            return Ok(());
        }
        let round: Vec<Woven> = self.woven.get(first.start..last.end).unwrap_or(&[]).to_vec();
        let Some(end) = round.last().map(|w| w.ring.what.clone()) else {
            return Err("no ring is woven in with what is repeated".into());
        };
        // Where it is not said with which ring it ends, a chain goes on by as many places as a round has rings of a letter.
        let own = round.iter().filter(|w| w.ring.what.0 == end.0).count();
        let until = match (until, times) {
            (Some(until), _) => until.clone(),
            (None, Some(times)) if end.1.len() == 1 => {
                end.on(&[i32::try_from(own).unwrap_or(1)], i32::try_from(times).unwrap_or(0))
            }
            _ => return Err("".into()),
        };
        let apart: Vec<i32> = until.1.iter().zip(&end.1).map(|(a, b)| a.saturating_sub(*b)).collect();
        if until.0 != end.0 || until.1.len() != end.1.len() {
            return Err(format!("what is repeated ends with {end}, never with {until}").into());
        }
        let times = times.unwrap_or_else(|| {
            let most = apart.iter().map(|d| d.unsigned_abs()).max().unwrap_or(0);
            usize::try_from(most).unwrap_or(0)
        });
        let many = i32::try_from(times).ok().filter(|t| *t > 0).ok_or("it is repeated no time at all")?;
        if apart.iter().any(|d| d % many != 0) || apart.iter().all(|d| *d == 0) {
            return Err(format!("from {end} to {until} it cannot be {times} rounds more").into());
        }
        let by: Vec<i32> = apart.iter().map(|d| d / many).collect();
        let mut wrong = Ok(());
        for time in 1..=many {
            for woven in &round {
                let done = self.weave(woven.on(&by, time, here));
                // One fault in a round is one fault, and what is wrong with the round was said where it is told first.
                if let (true, Err(fault)) = (wrong.is_ok(), done) {
                    wrong = Err(Wrong { follows: true, ..fault });
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
        self.never_closed();
        let last = reading.items.last();
        let span = last.and_then(|item| item.sentences.last()).map_or(0..0, |s| s.span.clone());
        let item = last.map_or(0, |item| item.number);
        let mut wrong: Vec<Wrong> = Vec::new();
        for Told { what: (needed, letter, closed), .. } in &reading.needs {
            let used = self.rings.keys().filter(|r| r.0 == *letter && self.closed.contains(*r) == *closed).count();
            if used != *needed {
                let state = if *closed { "closed" } else { "open" };
                wrong.push(follows(format!(
                    "{needed} {state} rings {letter} are said to be needed, and {used} are used"
                )));
            }
        }
        self.faults.extend(wrong.into_iter().map(|Wrong { message, follows }| Fault {
            item,
            span: span.clone(),
            message,
            follows,
        }));
    }
}

/// A ring that is named twice over.
fn twice(rings: &[Name]) -> Result<(), Wrong> {
    let mut seen = BTreeSet::new();
    match rings.iter().find(|r| !seen.insert(*r)) {
        Some(ring) => Err(format!("{ring} is named twice").into()),
        None => Ok(()),
    }
}

/// Something that might be right if what was done before were another.
fn follows(message: String) -> Wrong {
    Wrong { message, follows: true }
}
