//! Properties of findings on random rows.

use cordonry::check::{Before, Context, Finding, Survey, check, mended, offered, rules, survey};
use cordonry::plan::{Phase, Replayed, Replayer};
use cordonry_fixture::random::*;
use cordonry_words::Words;
use proptest::prelude::*;
use std::collections::BTreeSet;

fn findings(replayed: &Replayed) -> Vec<Finding> {
    check(&Context::of(replayed))
}

proptest! {
    #![proptest_config(cases(128))]

    #[test]
    fn findings_are_of_this_row_and_have_words(plan in plan(), drafts in drafts(8)) {
        let words = Words::strict();
        let mut plan = plan;
        for draft in &drafts {
            let moment = draft.moment(&plan);
            let work = draft.on(&plan.found);
            plan = forced(&plan, moment, work);
        }
        for moment in moments(&plan) {
            let there = at(&plan, moment);
            let list = findings(&there);
            prop_assert_eq!(&list, &findings(&at(&plan, moment)));
            prop_assert!(list.windows(2).all(|w| w[0].severity >= w[1].severity));
            for f in &list {
                prop_assert!(rules().any(|r| r == f.rule));
                let numbers = [f.x, f.z, f.width, f.measured, f.allowed];
                prop_assert!(numbers.iter().all(|n| n.is_finite()), "{:?}", f);
                prop_assert!(f.width >= 0.0, "{:?}", f);
                let key = format!("finding-{}", f.rule);
                prop_assert!(words.has(&key), "no text {}", key);
                let text = words.finding(f);
                prop_assert!(!text.contains(['{', '$']), "{}", text);
                for part in &f.subjects {
                    // What void work names need not be there.
                    if f.rule != "work-void" {
                        prop_assert!(there.row.tree(part.tree).is_some(), "{:?}", f);
                        if let Some(shoot) = part.shoot {
                            prop_assert!(there.row.shoot(part.tree, shoot).is_some(), "{:?}", f);
                        }
                    }
                }
            }
        }
    }

    #[test]
    fn a_remedy_can_be_done(plan in plan(), drafts in drafts(4)) {
        let words = Words::strict();
        let plan = worked(&plan, &drafts);
        for moment in moments(&plan).into_iter().filter(|m| *m >= plan.start()) {
            for f in findings(&at(&plan, moment)) {
                for remedy in &f.remedies {
                    prop_assert!(words.has(remedy.said.key), "no text {}", remedy.said.key);
                    prop_assert!(!remedy.work.is_empty() || remedy.wall_height.is_some());
                    let done = plan.with_works(0, moment, remedy.work.clone());
                    prop_assert!(done.is_ok(), "{}: {:?} {:?}", f.rule, remedy.work, done.err());
                }
            }
        }
    }

    #[test]
    fn a_survey_after_another_finds_the_same(plan in plan(), drafts in drafts(8)) {
        let mut plan = plan;
        let mut before: Option<(Replayed, Survey)> = None;
        let mut replayer = Replayer::default();
        for draft in &drafts {
            let moment = draft.moment(&plan);
            plan = forced(&plan, moment, draft.on(&plan.found));
            // One replayer, so that trees without new work stay the same in memory.
            let there = replayer.at(&plan, 0, moments(&plan).last().copied().unwrap(), Phase::After).unwrap();
            let context = Context::of(&there);
            let known = before.as_ref().map(|(row, found)| Before {
                row: &row.row,
                moment: row.moment,
                findings: found.findings.clone(),
                kept: found.kept.clone(),
            });
            let again = survey(&context, known);
            let anew = survey(&context, None);
            prop_assert_eq!(&again.findings, &anew.findings);
            prop_assert_eq!(&again.cover, &anew.cover);
            prop_assert_eq!(&again.places, &anew.places);
            prop_assert_eq!(&again.figures, &anew.figures);
            before = Some((there, again));
        }
    }
}

proptest! {
    #![proptest_config(cases(32))]

    #[test]
    fn no_first_remedy_bends_wood_tighter_than_it_bears(plan in plan(), drafts in drafts(4)) {
        let plan = worked(&plan, &drafts);
        let tight = |plan: &_, moment| -> BTreeSet<_> {
            let all = findings(&at(plan, moment)).into_iter();
            all.filter(|f| f.rule == "bend-too-tight").flat_map(|f| f.subjects).collect()
        };
        for moment in moments(&plan).into_iter().filter(|m| *m >= plan.start()) {
            let there = at(&plan, moment);
            let offers = offered(&plan, 0, &there, findings(&there));
            let first: Vec<_> = offers.iter().filter_map(|f| f.remedies.first()).collect();
            let Ok(after) = mended(&plan, 0, moment, &first) else { continue };
            let (was, is) = (tight(&plan, moment), tight(&after, moment));
            prop_assert!(is.is_subset(&was), "{:?} {:?}", moment, is.difference(&was).collect::<Vec<_>>());
        }
    }
}
