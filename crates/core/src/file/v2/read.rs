//! From the words of version 2 to a plan: every value in its range, every tree whole.

use super::dto::*;
use super::held;
use crate::file::json;
use crate::file::v1::dto::{self as v1, Pose, SchemeDto, Site, Trellis};
use crate::plan::{Mark, Plan, Scheme, Setting};
use crate::refusal::Refusal;
use crate::row;
use crate::row::{GrowthUnit, Limit, Moment, Row, ShootId, TreeId, Window};
use crate::said::{Arg, Said};
use crate::units::Mm;
use crate::work::Work;
use std::collections::{BTreeMap, BTreeSet};
use std::fmt;
use std::sync::Arc;

/// Most laterals on one shoot.
const MAX_LATERALS: i64 = u16::MAX as i64;
/// Longest laterals of one shoot together, mm.
const MAX_LATERALS_LENGTH: i64 = i32::MAX as i64;

/// The plan in a text that says it is of version 1.
pub(in crate::file) fn read_v1(text: &str) -> Result<Plan, Refusal> {
    let file: v1::File = serde_json::from_str(text).map_err(|e| json::refusal(&e))?;
    plan_of(file.into())
}

/// The plan in a text that says it is of version 2.
pub(in crate::file) fn read(text: &str) -> Result<Plan, Refusal> {
    plan_of(serde_json::from_str(text).map_err(|e| json::refusal(&e))?)
}

fn plan_of(file: File) -> Result<Plan, Refusal> {
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

/// What is accepted of a setting in mm: in a file as on the page.
fn whole_range(setting: Setting) -> (i64, i64) {
    let (low, high) = setting.range();
    (low as i64, high as i64)
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

fn rule(path: String, rule: &'static str) -> Refusal {
    breaks(path, Said::plain(rule))
}

fn breaks(path: String, rule: Said) -> Refusal {
    Refusal::new(
        "refusal-file-rule",
        vec![("path", Arg::Text(path)), ("rule", rule.into())],
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
            .map(|s| {
                let (low, high) = whole_range(Setting::RowSpacing);
                whole(s, low, high, || "site.row_spacing_mm".into())
            })
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
        return Err(rule("found.trellis.wires".into(), "rule-cordon-wire"));
    }
    let mut wires: Vec<row::Wire> = Vec::new();
    for (n, w) in trellis.wires.0.iter().enumerate() {
        let low = wires.last().map_or(1, |w| i64::from(w.height.0) + 1);
        wires.push(row::Wire {
            height: whole(w.height_mm, low, highest, || {
                format!("found.trellis.wires[{n}].height_mm")
            })?,
            covering: w.covering.into(),
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
    let (low, high) = whole_range(Setting::WallHeight);
    Ok(row::Trellis {
        wires,
        posts,
        wall_height: whole(trellis.wall_height_mm, low, high, || {
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
        planted: tree.planted.into(),
        shoots,
        note: words(tree.note, || format!("{path}.note"))?,
    };
    match out.broken_rule() {
        Some(broken) => Err(breaks(path.into(), broken)),
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
        (true, Some(_)) => return Err(rule(at("parent"), "rule-stem-parent")),
        (false, None) => return Err(rule(path.into(), "rule-no-parent")),
        (false, Some(p)) => *lengths
            .get(&p)
            .ok_or_else(|| rule(at("parent"), "rule-parent-before"))?,
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
            cut: u.cut.map(|cut| moment_of(cut, leaf, &at)).transpose()?,
            ..GrowthUnit::new(leaf, grown as f64, kept as f64)
        });
    }
    number(length, 0, longest, || at("units"))?;
    let bend_radius = s
        .bend_radius_dmm
        .map(|dmm| {
            let widest = row::Shoot::MAX_BEND_RADIUS as i64 * 10;
            number(dmm, 0, widest, || at("bend_radius_dmm")).map(|dmm| dmm as f64 / 10.0)
        })
        .transpose()?;
    let thickest = row::Shoot::MAX_DIAMETER as i64 * 10;
    let dmm = number(s.diameter_dmm, 0, thickest, || at("diameter_dmm"))?;
    let count = number(s.laterals.count, 0, MAX_LATERALS, || at("laterals.count"))?;
    let total = number(s.laterals.total_mm, 0, MAX_LATERALS_LENGTH, || {
        at("laterals.total_mm")
    })?;
    let out = row::Shoot {
        id,
        parent,
        at: number(s.at_mm, 0, on as i64, || at("at_mm"))? as f64,
        face: s.face.into(),
        pose: pose_of(&s, path)?,
        units,
        diameter: dmm as f64 / 10.0,
        laterals: row::Laterals {
            count: u16::try_from(count).unwrap_or(0),
            total: total as f64,
        },
        rubbed: s.rubbed,
        origin: s.origin.map(row::Origin::from),
        bend_radius,
    };
    if bend_radius.is_some() && !out.bends() {
        return Err(no_such(at("bend_radius_dmm")));
    }
    Ok(out)
}

fn no_such(path: String) -> Refusal {
    rule(path, "rule-stray")
}

/// When growth of a leaf was cut: not before it grew.
fn moment_of(cut: Cut, grown: u8, at: &impl Fn(&str) -> String) -> Result<row::Moment, Refusal> {
    Ok(row::Moment {
        leaf: leaf(cut.leaf, grown.into(), || at("cut.leaf"))?,
        window: cut.window.into(),
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
            return Err(no_such(at(name)));
        }
    }
    Ok(match s.pose {
        Pose::Laid => {
            let rise = s.rise_deg.unwrap_or_default();
            let (low, high) = (row::Pose::MIN_RISE, row::Pose::MAX_RISE);
            within(rise.degrees(), low, high, || at("rise_deg"))?;
            let toward = s
                .toward
                .ok_or_else(|| rule(at("toward"), "rule-laid-way"))?;
            row::Pose::Laid {
                toward: toward.into(),
                rise,
            }
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
    let mut work = Vec::new();
    let mut leaves = BTreeSet::new();
    for (n, s) in scheme.seasons.0.into_iter().enumerate() {
        let path = format!("{path}.seasons[{n}]");
        let leaf = leaf(s.leaf, 1, || format!("{path}.leaf"))?;
        if !leaves.insert(leaf) {
            return Err(twice(format!("{path}.leaf"), leaf));
        }
        for (window, list) in [
            (Window::Dormant, s.dormant),
            (Window::BudSwell, s.bud_swell),
            (Window::EarlySummer, s.early_summer),
            (Window::AfterHarvest, s.after_harvest),
        ] {
            for (n, w) in list.into_iter().map(Work::from).enumerate() {
                id_of(w.subject().shoot.number(), || {
                    format!("{path}.{window:?}[{n}].shoot")
                })?;
                work.push((Moment { leaf, window }, w));
            }
        }
    }
    Ok(Scheme {
        name: words(scheme.name, || format!("{path}.name"))?,
        schedule: work.into_iter().collect(),
    })
}
