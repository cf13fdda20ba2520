//! Tips that are due: each is in a draft, or goes with what the draft does.

use super::rows::long;
use cordonry::advise::{Draft, Untipped, draft};
use cordonry::check::{Context, tips_due};
use cordonry::plan::{Phase, Plan, Replayer};
use cordonry::row::{Limit, Pose, TreeId};
use cordonry::sorted::Set;
use cordonry::standing::have_height;
use cordonry::work::Work;

#[test]
fn what_is_to_be_tipped_is_tipped_or_is_told_to_need_none() {
    let (mut tipped, mut untipped) = (0, 0);
    // What is thick is stubbed a leaf before renewal, and its tree is tipped no more: once by the usual thickness, once by thin wood.
    for (seed, thick) in (0..36).flat_map(|seed| [(seed, 15.0), (seed, 6.0)]) {
        let plan = long(seed, 60);
        let moment = plan.start();
        // Renewal and tips together take too much of the crop: once it has begun nothing is tipped.
        let begun = f64::from(moment.leaf) >= plan.targets.get(Limit::RenewalLeaf);
        let tips = |made: &Draft| {
            let mut work = made.pieces.iter().flat_map(|p| &p.work);
            work.any(|w| matches!(w, Work::Tip { .. }))
        };
        let made = draft(&plan, 0, moment).expect("a draft");
        assert!(!begun || !tips(&made), "row {seed}");
        let plan = plan
            .with_limit(Limit::RenewalThick, Some(thick))
            .expect("a limit");
        let at = |p: &Plan| {
            let at = Replayer::default().at(p, 0, moment, Phase::After);
            at.expect("a first scheme")
        };
        let made = draft(&plan, 0, moment).expect("a draft");
        let (before, after) = (at(&plan), at(&made.plan));
        let due = tips_due(&Context::of(&before));
        assert!(tips_due(&Context::of(&after)).is_empty(), "row {seed}");
        let work = made.pieces.iter().flat_map(|p| &p.work);
        let tip = work.filter(|w| matches!(w, Work::Tip { .. }));
        let done: Set<TreeId> = tip.filter_map(Work::tree).collect();
        let gone: Vec<&TreeId> = due.difference(&done).collect();
        let why = made.untipped(&plan).expect("trees");
        let said = match gone.len() {
            _ if begun => Some(Untipped::Renewing),
            0 => None,
            n => Some(Untipped::Trees(n)),
        };
        assert_eq!(why, said);
        for tree in &gone {
            let posed = after.row.of_tree(**tree).expect("it stands");
            let tree = posed.tree();
            let renewed = tree.shoots.iter().any(|s| s.pose == Pose::Stub);
            let uprights = posed.uprights().iter().map(|i| &posed.courses()[*i]);
            let tall = have_height(
                uprights.map(|c| c.tip().y),
                after.row.trellis.wall_height.f(),
            );
            assert!(
                renewed || tall,
                "row {seed}: {:?} has no stub, nor the wall's height",
                tree.id
            );
        }
        tipped += done.len();
        untipped += gone.len();
    }
    println!("{tipped} trees tipped, {untipped} need none");
    assert!(tipped > 100 && untipped > 100);
}
