//! From the words of version 5 to a plan: every value in its range, every tree whole.

use super::dto::*;
use super::held;
use super::number::{breaks, id_of, leaf, number, out_of_range, rule, twice, whole, within, words};
use super::work::works_of;
use crate::file::misread;
use crate::file::v1::dto::{Pose, Site, Targets, Trellis};
use crate::hands::Hands;
use crate::model::{Assumptions, Parameter};
use crate::plan::{Plan, Schedule, Scheme, Standing};
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row;
use crate::row::{GrowthUnit, Limit, Moment, Row, ShootId, TreeId};
use crate::sorted::{Map, Set};
use crate::standing::{Rule, Rules};
use crate::units::Mm;
use std::sync::Arc;

/// The plan in a text that says it is of version 5.
pub(in crate::file) fn read(text: &str) -> Result<Plan, Refusal> {
    plan_of(serde_json::from_str(text).map_err(|e| misread::refusal(&e, text))?)
}

/// The plan in a file's words.
pub(in crate::file) fn plan_of(file: File) -> Result<Plan, Refusal> {
    let mut targets = row::Targets::default();
    for (key, value) in &file.targets.0 {
        for limit in Limit::ALL.iter().filter(|l| l.info().key == key) {
            targets.set(*limit, Some(held(*value)))?;
        }
    }
    let mut assumptions = Assumptions::default();
    for (key, value) in &file.assumptions.0 {
        if let Some(parameter) = Parameter::of_key(key) {
            let info = parameter.info();
            let path = || format!("assumptions.{key}");
            assumptions.set(
                parameter,
                held(within(*value, (info.low, info.high), &path)?),
            );
        }
    }
    let tipped = file.found.tipped;
    let mut schemes = Vec::with_capacity(file.schemes.0.len());
    for (n, s) in file.schemes.0.into_iter().enumerate() {
        schemes.push(Arc::new(scheme_of(s, &format!("schemes[{n}]"))?));
    }
    let marks = super::marks::read(file.marks.0)?;
    let sent = super::marks::read_sent(&file.sent.0)?;
    let mut left = Vec::with_capacity(file.left.0.len());
    for (n, l) in file.left.0.into_iter().enumerate() {
        left.push(super::left::read(l, &format!("left[{n}]"))?);
    }
    let counts = super::counts::read(file.counts.0)?;
    let hands = match &file.crew {
        Some(crew) => super::counts::read_crew(crew)?,
        None => Hands::default(),
    };
    let mut plan = Plan::new(words(file.name, &|| "name".into())?, found_of(file.found)?);
    plan.note = words(file.note, &|| "note".into())?;
    plan.site = Arc::new(site_of(&file.site)?);
    plan.targets = Arc::new(targets);
    plan.assumptions = Arc::new(assumptions);
    plan.tipped = tipped;
    plan.marks = marks;
    plan.sent = sent;
    plan.left = left;
    plan.counts = counts;
    plan.hands = Arc::new(hands);
    if !schemes.is_empty() {
        plan.schemes = schemes;
    }
    Ok(plan)
}

fn site_of(site: &Site) -> Result<row::Site, Refusal> {
    let angle = |value: Option<f64>, range: Range, name: &str| {
        value
            .map(|v| within(v, range, &|| format!("site.{name}")).map(held))
            .transpose()
    };
    Ok(row::Site {
        latitude_deg: angle(site.latitude_deg, range::LATITUDE, "latitude_deg")?,
        longitude_deg: angle(site.longitude_deg, range::LONGITUDE, "longitude_deg")?,
        row_bearing_deg: angle(site.row_bearing_deg, range::BEARING, "row_bearing_deg")?,
        row_spacing: site
            .row_spacing_mm
            .map(|s| whole(s, range::ROW_SPACING, &|| "site.row_spacing_mm".into()))
            .transpose()?,
    })
}

fn found_of(found: Found) -> Result<Row, Refusal> {
    let from = whole(found.from_mm, range::PLACE, &|| "found.from_mm".into())?;
    let after = (from.f(), range::PLACE.1);
    let to = whole(found.to_mm, after, &|| "found.to_mm".into())?;
    let own_leaf = leaf(found.leaf, 1, Plan::MAX_LEAF, &|| "found.leaf".into())?;
    let mut ids = Set::new();
    let mut trees = Vec::with_capacity(found.trees.0.len());
    for (n, t) in found.trees.0.into_iter().enumerate() {
        let path = format!("found.trees[{n}]");
        if !ids.insert(t.id) {
            return Err(twice(format!("{path}.id"), t.id));
        }
        trees.push(Arc::new(tree_of(t, own_leaf, &path)?));
    }
    let mut row = Row {
        leaf: own_leaf,
        from,
        to,
        trellis: trellis_of(found.trellis)?,
        trees,
    };
    row.sort();
    Ok(row)
}

