//! From a plan to the words of version 5.

use super::dto::*;
use super::held;
use super::named::numbers;
use super::work::seasons;
use crate::file::FORMAT;
use crate::file::json::UpTo;
use crate::file::v1::dto::{Laterals, Pose, Site, Trellis, Wire};
use crate::plan::{Plan, Scheme};
use crate::row;
use crate::row::{Moment, Row, ShootId};
use crate::sorted::Map;
use crate::units::{Deg, Mm};

impl From<Moment> for Cut {
    fn from(moment: Moment) -> Self {
        Self {
            leaf: moment.leaf.into(),
            window: moment.window.into(),
        }
    }
}

fn mm(length: f64) -> i64 {
    Mm::round(length).0.into()
}

/// The plan as it stands in a file.
pub(in crate::file) fn write(plan: &Plan) -> File {
    let site = &plan.site;
    File {
        format: FORMAT.into(),
        version: 5,
        name: plan.name.clone(),
        note: plan.note.clone(),
        site: Site {
            latitude_deg: site.latitude_deg.map(held),
            longitude_deg: site.longitude_deg.map(held),
            row_bearing_deg: site.row_bearing_deg.map(held),
            row_spacing_mm: site.row_spacing.map(|s| s.0.into()),
        },
        targets: numbers(plan.targets.overrides().map(|(l, v)| (l.info().key, v))),
        assumptions: numbers(plan.assumptions.overrides().map(|(p, v)| (p.info().key, v))),
        found: Found {
            tipped: plan.tipped,
            ..found(&plan.found)
        },
        schemes: UpTo(plan.schemes.iter().map(|s| scheme(s)).collect()),
        marks: UpTo(plan.marks.iter().map(super::marks::write).collect()),
        sent: sent(plan),
        left: UpTo(plan.left.iter().map(super::left::write).collect()),
        counts: UpTo(plan.counts.iter().map(super::counts::write).collect()),
        crew: super::counts::write_crew(&plan.hands),
    }
}

/// The fingerprints of the copies that were sent.
pub(in crate::file) fn sent(plan: &Plan) -> UpTo<String, { Plan::MAX_SENT }> {
    UpTo(plan.sent.iter().map(|f| format!("{f:016x}")).collect())
}

fn scheme(scheme: &Scheme) -> SchemeDto {
    let worked = scheme.schedule.moments();
    let standing = scheme.standing.as_ref();
    let planned = standing.into_iter().flat_map(|s| &s.planned);
    let idle = planned.filter(|m| !worked.contains(m));
    SchemeDto {
        name: scheme.name.clone(),
        crop_from: scheme.crop_from.map(Into::into),
        standing: standing.map(|s| numbers(s.rules.overrides().map(|(r, v)| (r.info().key, v)))),
        planned: UpTo(idle.map(|m| (*m).into()).collect()),
        seasons: seasons(&scheme.schedule),
        field: super::field::write(&scheme.field),
    }
}

fn found(row: &Row) -> Found {
    Found {
        leaf: row.leaf.into(),
        tipped: None,
        from_mm: row.from.0.into(),
        to_mm: row.to.0.into(),
        trellis: Trellis {
            wires: UpTo(
                row.trellis
                    .wires
                    .iter()
                    .map(|w| Wire {
                        height_mm: w.height.0.into(),
                        covering: w.covering.into(),
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
    let mut lengths: Map<ShootId, i64> = Map::new();
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
        planted: tree.planted.into(),
        vigour: tree.vigour.map(Into::into),
        like: tree.like.map(|t| t.0),
        diseased: tree.diseased,
        note: tree.note.clone(),
        shoots: UpTo(shoots),
    }
}

/// A shoot; `parent` is the length of its parent as written, off which rounding must not take it.
fn shoot(s: &row::Shoot, parent: Option<i64>) -> Shoot {
    let (pose, toward, rise, lean) = match s.pose {
        row::Pose::Laid { toward, rise } => (Pose::Laid, Some(toward.into()), Some(rise), None),
        row::Pose::Upright { lean } => (Pose::Upright, None, None, Some(lean)),
        row::Pose::Stub => (Pose::Stub, None, None, None),
        row::Pose::Free => (Pose::Free, None, None, None),
    };
    let angled = |angle: Option<Deg>| angle.filter(|a| *a != Deg::default());
    Shoot {
        id: s.id.number(),
        parent: s.parent.map(ShootId::number),
        at_mm: mm(s.at).min(parent.unwrap_or(i64::MAX)),
        face: s.face.into(),
        origin: s.origin.map(Origin::from),
        pose,
        toward,
        rise_deg: angled(rise),
        lean_deg: angled(lean),
        bend_radius_dmm: s
            .bend_radius
            .filter(|_| s.bends())
            .map(|radius| mm(radius * 10.0)),
        diameter_dmm: mm(s.diameter * 10.0),
        units: UpTo(
            s.units
                .iter()
                .filter(|u| mm(u.kept) > 0)
                .map(|u| Unit {
                    leaf: u.leaf.into(),
                    grown_mm: mm(u.grown),
                    kept_mm: Some(mm(u.kept)).filter(|k| *k != mm(u.grown)),
                    cut: u.cut.map(Cut::from),
                })
                .collect(),
        ),
        laterals: Laterals {
            count: s.laterals.count.into(),
            total_mm: mm(s.laterals.total),
        },
        rubbed: s.rubbed,
        note: s.note.clone(),
    }
}
