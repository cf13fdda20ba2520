//! What shoots usually measure, where nobody has measured them. From memory, all of it.

use crate::pose::stock_length;
use crate::row::{GrowthUnit, Limit, Row, Targets};
use crate::units::{Deg, Mm};

/// Planting angle of a tree of which nothing is known, degrees. Published range 45–60°.
pub(crate) const ANGLE: f64 = 45.0;
/// Distance to the next tree, mm, where there is none. Published range 1.5–1.8 m.
const SPACING: f64 = 1500.0;
/// Flattest angle for which a stock's length is asked, radians: a stem that lies meets no wire.
const FLATTEST: f64 = 0.17;

/// Length of unheaded stock, mm, as a place on the row asks for it, planted at `angle`.
pub(crate) fn stock(row: &Row, angle: Deg) -> f64 {
    let spacing = row.tree_spacing().map(Mm::f).filter(|s| *s > 0.0);
    let wire = row.trellis.cordon_height().f();
    let bearing = Targets::default().get(Limit::BearingHeight).min(wire);
    libm::ceil(stock_length(
        wire,
        angle.radians().max(FLATTEST),
        spacing.unwrap_or(SPACING),
        bearing,
    ))
}

/// Growth of an upright in its first season, mm: medium; weak 450, strong 1200.
const FIRST_SEASON: f64 = 800.0;
/// Growth of an upright in each later season, mm. Published: two feet, from a training handbook's digest.
const LATER_SEASON: f64 = 600.0;
/// Share of a season's growth that is left once it is tipped. Common practice, no source: a fifth comes off.
const TIPPED: f64 = 0.8;

/// Exponent of the thickness law: through 9 mm at 0.6 m and 13.5 mm at 1.2 m.
const EXPONENT: f64 = 0.585;

/// Diameter at the base of a shoot of that length, both in mm, where it was not measured: 9 mm at 0.6 m and 13.5 mm
/// at 1.2 m, on a power law between them. A length of 0 gives the thinnest, 0.1 mm.
pub(crate) fn diameter(length: f64) -> f64 {
    let mm = 9.0 * libm::pow(length / 600.0, EXPONENT);
    libm::round(mm * 10.0).max(1.0) / 10.0
}

/// Length of a shoot of that diameter at the base, both in mm: the same law, read the other way.
pub(crate) fn length(diameter: f64) -> f64 {
    600.0 * libm::pow(diameter.max(0.0) / 9.0, 1.0 / EXPONENT)
}

/// The seasons of an upright that first grew in `born`, as it stands before `leaf`: growth of medium vigour times
/// `vigour`, each year but the last tipped, and none of it higher than `room` mm above its base.
pub(crate) fn seasons(born: u8, leaf: u8, vigour: f64, room: f64) -> Vec<GrowthUnit> {
    let mut out = Vec::new();
    let mut left = libm::floor(room);
    for season in born..leaf {
        let usual = if season == born {
            FIRST_SEASON
        } else {
            LATER_SEASON
        };
        let grown = libm::round(usual * vigour).max(1.0);
        let tipped = if season + 1 < leaf { TIPPED } else { 1.0 };
        let kept = libm::round(grown * tipped).min(left);
        if kept < 1.0 {
            break;
        }
        left -= kept;
        out.push(GrowthUnit::new(season, grown, kept));
    }
    out
}

/// The seasons of an upright of that length: shared out as [`seasons`] would grow them.
pub(crate) fn seasons_of(length: f64, born: u8, leaf: u8) -> Vec<GrowthUnit> {
    let length = libm::round(length).max(1.0);
    let usual = seasons(born, leaf, 1.0, f64::INFINITY);
    let whole: f64 = usual.iter().map(|u| u.kept).sum();
    if usual.is_empty() {
        return vec![GrowthUnit::whole(born.min(leaf.saturating_sub(1)), length)];
    }
    let share = length / whole;
    let mut left = length;
    let last = usual.len() - 1;
    let mut out: Vec<GrowthUnit> = Vec::with_capacity(usual.len());
    for (i, unit) in usual.into_iter().enumerate() {
        let kept = if i == last {
            left
        } else {
            libm::round(unit.kept * share).min(left)
        };
        left -= kept;
        if kept >= 1.0 {
            out.push(GrowthUnit::new(
                unit.leaf,
                libm::round(unit.grown * share).max(kept),
                kept,
            ));
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thickness_and_length_tell_the_same() {
        // From memory: 9 mm at 0.6 m, 13.5 mm at 1.2 m.
        assert_eq!(diameter(600.0), 9.0);
        assert_eq!(diameter(1200.0), 13.5);
        for mm in [300.0, 600.0, 1200.0, 2000.0] {
            assert!((length(diameter(mm)) - mm).abs() < 0.02 * mm, "{mm}");
        }
    }

    #[test]
    fn seasons_add_up_to_the_length() {
        for leaf in 1..8 {
            for length in [1.0, 37.0, 800.0, 2400.0] {
                let units = seasons_of(length, 1, leaf);
                assert_eq!(units.iter().map(|u| u.kept).sum::<f64>(), length);
                assert!(
                    units
                        .iter()
                        .all(|u| u.kept <= u.grown && u.leaf < leaf.max(1))
                );
            }
        }
    }
}
