//! The year strip: what it says of each leaf, and what an edit moves.

mod common;

use common::{END, TREE, desk, plan};
use cordonry::file::write_plan;
use cordonry::plan::{Moment, Plan, Window};
use cordonry::work::Work;
use cordonry_page::desk::Desk;
use cordonry_page::document::Edit;
use cordonry_page::years::{Cell, cells};
use cordonry_words::Words;
use kurbo::Point;

fn told(desk: &Desk) -> Vec<Cell> {
    cells(desk, None, &Words::strict())
}

/// The example without rules.
fn without_rules() -> Desk {
    let plan = plan().with_standing(0, false).expect("it has a scheme");
    Desk::new(plan).expect("it has a scheme")
}

fn at(leaf: u8, window: Window) -> Moment {
    Moment { leaf, window }
}

/// The leaves whose crop differs.
fn moved(a: &Desk, b: &Desk) -> Vec<u8> {
    let (a, b) = (a.years(), b.years());
    let pairs = a.iter().zip(b.iter());
    pairs
        .filter(|(a, b)| a.crop_t_per_ha != b.crop_t_per_ha)
        .map(|(a, _)| a.leaf)
        .collect()
}

#[test]
fn leaves_run_from_the_found_one_to_the_tenth_or_five_beyond() {
    let leaves = |desk: &Desk| told(desk).iter().map(|c| c.leaf).collect::<Vec<_>>();
    assert_eq!(leaves(&desk()), (3..=10).collect::<Vec<_>>());
    let mut late = plan();
    let mut found = (*late.found).clone();
    found.leaf = 7;
    late.found = found.into();
    let late = Desk::new(late).expect("it has a scheme");
    assert_eq!(leaves(&late), (7..=12).collect::<Vec<_>>());
}

#[test]
fn a_crop_is_about_until_its_range_is_known_and_never_a_bare_number() {
    let desk = desk();
    let ranges: Vec<(f64, f64)> = desk
        .years()
        .iter()
        .map(|y| (y.crop_t_per_ha * 0.5, y.crop_t_per_ha * 1.5))
        .collect();
    let known = cells(&desk, Some(&ranges), &Words::strict());
    for (cell, known) in told(&desk).iter().zip(&known) {
        let bears = cell.crop != "no crop";
        assert_eq!(cell.crop.starts_with("≈ "), bears, "{cell:?}");
        assert_eq!(cell.range, "");
        assert_eq!(known.range.is_empty(), !bears, "{known:?}");
        assert!(!known.crop.contains("about"), "{known:?}");
    }
    assert!(known.last().expect("leaves").crop.ends_with(" t/ha"));
}

#[test]
fn planned_and_usual_work_are_told_apart_and_a_window_is_given_back() {
    let mut desk = desk();
    let kinds = |desk: &Desk| told(desk).iter().map(|c| c.planned).collect::<Vec<_>>();
    assert_eq!(kinds(&desk)[..2], ["planned", "usual"]);
    desk.look_at(at(5, Window::Dormant));
    assert!(desk.scene().stands());
    let usual = desk.scene().works();
    assert!(!usual.is_empty(), "the usual work is listed");
    let before = (write_plan(desk.plan()), told(&desk));
    let work = usual[..1].to_vec();
    desk.edit(&Edit::take_back(work)).expect("it is taken back");
    assert!(!desk.scene().stands());
    assert_eq!(desk.scene().works(), usual[1..]);
    assert_eq!(kinds(&desk)[2], "part");
    desk.edit(&Edit::stand_again()).expect("it is given back");
    assert!(desk.scene().stands());
    assert_eq!((write_plan(desk.plan()), told(&desk)), before);
    assert_eq!(desk.undo().as_deref(), Some("step-stand-again"));
    assert_eq!(desk.undo().as_deref(), Some("step-take-back"));
    assert_eq!((write_plan(desk.plan()), told(&desk)), before);
}

#[test]
fn a_scheme_without_rules_is_offered_the_usual_work() {
    let mut desk = without_rules();
    assert!(told(&desk).iter().all(|c| c.planned == "planned"));
    let untrained = "nobody trains it: its crop is told too high";
    assert!(told(&desk)[1..].iter().all(|c| c.work == untrained));
    desk.edit(&Edit::usual_work()).expect("it stands");
    assert_eq!(told(&desk)[1].planned, "usual");
    assert_eq!(desk.undo().as_deref(), Some("step-usual-work"));
    assert!(told(&desk).iter().all(|c| c.planned == "planned"));
}

