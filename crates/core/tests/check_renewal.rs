//! Renewal and the age of wood, each a step either side of its limit.

use cordonry::check::{Context, Finding, Severity, check};
use cordonry::plan::{Phase, Plan, Replayer};
use cordonry::row::*;
use cordonry::said::Arg;
use cordonry::standing::Rule;
use cordonry::units::Mm;
use cordonry::work::Work;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

/// One tree in `leaf` with an upright for each of these diameters and birth leaves.
fn tree(leaf: u8, uprights: &[(f64, u8)]) -> Row {
    let length = 200.0 * uprights.len() as f64;
    let mut tree = upright_stem(1, 0, length + 500.0);
    for (i, (diameter, born)) in uprights.iter().enumerate() {
        tree = tree.uprights(&[200.0 * (i as f64 + 0.5)]).last(|s| {
            s.diameter = *diameter;
            s.units[0].leaf = *born;
        });
    }
    let mut row = row(0, length as i32, vec![tree]);
    row.leaf = leaf;
    row
}

fn picked(f: &Finding) -> Vec<u64> {
    f.subjects
        .iter()
        .filter_map(|p| p.shoot)
        .map(ShootId::number)
        .collect()
}

/// So many uprights of one season, thicker from place to place.
fn young(n: usize) -> Vec<(f64, u8)> {
    (0..n).map(|i| (10.0 + i as f64, 2)).collect()
}

#[test]
fn the_carried_fifth_goes_the_largest_first_and_no_two_side_by_side() {
    for (n, expected) in [
        (5, vec![5]),
        (6, vec![6, 4]),
        (10, vec![10, 8]),
        (11, vec![11, 9, 7]),
        (15, vec![15, 13, 11]),
        (16, vec![16, 14, 12, 10]),
    ] {
        let row = tree(3, &young(n));
        assert_eq!(picked(&found(&row, "renewal-due")[0]), expected, "{n}");
    }
    let ten = tree(3, &young(10));
    let f = &found(&ten, "renewal-due")[0];
    assert_eq!(
        Words::strict().finding(f),
        "Tree 1: 2 uprights of 10 due to be stubbed, first upright 10 of 10, tree 1 (19 mm thick)"
    );
    assert!(found(&mended(&ten, f, 0), "renewal-due").is_empty());
}

#[test]
fn no_stub_stands_beside_a_hole_where_another_can_go() {
    let first = |row: &Row| picked(&found(row, "renewal-due")[0])[0];
    // Without number 9: 10 stands beside a space of 400, 8 too; so goes 7.
    let mut wide = tree(3, &young(10));
    let mut one = (*wide.trees[0]).clone();
    one.shoots.remove(9);
    wide.trees[0] = one.clone().into();
    assert_eq!(first(&wide), 7);
    // 9 is a stub of this winter: as the tree's other turn, 7 and no neighbour goes.
    let mut stubbed = tree(3, &young(11));
    let mut one = (*stubbed.trees[0]).clone();
    one.shoots[9].pose = Pose::Stub;
    one.shoots[9].cut_to(150.0, Moment::dormant(3));
    stubbed.trees[0] = one.into();
    assert_eq!(picked(&found(&stubbed, "renewal-due")[0]), [11, 7]);
    // Bare wire after it, to the end of the row.
    let mut end = tree(3, &young(10));
    end.to = Mm(2600);
    assert_eq!(first(&end), 9);
    // Of the next tree the first upright is the largest, and stands beside what the first tree has cut.
    let mut two = tree(3, &young(10));
    let mut next = (*two.trees[0]).clone();
    (next.id, next.foot) = (TreeId(2), Mm(2000));
    next.shoots[1].diameter = 21.0;
    two.trees.push(next.into());
    two.to = Mm(4000);
    let due = found(&two, "renewal-due");
    assert_eq!(
        (picked(&due[0]), picked(&due[1])),
        (vec![10, 8], vec![10, 8])
    );
    // What is thicker and stays is told.
    let told = due.iter().map(|f| Words::strict().finding(f));
    let told = told.map(|t| t.contains("; a larger one stands beside a gap or a stub)"));
    assert_eq!(told.collect::<Vec<_>>(), [false, true]);
}

