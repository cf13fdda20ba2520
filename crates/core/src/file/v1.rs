//! Version 1 of the plan file. Its words are its own, so that the model may change while the file does not.
//!
//! Lengths are whole millimetres (`_mm`), diameters tenths of a millimetre (`_dmm`), angles degrees (`_deg`).
//! What is empty or as usual is left out. A name that version 1 does not have is refused: a slip of the pen
//! would else be a value that silently does nothing.

use super::json::{self, UpTo};
use super::{FORMAT, short};
use crate::plan::{Mark, Plan, Scheme, Season, Window};
use crate::refusal::Refusal;
use crate::row;
use crate::row::{Covering, Face, GrowthUnit, Limit, Row, ShootId, Toward, TreeId};
use crate::units::{Deg, Mm};
use crate::words::Arg;
use crate::work::Work;
use serde::de::{Deserializer, Error as _, MapAccess, Visitor};
use serde::ser::SerializeMap;
use serde::{Deserialize, Serialize, Serializer};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::sync::Arc;

const MAX_POSTS: usize = 5_000;
const MAX_MARKS: usize = 5_000;
const MAX_UNITS: usize = 100;
/// Most laterals on one shoot.
const MAX_LATERALS: i64 = u16::MAX as i64;
/// Longest laterals of one shoot together, mm.
const MAX_LATERALS_LENGTH: i64 = i32::MAX as i64;
/// Widest distance between rows, mm.
const MAX_ROW_SPACING: i64 = 100_000;

fn is_default<T: Default + PartialEq>(value: &T) -> bool {
    *value == T::default()
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    format: String,
    version: u32,
    #[serde(default, skip_serializing_if = "is_default")]
    name: String,
    #[serde(default, skip_serializing_if = "is_default")]
    note: String,
    #[serde(default, skip_serializing_if = "is_default")]
    site: Site,
    #[serde(default, skip_serializing_if = "is_default")]
    targets: Targets,
    found: Found,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    schemes: UpTo<SchemeDto, { Plan::MAX_SCHEMES }>,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    marks: UpTo<MarkDto, MAX_MARKS>,
}

#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
struct Site {
    #[serde(skip_serializing_if = "is_default")]
    latitude_deg: Option<f64>,
    #[serde(skip_serializing_if = "is_default")]
    longitude_deg: Option<f64>,
    #[serde(skip_serializing_if = "is_default")]
    row_bearing_deg: Option<f64>,
    #[serde(skip_serializing_if = "is_default")]
    row_spacing_mm: Option<i64>,
}

/// Limits that the user has set, by key, in the order of the file.
#[derive(Default, PartialEq)]
struct Targets(Vec<(String, f64)>);

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

