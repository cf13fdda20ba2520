//! Weights: how much of the light comes from each direction of the set.

use core::f64::consts::PI;
use serde::{Deserialize, Serialize};

use crate::direction::{Direction, DirectionSet, gauss_legendre};
use crate::state::Weights;
use crate::sun::{ClearDay, declination, distance_factor, solar_time, sunset_hour_angle};

/// How bright the sky is from its rim to its middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sky {
    /// The same everywhere.
    Uniform,
    /// The standard overcast sky, three times as bright overhead as at the horizon: (1 + 2 cos zenith)/3 (Moon &
    /// Spencer 1942, in the form of the International Commission on Illumination; from memory).
    StandardOvercast,
}

/// Where a row stands and how it runs.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Site {
    /// Latitude, degrees, north positive, −90–90.
    pub latitude_deg: f64,
    /// Compass bearing of the row, degrees from north clockwise; 0 is N–S, 90 is E–W.
    pub row_azimuth_deg: f64,
}

/// A stretch of days, both ends counted. `first > last` runs over the turn of the year.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Period {
    /// First day of the year, 1–365.
    pub first: u32,
    /// Last day of the year, 1–365.
    pub last: u32,
}

impl Period {
    /// One day.
    pub fn day(day: u32) -> Self {
        Self {
            first: day,
            last: day,
        }
    }
    /// A month, 1 (January) to 12, of a common year.
    pub fn month(month: u32) -> Self {
        const STARTS: [u32; 13] = [1, 32, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335, 366];
        let m = month.clamp(1, 12) as usize;
        Self {
            first: STARTS[m - 1],
            last: STARTS[m] - 1,
        }
    }
    /// Mid-April to mid-October (days 105–288) in the north, half a year later in the south.
    pub fn growing_season(latitude_deg: f64) -> Self {
        let season = Self {
            first: 105,
            last: 288,
        };
        if latitude_deg < 0.0 {
            season.later(182)
        } else {
            season
        }
    }
    /// The same stretch so many days later.
    pub fn later(self, days: u32) -> Self {
        let on = |d: u32| (d - 1 + days) % 365 + 1;
        Self {
            first: on(self.first.max(1)),
            last: on(self.last.max(1)),
        }
    }
    /// Number of days.
    pub fn days(self) -> u32 {
        (self.last + 365 - self.first) % 365 + 1
    }
}

/// Days of a period that the sun's path is worked out for, at most.
pub const DAYS: u32 = 24;
/// Times of each day, evenly from sunrise to sunset.
pub const TIMES: usize = 48;

/// A sun on its path: where from, and the beam and sky light on level ground while it stands there.
#[derive(Debug, Clone, Copy)]
pub struct SunStep {
    /// Toward the sun.
    pub direction: Direction,
    /// Beam on level ground, hours of full sun outside the air.
    pub beam: f64,
    /// Sky light on level ground, the same unit.
    pub sky: f64,
}

/// The sun's path over a period: [`DAYS`] days, [`TIMES`] times each. Empty in polar night.
pub fn sun_path(site: Site, period: Period, clear: ClearDay) -> Vec<SunStep> {
    let days = period.days().min(DAYS);
    let mut steps = Vec::with_capacity(days as usize * TIMES);
    for d in 0..days {
        // Middles of equal stretches, in days that each count from their own start.
        let day = f64::from(period.first) - 0.5
            + (f64::from(d) + 0.5) * f64::from(period.days()) / f64::from(days);
        let day = if day >= 366.0 { day - 365.0 } else { day };
        let declination = declination(day);
        let half = sunset_hour_angle(site.latitude_deg, declination) * 12.0 / PI;
        let bright = distance_factor(day) * 2.0 * half / TIMES as f64;
        for t in 0..TIMES {
            let hour = half * (2.0 * (t as f64 + 0.5) / TIMES as f64 - 1.0);
            let direction = solar_time(site.latitude_deg, site.row_azimuth_deg, declination, hour);
            if direction.z > 0.0 {
                let (beam, sky) = clear.on_ground(direction.z);
                steps.push(SunStep {
                    direction,
                    beam: bright * beam,
                    sky: bright * sky,
                });
            }
        }
    }
    steps
}

/// How a period's light parts between the sun's beam and the sky.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Weather {
    /// Every day is clear.
    #[default]
    Clear,
    /// Clear and overcast days as they come: [`USUAL_SKY_SHARE`] of the light is the sky's.
    Usual,
}

