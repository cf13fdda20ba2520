//! Times growth: 300 trees from planting through ten leaves of usual work, and one tree of them. Prints one object a line. The
//! anchor of the row is the bound that it is to keep; that of one tree, the whole row's time over its trees.

use cordonry::forecast::Forecast;
use cordonry::fruit::{Crop, fruit};
use cordonry::plan::{Moment, Phase, Window, replay};
use cordonry::work::Work;
use cordonry_fixture::seasons::Usual;
use cordonry_tests::timing::{best, say};
use std::hint::black_box;

const TREES: u32 = 300;
const LEAVES: u8 = 10;
/// The bound of the whole, ms.
const BOUND: f64 = 80.0;

fn main() {
    let usual = Usual {
        trees: TREES,
        ..Usual::default()
    };
    let plan = usual.plan(LEAVES);
    let last = Moment {
        leaf: LEAVES,
        window: Window::AfterHarvest,
    };
    let end = replay(&plan, 0, last).expect("it replays");
    assert!(end.void.is_empty(), "{:?}", end.void.first());
    let whole = best(7, || {
        black_box(replay(&plan, 0, last).expect("it replays"));
    });
    say(
        "300 trees through ten leaves of usual work, from nothing; bound",
        "ms",
        whole,
        BOUND,
    );
    let bare = {
        let mut bare = plan.clone();
        let none = cordonry::plan::Scheme::default();
        bare.schemes = vec![std::sync::Arc::new(none)];
        best(7, || {
            black_box(replay(&bare, 0, last).expect("it replays"));
        })
    };
    say(
        "the same of trees that nobody works on, which branch far more; bound",
        "ms",
        bare,
        BOUND,
    );
    let one = Usual { trees: 1, ..usual };
    let alone = one.plan(LEAVES);
    let tree = best(50, || {
        black_box(replay(&alone, 0, last).expect("it replays"));
    });
    say(
        "one tree; the row's time over its trees",
        "ms",
        tree,
        whole / f64::from(TREES),
    );
    let crops = best(7, || {
        let states = plan.timeline(0, last).expect("there is the scheme");
        for state in states.filter(|s| s.phase == Phase::After) {
            if state.moment.window == Window::EarlySummer {
                for tree in &state.row.trees {
                    let borne = fruit(tree, state.moment.leaf, &state.terms);
                    black_box(Crop::of(borne, tree, state.moment.leaf, &state.terms));
                }
            }
        }
    });
    say(
        "the same in one pass with every leaf's crop; from nothing without",
        "ms",
        crops,
        whole,
    );
    let figures = best(7, || {
        black_box(Forecast::default().of(&plan, 0, LEAVES).expect("a scheme"));
    });
    say(
        "300 trees' figures of ten leaves, from nothing; bound",
        "ms",
        figures,
        BOUND,
    );
    for trees in [40, TREES, 1000] {
        followed(&Usual { trees, ..usual });
    }
}

/// What the leaves of a row cost again after each of some edits of one tree in its second leaf, as a hand does it that moves.
fn followed(usual: &Usual) {
    let plan = usual.plan(LEAVES);
    let moment = Moment::dormant(2);
    let tree = plan.found.trees[plan.found.trees.len() / 2].id;
    let row = replay(&plan, 0, moment).expect("it replays").row;
    let shoot = row
        .tree(tree)
        .and_then(|t| t.shoots.iter().rfind(|s| s.length() > 300.0))
        .expect("it has shoots");
    let edits: Vec<_> = (10..40)
        .map(|percent| {
            let tip = Work::Tip {
                tree,
                shoot: shoot.id,
                percent,
            };
            plan.with_work(0, moment, tip).expect("it can be tipped")
        })
        .collect();
    let mut kept = Forecast::default();
    black_box(kept.of(&plan, 0, LEAVES).expect("a scheme"));
    let mut next = edits.iter().cycle();
    let time = best(60, || {
        let edit = next.next().expect("without end");
        black_box(kept.of(edit, 0, LEAVES).expect("a scheme"));
    });
    say(
        &format!(
            "ten leaves' figures of {} trees after an edit of one; bound",
            usual.trees
        ),
        "ms",
        time,
        1.0,
    );
}
