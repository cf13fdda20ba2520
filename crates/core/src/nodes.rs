//! Where nodes stand on a year's growth, and what cutting takes off: one law for both.
//!
//! Cutting the end fraction x of last year's length removes x^0.645 of its nodes and x^0.458 of its future
//! fruiting sites. Derived: fitted to a 2013 training lecture digest, by which 15–20 % of the length holds 30–35 % of
//! the nodes and about 45 % of the future sites. The nodes at its base stand closer still and carry one flower bud each, no
//! leaf bud: they crop once, and no shoot comes of them.

use crate::model::Parameter::{Blind, BlindStep, NodesM};
use crate::model::power;
use crate::row::GrowthUnit;
use crate::terms::Assumptions;

/// Exponent of the share of nodes.
const NODE_EXPONENT: f64 = 0.645;
/// Exponent of the share of future fruiting sites.
const SITE_EXPONENT: f64 = 0.458;
/// Most basal nodes without a leaf bud. From memory: 4 to 8.
const MOST_BLIND: f64 = 8.0;
/// Most leaf buds of a shoot that was cut back that grow. Common practice: it is cut to 2 to 4.
const MOST_BUDS: f64 = 4.0;

/// Share of the nodes that cutting the end fraction `x` (0 to 1) removes, 0 to 1. `x` is held to its range.
pub fn nodes_removed(x: f64) -> f64 {
    removed(x, NODE_EXPONENT)
}

/// Share of the future fruiting sites that cutting the end fraction `x` (0 to 1) removes, 0 to 1.
pub fn sites_removed(x: f64) -> f64 {
    removed(x, SITE_EXPONENT)
}

fn removed(x: f64, exponent: f64) -> f64 {
    // Most wood was never cut.
    if x <= 0.0 {
        return 0.0;
    }
    power(x.min(1.0), exponent)
}

/// Nodes that a year's growth had, counted as a fraction.
fn nodes(grown: f64, a: &Assumptions) -> f64 {
    a[NodesM] * grown / 1000.0
}

fn cut_off(unit: &GrowthUnit) -> f64 {
    1.0 - unit.kept / unit.grown
}

/// Nodes on the lowest `to` mm of a year's growth: those that a cut there leaves.
pub fn nodes_below(unit: &GrowthUnit, to: f64, a: &Assumptions) -> f64 {
    nodes(unit.grown, a) * (1.0 - nodes_removed(1.0 - to / unit.grown))
}

/// Nodes with a leaf bud on the lowest `to` mm of what is left of a year's growth. By the law of nodes, so that a tip that is
/// cut leaves the others where they were; but the law was fitted to tips, and has too few at the base for the blind ones to
/// stand there. In the lower half they stand evenly, from the blind base up.
pub fn leaf_nodes_below(unit: &GrowthUnit, to: f64, a: &Assumptions) -> f64 {
    let half = unit.kept.min(unit.grown / 2.0);
    let blind = blind_nodes(unit.grown, a);
    let nodes = (nodes_below(unit, to.max(half), a) - blind).max(0.0);
    if to >= half || nodes == 0.0 {
        return nodes;
    }
    let base = blind_length(unit.grown, a).min(half);
    nodes * (to - base).max(0.0) / (half - base).max(1.0)
}

/// Nodes that are left on a year's growth.
pub fn nodes_kept(unit: &GrowthUnit, a: &Assumptions) -> f64 {
    nodes_below(unit, unit.kept, a)
}

/// Future fruiting sites that are left on a year's growth, the blind base counted in.
pub fn sites_kept(unit: &GrowthUnit, a: &Assumptions) -> f64 {
    nodes(unit.grown, a) * (1.0 - sites_removed(cut_off(unit)))
}

/// Basal nodes of a year's growth of `grown` mm that have no leaf bud.
pub fn blind_nodes(grown: f64, a: &Assumptions) -> f64 {
    (a[Blind] * nodes(grown, a)).min(MOST_BLIND)
}