impl<'de> Deserialize<'de> for Targets {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        struct Limits;
        impl<'de> Visitor<'de> for Limits {
            type Value = Targets;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("limits by name")
            }
            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Targets, A::Error> {
                let mut out: Vec<(String, f64)> = Vec::new();
                while let Some((key, value)) = map.next_entry::<String, f64>()? {
                    if !Limit::ALL.iter().any(|l| l.info().key == key) {
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
        d.deserialize_map(Limits)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Found {
    leaf: i64,
    from_mm: i64,
    to_mm: i64,
    trellis: Trellis,
    #[serde(default)]
    trees: UpTo<Tree, { Row::MAX_TREES }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Trellis {
    wires: UpTo<Wire, { row::Trellis::MAX_WIRES }>,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    posts_mm: UpTo<i64, MAX_POSTS>,
    wall_height_mm: i64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Wire {
    height_mm: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    covering: Covering,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Tree {
    id: u32,
    foot_mm: i64,
    planted: Planted,
    #[serde(default, skip_serializing_if = "is_default")]
    note: String,
    /// None: the tree is lost.
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    shoots: UpTo<Shoot, { row::Tree::MAX_SHOOTS }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Planted {
    angle_deg: Deg,
    toward: Toward,
}

#[derive(Clone, Copy, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
enum Pose {
    Laid,
    Upright,
    Stub,
    Free,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Shoot {
    id: u64,
    #[serde(default, skip_serializing_if = "is_default")]
    parent: Option<u64>,
    #[serde(default, skip_serializing_if = "is_default")]
    at_mm: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    face: Face,
    pose: Pose,
    /// Of laid wood alone.
    #[serde(default, skip_serializing_if = "is_default")]
    toward: Option<Toward>,
    /// Of laid wood alone.
    #[serde(default, skip_serializing_if = "is_default")]
    rise_deg: Option<Deg>,
    /// Of uprights alone.
    #[serde(default, skip_serializing_if = "is_default")]
    lean_deg: Option<Deg>,
    #[serde(default, skip_serializing_if = "is_default")]
    diameter_dmm: i64,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    units: UpTo<Unit, MAX_UNITS>,
    #[serde(default, skip_serializing_if = "is_default")]
    laterals: Laterals,
    #[serde(default, skip_serializing_if = "is_default")]
    rubbed: bool,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Unit {
    leaf: i64,
    grown_mm: i64,
    /// Left out where nothing was cut.
    #[serde(default, skip_serializing_if = "is_default")]
    kept_mm: Option<i64>,
}

#[derive(Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Laterals {
    count: i64,
    #[serde(default, skip_serializing_if = "is_default")]
    total_mm: i64,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SchemeDto {
    name: String,
    #[serde(default, skip_serializing_if = "UpTo::is_empty")]
    seasons: UpTo<SeasonDto, { Plan::MAX_LEAF as usize }>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SeasonDto {
    leaf: i64,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    dormant: Vec<Work>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    bud_swell: Vec<Work>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    early_summer: Vec<Work>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    after_harvest: Vec<Work>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct MarkDto {
    x_mm: i64,
    z_mm: i64,
    text: String,
}

// ---- writing ----

fn mm(length: f64) -> i64 {
    Mm::round(length).0.into()
}

/// A number that is written with at most six digits after the point, so that it is read back as it was.
fn held(value: f64) -> f64 {
    libm::round(value * 1e6) / 1e6
}

/// The plan as compact JSON.
pub(super) fn write(plan: &Plan) -> String {
    let site = &plan.site;
    let file = File {
        format: FORMAT.into(),
        version: 1,
        name: plan.name.clone(),
        note: plan.note.clone(),
        site: Site {
            latitude_deg: site.latitude_deg.map(held),
            longitude_deg: site.longitude_deg.map(held),
            row_bearing_deg: site.row_bearing_deg.map(held),
            row_spacing_mm: site.row_spacing.map(|s| s.0.into()),
        },
        targets: Targets(
            plan.targets
                .overrides()
                .map(|(l, v)| (l.info().key.to_string(), held(v)))
                .collect(),
        ),
        found: found(&plan.found),
        schemes: UpTo(plan.schemes.iter().map(|s| scheme(s)).collect()),
        marks: UpTo(
            plan.marks
                .iter()
                .map(|m| MarkDto {
                    x_mm: m.x.0.into(),
                    z_mm: m.z.0.into(),
                    text: m.text.clone(),
                })
                .collect(),
        ),
    };
    // Every key is a string and every number finite or null, so there is nothing to fail.
    serde_json::to_string(&file).unwrap_or_default()
}

fn scheme(scheme: &Scheme) -> SchemeDto {
    SchemeDto {
        name: scheme.name.clone(),
        seasons: UpTo(
            scheme
                .seasons
                .iter()
                .filter(|s| !s.is_empty())
                .map(|s| SeasonDto {
                    leaf: s.leaf.into(),
                    dormant: s.dormant.clone(),
                    bud_swell: s.bud_swell.clone(),
                    early_summer: s.early_summer.clone(),
                    after_harvest: s.after_harvest.clone(),
                })
                .collect(),
        ),
    }
}

fn found(row: &Row) -> Found {
    Found {
        leaf: row.leaf.into(),
        from_mm: row.from.0.into(),
        to_mm: row.to.0.into(),
        trellis: Trellis {
            wires: UpTo(
                row.trellis
                    .wires
                    .iter()
                    .map(|w| Wire {
                        height_mm: w.height.0.into(),
                        covering: w.covering,
                    })
                    .collect(),
            ),
            posts_mm: UpTo(row.trellis.posts.iter().map(|p| p.0.into()).collect()),
            wall_height_mm: row.trellis.wall_height.0.into(),
        },
        trees: UpTo(row.trees.iter().map(|t| tree(t)).collect()),
    }
}

fn tree(tree: &row::Tree) -> Tree {
    let mut lengths: BTreeMap<ShootId, i64> = BTreeMap::new();
    let shoots = tree
        .shoots
        .iter()
        .map(|s| {
            let shoot = shoot(s, s.parent.and_then(|p| lengths.get(&p).copied()));
            let length = shoot
                .units
                .0
                .iter()
                .map(|u| u.kept_mm.unwrap_or(u.grown_mm));
            lengths.insert(s.id, length.sum());
            shoot
        })
        .collect();
    Tree {
        id: tree.id.0,
        foot_mm: tree.foot.0.into(),
        planted: Planted {
            angle_deg: tree.planted.angle,
            toward: tree.planted.toward,
        },
        note: tree.note.clone(),
        shoots: UpTo(shoots),
    }
}

/// A shoot; `parent` is the length of its parent as written, off which rounding must not take it.
fn shoot(s: &row::Shoot, parent: Option<i64>) -> Shoot {
    let (pose, toward, rise, lean) = match s.pose {
        row::Pose::Laid { toward, rise } => (Pose::Laid, Some(toward), Some(rise), None),
        row::Pose::Upright { lean } => (Pose::Upright, None, None, Some(lean)),
        row::Pose::Stub => (Pose::Stub, None, None, None),
        row::Pose::Free => (Pose::Free, None, None, None),
    };
    let angled = |angle: Option<Deg>| angle.filter(|a| *a != Deg::default());
    Shoot {
        id: s.id.number(),
        parent: s.parent.map(ShootId::number),
        at_mm: mm(s.at).min(parent.unwrap_or(i64::MAX)),
        face: s.face,
        pose,
        toward,
        rise_deg: angled(rise),
        lean_deg: angled(lean),
        diameter_dmm: mm(s.diameter * 10.0),
        units: UpTo(
            s.units
                .iter()
                .filter(|u| mm(u.kept) > 0)
                .map(|u| Unit {
                    leaf: u.leaf.into(),
                    grown_mm: mm(u.grown),
                    kept_mm: Some(mm(u.kept)).filter(|k| *k != mm(u.grown)),
                })
                .collect(),
        ),
        laterals: Laterals {
            count: s.laterals.count.into(),
            total_mm: mm(s.laterals.total),
        },
        rubbed: s.rubbed,
    }
}

// ---- reading ----

/// The plan in a text that says it is of version 1.
pub(super) fn read(text: &str) -> Result<Plan, Refusal> {
    let file: File = serde_json::from_str(text).map_err(|e| json::refusal(&e))?;
    let mut targets = row::Targets::default();
    for (key, value) in &file.targets.0 {
        for limit in Limit::ALL.iter().filter(|l| l.info().key == key) {
            targets.set(*limit, Some(held(*value)))?;
        }
    }
    let mut schemes = Vec::with_capacity(file.schemes.0.len());
    for (n, s) in file.schemes.0.into_iter().enumerate() {
        schemes.push(Arc::new(scheme_of(s, &format!("schemes[{n}]"))?));
    }
    let mut marks = Vec::with_capacity(file.marks.0.len());
    for (n, m) in file.marks.0.into_iter().enumerate() {
        let at = |name: &str| format!("marks[{n}].{name}");
        let max = i64::from(Row::MAX_X.0);
        marks.push(Mark {
            x: whole(m.x_mm, -max, max, || at("x_mm"))?,
            z: whole(m.z_mm, -max, max, || at("z_mm"))?,
            text: words(m.text, || at("text"))?,
        });
    }
    let mut plan = Plan::new(words(file.name, || "name".into())?, found_of(file.found)?);
    plan.note = words(file.note, || "note".into())?;
    plan.site = Arc::new(site_of(&file.site)?);
    plan.targets = Arc::new(targets);
    plan.marks = marks;
    if !schemes.is_empty() {
        plan.schemes = schemes;
    }
    Ok(plan)
}

fn out_of_range(path: String, value: f64, low: f64, high: f64) -> Refusal {
    let places = |v: f64| if libm::trunc(v) == v { 0 } else { 3 };
    let number = |v: f64| Arg::Number(v, places(v));
    Refusal::new(
        "refusal-file-value",
        vec![
            ("path", Arg::Text(path)),
            ("value", number(value)),
            ("low", number(low)),
            ("high", number(high)),
        ],
    )
}

fn within(value: f64, low: f64, high: f64, path: impl FnOnce() -> String) -> Result<f64, Refusal> {
    if value >= low && value <= high {
        Ok(value)
    } else {
        Err(out_of_range(path(), value, low, high))
    }
}

fn number(value: i64, low: i64, high: i64, path: impl FnOnce() -> String) -> Result<i64, Refusal> {
    within(value as f64, low as f64, high as f64, path).map(|_| value)
}

fn whole(value: i64, low: i64, high: i64, path: impl FnOnce() -> String) -> Result<Mm, Refusal> {
    let value = number(value, low, high, path)?;
    Ok(Mm(i32::try_from(value).unwrap_or(0)))
}

fn leaf(value: i64, low: i64, path: impl FnOnce() -> String) -> Result<u8, Refusal> {
    let value = number(value, low, Plan::MAX_LEAF.into(), path)?;
    Ok(u8::try_from(value).unwrap_or(0))
}

fn words(text: String, path: impl FnOnce() -> String) -> Result<String, Refusal> {
    // A text is counted only where it could be too long.
    if text.len() > Plan::MAX_TEXT && text.chars().count() > Plan::MAX_TEXT {
        return Err(Refusal::new(
            "refusal-file-long-text",
            vec![
                ("path", Arg::Text(path())),
                ("value", Arg::Count(text.chars().count() as i64)),
                ("high", Arg::Count(Plan::MAX_TEXT as i64)),
            ],
        ));
    }
    Ok(text)
}

fn twice(path: String, value: impl fmt::Display) -> Refusal {
    Refusal::new(
        "refusal-file-twice",
        vec![
            ("path", Arg::Text(path)),
            ("value", Arg::Text(value.to_string())),
        ],
    )
}

fn rule(path: String, rule: &str) -> Refusal {
    Refusal::new(
        "refusal-file-rule",
        vec![("path", Arg::Text(path)), ("rule", Arg::Text(short(rule)))],
    )
}

fn site_of(site: &Site) -> Result<row::Site, Refusal> {
    let angle = |value: Option<f64>, low: f64, high: f64, name: &str| {
        value
            .map(|v| within(v, low, high, || format!("site.{name}")).map(held))
            .transpose()
    };
    Ok(row::Site {
        latitude_deg: angle(site.latitude_deg, -90.0, 90.0, "latitude_deg")?,
        longitude_deg: angle(site.longitude_deg, -180.0, 180.0, "longitude_deg")?,
        row_bearing_deg: angle(site.row_bearing_deg, 0.0, 360.0, "row_bearing_deg")?,
        row_spacing: site
            .row_spacing_mm
            .map(|s| whole(s, 1, MAX_ROW_SPACING, || "site.row_spacing_mm".into()))
            .transpose()?,
    })
}

fn found_of(found: Found) -> Result<Row, Refusal> {
    let max = i64::from(Row::MAX_X.0);
    let from = whole(found.from_mm, -max, max, || "found.from_mm".into())?;
    let to = whole(found.to_mm, from.0.into(), max, || "found.to_mm".into())?;
    let mut ids = BTreeSet::new();
    let mut trees = Vec::with_capacity(found.trees.0.len());
    for (n, t) in found.trees.0.into_iter().enumerate() {
        let path = format!("found.trees[{n}]");
        if !ids.insert(t.id) {
            return Err(twice(format!("{path}.id"), t.id));
        }
        trees.push(Arc::new(tree_of(t, &path)?));
    }
    let mut row = Row {
        leaf: leaf(found.leaf, 1, || "found.leaf".into())?,
        from,
        to,
        trellis: trellis_of(found.trellis)?,
        trees,
    };
    row.sort();
    Ok(row)
}

fn trellis_of(trellis: Trellis) -> Result<row::Trellis, Refusal> {
    let highest = i64::from(row::Trellis::MAX_HEIGHT.0);
    if trellis.wires.is_empty() {
        return Err(rule(
            "found.trellis.wires".into(),
            "a trellis has a cordon wire",
        ));
    }
    let mut wires: Vec<row::Wire> = Vec::new();
    for (n, w) in trellis.wires.0.iter().enumerate() {
        let low = wires.last().map_or(1, |w| i64::from(w.height.0) + 1);
        wires.push(row::Wire {
            height: whole(w.height_mm, low, highest, || {
                format!("found.trellis.wires[{n}].height_mm")
            })?,
            covering: w.covering,
        });
    }
    let max = i64::from(Row::MAX_X.0);
    let mut posts: Vec<Mm> = Vec::with_capacity(trellis.posts_mm.0.len());
    for (n, p) in trellis.posts_mm.0.into_iter().enumerate() {
        let low = posts.last().map_or(-max, |p| p.0.into());
        posts.push(whole(p, low, max, || {
            format!("found.trellis.posts_mm[{n}]")
        })?);
    }
    Ok(row::Trellis {
        wires,
        posts,
        wall_height: whole(trellis.wall_height_mm, 1, highest, || {
            "found.trellis.wall_height_mm".into()
        })?,
    })
}

fn tree_of(tree: Tree, path: &str) -> Result<row::Tree, Refusal> {
    let max = i64::from(Row::MAX_X.0);
    let angle = tree.planted.angle_deg;
    within(angle.degrees(), 10.0, 90.0, || {
        format!("{path}.planted.angle_deg")
    })?;
    let mut lengths: BTreeMap<ShootId, f64> = BTreeMap::new();
    let mut shoots = Vec::with_capacity(tree.shoots.0.len());
    for (n, s) in tree.shoots.0.into_iter().enumerate() {
        let path = format!("{path}.shoots[{n}]");
        let shoot = shoot_of(s, n == 0, &lengths, &path)?;
        if lengths.insert(shoot.id, shoot.length()).is_some() {
            return Err(twice(format!("{path}.id"), shoot.id));
        }
        shoots.push(shoot);
    }
    let out = row::Tree {
        id: TreeId(tree.id),
        foot: whole(tree.foot_mm, -max, max, || format!("{path}.foot_mm"))?,
        planted: row::Planted {
            angle,
            toward: tree.planted.toward,
        },
        shoots,
        note: words(tree.note, || format!("{path}.note"))?,
    };
    match out.broken_rule() {
        Some(broken) => Err(rule(path.into(), &broken)),
        None => Ok(out),
    }
}

fn id_of(number: u64, path: impl FnOnce() -> String) -> Result<ShootId, Refusal> {
    ShootId::from_number(number)
        .ok_or_else(|| out_of_range(path(), number as f64, 0.0, f64::from(u32::MAX)))
}

/// A shoot of a tree whose shoots before it are as long as `lengths` says.
fn shoot_of(
    s: Shoot,
    first: bool,
    lengths: &BTreeMap<ShootId, f64>,
    path: &str,
) -> Result<row::Shoot, Refusal> {
    let at = |name: &str| format!("{path}.{name}");
    let id = id_of(s.id, || at("id"))?;
    let parent = s.parent.map(|p| id_of(p, || at("parent"))).transpose()?;
    let on = match (first, parent) {
        (true, None) => 0.0,
        (true, Some(_)) => return Err(rule(at("parent"), "the stem grows from nothing")),
        (false, None) => return Err(rule(path.into(), "a shoot but the stem has a parent")),
        (false, Some(p)) => *lengths
            .get(&p)
            .ok_or_else(|| rule(at("parent"), "a parent stands before what grows from it"))?,
    };
    let longest = row::Shoot::MAX_LENGTH as i64;
    let mut units = Vec::with_capacity(s.units.0.len());
    let mut length = 0;
    let mut last = 0;
    for (n, u) in s.units.0.iter().enumerate() {
        let at = |name: &str| format!("{path}.units[{n}].{name}");
        let grown = number(u.grown_mm, 1, longest, || at("grown_mm"))?;
        let kept = number(u.kept_mm.unwrap_or(grown), 1, grown, || at("kept_mm"))?;
        let leaf = leaf(u.leaf, last, || at("leaf"))?;
        last = leaf.into();
        length += kept;
        units.push(GrowthUnit {
            leaf,
            grown: grown as f64,
            kept: kept as f64,
        });
    }
    number(length, 0, longest, || at("units"))?;
    let thickest = row::Shoot::MAX_DIAMETER as i64 * 10;
    let dmm = number(s.diameter_dmm, 0, thickest, || at("diameter_dmm"))?;
    let count = number(s.laterals.count, 0, MAX_LATERALS, || at("laterals.count"))?;
    let total = number(s.laterals.total_mm, 0, MAX_LATERALS_LENGTH, || {
        at("laterals.total_mm")
    })?;
    Ok(row::Shoot {
        id,
        parent,
        at: number(s.at_mm, 0, on as i64, || at("at_mm"))? as f64,
        face: s.face,
        pose: pose_of(&s, path)?,
        units,
        diameter: dmm as f64 / 10.0,
        laterals: row::Laterals {
            count: u16::try_from(count).unwrap_or(0),
            total: total as f64,
        },
        rubbed: s.rubbed,
    })
}

fn pose_of(s: &Shoot, path: &str) -> Result<row::Pose, Refusal> {
    let at = |name: &str| format!("{path}.{name}");
    let stray = [
        ("toward", s.toward.is_some(), s.pose == Pose::Laid),
        ("rise_deg", s.rise_deg.is_some(), s.pose == Pose::Laid),
        ("lean_deg", s.lean_deg.is_some(), s.pose == Pose::Upright),
    ];
    for (name, given, fits) in stray {
        if given && !fits {
            return Err(rule(at(name), "a shoot of this pose has none"));
        }
    }
    Ok(match s.pose {
        Pose::Laid => {
            let rise = s.rise_deg.unwrap_or_default();
            let (low, high) = (row::Pose::MIN_RISE, row::Pose::MAX_RISE);
            within(rise.degrees(), low, high, || at("rise_deg"))?;
            let toward = s
                .toward
                .ok_or_else(|| rule(at("toward"), "a laid shoot goes left or right"))?;
            row::Pose::Laid { toward, rise }
        }
        Pose::Upright => {
            let lean = s.lean_deg.unwrap_or_default();
            within(lean.degrees(), -90.0, 90.0, || at("lean_deg"))?;
            row::Pose::Upright { lean }
        }
        Pose::Stub => row::Pose::Stub,
        Pose::Free => row::Pose::Free,
    })
}

fn scheme_of(scheme: SchemeDto, path: &str) -> Result<Scheme, Refusal> {
    let mut seasons: Vec<Season> = Vec::new();
    let mut leaves = BTreeSet::new();
    for (n, s) in scheme.seasons.0.into_iter().enumerate() {
        let path = format!("{path}.seasons[{n}]");
        let leaf = leaf(s.leaf, 1, || format!("{path}.leaf"))?;
        if !leaves.insert(leaf) {
            return Err(twice(format!("{path}.leaf"), leaf));
        }
        let season = Season {
            leaf,
            dormant: canonical(s.dormant, Window::Dormant, &path)?,
            bud_swell: canonical(s.bud_swell, Window::BudSwell, &path)?,
            early_summer: canonical(s.early_summer, Window::EarlySummer, &path)?,
            after_harvest: canonical(s.after_harvest, Window::AfterHarvest, &path)?,
        };
        if !season.is_empty() {
            seasons.push(season);
        }
    }
    seasons.sort_by_key(|s| s.leaf);
    Ok(Scheme {
        name: words(scheme.name, || format!("{path}.name"))?,
        seasons,
    })
}

/// Work in order of subject, one item a subject: of several the last, as when they are done one after another.
fn canonical(mut work: Vec<Work>, window: Window, path: &str) -> Result<Vec<Work>, Refusal> {
    for (n, w) in work.iter().enumerate() {
        id_of(w.subject().shoot.number(), || {
            format!("{path}.{window:?}[{n}].shoot")
        })?;
    }
    work.reverse();
    work.sort_by_key(Work::subject);
    work.dedup_by_key(|w| w.subject());
    Ok(work)
}
