//! Standing work: what a tree is trained to be, leaf by leaf, where nobody plans anything.

use cordonry::grow::{Half, grow};
use cordonry::pose::layout;
use cordonry::row::*;
use cordonry::standing::{Rule, Rules, Standard, done, work};
use cordonry::terms::Terms;
use cordonry::units::Mm;
use cordonry::work::{Work, apply_to_tree};
use cordonry_fixture::random;
use cordonry_fixture::wood;
use proptest::prelude::*;
use std::sync::Arc;

fn rules(set: &[(Rule, f64)]) -> Standard {
    let with = |rules: Rules, (rule, to): &(Rule, f64)| rules.with(*rule, *to);
    let rules = set.iter().fold(Rules::default(), with);
    let targets = Arc::new(rules.limits(&Targets::default()));
    Standard { rules, targets }
}

/// Ten trees 1.5 m apart, just planted: stock of that length and 18 mm, slanting to the right.
fn planted(length: f64) -> Row {
    wood::planted(10, 1500, length)
}

/// What is told of a window: when, the tree before and after it, and the work.
type Each<'e> = dyn FnMut(Moment, &Tree, &Tree, &[Work]) + 'e;

/// A tree after each window of each leaf, with the standing work that was done there.
fn trained(
    tree: &Tree,
    leaves: std::ops::RangeInclusive<u8>,
    terms: &Terms,
    rules: &Standard,
    each: &mut Each<'_>,
) -> Tree {
    let mut tree = tree.clone();
    for leaf in leaves {
        for window in Window::ALL {
            let moment = Moment { leaf, window };
            let half = match window {
                Window::EarlySummer => Some(Half::First),
                Window::AfterHarvest => Some(Half::Second),
                Window::Dormant | Window::BudSwell => None,
            };
            if let Some(grown) = half.and_then(|half| grow(&tree, leaf, half, terms)) {
                tree = grown;
            }
            let (after, works) =
                done(&tree, moment, terms, rules).unwrap_or((tree.clone(), vec![]));
            each(moment, &tree, &after, &works);
            tree = after;
        }
    }
    tree
}

/// The works of one window on the trees of a row as they come to it.
fn works_of(row: &Row, at: Moment, rules: &Standard) -> Vec<Work> {
    let terms = Terms::of(row, &Targets::default());
    let mut out = Vec::new();
    for tree in &row.trees {
        trained(
            tree,
            row.leaf..=at.leaf,
            &terms,
            rules,
            &mut |m, _, _, works| {
                if m == at {
                    out.extend_from_slice(works);
                }
            },
        );
    }
    out
}

fn at(leaf: u8, window: Window) -> Moment {
    Moment { leaf, window }
}

/// How many works of a window are of a kind, on ten planted trees.
fn count(set: &[(Rule, f64)], leaf: u8, window: Window, kind: fn(&Work) -> bool) -> usize {
    let works = works_of(&planted(2000.0), at(leaf, window), &rules(set));
    works.iter().filter(|w| kind(w)).count()
}

const KEEPS: fn(&Work) -> bool = |w| matches!(w, Work::KeepBud { .. });
const NOTCHES: fn(&Work) -> bool = |w| matches!(w, Work::Notch { .. });
const RUBS: fn(&Work) -> bool = |w| matches!(w, Work::RubOut { .. });
const LAYS: fn(&Work) -> bool = |w| matches!(w, Work::Lay { .. });
const TIPS: fn(&Work) -> bool = |w| matches!(w, Work::Tip { .. });
const HOLDS: fn(&Work) -> bool = |w| matches!(w, Work::HoldHeight { .. });
const STUBS: fn(&Work) -> bool = |w| matches!(w, Work::Stub { .. });
const REMOVES: fn(&Work) -> bool = |w| matches!(w, Work::Remove { .. });
const TO_BUDS: fn(&Work) -> bool = |w| matches!(w, Work::CutToBuds { .. });
const LATERALS: fn(&Work) -> bool = |w| matches!(w, Work::TakeLaterals { .. });
const THINS: fn(&Work) -> bool = |w| matches!(w, Work::Thin { .. });

use Window::{BudSwell, Dormant, EarlySummer};