fn trellis_of(trellis: Trellis) -> Result<row::Trellis, Refusal> {
    let (lowest, highest) = range::WIRE_HEIGHT;
    if trellis.wires.is_empty() {
        return Err(rule("found.trellis.wires".into(), "rule-cordon-wire"));
    }
    let mut wires: Vec<row::Wire> = Vec::new();
    for (n, w) in trellis.wires.0.iter().enumerate() {
        let low = wires.last().map_or(lowest, |w| w.height.f() + 1.0);
        wires.push(row::Wire {
            height: whole(w.height_mm, (low, highest), &|| {
                format!("found.trellis.wires[{n}].height_mm")
            })?,
            covering: w.covering.into(),
        });
    }
    let mut posts: Vec<Mm> = Vec::with_capacity(trellis.posts_mm.0.len());
    for (n, p) in trellis.posts_mm.0.into_iter().enumerate() {
        let low = posts.last().map_or(range::PLACE.0, |p| p.f());
        posts.push(whole(p, (low, range::PLACE.1), &|| {
            format!("found.trellis.posts_mm[{n}]")
        })?);
    }
    Ok(row::Trellis {
        wires,
        posts,
        wall_height: whole(trellis.wall_height_mm, range::WALL_HEIGHT, &|| {
            "found.trellis.wall_height_mm".into()
        })?,
    })
}

/// A tree of a row that was found before the growth of `found`.
fn tree_of(tree: Tree, found: u8, path: &str) -> Result<row::Tree, Refusal> {
    let angle = tree.planted.angle_deg;
    within(angle.degrees(), range::PLANTING_ANGLE, &|| {
        format!("{path}.planted.angle_deg")
    })?;
    let mut lengths: Map<ShootId, f64> = Map::new();
    let mut shoots = Vec::with_capacity(tree.shoots.0.len());
    for (n, s) in tree.shoots.0.into_iter().enumerate() {
        let path = format!("{path}.shoots[{n}]");
        let shoot = shoot_of(s, found, n == 0, &lengths, &path)?;
        if lengths.insert(shoot.id, shoot.length()).is_some() {
            return Err(twice(format!("{path}.id"), shoot.id));
        }
        shoots.push(shoot);
    }
    let out = row::Tree {
        id: TreeId(tree.id),
        foot: whole(tree.foot_mm, range::PLACE, &|| format!("{path}.foot_mm"))?,
        planted: tree.planted.into(),
        shoots,
        vigour: tree.vigour.map(Into::into),
        like: tree.like.map(TreeId),
        diseased: tree.diseased,
        note: words(tree.note, &|| format!("{path}.note"))?,
    };
    match out.broken_rule() {
        Some(broken) => Err(breaks(path.into(), broken)),
        None => Ok(out),
    }
}

