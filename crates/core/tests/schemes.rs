//! Schemes are added, copied, named and removed; names tell them apart.

use cordonry::file::{read_plan, write_plan};
use cordonry::plan::{Moment, Plan, Window};
use cordonry::row::TreeId;
use cordonry::work::Work;
use cordonry_fixture::table as row;

fn plan() -> Plan {
    let found = row(
        "tree,place,kind,length,side,pose,season\n1,0,leader,1.5,right,45,0\n1,0.5,upright,0.6,,,1\n",
    );
    Plan::new("Row", found)
}

fn names(plan: &Plan) -> Vec<&str> {
    plan.schemes.iter().map(|s| s.name.as_str()).collect()
}

fn refused(outcome: Result<Plan, cordonry::refusal::Refusal>) -> &'static str {
    outcome.expect_err("it is refused").0.key
}

#[test]
fn one_is_added_without_work_and_stands_as_the_one_it_was_added_by() {
    let plain = plan().with_scheme_added(0).expect("there is room");
    assert_eq!(names(&plain), ["A", "B"]);
    assert_eq!(plain.schemes[1].standing, None);
    let begun = plan().begun().with_crop_from(0, Some(4.0)).expect("a leaf");
    let more = begun.with_scheme_added(0).expect("there is room");
    assert_eq!(more.schemes[1].standing, begun.schemes[0].standing);
    assert_eq!(more.schemes[1].crop_from, Some(4));
    assert!(more.schemes[1].schedule.is_empty());
    assert_eq!(more.schemes[0], begun.schemes[0]);
    let read = read_plan(write_plan(&more).as_bytes()).expect("it is read");
    assert_eq!(read, more);
}

#[test]
fn a_copy_has_all_work_and_leaves_the_other_as_it_is() {
    let at = Moment {
        leaf: plan().found.leaf,
        window: Window::Dormant,
    };
    let tree = TreeId(1);
    let stem = cordonry::row::ShootId::STEM;
    let rubbed = Work::RubOut { tree, shoot: stem };
    let plan = plan().with_work(0, at, rubbed).expect("it is done");
    let two = plan.with_scheme_copied(0).expect("there is room");
    assert_eq!(two.schemes[1].schedule, two.schemes[0].schedule);
    let taken = two.without_work(1, at, |_| true).expect("taken back");
    assert!(taken.schemes[1].schedule.is_empty());
    assert_eq!(taken.schemes[0], plan.schemes[0]);
}

#[test]
fn made_up_names_are_the_next_letter_or_the_next_number() {
    let mut two = plan().with_scheme_named(0, " Lay forward ").expect("named");
    assert_eq!(names(&two), ["Lay forward"]);
    for _ in 0..2 {
        two = two.with_scheme_copied(0).expect("there is room");
    }
    two = two.with_scheme_copied(1).expect("there is room");
    two = two.with_scheme_added(0).expect("there is room");
    two = two.with_scheme_copied(4).expect("there is room");
    let expected = [
        "Lay forward",
        "Lay forward 2",
        "Lay forward 3",
        "Lay forward 4",
        "A",
        "B",
    ];
    assert_eq!(names(&two), expected);
    let own = plan().with_scheme_named(0, "wall 2.5").expect("named");
    let copied = own.with_scheme_copied(0).expect("there is room");
    assert_eq!(names(&copied)[1], "wall 2.5 2");
}

#[test]
fn names_are_told_apart_and_none_is_empty() {
    let two = plan().with_scheme_added(0).expect("there is room");
    assert_eq!(
        refused(two.with_scheme_named(1, " A ")),
        "refusal-scheme-name"
    );
    assert_eq!(
        refused(two.with_scheme_named(1, " ")),
        "refusal-scheme-name"
    );
    let long = "x".repeat(Plan::MAX_TEXT + 1);
    assert_eq!(
        refused(two.with_scheme_named(1, &long)),
        "refusal-scheme-name"
    );
    assert_eq!(two.with_scheme_named(1, "B"), Ok(two.clone()));
    assert_eq!(refused(two.with_scheme_named(2, "C")), "refusal-scheme");
}

#[test]
fn any_but_the_only_one_goes_and_there_is_an_end_to_them() {
    let mut plan = plan();
    assert_eq!(refused(plan.without_scheme(0)), "refusal-scheme-last");
    while plan.schemes.len() < Plan::MAX_SCHEMES {
        plan = plan.with_scheme_added(0).expect("there is room");
    }
    assert_eq!(refused(plan.with_scheme_added(0)), "refusal-schemes");
    assert_eq!(refused(plan.with_scheme_copied(3)), "refusal-schemes");
    let less = plan.without_scheme(1).expect("another stays");
    assert_eq!(names(&less)[..2], ["A", "C"]);
    assert_eq!(
        names(&less.with_scheme_added(0).expect("room")).last(),
        Some(&"B")
    );
}

#[test]
fn half_a_leaf_is_no_first_leaf_that_bears() {
    let plan = plan();
    for leaf in [2.5, 0.0, 41.0] {
        assert!(plan.with_crop_from(0, Some(leaf)).is_err(), "{leaf}");
    }
    let from = plan.with_crop_from(0, Some(2.0)).expect("a leaf");
    assert_eq!(from.schemes[0].crop_from, Some(2));
}
