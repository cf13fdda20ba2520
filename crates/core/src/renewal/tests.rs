//! The order against cases that were worked out elsewhere; the age limit against every order of thickness.

use super::*;
use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeSet;

fn data(name: &str) -> Vec<Value> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../tests/data/schedule/");
    let text = std::fs::read_to_string(format!("{folder}{name}")).unwrap();
    let all: Value = serde_json::from_str(&text).unwrap();
    all["cases"].as_array().unwrap().clone()
}

fn numbers(of: &Value) -> Vec<usize> {
    let of = of.as_array().unwrap().iter();
    of.map(|n| n.as_u64().unwrap() as usize).collect()
}

fn by(share: f64) -> Renewal {
    let share = Share::near(share);
    Renewal {
        share,
        age_limit: share.turn(),
    }
}

/// Nothing that matters stands beside.
fn alone(_: usize, _: &[usize]) -> bool {
    false
}

fn upright(age: u8, cut: Option<u8>) -> Upright {
    Upright {
        age,
        size: 0.0,
        cut,
        stubbed: false,
        spared: false,
        crowds: false,
    }
}

/// A season later: what was cut is of one season, all else is a season older.
fn next_winter(uprights: &mut [Upright], cut: &[usize]) {
    for (i, u) in uprights.iter_mut().enumerate() {
        *u = match cut.contains(&i) {
            true => upright(1, Some(1)),
            false => Upright {
                age: u.age + 1,
                cut: u.cut.map(|winters| winters + 1),
                ..*u
            },
        };
    }
}

fn oldest(uprights: &[Upright]) -> u8 {
    uprights.iter().map(|u| u.age).max().unwrap_or(0)
}

/// The count of the reference cases: the carried fifth, at least one, at most a third rounded down.
fn count_of_the_cases(n: usize, winter: u32) -> usize {
    Share::near(0.2)
        .carried(n, winter)
        .max(1)
        .min((n / 3).max(1))
}

/// No end to what can be cut later, so that the share is never raised.
fn without_raising() -> Turn {
    Turn::new(u8::MAX, usize::MAX, &[])
}

#[test]
fn places_go_in_the_order_of_the_reference_cases() {
    let cases = data("cases.json");
    assert_eq!(cases.len(), 84);
    for case in cases {
        let (ages, diameters) = (numbers(&case["ages"]), numbers(&case["diam"]));
        let (first, grow) = (numbers(&case["first"]), numbers(&case["grow"]));
        let n = ages.len();
        let mut tree: Vec<Upright> = ages.iter().map(|a| upright(*a as u8, None)).collect();
        for (u, diameter) in tree.iter_mut().zip(&diameters) {
            u.size = *diameter as f64;
        }
        let wanted = &case["no_recut"];
        for winter in 0..12 {
            let said = |what: &str| numbers(&wanted[what][winter]);
            let id = format!("{} in winter {winter}", case["id"]);
            let carried = Share::near(0.2).carried(n, winter as u32);
            assert_eq!(carried, numbers(&case["k"])[winter], "{id}");
            assert_eq!(
                usize::from(oldest(&tree)),
                numbers(&wanted["oldest_before"])[winter],
                "{id}"
            );
            let cut = by(0.2).choose(
                &tree,
                count_of_the_cases(n, winter as u32),
                &without_raising(),
                &alone,
            );
            assert_eq!(cut, said("cut_places"), "{id}");
            let ages: Vec<usize> = cut.iter().map(|i| tree[*i].age.into()).collect();
            assert_eq!(ages, said("cut_ages"), "{id}");
            for (i, u) in tree.iter_mut().enumerate() {
                u.size = match cut.contains(&i) {
                    true => first[i] as f64,
                    false => u.size + grow[i] as f64,
                };
            }
            let sizes: Vec<f64> = tree.iter().map(|u| u.size).collect();
            next_winter(&mut tree, &cut);
            for (u, size) in tree.iter_mut().zip(sizes) {
                u.size = size;
            }
        }
    }
}

/// A tree as far as the order of thickness is left open: ages and last cuts, sorted.
type Tree = Vec<(u8, Option<u8>)>;

