//! Which remedies are offered on the examples, and what becomes of the row.

use cordonry::advise::draft;
use cordonry::check::{
    Context, Finding, Remedy, Severity, Withheld, check, mended, offered, settled, tried_told,
};
use cordonry::file::{csv, read_plan};
use cordonry::plan::{Phase, Plan, Replayer, replay};

fn example(name: &str) -> Plan {
    let path = format!("{}/../examples/{name}.json", env!("CARGO_MANIFEST_DIR"));
    read_plan(&std::fs::read(path).unwrap()).unwrap()
}

/// What is found at the plan's start, with all its remedies or with those that are offered.
fn found(plan: &Plan, tried: bool) -> Vec<Finding> {
    let at = replay(plan, 0, plan.start()).unwrap();
    let all = check(&Context::of(&at));
    match tried {
        true => offered(plan, 0, &at, all),
        false => all,
    }
}

fn of_rule(findings: Vec<Finding>, rule: &str) -> Vec<Finding> {
    findings.into_iter().filter(|f| f.rule == rule).collect()
}

/// Two spaces that end at one upright are two findings: what mends one mends something, whatever becomes of the other.
#[test]
fn a_bud_between_is_offered_in_the_first_of_two_wide_spaces_side_by_side() {
    let plan = example("missed-bud-removal");
    let start = plan.start();
    let few = found(&plan, true);
    // Where a tree has too few uprights that comes first; without it the spaces are what is left.
    let first: Vec<_> = few
        .iter()
        .filter(|f| f.rule == "uprights-too-few")
        .filter_map(|f| f.remedies.first())
        .collect();
    let plan = mended(&plan, 0, start, &first).unwrap();
    // A space that is notched stays as a note until its buds grow.
    let wide = |plan: &Plan, tried: bool| {
        let mut all = of_rule(found(plan, tried), "uprights-too-far");
        all.retain(|f| f.severity > Severity::Note);
        all
    };
    let all = wide(&plan, false);
    let two = all
        .windows(2)
        .find(|w| (w[0].x + w[0].width - w[1].x).abs() < 1.0 && !w[0].remedies.is_empty())
        .expect("two spaces side by side");
    let same = |f: &&Finding| (f.x - two[0].x).abs() < 1.0;
    let offers = wide(&plan, true);
    let offer = offers.iter().find(same).expect("the same space");
    assert!(!offer.remedies.is_empty(), "{offer:#?}");
    let after = mended(&plan, 0, start, &[&offer.remedies[0]]).unwrap();
    let left = wide(&after, false);
    assert_eq!(left.len(), all.len() - 1);
}

/// What is cut back to buds grows anew: it is not held against those that stay.
#[test]
fn cutting_the_odd_one_back_leaves_its_tree_even() {
    let plan = example("missed-bud-removal");
    let uneven = of_rule(found(&plan, true), "uprights-uneven");
    let (finding, remedy) = uneven
        .iter()
        .find_map(|f| Some((f, f.remedies.first()?)))
        .expect("a tree with an odd one");
    let after = mended(&plan, 0, plan.start(), &[remedy]).unwrap();
    let still = of_rule(found(&after, false), "uprights-uneven");
    let tree = finding.subjects[0].tree;
    assert!(
        still.iter().all(|f| f.subjects[0].tree != tree),
        "{still:#?}"
    );
}

/// A row on which a thick upright stands in the bend just under the wire: thinner wood would be bent where it begins.
fn in_the_bend() -> Plan {
    let table = "coming leaf,3\nrow from,0.00 m\nrow to,2.20 m\nwire,0.50 m,plastic\nwall height,2.50 m\n\n\
        tree,place (m),kind,length (m),diameter (mm),side,pose,season\n\
        1,0.20,leader,1.50 + 0.54,36,right,45 laid,0\n\
        1,0.75,upright,1.17,16,,,2\n1,0.95,upright,0.66 + 0.61,15,,,1\n\
        1,1.23,upright,0.52 + 0.47,12,,,1\n1,1.60,upright,0.49,8,,,2\n";
    let measured = csv::read(table.as_bytes(), &csv::Options::default()).unwrap();
    measured.plan("a row")
}

/// A thick upright that stands in the bend just under the wire: laid backward, a few centimetres would be all the room it has to bend.
#[test]
fn what_would_break_in_the_bend_is_not_laid_backward() {
    let plan = in_the_bend();
    let lays = |tried: bool| {
        let gaps = of_rule(found(&plan, tried), "cordon-gap").into_iter();
        let keys = gaps.flat_map(|f| f.remedies).map(|r| r.said.key);
        keys.filter(|key| *key == "remedy-fill-backward").count()
    };
    assert!(lays(false) > 0, "one is thought of");
    let gaps = of_rule(found(&plan, true), "cordon-gap");
    for remedy in gaps.iter().flat_map(|f| &f.remedies) {
        let after = mended(&plan, 0, plan.start(), &[remedy]).unwrap();
        let broken = of_rule(found(&after, false), "bend-too-tight");
        assert!(broken.is_empty(), "{remedy:?} {broken:#?}");
    }
    // Done all the same, it is to be seen to, for it can still be taken back.
    let gaps = of_rule(found(&plan, false), "cordon-gap");
    let after = |remedy| mended(&plan, 0, plan.start(), &[remedy]).unwrap();
    let remedies = gaps.iter().flat_map(|f| &f.remedies);
    let broken: Vec<Finding> = remedies
        .flat_map(|r| of_rule(found(&after(r), false), "bend-too-tight"))
        .collect();
    assert!(!broken.is_empty(), "one would break it");
    assert!(broken.iter().all(|f| f.severity == Severity::Soon));
}

