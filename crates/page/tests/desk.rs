//! The desk without a browser: dragging, undo, before and after, many at once, messages.

use cordonry::check::{Context, Remedy, check_light};
use cordonry::file::{read_plan, write_plan};
use cordonry::light::Foliage;
use cordonry::light::row_light::report;
use cordonry::plan::{Replayer, Setting};
use cordonry::row::{Limit, ShootId, Toward, TreeId};
use cordonry::units::{Deg, Mm};
use cordonry::work::{Sweep, Work};
use cordonry_page::desk::Desk;
use cordonry_page::message::{Ask, Body, Question, answer};
use kurbo::Point;

fn desk() -> Desk {
    let text = include_str!("../../../examples/third-leaf.json");
    Desk::new(read_plan(text.as_bytes()).expect("the example is read"))
}

const TREE: TreeId = TreeId(5);

/// The end shoot of the example's short tree, which closes the gap when it is laid.
const END: ShootId = ShootId::found(1);

fn gaps(desk: &Desk) -> usize {
    desk.findings
        .iter()
        .filter(|f| f.rule == "cordon-gap")
        .count()
}

#[test]
fn a_drag_closes_the_gap_while_it_goes_on_and_is_one_step() {
    let mut desk = desk();
    let before = write_plan(desk.plan());
    assert_eq!(gaps(&desk), 1);
    assert!(desk.drag_begin(TREE, END));
    let base = desk.course(TREE, END).expect("it is there").base;
    for degrees in [70.0_f64, 40.0, 20.0, 0.0] {
        let a = degrees.to_radians();
        desk.drag_to(
            Point::new(base.x + 512.0 * a.cos(), base.y + 512.0 * a.sin()),
            true,
        );
    }
    assert_eq!(
        gaps(&desk),
        0,
        "the finding is gone with the tip in the hand"
    );
    assert!(desk.take_changes().trees.iter().all(|t| *t == TREE));
    desk.drag_end();
    let after = write_plan(desk.plan());
    assert_ne!(after, before);
    assert_eq!(desk.undo().as_deref(), Some("step-bend"));
    assert_eq!(write_plan(desk.plan()), before);
    assert_eq!(gaps(&desk), 1);
    assert_eq!(desk.redo().as_deref(), Some("step-bend"));
    assert_eq!(write_plan(desk.plan()), after);
}

#[test]
fn a_drag_that_is_dropped_leaves_nothing() {
    let mut desk = desk();
    let before = write_plan(desk.plan());
    desk.drag_begin(TREE, END);
    desk.drag_to(Point::new(9_000.0, 500.0), true);
    desk.drop_drag();
    assert_eq!(write_plan(desk.plan()), before);
    assert_eq!(desk.steps(), (None, None));
}

#[test]
fn a_bud_is_kept_at_the_place_pressed_and_chosen() {
    let mut desk = desk();
    let laid = desk.cover.laid[0];
    let x = desk
        .widest_space(laid.tree, laid.shoot)
        .expect("there is room");
    desk.keep_bud(laid.tree, laid.shoot, x)
        .expect("a bud is kept");
    let bud = desk.chosen.expect("the bud is chosen");
    let course = desk
        .course(bud.tree, bud.shoot.expect("a shoot"))
        .expect("it is there");
    assert!((course.base.x - x).abs() < 1.0);
    // Off the wood nothing is kept, and nothing is lost.
    assert!(desk.keep_bud(laid.tree, laid.shoot, -5_000.0).is_err());
    assert!(desk.chosen.is_some());
}

#[test]
fn before_shows_the_row_without_the_work_of_the_moment_and_work_comes_back_to_after() {
    let mut desk = desk();
    assert!(!desk.works().is_empty());
    let after = desk.row.clone();
    desk.show_before(true);
    assert_ne!(desk.row, after);
    assert_eq!(*desk.row.row(), *desk.plan().found);
    desk.work(
        "step-lay",
        vec![Work::Lay {
            tree: TREE,
            shoot: END,
            toward: Toward::Right,
            rise_deg: Deg::default(),
        }],
    )
    .expect("it can be laid");
    assert!(!desk.is_before());
    assert_eq!(gaps(&desk), 0);
}

