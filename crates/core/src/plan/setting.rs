//! Settings of a plan: its limits, its site and its trellis. They are neither work nor measurements of trees.

use super::{Correction, Plan};
use crate::model::Parameter;
use crate::range;
use crate::refusal::Refusal;
use crate::row::{Limit, LimitUnit, Site};
use crate::said::Arg;
use crate::said::Quantity;
use crate::units::Mm;
use std::sync::Arc;

impl LimitUnit {
    /// In what its values are typed.
    pub fn typed(self) -> Quantity {
        match self {
            Self::Mm => Quantity::Thickness,
            Self::Share => Quantity::Share,
            Self::Deg => Quantity::Angle,
            Self::Leaf | Self::Count => Quantity::Count,
            Self::Ratio => Quantity::Number,
        }
    }
}

/// A number that says where the row stands, or how the wall is to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Setting {
    /// Degrees north; −90 to 90.
    Latitude,
    /// Degrees east; −180 to 180.
    Longitude,
    /// Compass bearing of the way in which places along the row grow, degrees; 0 is north.
    RowBearing,
    /// Distance between row centres, mm.
    RowSpacing,
    /// How high the wall is to be, mm.
    WallHeight,
}

impl Setting {
    /// All of them, in the order in which a panel shows them.
    pub const ALL: [Self; 5] = [
        Self::Latitude,
        Self::Longitude,
        Self::RowBearing,
        Self::RowSpacing,
        Self::WallHeight,
    ];

    /// Its text's name.
    pub fn key(self) -> &'static str {
        match self {
            Self::Latitude => "setting-latitude",
            Self::Longitude => "setting-longitude",
            Self::RowBearing => "setting-row-bearing",
            Self::RowSpacing => "setting-row-spacing",
            Self::WallHeight => "measure-wall-height",
        }
    }

    /// In what it is typed.
    pub fn unit(self) -> Quantity {
        match self {
            Self::Latitude | Self::Longitude | Self::RowBearing => Quantity::Angle,
            Self::RowSpacing | Self::WallHeight => Quantity::Length,
        }
    }

    /// Least and largest accepted value.
    pub fn range(self) -> (f64, f64) {
        match self {
            Self::Latitude => range::LATITUDE,
            Self::Longitude => range::LONGITUDE,
            Self::RowBearing => range::BEARING,
            Self::RowSpacing => range::ROW_SPACING,
            Self::WallHeight => range::WALL_HEIGHT,
        }
    }

    /// Whether it can be left out.
    pub fn optional(self) -> bool {
        self != Self::WallHeight
    }

    /// Its value in a plan; `None` where none is given.
    pub fn of(self, plan: &Plan) -> Option<f64> {
        let site = &plan.site;
        match self {
            Self::Latitude => site.latitude_deg,
            Self::Longitude => site.longitude_deg,
            Self::RowBearing => site.row_bearing_deg,
            Self::RowSpacing => site.row_spacing.map(Mm::f),
            Self::WallHeight => Some(plan.found.trellis.wall_height.f()),
        }
    }
}

pub(super) fn refuse(
    key: &'static str,
    unit: Quantity,
    value: f64,
    (low, high): (f64, f64),
) -> Refusal {
    Refusal::new(
        "refusal-correct-row",
        vec![
            ("what", Arg::key(key)),
            ("value", unit.arg(value)),
            ("low", unit.arg(low)),
            ("high", unit.arg(high)),
        ],
    )
}

/// The same refusal of a number that must be whole.
pub(super) fn whole(mut why: Refusal, value: f64) -> Refusal {
    why.key = "refusal-whole";
    why.args[1].1 = Quantity::Number.arg(value);
    why
}