/// A tree's uprights are to be tipped and one of them is to be laid: the tips wait for that, and are offered once it is done.
#[test]
fn what_does_not_go_with_what_is_offered_first_is_told_to_wait() {
    let table = "coming leaf,2\nrow from,0.49 m\nrow to,1.99 m\nwire,0.50 m,plastic\nwall height,2.50 m\nlast growth tipped,no\n\n\
        tree,place (m),kind,length (m),diameter (mm),side,pose,season\n\
        1,-0.01,leader,1.49 + 0.48,23,right,45 laid,0\n1,0.54,upright,0.56,6,,,1\n1,0.75,upright,0.66,6,,,1\n\
        1,0.92,upright,0.66,9,,,1\n1,1.15,upright,0.58,6,,,1\n1,1.38,upright,0.53,6,,,1\n1,1.60,upright,0.51,8,,,1\n";
    let measured = csv::read(table.as_bytes(), &csv::Options::default()).unwrap();
    let mut plan = measured.plan("a row");
    let mut waited = 0;
    for _ in 0..3 {
        let at = replay(&plan, 0, plan.start()).unwrap();
        let all = check(&Context::of(&at));
        let (offers, withheld) = tried_told(&plan, 0, &at, &all);
        let tips = all.iter().position(|f| f.rule == "tipping-due");
        let Some(tips) = tips else { break };
        let waits = withheld.contains(&(tips, Withheld::Waits));
        assert_eq!(waits, offers[tips].is_empty(), "{withheld:?}");
        waited += usize::from(waits);
        let offered = offered(&plan, 0, &at, all);
        let firsts: Vec<&Remedy> = offered.iter().filter_map(|f| f.remedies.first()).collect();
        plan = mended(&plan, 0, plan.start(), &firsts).unwrap();
    }
    assert_eq!(waited, 1);
    assert!(of_rule(found(&plan, false), "tipping-due").is_empty());
}

/// What is told of a remedy that is not offered is what it does: found after it, and not as grave before.
#[test]
fn what_a_remedy_that_does_harm_makes_graver_is_told() {
    let names = ["opposed-leans", "short-stock", "uneven-uprights"];
    let plans = names.into_iter().map(|name| (example(name), false));
    let plans = plans.chain([(in_the_bend(), true)]);
    let mut told: Vec<(&str, &str)> = Vec::new();
    for (plan, breaking) in plans {
        let at = replay(&plan, 0, plan.start()).unwrap();
        let mut all = check(&Context::of(&at));
        for finding in &mut all {
            let breaks = |r: &Remedy| {
                let after = mended(&plan, 0, plan.start(), &[r]).unwrap();
                !of_rule(found(&after, false), "bend-too-tight").is_empty()
            };
            finding.remedies.retain(|r| !breaking || breaks(r));
        }
        let (offers, withheld) = tried_told(&plan, 0, &at, &all);
        for (place, why) in withheld {
            let Withheld::Graver(finding) = why else {
                continue;
            };
            assert!(offers[place].is_empty());
            let again = |f: &Finding| f.is_again(&finding) && f.severity == finding.severity;
            let was = all.iter().any(|f| again(f) && f.args == finding.args);
            let comes = |remedy| {
                let next = mended(&plan, 0, plan.start(), &[remedy]).ok();
                let found =
                    next.map(|next| check(&Context::of(&replay(&next, 0, plan.start()).unwrap())));
                found.is_some_and(|found| found.iter().any(again))
            };
            let comes = all[place].remedies.iter().any(comes);
            let by = all[place].rule;
            assert!(comes && !was, "{} by {by}: {comes} {was}", finding.rule);
            told.push((by, finding.rule));
        }
    }
    assert!(told.contains(&("cordon-gap", "bend-too-tight")), "{told:?}");
    assert!(
        told.contains(&("uprights-too-close", "uprights-too-few")),
        "{told:?}"
    );
}

/// Whatever is planned: what its work mends does not stand after it.
#[test]
fn what_the_work_of_a_moment_mends_is_settled_by_it() {
    let plan = example("overdue-renewal");
    let at = |plan: &Plan| {
        Replayer::default()
            .at(plan, 0, plan.start(), Phase::Before)
            .unwrap()
    };
    let found = check(&Context::of(&at(&plan)));
    let all: Vec<&Finding> = found.iter().collect();
    let none = settled(&plan, 0, plan.start(), &all).unwrap();
    assert!(none.iter().all(|settled| !settled), "nothing is planned");
    let drafted = draft(&plan, 0, plan.start()).unwrap().plan;
    let by = settled(&drafted, 0, plan.start(), &all).unwrap();
    let due = |f: &Finding| f.rule == "renewal-due";
    let each = || found.iter().zip(&by);
    assert!(each().any(|(f, _)| due(f)) && each().all(|(f, settled)| !due(f) || *settled));
    assert!(by.iter().any(|settled| !settled), "it does not mend all");
}
