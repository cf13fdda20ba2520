//! Schemes on the desk: which is looked at, and which stands beside it.

mod common;

use common::{END, TREE, desk, plan};
use cordonry::plan::{Moment, Phase, Window};
use cordonry::refusal::Refusal;
use cordonry::said::Arg;
use cordonry::work::Work;
use cordonry_page::desk::Desk;
use cordonry_page::document::{Edit, Mode, Request, Schemes};
use std::sync::Arc;

fn edit(desk: &mut Desk, what: Schemes) -> Result<(), Refusal> {
    desk.edit(&Edit::schemes(what)).map(drop)
}

/// Two schemes, B a copy of A and looked at.
fn two() -> Desk {
    let named = plan().with_scheme_named(0, "A").expect("named");
    let mut desk = Desk::new(named).expect("it has a scheme");
    edit(&mut desk, Schemes::Copy).expect("there is room");
    desk
}

fn names(desk: &Desk) -> Vec<&str> {
    desk.plan()
        .schemes
        .iter()
        .map(|s| s.name.as_str())
        .collect()
}

fn stubbed(desk: &mut Desk) {
    let upright = desk.scene().places.first().map(|p| (p.tree, p.shoot));
    let (tree, shoot) = upright.expect("uprights stand");
    let work = vec![Work::Remove { tree, shoot }];
    desk.edit(&Edit::work("step-remove", work))
        .expect("it comes off");
}

#[test]
fn what_is_added_or_copied_is_looked_at_and_undo_leads_back() {
    let mut desk = desk();
    let first = desk.plan().schemes[0].name.clone();
    edit(&mut desk, Schemes::Copy).expect("there is room");
    assert_eq!(desk.look().scheme, 1);
    edit(&mut desk, Schemes::Add).expect("there is room");
    assert_eq!((desk.look().scheme, desk.plan().schemes.len()), (2, 3));
    assert!(desk.scene().works().is_empty());
    edit(&mut desk, Schemes::Name("Late".into())).expect("its own name");
    assert_eq!(desk.scheme().map(|s| s.name.as_str()), Some("Late"));
    assert!(edit(&mut desk, Schemes::Name(first)).is_err());
    for label in ["step-scheme-name", "step-scheme-add", "step-scheme-copy"] {
        assert_eq!(desk.undo().as_deref(), Some(label));
    }
    assert_eq!((desk.look().scheme, desk.plan().schemes.len()), (0, 1));
    assert!(
        edit(&mut desk, Schemes::Remove).is_err(),
        "the last one stays"
    );
    assert_eq!(desk.plan().schemes.len(), 1);
}

#[test]
fn who_looks_at_one_goes_on_doing_so_where_another_goes_or_comes_back() {
    let mut desk = two();
    edit(&mut desk, Schemes::Add).expect("there is room");
    desk.look_under(0);
    edit(&mut desk, Schemes::Remove).expect("others stay");
    let (b, c) = ("B", "C");
    assert_eq!(names(&desk), [b, c]);
    assert_eq!(desk.scheme().map(|s| s.name.as_str()), Some(b));
    desk.look_under(1);
    desk.undo();
    assert_eq!(desk.scheme().map(|s| s.name.as_str()), Some(c));
    desk.redo();
    assert_eq!(desk.scheme().map(|s| s.name.as_str()), Some(c));
}

#[test]
fn two_stand_side_by_side_at_one_moment_and_work_in_one_leaves_the_other() {
    let mut desk = two();
    desk.set_beside(Some(0));
    let at = Moment {
        leaf: 4,
        window: Window::Dormant,
    };
    desk.look_at(at);
    let looks = |desk: &Desk| {
        desk.beside()
            .map(|b| (b.look.scheme, b.moment, b.look.phase))
    };
    assert_eq!(looks(&desk), Some((0, at, Phase::After)));
    desk.take_redraw_beside();
    let before = desk.beside().expect("it is there").row.clone();
    stubbed(&mut desk);
    assert_eq!(desk.beside().expect("it is there").row, before);
    let redraw = desk.take_redraw_beside();
    assert!(
        !redraw.all && redraw.trees.is_empty(),
        "nothing of it is drawn anew"
    );
    desk.show(Phase::Before);
    assert_eq!(looks(&desk), Some((0, at, Phase::Before)));
    // The two change places.
    desk.look_under(0);
    assert_eq!(
        (desk.look().scheme, looks(&desk).map(|l| l.0)),
        (0, Some(1))
    );
    desk.open(Mode::Found);
    assert!(desk.beside().is_none(), "the record is that of all");
    desk.open(Mode::Work);
    assert_eq!(looks(&desk).map(|l| l.0), Some(1));
}