#[test]
fn many_at_once_is_one_step_and_leaves_out_what_cannot_be_done() {
    let mut desk = desk();
    let before = write_plan(desk.plan());
    let stub = |tree: u32, shoot: u32| {
        let work = Work::Stub {
            tree: TreeId(tree),
            shoot: ShootId::found(shoot),
            keep_mm: Mm::round(desk_limit()),
        };
        Remedy::new("remedy-stub", Vec::new(), vec![work])
    };
    let done = desk
        .mend_each("step-remedies", &[stub(2, 2), stub(2, 999), stub(6, 3)])
        .expect("some can be done");
    assert_eq!(done, 2);
    desk.undo();
    assert_eq!(write_plan(desk.plan()), before);
    assert!(desk.mend("step-remedies", &stub(2, 999)).is_err());
}

#[test]
fn a_wall_too_tall_is_lowered_with_its_uprights_in_one_step() {
    // The example's uprights stand up to 1.7 m.
    let near = desk()
        .plan()
        .with_setting(Setting::RowSpacing, Some(1500.0));
    let mut desk = Desk::new(near.expect("in range"));
    let before = write_plan(desk.plan());
    let tall = |desk: &Desk| {
        let found = desk.all_findings();
        found
            .into_iter()
            .find(|f| f.rule == "wall-too-tall")
            .cloned()
    };
    let remedy = tall(&desk).expect("2.50 m at 1.50 m").remedies[0].clone();
    assert!(!remedy.work.is_empty());
    desk.mend("step-remedy", &remedy).expect("it can be done");
    assert_eq!(tall(&desk), None);
    assert_eq!(desk.row.trellis.wall_height, Mm(1500));
    let above = |desk: &Desk| desk.findings.iter().any(|f| f.rule == "above-wall");
    assert!(!above(&desk));
    desk.undo();
    assert_eq!(write_plan(desk.plan()), before);
}

fn desk_limit() -> f64 {
    Limit::StubLength.info().default
}

#[test]
fn a_message_is_answered_with_its_own_generation() {
    let desk = desk();
    let ask = |question, plan: String| Ask {
        generation: 41,
        plan,
        scheme: 0,
        question,
    };
    let season = answer(&ask(Question::Season, write_plan(desk.plan())));
    assert_eq!(season.generation, 41);
    let Body::Season(counts) = season.body else {
        panic!("{season:?}");
    };
    assert_eq!(counts.len(), 4);
    assert_eq!(counts[0].findings as usize, desk.findings.len());
    let refused = answer(&ask(Question::Digest, "{".into()));
    assert!(matches!(refused.body, Body::Refused(_)), "{refused:?}");
}

#[test]
fn the_record_is_the_row_as_found_and_no_work() {
    let mut desk = desk();
    let stub = Work::Stub {
        tree: TREE,
        shoot: ShootId::found(2),
        keep_mm: Mm(150),
    };
    desk.work("step-stub", vec![stub.clone()])
        .expect("it can be stubbed");
    let planned = desk.plan().schemes.clone();
    desk.correct_record(true);
    assert_eq!(*desk.row.row(), *desk.plan().found);
    assert!(desk.works().is_empty());
    assert!(desk.work("step-stub", vec![stub]).is_err());

    // A drag corrects how the shoot was found, in one step.
    assert!(desk.drag_begin(TREE, END));
    let base = desk.course(TREE, END).expect("it is there").base;
    desk.drag_to(Point::new(base.x + 512.0, base.y), true);
    desk.drag_end();
    assert_eq!(gaps(&desk), 0);
    let (_, found) = desk.plan().found.shoot(TREE, END).expect("it is there");
    assert!(found.pose.is_laid());
    assert_eq!(desk.plan().schemes, planned);
    assert_eq!(desk.undo().as_deref(), Some("step-correct"));
    assert_eq!(gaps(&desk), 1);

    // What is added is chosen, and goes with one undo.
    desk.record_tree(1234.0).expect("there is room");
    let new = desk.chosen.expect("it is chosen").tree;
    assert_eq!(desk.row.tree(new).map(|t| t.foot), Some(Mm(1234)));
    assert_eq!(desk.undo().as_deref(), Some("step-found-tree"));
    assert!(desk.row.tree(new).is_none() && desk.chosen.is_none());

    desk.look_at(desk.moment());
    assert!(!desk.correcting());
    assert_eq!(
        desk.works().len(),
        desk.plan().schemes[0].work(desk.moment()).count()
    );
}