#[test]
fn buds_stand_at_the_usual_distance_as_far_as_there_is_wood() {
    let works = works_of(&planted(2000.0), at(1, BudSwell), &rules(&[]));
    let first: Vec<f64> = works
        .iter()
        .filter(|w| w.tree() == Some(TreeId(1)))
        .filter_map(|w| match w {
            Work::KeepBud { at_mm, .. } => Some(at_mm.f()),
            _ => None,
        })
        .collect();
    // 0.5 m up at 45 degrees are 0.71 m of stem; eight uprights to 1.5 m, of which the seventh ends at 1.94 m.
    assert_eq!(first.len(), 7);
    for (i, at) in first.iter().enumerate() {
        let expected = 707.1 + (i as f64 + 0.5) * 187.5;
        // The bend takes the corner some 12 mm shorter.
        assert!((expected - 15.0..=expected + 1.0).contains(at), "{at}");
    }
    assert_eq!(works.iter().filter(|w| RUBS(w)).count(), 10);
    // The last of each comes once the end has grown so far.
    assert_eq!(count(&[], 2, BudSwell, KEEPS), 10);
    assert_eq!(count(&[], 3, BudSwell, KEEPS), 0);
}

#[test]
fn missed_buds_are_put_right_or_never() {
    for leaf in 1..=3 {
        assert_eq!(count(&[(Rule::BudsFrom, 2.0)], 1, BudSwell, |_| true), 0);
        assert_eq!(count(&[(Rule::BudsFrom, 0.0)], leaf, BudSwell, |_| true), 0);
        assert_eq!(count(&[(Rule::BudsFrom, 0.0)], leaf, Dormant, REMOVES), 0);
    }
    assert!(count(&[(Rule::BudsFrom, 2.0)], 2, Dormant, REMOVES) > 20);
    // A third of wild shoots stand on top: the few uprights come of several buds each, and none is kept on their wood.
    let back = count(&[(Rule::BudsFrom, 2.0)], 2, Dormant, TO_BUDS);
    assert!(back > 20, "{back}");
    assert_eq!(count(&[(Rule::BudsFrom, 2.0)], 2, BudSwell, NOTCHES), 0);
    assert_eq!(
        count(
            &[(Rule::BudsFrom, 2.0), (Rule::CutBack, 0.0)],
            2,
            Dormant,
            TO_BUDS
        ),
        0
    );
    assert_eq!(count(&[], 2, Dormant, TO_BUDS), 0);
}

#[test]
fn stock_is_laid_and_short_stock_a_leaf_later() {
    assert_eq!(count(&[], 1, EarlySummer, LAYS), 10);
    assert_eq!(count(&[(Rule::Lay, 0.0)], 1, EarlySummer, LAYS), 0);
    // Short is what reaches less than half of the way to the next tree: 0.71 m and 0.75 m.
    let laid = |length, leaf, set: &[(Rule, f64)]| {
        let works = works_of(&planted(length), at(leaf, EarlySummer), &rules(set));
        works.iter().filter(|w| LAYS(w)).count()
    };
    assert_eq!([laid(1450.0, 1, &[]), laid(1450.0, 2, &[])], [0, 10]);
    assert_eq!([laid(1460.0, 1, &[]), laid(1460.0, 2, &[])], [10, 0]);
    assert_eq!(laid(1450.0, 1, &[(Rule::LayShort, 1.0)]), 10);
    let works = works_of(
        &planted(2000.0),
        at(1, EarlySummer),
        &rules(&[(Rule::Rise, 5.0)]),
    );
    let rise = |w: &Work| matches!(w, Work::Lay { rise_deg, .. } if rise_deg.degrees() == 5.0);
    assert!(works.iter().all(rise));
}

#[test]
fn uprights_are_tipped_until_the_wall_has_its_height_and_then_held() {
    let never = (Rule::RenewFrom, 0.0);
    assert_eq!(count(&[never], 1, Dormant, TIPS), 0);
    assert!(count(&[never], 2, Dormant, TIPS) > 55);
    assert!(count(&[never], 3, Dormant, TIPS) > 70);
    assert_eq!(count(&[never], 5, Dormant, TIPS), 0);
    assert!(count(&[never], 5, Dormant, HOLDS) > 70);
    // Renewal ends it too.
    assert_eq!(count(&[(Rule::RenewFrom, 3.0)], 3, Dormant, TIPS), 0);
    assert!(count(&[(Rule::TipUntil, 40.0)], 6, Dormant, TIPS) > 20);
    assert_eq!(count(&[never, (Rule::TipUntil, 2.0)], 3, Dormant, TIPS), 0);
    assert_eq!(count(&[never, (Rule::TipShare, 0.0)], 2, Dormant, TIPS), 0);
    assert_eq!(count(&[never, (Rule::Hold, 0.0)], 5, Dormant, HOLDS), 0);
    let terms = Terms::of(&planted(2000.0), &Targets::default());
    for tree in &planted(2000.0).trees {
        trained(
            tree,
            1..=8,
            &terms,
            &rules(&[never]),
            &mut |m, _, after, _| {
                let held = m.window == Dormant && m.leaf >= 3;
                for course in layout(after, terms.geometry).iter().filter(|_| held) {
                    assert!(course.tip().y <= 2501.0, "{m:?}: {}", course.tip().y);
                }
            },
        );
    }
}

