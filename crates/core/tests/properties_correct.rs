//! Properties of corrections: whatever is corrected, the record stays whole and is saved as it is.

use cordonry::file::{read_plan, write_plan};
use cordonry::plan::{Correction, Measure, Plan};
use cordonry::row::{ShootId, TreeId};
use cordonry::said::Arg;
use cordonry::units::Mm;
use cordonry::work::{Sweep, apply, choices, spread};
use cordonry_fixture::random::*;
use cordonry_words::Words;
use proptest::prelude::*;
use proptest::sample::Index;

/// A correction before it is known on which row.
#[derive(Clone, Debug)]
struct Draft {
    kind: u8,
    tree: Index,
    shoot: Index,
    which: Index,
    number: f64,
}

fn draft() -> impl Strategy<Value = Draft> {
    let number = prop_oneof![
        6 => 0.0..3000.0,
        2 => -100.0..20.0,
        1 => any::<f64>(),
        1 => Just(f64::NAN),
        1 => Just(25_000.0),
    ];
    (
        0u8..12,
        any::<Index>(),
        any::<Index>(),
        any::<Index>(),
        number,
    )
        .prop_map(|(kind, tree, shoot, which, number)| Draft {
            kind,
            tree,
            shoot,
            which,
            number,
        })
}

impl Draft {
    fn on(&self, plan: &Plan) -> Correction {
        let (number, mm) = (self.number, Mm::round(self.number));
        let row = &plan.found;
        if row.trees.is_empty() {
            return plan.tree_like_others(number);
        }
        let tree = &row.trees[self.tree.index(row.trees.len())];
        let shoot = (!tree.is_lost()).then(|| tree.shoots[self.shoot.index(tree.shoots.len())].id);
        let id = shoot.unwrap_or(ShootId::found(77));
        let of = |list: Vec<Measure>| match list.len() {
            0 => Correction::Lost { tree: tree.id },
            n => list[self.which.index(n)].to(number),
        };
        match self.kind {
            0..=3 => of(tree.measures(shoot)),
            4 => of(tree.measures(None)),
            5 => of(row.measures()),
            6 => {
                let picks = tree.picks(shoot);
                let pick = &picks[self.which.index(picks.len())];
                pick.choices[self.tree.index(pick.choices.len())]
                    .correction
                    .clone()
            }
            7 => plan.upright_like_others(tree.id, id, number),
            8 => match self.which.index(4) {
                0 => Correction::Lost { tree: tree.id },
                1 => plan.standing_like_others(tree.id),
                2 => Correction::Standing {
                    tree: tree.id,
                    length_mm: mm,
                    diameter_dmm: mm.0,
                },
                _ => Correction::DropTree { tree: tree.id },
            },
            9 => plan.tree_like_others(number),
            10 => match self.which.index(4) {
                0 => Correction::DropShoot {
                    tree: tree.id,
                    shoot: id,
                },
                1 => Correction::Posts {
                    at_mm: vec![mm, Mm(0), Mm(4000), Mm(0)],
                },
                2 => Correction::WallHeight { to_mm: mm },
                _ => Correction::Note {
                    tree: tree.id,
                    shoot: Some(id),
                    note: "n".repeat(number.clamp(0.0, 5000.0) as usize),
                },
            },
            _ => Correction::Laterals {
                tree: TreeId(tree.id.0 + u32::from(self.which.index(9) == 0)),
                shoot: id,
                count: number.clamp(-10.0, 70_000.0) as i32,
                total: number,
            },
        }
    }
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn a_corrected_record_keeps_every_rule(
        plan in plan(),
        work in drafts(6),
        corrections in prop::collection::vec(draft(), 1..20),
    ) {
        let mut plan = worked(&plan, &work);
        for draft in &corrections {
            let correction = draft.on(&plan);
            let before = bytes(&plan);
            let Ok(next) = plan.corrected(&correction) else {
                // A refusal changes nothing, and says something.
                let why = plan.corrected(&correction).unwrap_err();
                prop_assert!(!Words::strict().refusal(&why).starts_with("refusal-"), "{}", why);
                prop_assert_eq!(bytes(&plan), before);
                continue;
            };
            for tree in &next.found.trees {
                prop_assert_eq!(tree.broken_rule(), None, "after {:?}", correction);
            }
            prop_assert!(next.found.from <= next.found.to);
            let feet: Vec<_> = next.found.trees.iter().map(|t| (t.foot, t.id)).collect();
            prop_assert!(feet.windows(2).all(|w| w[0] < w[1]));
            prop_assert_eq!(&next.schemes, &plan.schemes);
            let file = write_plan(&next);
            let back = read_plan(file.as_bytes());
            prop_assert_eq!(back.as_ref(), Ok(&next), "after {:?}", correction);
            prop_assert_eq!(write_plan(&back.unwrap()), file);
            plan = next;
        }
    }