#[test]
fn work_on_many_is_one_step() {
    let mut desk = Desk::new(cordonry_page::bench_row::plan(100, 12));
    let works = desk.swept(Sweep::Height(Mm(1600)), |_| true);
    assert_eq!(works.len(), 12 * 100);
    desk.work("step-many", works).expect("all can be cut");
    assert_eq!(desk.undo().as_deref(), Some("step-many"));
    assert_eq!(desk.undo(), None);
}

#[test]
fn what_was_found_of_the_light_waits_once_the_row_has_changed() {
    let mut desk = desk();
    let season = cordonry::light::Period::growing_season(45.0);
    let judge = |desk: &mut Desk| {
        let plan = desk.plan();
        let leaves = Foliage::new(&desk.row, &plan.site, &plan.targets, 1.0);
        let light = report(&leaves, &plan.targets, season);
        let found = check_light(
            &Context::found(&desk.row, &desk.terms, &plan.targets),
            &light,
        );
        assert!(!found.is_empty());
        desk.judge_light(found);
    };
    let waiting = |desk: &Desk| {
        let all = desk.all_findings();
        let waits = all.iter().filter(|f| desk.is_out_of_date(f));
        waits.count()
    };
    judge(&mut desk);
    assert_eq!(waiting(&desk), 0);
    let stub = Work::Stub {
        tree: TreeId(2),
        shoot: ShootId::found(2),
        keep_mm: Mm(150),
    };
    desk.work("step-stub", vec![stub]).expect("it can be done");
    let all = desk.all_findings();
    let of_light = all.len() - desk.findings.len();
    assert!(of_light > 0);
    assert_eq!(waiting(&desk), of_light);
    judge(&mut desk);
    assert_eq!(waiting(&desk), 0);
    // Another limit changes them too, choosing does not.
    desk.chosen = None;
    assert_eq!(waiting(&desk), 0);
    let plan = desk
        .plan()
        .with_limit(Limit::LightTarget, Some(0.2))
        .expect("in range");
    desk.set("step-limit", plan);
    assert!(waiting(&desk) > 0);
}

#[test]
fn what_is_shown_is_the_row_on_the_wall() {
    let mut desk = desk();
    let check = |desk: &Desk| {
        let mut replayer = Replayer::default();
        let (plan, moment) = (desk.plan(), desk.shown_moment());
        let there = match desk.correcting() {
            true => replayer.found(plan),
            false => replayer
                .at(plan, desk.scheme(), moment, desk.phase())
                .expect("it replays"),
        };
        assert_eq!(there.row, desk.row);
    };
    check(&desk);
    desk.show_before(true);
    check(&desk);
    // What is refused leaves the view as it was.
    let stub = Work::Stub {
        tree: TreeId(2),
        shoot: ShootId::found(999),
        keep_mm: Mm(150),
    };
    assert!(desk.work("step-stub", vec![stub.clone()]).is_err());
    assert!(desk.is_before());
    check(&desk);
    let remedy = Remedy::new("remedy-stub", Vec::new(), vec![stub]);
    assert!(desk.mend("step-remedy", &remedy).is_err());
    assert!(desk.is_before());
    check(&desk);
    desk.correct_record(true);
    check(&desk);
    assert_eq!(*desk.row.row(), *desk.plan().found);
    desk.correct_record(false);
    check(&desk);
}
