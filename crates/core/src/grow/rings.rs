//! Annual rings: what grew beyond a place adds its cross-section there.

use super::family::Family;
use crate::model::Parameter::{AreaExp, Dia600, DiaExp};
use crate::model::power;
use crate::row::{Shoot, Tree};
use crate::terms::{Assumptions, Terms};

/// Thickness at the base of a year's growth of `grown` mm, mm.
pub fn thickness_of_growth(grown: f64, a: &Assumptions) -> f64 {
    a[Dia600] * power(grown.max(0.0) / 600.0, a[DiaExp])
}

/// Thickness of wood that stood before `leaf`, mm: where none was measured, by its length.
pub(super) fn thickness(shoot: &Shoot, leaf: u8, a: &Assumptions) -> f64 {
    let older = shoot.born().is_some_and(|born| born < leaf);
    match shoot.diameter > 0.0 || !older {
        true => shoot.diameter,
        false => thickness_of_growth(shoot.length(), a),
    }
}

/// The rings of a season, from the tips down. Its growth is that of all that was not taken off by then.
pub(super) fn thicken(tree: &mut Tree, family: &Family, leaf: u8, terms: &Terms) {
    let a = &*terms.assumptions;
    let exponent = a[AreaExp];
    let (whole, rise) = (power(a[Dia600], exponent), a[DiaExp] * exponent);
    let mut added = vec![0.0; tree.shoots.len()];
    for at in (0..tree.shoots.len()).rev() {
        let shoot = &mut tree.shoots[at];
        let own: f64 = shoot
            .units
            .iter()
            .filter(|u| u.leaf == leaf)
            .map(|u| u.grown)
            .sum();
        if own > 0.0 {
            added[at] += whole * power(own / 600.0, rise);
        }
        if added[at] <= 0.0 {
            continue;
        }
        if let Some(parent) = family.parent(at) {
            added[parent] += added[at];
        }
        let was = thickness(shoot, leaf, a);
        let area = power(was, exponent) + added[at];
        let now = power(area, 1.0 / exponent).min(Shoot::MAX_DIAMETER);
        // A bend that was never measured has none: it keeps that too, so that no tip moves.
        if shoot.bends() && shoot.diameter == 0.0 {
            shoot.bend_radius.get_or_insert(0.0);
        }
        shoot.set_thickness(now, terms.geometry.bend_diameters);
    }
}