/// All trees that a winter can leave, whatever is thick: each kind of wood may be the largest at each cut.
fn after_any_thickness(
    tree: &Tree,
    count: usize,
    cut: &dyn Fn(&[Upright]) -> Vec<usize>,
    out: &mut BTreeSet<Tree>,
) {
    // Of what was never cut the largest go; of the rest, thickness decides between wood of one age alone.
    let kinds: BTreeSet<(u8, Option<u8>)> =
        tree.iter().copied().filter(|k| k.1.is_none()).collect();
    let kinds: Vec<_> = kinds.into_iter().collect();
    let orders = kinds.len().max(1).pow(count as u32);
    for order in 0..orders {
        let mut uprights: Vec<Upright> = tree.iter().map(|(a, c)| upright(*a, *c)).collect();
        let mut rest = order;
        for rank in 0..count.min(uprights.len()) {
            let Some(kind) = kinds.get(rest % kinds.len().max(1)) else {
                break;
            };
            rest /= kinds.len();
            let next = uprights
                .iter_mut()
                .find(|u| (u.age, u.cut) == *kind && u.size == 0.0);
            if let Some(next) = next {
                next.size = (count - rank) as f64;
            }
        }
        let gone = cut(&uprights);
        next_winter(&mut uprights, &gone);
        let mut left: Tree = uprights.iter().map(|u| (u.age, u.cut)).collect();
        left.sort_unstable();
        out.insert(left);
    }
}

/// Every mix of so many uprights of the ages from 1 or of the one age.
fn mixes(n: usize, ages: std::ops::RangeInclusive<u8>) -> BTreeSet<Tree> {
    let mut out = BTreeSet::from([Tree::new()]);
    for _ in 0..n {
        let longer = out.iter().flat_map(|tree| {
            ages.clone().map(move |age| {
                let mut tree = tree.clone();
                tree.push((age, None));
                tree.sort_unstable();
                tree
            })
        });
        out = longer.collect();
    }
    out
}

fn oldest_of(trees: &BTreeSet<Tree>) -> u8 {
    let ages = trees.iter().flatten().map(|(age, _)| *age);
    ages.max().unwrap_or(0)
}

#[test]
fn the_oldest_wood_is_that_of_the_exhaustive_search() {
    for case in data("exhaustive.json") {
        let n = case["n"].as_u64().unwrap() as usize;
        let start = match case["start"].as_str().unwrap() {
            "all2" => mixes(n, 2..=2),
            "all3" => mixes(n, 3..=3),
            "all4" => mixes(n, 4..=4),
            // The mixes of larger trees are many, and differ in nothing but their number.
            _ if n <= 6 => mixes(n, 1..=5),
            _ => continue,
        };
        let mut trees = start;
        let wanted = numbers(&case["no_recut"]["oldest_possible"]);
        for (winter, wanted) in wanted.into_iter().enumerate() {
            assert_eq!(
                usize::from(oldest_of(&trees)),
                wanted,
                "{n} {} {winter}",
                case["start"]
            );
            let count = count_of_the_cases(n, winter as u32);
            let mut after = BTreeSet::new();
            for tree in &trees {
                let cut = |u: &[Upright]| by(0.2).choose(u, count, &without_raising(), &alone);
                after_any_thickness(tree, count, &cut, &mut after);
            }
            trees = after;
        }
    }
}

#[test]
fn no_wood_passes_the_limit_whatever_is_thick() {
    for (share, oldest_start) in [(0.2, 3), (0.25, 2)] {
        let renewal = by(share);
        for n in 4..=20 {
            for from in 0..renewal.share.den {
                let mut trees = mixes(n, 1..=oldest_start);
                // Two turns: all that was found is gone, and all that has come has had its turn.
                for winter in from..from + 2 * u32::from(renewal.age_limit) {
                    let mut after = BTreeSet::new();
                    for tree in &trees {
                        let uprights: Vec<Upright> =
                            tree.iter().map(|(a, c)| upright(*a, *c)).collect();
                        let asked = renewal.winter(&uprights, winter, &alone);
                        assert_eq!(asked.reachable, renewal.age_limit, "{tree:?}");
                        assert!(asked.count <= n.div_ceil(3), "{tree:?}");
                        assert_eq!(asked.cut.len(), asked.count, "{tree:?}");
                        let cut = |u: &[Upright]| renewal.winter(u, winter, &alone).cut;
                        after_any_thickness(tree, asked.count, &cut, &mut after);
                    }
                    trees = after;
                    assert!(
                        oldest_of(&trees) <= renewal.age_limit,
                        "{n} by {share} from {from} in {winter}"
                    );
                }
            }
        }
    }
}

