//! Which light is looked at: the days, the hour, the leaves.

use cordonry::light::{Period, Weather};
use serde::{Deserialize, Serialize};

/// The days that are looked at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum When {
    /// The growing season of the place.
    #[default]
    Season,
    /// A month, 1 to 12.
    Month(u32),
    /// A day of the year, 1 to 365.
    Day(u32),
}

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lighting {
    /// The days.
    pub when: When,
    /// An hour of solar time, 0 to 24, of the middle day; none for all hours.
    pub hour: Option<f64>,
    /// Share of the leaves that are out, 0 to 1.
    pub out: f64,
    /// The weather of the days. The row is judged under it too.
    pub weather: Weather,
}

impl Default for Lighting {
    fn default() -> Self {
        Self {
            when: When::Season,
            hour: None,
            out: 1.0,
            weather: Weather::Clear,
        }
    }
}

impl Lighting {
    /// The days at a latitude.
    pub fn period(self, latitude_deg: f64) -> Period {
        match self.when {
            When::Season => Period::growing_season(latitude_deg),
            When::Month(month) => Period::month(month),
            When::Day(day) => Period::day(day.clamp(1, 365)),
        }
    }

    /// The middle day.
    pub fn day(self, latitude_deg: f64) -> u32 {
        let period = self.period(latitude_deg);
        (period.first - 1 + (period.days() - 1) / 2) % 365 + 1
    }
}
