//! A settled weave for people: what was computed, line by line.

use crate::pattern::{FamilyId, Lattice, Pattern, Shift};
use crate::settle::weave::{Known, Lengths, Other, Settled, Word};
use crate::text::{count, list};

impl Settled {
    /// The report as text for a terminal: floor, room, repeat, lean, tilt, extent, accents, poses.
    pub fn table(&self, name: &str, pattern: &Pattern) -> String {
        let mut out = format!("{}: {}\n\n", name, self.what());
        let mut line = |head: &str, words: String| out.push_str(&format!("{head:<10} {words}\n"));
        for (head, words) in self.lines(pattern) {
            line(head, words);
        }
        out
    }

    fn what(&self) -> String {
        let rings = count(self.rings.len(), "ring");
        match self.lattice {
            Lattice::Unit => format!("a unit of {rings}"),
            lattice => {
                let what = if self.problem.spiral { "spiral chain" } else { lattice.word() };
                format!("a {what}, {rings} in the settled repeat")
            }
        }
    }

    fn lines(&self, pattern: &Pattern) -> Vec<(&'static str, String)> {
        let mut lines = Vec::new();
        for (number, floor) in self.floors.iter().enumerate() {
            let head = if number == 0 { "floor" } else { "" };
            let kind = if self.floors.len() > 1 { format!("{}: ", floor.kind) } else { String::new() };
            let proved = if floor.proved > 0.0 {
                format!("; cannot close below AR {:.3} (proved)", floor.proved)
            } else {
                String::new()
            };
            lines.push((head, format!("{kind}closes from AR {:.3} up (found){proved}", floor.found)));
        }
        lines.extend(self.room_lines(pattern));
        lines.extend(self.repeat_lines());
        lines.extend(self.lying_lines(pattern));
        lines.extend(self.accent_lines(pattern));
        lines.extend(self.pose_lines(pattern));
        if !self.sizes.assumed.is_empty() {
            lines.push((
                "sizes",
                format!("none given for {}: treated like the first kind", list(&self.sizes.assumed, "and")),
            ));
        }
        if self.sizes.known == Known::Nothing {
            lines.push(("sizes", "none given: all rings are treated as alike; lengths are for wire 2 % thinner than the floor allows; sizes under `rings` give mm".to_owned()));
        }
        lines
    }

    /// How the piece lies: lean, tilts, extent. What does not close lies nowhere, and only its hand is known.
    fn lying_lines(&self, pattern: &Pattern) -> Vec<(&'static str, String)> {
        let closes = self.closes() != Some(false);
        let either =
            if self.either_hand { "; the text does not give the hand, so the mirror image fits as well" } else { "" };
        let mut lines = Vec::new();
        match self.lean {
            Some(lean) if closes => lines.push(("lean", format!("{}, eyes tip {}{either}", lean.word(), self.tips()))),
            Some(lean) => lines.push(("lean", format!("{}{either}", lean.word()))),
            None if !closes || self.view.tips.is_empty() => {}
            None if self.view.lean_changes() => {
                lines.push(("lean", format!("changes along the piece: eyes tip {}", self.tips())));
            }
            None => lines.push(("lean", format!("none, eyes stand upright ({})", self.tips()))),
        }
        if !closes {
            return lines;
        }
        let from = if self.problem.spiral { "the length of the chain" } else { "the bench" };
        for (id, family) in pattern.families.numbered() {
            let mut tilts: Vec<String> = self.tilts(id).iter().map(|t| format!("{t:.0}°")).collect();
            tilts.dedup();
            let head = if id.number() == 0 { "tilt" } else { "" };
            lines.push((head, format!("{} {} from {from}", family.name.value, tilts.join(", "))));
        }
        let (width, thickness) = self.extent();
        let length = |x: f64| format!("{:.2} {}", x / self.unit(self.wire), self.unit_word());
        let width = width.map_or(String::new(), |w| format!("{} wide, ", length(w)));
        lines.push(("extent", format!("{width}{} thick", length(thickness))));
        lines
    }

