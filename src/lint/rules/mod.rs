//! The rules, in folders by what a maker looks for: a file and a page each, and one line here.

pub mod accents;
pub mod claims;
pub mod closing;
pub mod holding;
pub mod lying;
pub mod making;
pub mod names;
pub mod passes;
pub mod reading;
pub mod sizes;
pub mod steps;

use super::rule::{Entry, Rule};

const fn entry<R: Rule>() -> Entry {
    Entry::of::<R>()
}

/// Every rule, in the order of the alphabet.
pub const RULES: &[Entry] = &[
    entry::<accents::accent_misses::AccentMisses>(),
    entry::<accents::accent_off_the_end::AccentOffTheEnd>(),
    entry::<accents::accent_uneven::AccentUneven>(),
    entry::<sizes::aspect_ratio_disagrees::AspectRatioDisagrees>(),
    entry::<sizes::aspect_ratio_unit::AspectRatioUnit>(),
    entry::<passes::before_it_exists::BeforeItExists>(),
    entry::<claims::claim_aspect_ratio::ClaimAspectRatio>(),
    entry::<closing::claim_fits::ClaimFits>(),
    entry::<claims::claim_lean::ClaimLean>(),
    entry::<claims::claim_length::ClaimLength>(),
    entry::<claims::claim_rings::ClaimRings>(),
    entry::<closing::claim_straight::ClaimStraight>(),
    entry::<claims::claim_weave::ClaimWeave>(),
    entry::<claims::claim_weight::ClaimWeight>(),
    entry::<closing::close_to_floor::CloseToFloor>(),
    entry::<passes::closed_through_closed::ClosedThroughClosed>(),
    entry::<holding::dangling_end::DanglingEnd>(),
    entry::<passes::down_and_up::DownAndUp>(),
    entry::<sizes::gauge_disagrees::GaugeDisagrees>(),
    entry::<sizes::gauge_without_system::GaugeWithoutSystem>(),
    entry::<holding::held_by_nothing::HeldByNothing>(),
    entry::<making::idle_end::IdleEnd>(),
    entry::<sizes::inch_disagrees::InchDisagrees>(),
    entry::<lying::lean_changes::LeanChanges>(),
    entry::<lying::lies_though_linked::LiesThoughLinked>(),
    entry::<passes::linked_twice::LinkedTwice>(),
    entry::<claims::links_per_ring::LinksPerRing>(),
    entry::<lying::lying_contradiction::LyingContradiction>(),
    entry::<sizes::measured_far_off::MeasuredFarOff>(),
    entry::<reading::MisspelledWord>(),
    entry::<names::name_used_twice::NameUsedTwice>(),
    entry::<names::name_with_digit::NameWithDigit>(),
    entry::<holding::never_picked_up::NeverPickedUp>(),
    entry::<passes::no_eye::NoEye>(),
    entry::<lying::no_pose_found::NoPoseFound>(),
    entry::<lying::no_such_pose::NoSuchPose>(),
    entry::<sizes::no_such_size::NoSuchSize>(),
    entry::<lying::not_an_eye::NotAnEye>(),
    entry::<making::nothing_to_make::NothingToMake>(),
    entry::<passes::open_direction::OpenDirection>(),
    entry::<closing::over_full_hole::OverFullHole>(),
    entry::<holding::repeats_apart::RepeatsApart>(),
    entry::<closing::rings_too_small::RingsTooSmall>(),
    entry::<reading::said_twice::SaidTwice>(),
    entry::<holding::separate_parts::SeparateParts>(),
    entry::<making::short_on_the_shelf::ShortOnTheShelf>(),
    entry::<lying::side_of_a_sheet::SideOfASheet>(),
    entry::<accents::sits_askew::SitsAskew>(),
    entry::<accents::sits_loose::SitsLoose>(),
    entry::<steps::StepCannotBeDone>(),
    entry::<steps::StepLeftOut>(),
    entry::<steps::StepLiesOtherwise>(),
    entry::<steps::StepMiscounted>(),
    entry::<steps::StepWrongLean>(),
    entry::<steps::StepWrongRing>(),
    entry::<steps::StepWrongWay>(),
    entry::<passes::through_itself::ThroughItself>(),
    entry::<making::too_many_rings::TooManyRings>(),
    entry::<names::unknown_bag::UnknownBag>(),
    entry::<names::unknown_base::UnknownBase>(),
    entry::<names::unknown_kind::UnknownKind>(),
    entry::<names::unknown_material::UnknownMaterial>(),
    entry::<names::unknown_ring::UnknownRing>(),
    entry::<names::unknown_ring_set::UnknownRingSet>(),
    entry::<reading::UnreadableLine>(),
    entry::<names::unused_kind::UnusedKind>(),
    entry::<names::unused_ring::UnusedRing>(),
    entry::<sizes::wire_and_inner_swapped::WireAndInnerSwapped>(),
    entry::<sizes::wrong_gauge_system::WrongGaugeSystem>(),
    entry::<lying::wrong_lean::WrongLean>(),
    entry::<passes::wrong_place::WrongPlace>(),
    entry::<sizes::WrongSize>(),
];
