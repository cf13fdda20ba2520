//! Every limit that a check uses: value, unit, accepted range, whose rule it is.

use crate::said::Arg;
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
    /// Name in files.
    pub key: &'static str,
    /// Name of the text that says what it is: `limit-` and the key.
    pub text: &'static str,
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

impl LimitInfo {
    /// Where the default comes from, but for what its status says already; empty where that is all.
    pub fn reason(&self) -> &'static str {
        let said = match self.status {
            Status::Published => "",
            Status::Derived => "derived",
            Status::CommonPractice => "common practice, no source",
            Status::FromMemory => "from memory",
        };
        let rest = self.source.strip_prefix(said).unwrap_or(self.source);
        rest.trim_start_matches([':', ';', ' '])
    }
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
                        key: $key, text: concat!("limit-", $key), unit: LimitUnit::$unit, default: $default as f64,
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
    EndGrowth, "end_growth_mm", Mm, 600, 0..2000, FromMemory,
        "from memory: what a leader's end grows in one season",
        "Growth that is expected of a leader's end in one season, until the cordon is due filled.";
    SeeThroughRatio, "see_through_ratio", Ratio, 1.5, 1..5, CommonPractice,
        "common practice, no source: half as wide again as the space aimed at",
        "Width of an opening in the wall that is let pass, in upright spacings.";
    SeeThroughShare, "see_through_share", Share, 0.5, 0.1..1, CommonPractice,
        "common practice, no source: half the wall's height",
        "Share of the wall's height over which an opening is let pass, however wide.";
    OutsideMax, "outside_max_mm", Mm, 100, 0..1000, FromMemory,
        "from memory: half an upright space",
        "How far an upright's tip may stand beyond its own tree's cordon.";
    CrossingsMax, "crossings_max", Count, 0, 0..100, CommonPractice,
        "common practice, no source: crossed uprights rub and shade each other",
        "How many neighbours an upright may lean across.";
    UnevenMax, "uneven_max", Share, 0.3, 0.05..2, FromMemory,
        "from memory: spread (standard deviation over mean) at which the weak ones fall behind",
        "Spread of the lengths or diameters of a tree's uprights of one age.";
    NearTrunk, "near_trunk_mm", Mm, 400, 0..2000, FromMemory,
        "from memory: the first two upright spaces of the cordon",
        "How much of the cordon counts as near the trunk.";
    VigourRatio, "vigour_ratio", Ratio, 1.4, 1..4, FromMemory,
        "from memory; growers' guides: over-vigorous uprights near the trunk go first",
        "Diameter of an upright near the trunk over the median of its tree that is let pass.";
    LateralsLeaf, "laterals_leaf", Leaf, 3, 1..20, CommonPractice,
        "common practice, no source: from the third leaf only uprights remain",
        "The leaf from which all laterals come off the uprights.";
    LateralsMax, "laterals_max", Count, 0, 0..200, CommonPractice,
        "common practice, no source: all of them come off",
        "How many laterals on a tree's uprights are let pass from that leaf on.";
    SideShootsMax, "side_shoots_max", Count, 0, 0..200, CommonPractice,
        "common practice, no source: side and underside buds are rubbed out, shoots come off",
        "How many side and underside buds and shoots on a tree's cordon are let pass.";
    RubOutLeaf, "rub_out_leaf", Leaf, 1, 1..20, CommonPractice,
        "common practice, no source: at bud swell in the first leaf",
        "The leaf up to which side and underside buds of the cordon are rubbed out at bud swell.";
    TippingLeaf, "tipping_leaf", Leaf, 2, 1..20, CommonPractice,
        "common practice, no source",
        "The leaf from which last year's growth is tipped.";
    TippingShare, "tipping_share", Share, 0.2, 0.05..0.5, CommonPractice,
        "common practice, no source: 15 to 30 % of last year's growth on precocious stock, about 20 %",
        "Share of last year's growth that tipping takes.";
    RenewalLeaf, "renewal_leaf", Leaf, 3, 2..20, CommonPractice,
        "common practice, no source: renewal begins in the first fruiting season",
        "The leaf in which renewal begins.";
    RenewalThick, "renewal_thick_mm", Mm, 15, 5..100, FromMemory,
        "from memory: thicker than a strong upright of one season (13.5 mm at 1.2 m)",
        "Diameter from which an upright is renewed a leaf before renewal begins.";
    RenewalShare, "renewal_share", Share, 0.2, 0.05..1, CommonPractice,
        "common practice, no source: a fifth of the uprights each year, rounded up",
        "Share of a tree's uprights that are stubbed each year.";
    WoodAgeMax, "wood_age_max", Count, 5, 2..20, CommonPractice,
        "common practice, no source: all fruiting wood turns over within 5 years",
        "Largest age of an upright in completed growing seasons, counted in the dormant season.";
    BendTightest, "bend_tightest_diameters", Ratio, 10, 1..40, FromMemory,
        "from memory: 10 to 25 stem diameters",
        "Tightest bend that is let pass, in stem diameters.";
    WireSpacing, "wire_spacing_mm", Mm, 500, 200..1000, Published,
        "growers' guides: the cordon wire, then one every 0.45 to 0.60 m",
        "Distance between wires to aim at.";
    WireSpacingMax, "wire_spacing_max_mm", Mm, 600, 200..2000, Published,
        "growers' guides: the cordon wire, then one every 0.45 to 0.60 m",
        "Largest distance between neighbouring wires.";
    FreeEndMax, "free_end_max_mm", Mm, 400, 100..2000, FromMemory,
        "from memory: an end within 0.1 m of the next wire's height is ready to be tied to it",
        "How far an upright may stand above the top wire before the next one is due.";
    AboveWallMax, "above_wall_max_mm", Mm, 100, 0..2000, FromMemory,
        "from memory",
        "How far an upright may stand above the wall's height.";
    RowSpacing, "row_spacing_mm", Mm, 3000, 1000..10000, Published,
        "Acta Horticulturae 1346 (2022) 279-286, abstract; growers' guides 2.7 to 3.0 m",
        "Distance between row centres that is taken where the site gives none.";
    HeightRatio, "height_ratio", Ratio, 1.0, 0.3..3, CommonPractice,
        "common practice, no source: no taller than the rows are apart",
        "Wall height over row spacing that is advised.";
    HeightRatioMax, "height_ratio_max", Ratio, 1.1, 0.3..3, Published,
        "orchard-light lecture digest: about 1.1 at 70 to 75 % interception",
        "Wall height over row spacing that is let pass.";
    WallThickness, "wall_thickness_mm", Mm, 500, 200..2000, FromMemory,
        "from memory: a hand's reach of leaves on either side of the wires",
        "Thickness of the leafy wall across the row.";
    LightTarget, "light_target_share", Share, 0.65, 0.1..1, Published,
        "orchard-light literature: 65 to 75 % of the season's light caught by a grown apple wall",
        "Share of the season's light that a grown wall is to catch.";
    RenewalLight, "renewal_light_share", Share, 0.2, 0.02..1, FromMemory,
        "from memory: 20 to 30 % of the light above the row; no published curve was found",
        "Least light, as a share of that above the row, in which stubs break well.";
    RenewalZone, "renewal_zone_mm", Mm, 300, 50..1000, FromMemory,
        "from memory: stubs stand and break within 0.3 m above the cordon",
        "Height above the cordon that counts as the renewal zone.";
    LightGapMax, "light_gap_max_mm", Mm, 100, 0..5000, FromMemory,
        "from memory: half an upright space",
        "Light lost through one opening that is let pass, as the length of this wall that would catch as much.";
    BareWiresMax, "bare_wires_max", Count, 0, 0..20, CommonPractice,
        "common practice, no source: bare steel brings about three times the canker of plastic-covered wire",
        "How many bare steel wires with wood tied to them are let pass.";
    VoidWorkMax, "void_work_max", Count, 0, 0..1000, Derived,
        "derived: work whose subject is not there touches nothing",
        "How many pieces of work that touch nothing are let pass.";
}

/// The limits in force: the defaults, but for what the user has set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Targets {
    set: BTreeMap<Limit, f64>,
}

/// Limits of one measure, none of which may be above the next.
const IN_ORDER: [&[Limit]; 4] = [
    &[
        Limit::UprightSpacingMin,
        Limit::UprightSpacing,
        Limit::UprightSpacingMax,
    ],
    &[Limit::WireSpacing, Limit::WireSpacingMax],
    &[Limit::HeightRatio, Limit::HeightRatioMax],
    &[Limit::BendTightest, Limit::BendDiameters],
];

impl Targets {
    /// Least and largest value that a limit may be given beside the others in force: a least distance is not above the
    /// largest.
    pub fn range_beside_others(&self, limit: Limit) -> (f64, f64) {
        let info = limit.info();
        let (mut low, mut high) = (info.min, info.max);
        for order in IN_ORDER {
            if let Some(at) = order.iter().position(|l| *l == limit) {
                low = order[..at].iter().fold(low, |v, l| v.max(self.get(*l)));
                high = order[at + 1..]
                    .iter()
                    .fold(high, |v, l| v.min(self.get(*l)));
            }
        }
        (low, high)
    }

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
