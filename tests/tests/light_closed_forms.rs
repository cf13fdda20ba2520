//! Traced light against closed forms and published figures, the source beside each number.

use cordonry::light::anchors::ANCHORS;
use cordonry::light::direction::{Direction, DirectionSet, Fineness, gauss_legendre};
use cordonry::light::published::{
    jackson_1980, jackson_1980_leaf_lit, thin_wall_face, thin_walls_uniform_sky,
};
use cordonry::light::report::{LightMap, light_at, shares, zone_through_thickness};
use cordonry::light::sky::{
    Period, Site, Sky, USUAL_SKY_SHARE, Weather, period_light, sky_weights,
};
use cordonry::light::state::{LightState, Settings, Weights};
use cordonry::light::sun::{ClearDay, declination, solar_time, sunset_hour_angle};
use cordonry::light::trace::{SINGLE, caught, through_to_point};
use cordonry::light::wall::{Ends, G_SPHERICAL, LeafBox, RowShape, Wall};

fn wall(from: f64, height: f64, density: f64, thickness: f64, row_spacing: f64) -> Wall {
    let leaves = LeafBox {
        x0: 0.0,
        x1: 1.0,
        z0: from,
        z1: height,
        density,
    };
    let shape = RowShape {
        thickness,
        row_spacing,
        g: G_SPHERICAL,
    };
    Wall::from_boxes(0.0, 1.0, &[leaves], shape, Ends::Repeated).expect("a wall")
}

fn solid(height: f64, thickness: f64, row_spacing: f64) -> Wall {
    wall(0.0, height, f64::INFINITY, thickness, row_spacing)
}

fn at_rest(wall: Wall, view: Option<std::ops::Range<usize>>) -> LightState {
    let settings = Settings::settled(&wall, view);
    LightState::new(wall, &settings)
}

fn near(got: f64, want: f64, within: f64, what: &str) {
    assert!(
        (got - want).abs() <= within,
        "{what}: {got}, not {want} ± {within}"
    );
}

/// Share of a day's beam without air that is caught: suns every 1/400 of the day, weighed by their sine.
fn airless_day(wall: &Wall, latitude: f64, bearing: f64, declination: f64) -> f64 {
    let half = sunset_hour_angle(latitude, declination) * 12.0 / std::f64::consts::PI;
    let (mut sum, mut of) = (0.0, 0.0);
    for i in 0..400 {
        let hour = half * (2.0 * (f64::from(i) + 0.5) / 400.0 - 1.0);
        let sun = solar_time(latitude, bearing, declination, hour);
        sum += sun.z * caught(wall, sun, SINGLE);
        of += sun.z;
    }
    sum / of
}

#[test]
fn solid_thin_walls_under_a_uniform_sky() {
    // T = √(1+r²) − r, derived (view factor between parallel planes); figures to four places.
    let figures = [
        (0.5, 0.6180),
        (0.75, 0.5000),
        (1.0, 0.4142),
        (1.5, 0.3028),
        (2.0, 0.2361),
        (3.0, 0.1623),
    ];
    for (r, through) in figures {
        near(thin_walls_uniform_sky(r, 1.0), through, 5e-5, "closed form");
        let state = at_rest(solid(2.0 * r, 0.002, 2.0), None);
        let uniform = sky_weights(state.directions(), Sky::Uniform);
        near(1.0 - state.caught(&uniform), through, 3e-3, "traced");
    }
}

#[test]
fn the_face_of_a_solid_thin_wall() {
    // ½(1 − d/√(A²+d²)), derived; d = A gives .1464.
    near(thin_wall_face(2.0, 2.0), 0.1464, 5e-5, "closed form");
    let wall = solid(3.0, 0.002, 2.0);
    let (nodes, weights) = gauss_legendre(48);
    let quarter = std::f64::consts::FRAC_PI_4;
    for depth in [0.2, 1.0, 2.0, 2.8] {
        let (mut seen, mut open) = (0.0, 0.0);
        for (a, wa) in nodes.iter().zip(&weights) {
            let (sin_a, cos_a) = (2.0 * quarter * a).sin_cos();
            for b in 0..500 {
                let (sin_b, cos_b) = (2.0 * quarter * (f64::from(b) + 0.5) / 500.0).sin_cos();
                let d = Direction {
                    x: sin_a,
                    y: cos_a * sin_b,
                    z: cos_a * cos_b,
                };
                let solid_angle = wa * cos_a;
                seen += solid_angle * d.y * through_to_point(&wall, d, 0.5, 0.0011, 3.0 - depth);
                // The level ground sees both sides of the row.
                open += solid_angle * 2.0 * d.z;
            }
        }
        near(seen / open, thin_wall_face(depth, 2.0), 6e-3, "face");
    }
}

