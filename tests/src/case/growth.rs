//! Half a leaf's growth of one tree, from heights that the case gives, so that the way a bend is drawn plays no part.

use std::collections::BTreeMap;
use std::sync::Arc;

use cordonry::fruit::{self, Crop};
use cordonry::grow::{Half, grow_between};
use cordonry::model::Parameter;
use cordonry::pose::Geometry;
use cordonry::row::{
    Face, GrowthUnit, Laterals, Planted, Pose, Shoot, ShootId, Targets, Toward, Tree, TreeId,
};
use cordonry::terms::{Assumptions, Stand, Terms};
use cordonry::units::{Deg, Mm};
use serde_json::{Value, json};

use super::{list, number};

pub(super) fn solve(case: &Value) -> Result<(Value, Value), String> {
    let terms = terms(case)?;
    let tree = tree(&case["tree"], number(&case["row"], "planting_angle_deg")?)?;
    let leaf = whole(&case["ask"], "leaf")?;
    let half = match whole::<u8>(&case["ask"], "half")? {
        1 => Half::First,
        2 => Half::Second,
        other => return Err(format!("there is no half {other}")),
    };
    let tips = tips(case, &tree)?;
    let mut grown = tree.clone();
    grow_between(&mut grown, leaf, half, &terms, &|_| tips.clone());
    let mut results = json!({ "tree": written(&grown, &tilts(case)) });
    if half == Half::Second {
        let crop = Crop::of(fruit::fruit(&tree, leaf, &terms), &grown, leaf, &terms);
        results["fruit"] = crop.fruit.into();
        results["leaf_area_m2"] = crop.leaf_area.into();
        results["t_per_ha"] = crop.t_per_ha.into();
        results["leaf_area_index"] = crop.leaf_area_index.into();
        results["leaf_area_per_fruit_cm2"] = crop.leaf_of_a_fruit.into();
    }
    Ok((settings(&terms), results))
}

/// Every parameter with the value that it had.
fn settings(terms: &Terms) -> Value {
    let values = Parameter::ALL.iter();
    let values: BTreeMap<&str, f64> = values
        .map(|p| (p.info().key, terms.assumptions[*p]))
        .collect();
    json!({ "parameters": values })
}

fn terms(case: &Value) -> Result<Terms, String> {
    let row = &case["row"];
    let mut assumptions = Assumptions::default();
    for (key, value) in case["parameters"].as_object().into_iter().flatten() {
        let parameter = Parameter::of_key(key).ok_or_else(|| format!("no parameter \"{key}\""))?;
        let value = value
            .as_f64()
            .ok_or_else(|| format!("\"{key}\" is no number"))?;
        assumptions.set(parameter, value);
    }
    Ok(Terms {
        geometry: Geometry::at(number(row, "wire_mm")?, &Targets::default()),
        stand: Stand {
            tree_spacing: number(row, "tree_spacing_mm")?,
            row_spacing: number(row, "row_spacing_mm")?,
            wall_height: number(row, "wall_height_mm")?,
            crop_from: whole(case, "crop_from")?,
        },
        assumptions: Arc::new(assumptions),
        site: Arc::default(),
    })
}

fn whole<T: TryFrom<u64>>(value: &Value, key: &str) -> Result<T, String> {
    let number = value[key].as_u64().and_then(|n| T::try_from(n).ok());
    number.ok_or_else(|| format!("\"{key}\" is missing or no whole number that fits"))
}

fn id(value: &Value) -> Result<ShootId, String> {
    let number = value.as_u64().and_then(ShootId::from_number);
    number.ok_or_else(|| format!("{value} is no shoot's id"))
}

/// The height of each shoot's tip, in the order of the tree's shoots.
fn tips(case: &Value, tree: &Tree) -> Result<Vec<f64>, String> {
    let tip = |s: &Shoot| {
        let heights = &case["z_mm"][s.id.to_string()];
        heights[1]
            .as_f64()
            .ok_or_else(|| format!("\"z_mm\" has no tip of {}", s.id))
    };
    tree.shoots.iter().map(tip).collect()
}

