//! The words of version 5, and of versions 4 to 2 but for what came later. What stands as in version 1 is taken from there:
//! those words never change.

use crate::file::json::UpTo;
use crate::file::v1::Work;
use crate::file::v1::dto::{
    Laterals, MAX_MARKS, MAX_UNITS, Pose, SeasonDto, Site, Targets, Trellis, is_default, limits,
};
use crate::file::v1::parts::{Face, Planted, Toward};
use crate::hands::{self, Rate};
use crate::model::Parameter;
use crate::plan::{self, BudCount, Field, Left, Plan};
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
    /// Fingerprints of sent copies, sixteen hexadecimal digits each.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub sent: UpTo<String, { Plan::MAX_SENT }>,
    /// What is left for a year.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub left: UpTo<LeftDto, { Left::MAX }>,
    /// What was counted on buds.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub counts: UpTo<CountDto, { BudCount::MAX }>,
    /// Left out where all is as usual.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub crew: Option<CrewDto>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkDto {
    /// Left out of a note.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub kind: Option<MarkShape>,
    pub x_mm: i64,
    pub z_mm: i64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<PinnedTo>,
    /// The other end; a note has none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub to: Option<PinDto>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub text: String,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PinDto {
    pub x_mm: i64,
    pub z_mm: i64,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub on: Option<PinnedTo>,
}

/// What a pin rides along with.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PinnedTo {
    pub tree: u32,
    pub shoot: u64,
    pub along_mm: i64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CountDto {
    pub leaf: i64,
    pub tree: u32,
    pub spurs: UpTo<SpurDto, { BudCount::MAX_SPURS }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SpurDto {
    pub buds: i64,
    /// Left out where no bud was cut open.
    #[serde(default, skip_serializing_if = "is_default")]
    pub flowers: Option<i64>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub dead: i64,
}

/// The crew: what is not as usual, by name.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct CrewDto {
    /// Seconds of one person.
    #[serde(
        default,
        deserialize_with = "rates",
        skip_serializing_if = "is_default"
    )]
    pub rates: Targets,
    /// How many do a job together.
    #[serde(default, deserialize_with = "jobs", skip_serializing_if = "is_default")]
    pub people: Targets,
}

/// What is told of a scheme's work from the row.
#[derive(Default, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct FieldDto {
    /// What is done, leaf by leaf.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub done: UpTo<SeasonDto, { Plan::MAX_LEAF as usize }>,
    /// What was left.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub skipped: UpTo<PieceDto, { Field::MAX }>,
    /// What a second look found.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub seen: UpTo<PieceDto, { Field::MAX }>,
    /// Cuts that nobody had asked for.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub extra: UpTo<ExtraDto, { Field::MAX }>,
    /// What was written down.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub notes: UpTo<NoteDto, { Field::MAX }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct PieceDto {
    pub leaf: i64,
    pub window: Window,
    pub work: Work,
    /// Of what was left: why.
    #[serde(default, skip_serializing_if = "is_default")]
    pub reason: Option<String>,
    /// Of what was looked at again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub is: Option<Seen>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct ExtraDto {
    pub leaf: i64,
    pub window: Window,
    pub job: Job,
    pub tree: u32,
    pub cuts: i64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct NoteDto {
    pub leaf: i64,
    pub window: Window,
    /// Left out where it is about the trellis.
    #[serde(default, skip_serializing_if = "is_default")]
    pub tree: Option<u32>,
    pub text: String,
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

fn rates<'de, D: Deserializer<'de>>(d: D) -> Result<Targets, D::Error> {
    limits(d, |key| Rate::ALL.iter().any(|r| r.info().0 == key))
}

fn jobs<'de, D: Deserializer<'de>>(d: D) -> Result<Targets, D::Error> {
    limits(d, |key| hands::Job::ALL.iter().any(|j| j.name() == key))
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
    /// Left out where nothing is told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field: Option<FieldDto>,
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
    pub diseased: bool,
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

same! { plan;
    Seen: Right "right", Missed "missed", Wrong "wrong";
    MarkShape: Note "note", Arrow "arrow", Distance "distance", Stretch "stretch";
}

same! { hands;
    Job: GrubOut "grub_out", Plant "plant", Stub "stub", Laterals "laterals", Tip "tip", CutBack "cut_back", TakeOff "take_off",
        Wires "wires", Buds "buds", Notch "notch", Tie "tie";
}
