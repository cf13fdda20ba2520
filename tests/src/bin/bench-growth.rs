//! Times growth: 300 trees from planting through ten leaves of usual work, and one tree of them. Prints one object a line. The
//! anchor of the row is the bound that it is to keep; that of one tree, the whole row's time over its trees.

use cordonry::fruit::{Crop, fruit};
use cordonry::plan::{Moment, Phase, Window, replay};
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
}
