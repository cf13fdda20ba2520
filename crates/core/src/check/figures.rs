//! The figures of a row: what there is, counted and measured.

use super::Context;
use super::seen::{Seen, over, under};
use crate::pose::PosedRow;
use crate::row::{Kind, Limit, Row, Targets};
use crate::terms::Terms;

/// The figures of a row at one moment. Lengths in mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Figures {
    /// Share of the cordon wire that is filled, 0 to 1; 1 where there is none to fill.
    pub cordon_fill_share: f64,
    /// Length of wire to be filled.
    pub cordon_owed: f64,
    /// All bare stretches together.
    pub gap_total: f64,
    /// The longest bare stretch; 0 without any.
    pub gap_longest: f64,
    /// All stretches covered more than once, together.
    pub overlap_total: f64,
    /// Living trees.
    pub trees: usize,
    /// Places where the tree is lost.
    pub trees_lost: usize,
    /// Grown uprights on the cordon.
    pub uprights: usize,
    /// Kept buds that have not grown yet.
    pub buds: usize,
    /// Renewal stubs.
    pub stubs: usize,
    /// Mean distance along the row between neighbouring uprights, buds and stubs, bare stretches
    /// counted in; 0 with fewer than two.
    pub upright_spacing_mean: f64,
    /// Standard deviation of those distances over their mean; 0 with fewer than two.
    pub upright_spacing_cv: f64,
    /// Mean length of the grown uprights; 0 without any.
    pub upright_length_mean: f64,
    /// Mean number of grown uprights on a living tree; 0 without any.
    pub uprights_per_tree: f64,
    /// Age of the oldest upright in completed growing seasons, counted in the dormant season; 0 without any.
    pub wood_age_max: u8,
}

impl Figures {
    /// Whether neighbouring uprights stand closer or farther apart in the mean than single ones may.
    pub fn spacing_is_off(&self, targets: &Targets) -> bool {
        let mean = self.upright_spacing_mean;
        mean > 0.0
            && (under(mean, targets.get(Limit::UprightSpacingMin))
                || over(mean, targets.get(Limit::UprightSpacingMax)))
    }
}

/// The figures of a row that belongs to no plan.
pub fn figures(row: &Row, targets: &Targets) -> Figures {
    let (row, terms) = (PosedRow::of(row, targets), Terms::of(row, targets));
    of(&Seen::new(&Context::found(&row, &terms, targets)))
}

/// The figures of a row that has been seen.
pub(super) fn of(seen: &Seen<'_>) -> Figures {
    let row = seen.row;
    let total = |list: &[crate::cover::Stretch]| list.iter().map(|s| s.span.length()).sum();
    let mut out = Figures {
        cordon_fill_share: seen.cover.fill_share(),
        cordon_owed: seen.cover.owed,
        gap_total: total(&seen.cover.gaps),
        gap_longest: seen
            .cover
            .gaps
            .iter()
            .map(|g| g.span.length())
            .fold(0.0, f64::max),
        overlap_total: seen.cover.doubled(),
        trees_lost: row.trees.iter().filter(|t| t.is_lost()).count(),
        ..Figures::default()
    };
    out.trees = row.trees.len() - out.trees_lost;
    let mut length = 0.0;
    for shoot in (0..seen.places.len()).filter_map(|i| seen.shoot_at(i)) {
        match shoot.kind() {
            Kind::Bud => out.buds += 1,
            Kind::Stub => out.stubs += 1,
            _ => {
                out.uprights += 1;
                length += shoot.length();
                let age = shoot.born().map_or(0, |b| row.leaf.saturating_sub(b));
                out.wood_age_max = out.wood_age_max.max(age);
            }
        }
    }
    if out.uprights > 0 {
        out.upright_length_mean = length / out.uprights as f64;
        out.uprights_per_tree = out.uprights as f64 / out.trees.max(1) as f64;
    }
    let apart: Vec<f64> = seen.places.windows(2).map(|w| w[1].x - w[0].x).collect();
    (out.upright_spacing_mean, out.upright_spacing_cv) = mean_and_cv(&apart);
    out
}

/// Mean, and standard deviation (of all, not of a sample) over the mean. Of nothing: 0 and 0; of a mean of 0: no spread.
pub(super) fn mean_and_cv(values: &[f64]) -> (f64, f64) {
    if values.is_empty() {
        return (0.0, 0.0);
    }
    let n = values.len() as f64;
    let mean = values.iter().sum::<f64>() / n;
    let variance = values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / n;
    let cv = if mean > 0.0 {
        libm::sqrt(variance) / mean
    } else {
        0.0
    };
    (mean, cv)
}
