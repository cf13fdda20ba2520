//! The values that the model of growth, leaf and fruit works with, in one table.
//!
//! Few of them are measured. Each says how well founded it is and between which values it may lie: the range is the one
//! that draws are made from and that a value is shown in, not a bound of the arithmetic.

use crate::row::{Status, Vigour};
use crate::said::Quantity;
use std::ops::Index;

/// The unit of a parameter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ParameterUnit {
    /// Metres a season.
    MetresPerSeason,
    /// Millimetres.
    Mm,
    /// Square centimetres.
    Cm2,
    /// Degrees.
    Deg,
    /// A share of 1.
    Share,
    /// A plain ratio or exponent.
    Ratio,
    /// A count.
    Count,
    /// So many to a metre.
    PerMetre,
    /// Years.
    Years,
    /// A share of 1 each year.
    SharePerYear,
    /// Grams.
    Grams,
    /// Square metres to a metre.
    M2PerMetre,
}

impl ParameterUnit {
    /// In what its values are typed.
    pub fn typed(self) -> Quantity {
        match self {
            Self::Mm => Quantity::Thickness,
            Self::Deg => Quantity::Angle,
            Self::Share | Self::SharePerYear => Quantity::Share,
            _ => Quantity::Number,
        }
    }

    /// The text of what stands behind a value, where that does not say it.
    pub fn text(self) -> Option<&'static str> {
        match self {
            Self::MetresPerSeason => Some("parameter-unit-m-season"),
            Self::Cm2 => Some("parameter-unit-cm2"),
            Self::PerMetre => Some("parameter-unit-per-metre"),
            Self::Years => Some("parameter-unit-years"),
            Self::SharePerYear => Some("parameter-unit-a-year"),
            Self::Grams => Some("parameter-unit-grams"),
            Self::M2PerMetre => Some("parameter-unit-m2-metre"),
            Self::Mm | Self::Deg | Self::Share | Self::Ratio | Self::Count => None,
        }
    }
}

/// All there is to say about one parameter.
#[derive(Clone, Copy, Debug)]
pub struct ParameterInfo {
    /// Name in files.
    pub key: &'static str,
    /// Its unit.
    pub unit: ParameterUnit,
    /// The default.
    pub default: f64,
    /// Least value that it may well have.
    pub low: f64,
    /// Largest value that it may well have.
    pub high: f64,
    /// How well founded the default is.
    pub status: Status,
    /// Its text's name, and that of the text of where its default or the default's sign comes from.
    pub texts: (&'static str, &'static str),
}

macro_rules! parameters {
    ($($name:ident, $key:literal, $unit:ident, $default:literal, $low:literal..$high:literal, $status:ident, $doc:literal, $source:literal;)*) => {
        /// The parameters by name.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Parameter { $(#[doc = concat!($doc, " Source: ", $source, ".")] $name,)* }

        impl Parameter {
            /// Every parameter, in the order in which a panel shows them.
            pub const ALL: &'static [Parameter] = &[$(Parameter::$name,)*];
            /// How many there are.
            pub const COUNT: usize = Self::ALL.len();

            const DEFAULTS: [f64; Self::COUNT] = [$($default as f64,)*];

            /// What there is to say about it.
            pub fn info(self) -> &'static ParameterInfo {
                match self {
                    $(Parameter::$name => &ParameterInfo {
                        key: $key, unit: ParameterUnit::$unit, default: $default as f64, low: $low as f64,
                        high: $high as f64, status: Status::$status,
                        texts: (concat!("parameter-", $key), concat!("parameter-source-", $key)),
                    },)*
                }
            }
        }
    };
}

