//! What is told of work: of the very piece that was handed out, whatever else changes.

use cordonry::crew::{Job, season};
use cordonry::plan::{
    BudCount, Correction, Field, Moment, Plan, Seen, Setting, SpurCount, Told, Window,
};
use cordonry::row::{ShootId, TreeId};
use cordonry::units::Mm;
use cordonry::work::Work;
use cordonry_fixture::wall::{grown, row, standing, upright_stem};

const FIRST: Option<TreeId> = Some(TreeId(1));

/// Two trees, each laid, with five uprights of last season.
fn bare() -> Plan {
    let tree = |id: u32| {
        let stem = upright_stem(id, 1500 * id as i32, 1500.0);
        (1..6).fold(stem, |tree, n| {
            let at = 700.0 + 130.0 * f64::from(n);
            let tree = tree.shoot(at, standing(0.0), grown(2, 700.0));
            tree.last(|s| s.diameter = 12.0)
        })
    };
    Plan::new("told", row(1500, 5000, vec![tree(1), tree(2)]))
}

fn stub(tree: u32, shoot: u32, keep: i32) -> Work {
    Work::Stub {
        tree: TreeId(tree),
        shoot: ShootId::found(shoot),
        keep_mm: Mm(keep),
    }
}

/// The first two uprights of each tree are stubbed.
fn plan() -> Plan {
    let plan = bare();
    let stubs = [(1, 1), (1, 2), (2, 1), (2, 2)].map(|(tree, shoot)| stub(tree, shoot, 120));
    plan.with_works(0, plan.start(), stubs.to_vec()).unwrap()
}

fn told(plan: &Plan, work: &Work) -> Told {
    plan.schemes[0].field.told(plan.start(), work)
}

#[test]
fn a_tick_stays_where_other_work_changes_and_goes_where_its_own_does() {
    let plan = plan();
    let (at, piece) = (plan.start(), stub(1, 1, 120));
    let ticked = plan
        .with_told(0, at, std::slice::from_ref(&piece), &Told::Done)
        .unwrap();
    assert_eq!(told(&ticked, &piece), Told::Done);
    assert_eq!(told(&ticked, &stub(1, 2, 120)), Told::Open);
    // Other work on the tree, in the window and in others.
    let more = ticked.with_work(0, at, stub(1, 3, 100)).unwrap();
    let more = more.without_work(0, at, |w| *w == stub(1, 2, 120)).unwrap();
    let summer = Moment {
        window: Window::EarlySummer,
        ..at
    };
    let tip = Work::Tip {
        tree: TreeId(1),
        shoot: ShootId::found(4),
        percent: 20,
    };
    let more = more.with_work(0, summer, tip).unwrap();
    let copied = more.with_scheme_copied(0).unwrap();
    for scheme in &copied.schemes {
        assert_eq!(scheme.field.told(at, &piece), Told::Done);
    }
    // The piece itself.
    let longer = more.with_work(0, at, stub(1, 1, 200)).unwrap();
    assert_eq!(told(&longer, &stub(1, 1, 200)), Told::Open);
    let off = Work::Remove {
        tree: TreeId(1),
        shoot: ShootId::found(1),
    };
    let other = more.with_work(0, at, off.clone()).unwrap();
    assert_eq!(told(&other, &off), Told::Open);
    let back = longer.with_work(0, at, piece.clone()).unwrap();
    assert_eq!(told(&back, &piece), Told::Done, "it is what was done");
    // The same piece in another leaf is another piece.
    let next = plan.schemes[0].field.told(Moment::dormant(4), &piece);
    assert_eq!(next, Told::Open);
}

#[test]
fn a_piece_is_done_or_left_and_a_reason_is_held_to_its_length() {
    let plan = plan();
    let (at, piece) = (plan.start(), stub(1, 1, 120));
    let tell = |plan: &Plan, told: Told| plan.with_told(0, at, std::slice::from_ref(&piece), &told);
    let done = tell(&plan, Told::Done).unwrap();
    let left = tell(&done, Told::Skipped("  no ladder ".into())).unwrap();
    assert_eq!(told(&left, &piece), Told::Skipped("no ladder".into()));
    assert_eq!(left.schemes[0].field.pieces().count(), 1);
    let again = tell(&left, Told::Done).unwrap();
    assert_eq!(again, done);
    assert_eq!(tell(&again, Told::Open).unwrap(), plan);
    let long = |n: usize| tell(&plan, Told::Skipped("é".repeat(n)));
    assert!(long(Field::MAX_TEXT).is_ok());
    assert_eq!(
        long(Field::MAX_TEXT + 1).unwrap_err().key,
        "refusal-field-text"
    );
    let noted = plan.with_field_note(0, at, FIRST, " canker ").unwrap();
    assert_eq!(noted.schemes[0].field.note(at, FIRST), "canker");
    assert_eq!(noted.with_field_note(0, at, FIRST, " ").unwrap(), plan);
    assert!(plan.with_told(1, at, &[], &Told::Done).is_err());
}

