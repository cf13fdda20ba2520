//! Where the sun stands, and how bright a clear day is.
//!
//! Two paths lead to the sun. [`sun_at`] gives it at a moment of civil time, by the Solar Position Algorithm (Reda &
//! Andreas 2004, NREL/TP-560-34302) in the crate `solar-positioning`: for cases that state a clock and a longitude, and as
//! what the other is tested by. [`solar_time`] gives it in solar time from Spencer's declination (Spencer 1971, Search
//! 2:172), without refraction: the hour on the page and the weights over a day or a season know neither longitude nor clock.

use core::f64::consts::PI;

use solar_positioning::time::JulianDate;
use solar_positioning::{Location, RefractionCorrection, SolarPositions, delta_t};
use thiserror::Error;

use crate::direction::Direction;

/// An instant of coordinated universal time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instant {
    /// Year, −2000–6000.
    pub year: i32,
    /// Month, 1–12.
    pub month: u32,
    /// Day of the month, 1–31.
    pub day: u32,
    /// Hour, 0–23.
    pub hour: u32,
    /// Minute, 0–59.
    pub minute: u32,
    /// Second, 0 up to 60.
    pub second: f64,
}

/// A place on Earth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Latitude, degrees, north positive, −90–90.
    pub latitude_deg: f64,
    /// Longitude, degrees, east positive, −180–180.
    pub longitude_deg: f64,
    /// Height above the sea, m.
    pub elevation_m: f64,
}

/// Air that bends the ray.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Pressure, hPa (1013.25 at the sea).
    pub pressure_hpa: f64,
    /// Temperature, °C.
    pub temperature_c: f64,
}

/// The sun as seen from a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunPosition {
    /// Angle from straight up without refraction, degrees, 0–180.
    pub zenith_true_deg: f64,
    /// The same with refraction (as the true one far below the horizon), degrees.
    pub zenith_apparent_deg: f64,
    /// Clockwise from north, degrees, 0–360. Without meaning at a zenith of 0 and at the poles.
    pub azimuth_deg: f64,
    /// Apparent less mean solar time, minutes, −17–17.
    pub equation_of_time_min: f64,
}

/// A moment, place or air for which the sun cannot be worked out, in the solver's own words.
#[derive(Debug, Clone, PartialEq, Error)]
#[error("no sun for this moment and place: {0}")]
pub struct NoSun(String);

/// The sun at a moment and place. `delta_t_s` is terrestrial less universal time in seconds; without it, an estimate
/// for that month.
pub fn sun_at(
    moment: Instant,
    place: Place,
    air: Air,
    delta_t_s: Option<f64>,
) -> Result<SunPosition, NoSun> {
    let refuse = |e: solar_positioning::Error| NoSun(e.to_string());
    let delta_t = match delta_t_s {
        Some(dt) => dt,
        None => delta_t::estimate_from_date(moment.year, moment.month).map_err(refuse)?,
    };
    let time = JulianDate::from_utc(
        moment.year,
        moment.month,
        moment.day,
        moment.hour,
        moment.minute,
        moment.second,
        delta_t,
    )
    .map_err(refuse)?;
    let prepared = SolarPositions::new()
        .for_time_from_julian(time)
        .map_err(refuse)?;
    let location = Location {
        latitude: place.latitude_deg,
        longitude: place.longitude_deg,
    };
    let bend = RefractionCorrection::new(air.pressure_hpa, air.temperature_c).map_err(refuse)?;
    let plain = prepared
        .at(location, place.elevation_m, None)
        .map_err(refuse)?;
    let bent = prepared
        .at(location, place.elevation_m, Some(bend))
        .map_err(refuse)?;

    // The hour angle, seen from the equator at the same longitude with the parallax taken out again.
    let equator = Location {
        latitude: 0.0,
        longitude: place.longitude_deg,
    };
    let seen = prepared.at(equator, 0.0, None).map_err(refuse)?;
    let (sin_z, cos_z) = libm::sincos(seen.zenith_angle().to_radians());
    let east = sin_z * libm::sin(seen.azimuth().to_radians());
    let distance = prepared.earth_radius_vector().unwrap_or(1.0);
    let parallax = libm::sin((8.794 / 3600.0 / distance).to_radians());
    let hour_angle = libm::atan2(-east, cos_z + parallax).to_degrees();
    let clock = f64::from(moment.hour) + f64::from(moment.minute) / 60.0 + moment.second / 3600.0;
    let mean = 15.0 * (clock - 12.0) + place.longitude_deg;
    let turn = hour_angle - mean;
    let equation = 4.0 * (turn - 360.0 * libm::round(turn / 360.0));
    Ok(SunPosition {
        zenith_true_deg: plain.zenith_angle(),
        zenith_apparent_deg: bent.zenith_angle(),
        azimuth_deg: plain.azimuth(),
        equation_of_time_min: equation,
    })
}

