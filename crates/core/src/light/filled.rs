//! What a row's own wall could catch: filled with leaves from the cordon to its height.

use super::direction::Fineness;
use super::foliage::Foliage;
use super::sky::{Period, Sky, Weather, period_light};
use super::state::{LightState, Settings};
use super::sun::ClearDay;
use super::wall::{COLUMN_MAX_M, Ends, LeafBox, Wall};
use crate::row::{Limit, Targets};

/// What wood of earlier seasons carries of a filled wall's leaf. A row that has not grown in its leaf yet is set beside no more
/// than that. By the growth model, of rows that are renewed; a test works it out anew.
pub const BEFORE_GROWTH: f64 = 0.8;

/// Share of the light, 0–1, that the row's wall would catch, were it filled evenly from the cordon to its height with the
/// usual leaf area ([`Limit::LeafOnFace`]) at its own thickness, spacing, place and bearing, as far unfolded as its own leaves
/// are; before the season's growth with [`BEFORE_GROWTH`] of it. 0 where the wall ends below the cordon.
pub fn caught_when_filled(
    foliage: &Foliage,
    targets: &Targets,
    period: Period,
    weather: Weather,
    fineness: Fineness,
) -> f64 {
    let around = foliage.around();
    let part = match foliage.has_grown() {
        true => 1.0,
        false => BEFORE_GROWTH,
    };
    let leaves = LeafBox {
        x0: 0.0,
        x1: COLUMN_MAX_M,
        z0: foliage.wire(),
        z1: foliage.wall_height(),
        density: targets.get(Limit::LeafOnFace) / around.shape.thickness * foliage.out() * part,
    };
    // Even along the row: one column tells it all.
    let wall = Wall::from_boxes(0.0, COLUMN_MAX_M, &[leaves], around.shape, Ends::Repeated);
    let Ok(wall) = wall else {
        return 0.0;
    };
    let settings = Settings {
        fineness,
        ..Settings::settled(&wall, None)
    };
    let state = LightState::new(wall, &settings);
    let light = period_light(
        state.directions(),
        around.site,
        period,
        ClearDay::default(),
        Sky::StandardOvercast,
    );
    state.caught(&light.under(weather).total)
}

/// Share of a clear period's light, 0–1, that a row's wall catches.
pub fn caught(foliage: &Foliage, period: Period) -> f64 {
    let wall = foliage.wall();
    let settings = Settings::settled(&wall, None);
    let state = LightState::new(wall, &settings);
    let (site, clear) = (foliage.around().site, ClearDay::default());
    let light = period_light(
        state.directions(),
        site,
        period,
        clear,
        Sky::StandardOvercast,
    );
    state.caught(&light.under(Weather::Clear).total)
}