#[test]
fn of_a_tree_with_fewer_uprights_than_it_needs_only_what_grows_too_old_goes() {
    // Over 1.2 m four stand at the widest, for what measuring may be off.
    let of = |n: usize, born: u8| {
        let mut row = tree(8, &vec![(20.0, born); n]);
        let mut one = (*row.trees[0]).clone();
        one.shoots[0].units = grown(1, 1700.0);
        row.trees[0] = one.into();
        row.to = Mm(1200);
        row
    };
    // The share of enough is one, however young.
    assert_eq!(found(&of(4, 1), "renewal-due").len(), 1);
    assert_eq!(found(&of(4, 6), "renewal-due").len(), 1);
    // One a winter is a third, and at five seasons the last goes: of one, two and three, by the leaf that they were born in.
    let due = [
        (1, [1, 1, 1]),
        (3, [1, 1, 1]),
        (4, [0, 1, 1]),
        (5, [0, 0, 1]),
        (6, [0, 0, 0]),
    ];
    for (born, due) in due {
        let cut = |few| found(&of(few, born), "renewal-due");
        let cut = |few| cut(few).iter().map(|f| f.subjects.len()).sum::<usize>();
        assert_eq!([1, 2, 3].map(cut), due, "of leaf {born}");
    }
}

#[test]
fn the_remainder_is_carried_from_winter_to_winter_and_the_trees_take_turns() {
    // A fifth of 8: 1, 2, 1, 2, 2; the first tree is at the last of them in leaf 3.
    let due = |row: &Row, share: f64| -> Vec<usize> {
        let mut targets = Targets::default();
        targets.set(Limit::RenewalShare, Some(share)).unwrap();
        let found = found_with(row, &targets, "renewal-due");
        found.iter().map(|f| f.subjects.len()).collect()
    };
    let one = |leaf: u8| {
        let mut row = tree(leaf, &young(8));
        let mut first = (*row.trees[0]).clone();
        for upright in &mut first.shoots[1..] {
            upright.units[0].leaf = leaf - 1;
        }
        row.trees[0] = first.into();
        row
    };
    let by =
        |share: f64| -> Vec<usize> { (3..8).flat_map(|leaf| due(&one(leaf), share)).collect() };
    assert_eq!(by(0.2), [2, 1, 2, 1, 2]);
    assert_eq!(by(0.25), [2; 5]);
    assert_eq!(by(0.125), [1; 5]);
    let mut five = one(3);
    for id in 2..=5 {
        let mut next = (*five.trees[0]).clone();
        next.id = TreeId(id);
        next.foot = Mm(3000 * id as i32);
        five.trees.push(next.into());
    }
    assert_eq!(due(&five, 0.2), [2, 1, 2, 1, 2]);
}

#[test]
fn the_age_limit_follows_the_share_unless_it_is_set() {
    let mut targets = Targets::default();
    for (share, limit) in [
        (0.2, 5.0),
        (0.25, 4.0),
        (0.167, 6.0),
        (0.125, 8.0),
        (0.1, 10.0),
    ] {
        targets.set(Limit::RenewalShare, Some(share)).unwrap();
        assert_eq!(targets.get(Limit::WoodAgeMax), limit, "{share}");
    }
    targets.set(Limit::WoodAgeMax, Some(5.0)).unwrap();
    assert_eq!(targets.get(Limit::WoodAgeMax), 5.0);
    targets.set(Limit::RenewalShare, None).unwrap();
    targets.set(Limit::WoodAgeMax, None).unwrap();
    assert_eq!(targets.overrides().count(), 0);
    for share in [0.099, 0.251] {
        assert!(targets.set(Limit::RenewalShare, Some(share)).is_err());
    }
    // Of five seasons: within a fifth's limit, past a quarter's.
    let row = tree(7, &[(10.0, 2), (10.0, 3)]);
    assert_eq!(found(&row, "wood-too-old"), []);
    targets.set(Limit::RenewalShare, Some(0.25)).unwrap();
    let f = &found_with(&row, &targets, "wood-too-old")[0];
    assert_eq!((f.measured, f.allowed), (5.0, 4.0));
}

#[test]
fn the_share_is_raised_in_good_time_and_where_that_is_too_late_it_is_said() {
    // Ten of two seasons have four winters for 2, 2, 2, 2: three go now. Of four seasons they have two winters for at most
    // four each.
    let said =
        |leaf: u8| Words::strict().finding(&found(&tree(leaf, &[(12.0, 1); 10]), "renewal-due")[0]);
    assert_eq!(
        said(3),
        "Tree 1: 3 uprights of 10 due to be stubbed, first upright 1 of 10, tree 1 (12 mm thick); \
         more than the share, spread over the winters so that no wood passes 5 seasons"
    );
    assert_eq!(
        said(5),
        "Tree 1: 4 uprights of 10 due to be stubbed, first upright 1 of 10, tree 1 (12 mm thick); \
         the oldest wood can't be held to 5 seasons and reaches 6 before its turn comes, for at most a third of a tree, rounded up, is cut in one winter"
    );
}

