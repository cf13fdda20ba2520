//! Directions toward the sky, and the fixed set on which sky and sun are laid.

/// A direction toward a point of the sky: unit vector with `x` along the row, `y` across it, `z` up.
/// Rows are alike on both sides, so that the sign of `y` never matters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Direction {
    /// Along the row, −1–1.
    pub x: f64,
    /// Across the row, −1–1.
    pub y: f64,
    /// Up, 0–1; at or below the horizon nothing comes in.
    pub z: f64,
}

/// Lowest sun that is traced, as the sine of its height (0.06°): below it, a ray runs through hundreds of rows.
pub const LOWEST_SINE: f64 = 1.0e-3;

impl Direction {
    /// Direction of a sun or sky point.
    ///
    /// `zenith_deg` 0–90 from straight up, `azimuth_deg` clockwise from north, `row_azimuth_deg` the compass
    /// bearing of the row's own +x.
    pub fn from_sky(zenith_deg: f64, azimuth_deg: f64, row_azimuth_deg: f64) -> Self {
        let (sin_z, cos_z) = libm::sincos(zenith_deg.to_radians());
        let (sin_a, cos_a) = libm::sincos((azimuth_deg - row_azimuth_deg).to_radians());
        Self {
            x: sin_z * cos_a,
            y: -sin_z * sin_a,
            z: cos_z,
        }
    }

    /// Path run along the row per metre of height.
    pub(crate) fn along(&self) -> f64 {
        self.x / self.z.max(LOWEST_SINE)
    }
    /// Path run across the row per metre of height, never exactly 0 (a ray within one millionth of the row's own
    /// plane stays in it to the top of any wall).
    pub(crate) fn across(&self) -> f64 {
        (self.y.abs() / self.z.max(LOWEST_SINE)).max(1e-9)
    }
    /// Path length per metre of height.
    pub(crate) fn slant(&self) -> f64 {
        1.0 / self.z.max(LOWEST_SINE)
    }
}

/// A fixed grid of directions, Gauss–Legendre in `u = sin α` ∈ (−1, 1) and `v = sin β` ∈ (0, 1), where
/// `x = sin α`, `|y| = cos α sin β`, `z = cos α cos β`. The kink "sun along the row" (β = 0) lies on the grid's
/// edge. Place, bearing, period and sky change only the weights that are laid on it.
#[derive(Debug, Clone, PartialEq)]
pub struct DirectionSet {
    u: Vec<f64>,
    v: Vec<f64>,
    u_bary: Vec<f64>,
    v_bary: Vec<f64>,
}

/// How fine the set of directions is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fineness {
    /// 8 × 6 = 48 directions: while a hand drags on a slow machine.
    Coarse,
    /// 12 × 10 = 120 directions: while a hand drags.
    Dragging,
    /// 16 × 20 = 320 directions: at rest.
    Settled,
    /// 24 × 20 = 480 directions: for single points, and for checking the others.
    Fine,
}

impl Fineness {
    fn counts(self) -> (usize, usize) {
        match self {
            Self::Coarse => (8, 6),
            Self::Dragging => (12, 10),
            Self::Settled => (16, 20),
            Self::Fine => (24, 20),
        }
    }
}

impl DirectionSet {
    /// The set of that fineness.
    pub fn new(fineness: Fineness) -> Self {
        let (nu, nv) = fineness.counts();
        Self::with_counts(nu, nv)
    }

    /// A set of `nu` × `nv` directions, each at least 1.
    pub fn with_counts(nu: usize, nv: usize) -> Self {
        let (u, u_weight) = gauss_legendre(nu.max(1));
        let (v, v_weight) = gauss_legendre(nv.max(1));
        // Barycentric weights of Gauss–Legendre nodes: (−1)^i √((1−x²) w).
        let bary = |x: &[f64], w: &[f64]| -> Vec<f64> {
            x.iter()
                .zip(w)
                .enumerate()
                .map(|(i, (x, w))| {
                    let size = libm::sqrt((1.0 - x * x) * w);
                    if i % 2 == 0 { size } else { -size }
                })
                .collect()
        };
        let (u_bary, v_bary) = (bary(&u, &u_weight), bary(&v, &v_weight));
        let v = v.into_iter().map(|v| 0.5 * (v + 1.0)).collect();
        Self {
            u,
            v,
            u_bary,
            v_bary,
        }
    }

    /// That one direction alone, for the sun of an hour. Only its own weight can be laid on it.
    pub fn single(direction: Direction) -> Self {
        let u = direction.x.clamp(-1.0, 1.0);
        let cos_alpha = libm::sqrt((1.0 - u * u).max(1e-18));
        Self {
            u: vec![u],
            v: vec![(direction.y.abs() / cos_alpha).min(1.0)],
            u_bary: vec![1.0],
            v_bary: vec![1.0],
        }
    }

