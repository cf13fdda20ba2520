//! Which remedies are offered on the examples, and what becomes of the row.

use cordonry::check::{Context, Finding, Severity, check, mended, offered};
use cordonry::file::read_plan;
use cordonry::plan::{Plan, replay};

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
