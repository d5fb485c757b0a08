//! The answer for people: a table without lines, or in Markdown, and what to know of it in words.

use super::choose::Fit;
use super::offer::Offer;
use super::rows::{Enough, Pick, Row};
use super::wanted::Wanted;
use crate::fit::RATIO_STEP;
use crate::settle::HOLDS;
use crate::text::{Grid, Layout, half_up};
use std::fmt::Write as _;

/// What comes first.
const ORDER: &str = "Order: accents straight, askew, loose; room of 3 to 20 % first; enough on hand; less room.";

impl Fit {
    /// The answer as text for a terminal, of at most so many rows; in Markdown where that is asked.
    pub fn table(&self, most: usize, markdown: bool) -> String {
        let mut out = if markdown { format!("# {}\n\n", self.weave) } else { format!("{}\n\n", self.weave) };
        let _ = writeln!(out, "{}\n", self.summary());
        let rows = self.rows.get(..most.min(self.rows.len())).unwrap_or_default();
        if !rows.is_empty() {
            out += &self.grid(rows, markdown);
            let more = self.rows.len() - rows.len();
            if more > 0 {
                let _ = writeln!(out, "{more} more close; `--most {}` shows them all.", self.rows.len());
            }
            let _ = writeln!(out, "{HOLDS}\n{ORDER}");
        }
        for line in self.remarks() {
            let _ = writeln!(out, "{}{line}", if markdown { "\n" } else { "" });
        }
        out
    }

    fn summary(&self) -> String {
        let sizes = count(self.offers.len(), "size");
        let from = if self.from_shelf {
            let lines = self.offers.iter().map(|o| o.rings.len()).sum::<usize>();
            format!("{sizes} of ring in {} of the shelf", count(lines, "line"))
        } else {
            format!("{sizes} in common use (common practice, no source)")
        };
        match (self.kinds.as_slice(), self.floors.first()) {
            ([kind], _) if !self.held.is_empty() => {
                let held: Vec<String> = self.held.iter().map(|(k, o)| format!("`{k}` {}", o.size())).collect();
                format!("{from}, for `{kind}`, the others as the text has them: {}.", held.join(", "))
            }
            ([kind], Some(floor)) => {
                let proved = match floor.proved {
                    p if p > 0.0 => format!("; below {p:.3} none can (proved)"),
                    _ => String::new(),
                };
                let closes =
                    if self.sits() { "its sizes decide how accents sit" } else { "aspect ratios alone decide" };
                format!("{from}, for `{kind}`: it closes from AR {:.3} on (found){proved}; {closes}.", floor.found)
            }
            (kinds, _) => {
                let kinds: Vec<String> = kinds.iter().map(|k| format!("`{k}`")).collect();
                let base = self.base_floor.map_or(String::new(), |floor| {
                    format!(" Without accents the base closes from AR {floor:.3} on (found).")
                });
                let pairs = self.offers.len().pow(2);
                format!("{from}, in {} for {}.{base}", count(pairs, "pair"), kinds.join(" and "))
            }
        }
    }

    fn sits(&self) -> bool {
        self.rows.iter().any(|r| !r.sits.is_empty())
    }

    fn grid(&self, rows: &[Row], markdown: bool) -> String {
        let (sits, needed) = (self.sits(), rows.iter().any(|r| r.size.is_some()));
        let mut grid = Grid::new(if markdown { Layout::Markdown } else { Layout::Plain });
        for kind in &self.kinds {
            grid = grid.words([kind]).numbers(["AR"]);
        }
        grid = grid.numbers(["room", "repeat"]).words(sits.then_some("sits")).words(["lies"]);
        grid = grid.numbers(needed.then_some("needs")).words(self.from_shelf.then_some("on hand"));
        for row in rows {
            let mut cells: Vec<String> = Vec::new();
            for pick in &row.picks {
                cells.push(pick.offer.size());
                cells.push(format!("{:.2}", half_up(pick.offer.ratio(), 2)));
            }
            cells.push(format!("{:.1} %", 100.0 * row.room));
            let lengths: Vec<String> = row.repeat_mm.iter().map(|l| format!("{l:.2}")).collect();
            cells.push(if lengths.is_empty() { "–".to_owned() } else { format!("{} mm", lengths.join(" × ")) });
            cells.extend(sits.then(|| sits_words(row)));
            cells.push(if row.little_room() { "dense, little room" } else { row.hold().word() }.to_owned());
            if needed {
                let needs = row.picks.iter().map(|p| p.needed.map_or("?".to_owned(), |n| n.to_string()));
                cells.push(needs.collect::<Vec<_>>().join(" + "));
            }
            if self.from_shelf {
                cells.push(row.picks.iter().map(on_hand).collect::<Vec<_>>().join(" + "));
            }
            grid.row(cells);
        }
        grid.text()
    }

