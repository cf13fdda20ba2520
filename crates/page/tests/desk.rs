//! The desk without a browser: dragging, undo, before and after, many at once, several looks.

mod common;

use common::{END, TREE, desk, plan};
use cordonry::check::{Finding, Part, Remedy, check_light, light_rules, tried};
use cordonry::file::write_plan;
use cordonry::light::Foliage;
use cordonry::light::row_light::report;
use cordonry::plan::{Correction, Moment, Phase, Plan, Replayer, Scheme, Setting, Window};
use cordonry::refusal::Refusal;
use cordonry::row::{Kind, Limit, Shoot, ShootId, Toward, Tree, TreeId};
use cordonry::units::{Deg, Mm};
use cordonry::work::{Sweep, Work};
use cordonry_fixture::wall;
use cordonry_page::bench_row;
use cordonry_page::desk::Desk;
use cordonry_page::document::{Document, Edit, Mode};
use cordonry_page::look::{Look, Sight};
use cordonry_words::Words;
use kurbo::Point;
use std::sync::Arc;

fn gaps(desk: &Desk) -> usize {
    desk.scene()
        .findings
        .iter()
        .filter(|f| f.rule == "cordon-gap")
        .count()
}

#[test]
fn a_drag_closes_the_gap_while_it_goes_on_and_is_one_step() {
    let mut desk = desk();
    let before = write_plan(desk.plan());
    assert_eq!(gaps(&desk), 1);
    assert!(desk.take(TREE, END));
    let base = desk.scene().course(TREE, END).expect("it is there").base;
    for degrees in [70.0_f64, 40.0, 20.0, 0.0] {
        let a = degrees.to_radians();
        desk.drag(
            Point::new(base.x + 512.0 * a.cos(), base.y + 512.0 * a.sin()),
            true,
        );
    }
    assert_eq!(
        gaps(&desk),
        0,
        "the finding is gone with the tip in the hand"
    );
    assert!(desk.take_redraw().trees.iter().all(|t| *t == TREE));
    desk.let_go();
    let after = write_plan(desk.plan());
    assert_ne!(after, before);
    assert_eq!(desk.undo().as_deref(), Some("step-bend"));
    assert_eq!(write_plan(desk.plan()), before);
    assert_eq!(gaps(&desk), 1);
    assert_eq!(desk.redo().as_deref(), Some("step-bend"));
    assert_eq!(write_plan(desk.plan()), after);
}

#[test]
fn a_drag_asks_as_little_of_a_long_row_as_of_a_short_one() {
    let asked = |trees: u32| {
        let mut desk = Desk::new(bench_row::plan(trees, 10)).expect("it has a scheme");
        let whole = desk.scene().asked();
        let (tree, shoot) = (TreeId(trees / 2), ShootId::found(4));
        assert!(desk.take(tree, shoot));
        let tip = desk.scene().course(tree, shoot).expect("it is there").tip();
        desk.drag(Point::new(tip.x + 300.0, tip.y), true);
        (desk.scene().asked(), whole)
    };
    let (short, whole) = asked(40);
    assert!(0 < short && 2 * short < whole, "{short} of {whole}");
    for trees in [300, 1000] {
        let (asked, whole) = asked(trees);
        assert!(asked < short + 4, "{asked} of {whole}, {short} on 40 trees");
    }
}

#[test]
fn a_drag_that_is_dropped_leaves_nothing() {
    let mut desk = desk();
    let before = write_plan(desk.plan());
    desk.take(TREE, END);
    desk.drag(Point::new(9_000.0, 500.0), true);
    desk.drop_hold();
    assert_eq!(write_plan(desk.plan()), before);
    assert_eq!(desk.steps(), (None, None));
}

