//! The wall on which speed is measured.

use crate::wall::{Ends, G_SPHERICAL, RowShape, Wall};

/// A row of 40 m × 2.5 m in columns of 5 cm and levels of 10 cm, bare below 0.5 m, 25 levels from the ground; rows 3 m
/// apart, wall 0.5 m thick. An upright every 0.2 m, each with its own density between 3 and 9 m² m⁻³ over the 15 cm
/// that it fills, every seventeenth missing. Made up for timing; no row was measured.
pub fn bench_case() -> Wall {
    let (columns, levels) = (800, 25);
    let density = |column: usize, level: usize| -> f32 {
        let upright = column / 4;
        if level < 5 {
            return 0.0;
        }
        if level == 5 {
            return 8.0;
        }
        if column % 4 == 3 || upright % 17 == 5 {
            return 0.0;
        }
        3.0 + ((upright * 37 + level * 11) % 13) as f32 * 0.5
    };
    let z = (0..=levels).map(|l| f64::from(l as u32) * 0.1).collect();
    let cells = (0..levels)
        .flat_map(|l| (0..columns).map(move |c| density(c, l)))
        .collect();
    let shape = RowShape {
        thickness: 0.5,
        row_spacing: 3.0,
        g: G_SPHERICAL,
    };
    Wall::new(0.0, 0.05, z, cells, shape, Ends::Ended).expect("the timing wall is valid")
}

/// Columns of one upright of [`bench_case`], and leaves to put there instead.
pub fn bench_edit() -> (core::ops::Range<usize>, Vec<f32>) {
    let levels = 25;
    let cells = (0..levels)
        .flat_map(|l| [if l > 5 { 6.0 } else { 0.0 }; 4])
        .collect();
    (400..404, cells)
}
