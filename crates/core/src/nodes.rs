//! Where nodes stand on last year's wood, and what tipping takes off: one law for both.
//!
//! Cutting the end fraction x of last year's length removes x^0.645 of its nodes and x^0.458 of its future
//! fruiting sites. Derived: fitted to a 2013 training lecture digest, by which 15–20 % of the length holds 30–35 % of
//! the nodes and about 45 % of the future sites. The exponents are [`Assumptions`].

use crate::terms::Assumptions;

/// Share of the nodes that cutting the end fraction `x` (0 to 1) removes, 0 to 1. `x` is held to its range.
pub fn nodes_removed(assumptions: &Assumptions, x: f64) -> f64 {
    libm::pow(x.clamp(0.0, 1.0), assumptions.node_exponent)
}

/// Share of the future fruiting sites that cutting the end fraction `x` (0 to 1) removes, 0 to 1.
pub fn sites_removed(assumptions: &Assumptions, x: f64) -> f64 {
    libm::pow(x.clamp(0.0, 1.0), assumptions.site_exponent)
}

/// Length, mm, that keeps the lowest `buds` nodes of a year's growth of `length` mm; all of it when it has no more.
/// The cut is made half-way to the next node.
pub fn length_of_buds(assumptions: &Assumptions, length: f64, buds: u16) -> f64 {
    let nodes = assumptions.nodes_per_metre * length / 1000.0;
    let kept = (f64::from(buds) + 0.5) / nodes.max(1e-9);
    if kept >= 1.0 {
        return length;
    }
    length * (1.0 - libm::pow(1.0 - kept, 1.0 / assumptions.node_exponent))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_law_stays_in_the_published_band() {
        let a = Assumptions::default();
        // 2013 training lecture digest: 15–20 % of length holds 30–35 % of nodes (±1 point) and about
        // 45 % of future sites (±4 points).
        assert!((0.29..=0.31).contains(&nodes_removed(&a, 0.15)));
        assert!((0.34..=0.36).contains(&nodes_removed(&a, 0.20)));
        assert!((0.41..=0.49).contains(&sites_removed(&a, 0.15)));
        assert!((0.41..=0.49).contains(&sites_removed(&a, 0.20)));
    }

    #[test]
    fn buds_at_the_base_stand_some_43_mm_apart() {
        let a = Assumptions::default();
        // Derived: the law at 35 nodes a metre.
        let one = length_of_buds(&a, 600.0, 3) - length_of_buds(&a, 600.0, 2);
        assert!((38.0..=48.0).contains(&one), "{one}");
        assert_eq!(length_of_buds(&a, 600.0, 500), 600.0);
    }
}