#[test]
fn a_bud_is_kept_at_the_place_pressed_and_chosen() {
    let mut desk = desk();
    let laid = desk.scene().cover.laid[0];
    let x = desk
        .scene()
        .widest_space(laid.tree, laid.shoot)
        .expect("there is room");
    assert!(desk.scene().may_press_bud(x).is_ok());
    let edit = desk.scene().keep_bud(laid.tree, laid.shoot, x);
    desk.edit(&edit.expect("it is on the wood"))
        .expect("a bud is kept");
    let bud = desk.chosen().expect("the bud is chosen");
    let course = desk
        .scene()
        .course(bud.tree, bud.shoot.expect("a shoot"))
        .expect("it is there");
    assert!((course.base.x - x).abs() < 1.0);
    // A press beside what stands there, or there already, was meant for something else.
    let half = desk.plan().targets.get(Limit::UprightSpacingMin) / 2.0;
    for beside in [x - half + 2.0, x, x + half - 2.0] {
        let why = desk.scene().may_press_bud(beside).expect_err("too near");
        assert!(Words::strict().refusal(&why).contains("75 mm"), "{why}");
    }
    // Off the wood nothing is kept, and nothing is lost.
    assert!(
        desk.scene()
            .keep_bud(laid.tree, laid.shoot, -5_000.0)
            .is_err()
    );
    assert!(desk.chosen().is_some());
}

#[test]
fn a_press_on_old_wood_notches_it_and_one_on_last_seasons_keeps_a_bud() {
    // The leader grew 1.5 m in leaf 1, half a metre of it below the wire, and as much in leaf 2.
    let units = [wall::grown(1, 1500.0), wall::grown(2, 1500.0)].concat();
    let tree = wall::upright_stem(1, 0, 3000.0).with_stem(|s| s.units = units);
    let plan = Plan::new("a row", wall::row(0, 3000, vec![tree]));
    let desk = Desk::new(plan).expect("it has a scheme");
    let scene = desk.scene();
    let laid = scene.cover.laid[0];
    for (x, notched) in [(500.0, true), (2000.0, false)] {
        let place = scene.bud_place(laid.tree, laid.shoot, x);
        let said = place.expect("it is on the wood").1;
        let work = scene.bud(laid.tree, laid.shoot, x);
        assert_eq!(
            matches!(work, Some(Work::Notch { .. })),
            notched,
            "{work:?}"
        );
        assert_eq!(said == "ghost-notch", notched, "{said}");
    }
}

#[test]
fn before_shows_the_row_without_the_work_of_the_moment_and_work_comes_back_to_after() {
    let mut desk = desk();
    assert!(!desk.scene().works().is_empty());
    let after = desk.scene().row.clone();
    desk.show(Phase::Before);
    assert_ne!(desk.scene().row, after);
    assert_eq!(*desk.scene().row.row(), *desk.plan().found);
    desk.edit(&Edit::work(
        "step-lay",
        vec![Work::Lay {
            tree: TREE,
            shoot: END,
            toward: Toward::Right,
            rise_deg: Deg::default(),
        }],
    ))
    .expect("it can be laid");
    assert!(!desk.scene().is_before());
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
        .edit(&Edit::mend_each(vec![stub(2, 2), stub(2, 999), stub(6, 3)]))
        .expect("some can be done");
    assert_eq!(done.count, 2);
    desk.undo();
    assert_eq!(write_plan(desk.plan()), before);
    assert!(desk.edit(&Edit::mend(stub(2, 999))).is_err());
}

#[test]
fn a_wall_too_tall_is_lowered_with_its_uprights_in_one_step() {
    // The example's uprights stand up to 1.7 m.
    let near = desk()
        .plan()
        .with_setting(Setting::RowSpacing, Some(1500.0));
    let mut desk = Desk::new(near.expect("in range")).expect("it has a scheme");
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
    desk.edit(&Edit::mend(remedy)).expect("it can be done");
    assert_eq!(tall(&desk), None);
    assert_eq!(desk.scene().row.trellis.wall_height, Mm(1500));
    let above = |desk: &Desk| desk.scene().findings.iter().any(|f| f.rule == "above-wall");
    assert!(!above(&desk));
    desk.undo();
    assert_eq!(write_plan(desk.plan()), before);
}

fn desk_limit() -> f64 {
    Limit::StubLength.info().default
}

