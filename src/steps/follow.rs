//! Instructions carried out, ring by ring, on a graph that grows.

use super::events::{ByPair, Claim, Claimed, Direction, Fault, Here, InText, Moves, Name, Passed, PassedPair, Woven};
use super::impossible::Impossible;
use super::read::Reading;
use super::sentence::{RingList, RingWords, Saying};
use crate::notation::State;
use crate::pattern::Sense;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::{Range, RangeInclusive};

/// Why a sentence is not carried out.
pub(super) enum Stopped {
    /// It does not say clearly of which ring it speaks: it is as good as not read.
    Unclear,
    /// It cannot be done, or is not so.
    Impossible(Impossible),
}

impl From<Impossible> for Stopped {
    fn from(why: Impossible) -> Self {
        Self::Impossible(why)
    }
}

/// The letters of the closed and of the open rings, where there is one of each.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Letters {
    /// The letter of all closed rings.
    pub closed: Option<String>,
    /// The letter of all open rings.
    pub open: Option<String>,
}

/// A ring between its opening and its closing.
#[derive(Clone, Debug)]
pub(super) struct InHand {
    /// Which ring; `None` where nothing opened it: then it has a name when it is closed.
    pub ring: Option<Name>,
    here: Here,
    moves: Moves,
}

impl InHand {
    fn new(ring: Option<Name>, here: &Here) -> Self {
        Self { ring, here: here.clone(), moves: Moves::default() }
    }

    fn woven(self, ring: Name) -> Woven {
        Woven { ring: self.here.says(ring), item: self.here.item, repeated: None, moves: self.moves }
    }
}

/// The work when all that could be read is done.
#[derive(Clone, Debug, Default)]
pub struct Work {
    /// Every ring in the work, and how many links it has.
    pub rings: BTreeMap<Name, usize>,
    /// The rings woven in, in order.
    pub woven: Vec<Woven>,
    /// The rings that were closed when they came in.
    pub closed: BTreeSet<Name>,
    /// Statements on the work, in order.
    pub claims: Vec<Claimed>,
    /// What cannot be done, or is not so.
    pub faults: Vec<Fault>,
    /// The sentences that could not be read, in bytes of the text.
    pub unread: Vec<Range<usize>>,
    /// Rings woven in with each item.
    by_item: BTreeMap<usize, Range<usize>>,
    /// Where the rings of the item begin that is being carried out.
    item_start: usize,
    pub(super) hand: Option<InHand>,
    pub(super) letters: Letters,
    /// The greatest number of each letter so far.
    pub(super) numbers: BTreeMap<String, i32>,
    /// The eye gone through last, by the number of its first ring; and by the ring in hand.
    pub(super) eye: i32,
    pub(super) eye_in_hand: Option<i32>,
}

/// The most rings that instructions may make.
const MOST_RINGS: usize = 200_000;

/// Carries instructions out. Where the list of what is needed leaves it open which letters closed and open rings have, they
/// are `letters`. Without letters a ring is known by its name alone, as in a sheet, where "the next ring" says neither row
/// nor place.
pub fn follow(reading: &Reading, letters: Option<Letters>) -> Work {
    let only = |state: State| {
        let mut letters = reading.needs.iter().filter(|n| n.what.state == state).map(|n| n.what.letter.clone());
        letters.next().filter(|_| letters.next().is_none())
    };
    let letters = letters.map(|letters| match reading.needs.as_slice() {
        [] => letters,
        _ => Letters { closed: only(State::Closed), open: only(State::Open) },
    });
    let mut work = Work { letters: letters.unwrap_or_default(), ..Work::default() };
    for item in &reading.items {
        work.item_start = work.woven.len();
        for sentence in &item.sentences {
            let here = Here { item: item.number, span: sentence.span.clone() };
            work.sentence(sentence.says.as_deref(), &here);
        }
        work.by_item.insert(item.number, work.item_start..work.woven.len());
    }
    work.end(reading);
    work
}

impl Work {
    fn sentence(&mut self, says: Option<&[Saying]>, here: &Here) {
        let Some(says) = says else { return self.not_read(here) };
        for saying in says {
            match self.obey(saying, here) {
                Ok(()) => {}
                Err(Stopped::Unclear) => return self.not_read(here),
                Err(Stopped::Impossible(why)) => self.fault(here, why),
            }
        }
    }

    fn not_read(&mut self, here: &Here) {
        self.unread.push(here.span.clone());
        if let Some(hand) = &mut self.hand {
            hand.moves.unread = true;
        }
    }

    fn fault(&mut self, here: &Here, why: Impossible) {
        self.faults.push(Fault { item: here.item, span: here.span.clone(), why });
    }

