//! Properties of plans: undo, replay, void work, identity.

use cordonry::file::{read_plan, write_plan};
use cordonry::grow::{Half, grow};
use cordonry::model::{Assumptions, Parameter};
use cordonry::plan::{
    History, Moment, Phase, Plan, Replayer, Schedule, Setting, Told, VoidWork, Window,
};
use cordonry::row::{Limit, Row, ShootId, Tree, TreeId};
use cordonry::units::Mm;
use cordonry::work::{Work, apply};
use cordonry_fixture::random::*;
use proptest::prelude::*;
use proptest::sample::Index;
use std::collections::BTreeSet;
use std::sync::Arc;

/// What a user may do to a history.
#[derive(Clone, Debug)]
enum Act {
    Set(Draft),
    Tell(Tell),
    Gesture(Vec<Draft>, bool),
    Undo,
    Redo,
    UndoInGesture(Draft),
    BeginTwice(Draft, Draft),
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        3 => draft().prop_map(Act::Set),
        3 => tell().prop_map(Act::Tell),
        3 => (drafts(4), any::<bool>()).prop_map(|(d, keep)| Act::Gesture(d, keep)),
        3 => Just(Act::Undo),
        2 => Just(Act::Redo),
        1 => draft().prop_map(Act::UndoInGesture),
        1 => (draft(), draft()).prop_map(|(a, b)| Act::BeginTwice(a, b)),
    ]
}

/// What an undo history has to be, without any sharing: lists of whole plans.
struct Model {
    now: String,
    past: Vec<String>,
    future: Vec<String>,
}

impl Model {
    fn set(&mut self, next: String) {
        if next != self.now {
            self.past.push(std::mem::replace(&mut self.now, next));
            self.future.clear();
        }
    }

    fn undo(&mut self) {
        if let Some(before) = self.past.pop() {
            self.future.push(std::mem::replace(&mut self.now, before));
        }
    }

    fn redo(&mut self) {
        if let Some(after) = self.future.pop() {
            self.past.push(std::mem::replace(&mut self.now, after));
        }
    }
}

fn after(plan: &Plan, draft: &Draft) -> Plan {
    worked(plan, std::slice::from_ref(draft))
}

/// The straight way to replay, with no cache and no thought of trees: season by season and item by item on the whole row.
fn straight(plan: &Plan, last: Moment) -> (Row, Vec<(Moment, Work)>) {
    let mut row = (*plan.found).clone();
    let work: Vec<_> = all_work(plan)
        .into_iter()
        .filter(|(m, _)| *m <= last)
        .collect();
    let before = work.iter().filter(|(m, _)| *m < plan.start());
    let mut void: Vec<_> = before.cloned().collect();
    for moment in plan.start().until(last) {
        row.leaf = moment.leaf;
        let half = match moment.window {
            Window::EarlySummer => Some(Half::First),
            Window::AfterHarvest => Some(Half::Second),
            Window::Dormant | Window::BudSwell => None,
        };
        let terms = plan.terms(&row.trellis);
        for tree in &mut row.trees {
            if let Some(grown) = half.and_then(|half| grow(tree, moment.leaf, half, &terms)) {
                *tree = Arc::new(grown);
            }
        }
        for (_, work) in work.iter().filter(|(m, _)| *m == moment) {
            match apply(&row, moment, &plan.terms(&row.trellis), work) {
                Ok(next) => row = next,
                Err(_) => void.push((moment, work.clone())),
            }
        }
    }
    row.leaf = last.leaf.max(plan.found.leaf);
    (row, void)
}

fn void_of(void: &[VoidWork]) -> Vec<(Moment, Work)> {
    void.iter().map(|v| (v.moment, v.work.clone())).collect()
}