parameters! {
    ClassM, "class_m", MetresPerSeason, 12, 6.5..17.5, Assumed,
        "Growth of a whole tree in a season, were its trunk thick and shared by eight points: the vigour class.",
        "set so that first-season uprights reach 0.45, 0.8 and 1.2 m in weak, medium and strong rows (from memory)";
    FirstLeaf, "first_leaf", Share, 0.69, 0.6..1, Assumed,
        "Growth in the first leaf against later ones.",
        "transplanted stock grows less; set together with the vigour class";
    TrunkHalf, "trunk_half", Cm2, 1, 0.3..3, Assumed,
        "Trunk area at which half of the class's growth is reached.",
        "judged";
    ShareP, "share_p", Ratio, 0.75, 0.5..1, FromMemory,
        "Growth of one point goes with the number of points to the power of minus this.",
        "modelling choice";
    LeadR, "lead_r", Ratio, 0.7, 0.4..1, Assumed,
        "Weight of a point goes with last year's growth to this power: a shoot that is ahead stays ahead.",
        "judged";
    Flat, "flat", Share, 0.4, 0.3..0.8, Assumed,
        "Vigour of a level end against an upright one.",
        "judged; its sign published: university extension, rules of shoot growth";
    NearTrunk, "near_trunk", Share, 0.4, 0..1, Assumed,
        "Extra vigour at the trunk end of a dead flat cordon.",
        "judged; its sign published: growers' guides";
    NearReach, "near_reach", Mm, 400, 200..800, Assumed,
        "Distance over which that fades to a third.",
        "judged";
    NearRise, "near_rise", Deg, 5, 3..10, FromMemory,
        "Rise of the cordon at which it is gone.",
        "leaders are laid rising 2 to 5 degrees against it";
    HeldW, "held_w", Ratio, 0.5, 0.3..1, Assumed,
        "Weight of a shoot that was cut into older wood.",
        "judged";
    StubW, "stub_w", Ratio, 2, 1.5..2.5, Assumed,
        "Weight of a stub, shared by its returns.",
        "set so that returns reach some 1.3 to 1.4 m";
    Part1, "part1", Share, 0.45, 0.3..0.6, Assumed,
        "Share of a season's growth before early summer.",
        "judged";
    Longest, "longest", Share, 1.1, 0.9..1.2, Assumed,
        "Longest growth of one shoot in a season, of an eighth of the class's.",
        "judged: 1.65 m in a medium row";
    FreeMost, "free_most", Mm, 800, 500..1200, Assumed,
        "Longest side or underside shoot: what reaches farther into the alley is broken off.",
        "judged";
    SideBear, "side_bear", Share, 0.5, 0.3..1, Assumed,
        "Flowers on side and underside shoots against those in the wall.",
        "judged: they are shaded from above and rubbed by traffic";
    LatPlain, "lat_plain", Share, 0.12, 0.05..0.2, Assumed,
        "Share of an older shoot's growth that goes into laterals.",
        "judged";
    LatTipped, "lat_tipped", Share, 0.25, 0.1..0.35, Assumed,
        "The same after tipping or heading.",
        "judged";
    LatLen, "lat_len", Mm, 250, 150..400, FromMemory,
        "Length of one lateral.",
        "from memory";
    LatPoint, "lat_point", Ratio, 0.25, 0.1..0.5, Assumed,
        "A kept lateral as a growing point.",
        "judged";
    LatFlowers, "lat_flowers", Count, 15, 8..24, FromMemory,
        "Flowers on a kept lateral.",
        "five basal nodes of three";
    CropCost, "crop_cost", Ratio, 0.35, 0.1..0.7, Assumed,
        "By how much a full crop lowers growth.",
        "judged; its sign published: apple, NY Fruit Quarterly 16(2) 2008";
    TreeSpread, "tree_spread", Share, 0.1, 0..0.2, Assumed,
        "Half range of vigour between trees.",
        "judged";
    BudSpread, "bud_spread", Share, 0.25, 0.1..0.4, Assumed,
        "Half range of a kept bud's weight in its first season.",
        "judged";
    BudFail, "bud_fail", Share, 0.1, 0.02..0.4, Assumed,
        "Kept buds that do not break in a spring; they try again next spring.",
        "judged";
    WildPerM, "wild_per_m", PerMetre, 7, 5..10, FromMemory,
        "Shoots from a metre of last year's laid wood whose buds were not rubbed out.",
        "from memory";
    WildSpread, "wild_spread", Share, 0.6, 0.4..0.8, Assumed,
        "Half range of their weight in their first season.",
        "judged";
    RetLight0, "ret_light0", Share, 0.1, 0..0.15, Assumed,
        "Light at which no old wood breaks, as a share of that above the row.",
        "no published curve found";
    RetLight1, "ret_light1", Share, 0.3, 0.2..0.4, Assumed,
        "Light from which it breaks freely.",
        "no published curve found; from memory 20 to 30 %";
    RetFail, "ret_fail", Share, 0.1, 0.05..0.3, Assumed,
        "Stubs that bring nothing in a spring whatever the light.",
        "gum, canker and drying back; judged";
    LeafDark, "leaf_dark", Share, 0.7, 0.5..1, Assumed,
        "Shade of real leaves against that of black ones, evenly spread.",
        "they let light through, scatter it and stand in clumps; judged";
    RetMean, "ret_mean", Count, 1.5, 1..2.5, Assumed,
        "Shoots that return from a thin stub, long enough and lit.",
        "judged";
    RetThick, "ret_thick", Share, 0.75, 0.5..1, Published,
        "How many more return from a stub of 25 mm than from one of 15 mm.",
        "tart cherry: 70 to 80 % more from cuts over 25 mm than under 15 mm, ASHS 2017 abstract";
    StubMin, "stub_min", Mm, 100, 80..150, Published,
        "Length of a stub from which returns come freely; from half of it none come.",
        "tart cherry trial, ASHS 2017 abstract";
    Dia600, "dia_600", Mm, 9, 8..10, FromMemory,
        "Basal diameter of 0.6 m of growth.",
        "9 mm at 0.6 m";
    DiaExp, "dia_exp", Ratio, 0.585, 0.5..0.65, FromMemory,
        "Basal diameter of a season's growth goes with its length to this power.",
        "9 mm at 0.6 m, 13.5 mm at 1.2 m";
    AreaExp, "area_exp", Ratio, 2.3, 1.8..2.3, Published,
        "Exponent by which the thicknesses of branches add up to that of their parent.",
        "arXiv 1105.2591: 1.8 to 2.3; its upper end keeps trunks as reported";
    NodesM, "nodes_m", PerMetre, 35, 30..40, FromMemory,
        "Nodes to a metre of one-year wood.",
        "from memory";
    BudsSpur, "buds_spur", Count, 3, 3..5, FromMemory,
        "Flower buds of a spur.",
        "chosen together with flowers and set";
    FlowersBud, "flowers_bud", Count, 3, 2..4, FromMemory,
        "Flowers of a bud.",
        "published 2 to 5; chosen together with buds and set";
    Set, "set", Share, 0.31, 0.2..0.4, FromMemory,
        "Flowers that become fruit.",
        "chosen together with buds and flowers";
    Blind, "blind", Share, 0.22, 0.15..0.3, Derived,
        "Nodes of a year's growth that stand at its base with one flower bud and no leaf bud; at most 8.",
        "35 % of nodes hold 45 % of sites; from memory 4 to 8 nodes";
    BlindStep, "blind_step", Mm, 15, 10..20, Assumed,
        "Distance of those nodes from each other.",
        "three leaf buds above them end some 0.2 m up a shoot of 0.8 m";
    FirstCrop, "first_crop", Share, 0.8, 0.5..1, Assumed,
        "A spur's first crop against its later ones.",
        "judged; its sign published: 256 and 324 flowers a metre on wood of two and three years, cherrytimes.it 2024-09-20";
    OldFrom, "old_from", Years, 3, 3..5, Assumed,
        "Age of wood after which its spurs decline.",
        "judged; its sign published: marked fall from the fourth year, cherrytimes.it 2024-09-20";
    OldLoss, "old_loss", SharePerYear, 0.2, 0.05..0.3, Assumed,
        "What they lose each year.",
        "judged";
    OldLeast, "old_least", Share, 0.45, 0.2..0.6, Assumed,
        "The least that remains of them.",
        "judged";
    Mass200, "mass_200", Grams, 11.5, 9..12, FromMemory,
        "Mass of a fruit with 200 cm² of leaf.",
        "published 11.3 to 12.1 g";
    MassExp, "mass_exp", Ratio, 0.25, 0.05..0.4, Assumed,
        "Mass of a fruit goes with its leaf to this power.",
        "judged; its sign published: HortScience 22:1273";
    MassMax, "mass_max", Grams, 12.5, 12..14, Assumed,
        "Largest mean mass of a fruit.",
        "judged";
    MassLarge, "mass_large", Grams, 9.5, 8..11, Assumed,
        "Least mass of a fruit that counts as large enough.",
        "judged: half of 31 t/ha was large enough (published)";
    MassCv, "mass_cv", Share, 0.12, 0.08..0.2, Assumed,
        "Spread of the mass of a tree's fruit.",
        "judged";
    LeafSpur, "leaf_spur", Cm2, 38, 25..40, FromMemory,
        "A leaf of a spur.",
        "published 40: five leaves to 200 cm²";
    LeafShoot, "leaf_shoot", Cm2, 60, 50..80, FromMemory,
        "A leaf of a shoot.",
        "published: at least half as large again as a spur's";
    Leaves1, "leaves_1", Count, 7, 6..8, Published,
        "Leaves of a spur on one-year wood.",
        "university extension, balanced cropping: 6 to 8";
    Leaves2, "leaves_2", Count, 8, 7..9, Published,
        "Leaves of a spur on older wood.",
        "university extension, balanced cropping: 7 to 9";
    LaiMost, "lai_most", Ratio, 3, 2.5..4, Assumed,
        "Leaf area index that a wall can carry: what is over is shed, and its flowers with it.",
        "judged";
    LeafLaid, "leaf_laid", M2PerMetre, 0.2, 0.1..0.3, FromMemory,
        "Leaf on a metre of laid wood.",
        "from memory";
    LeafLateral, "leaf_lateral", M2PerMetre, 0.35, 0.2..0.5, Assumed,
        "Leaf on a metre of laterals.",
        "judged";
}