#[test]
fn uprights_of_a_low_wall_do_not_multiply() {
    let mut row = planted(2000.0);
    row.trellis.wall_height = Mm(1200);
    let terms = Terms::of(&row, &Targets::default());
    let most = |set: &[(Rule, f64)]| {
        let mut most = 0;
        for tree in &row.trees {
            trained(tree, 1..=8, &terms, &rules(set), &mut |m, before, _, _| {
                if m.window == Dormant && m.leaf >= 3 {
                    most = most.max(before.uprights().count());
                }
            });
        }
        most
    };
    // Eight places, and what comes beside them in places.
    assert!((8..=12).contains(&most(&[])), "{}", most(&[]));
    let unthinned = most(&[(Rule::Thin, 0.0)]);
    assert!(unthinned > 16, "{unthinned}");
}

#[test]
fn renewal_takes_its_share_and_no_wood_passes_its_age() {
    let stubs = |set: &[(Rule, f64)], leaf| count(set, leaf, Dormant, STUBS);
    assert_eq!(stubs(&[], 2), 0);
    // Eight uprights at two years: one or two a winter, and in good time, at most three.
    assert!((10..=30).contains(&stubs(&[], 3)), "{}", stubs(&[], 3));
    assert_eq!(stubs(&[(Rule::RenewFrom, 0.0)], 9), 0);
    assert!(stubs(&[(Rule::RenewFrom, 6.0)], 5) == 0 && stubs(&[(Rule::RenewFrom, 6.0)], 6) > 15);
    let eighth = [(Rule::RenewShare, 0.125)];
    assert!(stubs(&eighth, 4) < stubs(&[], 4));
    let terms = Terms::of(&planted(2000.0), &Targets::default());
    let mut oldest = 0;
    for tree in &planted(2000.0).trees {
        trained(tree, 1..=15, &terms, &rules(&[]), &mut |m, before, _, _| {
            for s in before.uprights().filter(|_| m.window == Dormant) {
                oldest = oldest.max(m.leaf - s.born().unwrap());
            }
        });
    }
    // A fifth is five winters.
    assert_eq!(oldest, 5);
    // Of several returns one is kept.
    assert!(count(&[], 4, EarlySummer, THINS) > 5);
    assert_eq!(count(&[(Rule::Thin, 0.0)], 4, EarlySummer, THINS), 0);
}

#[test]
fn laterals_come_off_from_their_leaf_on() {
    assert_eq!(count(&[], 2, Dormant, LATERALS), 0);
    assert!(count(&[], 3, Dormant, LATERALS) > 40);
    assert_eq!(count(&[(Rule::LateralsFrom, 4.0)], 3, Dormant, LATERALS), 0);
    assert_eq!(count(&[(Rule::LateralsFrom, 0.0)], 5, Dormant, LATERALS), 0);
}

