//! The rules: a file and a page each, and one line here.

mod accent_misses;
mod accent_off_the_end;
mod accent_uneven;
mod aspect_ratio_disagrees;
mod aspect_ratio_unit;
mod before_it_exists;
mod claim_aspect_ratio;
mod claim_fits;
mod claim_lean;
mod claim_length;
mod claim_rings;
mod claim_straight;
mod claim_weave;
mod claim_weight;
mod close_to_floor;
mod closed_through_closed;
mod dangling_end;
mod down_and_up;
mod gauge_disagrees;
mod gauge_without_system;
mod held_by_nothing;
mod idle_end;
mod inch_disagrees;
mod lean_changes;
mod lies_though_linked;
mod linked_twice;
mod links_per_ring;
mod lying_contradiction;
mod measured_far_off;
mod name_used_twice;
mod name_with_digit;
mod never_picked_up;
mod no_eye;
mod no_pose_found;
mod no_such_pose;
mod no_such_size;
mod not_an_eye;
mod nothing_to_make;
mod open_direction;
mod over_full_hole;
mod repeats_apart;
mod rings_too_small;
mod said_twice;
mod separate_parts;
mod side_of_a_sheet;
mod sits_askew;
mod sits_loose;
mod through_itself;
mod too_many_rings;
mod unknown_bag;
mod unknown_base;
mod unknown_kind;
mod unknown_material;
mod unknown_ring;
mod unknown_rings;
mod unused_kind;
mod unused_ring;
mod wire_and_inner_swapped;
mod wrong_gauge_system;
mod wrong_lean;
mod wrong_place;

use super::Context;
use super::shelf::SHORT;
use crate::notation::{MISSPELLED, UNREADABLE};
use crate::report::Diagnostic;
use crate::steps::{CANNOT_BE_DONE, LEFT_OUT, LIES_OTHERWISE, MISCOUNTED, WRONG_LEAN, WRONG_RING, WRONG_WAY};

/// What a rule needs to be sound.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Needs {
    /// Any text, even with lines lost.
    Text,
    /// The whole weave: every line read and every name known.
    Graph,
    /// A weave without errors, settled: of a faulty one the pose says nothing.
    Pose,
    /// Written instructions, and the weave they are about (see [`crate::steps::check`]).
    Steps,
    /// A weave, and the rings on a shelf (see [`super::check_shelf`]).
    Shelf,
}

/// One rule.
pub struct Rule {
    /// Its name; reads after "allow".
    pub name: &'static str,
    /// Its page.
    pub page: &'static str,
    /// What it needs.
    pub needs: Needs,
    /// Whether a finding means that the ring graph is not what the maker meant, so that rules on the
    /// graph would only repeat it.
    pub breaks_graph: bool,
    /// Adds its findings.
    pub check: fn(&Context<'_>, &mut Vec<Diagnostic>),
}

impl Rule {
    const fn breaks_graph(mut self) -> Self {
        self.breaks_graph = true;
        self
    }

