//! What holds for any wall.

use cordonry::light::direction::{Direction, Fineness};
use cordonry::light::gaps::{GapRule, light_gaps};
use cordonry::light::report::LightMap;
use cordonry::light::sky::{Period, Site, Sky, Weather, period_light, sky_weights};
use cordonry::light::state::{LightState, Settings};
use cordonry::light::sun::ClearDay;
use cordonry::light::trace::{QUICK, SINGLE, caught, ground_by_column, through_to_point};
use cordonry::light::wall::{Ends, G_SPHERICAL, LeafBox, RowShape, Wall};
use proptest::prelude::*;

const LEVELS: usize = 6;

fn a_wall() -> impl Strategy<Value = Wall> {
    let cell = prop_oneof![3 => Just(0.0f32), 4 => 0.1f32..12.0, 1 => Just(f32::INFINITY)];
    let ends = prop_oneof![Just(Ends::Repeated), Just(Ends::Ended)];
    (3usize..70, 0.0f64..0.9, 0.2f64..1.5, 1.6f64..4.0, ends).prop_flat_map(
        move |(columns, low, thickness, spacing, ends)| {
            proptest::collection::vec(cell.clone(), columns * LEVELS).prop_map(move |density| {
                let z = (0..=LEVELS).map(|l| low + 0.15 * l as f64).collect();
                let shape = RowShape {
                    thickness,
                    row_spacing: spacing,
                    g: G_SPHERICAL,
                };
                Wall::new(0.0, 0.05, z, density, shape, ends).expect("a wall")
            })
        },
    )
}

fn a_direction() -> impl Strategy<Value = Direction> {
    (1.0f64..89.0, 0.0f64..360.0)
        .prop_map(|(zenith, azimuth)| Direction::from_sky(zenith, azimuth, 0.0))
}

fn changed(wall: &Wall, change: impl Fn(usize, usize, f32) -> f32) -> Wall {
    let density = (0..wall.levels())
        .flat_map(|l| {
            wall.level(l)
                .iter()
                .enumerate()
                .map(move |(c, d)| (l, c, *d))
        })
        .map(|(l, c, d)| change(l, c, d))
        .collect();
    Wall::new(
        wall.x0(),
        wall.dx(),
        wall.z().to_vec(),
        density,
        wall.shape(),
        wall.ends(),
    )
    .expect("a wall")
}