/// A tree in leaf 8 with a stub for each of these: when it was cut, if that is told, and the thickness of the upright on it
/// that grew after; and with an upright of five seasons that never was cut.
fn regrown(stubs: &[(Option<Moment>, f64, u8)]) -> Row {
    let mut row = tree(8, &vec![(20.0, 3); stubs.len() + 1]);
    let mut one = (*row.trees[0]).clone();
    for (i, (cut, diameter, born)) in stubs.iter().enumerate() {
        let stub = &mut one.shoots[i + 1];
        stub.pose = Pose::Stub;
        stub.units = vec![GrowthUnit {
            cut: *cut,
            ..GrowthUnit::new(1, 900.0, 150.0)
        }];
        let parent = stub.id;
        let id = ShootId::found(20 + i as u32);
        one.shoots.push(Shoot {
            units: grown(*born, 900.0),
            diameter: *diameter,
            ..Shoot::bud(id, Some(parent), 140.0)
        });
    }
    row.trees[0] = one.into();
    row
}

#[test]
fn what_was_renewed_within_the_last_turn_waits_though_it_is_the_largest() {
    let at = |leaf: u8, window| Some(Moment { leaf, window });
    // Two a winter of nine: the one of five seasons, and then of the regrown ones the one whose turn is over.
    let all = |cut: [Option<Moment>; 8]| {
        let stubs: Vec<_> = cut.into_iter().map(|cut| (cut, 25.0, 7)).collect();
        picked(&found(&regrown(&stubs), "renewal-due")[0])
    };
    let recent = at(5, Window::Dormant);
    let mut cut = [recent; 8];
    cut[4] = at(3, Window::Dormant);
    assert_eq!(all(cut), [9, 24]);
    // After the harvest of leaf 3 is the winter of leaf 4: four winters ago.
    cut[4] = at(3, Window::AfterHarvest);
    assert_eq!(all(cut), [9, 20]);
    // Where the record is silent the age tells: one winter ago.
    cut[4] = None;
    assert_eq!(all(cut), [9, 20]);
}

#[test]
fn wood_at_the_age_limit_goes_before_the_largest() {
    // Leaf 6: born in leaf 1 is five completed seasons. The thin old one at place 2 goes first.
    let f = &found(
        &tree(
            6,
            &[
                (20.0, 3),
                (8.0, 1),
                (12.0, 3),
                (12.0, 3),
                (30.0, 2),
                (9.0, 3),
            ],
        ),
        "renewal-due",
    )[0];
    assert_eq!(picked(f), [2, 5]);
    assert_eq!(
        Words::strict().finding(f),
        "Tree 1: 2 uprights of 6 due to be stubbed, first upright 2 of 6, tree 1 (5 seasons old); \
         more than the share, spread over the winters so that no wood passes 5 seasons"
    );
}

#[test]
fn renewal_begins_in_leaf_3_or_a_leaf_earlier_where_an_upright_is_thick() {
    let beside = |leaf: u8, thick: f64, others: f64| {
        let mut five = [(others, 1); 5];
        five[0].0 = thick;
        tree(leaf, &five)
    };
    let five = |leaf: u8, thick: f64| beside(leaf, thick, 13.0);
    // Thicker than 15 mm by what measuring may be off.
    either_side("renewal-due", &five(2, 16.9), &five(3, 16.9));
    either_side("renewal-due", &five(2, 16.9), &five(2, 17.0));
    assert!(found(&five(1, 20.0), "renewal-due").is_empty());
    // Of what is thinner only the over-vigorous: of 9 mm, more than 14.6.
    either_side("renewal-due", &beside(2, 14.6, 9.0), &beside(2, 14.7, 9.0));
}