#[test]
fn the_record_is_the_row_as_found_and_no_work() {
    let mut desk = desk();
    let stub = Work::Stub {
        tree: TREE,
        shoot: ShootId::found(2),
        keep_mm: Mm(150),
    };
    desk.edit(&Edit::work("step-stub", vec![stub.clone()]))
        .expect("it can be stubbed");
    let planned = desk.plan().schemes.clone();
    desk.open(Mode::Found);
    assert_eq!(*desk.scene().row.row(), *desk.plan().found);
    assert!(desk.scene().works().is_empty());
    assert!(desk.edit(&Edit::work("step-stub", vec![stub])).is_err());

    // A drag corrects how the shoot was found, in one step.
    assert!(desk.take(TREE, END));
    let base = desk.scene().course(TREE, END).expect("it is there").base;
    desk.drag(Point::new(base.x + 512.0, base.y), true);
    desk.let_go();
    assert_eq!(gaps(&desk), 0);
    let (_, found) = desk.plan().found.shoot(TREE, END).expect("it is there");
    assert!(found.pose.is_laid());
    assert_eq!(desk.plan().schemes, planned);
    assert_eq!(desk.undo().as_deref(), Some("step-correct"));
    assert_eq!(gaps(&desk), 1);

    // What is added is chosen, and goes with one undo.
    let tree = desk.scene().record_tree(1234.0);
    desk.edit(&tree).expect("there is room");
    let new = desk.chosen().expect("it is chosen").tree;
    assert_eq!(desk.scene().row.tree(new).map(|t| t.foot), Some(Mm(1234)));
    assert_eq!(desk.undo().as_deref(), Some("step-found-tree"));
    assert!(desk.scene().row.tree(new).is_none() && desk.chosen().is_none());

    desk.look_at(desk.look().moment);
    assert_eq!(desk.mode(), Mode::Work);
    assert_eq!(
        desk.scene().works().len(),
        desk.plan().schemes[0].work(desk.look().moment).count()
    );
}

#[test]
fn work_that_stands_is_listed_and_what_is_done_beside_it_plans_its_window() {
    let planned = plan();
    let leaf = planned.found.leaf + 1;
    let moment = Moment::dormant(leaf);
    let expected = planned.work_at(0, moment).expect("there is a scheme");
    assert!(expected.len() > 10, "{}", expected.len());
    let mut desk = Desk::new(planned.clone()).expect("it has a scheme");
    // In the found leaf nothing is done but what was planned.
    assert_eq!(desk.scene().standing, None);
    assert_eq!(
        desk.scene().work().count(),
        planned.schemes[0].work(planned.start()).count()
    );

    for phase in [Phase::Before, Phase::After] {
        desk.look_at(moment);
        desk.show(phase);
        assert_eq!(desk.scene().standing.as_ref(), Some(&expected));
        assert_eq!(desk.scene().works(), expected);
    }
    let tip = expected
        .iter()
        .find(|w| matches!(w, Work::Tip { .. } | Work::HoldHeight { .. }));
    let tip = tip.expect("uprights are tipped or held").clone();
    let part = Part {
        tree: tip.tree().expect("on a tree"),
        shoot: Some(tip.subject().shoot),
    };
    assert!(desk.scene().works_on(part).contains(&tip));

    // One piece is taken back: the others are planned now.
    let stored =
        |desk: &Desk| -> Vec<Work> { desk.plan().schemes[0].work(moment).cloned().collect() };
    desk.edit(&Edit::take_back(vec![tip.clone()]))
        .expect("it is there");
    let rest: Vec<Work> = expected.iter().filter(|w| **w != tip).cloned().collect();
    assert_eq!(desk.scene().standing, None);
    assert_eq!(desk.scene().works(), rest);
    assert_eq!(stored(&desk), rest);
    assert_eq!(desk.undo().as_deref(), Some("step-take-back"));
    assert_eq!(**desk.plan(), planned);
    assert_eq!(desk.scene().standing.as_ref(), Some(&expected));

    // So with a piece that is done beside it, and with a tip that is dragged.
    let (tree, shoot) = (part.tree, tip.subject().shoot);
    let remove = Work::Remove { tree, shoot };
    desk.edit(&Edit::work("step-remove", vec![remove.clone()]))
        .expect("it is there");
    let elsewhere = |w: &&Work| w.subject().tree != Some(tree) || w.subject().shoot != shoot;
    let others = expected.iter().filter(elsewhere).count();
    assert_eq!(stored(&desk).iter().filter(elsewhere).count(), others);
    assert!(stored(&desk).contains(&remove));
    assert_eq!(desk.undo().as_deref(), Some("step-remove"));
    assert!(desk.take(tree, shoot));
    let base = desk.scene().course(tree, shoot).expect("it is there").base;
    desk.drag(Point::new(base.x + 200.0, base.y + 600.0), false);
    desk.let_go();
    assert!(stored(&desk).len() > others);
    assert_eq!(stored(&desk).iter().filter(elsewhere).count(), others);
    assert_eq!(desk.undo().as_deref(), Some("step-bend"));
    assert_eq!(**desk.plan(), planned);

    // While the record is open there is no work.
    desk.open(Mode::Found);
    assert_eq!(
        (desk.scene().works(), desk.scene().standing.clone()),
        (vec![], None)
    );
}

