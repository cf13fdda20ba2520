//! Which rules see one cause.

use crate::check::{
    cordon_fill_due, cordon_gap, cordon_overlap, leans_opposed, light_gap, renewal, see_through,
    uprights_count, uprights_too_close, uprights_too_far, uprights_uneven,
};

/// A cause that several findings, and several rules, may see: its name, the text that tells it, and its rules, the one that is
/// counted first.
pub struct Family {
    pub name: &'static str,
    pub text: &'static str,
    pub rules: &'static [&'static str],
}

/// A place without its tree, what that brings in bare wire, wide space and light.
pub const LOST: &str = "tree-lost";
/// Trees that were not measured, but filled in from a sample.
pub const FILLED: &str = "filled-in";

const fn family(name: &'static str, text: &'static str, rules: &'static [&'static str]) -> Family {
    Family { name, text, rules }
}

/// All of them. What several findings of one rule may say alike stands here too.
pub const FAMILIES: &[Family] = &[
    family(LOST, "matter-tree-lost", &[cordon_gap::RULE]),
    family(FILLED, "matter-filled-in", &[]),
    family(
        leans_opposed::RULE,
        "matter-leans-opposed",
        &[leans_opposed::RULE],
    ),
    family(
        cordon_gap::RULE,
        "matter-cordon-gap",
        &[cordon_gap::RULE, cordon_fill_due::RULE],
    ),
    family(
        cordon_overlap::RULE,
        "matter-cordon-overlap",
        &[cordon_overlap::RULE],
    ),
    family(
        uprights_too_close::RULE,
        "matter-crowded",
        &[uprights_too_close::RULE, uprights_count::MANY],
    ),
    family(
        uprights_too_far::RULE,
        "matter-sparse",
        &[uprights_too_far::RULE, uprights_count::FEW],
    ),
    family(
        renewal::DUE,
        "matter-renewal",
        &[renewal::DUE, renewal::OLD],
    ),
    family(
        see_through::RULE,
        "matter-see-through",
        &[see_through::RULE],
    ),
    family(light_gap::RULE, "matter-light-gap", &[light_gap::RULE]),
    family("uprights-uneven", "matter-uneven", &[uprights_uneven::RULE]),
    family(
        "stock-too-short",
        "matter-stock-short",
        &["stock-too-short"],
    ),
    family("bend-too-tight", "matter-bends", &["bend-too-tight"]),
    family(
        "upright-over-vigorous",
        "matter-over-vigorous",
        &["upright-over-vigorous"],
    ),
    family("upright-outside", "matter-outside", &["upright-outside"]),
    family(
        "uprights-crossing",
        "matter-crossing",
        &["uprights-crossing"],
    ),
    family("side-shoots", "matter-side-shoots", &["side-shoots"]),
    family("rub-out-due", "matter-rub-out", &["rub-out-due"]),
    family("laterals-due", "matter-laterals", &["laterals-due"]),
    family("tipping-due", "matter-tipping", &["tipping-due"]),
    family("returns-to-thin", "matter-returns", &["returns-to-thin"]),
    family("above-wall", "matter-above-wall", &["above-wall"]),
    family("wires-too-far", "matter-wires-far", &["wires-too-far"]),
    family("renewal-zone-dark", "matter-dark", &["renewal-zone-dark"]),
    family("work-void", "matter-work-void", &["work-void"]),
];

/// The cause of that name.
pub fn named(name: &str) -> Option<&'static Family> {
    FAMILIES.iter().find(|f| f.name == name)
}