    fn claim(&mut self, claim: Claim, here: &Here) {
        self.claims.push(Claimed { claim: here.says(claim), item: here.item, woven: self.woven.len() });
    }

    fn obey(&mut self, saying: &Saying, here: &Here) -> Result<(), Stopped> {
        match saying {
            Saying::CloseAll(all) => return self.close_all(all, here),
            Saying::Thread(rings) => return self.thread(rings, here),
            Saying::Open(ring) => return self.open(ring, here),
            Saying::Pick(rings) => return self.pick(rings, here),
            Saying::Go(sense, rings) => return self.go(*sense, rings, here),
            Saying::Close(rings) => {
                for ring in self.names(rings)? {
                    self.close(ring, here)?;
                }
            }
            Saying::Lay(lies) => {
                let lies = here.says(lies.try_map(|ring| self.name(ring))?);
                let moves = self.hand.as_mut().map(|hand| &mut hand.moves);
                if let Some(moves) = moves.or_else(|| self.woven.last_mut().map(|w| &mut w.moves)) {
                    moves.lies.push(lies);
                }
            }
            Saying::Repeat { from, to, times, until } => {
                let until = until.as_ref().map(|u| self.name(u)).transpose()?;
                let done = self.repeat(*from..=*to, *times, until.as_ref(), here);
                if done.as_ref().is_err_and(|stopped| !matches!(stopped, Stopped::Impossible(why) if why.follows())) {
                    self.claim(Claim::Repeated(until), here);
                }
                return done;
            }
            Saying::Count(said) => {
                self.claim(Claim::Rings(*said), here);
                let there = self.rings.len();
                if there != *said {
                    return Err(Impossible::RingsInWork { said: *said, there }.into());
                }
            }
            Saying::Dangle(rings) => return self.dangle(rings, here),
            Saying::Lean(hand) => self.claim(Claim::Leans(*hand), here),
            // Colours change no link, and nothing is known of how the turned work is named.
            Saying::Colours(..) | Saying::Turn => {}
            Saying::Skip(eyes) => {
                self.eye = self.eye.saturating_add(i32::try_from(*eyes).unwrap_or(i32::MAX));
            }
            Saying::Miscounted(why) => return Err(why.clone().into()),
        }
        Ok(())
    }

    fn close_all(&mut self, all: &[(usize, Option<String>)], here: &Here) -> Result<(), Stopped> {
        for (count, letter) in all {
            let letter = letter.clone().or_else(|| self.letters.closed.clone()).ok_or(Stopped::Unclear)?;
            self.claim(Claim::Closed(*count, letter), here);
        }
        Ok(())
    }

    fn thread(&mut self, rings: &[RingWords], here: &Here) -> Result<(), Stopped> {
        // Open rings do not stay on a tie.
        let closed = |ring: &RingWords| match ring {
            RingWords::Next(None) => RingWords::Next(Some(State::Closed)),
            ring => ring.clone(),
        };
        let rings = self.names(&rings.iter().map(closed).collect::<RingList>())?;
        self.claim(Claim::Threaded(rings.clone()), here);
        named_once(&rings)?;
        for ring in rings {
            self.enter(ring)?;
        }
        Ok(())
    }

    fn open(&mut self, ring: &RingWords, here: &Here) -> Result<(), Stopped> {
        let ring = self.name(ring)?;
        // "Take b2 down through a2" after "Open b2".
        if self.hand.as_ref().is_some_and(|hand| hand.ring.as_ref() == Some(&ring)) {
            return Ok(());
        }
        self.never_closed();
        self.hand = Some(InHand::new(Some(ring), here));
        Ok(())
    }

    fn pick(&mut self, words: &[RingWords], here: &Here) -> Result<(), Stopped> {
        let rings = self.names(words)?;
        named_once(&rings)?;
        let moves = self.moves(here);
        // "Pick up the next closed ring": it hangs in the open one then, whichever way.
        for (ring, _) in rings.iter().zip(words).filter(|(_, words)| matches!(words, RingWords::Next(_))) {
            moves.passes.push(here.says(Passed { ring: ring.clone(), direction: None }));
        }
        moves.picks.extend(rings.into_iter().map(|ring| here.says(ring)));
        Ok(())
    }

    fn dangle(&mut self, rings: &[RingWords], here: &Here) -> Result<(), Stopped> {
        let rings = self.names(rings)?;
        for ring in &rings {
            self.claim(Claim::Dangles(ring.clone()), here);
        }
        for ring in rings {
            match self.rings.get(&ring) {
                Some(1) => {}
                Some(links) => return Err(Impossible::Held { ring, links: *links }.into()),
                None => return Err(Impossible::NotIn(ring).into()),
            }
        }
        Ok(())
    }