#[test]
fn a_limit_that_a_scheme_has_a_rule_for_is_set_in_the_scheme() {
    let begun = plan();
    let targets = begun.targets.clone();
    let mut desk = Desk::new(begun).expect("it has a scheme");
    let due = |desk: &Desk| {
        let found = desk.scene().findings.iter();
        found.filter(|f| f.rule == "renewal-due").count()
    };
    assert!(desk.plan().found.leaf == 3 && due(&desk) > 0);
    desk.edit(&Edit::limit(Limit::RenewalLeaf, Some(4.0)))
        .expect("it is in range");
    assert_eq!(due(&desk), 0);
    assert_eq!(desk.scene().targets.get(Limit::RenewalLeaf), 4.0);
    assert_eq!(desk.plan().targets, targets);
    // So it is while the record is open.
    desk.open(Mode::Found);
    assert_eq!(due(&desk), 0);
    desk.edit(&Edit::default_limits())
        .expect("there is a scheme");
    assert!(due(&desk) > 0);
}

#[test]
fn work_on_many_is_one_step() {
    let made = cordonry_page::bench_row::plan(100, 12);
    let mut desk = Desk::new(made).expect("it has a scheme");
    let works = desk.swept(Sweep::Height(Mm(1600)), |_| true);
    assert_eq!(works.len(), 1200);
    desk.edit(&Edit::work("step-many", works))
        .expect("all can be cut");
    assert_eq!(desk.undo().as_deref(), Some("step-many"));
    assert_eq!(desk.undo(), None);
}

#[test]
fn the_thickest_uprights_of_each_tree_are_stubbed_as_many_as_asked() {
    let desk = desk();
    let scene = desk.scene();
    let trees = scene.row.trees.iter();
    let uprights = |tree: &Tree| {
        let mut all: Vec<_> = tree.uprights().map(|s| (s.diameter, s.id)).collect();
        all.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        all.into_iter().map(|(_, id)| id).collect::<Vec<_>>()
    };
    for count in [0u8, 1, 3] {
        let mut expected = Vec::new();
        for tree in trees.clone() {
            let all = uprights(tree);
            expected.extend(all.into_iter().take(count.into()).map(|id| (tree.id, id)));
        }
        expected.sort();
        let works = desk.swept(Sweep::Largest(count, Mm(150)), |_| true);
        let mut stubbed: Vec<_> = works
            .iter()
            .map(|w| (w.tree().expect("of a tree"), w.subject().shoot))
            .collect();
        stubbed.sort();
        assert_eq!(stubbed, expected);
        assert!(works.iter().all(|w| matches!(
            w,
            Work::Stub {
                keep_mm: Mm(150),
                ..
            }
        )));
    }
}

