//! The answer for people: a table for a terminal or in Markdown, and what to know about it in words.

use super::RATIO_STEP;
use super::answer::{Fit, Nearest};
use super::gaps::Gap;
use super::offer::Offer;
use super::row::{Enough, Pick, Row};
use crate::settle::{HOLDS, room_word};
use crate::shelf::ShelfRing;
use crate::text::{Grid, Layout, UNKNOWN, count, half_up, list, singular_or_plural};
use std::fmt::Write as _;

/// What comes first.
const ORDER: &str =
    "Order: accents straight, then askew, then loose; room of 3 to 20 % first; then enough on hand; then less room.";

impl Fit {
    /// The answer as text, with `most` rows at most.
    pub fn table(&self, most: usize, layout: Layout) -> String {
        let [heading, apart] = match layout {
            Layout::Plain => ["", ""],
            Layout::Markdown | Layout::CompactMarkdown => ["# ", "\n"],
        };
        let mut out = format!("{heading}{}\n\n{}\n\n", self.weave, self.summary());
        let rows = self.rows.get(..most).unwrap_or(&self.rows);
        if !rows.is_empty() {
            out += &self.grid(rows, layout);
            let more = self.rows.len() - rows.len();
            if more > 0 {
                let _ = writeln!(out, "{more} more close; `--most {}` shows them all.", self.rows.len());
            }
            let _ = writeln!(out, "{HOLDS}\n{ORDER}");
        }
        for line in self.remarks() {
            let _ = writeln!(out, "{apart}{line}");
        }
        out
    }

    /// What was asked: which sizes, for which kinds, and from which aspect ratio on the weave closes.
    fn summary(&self) -> String {
        let sizes = count(self.offers.len(), "size");
        let from = if self.from_shelf {
            let lines = self.offers.iter().map(|offer| offer.rings.len()).sum::<usize>();
            format!("{sizes} of ring on {} of the shelf", count(lines, "line"))
        } else {
            format!("{sizes} in common use (common practice, no source)")
        };
        match (self.kinds.as_slice(), self.floors.first()) {
            ([kind], _) if !self.held.is_empty() => {
                let held: Vec<String> =
                    self.held.iter().map(|held| format!("`{}` {}", held.kind, held.offer.size())).collect();
                format!("{from} for `{kind}`. The other rings stay as the text has them: {}.", list(&held, "and"))
            }
            ([kind], Some(floor)) => {
                let proved = match floor.proved {
                    p if p > 0.0 => format!(" Below {p:.3} it cannot (proved)."),
                    _ => String::new(),
                };
                let decides = if self.has_seats() {
                    "Its sizes decide how accents sit."
                } else {
                    "The aspect ratio alone decides."
                };
                format!("{from} for `{kind}`. It closes from AR {:.3} up (found).{proved} {decides}", floor.found)
            }
            (kinds, _) => {
                let kinds: Vec<String> = kinds.iter().map(|kind| format!("`{kind}`")).collect();
                let base = self.base_floor.map_or_else(String::new, |floor| {
                    format!(" Without accents the base closes from AR {floor:.3} up (found).")
                });
                let pairs = count(self.offers.len().pow(2), "pair");
                format!("{from}: {pairs} for {}.{base}", list(&kinds, "and"))
            }
        }
    }

    fn has_seats(&self) -> bool {
        self.rows.iter().any(|row| !row.sits.is_empty())
    }