/// A shoot of a tree whose shoots before it are as long as `lengths` says.
fn shoot_of(
    s: Shoot,
    found: u8,
    first: bool,
    lengths: &Map<ShootId, f64>,
    path: &str,
) -> Result<row::Shoot, Refusal> {
    let at = |name: &str| format!("{path}.{name}");
    let id = id_of(s.id, &|| at("id"))?;
    let parent = s.parent.map(|p| id_of(p, &|| at("parent"))).transpose()?;
    let on = match (first, parent) {
        (true, None) => 0.0,
        (true, Some(_)) => return Err(rule(at("parent"), "rule-stem-parent")),
        (false, None) => return Err(rule(path.into(), "rule-no-parent")),
        (false, Some(p)) => *lengths
            .get(&p)
            .ok_or_else(&|| rule(at("parent"), "rule-parent-before"))?,
    };
    let (shortest, longest) = range::LENGTH;
    let mut units = Vec::with_capacity(s.units.0.len());
    let mut length = 0;
    let mut last = 0;
    for (n, u) in s.units.0.iter().enumerate() {
        let at = |name: &str| format!("{path}.units[{n}].{name}");
        let grown = number(u.grown_mm, range::LENGTH, &|| at("grown_mm"))?;
        let uncut = (shortest, grown as f64);
        let kept = number(u.kept_mm.unwrap_or(grown), uncut, &|| at("kept_mm"))?;
        // The row was found before its own leaf grew.
        let leaf = leaf(u.leaf, last, found.saturating_sub(1), &|| at("leaf"))?;
        last = leaf;
        length += kept;
        units.push(GrowthUnit {
            cut: u
                .cut
                .map(|cut| moment_of(cut, leaf, found, &at))
                .transpose()?,
            ..GrowthUnit::new(leaf, grown as f64, kept as f64)
        });
    }
    number(length, (0.0, longest), &|| at("units"))?;
    let bend_radius = s
        .bend_radius_dmm
        .map(|dmm| tenths(dmm, range::BEND_RADIUS, &|| at("bend_radius_dmm")))
        .transpose()?;
    let count = number(s.laterals.count, range::LATERALS, &|| at("laterals.count"))?;
    let total = number(s.laterals.total_mm, range::LATERALS_LENGTH, &|| {
        at("laterals.total_mm")
    })?;
    let out = row::Shoot {
        id,
        parent,
        at: number(s.at_mm, (0.0, on), &|| at("at_mm"))? as f64,
        face: s.face.into(),
        pose: pose_of(&s, path)?,
        note: words(s.note, &|| at("note"))?,
        units,
        diameter: tenths(s.diameter_dmm, range::DIAMETER, &|| at("diameter_dmm"))?,
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

/// A measure in mm that a file holds in tenths.
fn tenths(dmm: i64, mm: Range, path: &dyn Fn() -> String) -> Result<f64, Refusal> {
    let range = (mm.0 * 10.0, mm.1 * 10.0);
    number(dmm, range, path).map(|dmm| dmm as f64 / 10.0)
}

/// When growth of a leaf was cut: not before it grew, and not after the row was found.
fn moment_of(
    cut: Cut,
    grown: u8,
    found: u8,
    at: &impl Fn(&str) -> String,
) -> Result<row::Moment, Refusal> {
    Ok(row::Moment {
        leaf: leaf(cut.leaf, grown, found, &|| at("cut.leaf"))?,
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
            within(rise.degrees(), range::RISE, &|| at("rise_deg"))?;
            let toward = s
                .toward
                .ok_or_else(&|| rule(at("toward"), "rule-laid-way"))?;
            row::Pose::Laid {
                toward: toward.into(),
                rise,
            }
        }
        Pose::Upright => {
            let lean = s.lean_deg.unwrap_or_default();
            within(lean.degrees(), range::LEAN, &|| at("lean_deg"))?;
            row::Pose::Upright { lean }
        }
        Pose::Stub => row::Pose::Stub,
        Pose::Free => row::Pose::Free,
    })
}

fn scheme_of(scheme: SchemeDto, path: &str) -> Result<Scheme, Refusal> {
    let work = works_of(scheme.seasons.0, &format!("{path}.seasons"))?;
    let field = scheme
        .field
        .map(|f| super::field::read(f, &format!("{path}.field")));
    let field = field.transpose()?.unwrap_or_default();
    let schedule: Schedule = work.into_iter().collect();
    let mut planned = schedule.moments();
    for (n, m) in scheme.planned.0.into_iter().enumerate() {
        let at = || format!("{path}.planned[{n}].leaf");
        planned.insert(Moment {
            leaf: leaf(m.leaf, 1, Plan::MAX_LEAF, &at)?,
            window: m.window.into(),
        });
    }
    let crop_from = |l: i64| leaf(l, 1, Plan::MAX_LEAF, &|| format!("{path}.crop_from"));
    let standing = match scheme.standing {
        None => None,
        Some(set) => Some(Standing {
            rules: rules_of(&set, path)?,
            planned,
        }),
    };
    Ok(Scheme {
        name: words(scheme.name, &|| format!("{path}.name"))?,
        schedule,
        crop_from: scheme.crop_from.map(crop_from).transpose()?,
        standing,
        field,
    })
}

fn rules_of(set: &Targets, path: &str) -> Result<Rules, Refusal> {
    let mut rules = Rules::default();
    for (key, value) in &set.0 {
        let rule = Rule::ALL.iter().find(|r| r.info().key == key);
        if let Some(rule) = rule.filter(|r| !rules.set(**r, Some(held(*value)))) {
            let (low, high) = rule.range();
            let path = format!("{path}.standing.{key}");
            let mut why = out_of_range(path, *value, low, high);
            if rule.is_whole() {
                why.key = "refusal-file-whole";
            }
            return Err(why);
        }
    }
    Ok(rules)
}