#[test]
fn wood_of_five_seasons_passes_and_of_six_does_not() {
    // Leaf 7: born in leaf 2 is five completed seasons, in leaf 1 six.
    let fails = tree(7, &[(10.0, 1), (10.0, 2)]);
    let f = either_side("wood-too-old", &tree(7, &[(10.0, 2), (10.0, 2)]), &fails);
    assert_eq!((f.measured, f.allowed), (6.0, 5.0));
    assert_eq!(
        Words::strict().finding(&f),
        "Tree 1: one upright is over 5 seasons old, the oldest 6; it goes this winter"
    );
    assert!(found(&mended(&fails, &f, 0), "wood-too-old").is_empty());
}

#[test]
fn a_tree_of_old_wood_is_not_cut_back_whole() {
    // Ten uprights of six seasons: a third of them at most, rounded up, goes in one winter.
    let old = tree(7, &[(10.0, 1); 10]);
    let f = found(&old, "wood-too-old").remove(0);
    assert_eq!(f.remedies[0].work.len(), 4);
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Stub 4 uprights of tree 1 to 150 mm this winter; 6 wait for the next ones"
    );
    // With this winter's share cut, nothing more is offered.
    let said = |f: &Finding| Words::strict().finding(f);
    assert_eq!(f.severity, Severity::Soon);
    assert_eq!(
        said(&f),
        "Tree 1: 10 uprights are over 5 seasons old, the oldest 6; 4 go this winter, the rest over the coming ones, the last before leaf 9"
    );
    let after = mended(&old, &f, 0);
    let rest = found(&after, "wood-too-old").remove(0);
    assert!(rest.remedies.is_empty());
    assert_eq!(rest.severity, Severity::Note);
    assert_eq!(
        said(&rest),
        "Tree 1: 6 uprights are over 5 seasons old, the oldest 6; this winter's renewal is done, the rest follows over the coming ones, the last before leaf 9"
    );
}

#[test]
fn old_wood_of_a_tree_with_too_few_uprights_goes_too() {
    // Two uprights of six seasons on 1.5 m, which is to have five.
    let tree = upright_stem(1, 0, 2000.0).uprights(&[300.0, 900.0]);
    let mut few = row(0, 1500, vec![tree]);
    few.leaf = 8;
    let f = found(&few, "wood-too-old").remove(0);
    assert_eq!(f.remedies[0].work.len(), 1, "{:?}", f.remedies);
    assert_eq!(
        Words::strict().finding(&f),
        "Tree 1: 2 uprights are over 5 seasons old, the oldest 6; one goes this winter, the rest over the coming ones, the last before leaf 9"
    );
}

/// A stub at 500 with returns so high on it and so thick, and an upright on either side.
fn returning(returns: &[(f64, f64)]) -> Row {
    let tree = upright_stem(1, 0, 1500.0).uprights(&[300.0, 500.0, 700.0]);
    let mut row = row(0, 1000, vec![tree]);
    let mut one = (*row.trees[0]).clone();
    one.shoots[2].pose = Pose::Stub;
    one.shoots[2].cut_to(150.0, Moment::dormant(2));
    for (i, (at, diameter)) in returns.iter().enumerate() {
        one.shoots.push(Shoot {
            units: grown(2, 900.0),
            diameter: *diameter,
            ..Shoot::bud(ShootId::found(10 + i as u32), Some(ShootId::found(2)), *at)
        });
    }
    row.trees[0] = one.into();
    row
}

#[test]
fn several_returns_from_one_stub_are_thinned_to_one_and_crowd_nobody() {
    let (one, two) = (
        returning(&[(100.0, 12.0)]),
        returning(&[(140.0, 14.0), (100.0, 12.0)]),
    );
    let f = either_side("returns-to-thin", &one, &two);
    assert_eq!((f.measured, f.allowed), (2.0, 1.0));
    assert_eq!(
        Words::strict().finding(&f),
        "2 shoots return from stub under upright 2, tree 1; one is kept: upright 2 of 4, tree 1"
    );
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Keep upright 2 of 4, tree 1, and remove the other of stub under upright 2, tree 1"
    );
    for crowding in ["uprights-too-close", "uprights-too-many"] {
        assert_eq!(found(&two, crowding), [], "{crowding}");
    }
    let after = mended(&two, &f, 0);
    assert_eq!(found(&after, "returns-to-thin"), []);
    // As strong as the strongest as far as 2 mm tell: the lowest of them. Thinner than that: the strongest.
    let kept = |returns: &[(f64, f64)]| match found(&returning(returns), "returns-to-thin")[0]
        .remedies[0]
        .work[..]
    {
        [Work::Thin { keep, .. }] => keep.number(),
        ref other => panic!("{other:?}"),
    };
    assert_eq!(kept(&[(140.0, 14.0), (100.0, 12.0), (60.0, 11.9)]), 11);
    assert_eq!(kept(&[(140.0, 14.0), (100.0, 11.9)]), 10);
    assert_eq!(kept(&[(140.0, 0.0), (100.0, 11.9)]), 11);
}

