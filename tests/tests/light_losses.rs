//! What gaps lose, beside a dense integration written straight down: leaves in half centimetres, which know nothing of the
//! program's grid, and every ray from the ground walked through them in f64.

use cordonry::light::gaps::{GapRule, LightGap, light_gaps};
use cordonry::light::sky::sun_path;
use cordonry::light::sun::ClearDay;
use cordonry::light::wall::{Ends, G_SPHERICAL, RowShape, Wall};
use cordonry::light::{Period, Site, Weather};
use std::f64::consts::PI;
use std::ops::Range;

/// A row of 4 m that repeats itself, in half centimetres.
const LONG: usize = 800;
const CELL: f64 = 0.005;
const LEVELS: usize = 20;
const LEVEL: f64 = 0.1;
const FOOT: f64 = 0.5;
const THICK: f64 = 0.5;
const ROWS: f64 = 3.0;

/// Leaf area density by level and cell.
type Leaves = Vec<Vec<f64>>;

/// Strips 15 cm wide every 20 cm, the first `from` cells along the row, from 0.5 m to 2.5 m.
fn strips(from: usize) -> Leaves {
    let level = |l: usize| {
        let strip = |c: usize| (c + LONG - from) % 40 < 30;
        let dense = 5.0 + (l % 3) as f64;
        (0..LONG)
            .map(|c| if strip(c) { dense } else { 0.0 })
            .collect()
    };
    (0..LEVELS).map(level).collect()
}

/// The same with other leaves in some cells of some levels.
fn with(
    leaves: &Leaves,
    at: &Range<usize>,
    levels: &Range<usize>,
    density: impl Fn(usize) -> f64,
) -> Leaves {
    let mut out = leaves.clone();
    for level in levels.clone() {
        out[level][at.clone()].fill(density(level));
    }
    out
}

/// Leaf met on the way of a ray from a place on the ground, weighed by its projection.
fn depth(leaves: &Leaves, (sx, sy, sz): (f64, f64, f64), x: f64, y: f64) -> f64 {
    let top = FOOT + LEVEL * LEVELS as f64;
    let across = (sy.abs() / sz).max(1e-9);
    let along = sx / sz;
    let (mut sum, mut wall) = (0.0, 0.0);
    loop {
        // Heights at which the ray goes into this wall and out of it.
        let low = (wall - THICK / 2.0 - y) / across;
        let high = (wall + THICK / 2.0 - y) / across;
        if low >= top {
            return G_SPHERICAL * sum / sz;
        }
        for (level, cells) in leaves.iter().enumerate() {
            let bottom = FOOT + LEVEL * level as f64;
            let (from, to) = (low.max(bottom), high.min(bottom + LEVEL));
            if to <= from {
                continue;
            }
            // In steps no longer than two cells.
            let steps = (0.5 * (along * (to - from)).abs() / CELL).ceil().max(1.0);
            let step = (to - from) / steps;
            for i in 0..steps as usize {
                let place = x + along * (from + (i as f64 + 0.5) * step);
                let cell = (place / CELL).floor().rem_euclid(LONG as f64) as usize;
                sum += step * cells[cell.min(LONG - 1)];
            }
        }
        wall += ROWS;
    }
}

/// Share of the light from one direction by which `more` catches more than `less`.
fn gain(less: &Leaves, more: &Leaves, toward: (f64, f64, f64)) -> f64 {
    const ALONG: usize = 133;
    const ACROSS: usize = 16;
    let mut sum = 0.0;
    for i in 0..ALONG {
        let x = (i as f64 + 0.5) / ALONG as f64 * CELL * LONG as f64;
        for j in 0..ACROSS {
            // Rays go toward +y, from the last row's far face to the next one's.
            let y = (j as f64 + 0.5) / ACROSS as f64 * ROWS - ROWS + THICK / 2.0;
            sum += (-depth(less, toward, x, y)).exp() - (-depth(more, toward, x, y)).exp();
        }
    }
    sum / (ALONG * ACROSS) as f64
}

