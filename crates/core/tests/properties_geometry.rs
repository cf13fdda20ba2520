//! Properties of courses, bending and cover.

use cordonry::cover::{Cover, Laid, Span, cover, cover_of};
use cordonry::pose::{Geometry, Posed, bend_toward, layout};
use cordonry::row::{Limit, Pose, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId};
use cordonry::units::Deg;
use cordonry::work::{Work, apply};
use cordonry_fixture::random::*;
use cordonry_fixture::wood;
use kurbo::{ParamCurve, ParamCurveArclen, Point};
use proptest::prelude::*;
use proptest::sample::Index;
use std::sync::Arc;

/// Stretches shorter than this are none, so a sum may miss so much for each that could be dropped.
const LEAST: f64 = 0.5;

fn spans() -> impl Strategy<Value = Vec<Laid>> {
    let place = || {
        prop_oneof![
            (-20i32..220).prop_map(|n| f64::from(n) * 50.0),
            -1000.0..11000.0
        ]
    };
    prop::collection::vec((place(), place()), 0..14).prop_map(|pairs| {
        pairs
            .into_iter()
            .enumerate()
            .map(|(i, (a, b))| Laid {
                tree: TreeId(i as u32),
                shoot: ShootId::STEM,
                span: Span::between(a, b),
            })
            .collect()
    })
}

fn total(stretches: &[cordonry::cover::Stretch]) -> f64 {
    stretches.iter().map(|s| s.span.length()).sum()
}

/// Filled and bare make up what is owed, and both lie in order inside the row.
fn adds_up(c: &Cover, row: Span) -> Result<(), TestCaseError> {
    let slack = LEAST * (c.laid.len() + 1) as f64 + 1e-6;
    prop_assert!((c.owed - row.length()).abs() < 1e-9);
    let sum = c.filled + total(&c.gaps);
    prop_assert!(
        sum <= c.owed + 1e-6 && sum >= c.owed - slack,
        "{} of {}",
        sum,
        c.owed
    );
    prop_assert!((-1e-9..=1.0 + 1e-9).contains(&c.fill_share()));
    prop_assert!(total(&c.overlaps) <= c.filled + 1e-6);
    for list in [&c.gaps, &c.overlaps] {
        prop_assert!(list.windows(2).all(|w| w[0].span.to < w[1].span.from));
        for s in list {
            prop_assert!(s.span.length() >= LEAST);
            prop_assert!(s.span.from >= row.from && s.span.to <= row.to);
        }
    }
    Ok(())
}

/// The row as seen from the other alley.
fn mirrored(row: &Row) -> Row {
    let flip = |pose: Pose| match pose {
        Pose::Laid { toward, rise } => Pose::Laid {
            toward: toward.other(),
            rise,
        },
        Pose::Upright { lean } => Pose::Upright {
            lean: Deg::new(-lean.degrees()),
        },
        other => other,
    };
    let mut out = Row {
        from: -row.to,
        to: -row.from,
        trees: row
            .trees
            .iter()
            .map(|t| {
                let mut t = Tree::clone(t);
                t.foot = -t.foot;
                t.planted.toward = t.planted.toward.other();
                for s in &mut t.shoots {
                    s.pose = flip(s.pose);
                }
                Arc::new(t)
            })
            .collect(),
        ..row.clone()
    };
    out.sort();
    out
}

fn back(span: Span) -> Span {
    Span {
        from: -span.to,
        to: -span.from,
    }
}

fn near(a: f64, b: f64) -> bool {
    (a - b).abs() < 1e-6
}

fn picked(plan: &cordonry::plan::Plan, tree: Index, shoot: Index) -> Option<(Arc<Tree>, usize)> {
    let trees: Vec<_> = plan.found.trees.iter().filter(|t| !t.is_lost()).collect();
    if trees.is_empty() {
        return None;
    }
    let tree = trees[tree.index(trees.len())];
    Some((Arc::clone(tree), shoot.index(tree.shoots.len())))
}

/// A leader, an upright at its end, and a short shoot that is laid from it at the very top of the band over the wire.
#[test]
fn wood_laid_at_the_top_of_the_band_has_mirrored_cover() {
    let targets = Targets::default();
    let on = |id: u32, parent: u32, at: f64, pose, length| Shoot {
        at,
        parent: Some(ShootId::found(parent)),
        ..wood::shoot(id, pose, wood::grown(0, length))
    };
    let stem = wood::shoot(0, wood::laid(Toward::Left, 0.0), wood::grown(0, 1200.0));
    let twig = wood::laid(Toward::Left, 0.0);
    for angle in 45..=90 {
        let shoots = vec![
            stem.clone(),
            on(1, 0, 1200.0, wood::standing(0.0), 2291.0),
            on(2, 1, targets.get(Limit::CordonBand), twig, 1.0),
        ];
        let mut row = wood::planted(1, 1500, 1000.0);
        row.trees = vec![Arc::new(wood::tree(
            1,
            1500,
            f64::from(angle),
            Toward::Left,
            shoots,
        ))];
        for row in [mirrored(&row), row] {
            assert_eq!(cover(&row, &targets).laid.len(), 2, "planted at {angle}°");
        }
    }
}

