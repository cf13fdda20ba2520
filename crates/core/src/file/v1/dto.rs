//! The words of version 1: how each thing stands in the file.

use super::parts::{Covering, Face, Planted, Toward};
use super::work::Work;
use crate::file::json::UpTo;
use crate::plan::Plan;
use crate::row;
use crate::row::Row;
use crate::units::Deg;
use serde::de::{Deserializer, Error as _, MapAccess, Visitor};
use serde::ser::SerializeMap;
use serde::{Deserialize, Serialize, Serializer};
use std::fmt;

pub const MAX_MARKS: usize = 5_000;
pub const MAX_UNITS: usize = 100;

/// Whether a value is as usual, and so left out.
pub fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

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
    pub found: Found,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub schemes: UpTo<SchemeDto, { Plan::MAX_SCHEMES }>,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub marks: UpTo<MarkDto, MAX_MARKS>,
}

#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct Site {
    #[serde(skip_serializing_if = "is_default")]
    pub latitude_deg: Option<f64>,
    #[serde(skip_serializing_if = "is_default")]
    pub longitude_deg: Option<f64>,
    #[serde(skip_serializing_if = "is_default")]
    pub row_bearing_deg: Option<f64>,
    #[serde(skip_serializing_if = "is_default")]
    pub row_spacing_mm: Option<i64>,
}

/// Limits that the user has set, by key, in the order of the file.
#[derive(Default, PartialEq)]
pub struct Targets(pub Vec<(String, f64)>);

impl Serialize for Targets {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        let mut map = s.serialize_map(Some(self.0.len()))?;
        for (key, value) in &self.0 {
            // 120 and not 120.0.
            if libm::trunc(*value) == *value && value.abs() < 1e9 {
                map.serialize_entry(key, &(*value as i64))?;
            } else {
                map.serialize_entry(key, value)?;
            }
        }
        map.end()
    }
}

fn targets<'de, D: Deserializer<'de>>(d: D) -> Result<Targets, D::Error> {
    limits(d, super::limits::has)
}

/// Limits by name: one that `has` does not know is refused, and one that stands twice.
pub fn limits<'de, D: Deserializer<'de>>(d: D, has: fn(&str) -> bool) -> Result<Targets, D::Error> {
    struct Limits(fn(&str) -> bool);
    impl<'de> Visitor<'de> for Limits {
        type Value = Targets;
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("limits by name")
        }
        fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Targets, A::Error> {
            let mut out: Vec<(String, f64)> = Vec::new();
            while let Some((key, value)) = map.next_entry::<String, f64>()? {
                if !(self.0)(&key) {
                    return Err(A::Error::custom(format!("unknown limit `{key}`")));
                }
                if out.iter().any(|(k, _)| *k == key) {
                    return Err(A::Error::custom(format!("duplicate limit `{key}`")));
                }
                out.push((key, value));
            }
            Ok(Targets(out))
        }
    }
    d.deserialize_map(Limits(has))
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Found {
    pub leaf: i64,
    pub from_mm: i64,
    pub to_mm: i64,
    pub trellis: Trellis,
    #[serde(default)]
    pub trees: UpTo<Tree, { Row::MAX_TREES }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Trellis {
    pub wires: UpTo<Wire, { row::Trellis::MAX_WIRES }>,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub posts_mm: UpTo<i64, { row::Trellis::MAX_POSTS }>,
    pub wall_height_mm: i64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Wire {
    pub height_mm: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub covering: Covering,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Tree {
    pub id: u32,
    pub foot_mm: i64,
    pub planted: Planted,
    #[serde(default, skip_serializing_if = "is_default")]
    pub note: String,
    /// None: the tree is lost.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub shoots: UpTo<Shoot, { row::Tree::MAX_SHOOTS }>,
}

#[derive(Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Pose {
    Laid,
    Upright,
    Stub,
    Free,
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
    #[serde(default, skip_serializing_if = "is_default")]
    pub diameter_dmm: i64,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub units: UpTo<Unit, MAX_UNITS>,
    #[serde(default, skip_serializing_if = "is_default")]
    pub laterals: Laterals,
    #[serde(default, skip_serializing_if = "is_default")]
    pub rubbed: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Unit {
    pub leaf: i64,
    pub grown_mm: i64,
    /// Left out where nothing was cut.
    #[serde(default, skip_serializing_if = "is_default")]
    pub kept_mm: Option<i64>,
}

#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Laterals {
    pub count: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    pub total_mm: i64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SchemeDto {
    pub name: String,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    pub seasons: UpTo<SeasonDto, { Plan::MAX_LEAF as usize }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct SeasonDto {
    pub leaf: i64,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub dormant: Vec<Work>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub bud_swell: Vec<Work>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub early_summer: Vec<Work>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub after_harvest: Vec<Work>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct MarkDto {
    pub x_mm: i64,
    pub z_mm: i64,
    pub text: String,
}