#[test]
fn what_was_found_of_the_light_waits_once_the_row_has_changed() {
    let mut desk = desk();
    let season = cordonry::light::Period::growing_season(45.0);
    let judge = |desk: &mut Desk| {
        let plan = desk.plan();
        let leaves = Foliage::new(&desk.scene().row, &desk.scene().terms, &plan.targets, 1.0);
        let light = report(&leaves, &plan.targets, season);
        let found = check_light(&desk.scene().context(), &light, &desk.scene().findings);
        assert!(!found.findings.is_empty());
        desk.judge_light(found);
    };
    let waiting = |desk: &Desk| {
        let all = desk.all_findings();
        let of_light = |f: &&&Finding| light_rules().any(|r| r == f.rule);
        let waits = all.iter().filter(of_light);
        waits.filter(|f| desk.is_out_of_date(f)).count()
    };
    judge(&mut desk);
    assert_eq!(waiting(&desk), 0);
    let stub = Work::Stub {
        tree: TreeId(2),
        shoot: ShootId::found(2),
        keep_mm: Mm(150),
    };
    desk.edit(&Edit::work("step-stub", vec![stub]))
        .expect("it can be done");
    let all = desk.all_findings();
    let of_light = all.len() - desk.scene().findings.len();
    assert!(of_light > 0);
    assert_eq!(waiting(&desk), of_light);
    judge(&mut desk);
    assert_eq!(waiting(&desk), 0);
    // Another limit changes them too, choosing does not.
    desk.choose(None);
    assert_eq!(waiting(&desk), 0);
    desk.edit(&Edit::limit(Limit::LightTarget, Some(0.2)))
        .expect("in range");
    assert!(waiting(&desk) > 0);
}

/// Has the remedies of what is found tried, as the helper does.
fn try_all(desk: &mut Desk) {
    let (plan, look) = (Arc::clone(desk.plan()), desk.look());
    let at = look
        .replayed(&plan, Mode::Work, &mut Replayer::default())
        .expect("a scheme");
    desk.take_offers(
        &tried(&plan, look.scheme, &at, &desk.scene().findings),
        Vec::new(),
    );
}

#[test]
fn remedies_wait_until_they_are_tried() {
    let mut desk = desk();
    let waiting = |desk: &Desk| {
        let all = desk.all_findings();
        all.iter().filter(|f| desk.is_out_of_date(f)).count()
    };
    assert_eq!(waiting(&desk), desk.scene().findings.len());
    try_all(&mut desk);
    assert_eq!(waiting(&desk), 0);
    let offered = |desk: &Desk| -> Vec<Remedy> {
        let all = desk.all_findings();
        all.iter().flat_map(|f| f.remedies.clone()).collect()
    };
    let before = offered(&desk);
    assert!(!before.is_empty());
    // The same look at the same plan is not asked about again.
    desk.show(desk.look().phase);
    assert_eq!((waiting(&desk), offered(&desk)), (0, before.clone()));
    desk.edit(&Edit::mend(before[0].clone()))
        .expect("what is offered can be done");
    assert_eq!(waiting(&desk), desk.scene().findings.len());
    let listed = |desk: &Desk| -> Vec<Remedy> {
        let all = desk.all_findings();
        all.iter().flat_map(|f| desk.remedies(f).to_vec()).collect()
    };
    assert!(before.iter().any(|r| listed(&desk).contains(r)));
    try_all(&mut desk);
    assert!(!offered(&desk).contains(&before[0]));
    assert_eq!(listed(&desk), offered(&desk));
    // What was tried and left out does not come and go again with the next change: what stands lists what it had.
    let next = offered(&desk).swap_remove(0);
    desk.take_offers(&[], Vec::new());
    desk.edit(&Edit::mend(next)).expect("it can be done");
    assert!(listed(&desk).len() < offered(&desk).len());
}

