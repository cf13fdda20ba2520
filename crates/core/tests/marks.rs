//! Marks on the wall: they go to wood that is near, ride along with it through the seasons, and stay where it is gone.

use cordonry::file::link::{link_to, write_link};
use cordonry::file::{fingerprint, sent_copy, write_plan};
use cordonry::plan::{Mark, MarkShape, Moment, Pin, Plan, replay};
use cordonry::pose::PosedRow;
use cordonry::row::Role;
use cordonry::units::Mm;
use cordonry::work::Work;
use cordonry_fixture::random;
use cordonry_fixture::seasons::Usual;
use kurbo::{Point, Vec2};
use proptest::prelude::*;

fn row(plan: &Plan, leaf: u8) -> PosedRow {
    replay(plan, 0, Moment::dormant(leaf)).unwrap().row
}

fn note(at: Pin, text: &str) -> Mark {
    Mark {
        kind: MarkShape::Note,
        at,
        to: None,
        text: text.into(),
    }
}

#[test]
fn a_pin_goes_to_wood_that_is_near_and_else_to_the_wall() {
    let plan = Usual::default().plan(3).with_all_standing();
    let row = row(&plan, 4);
    for posed in row.posed() {
        for (shoot, course) in posed.pairs().filter(|(_, c)| c.length > 300.0) {
            let middle = course.point(course.length / 2.0);
            let pin = Pin::near(middle, &row);
            let on = pin.on.expect("wood is there");
            assert!(pin.on(&row).is_there);
            assert!(pin.on(&row).point.distance(middle) < 1.0, "{shoot:?}");
            // Where wood crosses, it is one of those that cross.
            assert_eq!(row.of_tree(on.tree).unwrap().tree().id, on.tree);
        }
    }
    let high = Point::new(row.posed()[0].tree().foot.f(), 9_000.0);
    let pin = Pin::near(high, &row);
    assert_eq!(pin, Pin::wall(Mm::round(high.x), Mm(9_000)));
    assert_eq!(pin.on(&row).point, high);
}

proptest! {
    #[test]
    fn the_nearest_place_of_a_shoot_is_the_nearest_of_a_thousand(
        row in random::row(),
        dx in -300.0..300.0,
        dz in -300.0..300.0,
    ) {
        let row = PosedRow::of(&row, &Default::default());
        for course in row.posed().iter().flat_map(|p| p.courses()) {
            for from in [course.base, course.corner(), course.tip()] {
                let to = from + Vec2::new(dx, dz);
                let (off, along) = course.nearest(to);
                let tried = (0..=1_000).map(|n| course.length * f64::from(n) / 1_000.0);
                let least = tried
                    .map(|s| course.point(s).distance(to))
                    .fold(f64::INFINITY, f64::min);
                prop_assert!(off <= least + 1e-6, "{off} of {least}");
                prop_assert!((course.point(along).distance(to) - off).abs() < 1e-6);
            }
        }
    }
}

#[test]
fn a_mark_rides_along_with_its_wood_and_tells_when_that_is_gone() {
    let plan = Usual::default().plan(3).with_all_standing();
    let before = row(&plan, 4);
    let posed = &before.posed()[0];
    let roles = posed.tree().roles();
    let upright = posed.pairs().zip(roles).find(|(_, r)| *r == Role::Upright);
    let ((shoot, course), _) = upright.expect("an upright");
    let pin = Pin::near(course.point(course.length * 0.9), &before);
    assert_eq!(pin.on.unwrap().shoot, shoot.id);
    let marked = plan.with_mark(None, &note(pin, "too thick")).unwrap();
    // A season on it is on the same wood, wherever that is by then.
    let later = row(&marked, 5);
    let now = marked.marks[0].at.on(&later);
    let of = later.of_tree(posed.tree().id).unwrap();
    if let Some((_, course)) = of.pairs().find(|(s, _)| s.id == shoot.id) {
        assert!(course.nearest(now.point).0 < 1.0);
    }
    // Stubbed, it is at the end of what is left, and says that its wood is not there.
    let stub = Work::Stub {
        tree: posed.tree().id,
        shoot: shoot.id,
        keep_mm: Mm(20),
    };
    let moment = Moment::dormant(4);
    let cut = marked.with_work(0, moment, stub).unwrap();
    let after = replay(&cut, 0, Moment::dormant(4)).unwrap().row;
    let left = cut.marks[0].at.on(&after);
    assert!(!left.is_there, "{left:?}");
}