/// Declination of the sun, radians, by Spencer's series (Spencer 1971, Search 2:172; within 0.05° of the exact one
/// in most years). `day` counts from 1 on 1 January, 1–366, parts allowed.
pub fn declination(day: f64) -> f64 {
    let g = 2.0 * PI * (day - 1.0) / 365.0;
    let (s1, c1) = libm::sincos(g);
    let (s2, c2) = libm::sincos(2.0 * g);
    let (s3, c3) = libm::sincos(3.0 * g);
    0.006918 - 0.399912 * c1 + 0.070257 * s1 - 0.006758 * c2 + 0.000907 * s2 - 0.002697 * c3
        + 0.00148 * s3
}

/// Sun's brightness outside the air relative to its yearly mean (inverse square of its distance), by FAO Irrigation
/// and Drainage Paper 56 (1998), equation 23. `day` as in [`declination`].
pub fn distance_factor(day: f64) -> f64 {
    1.0 + 0.033 * libm::cos(2.0 * PI * day / 365.0)
}

/// Half the day's length as an angle of the sun's way, radians: 0 (polar night) to π (midnight sun).
pub fn sunset_hour_angle(latitude_deg: f64, declination: f64) -> f64 {
    let c = -libm::tan(latitude_deg.to_radians()) * libm::tan(declination);
    libm::acos(c.clamp(-1.0, 1.0))
}

/// Direction of the sun in solar time. `hour` counts from solar noon (−12–12); `row_azimuth_deg` is the bearing of the
/// row. Below the horizon `z` is negative.
pub fn solar_time(
    latitude_deg: f64,
    row_azimuth_deg: f64,
    declination: f64,
    hour: f64,
) -> Direction {
    let (sin_l, cos_l) = libm::sincos(latitude_deg.to_radians());
    let (sin_d, cos_d) = libm::sincos(declination);
    let (sin_h, cos_h) = libm::sincos(hour * PI / 12.0);
    let (sin_a, cos_a) = libm::sincos(row_azimuth_deg.to_radians());
    let east = -cos_d * sin_h;
    let north = cos_l * sin_d - sin_l * cos_d * cos_h;
    Direction {
        x: north * cos_a + east * sin_a,
        y: north * sin_a - east * cos_a,
        z: sin_l * sin_d + cos_l * cos_d * cos_h,
    }
}

/// What FAO-56 says of a day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fao56Day {
    /// Inverse relative distance to the sun (equation 23).
    pub distance_factor: f64,
    /// Declination, radians (equation 24).
    pub declination: f64,
    /// Sunset hour angle, radians (equation 25).
    pub sunset_hour_angle: f64,
    /// Radiation outside the air, MJ m⁻² d⁻¹ (equation 21).
    pub radiation: f64,
    /// Day length, hours (equation 34).
    pub day_length: f64,
}

/// Daily radiation outside the air and day length by FAO Irrigation and Drainage Paper 56 (1998), equations 21–25 and
/// 34. `latitude_deg` −90–90, `day` 1–366. In polar night radiation and length are 0.
pub fn fao56_day(latitude_deg: f64, day: f64) -> Fao56Day {
    const SOLAR_CONSTANT: f64 = 0.0820; // MJ m⁻² min⁻¹, FAO-56
    let distance = distance_factor(day);
    let declination = 0.409 * libm::sin(2.0 * PI * day / 365.0 - 1.39);
    let sunset = sunset_hour_angle(latitude_deg, declination);
    let (sin_l, cos_l) = libm::sincos(latitude_deg.to_radians());
    let (sin_d, cos_d) = libm::sincos(declination);
    let way = sunset * sin_l * sin_d + cos_l * cos_d * libm::sin(sunset);
    Fao56Day {
        distance_factor: distance,
        declination,
        sunset_hour_angle: sunset,
        radiation: (24.0 * 60.0 / PI * SOLAR_CONSTANT * distance * way).max(0.0),
        day_length: 24.0 / PI * sunset,
    }
}

/// Beam and sky light of a clear day: the beam is weakened by a constant transmissivity for each air mass, and three
/// tenths of what the air takes from it come down as sky light (Campbell & Norman 1998, An Introduction to Environmental
/// Biophysics, in the form that pvlib's `campbell_norman` has). Air mass is 1/sin of the sun's height.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClearDay {
    /// Share of the beam that comes through one air mass, 0–1; clear days 0.6–0.75.
    pub transmissivity: f64,
    /// Share of the light lost from the beam that comes down from the sky, 0–0.5.
    pub scattered: f64,
}

impl Default for ClearDay {
    fn default() -> Self {
        Self {
            transmissivity: 0.7,
            scattered: 0.3,
        }
    }
}

impl ClearDay {
    /// Share of the beam that comes through when the sun's height has the sine `sine`; 0 at or below the horizon.
    pub fn beam(&self, sine: f64) -> f64 {
        if sine <= 0.0 {
            return 0.0;
        }
        libm::exp(libm::log(self.transmissivity) / sine)
    }
    /// Beam and sky light on level ground, as shares of the light outside the air on a plane across the beam.
    pub fn on_ground(&self, sine: f64) -> (f64, f64) {
        let beam = self.beam(sine);
        (
            beam * sine.max(0.0),
            self.scattered * (1.0 - beam) * sine.max(0.0),
        )
    }
}