#[test]
fn standing_work_is_ticked_until_what_it_goes_by_makes_another_piece_of_it() {
    let plan = bare().with_standing(0, true).unwrap();
    let tips_in = |leaf: u8| {
        let works = plan.work_at(0, Moment::dormant(leaf)).unwrap();
        let mut tips = works
            .into_iter()
            .filter(|w| Job::of(w) == Job::Tip)
            .peekable();
        tips.peek().is_some().then(|| (leaf, tips.collect()))
    };
    let (leaf, tips): (u8, Vec<Work>) = (4..12).find_map(tips_in).expect("some leaf tips");
    let next = Moment::dormant(leaf);
    let ticked = plan.with_told(0, next, &tips, &Told::Done).unwrap();
    assert!(ticked.schemes[0].stands(next), "a tick plans no window");
    let open = |plan: &Plan| {
        let field = &plan.schemes[0].field;
        let works = plan.work_at(0, next).unwrap();
        let tips = works.iter().filter(|w| Job::of(w) == Job::Tip);
        tips.filter(|w| field.told(next, w) == Told::Open).count()
    };
    assert_eq!((open(&plan), open(&ticked)), (tips.len(), 0));
    let planned = ticked.with_planned(0, next).unwrap();
    assert_eq!(open(&planned), 0);
    let lower = ticked.found.trellis.wall_height.f() - 50.0;
    let other = ticked.with_setting(Setting::WallHeight, Some(lower));
    let other = other.unwrap();
    assert_eq!(open(&other), tips.len());
}

#[test]
fn what_another_copy_tells_is_taken_where_the_work_is_the_same() {
    let desk = plan();
    let at = desk.start();
    let pieces = [stub(1, 1, 120), stub(1, 2, 120), stub(2, 1, 120)];
    let phone = desk.with_told(0, at, &pieces, &Told::Done).unwrap();
    let skipped = Told::Skipped("broken".into());
    let phone = phone
        .with_told(0, at, &[stub(2, 2, 120)], &skipped)
        .unwrap();
    let phone = phone.with_field_note(0, at, FIRST, "canker").unwrap();
    let phone = phone
        .with_seen(0, at, &pieces[0], Some(Seen::Wrong))
        .unwrap();
    let phone = phone.with_extra(0, (at, Job::Stub, TreeId(1)), 2).unwrap();
    // Meanwhile at the desk one piece is changed, one is taken out, and another row's name is given.
    let desk = desk.with_work(0, at, stub(1, 2, 180)).unwrap();
    let desk = desk.without_work(0, at, |w| *w == pieces[2]).unwrap();
    let taken = desk.taking_told(&phone).unwrap();
    assert_eq!((taken.pieces, taken.notes, taken.same), (2, 1, 0));
    let strange: Vec<Work> = taken.strange.iter().map(|(_, w)| w.clone()).collect();
    assert_eq!(strange, [pieces[1].clone(), pieces[2].clone()]);
    let now = &taken.plan;
    assert_eq!(told(now, &pieces[0]), Told::Done);
    assert_eq!(told(now, &stub(2, 2, 120)), skipped);
    assert_eq!(told(now, &stub(1, 2, 180)), Told::Open);
    let field = &now.schemes[0].field;
    assert_eq!(field.seen(at, &pieces[0]), Some(Seen::Wrong));
    assert_eq!(field.extra(at, Job::Stub, TreeId(1)), Some(2));
    // All but what is told is the desk's.
    assert_eq!(now.schemes[0].schedule, desk.schemes[0].schedule);
    // A scheme that the desk doesn't have is named.
    let named = phone.with_scheme_named(0, "Late").unwrap();
    let none = desk.taking_told(&named).unwrap();
    assert_eq!(
        (&none.plan, none.schemes),
        (&desk, vec!["Late".to_string()])
    );
    // Ticks of the usual work of a leaf without any come back too.
    let idle = bare();
    let season = season(&idle, 0, 4).unwrap();
    assert!(season.usual);
    let pass = &season.passes[0];
    let works: Vec<Work> = pass.work().cloned().collect();
    let phone = idle.with_told(0, pass.moment, &works, &Told::Done).unwrap();
    let taken = idle.taking_told(&phone).unwrap();
    assert_eq!((taken.pieces, taken.strange.len()), (works.len(), 0));
    assert_eq!(taken.plan, phone);
}