#[test]
fn a_share_is_the_simplest_ratio_near_it() {
    for (share, num, den, turn) in [
        (0.2, 1, 5, 5),
        (0.25, 1, 4, 4),
        (0.1, 1, 10, 10),
        (0.125, 1, 8, 8),
        (0.167, 1, 6, 6),
        (0.143, 1, 7, 7),
        (0.111, 1, 9, 9),
        (0.15, 3, 20, 7),
        (0.12, 3, 25, 9),
    ] {
        assert_eq!(Share::near(share), Share { num, den }, "{share}");
        assert_eq!(Share::near(share).turn(), turn, "{share}");
    }
}

#[test]
fn the_remainder_is_carried() {
    let of = |share: f64, n| -> Vec<usize> {
        (0..5).map(|w| Share::near(share).carried(n, w)).collect()
    };
    assert_eq!(of(0.2, 8), [1, 2, 1, 2, 2]);
    assert_eq!(of(0.2, 10), [2, 2, 2, 2, 2]);
    assert_eq!(of(0.2, 4), [0, 1, 1, 1, 1]);
    assert_eq!(of(0.167, 8)[..3], [1, 1, 2]);
    assert_eq!(of(0.25, 8), [2, 2, 2, 2, 2]);
}

#[test]
fn a_tree_in_its_turn_is_cut_by_the_carried_share_alone() {
    // Ages as a carried fifth leaves them: the cohort of each winter five winters later.
    for n in 4..=20 {
        let mut tree: Vec<Upright> = (0..5)
            .flat_map(|w| {
                vec![upright(5 - w as u8, Some(5 - w as u8)); Share::near(0.2).carried(n, w)]
            })
            .collect();
        for winter in 5..30 {
            let asked = by(0.2).winter(&tree, winter, &alone);
            assert_eq!(asked.count, asked.carried, "{n} in {winter}");
            next_winter(&mut tree, &asked.cut);
        }
    }
}

#[test]
fn the_share_is_raised_evenly_and_in_good_time() {
    // Ten of two seasons have four winters: by the carried share two of them would be left.
    let mut tree = vec![upright(2, None); 10];
    let mut counts = Vec::new();
    for winter in 0..5 {
        let asked = by(0.2).winter(&tree, winter, &alone);
        counts.push(asked.count);
        next_winter(&mut tree, &asked.cut);
    }
    assert_eq!(counts, [3, 3, 2, 2, 2]);
}

#[test]
fn where_wood_is_too_old_already_the_least_age_is_told() {
    let of = |n: usize, age: u8| by(0.2).winter(&vec![upright(age, None); n], 0, &alone);
    // Ten, at most four a winter, are three winters' work.
    for (age, reachable) in [(3, 5), (4, 6), (5, 7), (8, 10)] {
        let asked = of(10, age);
        assert_eq!((asked.reachable, asked.count), (reachable, 4), "{age}");
    }
}

#[test]
fn wood_that_is_over_the_limit_does_not_wait_for_a_tree_that_lacks_uprights() {
    let mut uprights: Vec<Upright> = [6, 4, 5, 6, 1].map(|age| upright(age, None)).into();
    let mut stub = upright(6, None);
    stub.stubbed = true;
    uprights.push(stub);
    // A third of six: one beside the stub that stands.
    let winter = by(0.2).due(true, &uprights, 7, &alone);
    assert_eq!((winter.count, winter.cut.len()), (2, 1));
    assert_eq!(uprights[winter.cut[0]].age, 6);
    // Nothing is over yet: all waits.
    let young: Vec<Upright> = [3, 2, 2, 1].map(|age| upright(age, None)).into();
    assert_eq!(by(0.2).due(true, &young, 7, &alone).count, 0);
}

#[test]
fn what_stands_beside_a_hole_waits_unless_its_time_has_come() {
    let tree: Vec<Upright> = [(9.0, 2), (8.0, 2), (7.0, 2), (6.0, 5), (5.0, 5)]
        .map(|(size, age)| Upright {
            size,
            ..upright(age, None)
        })
        .to_vec();
    let cut = |harms: &dyn Fn(usize, &[usize]) -> bool| by(0.2).winter(&tree, 0, harms).cut;
    assert_eq!(cut(&alone), [3, 4]);
    // Both are at the limit: no other can go in their place.
    assert_eq!(cut(&|_, _| true), [3, 4]);
    assert_eq!(cut(&|i, _| i == 3), [4, 3]);
    let young = &tree[..3];
    let cut = |harms: &dyn Fn(usize, &[usize]) -> bool| by(0.34).winter(young, 0, harms).cut;
    assert_eq!(cut(&alone), [0]);
    assert_eq!(cut(&|i, _| i == 0), [1]);
    let beside = |i: usize, cut: &[usize]| cut.iter().any(|j| j.abs_diff(i) == 1);
    let six = vec![upright(2, None); 6];
    assert_eq!(by(0.2).winter(&six, 0, &beside).cut, [0, 2]);
}

