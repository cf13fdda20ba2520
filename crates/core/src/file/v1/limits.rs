//! The limits that version 1 knows, each with its least and greatest value. What the model calls its limits may change;
//! these don't.

/// Key, least and greatest value of each.
pub const LIMITS: &[(&str, f64, f64)] = &[
    ("gap_max_mm", 0.0, 1000.0),
    ("overlap_max_mm", 0.0, 1000.0),
    ("fill_due_leaf", 1.0, 6.0),
    ("fill_due_share", 0.5, 1.0),
    ("upright_spacing_mm", 100.0, 500.0),
    ("upright_spacing_min_mm", 50.0, 500.0),
    ("upright_spacing_max_mm", 100.0, 1000.0),
    ("bearing_height_mm", 0.0, 2000.0),
    ("cordon_band_mm", 10.0, 1000.0),
    ("bend_diameters", 1.0, 40.0),
    ("stub_length_mm", 20.0, 500.0),
    ("end_growth_mm", 0.0, 2000.0),
    ("see_through_ratio", 1.0, 5.0),
    ("see_through_share", 0.1, 1.0),
    ("outside_max_mm", 0.0, 1000.0),
    ("crossings_max", 0.0, 100.0),
    ("uneven_max", 0.05, 2.0),
    ("near_trunk_mm", 0.0, 2000.0),
    ("vigour_ratio", 1.0, 4.0),
    ("laterals_leaf", 1.0, 20.0),
    ("laterals_max", 0.0, 200.0),
    ("side_shoots_max", 0.0, 200.0),
    ("rub_out_leaf", 1.0, 20.0),
    ("tipping_leaf", 1.0, 20.0),
    ("tipping_share", 0.05, 0.5),
    ("renewal_leaf", 2.0, 20.0),
    ("renewal_thick_mm", 5.0, 100.0),
    ("renewal_share", 0.05, 1.0),
    ("wood_age_max", 2.0, 20.0),
    ("bend_tightest_diameters", 1.0, 40.0),
    ("wire_spacing_mm", 200.0, 1000.0),
    ("wire_spacing_max_mm", 200.0, 2000.0),
    ("free_end_max_mm", 100.0, 2000.0),
    ("above_wall_max_mm", 0.0, 2000.0),
    ("row_spacing_mm", 1000.0, 10_000.0),
    ("height_ratio", 0.3, 3.0),
    ("height_ratio_max", 0.3, 3.0),
    ("wall_thickness_mm", 200.0, 2000.0),
    ("light_target_share", 0.1, 1.0),
    ("renewal_light_share", 0.02, 1.0),
    ("renewal_zone_mm", 50.0, 1000.0),
    ("light_gap_max_mm", 0.0, 5000.0),
    ("bare_wires_max", 0.0, 20.0),
    ("void_work_max", 0.0, 1000.0),
];

/// Whether version 1 has such a limit.
pub fn has(key: &str) -> bool {
    LIMITS.iter().any(|(k, ..)| *k == key)
}