    #[test]
    fn a_measure_is_as_it_was_corrected(plan in plan(), draft in draft()) {
        let tree = &plan.found.trees[draft.tree.index(plan.found.trees.len())];
        let shoot = (!tree.is_lost()).then(|| tree.shoots[draft.shoot.index(tree.shoots.len())].id);
        let list = tree.measures(shoot);
        let measure = &list[draft.which.index(list.len())];
        if let Ok(next) = plan.corrected(&measure.to(draft.number)) {
            let after = next.found.tree(tree.id).expect("it is there").measures(shoot);
            let again = after.iter().find(|m| m.key == measure.key);
            if let Some(again) = again {
                prop_assert!((again.value - draft.number).abs() <= 0.5, "{:?}", again);
            }
            // Nothing but that tree has changed.
            let others = |p: &Plan| p.found.trees.iter().filter(|t| t.id != tree.id).cloned().collect::<Vec<_>>();
            prop_assert_eq!(others(&next), others(&plan));
        }
        // What is recorded, entered again, changes nothing.
        if let Ok(same) = plan.corrected(&measure.to(measure.value)) {
            prop_assert_eq!(same.found.tree(tree.id), plan.found.tree(tree.id));
        }
    }
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn what_is_offered_ready_can_be_done(plan in plan(), before in drafts(5)) {
        let plan = worked(&plan, &before);
        let start = plan.start();
        let there = at(&plan, start);
        let (row, terms) = (there.row, there.terms);
        for tree in &row.trees {
            let parts = tree.shoots.iter().map(|s| Some(s.id)).chain([None]);
            for choice in parts.flat_map(|shoot| choices(&row, start, &terms, &plan.targets, tree.id, shoot)) {
                let words = Words::strict();
                prop_assert!(words.has(choice.said.key), "{}", choice.said.key);
                prop_assert!(words.has(choice.step), "{}", choice.step);
                if choice.asked.is_empty() {
                    let work = choice.work(&[]);
                    let done = plan.with_work(0, start, work);
                    prop_assert!(done.is_ok(), "{:?}: {:?}", choice, done.err());
                } else {
                    // Numbers that can't be are refused, never taken for others.
                    for number in [f64::NAN, -1e9, 1e12] {
                        let work = choice.work(&vec![number; choice.asked.len()]);
                        prop_assert!(apply(&row, start, &terms, &work).is_err(), "{:?}", work);
                    }
                    // A share or count is refused as it was typed.
                    for (key, number) in [("act-tip", 3.0), ("act-cut-to-buds", 300.0), ("act-cut-to-buds", -7.0)] {
                        if choice.said.key == key {
                            let why = apply(&row, start, &terms, &choice.work(&[number])).expect_err("out of range");
                            prop_assert_eq!(why.arg("value").and_then(Arg::number), Some(number), "{}", why);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn work_on_many_is_done_whole(plan in plan(), before in drafts(5)) {
        let plan = worked(&plan, &before);
        let start = plan.start();
        let there = at(&plan, start);
        let (row, terms) = (there.row, there.terms);
        for sweep in Sweep::all(&row, &plan.targets) {
            let works = spread(&row, start, &terms, sweep, |_| true);
            let done = plan.with_works(0, start, works);
            prop_assert!(done.is_ok(), "{:?}: {:?}", sweep, done.err());
            let words = Words::strict();
            prop_assert!(words.has(sweep.key()), "{:?}", sweep);
            prop_assert!(sweep.caution().is_none_or(|c| words.has(c)), "{:?}", sweep);
        }
    }
}