/// Length, mm, of the base of a year's growth of `grown` mm that carries those nodes.
pub fn blind_length(grown: f64, a: &Assumptions) -> f64 {
    a[BlindStep] * blind_nodes(grown, a)
}

/// Distance, mm, from one leaf bud to the next above the blind base.
pub fn bud_step(a: &Assumptions) -> f64 {
    1000.0 / a[NodesM]
}

/// Leaf buds left on a year's growth that was cut back, 0 to 4.
pub fn leaf_buds(unit: &GrowthUnit, a: &Assumptions) -> u8 {
    let above = unit.kept - blind_length(unit.grown, a);
    (above * a[NodesM] / 1000.0).clamp(0.0, MOST_BUDS) as u8
}

/// Length, mm, that keeps the lowest `buds` leaf buds of a year's growth of `grown` mm; all of it when it has no more.
/// They stand above its blind base. The cut is made half-way to the next node.
pub fn length_of_buds(a: &Assumptions, grown: f64, buds: i32) -> f64 {
    let above = (f64::from(buds) + 0.5) * bud_step(a);
    (blind_length(grown, a) + above).min(grown)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_law_stays_in_the_published_band() {
        // 2013 training lecture digest: 15–20 % of length holds 30–35 % of nodes (±1 point) and about
        // 45 % of future sites (±4 points).
        assert!((0.29..=0.31).contains(&nodes_removed(0.15)));
        assert!((0.34..=0.36).contains(&nodes_removed(0.20)));
        assert!((0.41..=0.49).contains(&sites_removed(0.15)));
        assert!((0.41..=0.49).contains(&sites_removed(0.20)));
    }

    #[test]
    fn leaf_buds_stand_from_the_blind_base_up_and_stay_where_they_are_below_a_cut() {
        let a = Assumptions::default();
        for grown in [200.0, 800.0, 1600.0] {
            let whole = GrowthUnit::new(1, grown, grown);
            let below = |unit, part: f64| leaf_nodes_below(unit, part * grown, &a);
            let all = nodes_kept(&whole, &a) - blind_nodes(grown, &a);
            assert!((below(&whole, 1.0) - all).abs() < 1e-9);
            assert_eq!(leaf_nodes_below(&whole, blind_length(grown, &a), &a), 0.0);
            let parts: Vec<f64> = (0..=40).map(|i| f64::from(i) / 40.0).collect();
            let steps = parts.windows(2);
            assert!(
                steps
                    .map(|w| below(&whole, w[1]) - below(&whole, w[0]))
                    .all(|n| n >= 0.0)
            );
            // Nowhere above the blind base is bare.
            assert!(below(&whole, 0.25) > below(&whole, 0.2));
            let tipped = GrowthUnit::new(1, grown, 0.8 * grown);
            for part in [0.1, 0.3, 0.5, 0.7, 0.8] {
                assert_eq!(below(&tipped, part), below(&whole, part), "{grown} {part}");
            }
        }
        // What was cut into its base has none.
        let base = GrowthUnit::new(1, 800.0, 60.0);
        assert_eq!(leaf_nodes_below(&base, 60.0, &a), 0.0);
    }

    #[test]
    fn three_leaf_buds_of_a_shoot_of_0_8_m_end_at_about_0_2_m() {
        let a = Assumptions::default();
        // Common practice: cut back to 2 to 4 leaf buds, 15 to 20 cm of wood.
        let length = length_of_buds(&a, 800.0, 3);
        assert!((180.0..=210.0).contains(&length), "{length}");
        assert_eq!(length_of_buds(&a, 600.0, 500), 600.0);
        let cut = |buds| GrowthUnit::new(1, 800.0, length_of_buds(&a, 800.0, buds));
        for buds in 1..=4 {
            assert_eq!(leaf_buds(&cut(buds), &a), buds as u8);
        }
    }
}