#[test]
fn what_is_stubbed_counts_and_the_answer_holds_while_the_work_is_done() {
    let mut tree: Vec<Upright> = (0..9)
        .map(|i| Upright {
            size: f64::from(i),
            ..upright(2 + i / 4, None)
        })
        .collect();
    let asked = by(0.2).winter(&tree, 3, &alone);
    for (done, i) in asked.cut.iter().enumerate() {
        let now = by(0.2).winter(&tree, 3, &alone);
        assert_eq!((now.count, &now.cut[..]), (asked.count, &asked.cut[done..]));
        tree[*i].stubbed = true;
    }
    assert!(by(0.2).winter(&tree, 3, &alone).cut.is_empty());
}

fn any_tree() -> impl Strategy<Value = Vec<Upright>> {
    let any = (1..9u8, 0..30u32, prop::option::of(1..9u8)).prop_map(|(age, size, cut)| Upright {
        size: size.into(),
        // Regrown wood is as old as its cut.
        ..upright(cut.unwrap_or(age), cut)
    });
    prop::collection::vec(any, 1..24)
}

proptest! {
    /// With a third cut each winter, the oldest first, the oldest wood met from the next winter on is the least that can be.
    #[test]
    fn no_wood_passes_the_reachable_age_and_none_could_be_younger(
        mut tree in any_tree(),
        share in 0.1..0.25f64,
        from in 0..40u32,
        sizes in prop::collection::vec(0..30u32, 40),
        holes in prop::collection::vec(any::<bool>(), 24),
    ) {
        let harms = |i: usize, cut: &[usize]| holes[i] || cut.iter().any(|j| j.abs_diff(i) == 1);
        let renewal = by(share);
        let told = renewal.winter(&tree, from, &harms).reachable;
        let (n, mut hard, mut least) = (tree.len(), tree.clone(), 0);
        for _ in 0..12 {
            let mut order: Vec<usize> = (0..n).collect();
            order.sort_by_key(|i| std::cmp::Reverse(hard[*i].age));
            next_winter(&mut hard, &order[..n.div_ceil(3)]);
            least = least.max(oldest(&hard));
        }
        prop_assert_eq!(told, least.max(renewal.age_limit));
        for winter in 0..30u32 {
            let asked = renewal.winter(&tree, from + winter, &harms);
            prop_assert!(asked.count <= n.div_ceil(3));
            prop_assert!(asked.reachable <= told);
            next_winter(&mut tree, &asked.cut);
            for (i, u) in tree.iter_mut().enumerate() {
                u.size = sizes[(i + winter as usize) % sizes.len()].into();
            }
            prop_assert!(oldest(&tree) <= told, "{:?}", tree);
        }
    }
}

/// The cases of the growth model's reference: see tests/reference/README.md. They state the carried share alone, never raised.
fn cases_of_growth() -> Vec<Value> {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../tests/reference/growth/cases.json"
    );
    let all: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let all = all["cases"].as_array().unwrap().clone();
    let ours = |c: &Value| c["id"].as_str().unwrap().starts_with("renewal-");
    all.into_iter().filter(ours).collect()
}

/// Winters of a tree of even wood of which the carried share is cut, the oldest first: ages before each cut and ages cut,
/// the largest first.
fn winters_of_even_wood(n: usize, age: u8, share: Share, years: u32) -> Vec<[Vec<usize>; 2]> {
    let renewal = Renewal {
        share,
        // Any wood is at this limit: what is oldest goes.
        age_limit: 1,
    };
    let mut tree = vec![upright(age, None); n];
    let falling = |ages: &mut dyn Iterator<Item = u8>| {
        let mut ages: Vec<usize> = ages.map(usize::from).collect();
        ages.sort_unstable_by(|a, b| b.cmp(a));
        ages
    };
    let winter = |winter: u32| {
        let count = share.carried(n, winter);
        let cut = renewal.choose(&tree, count, &without_raising(), &alone);
        let before = falling(&mut tree.iter().map(|u| u.age));
        let gone = falling(&mut cut.iter().map(|i| tree[*i].age));
        next_winter(&mut tree, &cut);
        [before, gone]
    };
    (0..years).map(winter).collect()
}

