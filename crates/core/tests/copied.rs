//! A leaf's work is done once more in the next: on the same wood, or on what is there what that was.

use cordonry::file::read_plan;
use cordonry::plan::{Moment, Phase, Plan, Window, replay};
use cordonry::row::{Kind, Origin, ShootId, TreeId};
use cordonry::units::Mm;
use cordonry::work::Work;

/// The example with the usual work standing.
fn begun() -> Plan {
    let text = include_str!("../../../examples/third-leaf.json");
    read_plan(text.as_bytes())
        .expect("the example is read")
        .begun()
}

fn at(leaf: u8, window: Window) -> Moment {
    Moment { leaf, window }
}

/// Uprights that stand at a moment with growth of last season on them.
fn uprights(plan: &Plan, moment: Moment) -> Vec<(TreeId, ShootId)> {
    let row = replay(plan, 0, moment).expect("it replays").row;
    let all = row
        .trees
        .iter()
        .flat_map(|t| t.shoots.iter().map(|s| (t.id, s)));
    let grown = all.filter(|(_, s)| {
        s.kind() == Kind::Upright
            && s.units
                .last()
                .is_some_and(|u| u.leaf + 1 == moment.leaf && u.kept > 300.0)
    });
    grown.map(|(tree, s)| (tree, s.id)).collect()
}

#[test]
fn work_follows_on_the_same_shoots_and_what_cannot_is_told() {
    let plan = begun();
    let (now, next) = (at(4, Window::Dormant), at(5, Window::Dormant));
    let plan = plan.with_planned(0, now).expect("planned");
    let plan = plan.without_work(0, now, |_| true).expect("emptied");
    // What the usual work of the next leaf cuts is no more to be tipped then.
    let usual = plan.work_at(0, next).expect("it stands");
    let mut standing = uprights(&plan, now);
    let cut = |w: &Work| ["stub", "remove", "cut_back"].contains(&w.kind());
    standing.retain(|(t, s)| !usual.iter().any(|w| cut(w) && w.is_about(*t, *s, 5)));
    let [a, b, ..] = standing[..] else {
        panic!("uprights stand");
    };
    let tip = |(tree, shoot), percent| Work::Tip {
        tree,
        shoot,
        percent,
    };
    let gone = Work::Remove {
        tree: b.0,
        shoot: b.1,
    };
    let works = vec![tip(a, 20), gone.clone()];
    let plan = plan.with_works(0, now, works).expect("they can be done");
    let copied = plan
        .with_leaf_copied_on(0, 4)
        .expect("there is a fifth leaf");
    assert_eq!(copied.count, 1);
    let left: Vec<_> = copied.left.iter().map(|v| (v.moment, &v.work)).collect();
    assert_eq!(left, [(now, &gone)]);
    let planned = |plan: &Plan| plan.schemes[0].work(next).cloned().collect::<Vec<_>>();
    assert!(planned(&copied.plan).contains(&tip(a, 20)));
    assert!(!copied.plan.schemes[0].stands(next), "it is planned");
    // The usual work of the next leaf stays beside it, and its own leaf and those before stay as they are.
    let usual = plan.work_at(0, next).expect("it stands");
    let others = usual.iter().filter(|w| w.subject() != tip(a, 20).subject());
    assert!(others.clone().count() > 0);
    assert!(others.clone().all(|w| planned(&copied.plan).contains(w)));
    assert!(
        copied.plan.schemes[0]
            .work(now)
            .eq(plan.schemes[0].work(now))
    );
    let void = replay(&copied.plan, 0, at(5, Window::AfterHarvest))
        .expect("it replays")
        .void;
    assert_eq!(void, []);
    // Once more changes nothing.
    let again = copied.plan.with_leaf_copied_on(0, 4).expect("as before");
    assert_eq!(again.plan, copied.plan);
}

#[test]
fn work_on_a_seasons_own_shoots_is_done_on_those_of_the_next() {
    // Buds that nobody rubs out break again each year: what is taken off comes anew.
    let plan = begun().with_standing(0, false).expect("without rules");
    let taken = at(3, Window::AfterHarvest);
    let wild = |plan: &Plan, moment| {
        let row = cordonry::plan::Replayer::default()
            .at(plan, 0, moment, Phase::Before)
            .expect("it replays")
            .row;
        let all = row
            .trees
            .iter()
            .flat_map(|t| t.shoots.iter().map(|s| (t.id, s)));
        let wild = all.filter(|(_, s)| {
            s.origin == Some(Origin::EndGrowth) && s.born() == Some(moment.leaf)
                || s.origin == Some(Origin::WildBud) && s.born() == Some(moment.leaf)
        });
        wild.map(|(tree, s)| (tree, s.id)).collect::<Vec<_>>()
    };
    let now = wild(&plan, taken);
    let later = wild(&plan, at(4, Window::AfterHarvest));
    let both: Vec<_> = now
        .iter()
        .filter(|(t, _)| later.iter().any(|(l, _)| l == t))
        .collect();
    let Some(&&(tree, shoot)) = both.first() else {
        panic!("shoots come in both leaves: {now:?} {later:?}");
    };
    let removed = Work::Remove { tree, shoot };
    let plan = plan
        .with_work(0, taken, removed.clone())
        .expect("it comes off");
    let copied = plan
        .with_leaf_copied_on(0, 3)
        .expect("there is a next leaf");
    let next = copied.plan.schemes[0].work(at(4, Window::AfterHarvest));
    let next: Vec<_> = next.collect();
    assert!(
        copied.left.iter().all(|v| v.work != removed),
        "{:?}",
        copied.left
    );
    assert_eq!(next.len(), 1);
    assert!(matches!(next[0], Work::Remove { tree: t, shoot: s } if *t == tree && *s != shoot));
}

#[test]
fn a_standing_leaf_has_nothing_of_its_own_and_the_last_leads_nowhere() {
    let plan = begun();
    let copied = plan
        .with_leaf_copied_on(0, 6)
        .expect("there is a next leaf");
    assert_eq!(
        (copied.plan, copied.count, copied.left.len()),
        (plan.clone(), 0, 0)
    );
    assert!(plan.with_leaf_copied_on(0, Plan::MAX_LEAF).is_err());
    assert!(plan.with_leaf_copied_on(0, 2).is_err());
    assert!(plan.with_leaf_copied_on(3, 4).is_err());
    // Wires are of no tree.
    let wire = Work::AddWire {
        height_mm: Mm(1250),
        covering: cordonry::row::Covering::Bare,
    };
    let plan = plan
        .with_work(0, plan.start(), wire.clone())
        .expect("it is stretched");
    let copied = plan
        .with_leaf_copied_on(0, 3)
        .expect("there is a next leaf");
    let left = copied.left.iter().filter(|v| v.work == wire);
    assert_eq!(left.count(), 1, "it hangs there already");
}