    /// The first sentence of the page: what the rule checks.
    pub fn first_sentence(&self) -> String {
        let body = self.page.split("## What it checks\n").nth(1).unwrap_or("");
        let words: Vec<&str> = body.split_whitespace().collect();
        let text = words.join(" ");
        match text.find(". ") {
            Some(end) => text.get(..=end).unwrap_or(&text).to_owned(),
            None => text,
        }
    }
}

/// The size of a ring is told wrongly in a tutorial.
pub const WRONG_SIZE: &str = "wrong-size";

type Check = fn(&Context<'_>, &mut Vec<Diagnostic>);

const fn rule(name: &'static str, page: &'static str, needs: Needs, check: Check) -> Rule {
    Rule { name, page, needs, breaks_graph: false, check }
}

/// A rule on written instructions: it looks at them step by step, and at no weave alone.
const fn told(name: &'static str, page: &'static str) -> Rule {
    Rule { name, page, needs: Needs::Steps, breaks_graph: false, check: |_, _| {} }
}

/// Every rule, in the order of the alphabet; reading comes first.
pub const RULES: &[Rule] = &[
    rule(MISSPELLED, include_str!("misspelled_word.md"), Needs::Text, |_, _| {}),
    rule(UNREADABLE, include_str!("unreadable_line.md"), Needs::Text, |_, _| {}).breaks_graph(),
    rule("accent-misses", include_str!("accent_misses.md"), Needs::Graph, accent_misses::check),
    rule("accent-off-the-end", include_str!("accent_off_the_end.md"), Needs::Graph, accent_off_the_end::check),
    rule("accent-uneven", include_str!("accent_uneven.md"), Needs::Graph, accent_uneven::check),
    rule(
        "aspect-ratio-disagrees",
        include_str!("aspect_ratio_disagrees.md"),
        Needs::Text,
        aspect_ratio_disagrees::check,
    ),
    rule("aspect-ratio-unit", include_str!("aspect_ratio_unit.md"), Needs::Text, aspect_ratio_unit::check),
    rule("before-it-exists", include_str!("before_it_exists.md"), Needs::Graph, before_it_exists::check),
    rule("claim-aspect-ratio", include_str!("claim_aspect_ratio.md"), Needs::Text, claim_aspect_ratio::check),
    rule("claim-fits", include_str!("claim_fits.md"), Needs::Pose, claim_fits::check),
    rule("claim-lean", include_str!("claim_lean.md"), Needs::Pose, claim_lean::check),
    rule("claim-length", include_str!("claim_length.md"), Needs::Pose, claim_length::check),
    rule("claim-rings", include_str!("claim_rings.md"), Needs::Graph, claim_rings::check),
    rule("claim-straight", include_str!("claim_straight.md"), Needs::Pose, claim_straight::check),
    rule("claim-weave", include_str!("claim_weave.md"), Needs::Pose, claim_weave::check),
    rule("claim-weight", include_str!("claim_weight.md"), Needs::Graph, claim_weight::check),
    rule("close-to-floor", include_str!("close_to_floor.md"), Needs::Pose, close_to_floor::check),
    rule("closed-through-closed", include_str!("closed_through_closed.md"), Needs::Graph, closed_through_closed::check),
    rule("dangling-end", include_str!("dangling_end.md"), Needs::Graph, dangling_end::check),
    rule("down-and-up", include_str!("down_and_up.md"), Needs::Graph, down_and_up::check),
    rule("gauge-disagrees", include_str!("gauge_disagrees.md"), Needs::Text, gauge_disagrees::check),
    rule("gauge-without-system", include_str!("gauge_without_system.md"), Needs::Text, gauge_without_system::check),
    rule("held-by-nothing", include_str!("held_by_nothing.md"), Needs::Graph, held_by_nothing::check),
    rule("idle-end", include_str!("idle_end.md"), Needs::Graph, idle_end::check),
    rule("inch-disagrees", include_str!("inch_disagrees.md"), Needs::Text, inch_disagrees::check),
    rule("lean-changes", include_str!("lean_changes.md"), Needs::Pose, lean_changes::check),
    rule("lies-though-linked", include_str!("lies_though_linked.md"), Needs::Graph, lies_though_linked::check),
    rule("linked-twice", include_str!("linked_twice.md"), Needs::Graph, linked_twice::check),
    rule("links-per-ring", include_str!("links_per_ring.md"), Needs::Graph, links_per_ring::check),
    rule("lying-contradiction", include_str!("lying_contradiction.md"), Needs::Graph, lying_contradiction::check),
    rule("measured-far-off", include_str!("measured_far_off.md"), Needs::Text, measured_far_off::check),
    rule("name-used-twice", include_str!("name_used_twice.md"), Needs::Text, name_used_twice::check).breaks_graph(),
    rule("name-with-digit", include_str!("name_with_digit.md"), Needs::Text, name_with_digit::check),
    rule("never-picked-up", include_str!("never_picked_up.md"), Needs::Graph, never_picked_up::check),
    rule("no-eye", include_str!("no_eye.md"), Needs::Graph, no_eye::check),
    rule("no-pose-found", include_str!("no_pose_found.md"), Needs::Pose, no_pose_found::check),
    rule("no-such-pose", include_str!("no_such_pose.md"), Needs::Pose, no_such_pose::check),
    rule("no-such-size", include_str!("no_such_size.md"), Needs::Text, no_such_size::check),
    rule("not-an-eye", include_str!("not_an_eye.md"), Needs::Pose, not_an_eye::check),
    rule("nothing-to-make", include_str!("nothing_to_make.md"), Needs::Text, nothing_to_make::check),
    rule("open-direction", include_str!("open_direction.md"), Needs::Graph, open_direction::check),
    rule("over-full-hole", include_str!("over_full_hole.md"), Needs::Graph, over_full_hole::check),
    rule("repeats-apart", include_str!("repeats_apart.md"), Needs::Graph, repeats_apart::check),
    rule("rings-too-small", include_str!("rings_too_small.md"), Needs::Pose, rings_too_small::check),
    rule("said-twice", include_str!("said_twice.md"), Needs::Text, said_twice::check),
    rule("separate-parts", include_str!("separate_parts.md"), Needs::Graph, separate_parts::check),
    rule("side-of-a-sheet", include_str!("side_of_a_sheet.md"), Needs::Graph, side_of_a_sheet::check),
    rule("sits-askew", include_str!("sits_askew.md"), Needs::Pose, sits_askew::check),
    rule("sits-loose", include_str!("sits_loose.md"), Needs::Pose, sits_loose::check),
    rule("through-itself", include_str!("through_itself.md"), Needs::Graph, through_itself::check),
    rule("too-many-rings", include_str!("too_many_rings.md"), Needs::Text, too_many_rings::check).breaks_graph(),
    rule("unknown-bag", include_str!("unknown_bag.md"), Needs::Text, unknown_bag::check),
    rule("unknown-base", include_str!("unknown_base.md"), Needs::Text, unknown_base::check).breaks_graph(),
    rule("unknown-kind", include_str!("unknown_kind.md"), Needs::Text, unknown_kind::check),
    rule("unknown-material", include_str!("unknown_material.md"), Needs::Text, unknown_material::check),
    rule("unknown-ring", include_str!("unknown_ring.md"), Needs::Text, unknown_ring::check).breaks_graph(),
    rule("unknown-rings", include_str!("unknown_rings.md"), Needs::Text, unknown_rings::check),
    rule("unused-kind", include_str!("unused_kind.md"), Needs::Graph, unused_kind::check),
    rule("unused-ring", include_str!("unused_ring.md"), Needs::Graph, unused_ring::check),
    rule(
        "wire-and-inner-swapped",
        include_str!("wire_and_inner_swapped.md"),
        Needs::Text,
        wire_and_inner_swapped::check,
    ),
    rule("wrong-gauge-system", include_str!("wrong_gauge_system.md"), Needs::Text, wrong_gauge_system::check),
    rule("wrong-lean", include_str!("wrong_lean.md"), Needs::Pose, wrong_lean::check),
    rule("wrong-place", include_str!("wrong_place.md"), Needs::Text, wrong_place::check).breaks_graph(),
    rule(SHORT, include_str!("short_on_the_shelf.md"), Needs::Shelf, |_, _| {}),
    told(CANNOT_BE_DONE, include_str!("step_cannot_be_done.md")),
    told(LEFT_OUT, include_str!("step_left_out.md")),
    told(LIES_OTHERWISE, include_str!("step_lies_otherwise.md")),
    told(MISCOUNTED, include_str!("step_miscounted.md")),
    told(WRONG_SIZE, include_str!("wrong_size.md")),
    told(WRONG_LEAN, include_str!("step_wrong_lean.md")),
    told(WRONG_RING, include_str!("step_wrong_ring.md")),
    told(WRONG_WAY, include_str!("step_wrong_way.md")),
];
