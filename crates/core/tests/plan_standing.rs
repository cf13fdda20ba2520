//! Windows that stand: replayed from rules, planned when they are worked on, given back.

use cordonry::file::{csv, write_plan};
use cordonry::forecast::Forecast;
use cordonry::make::{EmptyRow, Form, RowSketch};
use cordonry::plan::{History, Moment, Phase, Plan, Replayer, Window, replay};
use cordonry::row::*;
use cordonry::said::Arg;
use cordonry::standing::{Rule, Rules};
use cordonry::units::LengthStyle;
use cordonry::work::Work;
use cordonry_fixture::random::{Draft, at, bytes, cases, draft, plan};
use cordonry_fixture::wood;
use cordonry_words::Words;
use proptest::prelude::*;

/// Five trees, just planted, of which every window stands.
fn standing() -> Plan {
    let mut row = wood::planted(5, 1500, 2000.0);
    row.trellis.wires.truncate(2);
    let plan = Plan::new("a row", row).begun();
    let m = Moment::dormant(1);
    plan.with_window_standing(0, m).expect("there is a scheme")
}

fn moment(leaf: u8, window: Window) -> Moment {
    Moment { leaf, window }
}

fn end(leaf: u8) -> Moment {
    moment(leaf, Window::AfterHarvest)
}

fn all(last: u8) -> Vec<Moment> {
    Moment::dormant(1).until(end(last)).collect()
}

#[test]
fn a_plan_begins_with_the_leaf_planned_and_empty_in_which_its_row_was_found() {
    for leaf in [1, 2, 5] {
        let mut row = (*standing().found).clone();
        row.leaf = leaf;
        let plan = Plan::new("a row", row).begun();
        for window in Window::ALL {
            // What is just planted still has all of its first leaf to come: nothing of it is done yet.
            let to_come = leaf == 1 && window != Window::Dormant;
            let stands = plan.schemes[0].stands(moment(leaf, window));
            assert_eq!(stands, to_come, "leaf {leaf} {window:?}");
            assert!(plan.schemes[0].stands(moment(leaf + 1, window)));
        }
    }
    let plan = Plan::new("a row", (*standing().found).clone());
    assert!(!plan.schemes[0].stands(end(4)));
    let begun = plan.clone().begun();
    assert!(begun.schemes[0].schedule.is_empty());
    assert_eq!(begun.with_standing(0, false).unwrap(), plan);
    // Windows with work stay as they are.
    let tree = TreeId(1);
    let out = plan
        .with_work(0, end(3), Work::RemoveTree { tree })
        .unwrap();
    assert!(!out.begun().schemes[0].stands(end(3)));
    assert!(plan.with_standing(1, true).is_err());
}

#[test]
fn whoever_makes_a_plan_begins_it() {
    let words = Words::strict();
    let table = include_bytes!("../../../examples/measured-40.csv");
    let table = csv::read(table, &csv::Options::default()).unwrap();
    let made = |leaf| RowSketch {
        leaf,
        ..RowSketch::usual(LengthStyle::Metric)
    };
    let plans = [
        made(1).plan(&words).unwrap(),
        made(4).plan(&words).unwrap(),
        EmptyRow::usual(LengthStyle::Metric).plan(&words).unwrap(),
        table.plan("a table"),
    ];
    for plan in plans {
        let scheme = &plan.schemes[0];
        let leaf = plan.found.leaf;
        let new = leaf == 1;
        for window in Window::ALL {
            let m = moment(leaf, window);
            let stands = new && window != Window::Dormant;
            assert_eq!(scheme.stands(m), stands, "{}", plan.name);
            assert!(scheme.stands(moment(leaf + 1, window)), "{}", plan.name);
            // Before somebody has worked on it, the row is as it was found.
            assert!(stands || plan.work_at(0, m).unwrap().is_empty());
        }
        assert!(scheme.schedule.is_empty());
        assert_eq!(*at(&plan, plan.start()).row, *plan.found);
        // What is to be done on its trees in the leaves to come is told from the start.
        let years = Forecast::default().of(&plan, 0, leaf + 3).unwrap();
        let any = !plan.found.trees.is_empty();
        let worked = years.iter().map(|y| !y.work.is_empty());
        assert!(worked.eq([any && new, any, any, any]), "{}", plan.name);
    }
}