    fn room_lines(&self, pattern: &Pattern) -> Vec<(&'static str, String)> {
        let Some(room) = self.room() else { return Vec::new() };
        if self.closes() == Some(true) {
            let straight =
                if self.straight == Some(true) && !self.problem.spiral { ", and it lies straight" } else { "" };
            return vec![(
                "room",
                format!("at these sizes all wires could be {:.1} % thicker{straight}", 100.0 * room.max(0.0)),
            )];
        }
        let mut lines = vec![(
            "room",
            format!("at these sizes it does not close: all wires would have to be {:.1} % thinner", -100.0 * room),
        )];
        if let Some(worst) = self.collisions.first() {
            let name = |ring, shift| self.ring_name(pattern, ring, shift);
            let length = |x: f64| format!("{:.3} {}", x / self.unit(1.0), self.unit_word());
            let (from, to) = (name(worst.from, Shift::ZERO), name(worst.to, worst.shift));
            let (apart, needed) = (length(worst.distance), length(worst.wires));
            lines.push((
                "",
                format!("{from} runs into {to}: their wires are {apart} apart, middle to middle, and need {needed}"),
            ));
        }
        if let Some(how) = self.curls() {
            lines.push(("", format!("it does not close straight, but it does when it {how}")));
        }
        lines
    }

    fn repeat_lines(&self) -> Vec<(&'static str, String)> {
        let words = |lengths: &Lengths, places: usize| {
            let inner: Vec<String> = lengths.iter().map(|l| format!("{:.places$} ID", l / self.inner())).collect();
            if self.sizes.known == Known::Millimetres {
                let mm: Vec<String> = lengths.iter().map(|l| format!("{l:.places$} mm")).collect();
                format!("{} ({})", mm.join(" × "), inner.join(" × "))
            } else {
                inner.join(" × ")
            }
        };
        // A piece can be pushed together into many heaps; one of them was found.
        let all = [
            (&self.taut, 3, "", "taut"),
            (&self.pushed, 1, "about ", "pushed together"),
            (&self.natural, 3, "", "used for counts"),
        ];
        let mut lines = Vec::new();
        for (lengths, places, about, what) in all {
            if let Some(lengths) = lengths.as_ref().filter(|l| !l.is_empty()) {
                let head = if lines.is_empty() { "repeat" } else { "" };
                lines.push((head, format!("{about}{} {what}", words(lengths, places))));
            }
        }
        lines
    }

    fn accent_lines(&self, pattern: &Pattern) -> Vec<(&'static str, String)> {
        let name = |family: FamilyId| pattern.family_name(family);
        let lines = self.sits.iter().enumerate().map(|(number, s)| {
            let why = match s.word {
                Word::Loose => format!("it rocks by {:.0}°", s.rock_deg),
                _ if s.ways == 1 => format!("it lodges in 1 way and rocks by {:.0}°", s.rock_deg),
                _ => format!("it lodges in {}, up to {:.0}° apart", count(s.ways, "way"), s.spread_deg),
            };
            let loss = format!("the piece loses at most {:.1} % of its length", s.loss_percent);
            (
                if number == 0 { "accents" } else { "" },
                format!("{} sits {}: {why}; {loss}", name(s.family), s.word.word()),
            )
        });
        lines.collect()
    }

    fn pose_lines(&self, pattern: &Pattern) -> Vec<(&'static str, String)> {
        let chain = self.problem.ways == 1;
        let name = |family: FamilyId| pattern.family_name(family);
        let mut lines = Vec::new();
        let words = |p: &Other, chosen: bool| {
            let mut words = vec![format!("closes from AR {:.3}", p.floor)];
            words.extend(p.twist_deg.map(|t| format!("turns {t:.1}° a repeat")));
            words.extend(p.length_inner.filter(|_| chain).map(|l| format!("{l:.2} ID a repeat there")));
            words.extend(p.lean.map(|l| format!("leans {}", l.word())));
            words.extend(p.folded.as_ref().map(|families| match families.as_slice() {
                [] => "open".to_owned(),
                families => {
                    let names: Vec<&str> = families.iter().map(|f| name(*f)).collect();
                    format!("{} folded back", list(&names, "and"))
                }
            }));
            words.push(match (chosen, p.allowed, p.closes) {
                (true, true, _) => "chosen".to_owned(),
                (true, false, _) => "chosen, although the text says otherwise".to_owned(),
                (false, false, _) => "does not match the text".to_owned(),
                (false, true, Some(false)) => "too tight for these sizes".to_owned(),
                (false, true, _) => "matches the text as well".to_owned(),
            });
            words.join(", ")
        };
        for (number, pose) in self.poses.iter().enumerate() {
            lines.push((if number == 0 { "poses" } else { "" }, words(pose, number == self.chosen)));
        }
        let starts = count(self.starts, "start");
        lines.push(("", format!("{} found in {starts}", count(self.poses.len(), "pose"))));
        lines
    }

    fn tips(&self) -> String {
        let mut tips: Vec<String> = self.view.tips.iter().map(|t| format!("{:.1}°", t.abs())).collect();
        tips.dedup();
        tips.join(", ")
    }
}
