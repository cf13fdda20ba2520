//! A leader bent tighter than its thickness bears.

use super::seen::{Seen, SeenTree, over, under};
use super::{Context, Finding, Part, Severity};
use crate::pose::Course;
use crate::row::{Limit, Shoot};
use crate::said::Arg;

pub(super) const RULE: &str = "bend-too-tight";

/// The shoots of a row that are bent tighter than they bear.
pub fn bent_too_tight(context: &Context<'_>) -> Vec<Part> {
    let found = find(&Seen::to_judge(context));
    found.into_iter().flat_map(|f| f.subjects).collect()
}

pub(super) fn find(c: &Seen<'_>) -> Vec<Finding> {
    let least = c.limit(Limit::BendTightest);
    let usual = c.limit(Limit::BendDiameters);
    let mut out = Vec::new();
    for seen in c.near_trees() {
        for (shoot, course) in seen.pairs() {
            out.extend(folded(c, seen, shoot, course));
            if course.turn.abs() < 1e-9 || shoot.diameter <= 0.0 || course.first >= course.length {
                continue;
            }
            // What has thickened since it was bent, or whose thickness was corrected, is judged as thick as it was then.
            let bent = shoot.bend_radius.filter(|radius| *radius > 0.0);
            let diameter = bent.map_or(shoot.diameter, |radius| radius / usual);
            let diameters = course.radius / diameter;
            // Thinner wood, as it may be, bears a tighter bend.
            let thinnest = (diameter - c.limit(Limit::ThicknessTolerance)).max(0.0);
            if !under(course.radius, least * thinnest) {
                continue;
            }
            let corner = course.corner();
            out.push(Finding {
                rule: RULE,
                severity: severity(c, seen, shoot),
                x: corner.x,
                z: corner.y,
                width: 0.0,
                subjects: vec![seen.part(shoot.id)],
                measured: diameters,
                allowed: least,
                limit: Limit::BendTightest,
                args: vec![
                    ("fold", Arg::Text("no".into())),
                    ("most", super::seen::distance(0.0)),
                    ("part", seen.name(shoot.id)),
                    ("radius", super::seen::distance(course.radius)),
                    ("least", super::seen::distance(least * diameter)),
                    ("diameter", Arg::Thickness(diameter)),
                ],
                remedies: Vec::new(),
            });
        }
    }
    out
}

/// What was found bent so has held so far; what is to be bent so can still be left. Rows that are tried are told apart by how
/// tight it is alone.
fn severity(c: &Seen<'_>, seen: &SeenTree<'_>, shoot: &Shoot) -> Severity {
    match !c.judging && seen.is_bent_now(shoot) {
        true => Severity::Soon,
        false => Severity::Note,
    }
}

/// A shoot that grows on from the end of its parent so nearly as this, radians, is no fold.
const ONWARD: f64 = 0.6;

/// A shoot that stood on laid wood and is laid itself is folded at its base: a thick one splits there. How thick it was when
/// that was done tells the radius that it was bent with.
fn folded(c: &Seen<'_>, seen: &SeenTree<'_>, shoot: &Shoot, course: &Course) -> Option<Finding> {
    let parent = seen.tree.index(shoot.parent?)?;
    let on = &seen.courses[parent];
    let turn = (course.end_heading() - on.heading(shoot.at)).abs();
    let onward = turn < ONWARD && shoot.at >= on.length - c.limit(Limit::UprightSpacing);
    if !shoot.pose.is_laid() || !seen.tree.shoots[parent].pose.is_laid() || onward {
        return None;
    }
    let bent = shoot.bend_radius.filter(|radius| *radius > 0.0);
    let diameter = bent.map_or(shoot.diameter, |r| r / c.limit(Limit::BendDiameters));
    let most = c.limit(Limit::BendThick);
    over(diameter, most).then(|| Finding {
        rule: RULE,
        severity: severity(c, seen, shoot),
        x: course.base.x,
        z: course.base.y,
        width: 0.0,
        subjects: vec![seen.part(shoot.id)],
        measured: diameter,
        allowed: most,
        limit: Limit::BendThick,
        args: vec![
            ("fold", Arg::yes(true)),
            ("part", seen.name(shoot.id)),
            ("radius", super::seen::distance(0.0)),
            ("least", super::seen::distance(0.0)),
            ("diameter", Arg::Thickness(diameter)),
            ("most", Arg::Thickness(most)),
        ],
        remedies: Vec::new(),
    })
}