proptest! {
    #![proptest_config(cases(384))]

    #[test]
    fn cover_adds_up(laid in spans(), from in -1000.0..5000.0, length in 0.0..9000.0) {
        let row = Span { from, to: from + length };
        adds_up(&cover_of(laid, row), row)?;
    }

    #[test]
    fn cover_of_the_parts_is_cover_of_the_whole(
        laid in spans(), from in 0.0..3000.0, a in 1.0..4000.0, b in 1.0..4000.0,
    ) {
        let part = |from: f64, to: f64| cover_of(laid.clone(), Span { from, to });
        let (left, right) = (part(from, from + a), part(from + a, from + a + b));
        let whole = part(from, from + a + b);
        prop_assert!(near(left.owed + right.owed, whole.owed));
        prop_assert!(near(left.filled + right.filled, whole.filled));
        let slack = 2.0 * LEAST + 1e-6;
        prop_assert!((total(&left.gaps) + total(&right.gaps) - total(&whole.gaps)).abs() <= slack);
        let overlaps = total(&left.overlaps) + total(&right.overlaps);
        prop_assert!((overlaps - total(&whole.overlaps)).abs() <= slack);
    }

    #[test]
    fn more_wood_never_covers_less(laid in spans(), row in (0.0..3000.0, 1.0..8000.0)) {
        let row = Span { from: row.0, to: row.0 + row.1 };
        let mut before = 0.0;
        for n in 0..=laid.len() {
            let c = cover_of(laid[..n].to_vec(), row);
            prop_assert!(c.filled >= before - 1e-9);
            before = c.filled;
        }
        // Nor does the order of the wood matter.
        let mut other = laid.clone();
        other.reverse();
        let (a, b) = (cover_of(laid, row), cover_of(other, row));
        let places = |s: &[cordonry::cover::Stretch]| s.iter().map(|s| s.span).collect::<Vec<_>>();
        prop_assert_eq!(places(&a.gaps), places(&b.gaps));
        prop_assert_eq!(places(&a.overlaps), places(&b.overlaps));
    }

    #[test]
    fn a_rows_cover_adds_up(plan in plan(), drafts in drafts(6)) {
        let plan = worked(&plan, &drafts);
        for moment in moments(&plan) {
            let row = at(&plan, moment).row;
            let c = cover(&row, &plan.targets);
            adds_up(&c, Span { from: row.from.f(), to: row.to.f() })?;
        }
    }

    #[test]
    fn only_wood_in_the_band_covers(plan in plan(), drafts in drafts(6)) {
        let plan = worked(&plan, &drafts);
        let row = at(&plan, *moments(&plan).last().unwrap()).row;
        let g = Geometry::of(&row, &plan.targets);
        let top = g.wire + plan.targets.get(Limit::CordonBand);
        for laid in cover(&row, &plan.targets).laid {
            let (tree, shoot) = row.shoot(laid.tree, laid.shoot).unwrap();
            let course = layout(tree, g)[tree.index(shoot.id).unwrap()];
            prop_assert!(shoot.pose.is_laid() && laid.span.length() > 0.0);
            // The bend is measured to its corner, which the wood itself does not reach.
            let ends = [course.base.x, course.corner().x, course.tip().x];
            let reach = ends.iter().fold((f64::MAX, f64::MIN), |r, x| (r.0.min(*x), r.1.max(*x)));
            prop_assert!(laid.span.from >= reach.0 - 1e-6 && laid.span.to <= reach.1 + 1e-6);
            let lowest = (0..=1000)
                .map(|k| course.point(course.length * f64::from(k) / 1000.0).y)
                .fold(f64::MAX, f64::min);
            prop_assert!(lowest <= top, "{} above {}", lowest, top);
        }
    }

    #[test]
    fn a_mirrored_row_has_mirrored_cover(plan in plan()) {
        // A free shoot on wood that stands quite straight has no side of its own, so it has no mirror image.
        let free = plan.found.trees.iter().any(|t| {
            let above = |s: &Shoot| s.parent.and_then(|p| t.index(p));
            t.shoots.iter().filter(|s| s.pose.is_laid()).any(|s| {
                std::iter::successors(above(s), |i| above(&t.shoots[*i]))
                    .any(|i| i > 0 && t.shoots[i].pose == Pose::Free)
            })
        });
        if free {
            return Ok(());
        }
        let other = mirrored(&plan.found);
        prop_assert_eq!(&mirrored(&other), &*plan.found);
        let a = cover(&plan.found, &plan.targets);
        let b = cover(&other, &plan.targets);
        prop_assert!(near(a.owed, b.owed));
        prop_assert!(near(a.filled, b.filled), "{:#?} and mirrored {:#?}", a.laid, b.laid);
        for (there, here) in [(&a.gaps, &b.gaps), (&a.overlaps, &b.overlaps)] {
            // A stretch that is just at the shortest may fall either way.
            let sure = |s: &&cordonry::cover::Stretch| s.span.length() > LEAST + 1e-3;
            let there: Vec<_> = there.iter().filter(sure).collect();
            let here: Vec<_> = here.iter().rev().filter(sure).collect();
            prop_assert_eq!(there.len(), here.len());
            for (s, t) in there.iter().zip(here) {
                let t = back(t.span);
                prop_assert!(near(s.span.from, t.from) && near(s.span.to, t.to));
            }
        }
    }

    #[test]
    fn a_course_is_as_long_as_its_shoot(plan in plan()) {
        let g = Geometry::of(&plan.found, &plan.targets);
        for tree in &plan.found.trees {
            for (shoot, course) in tree.shoots.iter().zip(layout(tree, g)) {
                prop_assert_eq!(course.length, shoot.length());
                // A fine polyline over the course, and the path that is drawn, have that length too.
                let steps = 4000;
                let point = |k: i32| course.point(course.length * f64::from(k) / f64::from(steps));
                let walked: f64 = (0..steps).map(|k| (point(k + 1) - point(k)).hypot()).sum();
                prop_assert!((walked - course.length).abs() < 0.05 + course.length / f64::from(steps), "{} of {:?}", walked, course);
                let path = course.path(0.01);
                let drawn: f64 = path.segments().map(|s| s.arclen(1e-3)).sum();
                prop_assert!((drawn - course.length).abs() < 0.1 + course.length * 1e-4, "{} of {:?}", drawn, course);
                let end = path.segments().last().map_or(course.base, |s| s.eval(1.0));
                prop_assert!((end - course.tip()).hypot() < 1e-6);
            }
        }
    }

    #[test]
    fn a_place_along_the_row_is_on_the_wood(plan in plan(), share in 0.0..=1.0) {
        let g = Geometry::of(&plan.found, &plan.targets);
        for tree in &plan.found.trees {
            for course in layout(tree, g) {
                // Wherever the wood is, it is found there; the place that is found is there.
                let x = course.point(course.length * share).x;
                match course.at_x(x) {
                    Some(s) => {
                        prop_assert!((0.0..=course.length).contains(&s));
                        prop_assert!((course.point(s).x - x).abs() < 0.01, "{} at {}: {:?}", x, s, course);
                    }
                    None => prop_assert!(false, "{} is on {:?}", x, course),
                }
                let reach = course.length + 1.0;
                prop_assert_eq!(course.at_x(course.base.x + reach), None);
                prop_assert_eq!(course.at_x(course.base.x - reach), None);
            }
        }
    }

    #[test]
    fn a_shoot_rides_on_its_parent(plan in plan(), drafts in drafts(4)) {
        let plan = worked(&plan, &drafts);
        let row = at(&plan, *moments(&plan).last().unwrap()).row;
        let g = Geometry::of(&row, &plan.targets);
        for tree in &row.trees {
            let courses = layout(tree, g);
            for (shoot, course) in tree.shoots.iter().zip(&courses) {
                prop_assert!(course.tip().is_finite() && course.base.is_finite());
                match shoot.parent.and_then(|p| tree.index(p)) {
                    Some(p) => prop_assert_eq!(course.base, courses[p].point(shoot.at)),
                    None => prop_assert_eq!(course.base, Point::new(tree.foot.f(), 0.0)),
                }
            }
        }
    }

    #[test]
    fn a_drag_finds_the_nearest_pose(
        plan in plan(), tree in any::<Index>(), shoot in any::<Index>(),
        heading in -10.0..190.0, aim in -180.0..180.0, off in prop_oneof![0.0..5.0, 0.0..6000.0],
    ) {
        let Some((tree, index)) = picked(&plan, tree, shoot) else { return Ok(()); };
        let g = Geometry::of(&plan.found, &plan.targets);
        let angle = f64::to_radians(aim);
        // Aimed at a place that the tip can reach, or off it by so much. What is bent anew has the radius of its thickness.
        let bent = |pose: Pose| {
            let mut trial = Tree::clone(&tree);
            trial.shoots[index].pose = pose;
            trial.shoots[index].bend_radius = None;
            trial
        };
        let there = bent(Pose::from_heading(heading));
        let target = layout(&there, g)[index].tip() + kurbo::Vec2::new(angle.cos(), angle.sin()) * off;
        let miss = |pose: Pose| (layout(&bent(pose), g)[index].tip() - target).hypot();
        let pose = bend_toward(&Posed::new(tree.clone(), g), index, target, false);
        let (least, best) = (-100..=1900)
            .map(|tenth| Pose::from_heading(f64::from(tenth) / 10.0))
            .map(|pose| (miss(pose), pose))
            .min_by(|a, b| a.0.total_cmp(&b.0))
            .unwrap();
        prop_assert!(
            miss(pose) <= least + 1.0,
            "{} mm off with {:?}, {} with {:?}: {:?}", miss(pose), pose, least, best, layout(&tree, g)[index]
        );
        // What a drag gives can be done, with or without the snap.
        for snap in [false, true] {
            let subject = (tree.id, tree.shoots[index].id);
            let work = match bend_toward(&Posed::new(tree.clone(), g), index, target, snap) {
                Pose::Laid { toward, rise } => Work::Lay { tree: subject.0, shoot: subject.1, toward, rise_deg: rise },
                Pose::Upright { lean } => Work::Stand { tree: subject.0, shoot: subject.1, lean_deg: lean },
                other => panic!("a drag gave {other:?}"),
            };
            let grown = !tree.shoots[index].units.is_empty();
            prop_assert_eq!(apply(&plan.found, plan.start(), &plan.terms(&plan.found.trellis), &work).is_ok(), grown);
        }
    }
}

