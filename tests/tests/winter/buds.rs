//! Where remedies keep buds: on last season's wood above its blind base; on older wood they notch, and tell what comes of it.

use super::rows::{examples, extreme, plausible};
use super::{at, found};
use cordonry::check::{Context, Finding, check, mended};
use cordonry::plan::Plan;
use cordonry::row::Shoot;
use cordonry::said::Arg;
use cordonry::work::Work;
use std::collections::BTreeMap;

/// Length at the base of a season's growth, mm, that brings no bud: the lesser of the 15 to 20 cm from memory.
const BLIND: f64 = 150.0;

/// How many seasons old the wood is at a place along a shoot, and how far that is from where the season's growth begins.
fn wood_at(shoot: &Shoot, at: f64, leaf: u8) -> (u8, f64) {
    let mut begins = 0.0;
    for unit in &shoot.units {
        if at <= begins + unit.kept {
            return (leaf - unit.leaf, at - begins);
        }
        begins += unit.kept;
    }
    panic!("{at} is beyond the tip");
}

/// How many buds and notches its remedies ask for; what of that is wrong is told.
fn hold(name: &str, plan: &Plan, findings: &[Finding], wrong: &mut Vec<String>) -> [usize; 2] {
    let row = at(plan).row;
    let mut counts = [0, 0];
    for f in findings {
        for remedy in &f.remedies {
            let mut takes: Vec<f64> = Vec::new();
            for work in &remedy.work {
                let (tree, shoot, at_mm, notch) = match *work {
                    Work::KeepBud { tree, shoot, at_mm } => (tree, shoot, at_mm, false),
                    Work::Notch { tree, shoot, at_mm } => (tree, shoot, at_mm, true),
                    _ => continue,
                };
                let (_, wood) = row.shoot(tree, shoot).expect("wood that is there");
                let (seasons, along) = wood_at(wood, at_mm.f(), row.leaf);
                counts[usize::from(notch)] += 1;
                if along < BLIND || notch != (seasons > 1) {
                    wrong.push(format!(
                        "{name}, {}: {work:?} in {seasons}, {along}",
                        f.rule
                    ));
                }
                if notch {
                    takes.push(if seasons == 2 { 0.5 } else { 0.25 });
                }
            }
            let told = match remedy.said.arg("notched") {
                Some(Arg::Said(said)) => match (said.arg("count"), said.arg("share")) {
                    (Some(Arg::Count(n)), Some(Arg::Share(share))) => Some((*n as usize, *share)),
                    other => panic!("{other:?}"),
                },
                _ => None,
            };
            let sum: f64 = takes.iter().sum();
            let expected = (!takes.is_empty()).then(|| (takes.len(), sum / takes.len() as f64));
            if told != expected {
                wrong.push(format!("{name}, {}: {told:?}, not {expected:?}", f.rule));
            }
        }
    }
    counts
}

#[test]
fn no_remedy_keeps_a_bud_where_none_is() {
    let mut wrong = Vec::new();
    let mut counts = [0, 0];
    let numbered = |name: &'static str, plans: Vec<Plan>| {
        let plans = plans.into_iter().enumerate();
        plans.map(move |(i, plan)| (format!("{name} {i}"), plan))
    };
    let rows = examples()
        .into_iter()
        .chain(numbered("plausible", (0..200).map(plausible).collect()))
        .chain(numbered("extreme", extreme(200)));
    for (name, plan) in rows {
        let there = at(&plan);
        let findings = check(&Context::of(&there));
        let [buds, notches] = hold(&name, &plan, &findings, &mut wrong);
        counts = [counts[0] + buds, counts[1] + notches];
    }
    println!("{} buds, {} notches", counts[0], counts[1]);
    assert!(
        wrong.is_empty(),
        "{} wrong: {:#?}",
        wrong.len(),
        &wrong[..wrong.len().min(10)]
    );
    assert!(counts.iter().all(|n| *n > 100), "{counts:?}");
}

/// What is notched is no upright yet: the finding stays, as a note, and asks for no second notch.
#[test]
fn a_notch_leaves_its_finding_as_a_note() {
    let mut notched = 0;
    for seed in 0..60 {
        let plan = plausible(seed);
        let offers = found(&plan, &at(&plan), false);
        let notch = |f: &&Finding| {
            let first = f.remedies.first();
            let all = |w: &Work| matches!(w, Work::Notch { .. });
            f.rule == "uprights-too-far" && first.is_some_and(|r| r.work.iter().all(all))
        };
        let by_place: BTreeMap<i64, &Finding> = offers
            .iter()
            .filter(notch)
            .map(|f| (f.x as i64, f))
            .collect();
        for (place, finding) in by_place {
            let plan =
                mended(&plan, 0, plan.start(), &[&finding.remedies[0]]).expect("it can be done");
            let after = check(&Context::of(&at(&plan)));
            let same = |f: &&Finding| f.rule == finding.rule && f.x as i64 == place;
            let left = after.iter().find(same).expect("it waits");
            assert_eq!(
                (left.measured, left.subjects.clone()),
                (finding.measured, finding.subjects.clone())
            );
            assert!(
                left.severity < finding.severity && left.remedies.is_empty(),
                "{left:#?}"
            );
            assert!(matches!(
                left.args.iter().find(|a| a.0 == "notched"),
                Some((_, Arg::Said(_)))
            ));
            notched += 1;
        }
    }
    println!("{notched} notched");
    assert!(notched > 10);
}