#[test]
fn solid_thin_walls_over_a_day_at_the_equinox() {
    // N–S: T = √(1+r'²) − r', r' = r/cos φ; E–W: T = max(0, 1 − r·tan φ). Derived, whole day, no air, r = 1.
    let wall = solid(2.0, 0.002, 2.0);
    for (latitude, through) in [
        (0.0, 0.41421),
        (34.0, 0.36061),
        (45.0, 0.31784),
        (51.3, 0.28689),
    ] {
        near(
            1.0 - airless_day(&wall, latitude, 0.0, 0.0),
            through,
            2e-3,
            "N-S",
        );
    }
    for (latitude, through) in [(34.0, 0.32549), (45.0, 0.0)] {
        near(
            1.0 - airless_day(&wall, latitude, 90.0, 0.0),
            through,
            2e-3,
            "E-W",
        );
    }
}

#[test]
fn solid_thin_walls_over_a_day_at_the_solstice() {
    // Derived for declination 23.44°, r = 1: share caught, N–S and E–W.
    let wall = solid(2.0, 0.002, 2.0);
    let june = 23.44f64.to_radians();
    for (latitude, ns, ew) in [
        (34.0, 0.607, 0.213),
        (45.0, 0.640, 0.341),
        (51.3, 0.666, 0.434),
    ] {
        near(airless_day(&wall, latitude, 0.0, june), ns, 2e-3, "N-S");
        near(airless_day(&wall, latitude, 90.0, june), ew, 2e-3, "E-W");
    }
}

#[test]
fn half_the_ground_covered_and_as_tall_as_the_alley_is_wide() {
    // Jackson & Palmer 1972 (J. Appl. Ecol. 9:341): over 80 % can be caught. Derived for a solid box: .7929 of a
    // uniform sky; N–S at the solstice .8035, .8201, .8332.
    let wall = solid(1.5, 1.5, 3.0);
    let state = at_rest(wall.clone(), None);
    near(
        state.caught(&sky_weights(state.directions(), Sky::Uniform)),
        0.7929,
        3e-3,
        "uniform sky",
    );
    let june = 23.44f64.to_radians();
    for (latitude, ns) in [(34.0, 0.8035), (45.0, 0.8201), (51.3, 0.8332)] {
        near(
            airless_day(&wall, latitude, 0.0, june),
            ns,
            1e-3,
            "N-S solstice",
        );
    }
}

#[test]
fn discontinuous_canopy_of_jackson_1980() {
    // Acta Hort. 114: F = Fmax(1 − e^(−K·LAI/Fmax)), K = 0.6; figures for Fmax 0.7 derived from it.
    for (lai, share) in [(1.0, 0.4029), (1.5, 0.5065), (2.0, 0.5739), (3.0, 0.6465)] {
        near(jackson_1980(0.7, 0.6, lai), share, 5e-5, "share");
    }
    near(
        jackson_1980_leaf_lit(0.7, 0.6, 0.3),
        1.4046,
        5e-5,
        "leaf area lit above 30 %",
    );
}

/// Share of a clear early-July day's light (beam and uniform sky, weighed by light on level ground) caught at 46° N.
fn july(wall: Wall, bearing: f64) -> f64 {
    let state = at_rest(wall, None);
    let site = Site {
        latitude_deg: 46.0,
        row_azimuth_deg: bearing,
    };
    let light = period_light(
        state.directions(),
        site,
        Period {
            first: 182,
            last: 196,
        },
        ClearDay::default(),
        Sky::Uniform,
    );
    shares(&state, &light).total
}

#[test]
fn a_low_wall_cannot_catch_sixty_percent() {
    // Published: 60 % of daily light in early July by planar cherry, N–S (paper of an ASABE meeting, 2012); 69 % in
    // another trial (Agronomy 2022, 12:643). Derived: a wall of 2.5 m at 3 m spacing, bare below 0.5 m, catches .38–.42 at
    // 3 m² m⁻³, .53–.58 at 8 and .60–.65 solid.
    for (density, low, high) in [
        (3.0, 0.38, 0.42),
        (8.0, 0.53, 0.58),
        (f64::INFINITY, 0.60, 0.65),
    ] {
        let share = july(wall(0.5, 2.5, density, 0.5, 3.0), 0.0);
        assert!((low..=high).contains(&share), "{density}: {share}");
    }
}

