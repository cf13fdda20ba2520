//! A copy that comes back: what was changed there, here and on both sides, and taking it.

use cordonry::file::write_plan;
use cordonry::plan::{
    Answer, BudCount, Correction, Left, Mark, Moment, Plan, Setting, Spot, SpurCount, Told,
};
use cordonry::row::{Covering, Limit, Role, TreeId, Window};
use cordonry::units::Mm;
use cordonry::work::Work;
use cordonry_fixture::seasons::Usual;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// A row in its fourth leaf with marks, as it is sent.
fn sent(standing: bool) -> Plan {
    let grown = Usual::default().plan(3).with_all_standing();
    let row = cordonry::plan::replay(&grown, 0, Moment::dormant(4)).unwrap();
    let mut plan = Plan::new("as sent", row.row.into_row());
    plan.marks = vec![
        Mark::note(Mm(100), Mm(900), "first"),
        Mark::note(Mm(200), Mm(900), "second"),
    ];
    match standing {
        true => plan.with_all_standing(),
        false => plan,
    }
}

fn stub(plan: &Plan, nth: usize, keep: i32) -> Work {
    let tree = &plan.found.trees[nth];
    let roles = tree.roles();
    let upright = (0..roles.len()).find(|i| roles[*i] == Role::Upright);
    Work::Stub {
        tree: tree.id,
        shoot: tree.shoots[upright.expect("an upright")].id,
        keep_mm: Mm(keep),
    }
}

const EDITS: usize = 12;

/// One of the things that people do with a plan, none of which touches what another does.
fn edited(plan: &Plan, edit: usize) -> Plan {
    let mut out = plan.clone();
    let next = Moment::dormant(plan.found.leaf + 1);
    match edit {
        0 => out.name = "by another name".into(),
        1 => out.note = "wet in spring".into(),
        2 => return plan.with_limit(Limit::UprightSpacing, Some(260.0)).unwrap(),
        3 => return plan.with_setting(Setting::Latitude, Some(47.5)).unwrap(),
        4 | 5 => {
            let work = stub(plan, edit - 4, 20);
            return plan
                .with_work(0, Moment::dormant(plan.found.leaf), work)
                .unwrap();
        }
        6 => {
            // A later window, and one that may stand.
            let work = Work::AddWire {
                height_mm: Mm(1_777),
                covering: Covering::Bare,
            };
            return plan.with_work(0, next, work).unwrap();
        }
        7 => out.marks.push(Mark::note(Mm(700), Mm(1_200), "look here")),
        8 => out.marks.retain(|m| m.text != "first"),
        9 => {
            let count = BudCount {
                leaf: plan.found.leaf,
                tree: plan.found.trees[0].id,
                spurs: vec![
                    SpurCount {
                        buds: 3,
                        flowers: None,
                        dead: 1
                    };
                    4
                ],
            };
            return plan.with_count(&count).unwrap();
        }
        10 => {
            let left = Left {
                leaf: plan.found.leaf,
                cause: "cordon-gap".into(),
                reason: "next winter".into(),
                spots: Vec::new(),
            };
            return plan.with_left(&left).unwrap();
        }
        _ => {
            let mut tree = (*plan.found.trees[0]).clone();
            tree.note = "leans".into();
            let mut row = (*plan.found).clone();
            row.trees[0] = tree.into();
            out.found = row.into();
        }
    }
    out
}

fn all_of(plan: &Plan, edits: &[usize]) -> Plan {
    edits.iter().fold(plan.clone(), |p, e| edited(&p, *e))
}

fn whole(answer: &Answer) -> Vec<usize> {
    (0..answer.changes.len()).collect()
}