/// Seen before its work, what is planned at that moment is no remedy that was tried in vain.
#[test]
fn what_the_work_of_the_moment_mends_is_planned() {
    let mut desk = desk();
    desk.show(Phase::Before);
    try_all(&mut desk);
    let all = desk.all_findings();
    let found = all.iter().find(|f| !f.remedies.is_empty());
    let found: Finding = Finding::clone(found.expect("a remedy"));
    assert!(!desk.is_planned(&found));
    desk.edit(&Edit::mend(found.remedies[0].clone()))
        .expect("what is offered can be done");
    desk.show(Phase::Before);
    try_all(&mut desk);
    assert!(desk.is_planned(&found));
}

#[test]
fn what_is_refused_leaves_the_look_as_it_was() {
    let mut desk = desk();
    desk.show(Phase::Before);
    let stub = Work::Stub {
        tree: TreeId(2),
        shoot: ShootId::found(999),
        keep_mm: Mm(150),
    };
    let remedy = Remedy::new("remedy-stub", Vec::new(), vec![stub.clone()]);
    for edit in [Edit::work("step-stub", vec![stub]), Edit::mend(remedy)] {
        let before = desk.scene().row.clone();
        assert!(desk.edit(&edit).is_err());
        assert!(desk.scene().is_before());
        assert_eq!(desk.scene().row, before);
        assert_eq!(desk.steps(), (None, None));
    }
    desk.open(Mode::Found);
    assert_eq!(*desk.scene().row.row(), *desk.plan().found);
    assert!(!desk.scene().is_before());
}

/// The example with a second scheme, in which nothing is done.
fn two_schemes() -> Plan {
    let mut plan = plan();
    plan.schemes.push(Arc::new(Scheme {
        name: "B".into(),
        ..Scheme::default()
    }));
    plan
}

/// That a look shows what replay gives for it.
fn shows(document: &Document, sight: &Sight) {
    let (plan, look) = (document.plan(), sight.look());
    let mut fresh = Replayer::default();
    let expected = fresh.at(plan, look.scheme, look.moment, look.phase);
    let expected = expected.expect("it replays");
    assert_eq!(sight.scene().row, expected.row);
    let alone = Sight::new(document, look).expect("there is the scheme");
    assert_eq!(sight.scene().findings, alone.scene().findings);
    assert_eq!(sight.scene().figures, alone.scene().figures);
    assert_eq!(sight.scene().cover, alone.scene().cover);
}

#[test]
fn two_looks_at_one_document_are_both_right_while_one_edit_is_made() {
    let mut document = Document::new(two_schemes());
    let leaf = document.plan().found.leaf;
    let look = |scheme, window, phase| Look {
        scheme,
        moment: Moment { leaf, window },
        phase,
    };
    let looks = [
        look(0, Window::Dormant, Phase::After),
        look(1, Window::AfterHarvest, Phase::After),
        look(0, Window::Dormant, Phase::Before),
        look(1, Window::BudSwell, Phase::Before),
    ];
    let mut sights = looks.map(|l| Sight::new(&document, l).expect("there is the scheme"));
    assert_ne!(sights[0].scene().row, sights[1].scene().row);
    let gaps = |sight: &Sight| {
        let all = sight.scene().findings.iter();
        all.filter(|f| f.rule == "cordon-gap").count()
    };
    let lay = Work::Lay {
        tree: TREE,
        shoot: END,
        toward: Toward::Right,
        rise_deg: Deg::default(),
    };
    let edit = Edit::work("step-lay", vec![lay]);
    let before = [0, 1, 2, 3].map(|i| gaps(&sights[i]));
    let at = sights[1].look();
    let dormant = Look {
        moment: looks[0].moment,
        ..at
    };
    for sight in &mut sights {
        sight.take_redraw();
    }
    document.edit(dormant, &edit).expect("it can be laid");
    for sight in &mut sights {
        sight.follow(&document);
        shows(&document, sight);
    }
    // The other scheme is as it was.
    assert_eq!(gaps(&sights[0]), before[0]);
    assert_eq!(gaps(&sights[1]), before[1] - 1);
    assert_eq!(gaps(&sights[3]), before[3] - 1);
    assert!(sights[0].take_redraw().trees.is_empty());
    assert_eq!(sights[1].take_redraw().trees, [TREE]);

    // One step, which undo takes back for every look.
    assert_eq!(document.undo().as_deref(), Some("step-lay"));
    for (i, sight) in sights.iter_mut().enumerate() {
        sight.follow(&document);
        shows(&document, sight);
        assert_eq!(gaps(sight), before[i]);
    }
}

