//! Every limit that a check uses: value, unit, accepted range, whose rule it is.

use crate::range::Range;
use crate::refusal::Refusal;
use crate::renewal::Share;
use crate::said::Arg;
use crate::sorted::Map;
use serde::Serialize;

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
    /// Our own assumption: judged, or set so that what follows from it lies where it is reported to.
    Assumed,
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
    /// Name of the text that says where the default comes from: `limit-source-` and the key. `None` where its status
    /// says all.
    pub source: Option<&'static str>,
}

macro_rules! source {
    (said, $key:literal) => {
        Some(concat!("limit-source-", $key))
    };
    (alone, $key:literal) => {
        None
    };
}

macro_rules! limits {
    ($($name:ident, $key:literal, $unit:ident, $default:literal, $min:literal..$max:literal, $status:ident, $source:ident, $doc:literal;)*) => {
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
                        status: Status::$status, source: source!($source, $key),
                    },)*
                }
            }
        }
    };
}

limits! {
    GapMax, "gap_max_mm", Mm, 150, 0..1000, CommonPractice, said,
        "Longest bare stretch of cordon wire that is let pass.";
    OverlapMax, "overlap_max_mm", Mm, 100, 0..1000, CommonPractice, said,
        "Longest stretch covered twice that is let pass.";
    FillDueLeaf, "fill_due_leaf", Leaf, 2, 1..6, CommonPractice, said,
        "The leaf by whose end the cordon is to be filled.";
    FillDueShare, "fill_due_share", Share, 0.95, 0.5..1, CommonPractice, alone,
        "The share of the cordon that counts as filled.";
    UprightSpacing, "upright_spacing_mm", Mm, 200, 100..500, Published, said,
        "Distance between uprights to aim at.";
    UprightSpacingMin, "upright_spacing_min_mm", Mm, 150, 50..500, Published, said,
        "Least distance between uprights.";
    UprightSpacingMax, "upright_spacing_max_mm", Mm, 300, 100..1000, Published, said,
        "Largest distance between uprights.";
    BearingHeight, "bearing_height_mm", Mm, 500, 0..2000, Derived, said,
        "Height on the slanting stem from which its wood bears; never above the cordon wire.";
    CordonBand, "cordon_band_mm", Mm, 150, 10..1000, CommonPractice, said,
        "How far above its wire laid wood still counts as cordon.";
    BendDiameters, "bend_diameters", Ratio, 15, 1..40, FromMemory, said,
        "Radius of a bend, in stem diameters.";
    BlindBase, "blind_base_mm", Mm, 150, 0..500, FromMemory, said,
        "How much at the base of a season's growth brings no bud.";
    StubLength, "stub_length_mm", Mm, 150, 20..500, Published, said,
        "Length of a renewal stub.";
    EndGrowth, "end_growth_mm", Mm, 600, 0..2000, FromMemory, said,
        "Growth that is expected of a leader's end in one season, until the cordon is due filled.";
    SeeThroughRatio, "see_through_ratio", Ratio, 1.5, 1..5, CommonPractice, said,
        "Width of an opening in the wall that is let pass, in upright spacings.";
    SeeThroughShare, "see_through_share", Share, 0.5, 0.1..1, CommonPractice, said,
        "Share of the wall's height over which an opening is let pass, however wide.";
    OutsideMax, "outside_max_mm", Mm, 100, 0..1000, FromMemory, said,
        "How far an upright's tip may stand beyond its own tree's cordon.";
    CrossingsMax, "crossings_max", Count, 0, 0..100, CommonPractice, said,
        "How many neighbours an upright may lean across.";
    UnevenMax, "uneven_max", Share, 0.3, 0.05..2, FromMemory, said,
        "Spread of the lengths or diameters of a tree's uprights of one age.";
    NearTrunk, "near_trunk_mm", Mm, 400, 0..2000, FromMemory, said,
        "How much of the cordon counts as near the trunk.";
    VigourRatio, "vigour_ratio", Ratio, 1.4, 1..4, FromMemory, said,
        "Diameter of an upright near the trunk over the median of its tree that is let pass.";
    LateralsLeaf, "laterals_leaf", Leaf, 3, 1..20, CommonPractice, said,
        "The leaf from which all laterals come off the uprights.";
    LateralsMax, "laterals_max", Count, 0, 0..200, CommonPractice, said,
        "How many laterals on a tree's uprights are let pass from that leaf on.";
    SideShootsMax, "side_shoots_max", Count, 0, 0..200, CommonPractice, said,
        "How many side and underside buds and shoots on a tree's cordon are let pass.";
    RubOutLeaf, "rub_out_leaf", Leaf, 1, 1..20, CommonPractice, said,
        "The leaf up to which side and underside buds of the cordon are rubbed out at bud swell.";
    TippingLeaf, "tipping_leaf", Leaf, 2, 1..20, CommonPractice, alone,
        "The leaf from which last year's growth is tipped.";
    TippingShare, "tipping_share", Share, 0.2, 0.05..0.5, CommonPractice, said,
        "Share of last year's growth that tipping takes.";
    RenewalLeaf, "renewal_leaf", Leaf, 3, 2..20, CommonPractice, said,
        "The leaf in which renewal begins.";
    RenewalThick, "renewal_thick_mm", Mm, 15, 5..100, FromMemory, said,
        "Diameter from which an upright is renewed a leaf before renewal begins.";
    RenewalShare, "renewal_share", Share, 0.2, 0.1..0.25, CommonPractice, said,
        "Share of a tree's uprights that are stubbed each year.";
    WoodAgeMax, "wood_age_max", Count, 5, 2..20, CommonPractice, said,
        "Largest age of an upright in completed growing seasons, counted in the dormant season. Unless it is set, as many \
         winters as the renewal share takes to reach every upright.";
    ReturnsMax, "returns_max", Count, 1, 1..10, FromMemory, said,
        "How many of the shoots that return from one stub are kept.";
    BendTightest, "bend_tightest_diameters", Ratio, 10, 1..40, FromMemory, said,
        "Tightest bend that is let pass, in stem diameters.";
    BendThick, "bend_thick_mm", Mm, 15, 0..100, FromMemory, said,
        "Thickness up to which wood two seasons old is still bent; older wood is not.";
    WireSpacing, "wire_spacing_mm", Mm, 500, 200..1000, Published, said,
        "Distance between wires to aim at.";
    WireSpacingMax, "wire_spacing_max_mm", Mm, 600, 200..2000, Published, said,
        "Largest distance between neighbouring wires.";
    FreeEndMax, "free_end_max_mm", Mm, 400, 100..2000, FromMemory, said,
        "How far an upright may stand above the top wire before the next one is due.";
    AboveWallMax, "above_wall_max_mm", Mm, 100, 0..2000, FromMemory, alone,
        "How far an upright may stand above the wall's height.";
    RowSpacing, "row_spacing_mm", Mm, 3000, 1000..10000, Published, said,
        "Distance between row centres that is taken where the site gives none.";
    HeightRatio, "height_ratio", Ratio, 1.0, 0.3..3, CommonPractice, said,
        "Wall height over row spacing that is advised.";
    HeightRatioMax, "height_ratio_max", Ratio, 1.1, 0.3..3, Published, said,
        "Wall height over row spacing that is let pass.";
    WallThickness, "wall_thickness_mm", Mm, 500, 200..2000, FromMemory, said,
        "Thickness of the leafy wall across the row.";
    LeafOnFace, "leaf_on_face", Ratio, 2.4, 0.5..10, FromMemory, said,
        "Leaf area on a square metre of a filled wall's face, m² per m².";
    LightFill, "light_fill_share", Share, 0.8, 0.1..1, FromMemory, said,
        "Share of what its own wall would catch when filled that a grown row is to catch.";
    LightTarget, "light_target_share", Share, 0.65, 0.1..1, Published, said,
        "Share of the season's light that grown apple walls are usually asked to catch.";
    RenewalLight, "renewal_light_share", Share, 0.2, 0.02..1, FromMemory, said,
        "Least light, as a share of that above the row, in which stubs break well.";
    RenewalZone, "renewal_zone_mm", Mm, 300, 50..1000, FromMemory, said,
        "Height above the cordon that counts as the renewal zone.";
    LightGapMax, "light_gap_max_mm", Mm, 100, 0..5000, FromMemory, said,
        "Light lost through one opening that is let pass, as the length of this wall that would catch as much.";
    BareWiresMax, "bare_wires_max", Count, 0, 0..20, CommonPractice, said,
        "How many bare steel wires with wood tied to them are let pass.";
    PlaceTolerance, "place_tolerance_mm", Mm, 20, 0..200, FromMemory, said,
        "By how much a place measured along the row may be off.";
    LengthTolerance, "length_tolerance_mm", Mm, 50, 0..500, FromMemory, said,
        "By how much a measured length may be off.";
    ThicknessTolerance, "thickness_tolerance_mm", Mm, 2, 0..20, FromMemory, said,
        "By how much a measured thickness may be off.";
    VoidWorkMax, "void_work_max", Count, 0, 0..1000, Derived, said,
        "How many pieces of work that touch nothing are let pass.";
}