#[test]
fn work_moves_its_own_leaf_and_later_ones_and_undo_moves_them_back() {
    let (mut desk, before) = (desk(), desk());
    desk.look_at(at(4, Window::Dormant));
    let upright = desk.scene().places.first().map(|p| (p.tree, p.shoot));
    let (tree, shoot) = upright.expect("uprights stand");
    desk.edit(&Edit::work(
        "step-remove",
        vec![Work::Remove { tree, shoot }],
    ))
    .expect("it comes off");
    assert_eq!(moved(&desk, &before).first(), Some(&4));
    assert!(
        moved(&desk, &before).len() > 3,
        "{:?}",
        moved(&desk, &before)
    );
    desk.undo();
    assert!(moved(&desk, &before).is_empty());
}

#[test]
fn what_a_hand_does_moves_the_leaves_while_it_moves() {
    let (mut desk, before) = (desk(), desk());
    assert!(desk.take(TREE, END));
    let base = desk.scene().course(TREE, END).expect("it is there").base;
    desk.drag(Point::new(base.x + 512.0, base.y), true);
    assert!(desk.is_holding());
    assert!(!moved(&desk, &before).is_empty());
    let held = told(&desk);
    desk.let_go();
    assert_eq!(told(&desk), held, "exact in the hand");
    let anew = Desk::new(Plan::clone(desk.plan())).expect("it has a scheme");
    assert_eq!(told(&anew), held);
}

#[test]
fn a_hand_in_a_standing_window_plans_it_and_a_dropped_one_does_not() {
    let mut desk = desk();
    desk.look_at(at(4, Window::Dormant));
    let before = write_plan(desk.plan());
    assert!(desk.scene().stands());
    let usual = desk.scene().works();
    assert!(desk.take(TREE, END));
    let tip = desk.scene().course(TREE, END).expect("it is there").tip();
    desk.drag(Point::new(tip.x - 200.0, tip.y + 400.0), false);
    assert!(!desk.scene().stands());
    let both = desk.scene().works();
    assert!(usual.iter().filter(|w| both.contains(w)).count() + 1 >= usual.len());
    desk.drop_hold();
    assert_eq!(write_plan(desk.plan()), before);
    assert!(desk.scene().stands());
}

#[test]
fn work_is_short_in_its_card_and_whole_where_the_pointer_rests() {
    let desk = desk();
    let cells = told(&desk);
    // The first kind is told whole, and how many more there are.
    let kinds = |whole: &str| whole.matches(" · ").count();
    let many = cells.iter().find(|c| kinds(&c.work_whole) > 1);
    let many = many.expect("a leaf of many kinds");
    assert!(
        many.work
            .ends_with(&format!(" +{}", kinds(&many.work_whole))),
        "{many:?}"
    );
    for cell in &cells {
        let first = cell.work.split(" +").next().expect("a piece");
        let whole = cell.work_whole.replace('\u{a0}', " ");
        assert!(whole.contains(first), "{cell:?}");
        assert!(
            whole.starts_with(["planned", "usual", "part"][usize::from(cell.leaf > 3)]),
            "{cell:?}"
        );
    }
}

#[test]
fn a_crop_of_a_row_that_nobody_trains_says_so_and_wood_that_is_too_old_until_when() {
    let idle = without_rules();
    for cell in &told(&idle)[2..] {
        assert!(cell.off.contains("doubted"), "{cell:?}");
        assert!(
            cell.crop_whole.contains("Nobody trains the row"),
            "{cell:?}"
        );
        assert_eq!(cell.work, "nobody trains it: its crop is told too high");
    }
    let last = told(&idle).pop().expect("leaves");
    assert!(last.off.contains("old"), "{last:?}");
    assert!(
        last.oldest_whole
            .contains("does not keep to it up to leaf 10"),
        "{last:?}"
    );
    let desk = desk();
    for cell in told(&desk) {
        assert!(
            !cell.off.contains("doubted") || cell.crop_whole.contains("not filled"),
            "{cell:?}"
        );
        assert!(cell.oldest_whole.contains("in winter"), "{cell:?}");
    }
}