fn coarse(view: Option<std::ops::Range<usize>>) -> Settings {
    Settings {
        fineness: Fineness::Coarse,
        ..Settings::dragging(view)
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    #[test]
    fn light_lies_between_dark_and_full(wall in a_wall(), sun in a_direction(), x in -1.0f64..4.0, z in 0.0f64..2.0) {
        for t in ground_by_column(&wall, sun, SINGLE) {
            prop_assert!((-1e-6..=1.0 + 1e-5).contains(&f64::from(t)), "{t}");
        }
        prop_assert!((0.0..=1.0).contains(&caught(&wall, sun, QUICK)));
        prop_assert!((0.0..=1.0).contains(&through_to_point(&wall, sun, x, 0.0, z)));
        let state = LightState::new(wall.clone(), &coarse(Some(0..wall.columns())));
        for d in 0..state.directions().len() {
            prop_assert!(state.cells(d).iter().all(|t| (0.0..=1.0).contains(t)));
        }
    }

    #[test]
    fn leaves_never_add_light(wall in a_wall(), sun in a_direction(), l in 0..LEVELS, c in 0usize..70, more in 0.1f32..8.0) {
        let c = c % wall.columns();
        let fuller = changed(&wall, |ll, cc, d| if (ll, cc) == (l, c) { d + more } else { d });
        let before = ground_by_column(&wall, sun, SINGLE);
        let after = ground_by_column(&fuller, sun, SINGLE);
        for (b, a) in before.iter().zip(&after) {
            prop_assert!(*a <= b + 1e-6, "{a} > {b}");
        }
        let (x, z) = (wall.column_centre(c) - 0.1, wall.z()[0]);
        prop_assert!(through_to_point(&fuller, sun, x, 0.0, z) <= through_to_point(&wall, sun, x, 0.0, z) + 1e-12);
        let (before, after) = (LightState::new(wall, &coarse(None)), LightState::new(fuller, &coarse(None)));
        for sky in [Sky::Uniform, Sky::StandardOvercast] {
            let weights = sky_weights(before.directions(), sky);
            prop_assert!(after.caught(&weights) >= before.caught(&weights) - 1e-6);
        }
    }

    #[test]
    fn mirror_images_catch_alike(wall in a_wall(), sun in a_direction()) {
        let n = wall.columns();
        let mirror = changed(&wall, |l, c, _| wall.level(l)[n - 1 - c]);
        let turned = Direction { x: -sun.x, ..sun };
        let here = ground_by_column(&wall, sun, SINGLE);
        let mut there = ground_by_column(&mirror, turned, SINGLE);
        there.reverse();
        for (a, b) in here.iter().zip(&there) {
            prop_assert!((a - b).abs() < 1e-4, "{a} {b}");
        }
        // And across the row.
        prop_assert_eq!(ground_by_column(&wall, Direction { y: -sun.y, ..sun }, SINGLE), here);
    }

    #[test]
    fn a_repeated_wall_may_start_anywhere(wall in a_wall(), sun in a_direction(), by in 1usize..40) {
        prop_assume!(wall.ends() == Ends::Repeated);
        let n = wall.columns();
        let shifted = changed(&wall, |l, c, _| wall.level(l)[(c + by) % n]);
        let here = ground_by_column(&wall, sun, QUICK);
        let there = ground_by_column(&shifted, sun, QUICK);
        for c in 0..n {
            prop_assert!((there[c] - here[(c + by) % n]).abs() < 1e-6);
        }
    }

    #[test]
    fn an_edit_equals_the_whole(
        wall in a_wall(),
        from in 0usize..70,
        width in 1usize..9,
        view in (0usize..70, 1usize..70),
        leaves in proptest::collection::vec(0.0f32..9.0, 9 * LEVELS),
    ) {
        let from = from % wall.columns();
        let columns = from..(from + width).min(wall.columns());
        let start = view.0 % wall.columns();
        let settings = coarse(Some(start..(start + view.1).min(wall.columns())));
        let mut edited = LightState::new(wall, &settings);
        edited.edit(columns.clone(), &leaves[..columns.len() * LEVELS]);
        let whole = LightState::new(edited.wall().clone(), &settings);
        for d in 0..whole.directions().len() {
            prop_assert_eq!(edited.ground(d), whole.ground(d));
            prop_assert_eq!(edited.cells(d), whole.cells(d));
        }
    }

    #[test]
    fn the_view_does_not_change_the_map(wall in a_wall(), from in 0usize..70, width in 1usize..70) {
        let from = from % wall.columns();
        let view = from..(from + width).min(wall.columns());
        let whole = LightState::new(wall.clone(), &coarse(Some(0..wall.columns())));
        let mut part = LightState::new(wall, &coarse(None));
        part.set_view(view.clone());
        for d in 0..whole.directions().len() {
            for l in 0..LEVELS {
                let n = whole.wall().columns();
                let (a, b) = (&whole.cells(d)[l * n..(l + 1) * n], &part.cells(d)[l * view.len()..(l + 1) * view.len()]);
                prop_assert_eq!(&a[view.clone()], b);
            }
        }
    }
}

#[test]
fn map_and_exact_rays_agree() {
    let boxes = [
        LeafBox {
            x0: 0.0,
            x1: 2.4,
            z0: 0.5,
            z1: 2.5,
            density: 3.0,
        },
        LeafBox {
            x0: 3.0,
            x1: 4.0,
            z0: 0.5,
            z1: 1.8,
            density: 6.0,
        },
    ];
    let shape = RowShape {
        thickness: 0.5,
        row_spacing: 3.0,
        g: G_SPHERICAL,
    };
    for ends in [Ends::Repeated, Ends::Ended] {
        let wall = Wall::from_boxes(0.0, 4.0, &boxes, shape, ends).expect("a wall");
        let state = LightState::new(
            wall.clone(),
            &Settings {
                fineness: Fineness::Coarse,
                ..Settings::settled(&wall, Some(0..wall.columns()))
            },
        );
        let (mut sum, mut of) = (0.0, 0.0);
        for d in 0..state.directions().len() {
            let direction = state.directions().get(d);
            for level in 0..wall.levels() {
                for c in 0..wall.columns() {
                    let exact = through_to_point(
                        &wall,
                        direction,
                        wall.column_centre(c),
                        0.0,
                        wall.level_centre(level),
                    );
                    sum += (exact - f64::from(state.cells(d)[level * wall.columns() + c])).abs();
                    of += 1.0;
                }
            }
        }
        assert!(sum / of < 1e-2, "{ends:?}: {}", sum / of);
    }
}

#[test]
fn a_bare_wall_lets_everything_through() {
    let shape = RowShape {
        thickness: 0.5,
        row_spacing: 3.0,
        g: G_SPHERICAL,
    };
    let wall = Wall::from_boxes(0.0, 2.0, &[], shape, Ends::Ended).expect("a wall");
    let state = LightState::new(wall.clone(), &coarse(Some(0..wall.columns())));
    let uniform = sky_weights(state.directions(), Sky::Uniform);
    assert!(state.caught(&uniform).abs() < 1e-6);
    assert!(
        LightMap::new(&state, &uniform)
            .light
            .iter()
            .all(|t| (t - 1.0).abs() < 1e-5)
    );
    assert!(
        light_gaps(
            &wall,
            SITE,
            SEASON,
            Weather::Clear,
            &GapRule::between(0.0, 3.0)
        )
        .is_empty()
    );
}

#[test]
fn walls_that_cannot_be_are_refused() {
    let shape = RowShape {
        thickness: 0.5,
        row_spacing: 3.0,
        g: G_SPHERICAL,
    };
    let refuse = |shape: RowShape, length: f64, density: f64| {
        let leaves = LeafBox {
            x0: 0.0,
            x1: 1.0,
            z0: 0.5,
            z1: 1.0,
            density,
        };
        Wall::from_boxes(0.0, length, &[leaves], shape, Ends::Ended)
            .expect_err("refused")
            .to_string()
    };
    assert!(
        refuse(
            RowShape {
                thickness: 3.5,
                ..shape
            },
            1.0,
            1.0
        )
        .contains("3.5 m thick")
    );
    assert!(
        refuse(
            RowShape {
                thickness: 0.0,
                ..shape
            },
            1.0,
            1.0
        )
        .contains("thickness")
    );
    assert!(refuse(shape, f64::NAN, 1.0).contains("length"));
    assert!(refuse(shape, 1.0, -2.0).contains("-2"));
    assert!(refuse(RowShape { g: 0.0, ..shape }, 1.0, 1.0).contains("projection"));
}

const SITE: Site = Site {
    latitude_deg: 46.0,
    row_azimuth_deg: 0.0,
};
const SEASON: Period = Period {
    first: 105,
    last: 288,
};

#[test]
fn gaps_are_found_and_ranked_by_what_they_lose() {
    let column = |x0: f64, x1: f64, z1: f64| LeafBox {
        x0,
        x1,
        z0: 0.5,
        z1,
        density: 6.0,
    };
    // A hole of 0.5 m, one of 1.0 m, and uprights that end low over 0.8 m.
    let boxes = [
        column(0.0, 2.0, 2.5),
        column(2.5, 5.0, 2.5),
        column(6.0, 8.0, 2.5),
        column(8.0, 8.8, 1.5),
        column(8.8, 10.0, 2.5),
    ];
    let shape = RowShape {
        thickness: 0.5,
        row_spacing: 3.0,
        g: G_SPHERICAL,
    };
    let wall = Wall::from_boxes(0.0, 10.0, &boxes, shape, Ends::Ended).expect("a wall");
    let gaps = light_gaps(
        &wall,
        SITE,
        SEASON,
        Weather::Clear,
        &GapRule::between(0.5, 2.5),
    );
    let places: Vec<(f64, f64, f64)> = gaps.iter().map(|g| (g.x0, g.x1, g.z0)).collect();
    let near = |a: (f64, f64, f64), b: (f64, f64, f64)| {
        (a.0 - b.0).abs() + (a.1 - b.1).abs() + (a.2 - b.2).abs() < 1e-6
    };
    assert_eq!(gaps.len(), 3, "{gaps:?}");
    assert!(near(places[0], (5.0, 6.0, 0.5)), "{places:?}");
    assert!(gaps.windows(2).all(|g| g[0].loss >= g[1].loss));
    assert!(gaps.iter().all(|g| g.loss > 0.0 && g.loss < 0.1));
    // Filling them all brings the wall to what an unbroken one catches.
    let light = |wall: &Wall| {
        let state = LightState::new(wall.clone(), &Settings::dragging(None));
        state.caught(
            &period_light(
                state.directions(),
                SITE,
                SEASON,
                ClearDay::default(),
                Sky::StandardOvercast,
            )
            .total,
        )
    };
    let unbroken =
        Wall::from_boxes(0.0, 10.0, &[column(0.0, 10.0, 2.5)], shape, Ends::Ended).expect("a wall");
    let lost: f64 = gaps.iter().map(|g| g.loss).sum();
    assert!((light(&unbroken) - light(&wall) - lost).abs() < 0.01);
}