    /// Number of directions.
    pub fn len(&self) -> usize {
        self.u.len() * self.v.len()
    }
    /// Never true: a set has at least one direction.
    pub fn is_empty(&self) -> bool {
        false
    }

    /// Direction number `index`.
    pub fn get(&self, index: usize) -> Direction {
        let (u, v) = (self.u[index / self.v.len()], self.v[index % self.v.len()]);
        let cos_alpha = libm::sqrt(1.0 - u * u);
        Direction {
            x: u,
            y: cos_alpha * v,
            z: cos_alpha * libm::sqrt(1.0 - v * v),
        }
    }

    /// Lays `amount` of light from direction `from` on the set by Lagrange weights, adding to `weights`
    /// (one per direction). A smooth function of direction, weighted so, is what it is at `from`.
    pub fn lay(&self, from: Direction, amount: f64, weights: &mut [f64]) {
        let u = from.x.clamp(-1.0, 1.0);
        let cos_alpha = libm::sqrt((1.0 - u * u).max(1e-18));
        let v = (from.y.abs() / cos_alpha).min(1.0);
        let (mut lu, mut lv) = ([0.0; MAX_NODES], [0.0; MAX_NODES]);
        lagrange(&self.u, &self.u_bary, u, &mut lu);
        lagrange(&self.v, &self.v_bary, v, &mut lv);
        for (row, lu) in weights.chunks_exact_mut(self.v.len()).zip(lu) {
            for (w, lv) in row.iter_mut().zip(lv) {
                *w += amount * lu * lv;
            }
        }
    }
}

const MAX_NODES: usize = 64;

fn lagrange(nodes: &[f64], bary: &[f64], at: f64, out: &mut [f64; MAX_NODES]) {
    if let Some(hit) = nodes.iter().position(|n| (n - at).abs() < 1e-14) {
        out[hit] = 1.0;
        return;
    }
    let mut sum = 0.0;
    for (o, (n, b)) in out.iter_mut().zip(nodes.iter().zip(bary)) {
        *o = b / (at - n);
        sum += *o;
    }
    for o in &mut out[..nodes.len()] {
        *o /= sum;
    }
}

/// Nodes (rising) and weights of Gauss–Legendre quadrature on (−1, 1), by Newton's method on the Legendre
/// polynomial; `n` from 1 to 64, weights sum to 2.
pub fn gauss_legendre(n: usize) -> (Vec<f64>, Vec<f64>) {
    let n = n.min(MAX_NODES);
    let mut nodes = vec![0.0; n];
    let mut weights = vec![0.0; n];
    for i in 0..n {
        let mut x = -libm::cos(core::f64::consts::PI * (i as f64 + 0.75) / (n as f64 + 0.5));
        let mut slope = 1.0;
        for _ in 0..100 {
            let (mut p, mut before) = (1.0, 0.0);
            for k in 0..n {
                let k = k as f64;
                (p, before) = (((2.0 * k + 1.0) * x * p - k * before) / (k + 1.0), p);
            }
            slope = n as f64 * (x * p - before) / (x * x - 1.0);
            let step = p / slope;
            x -= step;
            if step.abs() < 1e-15 {
                break;
            }
        }
        nodes[i] = x;
        weights[i] = 2.0 / ((1.0 - x * x) * slope * slope);
    }
    (nodes, weights)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn quadrature_is_exact_for_polynomials() {
        for n in 1..20 {
            let (x, w) = gauss_legendre(n);
            let moment = |p: i32| -> f64 { x.iter().zip(&w).map(|(x, w)| w * x.powi(p)).sum() };
            assert!((moment(0) - 2.0).abs() < 1e-13);
            let even = 2 * (n as i32 - 1);
            assert!(
                (moment(even) - 2.0 / f64::from(even + 1)).abs() < 1e-12,
                "{n}"
            );
        }
    }

    #[test]
    fn laying_reproduces_smooth_functions() {
        let set = DirectionSet::new(Fineness::Settled);
        let from = Direction::from_sky(40.0, 130.0, 10.0);
        let mut weights = vec![0.0; set.len()];
        set.lay(from, 1.0, &mut weights);
        let f = |d: Direction| {
            let v = d.y.abs() / libm::sqrt(1.0 - d.x * d.x);
            d.x * d.x * d.x + 2.0 * v * v - v * d.x
        };
        let got: f64 = (0..set.len()).map(|i| weights[i] * f(set.get(i))).sum();
        assert!((got - f(from)).abs() < 1e-10);
    }
}