    fn grid(&self, rows: &[Row], layout: Layout) -> String {
        let (sits, needed) = (self.has_seats(), rows.iter().any(|row| row.size.is_some()));
        let mut grid = Grid::new(layout);
        for kind in &self.kinds {
            grid = grid.words([kind]).numbers(["AR"]);
        }
        grid = grid.numbers(["room", "repeat"]).words(sits.then_some("sits")).words(["lies"]);
        grid = grid.numbers(needed.then_some("needs")).words(self.from_shelf.then_some("on hand"));
        for row in rows {
            let sizes =
                row.picks.iter().flat_map(|pick| [pick.offer.size(), format!("{:.2}", half_up(pick.offer.ratio(), 2))]);
            let mut cells: Vec<String> = sizes.collect();
            cells.extend([format!("{:.1} %", 100.0 * row.room), row.length_words()]);
            cells.extend(sits.then(|| row.sits_words()));
            cells.push(room_word(row.room).to_owned());
            cells.extend(needed.then(|| row.of_each(|pick| pick.needed.map_or(UNKNOWN.to_owned(), |n| n.to_string()))));
            cells.extend(self.from_shelf.then(|| row.of_each(Pick::on_hand_words)));
            grid.row(cells);
        }
        grid.text()
    }

    /// What is not in the table, and why; which accents to try; what the answer took.
    fn remarks(&self) -> Vec<String> {
        let mut lines = Vec::new();
        if self.rows.is_empty() {
            let none = if self.from_shelf { "No ring on the shelf" } else { "No size in common use" };
            lines.push(format!("{none} was found to make this weave."));
        }
        lines.extend(self.gaps_words());
        lines.extend(self.misses_words());
        if !self.stretching.is_empty() {
            let names: Vec<String> =
                self.stretching.iter().map(|ring| format!("line {} ({})", ring.line, ring.called())).collect();
            let what = singular_or_plural(self.stretching.len(), "it stretches", "they stretch");
            lines.push(format!("Left out because {what}: {}.", names.join(", ")));
        }
        if self.from_shelf && !self.rows.is_empty() && self.rows.iter().all(|row| row.size.is_none()) {
            lines.push("The text does not say how much is made, so it is not known whether the shelf has enough; give a length or a number under `make`.".to_owned());
        }
        lines.push(self.work_words());
        lines
    }

    fn gaps_words(&self) -> Vec<String> {
        let (tried, more): (Vec<&Gap>, Vec<&Gap>) = self.gaps.iter().partition(|gap| gap.tried > 0);
        let mut lines: Vec<String> = tried.into_iter().map(Gap::words).collect();
        if let (Some(one), Some(first)) = (more.first(), self.kinds.first()) {
            lines.push(format!(
                "For {} of `{first}` no `{}` was found to sit straight; which one to try was not worked out.",
                count(more.len(), "more size"),
                one.kind
            ));
        }
        lines
    }

    fn misses_words(&self) -> Vec<String> {
        let misses = &self.misses;
        let (what, kinds) = if self.kinds.len() > 1 { ("pair", 2) } else { ("size", 1) };
        let all = self.offers.len().pow(kinds);
        let no_pose = if self.may_curl { "no pose was found that lies straight" } else { "no pose was found" };
        let reasons = [
            (misses.proved, "the wires do not go through a hole (proved)"),
            (misses.base, "the base alone does not close with such small rings (no pose found)"),
            (misses.not_found, no_pose),
            (misses.tight, "they look too tight in the survey (not settled)"),
            (misses.beyond, "their rings differ too much to be surveyed (not settled)"),
        ];
        let reasons: Vec<String> =
            reasons.iter().filter(|(n, _)| *n > 0).map(|(n, why)| format!("{n} because {why}")).collect();
        let mut lines = Vec::new();
        if !reasons.is_empty() {
            lines.push(format!("Of {}, not in the table: {}.", count(all, what), reasons.join("; ")));
        }
        if misses.promising > 0 {
            let looks = singular_or_plural(
                misses.promising,
                "looks as if it closes but was not settled",
                "look as if they close but were not settled",
            );
            let more = count(misses.promising, &format!("more {what}"));
            lines.push(format!("{more} {looks}; `--most N` settles more of them."));
        }
        let nearest: Vec<String> = misses.nearest.iter().map(Nearest::words).collect();
        if !nearest.is_empty() {
            lines.push(format!("Nearest to closing: {}.", nearest.join("; ")));
        }
        lines
    }