#[test]
fn a_drag_of_nothing_is_no_pose() {
    let tree = wood::tree(1, 0, 45.0, Toward::Left, Vec::new());
    let g = Geometry::at(500.0, &Targets::default());
    assert_eq!(
        bend_toward(
            &Posed::new(Arc::new(tree), g),
            3,
            Point::new(0.0, 0.0),
            true
        ),
        Pose::Free
    );
}

/// What a shoot laid to the right covers that grows from the tip of a bare stand, `height` mm above the ground; the
/// wire is at 500 mm, its wood bears from there, and the band ends at 650 mm.
fn covers(height: f64, rise: f64, length: f64) -> Option<Span> {
    let row = cordonry_fixture::table(&format!(
        "row from,-1 m
         row to,5 m
         1,0,stem,,{height},none,right,planted 90 free,1
         1,along {height},leader,stem,{length},none,right,laid {rise},1",
    ));
    cover(&row, &Default::default())
        .laid
        .first()
        .map(|l| l.span)
}

#[test]
fn wood_on_above_and_below_the_wire() {
    let check = |height: f64, rise: f64, expected: Option<(f64, f64)>| {
        let got = covers(height, rise, 1000.0).map(|s| (s.from, s.to));
        let same = match (got, expected) {
            (Some(g), Some(e)) => (g.0 - e.0).abs() < 0.1 && (g.1 - e.1).abs() < 0.1,
            (g, e) => g == e,
        };
        assert!(same, "at {height}, rise {rise}: {got:?}, not {expected:?}");
    };
    // On the wire, be it a hair or a hand's breadth below: all of it bears.
    for height in [500.0, 500.0 - 1e-9, 499.0, 481.0] {
        check(height, 0.0, Some((0.0, 1000.0)));
        check(height, -0.1, Some((0.0, 1000.0)));
    }
    // In the band above the wire, and beyond it: 1000 cos 10° = 984.8.
    check(650.0, 0.0, Some((0.0, 1000.0)));
    check(651.0, 0.0, None);
    check(1400.0, 0.0, None);
    check(1400.0, -10.0, None);
    // It droops into the band 100/tan 10° = 567.1 on.
    check(750.0, -10.0, Some((567.1, 984.8)));
    // It rises out of the band 100/tan 10° on.
    check(550.0, 10.0, Some((0.0, 567.1)));
}

#[test]
fn rounding_does_not_part_a_stretch() {
    let laid = |n: u32, from: f64, to: f64| Laid {
        tree: TreeId(n),
        shoot: ShootId::STEM,
        span: Span { from, to },
    };
    let hair = 1e-12;
    let row = Span {
        from: 0.0,
        to: 3000.0,
    };
    let gaps = cover_of(vec![laid(1, 1000.0, 1000.0 + hair)], row).gaps;
    assert_eq!(gaps.len(), 1);
    assert_eq!(gaps[0].span, row);
    let wood = [
        laid(1, 0.0, 3000.0),
        laid(2, 500.0, 1000.0),
        laid(3, 1000.0 + hair, 2000.0),
    ];
    let overlaps = cover_of(wood.to_vec(), row).overlaps;
    assert_eq!(overlaps.len(), 1);
    assert!(near(overlaps[0].span.length(), 1500.0));
}
