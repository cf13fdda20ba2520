//! The figures of a plan on which a native and a browser build must agree to the printed digit.

use cordonry::canopy::Canopy;
use cordonry::check::{Context, Finding, Part, check, check_light, tell_costs};
use cordonry::cover::{Stretch, cover, upright_places};
use cordonry::light::row_light::report;
use cordonry::light::{Foliage, Period};
use cordonry::plan::{Moment, Plan, Replayed, Window, replay};
use cordonry::pose::{Course, Geometry, Posed, PosedRow, bend_toward};
use cordonry::units::fixed;
use kurbo::{BezPath, PathEl, Point, Vec2};
use std::fmt::Write;

/// Every scheme's row at the plan's start and at the end of each leaf up to one after its last work: where each shoot begins
/// and ends, how its bend is drawn, where a drag would bend it, the cover of the wire, what the checks find, and the void work; lengths in millimetres to 0.001. Of the start the season's light too.
///
/// Two builds of the same core give the same text for the same plan. It is for tests, not for people.
pub fn digest(plan: &Plan) -> String {
    let mut out = String::new();
    for (i, scheme) in plan.schemes.iter().enumerate() {
        line(&mut out, format_args!("scheme {i} {}", scheme.name));
        for moment in moments(plan, i) {
            let Moment { leaf, window } = moment;
            line(&mut out, format_args!("leaf {leaf} {window:?}"));
            match replay(plan, i, moment) {
                Ok(replayed) => {
                    moment_of(&mut out, plan, &replayed);
                    if moment == plan.start() {
                        light_of(&mut out, plan, &replayed);
                    }
                }
                Err(refusal) => line(&mut out, format_args!("refused {}", refusal.key)),
            }
        }
    }
    out
}

fn moments(plan: &Plan, scheme: usize) -> Vec<Moment> {
    let first = plan.found.leaf;
    let worked = plan.schemes[scheme].schedule.last().map_or(0, |m| m.leaf);
    let last = worked.saturating_add(1).clamp(first, Plan::MAX_LEAF);
    let ends = (first..=last).map(|leaf| Moment {
        leaf,
        window: Window::AfterHarvest,
    });
    std::iter::once(plan.start()).chain(ends).collect()
}

fn moment_of(out: &mut String, plan: &Plan, replayed: &Replayed) {
    let row = &replayed.row;
    let g = Geometry::of(row, &plan.targets);
    for tree in row.posed() {
        tree_of(out, tree);
    }
    cover_of(out, plan, row);
    for place in upright_places(row, g) {
        let at = point(Point::new(place.x, place.z));
        line(
            out,
            format_args!("place {} {} {at}", place.tree, place.shoot),
        );
    }
    for tree in &row.trees {
        let carries = Canopy::of(tree, replayed.moment.leaf, &replayed.terms.assumptions);
        let [older, new, flowers] = [carries.older, carries.new, carries.flowers].map(number);
        line(
            out,
            format_args!("canopy {} {older} {new} {flowers}", tree.id),
        );
    }
    findings_of(out, replayed);
    for void in &replayed.void {
        let subject = void.work.subject();
        let Moment { leaf, window } = void.moment;
        line(
            out,
            format_args!(
                "void {leaf} {window:?} {} {} {}",
                subject.tree.map_or(0, |t| t.0),
                subject.shoot,
                void.why.key
            ),
        );
    }
}

fn findings_of(out: &mut String, replayed: &Replayed) {
    for f in check(&Context::of(replayed)) {
        finding_of(out, &f);
    }
}

/// The season's light: shares to six digits, and what is found of it.
fn light_of(out: &mut String, plan: &Plan, replayed: &Replayed) {
    let foliage = Foliage::new(&replayed.row, &replayed.terms, &plan.targets, 1.0);
    let period = Period::growing_season(foliage.around().site.latitude_deg);
    let light = report(&foliage, &plan.targets, period);
    let share = |v: f64| fixed(v, 6);
    let zone = light.zone.map_or((0.0, 0.0), |z| (z.mean, z.lowest));
    line(
        out,
        format_args!(
            "light caught {} beam {} sky {} zone {} {} under {} {} index {} over {} columns of {} levels",
            share(light.caught.total),
            share(light.caught.beam),
            share(light.caught.sky),
            share(zone.0),
            share(zone.1),
            share(light.under_flowering),
            share(light.under_quality),
            share(light.leaf_area_index),
            light.fall_through.len(),
            light.map.z.len(),
        ),
    );
    let sum = |values: &[f32]| values.iter().map(|v| f64::from(*v)).sum::<f64>();
    for (falls, column) in light.fall_through.chunks(20).zip(0..) {
        let lit: Vec<f32> = (0..light.map.z.len().saturating_sub(1))
            .filter_map(|level| light.map.at(column * 20, level))
            .collect();
        let (falls, lit) = (share(sum(falls)), share(sum(&lit)));
        line(out, format_args!("falls {falls} lit {lit}"));
    }
    let mut wood = check(&Context::of(replayed));
    let found = check_light(&Context::of(replayed), &light, &wood);
    for f in found.findings {
        finding_of(out, &f);
    }
    tell_costs(&found.costs, &mut wood);
    for f in &wood {
        if let Some(cost) = f.light_cost() {
            let (at, cost) = (number(f.x), number(cost));
            line(out, format_args!("light lost to {} {at}: {cost}", f.rule));
        }
    }
}

