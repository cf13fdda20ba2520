//! Steel wire between posts: what it weighs, how it stretches, what a load makes of its tension. Derived throughout; the tests hold
//! it to a reference to the millionth of a newton.

use crate::range::{self, Range};

/// Modulus of elasticity of steel, N/mm².
const E: f64 = 200_000.0;
/// Density of steel, kg/m³.
const DENSITY: f64 = 7_850.0;
/// How much a kelvin lengthens steel.
const ALPHA: f64 = 1.2e-5;
/// What a kilogram weighs, N.
pub const GRAVITY: f64 = 9.81;
/// Tension at which a wire is set without load, N: 0.9 to 1.1 kN, never over 1.1 (fence-wire data).
pub const SETTING: f64 = 1_000.0;
/// The least breaking load of a wire of 2.50 mm, N: 4.9 to 6.7 kN (fence-wire data).
pub const BREAKING: f64 = 4_900.0;

/// A round steel wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Wire {
    /// Thickness, mm.
    pub diameter: f64,
}

impl Default for Wire {
    fn default() -> Self {
        Self { diameter: 2.5 }
    }
}

/// A wire under load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Loaded {
    /// Its tension, N.
    pub tension: f64,
    /// How far it hangs down between its posts, m.
    pub sag: f64,
}

impl Wire {
    /// Thickness that a wire may have, mm.
    pub const DIAMETER: Range = (1.0, 8.0);

    /// A wire of that thickness, mm; `None` where no row has one.
    pub fn of(diameter: f64) -> Option<Self> {
        range::has(Self::DIAMETER, diameter).then_some(Self { diameter })
    }

    /// Its cross-section, mm².
    pub fn area(self) -> f64 {
        std::f64::consts::PI * self.diameter * self.diameter / 4.0
    }

    /// Force for its own length of stretch, N.
    pub fn stiffness(self) -> f64 {
        E * self.area()
    }

    /// How much a kilonewton lengthens 100 m of it, mm.
    pub fn stretch(self) -> f64 {
        1e3 * 1e5 / self.stiffness()
    }

    /// What a metre weighs, kg.
    pub fn kg_per_metre(self) -> f64 {
        DENSITY * self.area() * 1e-6
    }

    /// How long a coil of so many kilograms is, m.
    pub fn coil(self, kg: f64) -> f64 {
        kg / self.kg_per_metre()
    }

    /// What a kelvin less adds to its tension between fixed ends, N.
    pub fn per_kelvin(self) -> f64 {
        self.stiffness() * ALPHA
    }

    /// A wire that was set to a tension, N, without load, between posts `span` m apart, under `load` N on each metre: between fixed
    /// ends it lengthens as it hangs down, `T = T₀ + EA · 8 s²/(3 L²)` with `s = w L²/(8 T)`.
    pub fn loaded(self, setting: f64, span: f64, load: f64) -> Loaded {
        let pull = self.stiffness() * (load * span) * (load * span) / 24.0;
        // T³ − T₀ T² − pull = 0: from above the one root that pulls, Newton's steps only fall.
        let mut tension = setting.max(0.0) + libm::cbrt(pull);
        for _ in 0..100 {
            let squared = tension * tension;
            let value = squared * (tension - setting) - pull;
            let slope = 3.0 * squared - 2.0 * setting * tension;
            let step = if slope > 0.0 { value / slope } else { 0.0 };
            tension -= step;
            if step.abs() <= 1e-12 * tension.abs() {
                break;
            }
        }
        Loaded {
            tension,
            sag: sag(tension, span, load),
        }
    }
}

/// How far a wire hangs down between posts `span` m apart, m, under `load` N on each metre at a tension, N.
pub fn sag(tension: f64, span: f64, load: f64) -> f64 {
    if tension > 0.0 {
        load * span * span / (8.0 * tension)
    } else {
        0.0
    }
}

/// The tension of a wire that a force moves aside by `aside` in the middle of a length: `T = F L/(4 d)`, in the force's unit.
pub fn tension_by_deflection(force: f64, length: f64, aside: f64) -> f64 {
    force * length / (4.0 * aside)
}