impl Plan {
    /// The plan with a limit set; `None` puts its default back. Values are held to a thousandth.
    ///
    /// # Errors
    /// A value outside the limit's accepted range, or out of order with another limit of the same measure.
    pub fn with_limit(&self, limit: Limit, value: Option<f64>) -> Result<Plan, Refusal> {
        let info = limit.info();
        let value = value.map(|v| libm::round(v * 1e3) / 1e3);
        let mut targets = (*self.targets).clone();
        // A limit that others of its measure contradict already can still be put right.
        let (low, high) = targets.range_beside_others(limit);
        let asked = value.unwrap_or_else(|| targets.default_of(limit));
        let fits = low > high || (asked >= low && asked <= high);
        if !fits || targets.set(limit, value).is_err() {
            return Err(refuse(info.text, info.unit.typed(), asked, (low, high)));
        }
        Ok(Plan {
            targets: Arc::new(targets),
            ..self.clone()
        })
    }

    /// The plan with a value of the model set; `None` puts its default back. Values are held to a thousandth.
    ///
    /// # Errors
    /// A value outside the range in which the parameter may lie.
    pub fn with_assumption(
        &self,
        parameter: Parameter,
        value: Option<f64>,
    ) -> Result<Plan, Refusal> {
        let info = parameter.info();
        let value = value.map_or(info.default, |v| libm::round(v * 1e3) / 1e3);
        let range = (info.low, info.high);
        if !range::has(range, value) {
            return Err(refuse(info.texts.0, info.unit.typed(), value, range));
        }
        Ok(Plan {
            assumptions: Arc::new((*self.assumptions).clone().with(parameter, value)),
            ..self.clone()
        })
    }

    /// The plan with every value of the model at its default.
    pub fn with_default_assumptions(&self) -> Plan {
        Plan {
            assumptions: Arc::default(),
            ..self.clone()
        }
    }

    /// The plan with every limit at its default.
    pub fn with_default_limits(&self) -> Plan {
        Plan {
            targets: Arc::default(),
            ..self.clone()
        }
    }

    /// The plan with a setting; `None` leaves it out, where that can be.
    ///
    /// # Errors
    /// A value outside the accepted range; a setting that can't be left out.
    pub fn with_setting(&self, setting: Setting, value: Option<f64>) -> Result<Plan, Refusal> {
        let (low, high) = setting.range();
        let fits = value.map_or(setting.optional(), |v| v >= low && v <= high);
        if !fits {
            let value = value.unwrap_or(0.0);
            return Err(refuse(setting.key(), setting.unit(), value, (low, high)));
        }
        // As fine as a file holds it.
        let held = value.map(|v| libm::round(v * 1e6) / 1e6);
        let mut site: Site = (*self.site).clone();
        match setting {
            Setting::Latitude => site.latitude_deg = held,
            Setting::Longitude => site.longitude_deg = held,
            Setting::RowBearing => site.row_bearing_deg = held,
            Setting::RowSpacing => site.row_spacing = value.map(Mm::round),
            Setting::WallHeight => {
                let to_mm = Mm::round(value.unwrap_or(low));
                return self.corrected(&Correction::WallHeight { to_mm });
            }
        }
        Ok(Plan {
            site: Arc::new(site),
            ..self.clone()
        })
    }

    /// Posts along the row, so far apart from its beginning on, and one at its end.
    ///
    /// # Errors
    /// A distance under 0.5 m or over 100 m.
    pub fn with_posts_every(&self, distance: f64) -> Result<Plan, Refusal> {
        let range = (500.0, 100_000.0);
        if !(distance >= range.0 && distance <= range.1) {
            return Err(refuse(
                "setting-post-spacing",
                Quantity::Length,
                distance,
                range,
            ));
        }
        let (from, to) = (self.found.from.f(), self.found.to.f());
        let steps = libm::floor((to - from) / distance) as i32;
        let mut at_mm: Vec<Mm> = (0..=steps)
            .map(|n| Mm::round(from + distance * f64::from(n)))
            .collect();
        at_mm.push(self.found.to);
        self.corrected(&Correction::Posts { at_mm })
    }
}
