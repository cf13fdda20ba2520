//! Drafts taken in part: what hangs on a piece that is not taken goes with it.

use super::lost::irregular;
use super::numbered;
use super::rows::{examples, plausible};
use cordonry::advise::{Draft, Piece, Taken, Why, draft};
use cordonry::check::{Context, check, figures};
use cordonry::plan::{Moment, Phase, Plan, Replayed, Replayer, Window};
use cordonry::row::TreeId;
use std::collections::BTreeSet;

fn at(plan: &Plan, moment: Moment) -> Replayed {
    let at = Replayer::default().at(plan, 0, moment, Phase::After);
    at.expect("a first scheme")
}

fn filled(plan: &Plan, moment: Moment) -> f64 {
    let at = at(plan, moment);
    let seen = figures(at.row.row(), &at.targets);
    seen.cordon_owed - seen.gap_total
}

/// What does not hold of a part of a draft.
fn broken(plan: &Plan, made: &Draft, taken: &Taken, moment: Moment, rule: &str) -> Vec<String> {
    let mut out = Vec::new();
    let (was, is) = (filled(plan, moment), filled(&taken.plan, moment));
    if is < was - 1.0 {
        out.push(format!("{:.0} mm less is filled", was - is));
    }
    for at_piece in &taken.pieces {
        let piece = &made.pieces[*at_piece];
        let Why::Found(finding) = &piece.why else {
            continue;
        };
        if finding.rule != rule {
            continue;
        }
        // What two pieces both mend is there without both.
        let without = taken
            .plan
            .without_work(0, moment, |w| piece.work.contains(w));
        let row = at(&without.expect("a plan"), moment);
        let there = check(&Context::of(&row)).into_iter().any(|f| {
            let trees = |f: &cordonry::check::Finding| -> BTreeSet<TreeId> {
                f.subjects.iter().map(|p| p.tree).collect()
            };
            f.rule == rule && !trees(&f).is_disjoint(&trees(finding))
        });
        if !there {
            out.push(format!("{:?} mends nothing", piece.work));
        }
    }
    out
}

fn hold(name: &str, rows: &[(String, Plan)], leaves: std::ops::Range<u8>) {
    let (mut parts, mut left, mut works) = (0, 0, 0);
    let mut out = Vec::new();
    for (row, plan) in rows {
        for leaf in leaves.clone() {
            let moment = Moment {
                leaf: plan.found.leaf + leaf,
                window: Window::Dormant,
            };
            let made = draft(plan, 0, moment).expect("a draft");
            let base = plan.with_planned(0, moment).expect("a first scheme");
            let kinds: BTreeSet<&str> = made.pieces.iter().map(Piece::kind).collect();
            let trees: BTreeSet<TreeId> = made.pieces.iter().flat_map(Piece::trees).collect();
            let mut hold = |what: String, goes: &dyn Fn(&Piece) -> bool| {
                let taken = made.taken(plan, |p| !goes(p)).expect("a part");
                let picked = made.pieces.iter().filter(|p| !goes(p)).count();
                assert_eq!(taken.pieces.len() + taken.left.len(), picked);
                parts += 1;
                works += picked;
                left += taken.left.len();
                let broken = broken(&base, &made, &taken, moment, "cordon-overlap");
                if !broken.is_empty() {
                    out.push(format!(
                        "{row}, leaf {}, without {what}: {}",
                        moment.leaf,
                        broken.join("; ")
                    ));
                }
            };
            for kind in kinds {
                hold(kind.into(), &|p| p.kind() == kind);
            }
            for tree in trees.into_iter().take(10) {
                hold(format!("tree {tree:?}"), &|p| p.trees().any(|t| t == tree));
            }
        }
    }
    println!(
        "{name}: {parts} parts, {works} pieces, {left} left out, not so {}",
        out.len()
    );
    assert!(out.is_empty(), "{}", out.join("\n"));
    assert!(left > 0 && left * 10 < works, "{left} of {works}");
}

#[test]
fn parts_of_drafts_of_every_example() {
    hold("examples", &examples(), 0..1);
}

#[test]
fn parts_of_drafts_of_plausible_rows() {
    hold("plausible", &numbered((0..100).map(plausible)), 0..1);
}

#[test]
fn parts_of_drafts_of_irregular_rows() {
    hold("irregular", &numbered((0..16).map(irregular)), 2..8);
}
