//! The words of version 4, and of versions 3 and 2 but for what came later. What stands as in version 1 is taken from there:
//! those words never change.

use crate::file::json::UpTo;
use crate::file::v1::dto::{
    Laterals, MAX_MARKS, MAX_UNITS, MarkDto, Pose, SeasonDto, Site, Targets, Trellis, is_default,
    limits,
};
use crate::file::v1::parts::{Face, Planted, Toward};
use crate::model::Parameter;
use crate::plan::{Left, Plan};
use crate::row;
use crate::row::{Limit, Row};
use crate::standing::Rule;
use crate::units::Deg;
use serde::de::Deserializer;
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    pub format: String,
    pub version: u32,
    #[serde(default, skip_serializing_if = "is_default")]
    pub name: String,
    #[serde(default, skip_serializing_if = "is_default")]
    pub note: String,
    #[serde(default, skip_serializing_if = "is_default")]
    pub site: Site,
    #[serde(
        default,
        deserialize_with = "targets",
        skip_serializing_if = "is_default"
    )]
    pub targets: Targets,
    /// The model's values that are not the usual ones, by name.
    #[serde(
        default,
        deserialize_with = "assumptions",
        skip_serializing_if = "is_default"
    )]
    pub assumptions: Targets,
    pub found: Found,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub schemes: UpTo<SchemeDto, { Plan::MAX_SCHEMES }>,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub marks: UpTo<MarkDto, MAX_MARKS>,
    /// What is left for a year.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub left: UpTo<LeftDto, { Left::MAX }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LeftDto {
    pub leaf: i64,
    /// What it comes from, by name.
    pub cause: String,
    pub reason: String,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub found: UpTo<SpotDto, { Left::MAX_SPOTS }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpotDto {
    pub rule: String,
    pub x_mm: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub tree: Option<u32>,
    /// Of a tree alone; left out where it is about the tree as a whole.
    #[serde(default, skip_serializing_if = "is_default")]
    pub shoot: Option<u64>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub parts: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub measured: f64,
}

fn targets<'de, D: Deserializer<'de>>(d: D) -> Result<Targets, D::Error> {
    limits(d, |key| Limit::ALL.iter().any(|l| l.info().key == key))
}

fn assumptions<'de, D: Deserializer<'de>>(d: D) -> Result<Targets, D::Error> {
    limits(d, |key| Parameter::of_key(key).is_some())
}

fn rules<'de, D: Deserializer<'de>>(d: D) -> Result<Option<Targets>, D::Error> {
    limits(d, |key| Rule::ALL.iter().any(|r| r.info().key == key)).map(Some)
}

#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SchemeDto {
    pub name: String,
    /// Left out where it is the usual one.
    #[serde(default, skip_serializing_if = "is_default")]
    pub crop_from: Option<i64>,
    /// The rules that are not the usual ones, by name. Left out where no window stands.
    #[serde(
        default,
        deserialize_with = "rules",
        skip_serializing_if = "is_default"
    )]
    pub standing: Option<Targets>,
    /// The windows that don't stand though they have no work.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub planned: UpTo<Cut, { 4 * Plan::MAX_LEAF as usize }>,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub seasons: UpTo<SeasonDto, { Plan::MAX_LEAF as usize }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Found {
    pub leaf: i64,
    /// Whether last year's growth had been tipped; left out where nobody was asked.
    #[serde(default, skip_serializing_if = "is_default")]
    pub tipped: Option<bool>,
    pub from_mm: i64,
    pub to_mm: i64,
    pub trellis: Trellis,
    #[serde(default)]
    pub trees: UpTo<Tree, { Row::MAX_TREES }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tree {
    pub id: u32,
    pub foot_mm: i64,
    pub planted: Planted,
    /// Left out where it grows as the row does.
    #[serde(default, skip_serializing_if = "is_default")]
    pub vigour: Option<Vigour>,
    /// The number of the tree that it was filled in from. Left out where it was measured.
    #[serde(default, skip_serializing_if = "is_default")]
    pub like: Option<u32>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub note: String,
    /// None: the tree is lost.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub shoots: UpTo<Shoot, { row::Tree::MAX_SHOOTS }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Shoot {
    pub id: u64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub parent: Option<u64>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub at_mm: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub face: Face,
    /// Left out where the record is silent.
    #[serde(default, skip_serializing_if = "is_default")]
    pub origin: Option<Origin>,
    pub pose: Pose,
    /// Of laid wood alone.
    #[serde(default, skip_serializing_if = "is_default")]
    pub toward: Option<Toward>,
    /// Of laid wood alone.
    #[serde(default, skip_serializing_if = "is_default")]
    pub rise_deg: Option<Deg>,
    /// Of uprights alone.
    #[serde(default, skip_serializing_if = "is_default")]
    pub lean_deg: Option<Deg>,
    /// Of laid wood and of a stem that was stood up. Left out: that of its thickness.
    #[serde(default, skip_serializing_if = "is_default")]
    pub bend_radius_dmm: Option<i64>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub diameter_dmm: i64,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub units: UpTo<Unit, MAX_UNITS>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub laterals: Laterals,
    #[serde(default, skip_serializing_if = "is_default")]
    pub rubbed: bool,
    #[serde(default, skip_serializing_if = "is_default")]
    pub note: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Unit {
    pub leaf: i64,
    pub grown_mm: i64,
    /// Left out where nothing was cut.
    #[serde(default, skip_serializing_if = "is_default")]
    pub kept_mm: Option<i64>,
    /// Left out where nothing was cut, or the record does not tell when.
    #[serde(default, skip_serializing_if = "is_default")]
    pub cut: Option<Cut>,
}

#[derive(Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Cut {
    pub leaf: i64,
    pub window: Window,
}

same! { row;
    Vigour: Weak "weak", Medium "medium", Strong "strong";
    Window: Dormant "dormant", BudSwell "bud_swell", EarlySummer "early_summer", AfterHarvest "after_harvest";
    Origin: KeptBud "kept_bud", Notch "notch", Return "return", EndGrowth "end_growth", CutBackBud "cut_back_bud", WildBud "wild_bud";
}