#[test]
fn fewer_uprights_owe_no_more_once_a_tree_has_had_its_share() {
    // Whatever the winter, and however many go after the first has been cut.
    for leaf in 3..9u8 {
        for n in 5..=14 {
            // Of all ages, so that no winter is raised to keep wood in time.
            let born = |i: usize| leaf.saturating_sub(1 + (i % 4) as u8).max(1);
            let wood: Vec<(f64, u8)> = (0..n).map(|i| (10.0 + i as f64, born(i))).collect();
            let mut row = tree(leaf, &wood);
            let due = found(&row, "renewal-due");
            let Some(f) = due.first().filter(|f| !f.remedies.is_empty()) else {
                continue;
            };
            row = mended(&row, f, 0);
            let stubs = f.subjects.clone();
            let mut one = (*row.trees[0]).clone();
            let spare = one.shoots.iter().skip(1).find(|s| {
                let part = f.subjects[0].tree;
                !stubs
                    .iter()
                    .any(|p| p.tree == part && p.shoot == Some(s.id))
            });
            let spare = spare.expect("not all are cut").id;
            one.remove_with_descendants(|s| s.id == spare);
            row.trees[0] = one.into();
            // What goes so that no wood grows too old is another matter.
            let mut due = found(&row, "renewal-due");
            due.retain(|f| !f.args.contains(&("raised", Arg::yes(true))));
            assert!(due.is_empty(), "{n} in leaf {leaf}: {due:#?}");
        }
    }
}

#[test]
fn renewal_is_asked_for_by_the_rules_of_a_scheme_where_it_has_some() {
    // Ten uprights of two seasons in leaf 3, of which a fifth is 2.
    let row = tree(3, &[(12.0, 1); 10]);
    let plan = Plan::new("a row", row);
    let due = |plan: &Plan, scheme: usize| -> usize {
        let at = Replayer::default().at(plan, scheme, plan.start(), Phase::After);
        let at = at.expect("there is a scheme");
        let found = check(&Context::of(&at)).into_iter();
        let found = found.filter(|f| f.rule == "renewal-due");
        found.map(|f| f.subjects.len()).sum()
    };
    let without = due(&plan, 0);
    assert!(without >= 2, "{without}");
    // By rule it begins when it usually does unless another leaf is set, and never where that is 0.
    let usual = plan.clone().begun();
    assert_eq!(due(&usual, 0), without);
    let from = |leaf: f64| usual.with_rule(0, Rule::RenewFrom, Some(leaf)).unwrap();
    let ruled = from(4.0);
    assert_eq!(due(&ruled, 0), 0);
    assert_eq!(due(&from(0.0), 0), 0);
    // The share is the scheme's, and with it the age limit.
    let quarter = from(3.0)
        .with_rule(0, Rule::RenewShare, Some(0.25))
        .unwrap();
    let limits = quarter.limits(0);
    assert_eq!(limits.get(Limit::RenewalShare), 0.25);
    assert_eq!(limits.get(Limit::WoodAgeMax), 4.0);
    assert!(due(&quarter, 0) > without);
    assert_eq!(plan.limits(0), plan.targets);

    // Set as a limit it is the scheme's own, and another scheme's stays.
    let mut two = ruled.clone();
    two.schemes.push(ruled.schemes[0].clone());
    two.schemes.push(plan.schemes[0].clone());
    let set =
        |plan: &Plan, scheme, limit, value| plan.with_limit_under(scheme, limit, value).unwrap();
    let changed = set(&two, 1, Limit::RenewalLeaf, None);
    assert_eq!([0, 1, 2].map(|s| due(&changed, s)), [0, without, without]);
    let changed = set(&changed, 1, Limit::RenewalShare, Some(0.25));
    assert_eq!(changed.limits(1), limits);
    for limit in Rule::ALL.iter().filter_map(|r| r.limit()) {
        assert_eq!(changed.usual_limit(1, limit), changed.usual_limit(2, limit));
    }
    let back = set(&changed, 1, Limit::RenewalShare, None);
    assert_eq!(changed.with_default_limits_under(1).unwrap(), back);
    assert_eq!(
        set(&back, 1, Limit::RenewalLeaf, Some(4.0)).schemes,
        two.schemes
    );
    // Where there are no rules it is the plan's.
    let changed = set(&two, 2, Limit::RenewalLeaf, Some(5.0));
    assert_eq!([0, 2].map(|s| due(&changed, s)), [0, 0]);
    assert_eq!(changed.targets.get(Limit::RenewalLeaf), 5.0);
    let why = two
        .with_limit_under(1, Limit::RenewalLeaf, Some(1.0))
        .unwrap_err();
    assert_eq!(why.key, "refusal-correct-row");
}