#[test]
fn a_row_is_trained_with_nothing_stored() {
    let plan = standing();
    assert!(plan.schemes[0].schedule.is_empty());
    let last = at(&plan, end(6));
    assert!(last.void.is_empty());
    for tree in &last.row.trees {
        assert!(tree.shoots[0].pose.is_laid());
        assert!(tree.uprights().count() >= 6, "{}", tree.uprights().count());
    }
    // Half a metre apart from 1 m to 2.5 m: three winters.
    let wires = |leaf| at(&plan, end(leaf)).row.trellis.wires.len();
    assert_eq!([1, 2, 3, 4, 5, 9].map(wires), [2, 3, 4, 5, 5, 5]);
    let bare = plan.with_standing(0, false).unwrap();
    assert!(!at(&bare, end(6)).row.trees[0].shoots[0].pose.is_laid());
}

#[test]
fn a_window_that_is_planned_is_as_it_stood_and_can_be_given_back() {
    let plan = standing();
    let ends = |plan: &Plan| replay(plan, 0, end(7)).unwrap().row;
    for m in all(4) {
        let planned = plan.with_planned(0, m).unwrap();
        assert!(!planned.schemes[0].stands(m));
        let stored: Vec<Work> = planned.schemes[0].work(m).cloned().collect();
        assert_eq!(stored, plan.work_at(0, m).unwrap(), "{m:?}");
        let rests = m.window == Window::AfterHarvest || m == plan.start();
        // Once the cordon is full no bud is kept, and nothing is laid again.
        let full = m.leaf > 2 && m.window != Window::Dormant || m == moment(2, Window::EarlySummer);
        assert!(!stored.is_empty() || rests || full, "{m:?}");
        assert_eq!(ends(&planned), ends(&plan), "{m:?}");
        assert_eq!(planned.with_window_standing(0, m).unwrap(), plan);
    }
}

#[test]
fn work_in_a_window_plans_it_and_undo_gives_back_the_same_bytes() {
    // Before renewal begins uprights are tipped.
    let plan = standing().with_rule(0, Rule::RenewFrom, Some(4.0)).unwrap();
    let mut history = History::new(plan.clone());
    let m = Moment::dormant(3);
    let before = plan.work_at(0, m).unwrap();
    let tip = before.iter().find(|w| matches!(w, Work::Tip { .. }));
    let tip = tip.expect("uprights are tipped").clone();
    let Work::Tip { tree, shoot, .. } = tip else {
        unreachable!()
    };
    let other = Work::Tip {
        tree,
        shoot,
        percent: 40,
    };
    let edited = plan.with_work(0, m, other.clone()).unwrap();
    history.set("tip", edited.clone());
    let mut expected = before.clone();
    *expected.iter_mut().find(|w| **w == tip).unwrap() = other;
    assert_eq!(edited.work_at(0, m).unwrap(), expected);
    assert!(edited.schemes[0].schedule.moments().into_iter().eq([m]));
    // A single piece is taken back in the same way.
    let less = plan.without_work(0, m, |w| *w == tip).unwrap();
    assert_eq!(less.work_at(0, m).unwrap().len(), before.len() - 1);
    // Later leaves follow, and nothing is void; no tree but that one changes.
    let (was, is) = (at(&plan, end(6)), at(&edited, end(6)));
    assert!(is.void.is_empty());
    for (a, b) in was.row.trees.iter().zip(&is.row.trees) {
        assert_eq!(a != b, a.id == tree);
    }
    let start = at(&plan, moment(2, Window::AfterHarvest)).row;
    assert_eq!(start, at(&edited, moment(2, Window::AfterHarvest)).row);
    assert_eq!(history.undo().as_deref(), Some("tip"));
    assert_eq!(**history.plan(), plan);
    assert_eq!(write_plan(history.plan()), write_plan(&plan));
    assert_eq!(bytes(history.plan()), bytes(&plan));
}