fn tree(value: &Value, planting_angle: f64) -> Result<Tree, String> {
    let shoots = list(value, "shoots")?.iter().map(shoot);
    Ok(Tree {
        shoots: shoots.collect::<Result<_, _>>()?,
        ..Tree::lost(
            TreeId(whole(value, "id")?),
            Mm(0),
            Planted {
                angle: Deg::new(planting_angle),
                toward: Toward::Right,
            },
        )
    })
}

fn shoot(value: &Value) -> Result<Shoot, String> {
    let tilt = Deg::new(number(value, "tilt_deg")?);
    let parent = match &value["parent"] {
        Value::Null => None,
        parent => Some(id(parent)?),
    };
    let units = list(value, "units")?.iter().map(|u| {
        let (grown, kept) = (number(u, "grown_mm")?, number(u, "kept_mm")?);
        Ok(GrowthUnit::new(whole(u, "leaf")?, grown, kept))
    });
    Ok(Shoot {
        face: match value["face"].as_str() {
            Some("top") => Face::Top,
            Some("side") => Face::Side,
            Some("under") => Face::Under,
            _ => return Err("\"face\" is none of top, side, under".into()),
        },
        pose: match value["pose"].as_str() {
            Some("laid") => Pose::Laid {
                toward: Toward::Right,
                rise: tilt,
            },
            Some("upright") => Pose::Upright { lean: tilt },
            Some("stub") => Pose::Stub,
            Some("free") => Pose::Free,
            _ => return Err("\"pose\" is none of laid, upright, stub, free".into()),
        },
        units: units.collect::<Result<_, String>>()?,
        diameter: number(value, "diameter_mm")?,
        laterals: Laterals {
            count: whole(&value["laterals"], "count")?,
            total: number(&value["laterals"], "total_mm")?,
        },
        rubbed: value["rubbed"] == true,
        ..Shoot::bud(id(&value["id"])?, parent, number(value, "at_mm")?)
    })
}

/// The tilts of the shoots that the case gives: those of stubs and of what is not tied say nothing here, and stay.
fn tilts(case: &Value) -> BTreeMap<u64, f64> {
    let shoots = case["tree"]["shoots"].as_array().into_iter().flatten();
    shoots
        .filter_map(|s| Some((s["id"].as_u64()?, s["tilt_deg"].as_f64()?)))
        .collect()
}

fn written(tree: &Tree, tilts: &BTreeMap<u64, f64>) -> Value {
    let shoots: Vec<Value> = tree
        .shoots
        .iter()
        .map(|s| {
            let (pose, tilt) = match s.pose {
                Pose::Laid { rise, .. } => ("laid", Some(rise.degrees())),
                Pose::Upright { lean } => ("upright", Some(lean.degrees())),
                Pose::Stub => ("stub", None),
                Pose::Free => ("free", None),
            };
            let known = || tilts.get(&s.id.number()).copied().unwrap_or(0.0);
            let units = s
                .units
                .iter()
                .map(|u| json!({ "leaf": u.leaf, "grown_mm": u.grown, "kept_mm": u.kept }));
            json!({
                "id": s.id.number(),
                "parent": s.parent.map(ShootId::number),
                "at_mm": s.at,
                "face": match s.face {
                    Face::Top => "top",
                    Face::Side => "side",
                    Face::Under => "under",
                },
                "pose": pose,
                "tilt_deg": tilt.unwrap_or_else(known),
                "diameter_mm": s.diameter,
                "laterals": { "count": s.laterals.count, "total_mm": s.laterals.total },
                "rubbed": s.rubbed,
                "units": units.collect::<Vec<_>>(),
            })
        })
        .collect();
    json!({ "id": tree.id.0, "shoots": shoots })
}
