//! The rules: a file and a page each, and one line here.

use super::Context;
use super::shelf::SHORT;
use crate::notation::{MISSPELLED, UNREADABLE};
use crate::report::Diagnostic;
use crate::steps::{CANNOT_BE_DONE, LEFT_OUT, LIES_OTHERWISE, MISCOUNTED, WRONG_LEAN, WRONG_RING, WRONG_WAY};
use crate::tutorial::WRONG_SIZE;

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

/// A rule on written instructions: it looks at them step by step, and at no weave alone.
const fn told(name: &'static str, page: &'static str) -> Rule {
    Rule { name, page, needs: Needs::Steps, breaks_graph: false, check: |_, _| {} }
}

/// Declares the modules and the table of rules. A line reads: module, name, what it needs, and
/// `breaks` where a finding of it spoils the graph for other rules.
macro_rules! rules {
    ($($module:ident $name:literal $needs:ident $($breaks:ident)?;)*) => {
        $(mod $module;)*
        /// Every rule, in the order of the alphabet; reading comes first.
        pub const RULES: &[Rule] = &[
            Rule { name: MISSPELLED, page: include_str!("misspelled_word.md"), needs: Needs::Text, breaks_graph: false, check: |_, _| {} },
            Rule { name: UNREADABLE, page: include_str!("unreadable_line.md"), needs: Needs::Text, breaks_graph: true, check: |_, _| {} },
            $(Rule {
                name: $name,
                page: include_str!(concat!(stringify!($module), ".md")),
                needs: Needs::$needs,
                breaks_graph: rules!(@breaks $($breaks)?),
                check: $module::check,
            },)*
            Rule {
                name: SHORT,
                page: include_str!("short_on_the_shelf.md"),
                needs: Needs::Shelf,
                breaks_graph: false,
                check: |_, _| {},
            },
            told(CANNOT_BE_DONE, include_str!("step_cannot_be_done.md")),
            told(LEFT_OUT, include_str!("step_left_out.md")),
            told(LIES_OTHERWISE, include_str!("step_lies_otherwise.md")),
            told(MISCOUNTED, include_str!("step_miscounted.md")),
            told(WRONG_SIZE, include_str!("wrong_size.md")),
            told(WRONG_LEAN, include_str!("step_wrong_lean.md")),
            told(WRONG_RING, include_str!("step_wrong_ring.md")),
            told(WRONG_WAY, include_str!("step_wrong_way.md")),
        ];
    };
    (@breaks breaks) => { true };
    (@breaks) => { false };
}

rules! {
    accent_misses "accent-misses" Graph;
    accent_off_the_end "accent-off-the-end" Graph;
    accent_uneven "accent-uneven" Graph;
    aspect_ratio_disagrees "aspect-ratio-disagrees" Text;
    aspect_ratio_unit "aspect-ratio-unit" Text;
    before_it_exists "before-it-exists" Graph;
    claim_aspect_ratio "claim-aspect-ratio" Text;
    claim_fits "claim-fits" Pose;
    claim_lean "claim-lean" Pose;
    claim_length "claim-length" Pose;
    claim_rings "claim-rings" Graph;
    claim_straight "claim-straight" Pose;
    claim_weave "claim-weave" Pose;
    claim_weight "claim-weight" Graph;
    close_to_floor "close-to-floor" Pose;
    closed_through_closed "closed-through-closed" Graph;
    dangling_end "dangling-end" Graph;
    down_and_up "down-and-up" Graph;
    gauge_disagrees "gauge-disagrees" Text;
    gauge_without_system "gauge-without-system" Text;
    held_by_nothing "held-by-nothing" Graph;
    idle_end "idle-end" Graph;
    inch_disagrees "inch-disagrees" Text;
    lean_changes "lean-changes" Pose;
    lies_though_linked "lies-though-linked" Graph;
    linked_twice "linked-twice" Graph;
    links_per_ring "links-per-ring" Graph;
    lying_contradiction "lying-contradiction" Graph;
    measured_far_off "measured-far-off" Text;
    name_used_twice "name-used-twice" Text breaks;
    name_with_digit "name-with-digit" Text;
    never_picked_up "never-picked-up" Graph;
    no_eye "no-eye" Graph;
    no_pose_found "no-pose-found" Pose;
    no_such_pose "no-such-pose" Pose;
    no_such_size "no-such-size" Text;
    not_an_eye "not-an-eye" Pose;
    nothing_to_make "nothing-to-make" Text;
    open_direction "open-direction" Graph;
    over_full_hole "over-full-hole" Graph;
    repeats_apart "repeats-apart" Graph;
    rings_too_small "rings-too-small" Pose;
    said_twice "said-twice" Text;
    separate_parts "separate-parts" Graph;
    side_of_a_sheet "side-of-a-sheet" Graph;
    sits_askew "sits-askew" Pose;
    sits_loose "sits-loose" Pose;
    through_itself "through-itself" Graph;
    too_many_rings "too-many-rings" Text breaks;
    unknown_bag "unknown-bag" Text;
    unknown_base "unknown-base" Text breaks;
    unknown_kind "unknown-kind" Text;
    unknown_material "unknown-material" Text;
    unknown_ring "unknown-ring" Text breaks;
    unknown_rings "unknown-rings" Text;
    unused_kind "unused-kind" Graph;
    unused_ring "unused-ring" Graph;
    wire_and_inner_swapped "wire-and-inner-swapped" Text;
    wrong_gauge_system "wrong-gauge-system" Text;
    wrong_lean "wrong-lean" Pose;
    wrong_place "wrong-place" Text breaks;
}
