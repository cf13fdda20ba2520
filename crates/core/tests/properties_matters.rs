//! Properties of matters on random rows: what they put together, and what is left of it.

use cordonry::check::{Context, Finding, Matter, matters, survey};
use cordonry::file::{read_plan, write_plan};
use cordonry::plan::Left;
use cordonry_fixture::random::*;
use cordonry_words::Words;
use proptest::prelude::*;
use std::collections::BTreeSet;

/// The findings of the row at a plan's last moment, and what they come to with what the plan leaves.
fn judged<T>(plan: &cordonry::plan::Plan, then: impl Fn(&[&Finding], Vec<Matter>, u8) -> T) -> T {
    let moment = moments(plan).last().copied().unwrap();
    let there = at(plan, moment);
    let seen = survey(&Context::of(&there), None);
    let all: Vec<&Finding> = seen.findings.iter().collect();
    let found = matters(&there.row, &seen.cover, &there.targets, &all, &plan.left);
    then(&all, found, there.row.leaf)
}

proptest! {
    #![proptest_config(cases(96))]

    #[test]
    fn every_finding_is_in_one_matter_and_none_is_graver_than_its_own(plan in plan(), drafts in drafts(8)) {
        let words = Words::strict();
        let plan = worked(&plan, &drafts);
        judged(&plan, |all, found, _| {
            let mut each: Vec<usize> = found.iter().flat_map(|m| m.findings.clone()).collect();
            each.sort_unstable();
            prop_assert_eq!(each, (0..all.len()).collect::<Vec<_>>());
            let keys: BTreeSet<String> = found.iter().map(|m| m.cause.to_string()).collect();
            prop_assert_eq!(keys.len(), found.len(), "two matters of one cause");
            let order = |m: &Matter| (std::cmp::Reverse(m.severity), -m.weight);
            prop_assert!(found.windows(2).all(|w| order(&w[0]) <= order(&w[1])));
            for m in &found {
                let gravest = m.findings.iter().map(|i| all[*i].severity).max();
                prop_assert_eq!(Some(m.severity), gravest);
                let first = all[m.findings[0]];
                let alike = m.findings.iter().filter(|i| all[**i].rule == first.rule).count();
                prop_assert!(m.said.is_some() || alike == 1, "{:?} says nothing of {}", m.cause, alike);
                prop_assert_eq!(m.others().len(), m.findings.len() - usize::from(m.said.is_none() || m.findings.len() == 1));
                prop_assert!(m.weight.is_finite() && m.weight >= 0.0);
                let text = words.matter(m, all);
                prop_assert!(!text.is_empty() && !text.contains(['{', '$']), "{}", text);
                let parts: BTreeSet<_> = m.parts.iter().collect();
                prop_assert_eq!(parts.len(), m.parts.len());
            }
            Ok(())
        })?;
        // The same again, and in the same order.
        let again = judged(&plan, |_, found, _| found);
        prop_assert_eq!(again, judged(&plan, |_, found, _| found));
    }

    #[test]
    fn what_is_left_is_left_until_the_next_leaf_and_through_a_file(plan in plan(), drafts in drafts(6), pick in 0usize..20) {
        let plan = worked(&plan, &drafts);
        let (open, left) = judged(&plan, |all, found, leaf| {
            let m = found.get(pick % found.len().max(1));
            (found.len(), m.map(|m| m.left(all, leaf, " too wet to lay ".into())))
        });
        let Some(left) = left else { return Ok(()) };
        let plan = plan.with_left(&left).unwrap();
        prop_assert_eq!(&plan.left[0].reason, "too wet to lay");
        let kept = read_plan(write_plan(&plan).as_bytes()).unwrap();
        prop_assert_eq!(&kept.left, &plan.left);
        prop_assert_eq!(write_plan(&kept), write_plan(&plan));
        let check = |plan: &cordonry::plan::Plan| judged(plan, |_, found, _| {
            let left: Vec<_> = found.iter().filter(|m| m.left == Some(0)).cloned().collect();
            (found.len() - left.len(), left)
        });
        let (still_open, is_left) = check(&plan);
        prop_assert_eq!(is_left.len(), 1);
        prop_assert_eq!(is_left[0].findings.len(), left.spots.len());
        prop_assert_eq!(still_open, open - 1);
        // Of another leaf it says nothing.
        let mut other = plan.clone();
        other.left[0].leaf += 1;
        prop_assert_eq!(check(&other), (open, Vec::new()));
        // Taken up again it is as before.
        prop_assert_eq!(judged(&plan.without_left(0), |_, found, _| found.len()), open);
    }

    #[test]
    fn a_reason_is_neither_empty_nor_too_long(long in 0usize..900) {
        let left = Left { leaf: 4, cause: "cordon-gap-2".into(), reason: "ü".repeat(long), spots: Vec::new() };
        let plan = cordonry::plan::Plan::new("", cordonry_fixture::wood::planted(3, 1500, 1500.0));
        let outcome = plan.with_left(&left);
        prop_assert_eq!(outcome.is_ok(), (1..=Left::MAX_REASON).contains(&long));
        if let Err(why) = outcome {
            let words = Words::strict().refusal(&why);
            prop_assert!(words.contains(&long.to_string()) && words.contains("400"), "{}", words);
        }
    }
}