#[test]
fn rules_are_settings_of_a_scheme() {
    let plan = standing();
    let never = plan.with_rule(0, Rule::RenewFrom, Some(0.0)).unwrap();
    let stubs = |plan: &Plan| {
        let row = at(plan, Moment::dormant(4)).row;
        let shoots = row.trees.iter().flat_map(|t| &t.shoots);
        shoots.filter(|s| s.kind() == Kind::Stub).count()
    };
    assert!(stubs(&plan) >= 5);
    assert_eq!(stubs(&never), 0);
    assert_eq!(never.with_rule(0, Rule::RenewFrom, None).unwrap(), plan);
    let why = plan.with_rule(0, Rule::RenewShare, Some(0.5)).unwrap_err();
    // It is named in words, with what is accepted.
    assert_eq!(why.key, "refusal-correct-row");
    let what = why.args.iter().find(|(name, _)| *name == "what");
    assert_eq!(what.unwrap().1, Arg::key("standing-renew_share"));
    assert!(plan.with_rule(0, Rule::Hold, Some(0.5)).is_err());
    assert!(plan.with_rule(3, Rule::Hold, None).is_err());
    // Without rules there is none to set.
    let bare = plan.with_standing(0, false).unwrap();
    assert_eq!(bare.with_rule(0, Rule::Hold, Some(0.0)).unwrap(), bare);
    let early = plan.with_crop_from(0, Some(2.0)).unwrap();
    assert_eq!(at(&early, end(2)).terms.stand.crop_from, 2);
    assert_eq!(early.with_crop_from(0, None).unwrap(), plan);
    assert!(plan.with_crop_from(0, Some(0.0)).is_err());
    assert_eq!(Rules::default().get(Rule::RenewShare), 0.2);
}

#[derive(Clone, Debug)]
enum Act {
    Work(Draft),
    Plan(usize),
    Stand(usize),
    Rule(usize, f64),
    Limit(f64),
    Crop(u8),
    Rules(bool),
}

fn act() -> impl Strategy<Value = Act> {
    prop_oneof![
        3 => draft().prop_map(Act::Work),
        1 => (0usize..16).prop_map(Act::Plan),
        1 => (0usize..16).prop_map(Act::Stand),
        2 => (0..Rule::ALL.len(), 0.0..=1.0).prop_map(|(r, share)| Act::Rule(r, share)),
        1 => (100.0..300.0).prop_map(Act::Limit),
        1 => (1u8..5).prop_map(Act::Crop),
        1 => any::<bool>().prop_map(Act::Rules),
    ]
}

fn acted(plan: &Plan, act: &Act) -> Plan {
    let start = plan.start();
    let moments: Vec<Moment> = start.until(end(start.leaf + 3)).collect();
    let next = match act {
        Act::Work(draft) => {
            let (moment, work) = draft.for_plan(plan);
            plan.with_work(0, moment, work)
        }
        Act::Plan(at) => plan.with_planned(0, moments[*at]),
        Act::Stand(at) => plan.with_window_standing(0, moments[*at]),
        Act::Rule(rule, share) => {
            let info = Rule::ALL[*rule].info();
            let value = info.min + share * (info.max - info.min);
            let whole = Rule::ALL[*rule].accepts(value.round());
            let value = if whole { value.round() } else { value };
            plan.with_rule(0, Rule::ALL[*rule], Some(value))
        }
        Act::Limit(value) => plan.with_limit(Limit::StubLength, Some(*value)),
        Act::Crop(leaf) => plan.with_crop_from(0, Some((*leaf).into())),
        Act::Rules(stands) => plan.with_standing(0, *stands),
    };
    next.unwrap_or_else(|_| plan.clone())
}

proptest! {
    #![proptest_config(cases(24))]

    /// What is kept between edits changes nothing, whatever the order in which the row is looked at; no work of a window that
    /// stands is void; and whatever has work is planned.
    #[test]
    fn replay_that_is_kept_is_replay_anew(plan in plan(), acts in prop::collection::vec((act(), 0usize..28, any::<bool>()), 1..8)) {
        let mut plan = plan.begun();
        let mut kept = Replayer::default();
        for (act, look, after) in &acts {
            plan = acted(&plan, act);
            let start = plan.start();
            let moments: Vec<Moment> = start.until(end(start.leaf + 6)).collect();
            let phase = if *after { Phase::After } else { Phase::Before };
            let known = kept.at(&plan, 0, moments[*look], phase).unwrap();
            let anew = Replayer::default().at(&plan, 0, moments[*look], phase).unwrap();
            prop_assert_eq!(&known, &anew);
            for void in &known.void {
                prop_assert!(!plan.schemes[0].stands(void.moment), "{:?}", void);
            }
            if plan.schemes[0].standing.is_some() {
                for moment in plan.schemes[0].schedule.moments() {
                    prop_assert!(!plan.schemes[0].stands(moment));
                }
            }
        }
        // In one pass the same comes out.
        let last = end(plan.start().leaf + 4);
        let states = plan.timeline(0, last).unwrap();
        for state in states {
            let anew = Replayer::default().at(&plan, 0, state.moment, state.phase).unwrap();
            prop_assert_eq!(&state.row, &anew.row);
        }
    }
}
