//! Drafts: what becomes of rows whose whole window's work is taken as it is proposed.

use super::rows::{examples, extreme, plausible};
use super::wood::Wood;
use super::{found, graver, numbered};
use cordonry::advise::{Draft, draft};
use cordonry::file::write_plan;
use cordonry::plan::{History, Moment, Phase, Plan, Replayed, Replayer, Window};
use cordonry::work::Work;

fn at(plan: &Plan, moment: Moment) -> Replayed {
    let at = Replayer::default().at(plan, 0, moment, Phase::After);
    at.expect("a first scheme")
}

/// What does not hold of a draft.
fn broken(plan: &Plan, moment: Moment, made: &Draft) -> Vec<String> {
    let mut out = Vec::new();
    let mut hold = |holds: bool, what: String| {
        if !holds {
            out.push(what);
        }
    };
    let (before, after) = (at(plan, moment), at(&made.plan, moment));
    hold(
        after.void.len() <= before.void.len(),
        format!("void work: {:?}", after.void),
    );
    let start = found(plan, &before, false);
    let graver = graver(&start, &found(&made.plan, &after, false));
    hold(graver.is_empty(), format!("graver: {graver:?}"));
    let second = draft(&made.plan, 0, moment).expect("a second draft");
    hold(
        second.is_empty(),
        format!("a second draft adds {:?}", second.pieces.first()),
    );
    hold(
        second.plan == made.plan,
        "a second draft changes the plan".into(),
    );
    // Every piece's work is in the plan, and nothing else beside what was there.
    let planned = plan.with_planned(0, moment).expect("a first scheme");
    let was: Vec<Work> = planned.schemes[0].work(moment).cloned().collect();
    let is: Vec<Work> = made.plan.schemes[0].work(moment).cloned().collect();
    let proposed: Vec<&Work> = made.pieces.iter().flat_map(|p| &p.work).collect();
    hold(
        proposed.iter().all(|w| is.contains(w)),
        "proposed work is not in the plan".into(),
    );
    let other = is
        .iter()
        .find(|w| !was.contains(w) && !proposed.contains(w));
    hold(other.is_none(), format!("{other:?} was not proposed"));
    if !plan.schemes[0].stands(moment) {
        let gone = was.iter().find(|w| !is.contains(w));
        hold(gone.is_none(), format!("planned work is gone: {gone:?}"));
    }
    let bytes = write_plan(plan);
    let mut history = History::new(plan.clone());
    history.set("draft", made.plan.clone());
    history.undo();
    hold(write_plan(history.plan()) == bytes, "not undone".into());
    if moment.window == Window::Dormant && moment == plan.start() {
        let wood = Wood::of(plan, &before, &start);
        let (standing, (stand, were)) = wood.left(&after);
        if wood.most > wood.quota {
            let least = 0.95 * (wood.most - wood.quota) as f64;
            hold(
                standing as f64 >= least - 1e-9,
                format!("{standing} stand of {} less {}", wood.most, wood.quota),
            );
            hold(
                stand >= 0.9 * were - 1e-9,
                format!("median {stand:.1} of {were:.1} mm"),
            );
        }
    }
    out
}

/// Drafts the windows of the found leaf and of the next on each row, and tells what does not hold.
fn hold(name: &str, rows: &[(String, Plan)], leaves: u8) {
    let (mut pieces, mut works, mut drafts) = (0, 0, 0);
    let mut out = Vec::new();
    for (row, plan) in rows {
        let mut now = plan.clone();
        for leaf in 0..leaves {
            for window in Window::ALL {
                let moment = Moment {
                    leaf: plan.found.leaf + leaf,
                    window,
                };
                let made = draft(&now, 0, moment).expect("a draft");
                drafts += 1;
                pieces += made.pieces.len();
                works += made.pieces.iter().map(|p| p.work.len()).sum::<usize>();
                let broken = broken(&now, moment, &made);
                if !broken.is_empty() {
                    out.push(format!("{row}, {moment:?}: {}", broken.join("; ")));
                }
                // The next window is drafted on what this one left.
                now = made.plan;
            }
        }
    }
    println!(
        "{name}: {drafts} drafts, {pieces} pieces, {works} works, not so {}",
        out.len()
    );
    assert!(out.is_empty(), "{}", out.join("\n"));
}

#[test]
fn drafts_of_every_example() {
    hold("examples, bare", &examples(), 2);
}

#[test]
fn drafts_of_every_example_as_it_is_planned() {
    let all = cordonry_tests::examples::all().into_iter();
    let plans = all.filter(|(name, _)| name.ends_with(".json"));
    let read = |text: String| cordonry::file::read_plan(text.as_bytes()).expect("a plan");
    let rows: Vec<(String, Plan)> = plans.map(|(name, text)| (name, read(text))).collect();
    hold("examples", &rows, 2);
}

#[test]
fn drafts_of_plausible_rows() {
    hold("plausible", &numbered((0..200).map(plausible)), 1);
}

#[test]
fn drafts_of_extreme_rows() {
    hold("extreme", &numbered(extreme(60)), 1);
}