#[test]
fn marks_are_put_changed_and_removed_and_bad_ones_refused() {
    let plan = Usual::default().plan(2);
    let at = Pin::wall(Mm(100), Mm(500));
    let one = plan.with_mark(None, &note(at, "  a bare place ")).unwrap();
    assert_eq!(one.marks[0].text, "a bare place");
    let two = one.with_mark(None, &note(at, "second")).unwrap();
    let changed = two.with_mark(Some(0), &note(at, "first")).unwrap();
    let texts = |p: &Plan| p.marks.iter().map(|m| m.text.clone()).collect::<Vec<_>>();
    assert_eq!(texts(&changed), ["first", "second"]);
    assert_eq!(texts(&changed.without_marks(&[0]).unwrap()), ["second"]);
    let why = |mark: &Mark| plan.with_mark(None, mark).unwrap_err().key;
    assert_eq!(why(&note(at, " ")), "refusal-mark-text");
    assert_eq!(
        why(&note(at, &"x".repeat(Plan::MAX_TEXT + 1))),
        "refusal-mark-text"
    );
    let ends = Mark {
        kind: MarkShape::Arrow,
        ..note(at, "where to")
    };
    assert_eq!(why(&ends), "refusal-mark-ends");
    let changes = two.with_mark(Some(2), &note(at, "none"));
    assert_eq!(changes.unwrap_err().key, "refusal-no-mark");
    assert_eq!(two.without_marks(&[5]).unwrap_err().key, "refusal-no-mark");
    let full = Plan {
        marks: vec![note(at, "x"); Mark::MAX],
        ..plan.clone()
    };
    let more = full.with_mark(None, &note(at, "one more"));
    assert_eq!(more.unwrap_err().key, "refusal-mark-many");
}

#[test]
fn a_distance_is_measured_between_its_ends() {
    let plan = Usual::default().plan(2);
    let row = row(&plan, 2);
    let mark = Mark {
        kind: MarkShape::Distance,
        at: Pin::wall(Mm(0), Mm(600)),
        to: Some(Pin::wall(Mm(300), Mm(1_000))),
        text: String::new(),
    };
    assert_eq!(mark.span(&row), Some(500.0));
    assert_eq!(note(mark.at, "x").span(&row), None);
    assert!(plan.with_mark(None, &mark).is_ok(), "it needs no words");
}

#[test]
fn what_is_sent_is_known_again_however_it_was_changed_since() {
    let plan = Usual::default().plan(2);
    let (sent, text) = sent_copy(&plan);
    assert_eq!(text, write_plan(&sent));
    assert_eq!(sent.sent, [fingerprint(&plan)]);
    assert_eq!(fingerprint(&sent), fingerprint(&plan), "the same plan");
    assert_eq!(sent_copy(&sent).0.sent, sent.sent, "sent twice, told once");
    let mut changed = sent.clone();
    changed.note = "by the client".into();
    assert_ne!(fingerprint(&changed), fingerprint(&plan));
    let (back, text) = sent_copy(&changed);
    assert_eq!(text, write_plan(&back));
    assert_eq!(link_to(&text), write_link(&back));
    assert_eq!(back.sent, [fingerprint(&plan), fingerprint(&changed)]);
    let mut many = back;
    for n in 0..40 {
        many.note = n.to_string();
        many = sent_copy(&many).0;
    }
    assert_eq!(many.sent.len(), Plan::MAX_SENT);
    assert_eq!(many.sent.last(), Some(&fingerprint(&many)));
}