    fn work_words(&self) -> String {
        let settled = format!("Settled {}", count(self.work.settled, "shape"));
        let pulled = count(self.work.pulled, "length");
        match (self.work.surveyed, self.work.pulled) {
            (0, 0) => format!("{settled}."),
            (0, _) => format!("{settled} and worked out {pulled}, at aspect ratios rounded down to {RATIO_STEP}."),
            (points, _) => format!(
                "{settled}, chosen by a survey of {}. The survey is a guess: nothing in the table rests on it.",
                count(points, "point")
            ),
        }
    }
}

impl Row {
    /// "5.76 mm", of a sheet "5.76 × 4.3 mm": one repeat.
    fn length_words(&self) -> String {
        let lengths: Vec<String> = self.repeat_mm.iter().map(|mm| format!("{mm:.2}")).collect();
        if lengths.is_empty() { "–".to_owned() } else { format!("{} mm", lengths.join(" × ")) }
    }

    fn sits_words(&self) -> String {
        match self.sits.as_slice() {
            [] => "–".to_owned(),
            [seat] => seat.word.word().to_owned(),
            seats => {
                let each: Vec<String> =
                    seats.iter().map(|seat| format!("{} {}", seat.family, seat.word.word())).collect();
                each.join(", ")
            }
        }
    }

    /// Something of each kind: "60 + 10".
    fn of_each(&self, words: impl Fn(&Pick) -> String) -> String {
        self.picks.iter().map(words).collect::<Vec<_>>().join(" + ")
    }
}

impl Pick {
    /// "brass 20 (40 too few) or copper, bright 640": the lines of the shelf of this size.
    fn on_hand_words(&self) -> String {
        let line = |(ring, enough): (&ShelfRing, &Enough)| {
            let have = ring.on_hand.map_or(UNKNOWN.to_owned(), |have| have.to_string());
            let short = if let Enough::Short(by) = enough { format!(" ({by} too few)") } else { String::new() };
            format!("{} {have}{short}", ring.called())
        };
        self.offer.rings.iter().zip(&self.enough).map(line).collect::<Vec<_>>().join(" or ")
    }
}

impl Nearest {
    /// "0.9 mm × 3.5 mm (all wires 0.1 % too thick)".
    fn words(&self) -> String {
        let sizes: Vec<String> = self.offers.iter().map(Offer::size).collect();
        let lack = self
            .room
            .map_or_else(|| "no pose found".to_owned(), |room| format!("all wires {:.1} % too thick", -100.0 * room));
        format!("{} ({lack})", sizes.join(" with "))
    }
}

impl Gap {
    /// What is missing for this size of the base, and which one to try.
    fn words(&self) -> String {
        let none = if self.some_close {
            "none of those settled sits straight"
        } else {
            "none on the shelf was found to close with it"
        };
        let none = format!("`{}` for {}: {none}.", self.kind, self.base.size());
        let wire = self.base.wire_mm;
        let Some(inner) = self.inner_mm else {
            return match self.tried {
                0 => none,
                1 => format!("{none} One more was tried, with {wire:.2} mm wire: it does not sit straight."),
                n => format!("{none} {n} more were tried, with {wire:.2} mm wire: none sits straight."),
            };
        };
        let nearest = self.nearest.as_ref().map_or_else(String::new, |offer| {
            let off = match inner - offer.inner_mm {
                by if by > 0.005 => format!(", {by:.2} mm too small"),
                by if by < -0.005 => format!(", {:.2} mm too large", -by),
                _ => String::new(),
            };
            let other = if (offer.wire_mm / wire - 1.0).abs() > 0.005 { " (other wire)" } else { "" };
            format!(" Nearest on the shelf{other}: {}{off}.", offer.size())
        });
        format!("{none} Try about {wire:.2} mm × {inner:.1} mm: it sat straight.{nearest}")
    }
}
