//! Which rules see one cause.

use crate::check::{
    cordon_fill_due, cordon_gap, cordon_overlap, leans_opposed, light_gap, renewal, see_through,
    uprights_count, uprights_too_close, uprights_too_far, uprights_uneven,
};

/// A cause that several findings, and several rules, may see: its name, the text that tells it, and its rules.
pub struct Family {
    pub name: &'static str,
    pub text: &'static str,
    /// The rules besides the one of its name.
    also: &'static [&'static str],
}

impl Family {
    /// Its rules, the one that is counted first. One that is named by no rule has the others alone.
    pub fn rules(&self) -> impl Iterator<Item = &'static str> {
        std::iter::once(self.name).chain(self.also.iter().copied())
    }
}

/// A place without its tree, what that brings in bare wire, wide space and light.
pub const LOST: &str = "tree-lost";
/// Trees that were not measured, but filled in from a sample.
pub const FILLED: &str = "filled-in";

const fn family(name: &'static str, text: &'static str, also: &'static [&'static str]) -> Family {
    Family { name, text, also }
}

/// All of them. What several findings of one rule may say alike stands here too.
pub const FAMILIES: &[Family] = &[
    family(LOST, "matter-tree-lost", &[cordon_gap::RULE]),
    family(FILLED, "matter-filled-in", &[]),
    family(leans_opposed::RULE, "matter-leans-opposed", &[]),
    family(
        cordon_gap::RULE,
        "matter-cordon-gap",
        &[cordon_fill_due::RULE],
    ),
    family(cordon_overlap::RULE, "matter-cordon-overlap", &[]),
    family(
        uprights_too_close::RULE,
        "matter-crowded",
        &[uprights_count::MANY],
    ),
    family(
        uprights_too_far::RULE,
        "matter-sparse",
        &[uprights_count::FEW],
    ),
    family(renewal::DUE, "matter-renewal", &[renewal::OLD]),
    family(see_through::RULE, "matter-see-through", &[]),
    family(light_gap::RULE, "matter-light-gap", &[]),
    family(uprights_uneven::RULE, "matter-uneven", &[]),
    family("stock-too-short", "matter-stock-short", &[]),
    family("bend-too-tight", "matter-bends", &[]),
    family("upright-over-vigorous", "matter-over-vigorous", &[]),
    family("upright-outside", "matter-outside", &[]),
    family("uprights-crossing", "matter-crossing", &[]),
    family("side-shoots", "matter-side-shoots", &[]),
    family("rub-out-due", "matter-rub-out", &[]),
    family("laterals-due", "matter-laterals", &[]),
    family("tipping-due", "matter-tipping", &[]),
    family("returns-to-thin", "matter-returns", &[]),
    family("above-wall", "matter-above-wall", &[]),
    family("wires-too-far", "matter-wires-far", &[]),
    family("renewal-zone-dark", "matter-dark", &[]),
    family("work-void", "matter-work-void", &[]),
];

/// The cause of that name.
pub fn named(name: &str) -> Option<&'static Family> {
    FAMILIES.iter().find(|f| f.name == name)
}