#[test]
fn the_carried_share_gives_what_the_growth_cases_say() {
    let cases = cases_of_growth();
    assert_eq!(cases.len(), 17);
    for case in cases {
        let (given, expect) = (&case["given"], &case["expect"]);
        let id = case["id"].as_str().unwrap();
        let number = |of: &Value| of.as_u64().map(|n| n as usize);
        let share = match (number(&given["one_in"]), given["share"].as_f64()) {
            (Some(den), _) => Share::near(1.0 / den as f64),
            (_, Some(share)) => Share::near(share),
            (None, None) => Share::near(0.2),
        };
        let n = number(&given["uprights"]).unwrap_or(0);
        let age = given["age_at_start"].as_u64().unwrap_or(0) as u8;
        let years = number(&given["years"]).unwrap_or(20);
        let winters = || winters_of_even_wood(n, age, share, years as u32);
        match id {
            "renewal-order" | "renewal-neighbours" | "renewal-neighbours-due" => {
                picks(id, given, &numbers(&expect["picked"]));
            }
            "renewal-bearing" | "renewal-bearing-8" => {
                let k = number(&given["k"]).unwrap();
                let share = Share::near(k as f64 / n as f64);
                // Spurs bear from a shoot's third season on.
                let steady = winters_of_even_wood(n, 4, share, 20).pop().unwrap();
                let bearing = steady[0].iter().filter(|age| **age >= 3).count();
                let wanted = expect["share"].as_f64().unwrap();
                assert_eq!(bearing as f64 / n as f64, wanted, "{id}");
            }
            _ if expect["schedule"].is_array() => {
                let wanted = expect["schedule"].as_array().unwrap().iter();
                let wanted: Vec<[Vec<usize>; 2]> =
                    wanted.map(|w| [numbers(&w[0]), numbers(&w[1])]).collect();
                assert_eq!(winters(), wanted, "{id}");
            }
            _ => {
                let k: Vec<usize> = winters().iter().map(|w| w[1].len()).collect();
                match number(&expect["k"]) {
                    Some(even) => assert!(k.iter().all(|k| *k == even), "{id}: {k:?}"),
                    None => {
                        let wanted = numbers(&expect["k"]);
                        assert_eq!(k[..wanted.len()], wanted, "{id}");
                    }
                }
                // The last of the wood from before goes in the winter by which all have had their turn.
                let mut gone = 0;
                let winters = winters();
                let last = winters.iter().find(|w| {
                    gone += w[1].len();
                    gone >= n
                });
                assert_eq!(last.map(|w| w[1][0]), number(&expect["oldest_cut"]), "{id}");
                if let Some(limit) = number(&expect["age_limit"]) {
                    assert_eq!(usize::from(share.turn()), limit, "{id}");
                }
            }
        }
    }
}

/// Which places go, of some that differ in age and size; those beside the gap, or beside one that goes, rather stand.
fn picks(id: &str, given: &Value, wanted: &[usize]) {
    let by_place: Vec<(usize, Vec<usize>)> = match &given["age_mm"] {
        Value::Array(all) => all.iter().map(numbers).enumerate().collect(),
        Value::Object(all) => all
            .iter()
            .map(|(place, of)| (place.parse().unwrap(), numbers(of)))
            .collect(),
        _ => panic!("{id} gives no wood"),
    };
    let tree: Vec<Upright> = by_place
        .iter()
        .map(|(_, of)| Upright {
            size: of[1] as f64,
            ..upright(of[0] as u8, None)
        })
        .collect();
    let gap = given["gap"].as_u64().map(|at| at as usize);
    let place = |at: usize| by_place[at].0;
    let beside = |at: usize, cut: &[usize]| {
        let holes = cut.iter().map(|c| place(*c)).chain(gap);
        gap.is_some() && holes.into_iter().any(|hole| hole.abs_diff(place(at)) <= 1)
    };
    let renewal = Renewal {
        share: Share::near(0.2),
        age_limit: given["age_limit"].as_u64().unwrap_or(5) as u8,
    };
    let count = given["k"].as_u64().unwrap() as usize;
    let cut = renewal.choose(&tree, count, &without_raising(), &beside);
    let cut: Vec<usize> = cut.into_iter().map(place).collect();
    assert_eq!(cut, wanted, "{id}");
}