#[test]
fn published_walls_stand_beside_the_model() {
    // 60 and 69 % caught, as above, and 28 % of full light at 0.4 m height in a yielding wall (abstract, International
    // Horticultural Congress 2022). Derived: such walls catch between .50 and .72.
    let (mut caught, mut base) = (Vec::new(), Vec::new());
    let site = Site {
        latitude_deg: 46.0,
        row_azimuth_deg: 0.0,
    };
    let july = Period {
        first: 182,
        last: 196,
    };
    for height in [3.0, 3.3] {
        for lai in [2.0, 2.5] {
            let density = lai * 2.8 / (0.5 * (height - 0.5));
            let wall = wall(0.5, height, density, 0.5, 2.8);
            near(wall.leaf_area_index(), lai, 1e-5, "leaf area index");
            let state = at_rest(wall, None);
            let (set, day) = (state.directions(), ClearDay::default());
            let light = period_light(set, site, july, day, Sky::StandardOvercast);
            caught.push(shares(&state, &light).total);
            let across = (0..8).map(|i| (f64::from(i) + 0.5) / 8.0 * 0.25);
            let at = |y| light_at(state.wall(), set, &light.total, 0.5, y, 0.4);
            base.push(across.map(at).sum::<f64>() / 8.0);
        }
    }
    let ends = |values: &[f64]| {
        let least = values.iter().copied().fold(1.0, f64::min);
        (least, values.iter().copied().fold(0.0, f64::max))
    };
    let [first, second, low] = ANCHORS;
    println!("caught {:?}, base {:?}", ends(&caught), ends(&base));
    for (anchor, now) in [(first, &caught), (second, &caught), (low, &base)] {
        let (least, most) = ends(now);
        near(anchor.model.0, least, 0.005, anchor.key);
        near(anchor.model.1, most, 0.005, anchor.key);
        println!("{}: {:+.3}", anchor.key, anchor.off());
    }
    assert!(first.model.0 >= 0.50 && first.model.1 <= 0.72);
}

#[test]
fn bearing_by_season() {
    // Mutsaers 1980: N–S rows catch more in summer to about 55°, E–W rows more in the rest of the year.
    let over_day = |bearing: f64, latitude: f64, day: u32| {
        let wall = wall(0.5, 2.5, 6.0, 0.5, 3.0);
        let state = at_rest(wall, None);
        let site = Site {
            latitude_deg: latitude,
            row_azimuth_deg: bearing,
        };
        let light = period_light(
            state.directions(),
            site,
            Period::day(day),
            ClearDay::default(),
            Sky::Uniform,
        );
        shares(&state, &light).beam
    };
    for latitude in [35.0, 45.0, 52.0] {
        assert!(
            over_day(0.0, latitude, 172) > over_day(90.0, latitude, 172),
            "midsummer at {latitude}°"
        );
        for day in [46, 319, 355] {
            assert!(
                over_day(90.0, latitude, day) > over_day(0.0, latitude, day),
                "day {day} at {latitude}°"
            );
        }
        // The other half of the world, half a year later.
        assert!(over_day(0.0, -latitude, 355) > over_day(90.0, -latitude, 355));
    }
}

/// Light in the 0.3 m above the cordon, N–S at 45° N in July: on the wall's middle plane, and over its whole thickness.
/// Leaves fill `share` of each 0.2 m along the row, from 0.5 m up to `top`, rows `spacing` apart.
fn base_light(thickness: f64, spacing: f64, top: f64, share: f64, lai: f64) -> (f64, f64) {
    let leaves = LeafBox {
        x0: 0.0,
        x1: 0.2 * share,
        z0: 0.5,
        z1: top,
        density: lai * spacing / (thickness * (top - 0.5) * share),
    };
    let shape = RowShape {
        thickness,
        row_spacing: spacing,
        g: G_SPHERICAL,
    };
    let wall = Wall::from_boxes(0.0, 0.2, &[leaves], shape, Ends::Repeated).expect("a wall");
    near(wall.leaf_area_index(), lai, 1e-5, "leaf area index");
    let state = at_rest(wall.clone(), Some(0..wall.columns()));
    let site = Site {
        latitude_deg: 45.0,
        row_azimuth_deg: 0.0,
    };
    let light = period_light(
        state.directions(),
        site,
        Period::month(7),
        ClearDay::default(),
        Sky::Uniform,
    );
    let zone = (0.5, 0.8);
    let plane = LightMap::new(&state, &light.total)
        .zone(zone.0, zone.1)
        .expect("the zone")
        .mean;
    let every = 0..wall.columns();
    let through = zone_through_thickness(&wall, state.directions(), &light.total, zone, every);
    (plane, through.expect("the zone"))
}