/// `base`, 0 or more, to the power of `exponent`, above 0. True to some ten units of the last place, in half the time of a
/// power that is true to one: growth takes many.
pub(crate) fn power(base: f64, exponent: f64) -> f64 {
    match base > 0.0 {
        true => libm::exp(exponent * libm::log(base)),
        false => 0.0,
    }
}

impl Parameter {
    /// The parameter of that name in files.
    pub fn of_key(key: &str) -> Option<Self> {
        let all = Self::ALL.iter();
        all.copied().find(|p| p.info().key == key)
    }
}

impl Vigour {
    /// Every class, the weakest first.
    pub const ALL: [Self; 3] = [Self::Weak, Self::Medium, Self::Strong];

    /// Its value of [`Parameter::ClassM`], metres a season.
    pub fn class_m(self) -> f64 {
        match self {
            Self::Weak => 6.5,
            Self::Medium => 12.0,
            Self::Strong => 17.5,
        }
    }
}

/// The model's values, of each parameter one: the defaults, but for what was set.
#[derive(Clone, Debug, PartialEq)]
pub struct Assumptions {
    values: [f64; Parameter::COUNT],
}

impl Default for Assumptions {
    fn default() -> Self {
        Self {
            values: Parameter::DEFAULTS,
        }
    }
}