/// A value of a limit that is outside what is accepted of it.
pub(crate) fn refused_limit(key: &str, value: f64, (low, high): Range) -> Refusal {
    Refusal::new(
        "refusal-limit",
        vec![
            ("limit", Arg::Text(key.into())),
            ("value", Arg::Number(value, 3)),
            ("low", Arg::Number(low, 3)),
            ("high", Arg::Number(high, 3)),
        ],
    )
}

/// The limits in force: the defaults, but for what the user has set.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Targets {
    set: Map<Limit, f64>,
    /// The last leaf before which is tipped, 0 for until the wall has its height or renewal begins, and so where nobody says.
    tip_until: f64,
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
        let set = self.set.get(&limit).copied();
        set.unwrap_or_else(|| self.default_of(limit))
    }

    /// How far what was measured may go before a check speaks: a limit, and beyond it by how much the measuring may be off.
    pub fn let_pass(&self, limit: Limit) -> f64 {
        let off = match limit {
            Limit::UprightSpacingMin => -self.get(Limit::PlaceTolerance),
            Limit::GapMax
            | Limit::OverlapMax
            | Limit::UprightSpacingMax
            | Limit::OutsideMax
            | Limit::WireSpacingMax => self.get(Limit::PlaceTolerance),
            Limit::AboveWallMax | Limit::FreeEndMax => self.get(Limit::LengthTolerance),
            Limit::RenewalThick => self.get(Limit::ThicknessTolerance),
            _ => 0.0,
        };
        self.get(limit) + off
    }

    /// The value of a limit that is not set, beside the others in force: the age limit follows the renewal share.
    pub fn default_of(&self, limit: Limit) -> f64 {
        match limit {
            Limit::WoodAgeMax => f64::from(Share::near(self.get(Limit::RenewalShare)).turn()),
            _ => limit.info().default,
        }
    }

    /// Takes what the rules of a scheme say of a limit, which may be outside of what a person sets; a leaf that no row comes to is
    /// never.
    pub fn rule(&mut self, limit: Limit, value: f64) {
        self.set.insert(limit, value);
    }

    /// Takes the rules' word for when tipping ends: the last leaf before which is tipped, 0 for until the wall has its height or
    /// renewal begins.
    pub fn rule_tip_until(&mut self, leaf: f64) {
        self.tip_until = leaf;
    }

    /// Whether last year's growth of a tree is tipped before a leaf. `is_done`: it has the wall's height, or its renewal has begun.
    pub fn is_tipped_before(&self, leaf: u8, is_done: bool) -> bool {
        let leaf = f64::from(leaf);
        let ended = match self.tip_until {
            0.0 => is_done,
            until => leaf > until,
        };
        !ended && leaf >= self.get(Limit::TippingLeaf)
    }

    /// Sets a value; `None` puts the default back.
    ///
    /// # Errors
    /// A value that is outside the limit's accepted range, in words.
    pub fn set(&mut self, limit: Limit, value: Option<f64>) -> Result<(), Refusal> {
        let info = limit.info();
        match value {
            None => {
                self.set.remove(&limit);
            }
            Some(v) if v >= info.min && v <= info.max => {
                // What follows another limit stays as it was set when that one is changed.
                if v == info.default && limit != Limit::WoodAgeMax {
                    self.set.remove(&limit);
                } else {
                    self.set.insert(limit, v);
                }
            }
            Some(v) => {
                return Err(refused_limit(info.key, v, (info.min, info.max)));
            }
        }
        Ok(())
    }

    /// The values that differ from the defaults, in a fixed order.
    pub fn overrides(&self) -> impl Iterator<Item = (Limit, f64)> + '_ {
        self.set.iter().map(|(l, v)| (*l, *v))
    }
}