/// As it is written, with the work of all windows that stand told as well.
fn told(plan: &Plan) -> String {
    let mut plan = plan.clone();
    for leaf in plan.found.leaf..plan.found.leaf + 3 {
        for window in Window::ALL {
            plan = plan.with_planned(0, Moment { leaf, window }).unwrap();
        }
    }
    write_plan(&plan)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn what_both_did_is_there_once_all_is_taken(
        standing: bool,
        here in prop::collection::btree_set(0..EDITS, 0..6),
        there in prop::collection::btree_set(0..EDITS, 0..6),
    ) {
        let sent = sent(standing);
        let list = |of: &BTreeSet<usize>| of.iter().copied().collect::<Vec<_>>();
        // What is planned of a window that stood holds what stood there then: cuts before it make another.
        let mut here = here;
        if there.contains(&4) || there.contains(&5) {
            here.remove(&6);
        }
        let mine = all_of(&sent, &list(&here));
        let theirs = all_of(&sent, &list(&there));
        let answer = Answer::new(Some(&sent), &mine, &theirs).unwrap();
        prop_assert!(answer.changes.iter().all(|c| !c.both), "{:?}", answer.changes);
        let both = list(&here.union(&there).copied().collect());
        let taken = answer.taken(&mine, &whole(&answer)).unwrap();
        prop_assert_eq!(told(&taken), told(&all_of(&sent, &both)));
        // Taken, nothing is left to take; of nothing nothing comes.
        let again = Answer::new(Some(&sent), &taken, &theirs).unwrap();
        prop_assert_eq!(again.changes, []);
        prop_assert_eq!(answer.taken(&mine, &[]).unwrap(), mine);
    }

    #[test]
    fn taken_one_by_one_in_whatever_order_it_is_the_same(
        standing: bool,
        there in prop::collection::btree_set(0..EDITS, 2..6),
        seed: u64,
    ) {
        let sent = sent(standing);
        let theirs = all_of(&sent, &there.iter().copied().collect::<Vec<_>>());
        let answer = Answer::new(Some(&sent), &sent, &theirs).unwrap();
        let mut order = whole(&answer);
        let places = order.len().max(1);
        order.rotate_left(seed as usize % places);
        let mut one_by_one = sent.clone();
        for n in order {
            one_by_one = answer.taken(&one_by_one, &[n]).unwrap();
        }
        prop_assert_eq!(told(&one_by_one), told(&theirs));
    }
}

#[test]
fn where_both_changed_the_same_it_is_said_and_mine_stands_until_theirs_is_taken() {
    let sent = sent(false);
    let moment = Moment::dormant(sent.found.leaf);
    let with = |keep| sent.with_work(0, moment, stub(&sent, 0, keep)).unwrap();
    let mut mine = with(20);
    mine.name = "mine".into();
    let mut theirs = with(60);
    theirs.name = "theirs".into();
    let answer = Answer::new(Some(&sent), &mine, &theirs).unwrap();
    assert_eq!(answer.changes.len(), 2);
    assert!(answer.changes.iter().all(|c| c.both));
    let work = &answer.changes[1];
    assert_eq!((work.mine.len(), work.theirs.len()), (1, 1));
    assert_eq!(work.theirs, [stub(&sent, 0, 60)]);
    assert_eq!(
        (&*work.new, work.gone.len()),
        (&[stub(&sent, 0, 60)][..], 0)
    );
    let name = answer.taken(&mine, &[0]).unwrap();
    assert_eq!(name.name, "theirs");
    assert_eq!(name.schemes, mine.schemes);
    let both = answer.taken(&mine, &[0, 1]).unwrap();
    assert_eq!(both.schemes, theirs.schemes);
}

#[test]
fn without_the_copy_that_was_sent_all_that_differs_is_theirs() {
    let sent = sent(false);
    let mine = edited(&sent, 1);
    let theirs = edited(&sent, 0);
    let answer = Answer::new(None, &mine, &theirs).unwrap();
    assert!(!answer.knows_sent);
    let spots: Vec<&Spot> = answer.changes.iter().map(|c| &c.spot).collect();
    assert_eq!(spots, [&Spot::Name, &Spot::Note]);
}