#[test]
fn the_end_is_cut_at_the_next_tree_but_not_what_carries_kept_uprights() {
    let terms = Terms::of(&planted(2000.0), &Targets::default());
    let ends = |row: &Row, leaf: u8| {
        let works = works_of(row, at(leaf, Dormant), &rules(&[]));
        let cut = works.iter().filter_map(|w| match w {
            Work::CutBack { keep_mm, .. } => Some(keep_mm.f()),
            _ => None,
        });
        cut.collect::<Vec<_>>()
    };
    // 0.71 m up and 1.5 m along.
    let cut = ends(&planted(2000.0), 3);
    assert!(
        cut.len() > 5 && cut.iter().all(|k| (2180.0..=2215.0).contains(k)),
        "{cut:?}"
    );
    assert!(ends(&planted(2000.0), 1).is_empty());
    let mut long = wood::shoot(0, wood::laid(Toward::Right, 0.0), wood::grown(0, 3000.0));
    long.diameter = 18.0;
    let upright = |at| Shoot {
        at,
        ..wood::shoot(1, wood::standing(0.0), wood::grown(2, 600.0))
    };
    let cut = |shoots| {
        let tree = wood::tree(1, 0, 45.0, Toward::Right, shoots);
        work(&tree, at(3, Dormant), &terms, &rules(&[]))
            .into_iter()
            .find_map(|w| match w {
                Work::CutBack { keep_mm, .. } => Some(keep_mm),
                _ => None,
            })
    };
    let near = cut(vec![long.clone(), upright(2000.0)]).unwrap();
    assert!((2180.0..=2215.0).contains(&near.f()), "{near:?}");
    assert_eq!(cut(vec![long.clone(), upright(2800.0)]), Some(Mm(2820)));
}

#[test]
fn a_tree_that_came_later_is_trained_from_its_own_first_leaf_on() {
    let mut row = planted(2000.0);
    let terms = Terms::of(&row, &Targets::default());
    let young = wood::changed(&row.trees[0], |t| t.shoots[0].units[0].leaf = 4);
    row.trees.truncate(1);
    for window in Window::ALL {
        let first = work(&row.trees[0], at(1, window), &terms, &rules(&[]));
        let later = work(&young, at(5, window), &terms, &rules(&[]));
        assert_eq!(first.len(), later.len(), "{window:?}");
    }
    assert!(
        work(
            &Tree::lost(TreeId(1), Mm(0), young.planted),
            at(5, Dormant),
            &terms,
            &rules(&[])
        )
        .is_empty()
    );
}

#[test]
fn a_wire_is_added_each_winter_until_they_reach_the_walls_height() {
    let mut trellis = Trellis::default();
    trellis.wires.truncate(2);
    let next = |trellis: &Trellis, leaf, window, set: &[(Rule, f64)]| {
        cordonry::standing::wires(trellis, at(leaf, window), &rules(set))
    };
    let wire = |height| {
        Some(Work::AddWire {
            height_mm: Mm(height),
            covering: Covering::Bare,
        })
    };
    assert_eq!(next(&trellis, 1, Dormant, &[]), None);
    assert_eq!(next(&trellis, 2, BudSwell, &[]), None);
    assert_eq!(next(&trellis, 2, Dormant, &[]), wire(1500));
    assert_eq!(next(&trellis, 2, Dormant, &[(Rule::Wires, 0.0)]), None);
    assert_eq!(next(&Trellis::default(), 2, Dormant, &[]), None);
}

#[test]
fn every_rule_accepts_its_range_alone() {
    for rule in Rule::ALL {
        let info = rule.info();
        let mut rules = Rules::default();
        assert!(rules.set(*rule, Some(info.min)) && rules.set(*rule, Some(info.max)));
        assert_eq!(rules.get(*rule), info.max);
        assert!(!rules.set(*rule, Some(info.min - 1.0)) && !rules.set(*rule, Some(f64::NAN)));
        assert_eq!(rules.get(*rule), info.max);
        assert!(rules.set(*rule, None));
        assert_eq!(rules, Rules::default());
        assert_eq!(rules.get(*rule), info.default);
    }
}

fn any_rules() -> impl Strategy<Value = Standard> {
    let one = (0..Rule::ALL.len(), 0.0..=1.0).prop_map(|(at, share): (usize, f64)| {
        let info = Rule::ALL[at].info();
        let value = info.min + share * (info.max - info.min);
        (
            Rule::ALL[at],
            if Rule::ALL[at].accepts(value) {
                value
            } else {
                value.round()
            },
        )
    });
    prop::collection::vec(one, 0..6).prop_map(|set| rules(&set))
}