proptest! {
    #![proptest_config(cases(192))]

    #[test]
    fn generated_rows_keep_every_rule(plan in plan()) {
        for tree in &plan.found.trees {
            prop_assert_eq!(tree.broken_rule(), None);
        }
        prop_assert!(plan.found.from <= plan.found.to);
    }

    #[test]
    fn undo_and_redo_give_the_same_bytes(plan in plan(), acts in prop::collection::vec(act(), 1..16)) {
        let mut model = Model { now: bytes(&plan), past: vec![], future: vec![] };
        let mut history = History::new(plan);
        for act in &acts {
            match act {
                Act::Set(draft) => {
                    let next = after(history.plan(), draft);
                    model.set(bytes(&next));
                    history.set("step", next);
                }
                Act::Tell(tell) => {
                    let next = tell.on(history.plan());
                    model.set(bytes(&next));
                    history.set("step", next);
                }
                Act::Gesture(drafts, keep) => {
                    history.begin("drag");
                    let mut last = model.now.clone();
                    for draft in drafts {
                        // Every update starts from where the gesture began, as a drag does.
                        let next = after(history.base(), draft);
                        last = bytes(&next);
                        history.update(next);
                        prop_assert_eq!(&bytes(history.plan()), &last);
                        prop_assert_eq!(&bytes(history.base()), &model.now);
                    }
                    if *keep {
                        history.commit();
                        model.set(last);
                    } else {
                        history.cancel();
                    }
                }
                Act::Undo => {
                    prop_assert_eq!(history.undo().is_some(), !model.past.is_empty());
                    model.undo();
                }
                Act::Redo => {
                    prop_assert_eq!(history.redo().is_some(), !model.future.is_empty());
                    model.redo();
                }
                Act::UndoInGesture(draft) => {
                    history.begin("drag");
                    history.update(after(history.base(), draft));
                    history.undo();
                }
                Act::BeginTwice(a, b) => {
                    for draft in [a, b] {
                        history.begin("drag");
                        let next = after(history.base(), draft);
                        model.set(bytes(&next));
                        history.update(next);
                    }
                    history.commit();
                }
            }
            prop_assert_eq!(&bytes(history.plan()), &model.now);
            prop_assert_eq!(history.undo_label().is_some(), !model.past.is_empty());
            prop_assert_eq!(history.redo_label().is_some(), !model.future.is_empty());
        }
        let end = bytes(history.plan());
        let mut steps = 0;
        while history.undo().is_some() {
            model.undo();
            steps += 1;
            prop_assert_eq!(&bytes(history.plan()), &model.now);
        }
        prop_assert!(model.past.is_empty());
        for _ in 0..steps {
            history.redo();
        }
        while model.past.len() < steps {
            model.redo();
        }
        prop_assert_eq!(&bytes(history.plan()), &model.now);
        prop_assert!(history.plan().schemes.len() == 1 && !end.is_empty());
    }

    #[test]
    fn saved_and_opened_a_plan_is_the_same(
        plan in plan(),
        drafts in drafts(10),
        tells in prop::collection::vec(tell(), 0..16),
    ) {
        let plan = told(&worked(&plan, &drafts), &tells);
        let file = write_plan(&plan);
        let back = read_plan(file.as_bytes());
        prop_assert_eq!(back.as_ref(), Ok(&plan));
        prop_assert_eq!(write_plan(&back.unwrap()), file);
    }

    #[test]
    fn what_is_told_changes_no_wood_and_stays_where_other_work_changes(
        plan in plan(),
        before in drafts(10),
        tells in prop::collection::vec(tell(), 1..16),
        after in drafts(4),
    ) {
        let plain = worked(&plan, &before);
        let tells: Vec<Tell> = tells.into_iter().filter(Tell::is_of_work).collect();
        let plan = told(&plain, &tells);
        for moment in moments(&plan) {
            prop_assert_eq!(at(&plan, moment).row, at(&plain, moment).row);
        }
        let field = plan.schemes[0].field.clone();
        let changed = worked(&plan, &after);
        prop_assert_eq!(&changed.schemes[0].field, &field);
        for (moment, work) in all_work(&changed) {
            let was = all_work(&plan).contains(&(moment, work.clone()));
            let (now, then) = (&changed.schemes[0].field, &plan.schemes[0].field);
            prop_assert!(!was || now.told(moment, &work) == then.told(moment, &work));
        }
        // Back by way of another copy: what is told of the same work, and nothing else.
        let taken = plain.taking_told(&plan).unwrap();
        let (mut told, mut open) = (0, 0);
        for (moment, work) in all_work(&plain) {
            let own = field.told(moment, &work);
            prop_assert_eq!(&taken.plan.schemes[0].field.told(moment, &work), &own);
            match own {
                Told::Open => open += 1,
                _ => told += 1,
            }
        }
        // Where a leaf has no work, its usual work may be told of too.
        prop_assert_eq!(taken.pieces + taken.strange.len(), field.pieces().count());
        prop_assert!(open + told == all_work(&plain).len() && taken.same == 0 && taken.pieces >= told);
        let again = taken.plan.taking_told(&plan).unwrap();
        prop_assert_eq!((again.pieces, again.notes, again.same), (0, 0, taken.pieces));
        prop_assert_eq!(again.plan, taken.plan);
    }

    #[test]
    fn replay_is_a_pure_function(
        plan in plan(),
        drafts in drafts(10),
        calls in prop::collection::vec((any::<Index>(), any::<Index>()), 1..12),
    ) {
        // Plans of one history and of other rows, asked for in any order at any moment.
        let mut plans = vec![plan.clone()];
        for n in 1..=drafts.len() {
            plans.push(worked(&plan, &drafts[..n]));
        }
        let (moment, work) = drafts[0].for_plan(&plan);
        plans.push(forced(&plan, moment, work));
        let mut other = plan.clone();
        let mut row = (*plan.found).clone();
        row.leaf += 1;
        if let Some(tree) = row.trees.first_mut() {
            let mut changed = (**tree).clone();
            changed.shoots.truncate(1);
            *tree = Arc::new(changed);
        }
        other.found = Arc::new(row);
        plans.push(other);
        let mut cached = Replayer::default();
        for (p, m) in calls {
            let plan = &plans[p.index(plans.len())];
            let all = moments(plan);
            let moment = all[m.index(all.len())];
            let fresh = at(plan, moment);
            prop_assert_eq!(&cached.at(plan, 0, moment, Phase::After).unwrap(), &fresh);
            prop_assert_eq!(&at(plan, moment), &fresh);
        }
    }

    #[test]
    fn no_changed_term_leaves_a_stale_tree(
        plan in plan(),
        drafts in drafts(8),
        asks in prop::collection::vec((0..6u8, any::<Index>(), any::<Index>(), 0.0..1.0), 1..14),
    ) {
        // The same plan under other limits, assumptions, sites and wires, asked for in any order.
        let mut plan = worked(&plan, &drafts);
        let first = drafts[0].moment(&plan);
        let cut = plan.found.trees.iter().find_map(|t| {
            let shoot = t.shoots.iter().find(|s| s.length() > 300.0 && s.parent.is_some())?;
            Some(Work::CutToBuds { tree: t.id, shoot: shoot.id, buds: 3 })
        });
        if let Some(cut) = cut {
            plan = forced(&plan, first, cut);
        }
        let mut cached = Replayer::default();
        for (what, which, at, share) in asks {
            let all = moments(&plan);
            let moment = all[which.index(all.len())];
            match what {
                0 => plan.assumptions = Arc::new(
                    Assumptions::default().with(Parameter::NodesM, 20.0 + 40.0 * share),
                ),
                1 => {
                    let info = Limit::BendDiameters.info();
                    let bend = info.min + (info.max - info.min) * share;
                    if let Ok(other) = plan.with_limit(Limit::BendDiameters, Some(bend)) {
                        plan = other;
                    }
                }
                2 => plan = plan.with_setting(Setting::Latitude, Some(90.0 * share)).unwrap(),
                3 => {
                    let moved = Work::MoveWire {
                        height_mm: plan.found.trellis.cordon_height(),
                        to_mm: Mm::round(300.0 + 150.0 * share),
                    };
                    plan = forced(&plan, moment, moved);
                }
                _ => {}
            }
            let moment = all[at.index(all.len())];
            let phase = [Phase::Before, Phase::After][usize::from(share > 0.5)];
            let known = cached.at(&plan, 0, moment, phase).unwrap();
            prop_assert_eq!(&known, &Replayer::default().at(&plan, 0, moment, phase).unwrap());
            for posed in known.row.posed() {
                prop_assert_eq!(posed.courses(), &cordonry::pose::layout(posed.tree(), known.terms.geometry)[..]);
            }
            prop_assert_eq!(cached.found(&plan, 0), Replayer::default().found(&plan, 0));
            prop_assert_eq!(cached.found(&plan, 0).row.into_row(), (*plan.found).clone());
        }
    }

    #[test]
    fn one_pass_gives_every_state(plan in plan(), drafts in drafts(12), other in drafts(4)) {
        let mut plan = worked(&plan, &drafts);
        for draft in &other {
            plan = forced(&plan, draft.moment(&plan), draft.on(&plan.found));
        }
        // A tree that comes later, and work on it before it came.
        let tree = TreeId(900);
        let planted = plan.found.trees.first().map(|t| t.planted);
        if let Some(planted) = planted {
            let when = other[0].moment(&plan);
            let plant = Work::Plant { tree, foot_mm: Mm(77), planted, length_mm: Mm(1500), diameter_dmm: 150 };
            plan = forced(&plan, when, plant);
            plan = forced(&plan, drafts[0].moment(&plan), Work::RubOut { tree, shoot: ShootId::STEM });
        }
        let last = moments(&plan).last().copied().unwrap();
        let mut known = Replayer::default();
        let mut states = Vec::new();
        for state in plan.timeline(0, last).unwrap() {
            let (moment, phase) = (state.moment, state.phase);
            prop_assert_eq!(&state, &known.at(&plan, 0, moment, phase).unwrap());
            states.push((moment, phase));
        }
        let all = plan.start().until(last);
        let both: Vec<_> = all.flat_map(|m| [(m, Phase::Before), (m, Phase::After)]).collect();
        prop_assert_eq!(states, both);
        // Before a moment's work the row is as it is without that work.
        for moment in plan.start().until(last) {
            let without = plan.without_work(0, moment, |_| true).unwrap();
            let before = known.at(&plan, 0, moment, Phase::Before).unwrap();
            prop_assert_eq!(before.row, at(&without, moment).row);
        }
    }

    #[test]
    fn work_on_one_tree_changes_one_tree(plan in plan(), before in drafts(6), draft in draft()) {
        let plan = worked(&plan, &before);
        let (moment, work) = draft.for_plan(&plan);
        let row = at(&plan, moment).row;
        let tree = work.tree();
        // The other trees are the same, and nothing comes but the tree that is planted.
        let others_stay = |before: &Row, after: &Row| {
            let stays = |a: &Arc<Tree>| Some(a.id) == tree || after.tree(a.id).is_some_and(|b| Arc::ptr_eq(a, b));
            let known = |b: &Arc<Tree>| Some(b.id) == tree || before.tree(b.id).is_some();
            before.trees.iter().all(stays) && after.trees.iter().all(known)
        };
        if let Ok(next) = apply(&row, Moment::dormant(row.leaf), &plan.terms(&row.trellis), &work) {
            prop_assert!(others_stay(&row, &next));
            prop_assert!(tree.is_none() || next.trellis == row.trellis);
            prop_assert_eq!((next.leaf, next.from, next.to), (row.leaf, row.from, row.to));
        }
        let Some(tree) = tree else {
            // What stands grows on other wires from then on, but not before.
            if let Ok(next) = plan.with_work(0, moment, work) {
                let early = |m: &Moment| *m < moment;
                for moment in moments(&plan).into_iter().filter(early) {
                    prop_assert_eq!(at(&plan, moment), at(&next, moment));
                }
            }
            return Ok(());
        };
        if let Ok(next) = plan.with_work(0, moment, work) {
            prop_assert!(Arc::ptr_eq(&plan.found, &next.found));
            let mut cached = Replayer::default();
            for moment in moments(&plan) {
                let a = cached.at(&plan, 0, moment, Phase::After).unwrap();
                let b = cached.at(&next, 0, moment, Phase::After).unwrap();
                prop_assert!(others_stay(&a.row, &b.row));
                let elsewhere = |void: &[VoidWork]| -> Vec<VoidWork> {
                    void.iter().filter(|v| v.work.tree() != Some(tree)).cloned().collect()
                };
                prop_assert_eq!(elsewhere(&a.void), elsewhere(&b.void));
            }
        }
    }

    #[test]
    fn random_work_never_breaks_a_rule(plan in plan(), drafts in drafts(14)) {
        let mut plan = plan;
        for draft in &drafts {
            let (moment, work) = draft.for_plan(&plan);
            let before = bytes(&plan);
            if let Ok(next) = plan.with_work(0, moment, work) {
                plan = next;
            } else {
                prop_assert_eq!(&bytes(&plan), &before);
            }
        }
        for moment in moments(&plan) {
            for tree in &at(&plan, moment).row.trees {
                prop_assert_eq!(tree.broken_rule(), None);
            }
        }
        // Canonical: in a window one item a subject, in order; put in anew in another order it is the same.
        let schedule = &plan.schemes[0].schedule;
        for moment in schedule.moments() {
            let subjects: Vec<_> = schedule.work(moment).map(Work::subject).collect();
            prop_assert!(!subjects.is_empty());
            prop_assert!(subjects.windows(2).all(|s| s[0] < s[1]));
        }
        let mut all = all_work(&plan);
        all.reverse();
        prop_assert_eq!(schedule, &all.iter().cloned().collect::<Schedule>());
        let mut anew = Schedule::default();
        for (moment, work) in all {
            anew.put(moment, work);
        }
        prop_assert_eq!(schedule, &anew);
    }

    #[test]
    fn a_refused_part_refuses_the_whole(plan in plan(), drafts in drafts(5)) {
        let moment = drafts[0].moment(&plan);
        let row = at(&plan, moment).row;
        let works: Vec<Work> = drafts.iter().map(|d| d.on(&row)).collect();
        let together = plan.with_works(0, moment, works.clone());
        let one_by_one = works
            .into_iter()
            .try_fold(plan.clone(), |plan, work| plan.with_work(0, moment, work));
        prop_assert_eq!(together, one_by_one);
    }

    #[test]
    fn order_on_different_trees_does_not_matter(
        plan in plan(), before in drafts(5), drafts in drafts(6), by in any::<prop::sample::Index>(),
    ) {
        let plan = worked(&plan, &before);
        let moment = drafts[0].moment(&plan);
        let row = at(&plan, moment).row;
        let mut seen = BTreeSet::new();
        let mut works: Vec<Work> = drafts.iter().map(|d| d.on(&row)).collect();
        // A wire that is moved moves what hangs on it: whether work on a tree is refused may follow from it.
        works.retain(|w| w.tree().is_some() && seen.insert(w.tree()));
        prop_assume!(!works.is_empty());
        let there = run(&plan, moment, &works);
        let turn = by.index(works.len());
        works.rotate_left(turn);
        works.reverse();
        prop_assert_eq!(bytes(&run(&plan, moment, &works)), bytes(&there));
    }

    #[test]
    fn order_on_different_subjects_does_not_matter(
        plan in plan(), before in drafts(5), first in draft(), second in draft(),
    ) {
        let plan = worked(&plan, &before);
        let moment = first.moment(&plan);
        let row = at(&plan, moment).row;
        let (a, b) = (first.on(&row), second.on(&row));
        // Taking off a bud undoes the keeping of it: these two are one subject in the user's eyes.
        let bud = |x: &Work, y: &Work| x.kept_bud(moment.leaf) == Some(y.subject().shoot);
        if a.subject() == b.subject() || bud(&a, &b) || bud(&b, &a) {
            return Ok(());
        }
        let both = |x: &Work, y: &Work| {
            plan.with_work(0, moment, x.clone())
                .and_then(|p| p.with_work(0, moment, y.clone()))
        };
        if let (Ok(ab), Ok(ba)) = (both(&a, &b), both(&b, &a)) {
            prop_assert_eq!(bytes(&ab), bytes(&ba));
        }
    }

    #[test]
    fn void_work_is_kept_reported_once_and_touches_nothing(
        plan in plan(),
        drafts in drafts(12),
        early in prop::collection::vec((draft(), any::<Index>()), 0..3),
    ) {
        let mut plan = plan;
        let mut put = Vec::new();
        for draft in &drafts {
            // Half of it as on the found row, so that later work may have taken its subject away.
            let moment = draft.moment(&plan);
            let work = draft.on(&plan.found);
            put.push((moment, work.subject()));
            plan = forced(&plan, moment, work);
        }
        for (draft, window) in &early {
            let leaf = plan.found.leaf - 1;
            let moment = Moment { leaf, window: Window::ALL[window.index(4)] };
            let work = draft.on(&plan.found);
            put.push((moment, work.subject()));
            plan = forced(&plan, moment, work);
        }
        let kept: BTreeSet<_> = all_work(&plan).iter().map(|(m, w)| (*m, w.subject())).collect();
        prop_assert_eq!(&kept, &put.into_iter().collect::<BTreeSet<_>>());
        let was = bytes(&plan);
        for moment in moments(&plan) {
            let got = at(&plan, moment);
            let (row, void) = straight(&plan, moment);
            prop_assert_eq!(got.row.row(), &row);
            prop_assert_eq!(void_of(&got.void), void);
            for tree in &got.row.trees {
                prop_assert_eq!(tree.broken_rule(), None);
            }
            // Without the void work the row is the same.
            let mut without = plan.clone();
            for v in &got.void {
                without = without.without_work(0, v.moment, |w| *w == v.work).unwrap();
            }
            let clean = at(&without, moment);
            prop_assert_eq!(&clean.row, &got.row);
            prop_assert_eq!(clean.void.len(), 0);
        }
        prop_assert_eq!(bytes(&plan), was);
    }

    #[test]
    fn a_bud_has_one_name_in_any_order(
        plan in plan(),
        picks in prop::collection::vec((any::<Index>(), any::<Index>(), 0.0..1.0), 1..8),
        turn in any::<Index>(),
        again in any::<Index>(),
    ) {
        let moment = Moment { leaf: plan.found.leaf, window: Window::BudSwell };
        let laid: Vec<(TreeId, ShootId, f64)> = plan
            .found
            .trees
            .iter()
            .flat_map(|t| t.shoots.iter().filter(|s| s.pose.is_laid()).map(|s| (t.id, s.id, s.length())))
            .collect();
        if laid.is_empty() {
            return Ok(());
        }
        let mut works: Vec<Work> = Vec::new();
        for (which, _, share) in &picks {
            let (tree, shoot, length) = laid[which.index(laid.len())];
            let work = Work::KeepBud { tree, shoot, at_mm: Mm::round((length - 1.0) * share) };
            // Of buds too near each other the first to come wins; that is not what is asked here.
            if run(&plan, moment, &[works.clone(), vec![work.clone()]].concat()) != run(&plan, moment, &works) {
                works.push(work);
            }
        }
        if works.is_empty() {
            return Ok(());
        }
        let names = |plan: &Plan| -> BTreeSet<(TreeId, ShootId)> {
            at(plan, moment)
                .row
                .trees
                .iter()
                .flat_map(|t| t.shoots.iter().filter(|s| s.id.is_grown()).map(|s| (t.id, s.id)))
                .collect()
        };
        let there = run(&plan, moment, &works);
        let expected: BTreeSet<_> = works
            .iter()
            .map(|w| (w.tree().unwrap(), w.kept_bud(moment.leaf).unwrap()))
            .collect();
        prop_assert_eq!(expected.len(), works.len());
        prop_assert_eq!(&names(&there), &expected);
        let mut other = works.clone();
        other.rotate_left(turn.index(works.len()));
        other.reverse();
        let back = run(&plan, moment, &other);
        prop_assert_eq!(&names(&back), &expected);
        prop_assert_eq!(bytes(&back), bytes(&there));
        // Taken back and kept again it is the same bud.
        let one = &works[again.index(works.len())];
        let bud = one.kept_bud(moment.leaf).unwrap();
        let dropped = there
            .with_work(0, moment, Work::Remove { tree: one.tree().unwrap(), shoot: bud })
            .unwrap();
        prop_assert!(!names(&dropped).contains(&(one.tree().unwrap(), bud)));
        prop_assert_eq!(names(&dropped).len() + 1, expected.len());
        // Of another tree, there is no such bud to take off.
        let wrong = Work::Remove { tree: TreeId(u32::MAX), shoot: bud };
        prop_assert!(there.with_work(0, moment, wrong).is_err());
        let kept = dropped.with_work(0, moment, one.clone()).unwrap();
        prop_assert_eq!(bytes(&kept), bytes(&there));
    }
}

/// The plan after each work that is not refused.
fn run(plan: &Plan, moment: Moment, works: &[Work]) -> Plan {
    let mut plan = plan.clone();
    for work in works {
        if let Ok(next) = plan.with_work(0, moment, work.clone()) {
            plan = next;
        }
    }
    plan
}
