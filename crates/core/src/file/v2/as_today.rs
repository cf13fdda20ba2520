//! What version 1 accepted and the model no longer holds, as near to it as the model can come.
//!
//! - *A limit* that has gone is left out; a value that is no longer accepted becomes the nearest that is.
//! - *Wires* lower than today's lowest are raised to it, each a millimetre above the one before where they would meet,
//!   and work that names a wire by its height goes with it. Work on a low wire that isn't there is about none afterwards too;
//!   a wire stretched too near a raised one is a finding.
//! - *Side branches* beyond today's count or length become the most that is held.
//! - *Growth* of the leaf before which the row was found, or of a later one, is of the last leaf that had grown.
//! - *A tree planted* too far off is planted at the farthest place, which replay then tells is off the row; *a height* at
//!   which an upright is held becomes the nearest.
//!
//! A notch, which came with the next version, is refused, as version 1's program refused it.
//!
//! All other numbers of work are refused where today's work would refuse them: version 1's program did no such work
//! and wrote none, and with the nearest value it would be done.

use crate::file::v1::dto as v1;
use crate::file::v1::limits::LIMITS;
use crate::file::v1::ranges;
use crate::file::v5::number::number;
use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::row::{Limit, refused_limit};
use crate::said::Arg;
use crate::sorted::{Map, Set};
use crate::units::Mm;
use crate::work::Work;

/// The file with all that it holds as the model has it today.
///
/// # Errors
/// A value outside version 1's range.
pub fn as_today(mut file: v1::File) -> Result<v1::File, Refusal> {
    limits(&mut file.targets)?;
    let last_grown = file.found.leaf.saturating_sub(1);
    for (n, tree) in file.found.trees.0.iter_mut().enumerate() {
        for (m, shoot) in tree.shoots.0.iter_mut().enumerate() {
            let at = |name: &str| format!("found.trees[{n}].shoots[{m}].{name}");
            let laterals = &mut shoot.laterals;
            let count = number(laterals.count, ranges::LATERALS, &|| at("laterals.count"))?;
            let total = number(laterals.total_mm, ranges::LATERALS_LENGTH, &|| {
                at("laterals.total_mm")
            })?;
            laterals.count = count.min(range::LATERALS.1 as i64);
            laterals.total_mm = total.min(range::LATERALS_LENGTH.1 as i64);
            for (k, unit) in shoot.units.0.iter_mut().enumerate() {
                let leaf = number(unit.leaf, ranges::GROWTH_LEAF, &|| {
                    at(&format!("units[{k}].leaf"))
                })?;
                unit.leaf = leaf.min(last_grown);
            }
        }
    }
    let heights = heights(&mut file)?;
    let mut later = false;
    each_work(&mut file.schemes.0, &mut |work| match work {
        Work::MoveWire { height_mm, .. }
        | Work::RemoveWire { height_mm }
        | Work::CoverWire { height_mm, .. } => {
            *height_mm = heights.get(height_mm).copied().unwrap_or(*height_mm);
        }
        Work::Notch { .. } => later = true,
        Work::Plant { foot_mm, .. } => *foot_mm = nearest(*foot_mm, range::PLACE),
        Work::HoldHeight { height_mm, .. } => {
            *height_mm = nearest(*height_mm, range::HELD_HEIGHT);
        }
        _ => {}
    });
    if later {
        return Err(Refusal::new(
            "refusal-file-rule",
            vec![
                ("path", Arg::Text("schemes".into())),
                ("rule", Arg::key("rule-later-work")),
            ],
        ));
    }
    Ok(file)
}

fn limits(targets: &mut v1::Targets) -> Result<(), Refusal> {
    for (key, value) in &targets.0 {
        for (_, min, max) in LIMITS.iter().filter(|(k, ..)| k == key) {
            if !(*min..=*max).contains(value) {
                return Err(refused_limit(key, *value, (*min, *max)));
            }
        }
    }
    let known = |key: &String| Limit::ALL.iter().map(|l| l.info()).find(|i| i.key == key);
    targets.0.retain_mut(|(key, value)| match known(key) {
        Some(info) => {
            *value = value.clamp(info.min, info.max);
            true
        }
        None => false,
    });
    Ok(())
}

/// Raises the wires that are too low, and tells what becomes of a height by which work names a wire.
fn heights(file: &mut v1::File) -> Result<Map<Mm, Mm>, Refusal> {
    let lowest = range::WIRE_HEIGHT.0 as i64;
    let (mut low, highest) = ranges::WIRE_HEIGHT;
    let mut free = lowest;
    let mut out = Map::new();
    for (n, wire) in file.found.trellis.wires.0.iter_mut().enumerate() {
        let old = number(wire.height_mm, (low, highest), &|| {
            format!("found.trellis.wires[{n}].height_mm")
        })?;
        wire.height_mm = old.max(free);
        (low, free) = (old as f64 + 1.0, wire.height_mm + 1);
        out.insert(Mm(old as i32), Mm(wire.height_mm as i32));
    }
    // A low wire that isn't there must not become one that is there, or will be.
    let mut named: Set<Mm> = out.values().copied().collect();
    each_work(&mut file.schemes.0, &mut |work| match *work {
        Work::MoveWire { height_mm, to_mm } => named.extend([height_mm, to_mm]),
        Work::AddWire { height_mm, .. }
        | Work::RemoveWire { height_mm }
        | Work::CoverWire { height_mm, .. } => named.extend([height_mm]),
        _ => {}
    });
    let low_names = named.before(&Mm(lowest as i32));
    let none: Vec<Mm> = low_names
        .iter()
        .filter(|h| !out.contains_key(h))
        .copied()
        .collect();
    let mut new = Mm(lowest as i32);
    for height in none {
        while !named.insert(new) {
            new.0 += 1;
        }
        out.insert(height, new);
    }
    Ok(out)
}

fn each_work(schemes: &mut [v1::SchemeDto], each: &mut dyn FnMut(&mut Work)) {
    for season in schemes.iter_mut().flat_map(|s| &mut s.seasons.0) {
        for window in [
            &mut season.dormant,
            &mut season.bud_swell,
            &mut season.early_summer,
            &mut season.after_harvest,
        ] {
            for work in window {
                each(&mut work.0);
            }
        }
    }
}

fn nearest(mm: Mm, range: Range) -> Mm {
    Mm::round(mm.f().clamp(range.0, range.1))
}