#[test]
fn a_deep_canopy_is_darker_at_its_base_than_a_flat_wall_of_equal_leaf_area() {
    // Growers' experience: flat walls renew where bush forms do not, for want of light at the base. Derived here: as much
    // leaf per ground area, spread evenly in both, the same alley left to drive. Darker on the middle plane and through
    // the whole thickness alike.
    for lai in [1.6, 2.0, 2.25, 2.5, 3.0] {
        for top in [2.5, 3.0, 3.3] {
            let flat = base_light(0.5, 2.8, top, 1.0, lai);
            for thickness in [1.5, 1.75, 2.0] {
                let deep = base_light(thickness, 2.3 + thickness, top, 1.0, lai);
                assert!(
                    deep.0 < 0.95 * flat.0 && deep.1 < 0.98 * flat.1,
                    "index {lai}, {top} m tall, {thickness} m deep: {deep:?}, flat {flat:?}"
                );
            }
        }
    }
}

#[test]
fn at_one_row_spacing_a_deep_canopy_takes_its_light_from_the_alley() {
    // Rows that grow deeper without standing further apart spread their leaves into the alley: side light falls alike with
    // the leaf area before a point, and the thinner leaf lets more through from above. The middle plane is no darker;
    // through the whole thickness it is where leaves are many, or where the flat wall's stand on uprights.
    for thickness in [1.5, 1.75, 2.0] {
        let (flat, deep) = (
            base_light(0.5, 2.8, 3.0, 1.0, 3.0),
            base_light(thickness, 2.8, 3.0, 1.0, 3.0),
        );
        assert!(deep.0 > flat.0, "{thickness}: {deep:?}, flat {flat:?}");
        assert!(
            deep.1 < 0.95 * flat.1,
            "{thickness}: {deep:?}, flat {flat:?}"
        );
        let (flat, deep) = (
            base_light(0.5, 2.8, 3.0, 0.5, 2.2),
            base_light(thickness, 2.8, 3.0, 1.0, 2.2),
        );
        assert!(
            deep.1 < 0.98 * flat.1,
            "{thickness}: {deep:?}, flat {flat:?}"
        );
    }
}

#[test]
fn spencer_and_the_position_algorithm_agree() {
    use cordonry::light::sun::{Air, Instant, Place, sun_at};
    let place = Place {
        latitude_deg: 45.0,
        longitude_deg: 0.0,
        elevation_m: 0.0,
    };
    let air = Air {
        pressure_hpa: 1013.25,
        temperature_c: 12.0,
    };
    let starts = [1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335];
    for (month, start) in starts.into_iter().enumerate() {
        let at = |hour: u32, minute: u32, second: f64| Instant {
            year: 2023,
            month: month as u32 + 1,
            day: 15,
            hour,
            minute,
            second,
        };
        let equation = sun_at(at(12, 0, 0.0), place, air, None)
            .expect("a sun")
            .equation_of_time_min;
        let seconds = 12.0 * 3600.0 - 60.0 * equation;
        let minutes = (seconds / 60.0).floor();
        let noon = at(
            (minutes / 60.0) as u32,
            (minutes % 60.0) as u32,
            seconds - 60.0 * minutes,
        );
        let exact = sun_at(noon, place, air, None).expect("a sun");
        assert!((exact.azimuth_deg - 180.0).abs() < 0.01, "{exact:?}");
        let spencer = declination(f64::from(start + 14) + 0.5).to_degrees();
        assert!(
            (45.0 - exact.zenith_true_deg - spencer).abs() < 0.2,
            "month {month}: {spencer} {exact:?}"
        );
    }
}