#[test]
fn stubs_do_not_come_to_stand_beside_each_other_where_others_are_as_due() {
    // Seven alike between two holes: the largest in the middle would leave the next no place of its own.
    let sizes = [1.0, 2.0, 3.0, 9.0, 8.0, 2.0, 1.0];
    let uprights: Vec<Upright> = sizes
        .iter()
        .map(|size| Upright {
            size: *size,
            ..upright(5, None)
        })
        .collect();
    let harms =
        |i: usize, cut: &[usize]| i == 0 || i == 6 || cut.iter().any(|c| c.abs_diff(i) == 1);
    let turn = without_raising();
    let mut cut = by(0.2).choose(&uprights, 3, &turn, &harms);
    cut.sort_unstable();
    assert_eq!(cut, [1, 3, 5]);
    // Of younger wood none is taken in the place of what is at the limit.
    let mut two = uprights.clone();
    for i in [0, 1, 2, 5, 6] {
        two[i].age = 4;
    }
    let mut cut = by(0.2).choose(&two, 2, &turn, &harms);
    cut.sort_unstable();
    assert_eq!(cut, [3, 4]);
}

/// Wood of these ages and sizes from one end of a tree to the other; what is `turned` grew from a stub in this turn.
fn in_order(wood: &[(u8, f64)], turned: impl Fn(usize) -> bool) -> Vec<Upright> {
    let one = |(i, (age, size)): (usize, &(u8, f64))| Upright {
        size: *size,
        ..upright(*age, turned(i).then_some(4))
    };
    wood.iter().enumerate().map(one).collect()
}

fn neighbours(i: usize, cut: &[usize]) -> bool {
    cut.iter().any(|j| j.abs_diff(i) == 1)
}

/// A winter in which the carried fifth of so many is `count`.
fn winter_of(uprights: usize, count: usize) -> u32 {
    let is = |w: &u32| Share::near(0.2).carried(uprights, *w) == count;
    (0..5).find(is).unwrap()
}

#[test]
fn a_younger_one_goes_in_the_place_of_one_that_would_stand_beside_a_stub_where_there_is_time() {
    let ages = [2, 1, 1, 3, 3, 1, 1, 1];
    let sizes = [16.0, 12.0, 15.0, 25.0, 20.0, 11.0, 12.0, 13.0];
    let wood: Vec<(u8, f64)> = ages.into_iter().zip(sizes).collect();
    let tree = in_order(&wood, |i| ages[i] == 1);
    let winter = winter_of(8, 2);
    assert_eq!(by(0.2).winter(&tree, winter, &alone).cut, [3, 4]);
    assert_eq!(by(0.2).winter(&tree, winter, &neighbours).cut, [3, 0]);
    // Not where it is much smaller: a hole more is the lesser harm.
    let mut thin = tree.clone();
    thin[0].size = 5.0;
    assert_eq!(by(0.2).winter(&thin, winter, &neighbours).cut, [3, 4]);
    let hole = |i: usize, _: &[usize]| i == 3;
    assert_eq!(by(0.2).winter(&tree[..4], winter_of(4, 1), &hole).cut, [3]);
}

#[test]
fn every_choice_is_looked_at_once() {
    for (n, count, ways) in [(5, 0, 1), (5, 2, 10), (4, 4, 1), (3, 4, 0), (8, 3, 56)] {
        let mut seen = BTreeSet::new();
        each_choice(n, count, &mut |of| {
            assert!(seen.insert(of.to_vec()), "{of:?} again");
        });
        assert_eq!(seen.len(), ways, "{count} of {n}");
        if count <= n {
            assert_eq!(choices(n, count), ways);
        }
    }
}

/// The uprights of a tree of which two bear and the others are a season old: those of age `old`, and how many are to be cut.
fn two_that_bear(old: [u8; 2], young: usize) -> Vec<usize> {
    let mut all: Vec<Upright> = old.iter().map(|age| upright(*age, None)).collect();
    for u in &mut all {
        u.size = 20.0;
    }
    all.extend((0..young).map(|_| upright(1, Some(1))));
    // A winter in which the share of nine is two.
    let winter = (0..5).find(|w| Share::near(0.2).carried(all.len(), *w) == 2);
    by(0.2).winter(&all, winter.unwrap(), &alone).cut
}

#[test]
fn the_last_that_bears_stands_until_younger_wood_does_or_its_time_has_come() {
    assert_eq!(two_that_bear([2, 2], 7), [0]);
    assert_eq!(two_that_bear([4, 3], 7), [0]);
    // At the age limit both go.
    assert_eq!(two_that_bear([5, 5], 7), [0, 1]);
    assert_eq!(two_that_bear([5, 4], 7).len(), 1);
}