/// The same of a season's light under a clear and under the usual sky.
fn season_gain(less: &Leaves, more: &Leaves, site: Site) -> [f64; 2] {
    let path = sun_path(site, season(), ClearDay::default());
    let of_beam: f64 = path.iter().map(|s| s.beam).sum();
    let of_sky: f64 = path.iter().map(|s| s.sky).sum();
    let (mut beam, mut of) = (0.0, 0.0);
    // Five is no part of the times of a day: every hour has its turn.
    for step in path.iter().step_by(5) {
        let d = step.direction;
        beam += step.beam * gain(less, more, (d.x, d.y, d.z.max(1e-2)));
        of += step.beam;
    }
    let beam = beam / of;
    let (mut sky, mut of) = (0.0, 0.0);
    for i in 0..12 {
        let (sin, cos) = ((f64::from(i) + 0.5) / 12.0 * PI / 2.0).sin_cos();
        for j in 0..16 {
            let (across, along) = ((f64::from(j) + 0.5) / 16.0 * PI).sin_cos();
            let weight = sin * cos * (1.0 + 2.0 * cos);
            sky += weight * gain(less, more, (sin * along, sin * across, cos));
            of += weight;
        }
    }
    let sky = sky / of;
    [of_sky / (of_beam + of_sky), 1.0 - 1.13 * 0.5].map(|share| (1.0 - share) * beam + share * sky)
}

fn season() -> Period {
    Period::growing_season(45.0)
}

/// The gaps of the same leaves on the program's own grid for them, columns 2.5 cm wide.
fn found(leaves: &Leaves, site: Site, weather: Weather) -> Vec<LightGap> {
    let mean = |part: &[f64]| (part.iter().sum::<f64>() / part.len() as f64) as f32;
    let density = leaves
        .iter()
        .flat_map(|level| level.chunks(5).map(mean))
        .collect();
    let shape = RowShape {
        thickness: THICK,
        row_spacing: ROWS,
        g: G_SPHERICAL,
    };
    let z = (0..=LEVELS).map(|l| FOOT + LEVEL * l as f64).collect();
    let wall = Wall::new(0.0, 5.0 * CELL, z, density, shape, Ends::Repeated).expect("a wall");
    let rule = GapRule {
        least_width: 0.15,
        ..GapRule::between(FOOT, 2.5)
    };
    light_gaps(&wall, site, season(), weather, &rule)
}

#[test]
fn losses_of_gaps_are_those_of_a_dense_integration() {
    // Uprights lost from strip 9 on: one, three, and the upper half of two; where the grid meets the strips' edges and where
    // it cuts them.
    let cases = [
        (0, 1, 0..20, 0.0),
        (2, 1, 0..20, 90.0),
        (3, 1, 0..20, 0.0),
        (1, 3, 0..20, 30.0),
        (2, 2, 10..20, 0.0),
    ];
    for (from, lost, levels, bearing) in cases {
        let site = Site {
            latitude_deg: 45.0,
            row_azimuth_deg: bearing,
        };
        let whole = strips(from);
        // From the strip before to the one after.
        let open = from + 350..from + 360 + 40 * lost;
        let holed = with(&whole, &open, &levels, |_| 0.0);
        // As leafy as the rest of each level.
        let rest = |level: usize| holed[level].iter().sum::<f64>() / (LONG - open.len()) as f64;
        let full = with(&holed, &open, &levels, rest);
        let dense = season_gain(&holed, &full, site);
        for (weather, dense) in [Weather::Clear, Weather::Usual].into_iter().zip(dense) {
            let gaps = found(&holed, site, weather);
            let [gap] = &gaps[..] else { panic!("{gaps:?}") };
            let off = gap.loss / dense - 1.0;
            println!(
                "{lost} lost, {from}/2 cm off the grid, levels {levels:?}, {bearing}°, {weather:?}: {:.6}, densely {dense:.6}: {:+.1} %",
                gap.loss,
                100.0 * off,
            );
            assert!(off.abs() < 0.03, "{gap:?}, not {dense}");
        }
    }
}
