//! Every limit that a check uses: value, unit, accepted range, whose rule it is.

use crate::words::Arg;
use serde::Serialize;
use std::collections::BTreeMap;

/// How well founded a value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Status {
    /// Published; the source is named.
    Published,
    /// Derived here from first principles.
    Derived,
    /// Common practice in the trade, no source.
    CommonPractice,
    /// From memory.
    FromMemory,
}

/// The unit of a limit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LimitUnit {
    /// Millimetres.
    Mm,
    /// A share of 1.
    Share,
    /// Degrees.
    Deg,
    /// A leaf (growing season since planting).
    Leaf,
    /// A plain ratio.
    Ratio,
    /// A count.
    Count,
}

/// All there is to say about one limit.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct LimitInfo {
    /// Name in files and language files.
    pub key: &'static str,
    /// Its unit.
    pub unit: LimitUnit,
    /// The default.
    pub default: f64,
    /// Least accepted value.
    pub min: f64,
    /// Largest accepted value.
    pub max: f64,
    /// How well founded the default is.
    pub status: Status,
    /// Where it comes from.
    pub source: &'static str,
}

macro_rules! limits {
    ($($name:ident, $key:literal, $unit:ident, $default:literal, $min:literal..$max:literal, $status:ident, $source:literal, $doc:literal;)*) => {
        /// The limits by name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Limit { $(#[doc = $doc] $name,)* }

        impl Limit {
            /// Every limit, in the order in which a panel shows them.
            pub const ALL: &'static [Limit] = &[$(Limit::$name,)*];

            /// What there is to say about it.
            pub fn info(self) -> &'static LimitInfo {
                match self {
                    $(Limit::$name => &LimitInfo {
                        key: $key, unit: LimitUnit::$unit, default: $default as f64,
                        min: $min as f64, max: $max as f64,
                        status: Status::$status, source: $source,
                    },)*
                }
            }
        }
    };
}

limits! {
    GapMax, "gap_max_mm", Mm, 150, 0..1000, CommonPractice,
        "common practice, no source: a bare stretch narrower than one upright space costs no place",
        "Longest bare stretch of cordon wire that is let pass.";
    OverlapMax, "overlap_max_mm", Mm, 100, 0..1000, CommonPractice,
        "common practice, no source: two cordons side by side crowd each other",
        "Longest stretch covered twice that is let pass.";
    FillDueLeaf, "fill_due_leaf", Leaf, 2, 1..6, CommonPractice,
        "common practice, no source: the cordon is filled to the next tree by the end of the second leaf",
        "The leaf by whose end the cordon is to be filled.";
    FillDueShare, "fill_due_share", Share, 0.95, 0.5..1, CommonPractice,
        "common practice, no source",
        "The share of the cordon that counts as filled.";
    UprightSpacing, "upright_spacing_mm", Mm, 200, 100..500, Published,
        "HortScience 2016 abstract and growers' guides: 0.20 m",
        "Distance between uprights to aim at.";
    UprightSpacingMin, "upright_spacing_min_mm", Mm, 150, 50..500, Published,
        "HortScience 2016 abstract and growers' guides: 0.15 to 0.30 m",
        "Least distance between uprights.";
    UprightSpacingMax, "upright_spacing_max_mm", Mm, 300, 100..1000, Published,
        "HortScience 2016 abstract and growers' guides: 0.15 to 0.30 m",
        "Largest distance between uprights.";
    BearingHeight, "bearing_height_mm", Mm, 500, 0..2000, Derived,
        "derived: 0.50 m is bare to the usual wire; 0 bears from the foot",
        "Height on the slanting stem from which its wood bears; never above the cordon wire.";
    CordonBand, "cordon_band_mm", Mm, 150, 10..1000, CommonPractice,
        "common practice, no source: a leader tied rising 2 to 5 degrees ends some 0.1 m above its wire",
        "How far above its wire laid wood still counts as cordon.";
    BendDiameters, "bend_diameters", Ratio, 15, 1..40, FromMemory,
        "from memory: 15 stem diameters (10 to 25)",
        "Radius of a bend, in stem diameters.";
    StubLength, "stub_length_mm", Mm, 150, 20..500, Published,
        "tart cherry trial: at least 0.10 m for a shoot to return; 0.15 m advised against canker near the trunk",
        "Length of a renewal stub.";
    VoidWorkMax, "void_work_max", Count, 0, 0..1000, Derived,
        "derived: work whose subject is not there touches nothing",
        "How many pieces of work that touch nothing are let pass.";
}

/// The limits in force: the defaults, but for what the user has set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Targets {
    set: BTreeMap<Limit, f64>,
}

impl Targets {
    /// The value in force.
    pub fn get(&self, limit: Limit) -> f64 {
        self.set
            .get(&limit)
            .copied()
            .unwrap_or(limit.info().default)
    }

    /// Sets a value; `None` puts the default back.
    ///
    /// # Errors
    /// A value that is outside the limit's accepted range, in words.
    pub fn set(&mut self, limit: Limit, value: Option<f64>) -> Result<(), crate::refusal::Refusal> {
        let info = limit.info();
        match value {
            None => {
                self.set.remove(&limit);
            }
            Some(v) if v >= info.min && v <= info.max => {
                if v == info.default {
                    self.set.remove(&limit);
                } else {
                    self.set.insert(limit, v);
                }
            }
            Some(v) => {
                return Err(crate::refusal::Refusal::new(
                    "refusal-limit",
                    vec![
                        ("limit", Arg::Text(info.key.into())),
                        ("value", Arg::Number(v, 3)),
                        ("low", Arg::Number(info.min, 3)),
                        ("high", Arg::Number(info.max, 3)),
                    ],
                ));
            }
        }
        Ok(())
    }

    /// The values that differ from the defaults, in a fixed order.
    pub fn overrides(&self) -> impl Iterator<Item = (Limit, f64)> + '_ {
        self.set.iter().map(|(l, v)| (*l, *v))
    }
}