impl Index<Parameter> for Assumptions {
    type Output = f64;

    fn index(&self, parameter: Parameter) -> &f64 {
        &self.values[parameter as usize]
    }
}

impl Assumptions {
    /// Gives a parameter a value, as it is: whoever takes one from people holds it to the parameter's range.
    pub fn set(&mut self, parameter: Parameter, value: f64) {
        self.values[parameter as usize] = value;
    }

    /// The values that differ from the defaults, in a fixed order.
    pub fn overrides(&self) -> impl Iterator<Item = (Parameter, f64)> + '_ {
        let all = Parameter::ALL.iter().map(|p| (*p, self[*p]));
        all.filter(|(p, value)| *value != p.info().default)
    }

    /// The same values but for one.
    #[must_use]
    pub fn with(mut self, parameter: Parameter, value: f64) -> Self {
        self.set(parameter, value);
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn defaults_lie_in_their_ranges_and_names_are_told_apart() {
        let mut keys = BTreeSet::new();
        let usual = Assumptions::default();
        for (at, p) in Parameter::ALL.iter().enumerate() {
            let info = p.info();
            assert!(
                info.low <= info.default && info.default <= info.high,
                "{}",
                info.key
            );
            assert!(keys.insert(info.key), "{} twice", info.key);
            assert_eq!(usual[*p], info.default);
            assert_eq!(*p as usize, at);
            assert_eq!(Parameter::of_key(info.key), Some(*p));
        }
    }

    #[test]
    fn the_medium_class_is_the_default() {
        let info = Parameter::ClassM.info();
        assert_eq!(Vigour::default().class_m(), info.default);
        assert_eq!(Vigour::Weak.class_m(), info.low);
        assert_eq!(Vigour::Strong.class_m(), info.high);
    }
}