fn finding_of(out: &mut String, f: &Finding) {
    let part = |p: &Part| match p.shoot {
        Some(shoot) => format!("{}.{shoot}", p.tree),
        None => p.tree.to_string(),
    };
    let subjects: Vec<String> = f.subjects.iter().map(part).collect();
    line(
        out,
        format_args!(
            "finding {} {:?} {},{} wide {} measured {} allowed {} remedies {} of {}",
            f.rule,
            f.severity,
            number(f.x),
            number(f.z),
            number(f.width),
            number(f.measured),
            number(f.allowed),
            f.remedies.len(),
            subjects.join(" "),
        ),
    );
    for remedy in &f.remedies {
        if let Some(height) = remedy.wall_height {
            line(out, format_args!("remedy wall {height:?}"));
        }
        for work in &remedy.work {
            line(out, format_args!("remedy {work:?}"));
        }
    }
}

fn tree_of(out: &mut String, posed: &Posed) {
    let tree = posed.tree();
    line(
        out,
        format_args!("tree {} at {} {}", tree.id, tree.foot.0, tree.shoots.len()),
    );
    for (i, (shoot, course)) in posed.pairs().enumerate() {
        line(
            out,
            format_args!(
                "shoot {} {} {} {} {}",
                shoot.id,
                point(course.base),
                point(course.tip()),
                number(course.length),
                number(shoot.diameter),
            ),
        );
        if course.turn != 0.0 {
            line(out, format_args!("bend {}", bend(course)));
        }
        // A drag a little back and up from the tip.
        let target = course.tip() + Vec2::new(-70.0, 45.0);
        let pose = bend_toward(posed, i, target, false);
        line(out, format_args!("drag {:?}", pose.heading()));
    }
}

fn bend(course: &Course) -> String {
    let path: BezPath = course.path(0.1);
    let mut out = format!("{} {}", number(course.radius), number(course.first));
    for element in path.elements() {
        if let PathEl::CurveTo(a, b, c) = element {
            let _ = write!(out, " ({} {} {})", point(*a), point(*b), point(*c));
        }
    }
    out
}

fn cover_of(out: &mut String, plan: &Plan, row: &PosedRow) {
    let cover = cover(row, &plan.targets);
    line(
        out,
        format_args!("cover {} of {}", number(cover.filled), number(cover.owed)),
    );
    for laid in &cover.laid {
        line(
            out,
            format_args!(
                "laid {} {} {} {}",
                laid.tree,
                laid.shoot,
                number(laid.span.from),
                number(laid.span.to)
            ),
        );
    }
    let mut stretches = |name: &str, list: &[Stretch]| {
        for s in list {
            let by: Vec<String> = s.by.iter().map(|(t, s)| format!("{t}.{s}")).collect();
            line(
                out,
                format_args!(
                    "{name} {} {} {}",
                    number(s.span.from),
                    number(s.span.to),
                    by.join(" ")
                ),
            );
        }
    };
    stretches("gap", &cover.gaps);
    stretches("overlap", &cover.overlaps);
}

fn line(out: &mut String, text: std::fmt::Arguments<'_>) {
    let text = text.to_string();
    out.push_str(text.trim_end());
    out.push('\n');
}

fn number(mm: f64) -> String {
    fixed(mm, 3)
}

fn point(p: Point) -> String {
    format!("{},{}", number(p.x), number(p.y))
}

/// The digest of a plan file's text.
///
/// # Errors
/// The key of why it can't be read.
#[cfg(target_arch = "wasm32")]
#[wasm_bindgen::prelude::wasm_bindgen(js_name = digestOf)]
pub fn digest_of(text: &str) -> Result<String, String> {
    let plan = cordonry::file::read_plan(text.as_bytes()).map_err(|e| e.0.key.to_string())?;
    Ok(digest(&plan))
}