    /// A closed ring comes into the work.
    fn enter(&mut self, ring: Name) -> Result<(), Impossible> {
        if self.rings.contains_key(&ring) {
            return Err(Impossible::AlreadyIn(ring));
        }
        self.closed.insert(ring.clone());
        self.rings.insert(ring, 0);
        Ok(())
    }

    fn go(&mut self, sense: Sense, rings: &[RingWords], here: &Here) -> Result<(), Stopped> {
        let rings = self.names(rings)?;
        let moves = self.moves(here);
        let direction = match sense {
            Sense::Down => Ok(Direction::Down),
            Sense::Up => Ok(Direction::Up),
            Sense::Through => Err(ByPair::Through),
            Sense::Around => Err(ByPair::Around),
        };
        if let Err(goes) = direction {
            let pairs = rings.windows(2).filter_map(|pair| match pair {
                [one, other] => Some(here.says(PassedPair { one: one.clone(), other: other.clone(), goes })),
                _ => None,
            });
            moves.pairs.extend(pairs);
        }
        let direction = direction.ok();
        for ring in rings {
            // What was picked up is told where it comes.
            if moves.picks.iter().any(|p| p.what == ring) {
                moves.passes.retain(|p| p.what.ring != ring || p.what.direction.is_some());
            }
            // What is around an eye is often told after its rings were passed.
            if direction.is_some() || moves.passed(&ring).is_none() {
                moves.passes.push(here.says(Passed { ring, direction }));
            }
        }
        Ok(())
    }

    /// What is done with the ring in hand. Where none was opened it has no name before it is closed.
    fn moves(&mut self, here: &Here) -> &mut Moves {
        &mut self.hand.get_or_insert_with(|| InHand::new(None, here)).moves
    }

    /// What is open still is taken as closed.
    fn never_closed(&mut self) {
        let Some(hand) = self.hand.take() else { return };
        let here = hand.here.clone();
        // What could not be read may have closed it.
        if !hand.moves.unread {
            let why = hand.ring.clone().map_or(Impossible::NoneOpen, Impossible::NeverClosed);
            self.fault(&here, why);
        }
        let Some(ring) = hand.ring.clone() else { return };
        // What else is wrong with it was found already, or follows from what was done before.
        let _ = self.weave(hand.woven(ring));
        // It belongs to the item that opens it.
        if let Some(range) = self.by_item.get_mut(&here.item) {
            range.end = self.woven.len();
            self.item_start = self.woven.len();
        }
    }

    fn close(&mut self, ring: Name, here: &Here) -> Result<(), Impossible> {
        match self.hand.take() {
            Some(hand) => match hand.ring.clone() {
                Some(open) if open == ring => self.weave(hand.woven(ring)),
                Some(open) => {
                    self.hand = Some(hand);
                    Err(Impossible::OtherIsOpen { closed: ring, open })
                }
                None => self.weave(hand.woven(ring.clone())).and(Err(Impossible::NeverOpened(ring))),
            },
            // The ring the work begins with.
            None if self.rings.is_empty() => self.weave(InHand::new(None, here).woven(ring)),
            None => Err(Impossible::NeverOpened(ring)),
        }
    }

    /// Puts a ring into the work; what is wrong with it does not keep it out.
    fn weave(&mut self, woven: Woven) -> Result<(), Impossible> {
        if self.rings.len() > MOST_RINGS {
            return Err(Impossible::TooManyRings(MOST_RINGS));
        }
        let (ring, moves) = (&woven.ring.what, &woven.moves);
        let mut wrong: Vec<Impossible> = Vec::new();
        for InText { what: picked, .. } in &moves.picks {
            wrong.extend(self.enter(picked.clone()).err());
            if moves.passed(picked).is_none() {
                wrong.push(Impossible::PickedUpOnly(picked.clone()));
            }
        }
        let mut passed = BTreeSet::new();
        for InText { what: Passed { ring: other, .. }, .. } in &moves.passes {
            if !passed.insert(other.clone()) {
                wrong.push(Impossible::PassedTwice(other.clone()));
                continue;
            }
            if let Some(links) = self.rings.get_mut(other) {
                *links += 1;
            } else {
                wrong.push(Impossible::NotIn(other.clone()));
                self.rings.insert(other.clone(), 1);
            }
        }
        if self.rings.contains_key(ring) {
            wrong.push(Impossible::AlreadyIn(ring.clone()));
        }
        self.rings.insert(ring.clone(), passed.len());
        for name in passed.iter().chain([ring]) {
            self.note(name);
        }
        // The eye it went through is the last of all from now on.
        self.eye = self.eye_in_hand.take().or_else(|| self.eye_of(moves)).unwrap_or(self.eye);
        self.woven.push(woven);
        match wrong.len() {
            0 => Ok(()),
            1 => wrong.into_iter().try_for_each(Err),
            _ => Err(Impossible::Several(wrong)),
        }
    }