#[test]
fn a_correction_of_the_record_shows_in_both() {
    let mut desk = two();
    desk.set_beside(Some(0));
    desk.open(Mode::Found);
    desk.choose(Some(cordonry::check::Part {
        tree: TREE,
        shoot: Some(END),
    }));
    let drop = cordonry::plan::Correction::DropShoot {
        tree: TREE,
        shoot: END,
    };
    desk.edit(&Edit::record(drop)).expect("it is struck out");
    desk.open(Mode::Work);
    let there = |row: &cordonry::pose::PosedRow| row.shoot(TREE, END).is_some();
    assert!(!there(&desk.scene().row));
    assert!(!there(&desk.beside().expect("it is there").row));
}

#[test]
fn what_stands_beside_is_found_again_or_goes() {
    let mut desk = two();
    edit(&mut desk, Schemes::Add).expect("there is room");
    desk.set_beside(Some(1));
    desk.look_under(0);
    let beside = |desk: &Desk| desk.scheme_beside().map(|n| names(desk)[n].to_string());
    assert_eq!(beside(&desk).as_deref(), Some("B"));
    edit(&mut desk, Schemes::Remove).expect("others stay");
    // B is looked at now, and nothing stands beside itself.
    assert_eq!(beside(&desk), None);
    desk.set_beside(Some(1));
    desk.undo();
    assert_eq!(beside(&desk).as_deref(), Some("C"));
    desk.set_beside(Some(desk.look().scheme));
    assert_eq!(beside(&desk), None);
    desk.set_beside(Some(9));
    assert_eq!(beside(&desk), None);
}

#[test]
fn side_by_side_the_figures_stand_in_pairs_and_what_differs_is_told() {
    use cordonry_page::beside::{both, figures, marks, works};
    let words = cordonry_words::Words::strict();
    let mut desk = two();
    assert!(figures(&desk, &[], &words).is_empty() && both(&desk).is_none());
    desk.set_beside(Some(0));
    assert_eq!(both(&desk), Some([(1, "B"), (0, "A")]));
    assert!(
        figures(&desk, &[], &words)
            .iter()
            .all(|l| l.values[0] == l.values[1])
    );
    assert_eq!(marks(&desk), [String::new(), String::new()]);
    let none = (Vec::new(), 0);
    assert_eq!(works(&desk, &words), [none.clone(), none.clone()]);
    stubbed(&mut desk);
    let [own, other] = works(&desk, &words);
    assert_eq!((own.0.len(), other), (1, none));
    let lines = figures(&desk, &[], &words);
    let differ = lines.iter().filter(|l| l.values[0] != l.values[1]);
    assert!(differ.count() >= 2, "{lines:?}");
    let [own, other] = marks(&desk);
    assert!(own.is_empty() && other.contains("lone"), "{own} {other}");
}