impl Weather {
    /// Its name where it is chosen.
    pub fn key(self) -> &'static str {
        match self {
            Self::Clear => "clear",
            Self::Usual => "usual",
        }
    }
}

/// Share of a season's light on level ground that comes from the sky, at middle latitudes with their usual clouds:
/// 1 − 1.13 K (Page 1961, Proceedings of the UN Conference on New Sources of Energy, Rome, 4:378) at K = 0.5 of the light
/// outside the air, which is what the published defaults 0.25 + 0.50 n/N (FAO Irrigation and Drainage Paper 56, 1998) give
/// for sunshine in half of the hours of day. That half is our assumption.
pub const USUAL_SKY_SHARE: f64 = 1.0 - 1.13 * 0.5;

/// Weights of a period's clear-day sun, and how much of it is beam and sky.
#[derive(Debug, Clone, PartialEq)]
pub struct PeriodLight {
    /// The beam alone.
    pub beam: Weights,
    /// The sky alone.
    pub sky: Weights,
    /// Beam and sky together.
    pub total: Weights,
    /// Beam on level ground in a mean day, as hours of full sun outside the air, 0–24.
    pub beam_hours_a_day: f64,
    /// Sky light on level ground in a mean day, the same unit.
    pub sky_hours_a_day: f64,
}

/// Weights of a sky on level ground.
pub fn sky_weights(set: &DirectionSet, sky: Sky) -> Weights {
    lay_sky(set, |d| match sky {
        Sky::Uniform => d.z,
        Sky::StandardOvercast => d.z * (1.0 + 2.0 * d.z),
    })
}

/// Weights of a uniform sky on leaves that face every way alike, instead of on level ground.
pub fn fluence_weights(set: &DirectionSet) -> Weights {
    lay_sky(set, |_| 1.0)
}

fn lay_sky(set: &DirectionSet, amount: impl Fn(Direction) -> f64) -> Weights {
    // Fine Gauss–Legendre in the angles α and β, whose solid angle is cos α dα dβ.
    let (nodes, weights) = gauss_legendre(32);
    let mut sum = vec![0.0; set.len()];
    for (a, wa) in nodes.iter().zip(&weights) {
        let (sin_a, cos_a) = libm::sincos(0.5 * PI * a);
        for (b, wb) in nodes.iter().zip(&weights) {
            let (sin_b, cos_b) = libm::sincos(0.25 * PI * (b + 1.0));
            let direction = Direction {
                x: sin_a,
                y: cos_a * sin_b,
                z: cos_a * cos_b,
            };
            set.lay(direction, wa * wb * cos_a * amount(direction), &mut sum);
        }
    }
    normalised(sum)
}

/// Weights of a clear period at a site, sky light after `sky`.
pub fn period_light(
    set: &DirectionSet,
    site: Site,
    period: Period,
    clear: ClearDay,
    sky: Sky,
) -> PeriodLight {
    let path = sun_path(site, period, clear);
    let mut sum = vec![0.0; set.len()];
    let (mut beam, mut diffuse) = (0.0, 0.0);
    for step in &path {
        set.lay(step.direction, step.beam, &mut sum);
        beam += step.beam;
        diffuse += step.sky;
    }
    let days = f64::from(period.days().min(DAYS));
    let sky = sky_weights(set, sky);
    let total = sum
        .iter()
        .zip(&sky.0)
        .map(|(b, s)| b + diffuse * s)
        .collect();
    PeriodLight {
        beam: normalised(sum),
        total: normalised(total),
        sky,
        beam_hours_a_day: beam / days,
        sky_hours_a_day: diffuse / days,
    }
}

impl PeriodLight {
    /// The same under other weather: beam and sky keep their directions, their shares of the whole change. A period without
    /// any beam stays as it is.
    pub fn under(mut self, weather: Weather) -> Self {
        if weather == Weather::Usual && self.beam_hours_a_day > 0.0 {
            let both = self.beam.0.iter().zip(&self.sky.0);
            let share = USUAL_SKY_SHARE;
            self.total = Weights(both.map(|(b, s)| (1.0 - share) * b + share * s).collect());
        }
        self
    }
}

fn normalised(mut weights: Vec<f64>) -> Weights {
    let sum: f64 = weights.iter().sum();
    if sum > 0.0 {
        for w in &mut weights {
            *w /= sum;
        }
    }
    Weights(weights)
}
