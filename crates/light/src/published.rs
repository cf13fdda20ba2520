//! Closed forms for walls of the simplest shape, to compare the traced light with.

/// Share of a uniform sky's light that reaches the ground between solid walls without thickness, `height` tall and
/// `spacing` apart (any one unit): √(1+r²) − r with r = height/spacing. 1 without height. Derived from the view factor of
/// two parallel planes.
pub fn thin_walls_uniform_sky(height: f64, spacing: f64) -> f64 {
    let r = height / spacing;
    libm::sqrt(1.0 + r * r) - r
}

/// Irradiance from a uniform sky on the face of such a wall, as a share of that on open level ground, `depth` below the
/// top of walls `spacing` apart: ½(1 − d/√(A²+d²)). ½ at the top. Derived as above.
pub fn thin_wall_face(depth: f64, spacing: f64) -> f64 {
    0.5 * (1.0 - depth / libm::sqrt(spacing * spacing + depth * depth))
}

/// Share of the light that a discontinuous canopy catches: Fmax (1 − e^(−K·LAI/Fmax)) (Jackson 1980, Acta Horticulturae
/// 114), where `f_max` (0–1) is what a solid canopy of its shape would catch, `k` the extinction (0.6 there) and `lai`
/// leaf area per ground area, at least 0. 0 without leaves or with `f_max` 0.
pub fn jackson_1980(f_max: f64, k: f64, lai: f64) -> f64 {
    if f_max <= 0.0 {
        return 0.0;
    }
    f_max * (1.0 - libm::exp(-k * lai / f_max))
}

/// Leaf area per ground area that has more than the share `light` (0–1, above 0) of full light in the same model:
/// Fmax · ln(1/light)/K.
pub fn jackson_1980_leaf_lit(f_max: f64, k: f64, light: f64) -> f64 {
    -f_max * libm::log(light) / k
}