#[test]
fn what_is_drawn_anew_is_what_changed_at_the_look() {
    let mut document = Document::new(two_schemes());
    let here = Look::start(document.plan());
    let there = Look { scheme: 1, ..here };
    let mut sights = [here, there].map(|l| Sight::new(&document, l).expect("it is there"));
    for sight in &mut sights {
        assert!(sight.take_redraw().all);
    }
    let lay = Work::Lay {
        tree: TREE,
        shoot: END,
        toward: Toward::Right,
        rise_deg: Deg::default(),
    };
    document
        .edit(there, &Edit::work("step-lay", vec![lay]))
        .expect("it can be laid");
    let redraws = sights.each_mut().map(|sight| {
        sight.follow(&document);
        sight.take_redraw()
    });
    assert!(redraws.iter().all(|r| !r.all));
    assert!(redraws[0].trees.is_empty());
    assert_eq!(redraws[1].trees, [TREE]);
    document.open(Mode::Found);
    for sight in &mut sights {
        sight.follow(&document);
        assert!(sight.take_redraw().all);
        assert_eq!(*sight.scene().row.row(), *document.plan().found);
    }
}

#[test]
fn a_tip_in_the_hand_is_seen_at_every_look_at_its_scheme() {
    let mut document = Document::new(two_schemes());
    let here = Look::start(document.plan());
    let there = Look { scheme: 1, ..here };
    let mut sights = [here, there].map(|l| Sight::new(&document, l).expect("it is there"));
    let base = sights[1]
        .scene()
        .course(TREE, END)
        .expect("it is there")
        .base;
    let posed = sights[1].scene().posed(TREE).expect("it is there");
    assert!(document.take(sights[1].look(), posed, END));
    document.drag(Point::new(base.x + 512.0, base.y), true);
    for sight in &mut sights {
        sight.follow(&document);
        shows(&document, sight);
    }
    let laid = |sight: &Sight| {
        let (_, shoot) = sight.scene().row.shoot(TREE, END).expect("it is there");
        shoot.pose.is_laid()
    };
    assert!(!laid(&sights[0]) && laid(&sights[1]));
    document.drop_hold();
    assert_eq!(document.steps(), (None, None));
}

#[test]
fn a_look_is_brought_within_the_plan() {
    let document = Document::new(plan());
    let early = Look {
        scheme: 7,
        moment: Moment {
            leaf: 1,
            window: Window::Dormant,
        },
        phase: Phase::After,
    };
    let sight = Sight::new(&document, early).expect("the nearest there is");
    assert_eq!(sight.look(), Look::start(document.plan()));
}

#[test]
fn each_kind_of_edit_is_one_labelled_step() {
    let mut desk = desk();
    let first = write_plan(desk.plan());
    let wire = Work::stretching(Mm(1700));
    let height = Edit::setting(Setting::WallHeight, Some(2400.0));
    let edits = [
        (Edit::name("North".into()), "step-name"),
        (Edit::wires(wire), "step-wires"),
        (height, "step-setting"),
        (Edit::limit(Limit::GapMax, Some(80.0)), "step-limit"),
        (Edit::default_limits(), "step-limits-reset"),
        (Edit::posts_every(5_000.0), "step-setting"),
        (Edit::posts(vec![Mm(0), Mm(7_000)]), "step-setting"),
    ];
    for (edit, label) in &edits {
        desk.edit(edit)
            .unwrap_or_else(|why: Refusal| panic!("{label}: {why}"));
        assert_eq!(desk.steps().0.as_deref(), Some(*label));
    }
    for (_, label) in edits.iter().rev() {
        assert_eq!(desk.undo().as_deref(), Some(*label));
    }
    assert_eq!(write_plan(desk.plan()), first);
    // In the record a wire is no work but how it was found.
    desk.open(Mode::Found);
    let works = desk.plan().schemes.clone();
    desk.edit(&Edit::wires(Work::stretching(Mm(1700))))
        .expect("it can be stretched");
    assert_eq!(desk.steps().0.as_deref(), Some("step-correct"));
    assert_eq!(desk.plan().schemes, works);
}

