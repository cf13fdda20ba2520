//! The textbook's walls and the winter's work on them, as a grower would do it.

use cordonry::check::check;
use cordonry::check::{Context, Finding};
use cordonry::file::csv::{Options, read};
use cordonry::plan::{Phase, Plan, Replayed, Replayer};
use cordonry::row::Kind;
use cordonry::work::Work;

/// Heights of the walls, as their files are named.
pub const HEIGHTS: [&str; 2] = ["2.5", "3.0"];

/// The wall of that height as it is found in leaf 8, before the winter's work.
///
/// # Panics
/// A file that is not there, or lines in it that can't be taken.
pub fn found(height: &str) -> Plan {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/data/textbook");
    let bytes = std::fs::read(format!("{folder}/wall-{height}.csv"));
    let bytes = bytes.unwrap_or_else(|why| panic!("{height}: {why}"));
    let read = read(&bytes, &Options::default()).unwrap_or_else(|why| panic!("{height}: {why}"));
    assert_eq!(read.bad, [], "{height}");
    read.plan("textbook")
}

/// The row before or after the work of the plan's first winter.
///
/// # Panics
/// A plan without a scheme.
pub fn in_winter(plan: &Plan, phase: Phase) -> Replayed {
    let row = Replayer::default().at(plan, 0, plan.start(), phase);
    row.expect("the plan has a scheme")
}

/// The plan with a winter's work: stubs by the schedule, laterals off, and tips held at the wall's height, or tipped by a fifth
/// where they do not reach it yet.
///
/// # Panics
/// Work that can't be done.
pub fn worked(plan: &Plan) -> Plan {
    let at = plan.start();
    let done = |plan: &Plan, works: Vec<Work>| {
        let next = plan.with_works(0, at, works);
        next.unwrap_or_else(|why| panic!("{why}"))
    };
    let before = in_winter(plan, Phase::Before);
    let stubs = check(&Context::of(&before))
        .into_iter()
        .filter(|f| f.rule == "renewal-due")
        .flat_map(|f: Finding| f.remedies.into_iter().next())
        .flat_map(|remedy| remedy.work);
    let plan = done(plan, stubs.collect());
    let row = in_winter(&plan, Phase::After).row;
    let height_mm = row.trellis.wall_height;
    let mut works = Vec::new();
    for posed in row.posed() {
        let tree = posed.tree().id;
        for (s, course) in posed.tree().shoots.iter().zip(posed.courses()) {
            let shoot = s.id;
            if s.kind() != Kind::Upright {
                continue;
            }
            if s.laterals.count > 0 {
                works.push(Work::TakeLaterals { tree, shoot });
            }
            works.push(match course.tip().y > height_mm.f() {
                true => Work::HoldHeight {
                    tree,
                    shoot,
                    height_mm,
                },
                false => Work::Tip {
                    tree,
                    shoot,
                    percent: 20,
                },
            });
        }
    }
    done(&plan, works)
}