proptest! {
    #![proptest_config(random::cases(48))]

    /// Whatever the row and the rules: the work of a window can all be done, one piece a subject, in the order in which a window
    /// is done, and does what was said.
    #[test]
    fn standing_work_is_ordinary_work_and_none_is_void(row in random::row(), rules in any_rules()) {
        let terms = Terms::of(&row, &Targets::default());
        for tree in &row.trees {
            trained(tree, row.leaf..=row.leaf + 9, &terms, &rules, &mut |m, before, after, works| {
                assert!(works.windows(2).all(|w| w[0].subject() < w[1].subject()), "{works:?}");
                let one_by_one = works.iter().fold(before.clone(), |tree, work| {
                    apply_to_tree(&tree, m, &terms, work)
                        .unwrap_or_else(|why| panic!("{m:?}: {work:?} on {tree:?}: {}", why.key))
                });
                assert_eq!(&one_by_one, after);
                assert_eq!(after.broken_rule(), None);
                assert_eq!(&work(before, m, &terms, &rules), works);
            });
        }
    }
}

#[test]
fn stock_with_two_leaders_is_laid_both_ways_and_fills_its_place() {
    use cordonry::forecast::Forecast;
    use cordonry::make::{Form, Leaders, RowSketch};
    use cordonry::units::LengthStyle;
    use cordonry_words::Words;
    let sketch = |spacing: i32| RowSketch {
        leaf: 1,
        leaders: Leaders::Two,
        spacing: Mm(spacing),
        unevenness: 0.0,
        ..RowSketch::usual(LengthStyle::Metric)
    };
    let plan = |spacing| sketch(spacing).plan(&Words::strict()).unwrap();
    // It is just planted: its first leaf stands, and that of planting where somebody gives it back.
    let found = plan(3000);
    let given_back = found.with_all_standing();
    for plan in [&found, &given_back] {
        let works = |window| plan.work_at(0, Moment { leaf: 1, window }).unwrap();
        let lays = works(EarlySummer).into_iter().filter(|w| w.kind() == "lay");
        // Leaders that stand are no uprights: nothing is cut on them.
        assert!(works(Dormant).is_empty(), "{:?}", works(Dormant));
        assert_eq!(lays.count(), 2 * plan.found.trees.len());
        let years = Forecast::default().of(plan, 0, 8).unwrap();
        let filled = years[1].cordon_fill_share;
        assert!(filled > 0.95, "{filled}");
        // As of a single leader, buds are rubbed out and kept before they are laid, so it crops in leaf 3.
        let buds = works(BudSwell);
        let count = |kind| buds.iter().filter(|w| w.kind() == kind).count();
        assert_eq!(count("rub_out"), 3 * plan.found.trees.len());
        assert!(count("keep_bud") >= 12 * plan.found.trees.len(), "{buds:?}");
        let crop = years[2].crop_t_per_ha;
        assert!((2.0..=7.0).contains(&crop), "{crop}");
        let end = random::at(
            plan,
            Moment {
                leaf: 8,
                window: Dormant,
            },
        );
        assert!(end.void.is_empty());
        for tree in &end.row.trees {
            let ways = tree.shoots.iter().filter_map(|s| match s.pose {
                Pose::Laid { toward, .. } => Some(toward),
                _ => None,
            });
            let ways: Vec<Toward> = ways.collect();
            assert!(ways.contains(&Toward::Left) && ways.contains(&Toward::Right));
        }
    }
}

/// A bud kept on the side goes with the others; what stands after it in the tree is still found, to keep buds on.
#[test]
fn side_buds_rubbed_out_leave_the_other_wood_where_it_is() {
    let right = wood::laid(Toward::Right, 3.0);
    let side = Shoot {
        face: Face::Side,
        at: 900.0,
        ..wood::shoot(1, wood::standing(0.0), vec![])
    };
    let end = Shoot {
        at: 1400.0,
        ..wood::shoot(2, right, wood::grown(2, 900.0))
    };
    let tree = wood::tree(
        1,
        0,
        45.0,
        Toward::Right,
        vec![wood::shoot(0, right, wood::grown(1, 1400.0)), side, end],
    );
    let row = Row {
        trees: vec![Arc::new(tree)],
        leaf: 3,
        ..planted(1500.0)
    };
    let terms = Terms::of(&row, &Targets::default());
    let moment = at(3, Window::BudSwell);
    let works = work(&row.trees[0], moment, &terms, &rules(&[]));
    let on_end = works
        .iter()
        .filter(|w| matches!(w, Work::KeepBud { shoot, .. } if *shoot == ShootId::found(2)));
    assert!(on_end.count() >= 2, "{works:?}");
    assert!(works.contains(&Work::RubOut {
        tree: row.trees[0].id,
        shoot: ShootId::found(0)
    }));
}