#[test]
fn a_tree_that_is_lost_moved_or_planted_is_numbered_anew_and_so_it_is_when_that_is_undone() {
    let mut desk = desk();
    desk.open(Mode::Found);
    let place = desk.plan().found.tree(TREE).expect("it is there").foot;
    let moved = Correction::Foot {
        tree: TREE,
        to_mm: Mm(place.0 + 40),
    };
    let stands = desk.plan().standing_like_others(TREE);
    let steps = [moved, Correction::Lost { tree: TREE }, stands];
    let _ = desk.take_redraw();
    for step in steps.clone() {
        desk.edit(&Edit::record(step)).expect("it can be recorded");
        assert!(desk.take_redraw().all);
    }
    for _ in steps {
        desk.undo().expect("a step");
        assert!(desk.take_redraw().all);
    }
}

#[test]
fn what_a_tip_takes_is_told_of_the_harvest_after_the_coming_one_and_the_share_that_is_planned() {
    let mut desk = Desk::new(plan()).expect("it has a scheme");
    let moment = Moment::dormant(4);
    desk.look_at(moment);
    let on = desk.scene().row.tree(TREE).expect("it is there");
    let grew =
        |s: &&Shoot| s.kind() == Kind::Upright && s.units.last().is_some_and(|u| u.leaf == 3);
    let shoot = on.shoots.iter().find(grew).expect("it has grown").id;
    let (tree, percent) = (TREE, 25);
    let part = Part {
        tree,
        shoot: Some(shoot),
    };
    let tip = Work::Tip {
        tree,
        shoot,
        percent,
    };
    desk.edit(&Edit::work("step-tip", vec![tip.clone()]))
        .expect("it can be tipped");
    assert_eq!(desk.tipped(part), Some(0.25));
    let told = desk.tipping(part).expect("it has grown");
    assert_eq!(told.harvest, 5);
    let takes = |share| told.crop_removed(share).expect("it bears");
    assert_eq!(takes(0.0), 0.0);
    assert!(0.0 < takes(0.1) && takes(0.1) < takes(0.5) && takes(0.5) < 1.0);
    desk.edit(&Edit::take_back(vec![tip])).expect("it is there");
    assert_eq!(desk.tipped(part), None);
    assert_eq!(
        desk.tipping(part),
        Some(told),
        "what is planned changes no curve"
    );
    let tree = Part {
        shoot: None,
        ..part
    };
    assert_eq!(desk.tipping(tree), None);
}

#[test]
fn whether_found_growth_had_been_tipped_is_told_later_too_and_undone() {
    let mut desk = Desk::new(plan()).expect("it has a scheme");
    assert!(desk.plan().found.has_untold_tips());
    desk.look_at(Moment::dormant(4));
    let before = (write_plan(desk.plan()), desk.years());
    desk.open(Mode::Found);
    let record = write_plan(&Plan {
        tipped: Some(true),
        ..Plan::clone(desk.plan())
    });
    desk.edit(&Edit::tipped(Some(true))).expect("it is told");
    assert!(desk.is_found());
    assert_eq!(write_plan(desk.plan()), record, "what was measured stays");
    assert_ne!(desk.years(), before.1, "tipped wood bears less");
    let anew = Desk::new(Plan::clone(desk.plan())).expect("it has a scheme");
    assert_eq!(desk.years(), anew.years());
    assert_eq!(desk.undo().as_deref(), Some("step-correct"));
    assert_eq!((write_plan(desk.plan()), desk.years()), before);
}