#[test]
fn a_mark_as_diseased_is_of_the_found_tree_and_new_stock_is_sound() {
    let plan = bare();
    let mark = |tree: u32, diseased: bool| Correction::Diseased {
        tree: TreeId(tree),
        diseased,
    };
    let marked = plan.corrected(&mark(1, true)).unwrap();
    assert_eq!(marked.corrected(&mark(1, false)).unwrap(), plan);
    assert!(plan.corrected(&mark(3, true)).is_err());
    let ill = |plan: &Plan, leaf: u8| {
        let row = cordonry::plan::replay(plan, 0, Moment::dormant(leaf)).unwrap();
        row.row.tree(TreeId(1)).unwrap().diseased
    };
    assert!(ill(&marked, 3) && ill(&marked, 5));
    let new = Work::ReplaceTree {
        tree: TreeId(1),
        planted: plan.found.trees[0].planted,
        length_mm: Mm(1800),
        diameter_dmm: 150,
    };
    let new = marked.with_work(0, Moment::dormant(4), new).unwrap();
    assert!(ill(&new, 3) && !ill(&new, 4) && !ill(&new, 5));
    let gone = Correction::Lost { tree: TreeId(1) };
    let gone = marked.corrected(&gone).unwrap();
    assert!(!gone.found.trees[0].diseased);
    assert!(gone.corrected(&mark(1, true)).is_err());
}

#[test]
fn counts_stand_once_for_a_leaf_and_a_tree_in_their_order() {
    let plan = bare();
    let spur = |buds, dead| SpurCount {
        buds,
        flowers: None,
        dead,
    };
    let count = |leaf, tree, spurs| BudCount {
        leaf,
        tree: TreeId(tree),
        spurs,
    };
    let all = [
        count(4, 1, vec![spur(3, 1)]),
        count(3, 2, vec![spur(1, 0)]),
        count(3, 1, vec![spur(5, 5), spur(0, 0)]),
    ];
    let full = all
        .iter()
        .fold(plan.clone(), |p, c| p.with_count(c).unwrap());
    let order: Vec<_> = full.counts.iter().map(|c| (c.leaf, c.tree.0)).collect();
    assert_eq!(order, [(3, 1), (3, 2), (4, 1)]);
    let other = full.with_count(&count(3, 2, vec![spur(2, 2)])).unwrap();
    assert_eq!(
        (other.counts.len(), other.counts[1].spurs[0]),
        (3, spur(2, 2))
    );
    let less = full.with_count(&count(3, 2, vec![])).unwrap();
    assert_eq!(less.counts.len(), 2);
    for (wrong, key) in [
        (count(2, 1, vec![spur(1, 0)]), "refusal-count"),
        (count(41, 1, vec![spur(1, 0)]), "refusal-count"),
        (count(3, 9, vec![spur(1, 0)]), "refusal-no-tree"),
        (count(3, 1, vec![spur(61, 0)]), "refusal-count"),
        (count(3, 1, vec![spur(2, 3)]), "refusal-count"),
        (count(3, 1, vec![spur(2, 0); 201]), "refusal-count"),
    ] {
        assert_eq!(plan.with_count(&wrong).unwrap_err().key, key, "{wrong:?}");
    }
    assert!(
        plan.with_count(&count(3, 1, vec![spur(60, 60); 200]))
            .is_ok()
    );
}

#[test]
fn a_pass_tells_how_far_it_is_and_a_second_look_goes_to_trees_that_are_done() {
    let plan = plan();
    let at = plan.start();
    let pass = season(&plan, 0, 3).unwrap().passes.remove(0);
    let progress = |plan: &Plan| {
        let p = pass.progress(&plan.schemes[0].field);
        (p.stops, p.done, p.skipped)
    };
    assert_eq!(
        (pass.job, pass.count(), progress(&plan)),
        (Job::Stub, 4, (0, 0, 0))
    );
    let half = plan.with_told(0, at, &[stub(1, 1, 120), stub(2, 1, 120)], &Told::Done);
    let half = half.unwrap();
    assert_eq!(progress(&half), (0, 2, 0));
    assert!(pass.sample(&half.schemes[0].field, 5).is_empty());
    let left = Told::Skipped(String::new());
    let one = half.with_told(0, at, &[stub(2, 2, 120)], &left).unwrap();
    assert_eq!(progress(&one), (1, 2, 1));
    assert_eq!(pass.sample(&one.schemes[0].field, 5), [1]);
    let both = one
        .with_told(0, at, &[stub(1, 2, 120)], &Told::Done)
        .unwrap();
    assert_eq!(pass.sample(&both.schemes[0].field, 5), [0, 1]);
    // Who was looked at is looked at again, whatever chance says.
    for tree in [1, 2] {
        let seen = both.with_seen(0, at, &stub(tree, 1, 120), Some(Seen::Missed));
        let seen = seen
            .unwrap()
            .with_extra(0, (at, Job::Stub, TreeId(tree)), 3)
            .unwrap();
        let field = &seen.schemes[0].field;
        assert_eq!(pass.sample(field, 1), [tree as usize - 1]);
        let looked = pass.looked(field);
        assert_eq!(
            (looked.pieces, looked.missed, looked.wrong, looked.extra),
            (1, 1, 0, 3)
        );
    }
}