#[test]
fn side_by_side_hours_cuts_and_materials_are_told_once_they_are_known() {
    use cordonry::effort::Effort;
    use cordonry_page::beside::{Known, figures, totals, totals_told};
    let words = cordonry_words::Words::strict();
    let mut desk = two();
    desk.set_beside(Some(0));
    stubbed(&mut desk);
    let waits = words.plain("two-waits");
    let lines = totals(&desk, [1, 0], &[], &words);
    assert_eq!(lines.len(), 3, "the crop, and what is to come");
    assert!(
        lines[1..]
            .iter()
            .all(|l| l.values == [waits.clone(), waits.clone()])
    );
    let found = desk.plan().found.leaf;
    let far = [1, 0].map(|scheme| -> Known {
        let each = (found..found + 6).flat_map(|leaf| {
            let effort = Effort::of(desk.plan(), scheme, leaf).expect("there is the scheme");
            effort.numbers()
        });
        let numbers: Vec<f64> = each.collect();
        [
            None,
            None,
            Some(numbers.chunks(2).map(|n| (n[0], n[1])).collect()),
        ]
    });
    let lines = totals(&desk, [1, 0], &far, &words);
    let by_hand = |scheme, of: fn(&Effort) -> f64| -> f64 {
        let leaves = found..=cordonry_page::desk::EARLY.max(found);
        let each = leaves.map(|leaf| of(&Effort::of(desk.plan(), scheme, leaf).expect("known")));
        each.sum()
    };
    let cuts = words.text("two-cuts", &[("leaf", Arg::Count(5))]);
    let line = lines
        .iter()
        .find(|l| l.name == cuts)
        .expect("cuts are told");
    let expected = [1, 0].map(|s| by_hand(s, |e| e.cuts));
    assert_ne!(expected[0], expected[1], "an upright more comes off");
    assert_eq!(line.values, expected.map(|n| format!("{n:.0}")));
    let hours = [1, 0].map(|s| by_hand(s, Effort::hours));
    assert_eq!(lines[1].values, hours.map(|n| format!("{n:.1}")));
    // All of it stands among the figures, after the fill, and is told to a class by name.
    let all = figures(&desk, &far, &words);
    assert_eq!(all[1..=lines.len()], lines);
    let told = totals_told(&desk, [1, 0], &far, &words);
    assert_eq!(told.lines().count(), lines.len());
    assert!(
        told.lines()
            .all(|l| l.contains(": B ") && l.contains(", A ")),
        "{told}"
    );
}

#[test]
fn side_by_side_a_crop_that_is_told_too_high_is_marked_so() {
    use cordonry_page::beside::figures;
    let words = cordonry_words::Words::strict();
    let mut desk = two();
    desk.set_beside(Some(0));
    let marked = |desk: &Desk| {
        let lines = figures(desk, &[], &words);
        // The crop of the first leaves, then that of the leaf that is looked at.
        let marked = lines
            .iter()
            .map(|l| l.values.each_ref().map(|v| v.starts_with('≈')));
        marked.filter(|m| *m != [false; 2]).collect::<Vec<_>>()
    };
    desk.edit(&Edit::assumed(Request::Standing(true)))
        .expect("rules");
    assert!(
        marked(&desk).is_empty(),
        "{:?}",
        figures(&desk, &[], &words)
    );
    desk.edit(&Edit::assumed(Request::Standing(false)))
        .expect("no rules");
    assert_eq!(
        marked(&desk)[0],
        [true, false],
        "{:?}",
        figures(&desk, &[], &words)
    );
}

#[test]
fn a_leafs_work_is_copied_on_as_one_step_and_what_cannot_follow_comes_back() {
    let mut desk = two();
    let before = desk.plan().clone();
    stubbed(&mut desk);
    let done = desk.edit(&Edit::copy_leaf()).expect("there is a next leaf");
    assert!(!done.left.is_empty(), "what came off is gone");
    let next = desk.look().moment.leaf + 1;
    let copied = desk.plan().schemes[1]
        .schedule
        .all()
        .filter(|(m, _)| m.leaf == next);
    assert!(copied.count() >= done.count);
    if done.count > 0 {
        assert_eq!(desk.undo().as_deref(), Some("step-copy-leaf"));
    }
    desk.undo();
    assert_eq!(*desk.plan(), before);
}

#[test]
fn what_two_schemes_bring_is_worked_out_once_though_they_are_asked_by_turns() {
    let mut desk = two();
    let both = |desk: &Desk| [0, 1].map(|scheme| desk.years_of(scheme));
    let (first, again) = (both(&desk), both(&desk));
    assert!(first.iter().zip(&again).all(|(a, b)| Arc::ptr_eq(a, b)));
    stubbed(&mut desk);
    let after = both(&desk);
    assert_eq!(after[0], first[0], "A has no other work");
    assert_ne!(after[1], first[1]);
}