#[test]
fn tips_and_laterals_are_asked_for_by_the_rules_of_a_scheme_where_it_has_some() {
    // Ten uprights of last year with laterals, in leaf 3.
    let mut row = tree(3, &[(12.0, 2); 10]);
    for shoot in &mut std::sync::Arc::make_mut(&mut row.trees[0]).shoots[1..] {
        shoot.laterals.count = 2;
    }
    let due = |plan: &Plan, rule: &str| -> Option<Finding> {
        let at = Replayer::default().at(plan, 0, plan.start(), Phase::After);
        let found = check(&Context::of(&at.expect("there is a scheme"))).into_iter();
        found.into_iter().find(|f| f.rule == rule)
    };
    let renewed_now = Plan::new("a row", row);
    assert!(due(&renewed_now, "laterals-due").is_some());
    // What is renewed is tipped no more: a tree that has both bears a quarter to half less.
    assert!(due(&renewed_now, "renewal-due").is_some());
    assert!(due(&renewed_now, "tipping-due").is_none());
    let without = renewed_now.with_limit(Limit::RenewalLeaf, Some(9.0));
    let without = without.expect("a limit");
    assert!(due(&without, "tipping-due").is_some() && due(&without, "laterals-due").is_some());
    let with = |set: &[(Rule, f64)]| {
        let late = without
            .clone()
            .begun()
            .with_rule(0, Rule::RenewFrom, Some(9.0));
        set.iter().fold(late.unwrap(), |plan, (rule, value)| {
            plan.with_rule(0, *rule, Some(*value)).unwrap()
        })
    };
    let tips = |set: &[(Rule, f64)]| due(&with(set), "tipping-due");
    assert!(tips(&[]).is_some());
    assert!(tips(&[(Rule::TipFrom, 4.0)]).is_none());
    assert!(tips(&[(Rule::TipShare, 0.0)]).is_none());
    let share = |f: Finding| {
        f.args
            .iter()
            .find(|(name, _)| *name == "share")
            .unwrap()
            .1
            .clone()
    };
    let third = tips(&[(Rule::TipShare, 0.3)]).unwrap();
    assert_eq!(share(third), Arg::Share(0.3));
    // What the rules do no more is not asked for: tipping ends with a leaf, with renewal, or where the wall has its height.
    assert!(tips(&[(Rule::TipUntil, 2.0)]).is_none());
    let renewed = |plan: &Plan| {
        let mut plan = plan.clone();
        let row = std::sync::Arc::make_mut(&mut plan.found);
        std::sync::Arc::make_mut(&mut row.trees[0]).shoots[4].pose = Pose::Stub;
        plan
    };
    assert!(due(&renewed(&with(&[])), "tipping-due").is_none());
    let always = with(&[(Rule::TipUntil, 40.0)]);
    assert!(due(&renewed(&always), "tipping-due").is_some());
    // Where there are no rules, as where they say nothing of it.
    assert!(due(&renewed(&without), "tipping-due").is_none());
    for mut tall in [with(&[]), without.clone()] {
        let found = std::sync::Arc::make_mut(&mut tall.found);
        found.trellis.wall_height = Mm(600);
        assert!(due(&tall, "tipping-due").is_none());
    }

    let laterals = |leaf| due(&with(&[(Rule::LateralsFrom, leaf)]), "laterals-due");
    assert!(laterals(3.0).is_some());
    assert!(laterals(4.0).is_none() && laterals(0.0).is_none());
}

#[test]
fn what_is_a_rule_of_a_scheme_and_a_limit_of_a_plan_has_one_default() {
    let both = Rule::ALL.iter().filter_map(|r| Some((r, r.limit()?)));
    for (rule, limit) in both {
        assert_eq!(rule.info().default, limit.info().default, "{limit:?}");
    }
}