#[test]
fn finer_sets_agree_with_coarser() {
    let leaves = wall(0.5, 2.8, 5.0, 0.5, 3.0);
    let share = |fineness: Fineness| {
        let settings = Settings {
            fineness,
            ..Settings::settled(&leaves, None)
        };
        let state = LightState::new(leaves.clone(), &settings);
        state.caught(&sky_weights(state.directions(), Sky::StandardOvercast))
    };
    let fine = share(Fineness::Fine);
    near(share(Fineness::Settled), fine, 1e-3, "at rest");
    near(share(Fineness::Dragging), fine, 4e-3, "dragging");
    near(share(Fineness::Coarse), fine, 8e-3, "coarse");
    assert_eq!(DirectionSet::new(Fineness::Dragging).len(), 120);
}

#[test]
fn the_band_is_the_mean_through_the_thickness_of_single_rays() {
    // The state's own few places through the wall against rays walked one by one at eight, over leaves in strips.
    let strips = [0.0, 0.2, 0.4, 0.6].map(|x0| LeafBox {
        x0,
        x1: x0 + 0.15,
        z0: 0.5,
        z1: 2.5,
        density: 6.0,
    });
    let shape = RowShape {
        thickness: 0.5,
        row_spacing: 3.0,
        g: G_SPHERICAL,
    };
    let wall = Wall::from_boxes(0.0, 0.8, &strips, shape, Ends::Repeated).expect("a wall");
    let columns = 0..wall.columns();
    let site = Site {
        latitude_deg: 45.0,
        row_azimuth_deg: 0.0,
    };
    let season = Period::growing_season(45.0);
    // A band that ends within a level too.
    for (zone, settings, within) in [
        (
            (0.5, 0.8),
            Settings::settled(&wall, Some(columns.clone())),
            4e-3,
        ),
        (
            (0.5, 0.75),
            Settings::settled(&wall, Some(columns.clone())),
            4e-3,
        ),
        (
            (0.5, 0.8),
            Settings::dragging(Some(columns.clone())),
            1.5e-2,
        ),
    ] {
        let mut state = LightState::new(wall.clone(), &settings.with_band(zone));
        let light = period_light(
            state.directions(),
            site,
            season,
            ClearDay::default(),
            Sky::StandardOvercast,
        );
        for light in [&light.total, &light.clone().under(Weather::Usual).total] {
            let band = state.band_light(light);
            let mean = band.iter().map(|l| f64::from(*l)).sum::<f64>() / band.len() as f64;
            let every = columns.clone();
            let rays = zone_through_thickness(&wall, state.directions(), light, zone, every);
            let rays = rays.expect("the zone");
            println!("{zone:?}: {mean} {rays}");
            near(mean, rays, within, "through the thickness");
        }
        // What is worked out of a part of the columns is what the whole gives.
        let whole = state.band_light(&light.total);
        state.set_view(3..7);
        assert_eq!(state.band_light(&light.total), whole[3..7]);
    }
    assert!(
        at_rest(wall, Some(columns))
            .band_light(&Weights::one())
            .is_empty()
    );
}

#[test]
fn the_usual_sky_is_what_two_published_formulas_give() {
    // Monthly means over middle latitudes, at half of the light outside the air: 1 − 1.13 K (Page 1961) and
    // 1.311 − 3.022 K + 3.427 K² − 1.821 K³ for sunset past 81.4° (Erbs, Klein and Duffie 1982, Solar Energy 28:293).
    let k = 0.5f64;
    let erbs = 1.311 - 3.022 * k + 3.427 * k * k - 1.821 * k.powi(3);
    near(USUAL_SKY_SHARE, erbs, 0.01, "share of the sky");
    let set = DirectionSet::new(Fineness::Settled);
    let site = Site {
        latitude_deg: 45.0,
        row_azimuth_deg: 0.0,
    };
    let day = ClearDay::default();
    let light = |period| period_light(&set, site, period, day, Sky::StandardOvercast);
    let clear = light(Period::growing_season(45.0));
    let usual = clear.clone().under(Weather::Usual);
    near(
        usual.total.values().iter().sum(),
        1.0,
        1e-9,
        "all of the light",
    );
    for (i, total) in usual.total.values().iter().enumerate() {
        let (beam, sky) = (clear.beam.values()[i], clear.sky.values()[i]);
        near(*total, 0.565 * beam + 0.435 * sky, 1e-12, "a direction");
    }
    assert_eq!(clear.clone().under(Weather::Clear), clear);
}
