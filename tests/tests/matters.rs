//! Matters of rows whose causes are known: the examples.

use cordonry::check::{Context, Finding, Matter, Severity, Size, matters, offered, survey};
use cordonry::file::{
    csv::{Options, read},
    read_plan,
};
use cordonry::plan::{Plan, replay};
use cordonry::row::TreeId;
use cordonry::work::Work;
use cordonry_words::Words;
use std::path::Path;
use std::sync::Arc;

fn example(name: &str) -> Vec<u8> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../examples")
        .join(name);
    std::fs::read(path).unwrap()
}

fn matters_of(plan: &Plan) -> (Vec<Finding>, Vec<Matter>) {
    let at = replay(plan, 0, plan.start()).unwrap();
    let seen = survey(&Context::of(&at), None);
    let findings = offered(plan, 0, &at, seen.findings);
    let all: Vec<&Finding> = findings.iter().collect();
    let found = matters(&at.row, &seen.cover, &at.targets, &all, &plan.left);
    (findings, found)
}

fn measured() -> Plan {
    let read = read(&example("measured-40.csv"), &Options::default()).unwrap();
    read.plan("measured-40")
}

#[test]
fn a_measured_row_has_a_dozen_matters_and_not_its_many_findings() {
    let (findings, found) = matters_of(&measured());
    assert!(findings.len() > 100, "{} findings", findings.len());
    assert!(
        (8..=15).contains(&found.len()),
        "{} matters: {found:#?}",
        found.len()
    );
    assert_eq!(found[0].cause.name, "tree-lost");
    assert_eq!(found[0].cause.tree, Some(TreeId(17)));
    let Size::Wire(bare) = found[0].size else {
        panic!("{:?}", found[0].size);
    };
    assert!((bare - 1570.0).abs() < 10.0, "{bare}");
}

#[test]
fn a_lost_tree_is_one_matter_about_that_tree() {
    let plan = read_plan(&example("lost-tree.json")).unwrap();
    let (findings, found) = matters_of(&plan);
    let lost: Vec<&Matter> = found
        .iter()
        .filter(|m| m.cause.name == "tree-lost")
        .collect();
    assert_eq!(lost.len(), 1);
    assert_eq!(lost[0].cause.tree, Some(TreeId(5)));
    assert_eq!(lost[0].severity, Severity::Now);
    let rules: Vec<&str> = lost[0].findings.iter().map(|i| findings[*i].rule).collect();
    for rule in ["cordon-gap", "cordon-fill-due"] {
        assert!(rules.contains(&rule), "{rule} is not in {rules:?}");
    }
    let all: Vec<&Finding> = findings.iter().collect();
    let words = Words::strict().matter(lost[0], &all);
    assert!(words.starts_with("Tree 5 is lost"), "{words}");
}

#[test]
fn a_sampled_rows_filled_in_trees_are_one_matter() {
    let mut plan = measured();
    let row = Arc::make_mut(&mut plan.found);
    for tree in row
        .trees
        .iter_mut()
        .filter(|t| t.id.0 % 10 != 1 && !t.is_lost())
    {
        Arc::make_mut(tree).like = Some(TreeId(1));
    }
    let (findings, found) = matters_of(&plan);
    let filled: Vec<&Matter> = found
        .iter()
        .filter(|m| m.cause.name == "filled-in")
        .collect();
    assert_eq!(filled.len(), 1);
    assert!(
        filled[0].findings.len() > 60,
        "{}",
        filled[0].findings.len()
    );
    let all: Vec<&Finding> = findings.iter().collect();
    let words = Words::strict().matter(filled[0], &all);
    assert!(words.contains("filled in from a sample"), "{words}");
    // What is known of the measured trees is told as ever.
    let measured = |m: &&Matter| m.parts.iter().all(|p| p.tree.0 % 10 == 1);
    let own = found.iter().filter(|m| !m.parts.is_empty());
    assert!(own.filter(measured).count() > 1, "{found:#?}");
}

#[test]
fn what_changes_of_a_left_matter_comes_back_and_the_rest_stays_left() {
    let plan = measured();
    let (findings, found) = matters_of(&plan);
    let all: Vec<&Finding> = findings.iter().collect();
    let laterals = found
        .iter()
        .find(|m| m.cause.name == "laterals-due")
        .unwrap();
    let count = laterals.findings.len();
    let plan = plan
        .with_left(&laterals.left(&all, plan.found.leaf, "no hands this winter".into()))
        .unwrap();
    let of = |plan: &Plan| {
        let (_, found) = matters_of(plan);
        let own = |left: Option<usize>| {
            let own = found
                .iter()
                .filter(|m| m.left == left && m.cause.name == "laterals-due");
            own.map(|m| m.findings.len()).sum::<usize>()
        };
        (own(None), own(Some(0)))
    };
    assert_eq!(of(&plan), (0, count));
    // One of a tree's uprights is cleared: that tree comes back with the other.
    let of_two = |f: &&Finding| f.subjects.len() > 1;
    let mut all = laterals.findings.iter().map(|i| &findings[*i]);
    let first = all.find(of_two).expect("a tree with two").subjects[0];
    let clear = Work::TakeLaterals {
        tree: first.tree,
        shoot: first.shoot.unwrap(),
    };
    let worked = plan.with_works(0, plan.start(), vec![clear]);
    let worked = worked.unwrap();
    assert_eq!(of(&worked), (1, count - 1));
    // In the next leaf nothing is left.
    let mut later = plan.clone();
    Arc::make_mut(&mut later.found).leaf += 1;
    let (_, found) = matters_of(&later);
    assert!(found.iter().all(|m| m.left.is_none()));
}

#[test]
fn one_press_does_the_first_remedy_of_each_and_none_twice() {
    let plan = read_plan(&example("opposed-leans.json")).unwrap();
    // Before they are tried both rules have the remedies of one gap.
    let at = replay(&plan, 0, plan.start()).unwrap();
    let seen = survey(&Context::of(&at), None);
    let findings = &seen.findings;
    let all: Vec<&Finding> = findings.iter().collect();
    let found = matters(&at.row, &seen.cover, &at.targets, &all, &plan.left);
    let leans = found
        .iter()
        .find(|m| m.cause.name == "leans-opposed")
        .unwrap();
    let rules: Vec<&str> = leans.findings.iter().map(|i| findings[*i].rule).collect();
    assert!(
        rules.contains(&"cordon-gap") && rules.contains(&"leans-opposed"),
        "{rules:?}"
    );
    let firsts = leans.first_remedies(|i| &findings[i].remedies);
    for (n, (_, one)) in firsts.iter().enumerate() {
        assert!(firsts[..n].iter().all(|(_, other)| other.work != one.work));
    }
    assert!(
        firsts.len()
            < leans
                .findings
                .iter()
                .filter(|i| !findings[**i].remedies.is_empty())
                .count()
    );
}