#[test]
fn a_tree_that_they_removed_goes_and_one_that_they_added_comes() {
    let sent = sent(false);
    let mut row = (*sent.found).clone();
    let gone = row.trees.remove(0);
    let mut new = (*gone).clone();
    new.id = TreeId(900);
    new.foot = row.to;
    row.trees.push(new.into());
    let mut theirs = sent.clone();
    theirs.found = row.into();
    let answer = Answer::new(Some(&sent), &sent, &theirs).unwrap();
    assert_eq!(answer.changes.len(), 2);
    let taken = answer.taken(&sent, &[0, 1]).unwrap();
    assert_eq!(taken.found, theirs.found);
}

#[test]
fn a_scheme_that_they_added_comes_beside_mine_and_ticks_come_in_with_it() {
    let sent = edited(&sent(false), 4);
    let mut theirs = sent.with_scheme_copied(0).unwrap();
    let moment = Moment::dormant(sent.found.leaf);
    let done = [stub(&sent, 0, 20)];
    theirs = theirs.with_told(0, moment, &done, &Told::Done).unwrap();
    let mine = sent.with_scheme_copied(0).unwrap();
    let mine = mine.with_scheme_named(1, "my own").unwrap();
    let theirs = theirs.with_scheme_named(1, "theirs").unwrap();
    let answer = Answer::new(Some(&sent), &mine, &theirs).unwrap();
    let taken = answer.taken(&mine, &whole(&answer)).unwrap();
    let names: Vec<&str> = taken.schemes.iter().map(|s| s.name.as_str()).collect();
    assert_eq!(names.len(), 3);
    assert_eq!(names[1..], ["my own", "theirs"]);
    assert_eq!(taken.schemes[0].field.told(moment, &done[0]), Told::Done);
}

#[test]
fn a_window_that_they_gave_back_stands_again() {
    let plan = sent(true);
    let next = Moment::dormant(plan.found.leaf + 1);
    let planned = plan.with_planned(0, next).unwrap();
    let theirs = planned.with_window_standing(0, next).unwrap();
    let answer = Answer::new(Some(&planned), &planned, &theirs).unwrap();
    assert!(
        matches!(answer.changes[..], [ref c] if matches!(c.spot, Spot::GivenBack(_, at) if at == next))
    );
    let taken = answer.taken(&planned, &[0]).unwrap();
    assert!(taken.schemes[0].stands(next));
}

#[test]
fn the_record_that_they_corrected_is_taken_tree_by_tree() {
    let plan = sent(false);
    let tree = plan.found.trees[2].id;
    let note = Correction::Note {
        tree,
        shoot: None,
        note: "short of water".into(),
    };
    let theirs = plan.corrected(&note).unwrap();
    let answer = Answer::new(Some(&plan), &plan, &theirs).unwrap();
    assert_eq!(answer.changes.len(), 1);
    assert_eq!(answer.changes[0].spot, Spot::Tree(tree));
    assert_eq!(answer.taken(&plan, &[0]).unwrap(), theirs);
}

#[test]
fn a_scheme_that_they_removed_is_told_and_goes_once_that_is_taken() {
    let sent = sent(false).with_scheme_copied(0).unwrap();
    let theirs = sent.without_scheme(1).unwrap();
    let answer = Answer::new(Some(&sent), &sent, &theirs).unwrap();
    let name = sent.schemes[1].name.clone();
    let spots: Vec<&Spot> = answer.changes.iter().map(|c| &c.spot).collect();
    assert_eq!(spots, [&Spot::SchemeGone(name)]);
    assert!(!answer.changes[0].both);
    let taken = answer.taken(&sent, &[0]).unwrap();
    assert_eq!(taken.schemes, theirs.schemes);
    assert_eq!(
        Answer::new(Some(&sent), &taken, &theirs).unwrap().changes,
        []
    );
    // Worked on here it is told as changed by both; the last one can't go.
    let worked = sent.with_work(1, sent.start(), stub(&sent, 0, 20)).unwrap();
    let answer = Answer::new(Some(&sent), &worked, &theirs).unwrap();
    assert!(answer.changes[0].both);
    let alone = sent.without_scheme(0).unwrap();
    let answer = Answer::new(Some(&sent), &alone, &theirs).unwrap();
    let gone = answer
        .changes
        .iter()
        .position(|c| matches!(c.spot, Spot::SchemeGone(_)));
    assert!(gone.is_some_and(|n| answer.taken(&alone, &[n]).is_err()));
}

