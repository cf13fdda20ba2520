//! What is left for a year, in words and back.

use super::dto::{LeftDto, SpotDto};
use super::held;
use super::number::{id_of, leaf, number, text_of, whole, within};
use crate::file::json::UpTo;
use crate::plan::{Left, LeftSpot, Plan};
use crate::range;
use crate::refusal::Refusal;
use crate::row::{ShootId, TreeId};

/// Greatest measure that a file holds, in whatever unit.
const MEASURED: range::Range = (-1e9, 1e9);

pub(super) fn read(left: LeftDto, path: &str) -> Result<Left, Refusal> {
    let at = |name: &str| format!("{path}.{name}");
    let mut spots = Vec::with_capacity(left.found.0.len());
    for (n, s) in left.found.0.into_iter().enumerate() {
        let at = |name: &str| format!("{path}.found[{n}].{name}");
        let shoot = s.shoot.map(|id| id_of(id, &|| at("shoot"))).transpose()?;
        let most = (0.0, LeftSpot::MAX_PARTS.into());
        spots.push(LeftSpot {
            rule: text_of(s.rule, LeftSpot::MAX_RULE, &|| at("rule"))?,
            x: whole(s.x_mm, range::PLACE, &|| at("x_mm"))?,
            part: s.tree.map(|tree| (TreeId(tree), shoot)),
            parts: number(s.parts, most, &|| at("parts"))? as u32,
            measured: held(within(s.measured, MEASURED, &|| at("measured"))?),
        });
    }
    Ok(Left {
        leaf: leaf(left.leaf, 1, Plan::MAX_LEAF, &|| at("leaf"))?,
        cause: text_of(left.cause, LeftSpot::MAX_RULE, &|| at("cause"))?,
        reason: text_of(left.reason, Left::MAX_REASON, &|| at("reason"))?,
        spots,
    })
}

pub(super) fn write(left: &Left) -> LeftDto {
    let spot = |s: &LeftSpot| SpotDto {
        rule: s.rule.clone(),
        x_mm: s.x.0.into(),
        tree: s.part.map(|(tree, _)| tree.0),
        shoot: s.part.and_then(|(_, shoot)| shoot).map(ShootId::number),
        parts: s.parts.into(),
        measured: held(s.measured),
    };
    LeftDto {
        leaf: left.leaf.into(),
        cause: left.cause.clone(),
        reason: left.reason.clone(),
        found: UpTo(left.spots.iter().map(spot).collect()),
    }
}