    /// The rings woven in with some items, in order; `None` where one of the items is itself wrong, so its repeats are unknown.
    fn round(&self, items: &RangeInclusive<usize>) -> Result<Option<Vec<Woven>>, Impossible> {
        let ranges: Vec<Range<usize>> = self.by_item.range(items.clone()).map(|(_, r)| r.clone()).collect();
        let (Some(first), Some(last)) = (ranges.first(), ranges.last()) else {
            return Err(Impossible::NoStep(*items.start()));
        };
        if self.faults.iter().any(|f| !f.why.follows() && items.contains(&f.item)) {
            return Ok(None);
        }
        Ok(Some(self.woven.get(first.start..last.end).unwrap_or(&[]).to_vec()))
    }

    fn repeat(
        &mut self,
        items: RangeInclusive<usize>,
        times: Option<usize>,
        until: Option<&Name>,
        here: &Here,
    ) -> Result<(), Stopped> {
        let Some(round) = self.round(&items)? else {
            self.claim(Claim::Repeated(until.cloned()), here);
            return Ok(());
        };
        let rounds = rounds(&round, times, until)?;
        let mut wrong = Ok(());
        for time in 1..=rounds.times {
            for woven in &round {
                let done = self.weave(woven.on(&rounds.by, time, here));
                // One fault in a round is one fault, and what is wrong with the round was found where it is told first.
                if let (true, Err(why)) = (wrong.is_ok(), done) {
                    wrong = Err(Impossible::InRound(Box::new(why)).into());
                }
                if self.rings.len() > MOST_RINGS {
                    return wrong;
                }
            }
        }
        wrong
    }

    /// What is still open, and whether as many rings were used as the list has.
    fn end(&mut self, reading: &Reading) {
        self.never_closed();
        let last = reading.items.last();
        let span = last.and_then(|item| item.sentences.last()).map_or(0..0, |s| s.span.clone());
        let here = Here { item: last.map_or(0, |item| item.number), span };
        for InText { what: need, .. } in &reading.needs {
            let state = |ring: &Name| if self.closed.contains(ring) { State::Closed } else { State::Open };
            let used = self.rings.keys().filter(|r| r.letter == need.letter && state(r) == need.state).count();
            if used != need.count {
                self.fault(&here, Impossible::Needed { need: need.clone(), used });
            }
        }
    }
}

/// How often a round is done again, and how far on each time.
struct Rounds {
    times: i32,
    by: Vec<i32>,
}

/// How a repeat goes on: a number of times, or until a ring is closed. Where the text names no last ring, each round of a
/// chain moves on by as many places as it has rings of the last letter.
fn rounds(round: &[Woven], times: Option<usize>, until: Option<&Name>) -> Result<Rounds, Stopped> {
    let end = round.last().map(|w| w.ring.what.clone()).ok_or(Impossible::NothingToRepeat)?;
    let own = round.iter().filter(|w| w.ring.what.letter == end.letter).count();
    let until = match (until, times) {
        (Some(until), _) => until.clone(),
        (None, Some(times)) if end.numbers.len() == 1 => {
            let whole = |n: usize| i32::try_from(n).map_err(|_| Impossible::TooManyRings(MOST_RINGS));
            end.on(&[whole(own)?], whole(times)?)
        }
        _ => return Err(Stopped::Unclear),
    };
    let apart: Vec<i32> = until.numbers.iter().zip(&end.numbers).map(|(a, b)| a.saturating_sub(*b)).collect();
    if until.letter != end.letter || until.numbers.len() != end.numbers.len() {
        return Err(Impossible::NeverReaches { end, until }.into());
    }
    let most = apart.iter().map(|d| d.unsigned_abs() as usize).max();
    let times = times.or(most).filter(|t| *t > 0).ok_or(Impossible::NoRounds)?;
    let impossible = || Impossible::WrongRounds { end: end.clone(), until: until.clone(), times };
    let many = i32::try_from(times).map_err(|_| impossible())?;
    if apart.iter().any(|d| d % many != 0) || apart.iter().all(|d| *d == 0) {
        return Err(impossible().into());
    }
    Ok(Rounds { times: many, by: apart.iter().map(|d| d / many).collect() })
}

/// A ring that is named twice over.
fn named_once(rings: &[Name]) -> Result<(), Impossible> {
    let mut seen = BTreeSet::new();
    rings.iter().find(|r| !seen.insert(*r)).map_or(Ok(()), |ring| Err(Impossible::NamedTwice(ring.clone())))
}