#[test]
fn each_change_of_work_or_record_tells_its_tree_and_its_time() {
    let sent = sent(false);
    let theirs = all_of(&sent, &[4, 6, 7, 9, 11]);
    let answer = Answer::new(Some(&sent), &sent, &theirs).unwrap();
    let places: Vec<_> = answer.changes.iter().filter_map(|c| c.place()).collect();
    let tree = sent.found.trees[0].id;
    let winter = Moment::dormant(sent.found.leaf);
    for place in [(None, tree), (Some(winter), tree)] {
        assert!(places.contains(&place), "{places:?}");
    }
    // Wires and marks are no tree's.
    assert_eq!(places.len(), 3);
}

#[test]
fn of_a_tree_s_work_what_is_new_and_what_is_taken_back_is_told_and_no_more() {
    let plain = sent(false);
    let moment = Moment::dormant(plain.found.leaf);
    let tree = &plain.found.trees[0];
    let tip = |n: usize| Work::Remove {
        tree: tree.id,
        shoot: tree.shoots[n].id,
    };
    let last = tree.shoots.len() - 1;
    let with = |plan: &Plan, work: Work| plan.with_work(0, moment, work).unwrap();
    let sent = with(&with(&plain, stub(&plain, 0, 20)), tip(last));
    let theirs = with(&with(&plain, tip(last)), tip(last - 1));
    let answer = Answer::new(Some(&sent), &sent, &theirs).unwrap();
    assert_eq!(answer.changes.len(), 1);
    let change = &answer.changes[0];
    assert_eq!(change.new, [tip(last - 1)]);
    assert_eq!(change.gone, [stub(&plain, 0, 20)]);
}

#[test]
fn a_mark_that_says_something_else_or_stands_elsewhere_is_one_change() {
    let sent = sent(false);
    let mut theirs = sent.clone();
    theirs.marks[0].text = "first, seen again".into();
    theirs.marks[1] = Mark::note(Mm(4_200), Mm(700), "second");
    theirs.marks.push(Mark::note(Mm(10), Mm(10), "third"));
    let answer = Answer::new(Some(&sent), &sent, &theirs).unwrap();
    let spots: Vec<&Spot> = answer.changes.iter().map(|c| &c.spot).collect();
    let changed = |n: usize| Spot::MarkChanged(sent.marks[n].clone(), theirs.marks[n].clone());
    let new = Spot::Mark(theirs.marks[2].clone());
    assert_eq!(spots, [&changed(0), &changed(1), &new]);
    assert_eq!(answer.taken(&sent, &[0, 1, 2]).unwrap().marks, theirs.marks);
}

#[test]
fn a_copy_of_another_row_is_known_as_one() {
    let mine = sent(false);
    let mut other = mine.clone();
    other.name = "another".into();
    let is_foreign =
        |sent: Option<&Plan>, theirs: &Plan| Answer::new(sent, &mine, theirs).unwrap().is_foreign;
    assert!(!is_foreign(None, &other), "its trees are the same");
    let mut row = (*other.found).clone();
    for tree in &mut row.trees {
        std::sync::Arc::make_mut(tree).foot = Mm(tree.foot.0 + 3);
    }
    other.found = row.into();
    assert!(is_foreign(None, &other));
    assert!(!is_foreign(Some(&mine), &other), "it was sent");
    other.name.clone_from(&mine.name);
    assert!(!is_foreign(None, &other));
}