    /// What is not in the table, and why; what is wanted; what it is for.
    fn remarks(&self) -> Vec<String> {
        let mut lines = Vec::new();
        if self.rows.is_empty() {
            let from = if self.from_shelf { "on the shelf" } else { "in common use" };
            lines.push(format!("Nothing {from} was found to make this weave."));
        }
        let (tried, more): (Vec<&Wanted>, Vec<&Wanted>) = self.wanted.iter().partition(|w| w.tried > 0);
        lines.extend(tried.into_iter().map(Wanted::words));
        if let Some(one) = more.first() {
            lines.push(format!(
                "`{}` for {} more of the sizes above its floor: none was found that sits straight; what they want was not worked out.",
                one.kind,
                more.len()
            ));
        }
        lines.extend(self.misses_words());
        if !self.stretching.is_empty() {
            let names: Vec<String> =
                self.stretching.iter().map(|r| format!("line {} ({})", r.line, r.called())).collect();
            lines.push(format!("Left out, because it stretches and nothing here holds of it: {}.", names.join(", ")));
        }
        if self.from_shelf && !self.rows.is_empty() && self.rows.iter().all(|r| r.size.is_none()) {
            lines.push("The text does not say how much is made, so whether there is enough is not known; `make` with a length or a number says it.".to_owned());
        }
        lines.push(self.work_words());
        lines
    }

    fn misses_words(&self) -> Vec<String> {
        let m = &self.misses;
        let (what, ways) = if self.kinds.len() > 1 { ("pair", 2) } else { ("size", 1) };
        let all = self.offers.len().pow(ways);
        let none =
            if self.may_curl { "because no pose was found that lies straight" } else { "because no pose was found" };
        let parts = [
            (m.proved, "because wires do not go through a hole (proved)"),
            (m.base, "because the base alone does not close with rings so small (no pose found)"),
            (m.not_found, none),
            (m.tight, "because the survey takes them to be too tight (not settled)"),
            (m.beyond, "because their rings are too unlike to be surveyed (not settled)"),
        ];
        let parts: Vec<String> = parts.iter().filter(|(n, _)| *n > 0).map(|(n, why)| format!("{n} {why}")).collect();
        let mut lines = Vec::new();
        if !parts.is_empty() {
            lines.push(format!("Not in the table, of {}: {}.", count(all, what), parts.join("; ")));
        }
        if m.promising > 0 {
            let more = match m.promising {
                1 => format!("1 more {what} looks as if it closes and was not settled"),
                n => format!("{n} more {what}s look as if they close and were not settled"),
            };
            lines.push(format!("{more}; `--most N` settles more of them."));
        }
        let nearest = m.nearest.iter().map(|(offers, room)| {
            let sizes: Vec<String> = offers.iter().map(Offer::size).collect();
            let lack =
                if *room > -1.0 { format!("all wires {:.1} % too thick", -100.0 * room) } else { "no pose".to_owned() };
            format!("{} ({lack})", sizes.join(" with "))
        });
        let nearest: Vec<String> = nearest.collect();
        if !nearest.is_empty() {
            lines.push(format!("Nearest to closing: {}.", nearest.join("; ")));
        }
        lines
    }

    fn work_words(&self) -> String {
        let [shapes, points, lengths] = self.work;
        match (points, lengths) {
            (0, 0) => format!("Worked out from {} settled.", count(shapes, "shape")),
            (0, lengths) => format!(
                "Worked out from {} settled and {} pulled, at aspect ratios rounded down to {RATIO_STEP}.",
                count(shapes, "shape"),
                count(lengths, "length")
            ),
            (points, _) => format!(
                "Worked out from {} settled, chosen by a survey of {} that nothing in the table rests on.",
                count(shapes, "shape"),
                count(points, "point")
            ),
        }
    }
}

impl Wanted {
    /// What is lacking for this size of the base, and what it wants.
    pub fn words(&self) -> String {
        let Self { base, kind, .. } = self;
        let none = if self.some_close {
            "of those settled none sits straight"
        } else {
            "none of these was found to go with it"
        };
        let none = format!("`{kind}` for {}: {none}", base.size());
        let wire = base.wire_mm;
        let Some(inner) = self.inner_mm else {
            return match self.tried {
                0 => format!("{none}."),
                1 => format!("{none}, nor did the one more that was tried, with wire of {wire:.2} mm."),
                n => format!("{none}, nor did the {n} more that were tried, with wire of {wire:.2} mm."),
            };
        };
        let nearest = self.nearest.as_ref().map_or(String::new(), |o| {
            let off = match inner - o.inner_mm {
                by if by > 0.005 => format!(", {by:.2} mm too small"),
                by if by < -0.005 => format!(", {:.2} mm too large", -by),
                _ => String::new(),
            };
            let other = if (o.wire_mm / wire - 1.0).abs() > 0.005 { " (of other wire)" } else { "" };
            format!("; nearest here{other} is {}{off}", o.size())
        });
        format!("{none}; it wants one of about {wire:.2} mm × {inner:.1} mm, which was found to sit straight{nearest}.")
    }
}

fn sits_words(row: &Row) -> String {
    match row.sits.as_slice() {
        [] => "–".to_owned(),
        [(_, word)] => word.word().to_owned(),
        sits => sits.iter().map(|(family, word)| format!("{family} {}", word.word())).collect::<Vec<_>>().join(", "),
    }
}

/// "brass 20, 40 too few, or copper, bright 640": the lines of the shelf of this size.
fn on_hand(pick: &Pick) -> String {
    let line = |(ring, enough): (&crate::shelf::ShelfRing, &Enough)| {
        let have = ring.on_hand.map_or("?".to_owned(), |have| have.to_string());
        let short = if let Enough::Short(by) = enough { format!(" ({by} too few)") } else { String::new() };
        format!("{} {have}{short}", ring.called())
    };
    pick.offer.rings.iter().zip(&pick.enough).map(line).collect::<Vec<_>>().join(" or ")
}

fn count(n: usize, one: &str) -> String {
    if n == 1 { format!("1 {one}") } else { format!("{n} {one}s") }
}
