//! The exact solvers against trying every choice, on random small rows; each objective is reckoned here as its description words it.

use cordonry::said::Arg;
use cordonry::solve::fill::{self, Against, Row, Way, fill};
use cordonry::solve::uprights::{self, Candidate, cost, otherwise, solve};
use proptest::prelude::*;

/// Weights that often tie, so that ties are met.
fn weight() -> impl Strategy<Value = f64> {
    prop_oneof![(0..5i32).prop_map(f64::from), 0.0..3.0]
}

fn fill_weights() -> impl Strategy<Value = fill::Weights> {
    (weight(), weight(), 0..3i32, weight(), weight(), 0..3i32).prop_map(|(a, b, c, d, e, f)| {
        fill::Weights {
            gap: a,
            gap_each: b,
            gap_free: f64::from(c),
            overlap: d,
            overlap_each: e,
            overlap_free: f64::from(f),
        }
    })
}

type Trees = Vec<Vec<(i32, i32, f64)>>;

fn trees() -> impl Strategy<Value = (Trees, bool)> {
    let way = (0..14i32, 0..14i32, weight());
    let trees = prop::collection::vec(prop::collection::vec(way, 1..5), 0..6);
    (trees, any::<bool>())
}

/// Every choice of one of so many, one after the other.
fn every(counts: &[usize]) -> Vec<Vec<usize>> {
    let mut out = vec![Vec::new()];
    for count in counts {
        let longer = |head: Vec<usize>| (0..*count).map(move |i| [head.clone(), vec![i]].concat());
        out = out.into_iter().flat_map(longer).collect();
    }
    out
}

/// What stretches cost: the first place of each is where the wood before ends, the second where the next begins.
fn stretches(w: &fill::Weights, of: &[(f64, f64)]) -> f64 {
    let mut sum = 0.0;
    for (end, begin) in of {
        let (bare, doubled) = ((begin - end).max(0.0), (end - begin).max(0.0));
        if bare > w.gap_free {
            sum += w.gap_each + (bare - w.gap_free) * w.gap;
        }
        if doubled > w.overlap_free {
            sum += w.overlap_each + (doubled - w.overlap_free) * w.overlap;
        }
    }
    sum
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(1000))]

    #[test]
    fn the_fill_is_the_best_of_all((trees, asked) in trees(), w in fill_weights(), all_before in any::<bool>()) {
        let way = |at: usize, (a, b, cost): (i32, i32, f64)| Way {
            left: 10.0 * at as f64 + f64::from(a.min(b)),
            right: 10.0 * at as f64 + f64::from(a.max(b)),
            cost,
        };
        let ends = asked.then_some((0.0, 10.0 * trees.len() as f64 + 4.0));
        let ways: Vec<Vec<Way>> = trees.iter().enumerate()
            .map(|(at, of)| of.iter().map(|o| way(at, *o)).collect()).collect();
        let against = if all_before { Against::Reach } else { Against::Neighbour };
        let mut row = Row::new(ends, against);
        for of in &ways {
            row.tree(of.iter().copied());
        }
        let reckoned = |choice: &[usize]| {
            let chosen: Vec<Way> = choice.iter().zip(&ways).map(|(c, of)| of[*c]).collect();
            let mut borders: Vec<(f64, f64)> = Vec::new();
            let mut last = ends.map(|(from, _)| from);
            for way in &chosen {
                if let Some(end) = last {
                    // Doubled is what lies before the end of what was there, as far as the tree's own wood goes.
                    let end = if all_before { end.min(way.right.max(way.left)) } else { end };
                    borders.push((end, way.left));
                }
                last = match (last, all_before) {
                    (Some(end), true) => Some(end.max(way.right)),
                    _ => Some(way.right),
                };
            }
            if let (Some((_, to)), Some(end)) = (ends, last) {
                borders.push((end, to));
            }
            chosen.iter().map(|w| w.cost).sum::<f64>() + stretches(&w, &borders)
        };
        let counts: Vec<usize> = ways.iter().map(Vec::len).collect();
        let all: Vec<(Vec<usize>, f64)> =
            every(&counts).into_iter().map(|c| { let v = reckoned(&c); (c, v) }).collect();
        let least = all.iter().map(|(_, v)| *v).fold(f64::INFINITY, f64::min);
        let best = fill(&row, &w).expect("it is sound");
        prop_assert!((best.value - least).abs() < 1e-9, "{} not {least}", best.value);
        prop_assert!((reckoned(&best.choice) - least).abs() < 1e-9);
        for (tree, count) in counts.iter().enumerate() {
            let others = all.iter().filter(|(c, _)| c[tree] != best.choice[tree]);
            let other = others.map(|(_, v)| *v).fold(f64::INFINITY, f64::min);
            match fill::otherwise(&row, &w, &best, tree) {
                None => prop_assert_eq!(*count, 1),
                Some((next, worse)) => {
                    prop_assert!(next.choice[tree] != best.choice[tree]);
                    prop_assert!((worse - (other - least)).abs() < 1e-9);
                }
            }
        }
    }

    #[test]
    fn the_uprights_are_the_best_of_all(
        places in prop::collection::vec(0..60i32, 0..11),
        costs in prop::collection::vec((weight(), weight(), prop::bool::weighted(0.15)), 11),
        (min, wider, widest) in (1..5i32, 0..8i32, 0..20i32),
        (spacing, long_gap, beyond, end) in (weight(), weight(), prop::option::of(weight()), 0..8i32),
    ) {
        let mut places = places;
        places.sort_unstable();
        let all: Vec<Candidate> = places.iter().zip(&costs)
            .map(|(x, (keep, drop, stays))| Candidate { x: f64::from(*x), keep: *keep, drop: *drop, stays: *stays })
            .collect();
        let w = uprights::Weights {
            min: f64::from(min),
            max: f64::from(min + wider),
            target: f64::from(min) + f64::from(wider) / 3.0,
            spacing,
            long_gap,
            longest: f64::from(min + wider + widest),
            beyond,
            end: f64::from(end),
        };
        let reckoned = |mask: u32| -> Option<f64> {
            let has = |i: usize| mask >> i & 1 == 1;
            let kept: Vec<&Candidate> = (0..all.len()).filter(|i| has(*i)).map(|i| &all[i]).collect();
            if (0..all.len()).any(|i| all[i].stays && !has(i)) {
                return None;
            }
            let by_itself = |i: usize| if has(i) { all[i].keep } else { all[i].drop };
            let mut sum: f64 = (0..all.len()).map(by_itself).sum();
            let beyond = |gap: f64| match w.beyond {
                _ if gap <= w.longest => Some(0.0),
                Some(cost) => Some(cost * (gap - w.longest)),
                None => None,
            };
            for two in kept.windows(2) {
                let gap = two[1].x - two[0].x;
                if gap < w.min {
                    if two[0].stays && two[1].stays { continue; }
                    return None;
                }
                sum += w.spacing * ((gap.min(w.longest) - w.target) / w.target).powi(2);
                if gap > w.max {
                    sum += w.long_gap + beyond(gap)?;
                }
            }
            let ends = match (kept.first(), kept.last()) {
                (Some(first), Some(last)) => vec![first.x, 60.0 - last.x],
                _ => vec![60.0],
            };
            for bare in ends {
                if bare > w.end {
                    sum += w.long_gap + beyond(bare)?;
                }
            }
            Some(sum)
        };
        let every: Vec<(u32, f64)> = (0..1u32 << all.len()).filter_map(|m| Some((m, reckoned(m)?))).collect();
        let least = every.iter().map(|(_, v)| *v).fold(f64::INFINITY, f64::min);
        match solve((0.0, 60.0), &all, &w) {
            Err(refused) => {
                prop_assert!(every.is_empty(), "{refused}, but {least} can be reached");
                prop_assert_eq!(refused.key, "refusal-uprights-bare");
                let (Some(Arg::Length(from)), Some(Arg::Length(to))) = (refused.arg("from"), refused.arg("to")) else {
                    panic!("{refused}");
                };
                prop_assert!(from < to || all.is_empty(), "{refused}");
            }
            Ok(best) => {
                prop_assert!((best.value - least).abs() < 1e-9, "{} not {least}", best.value);
                let mask = best.kept.iter().fold(0, |m, i| m | 1 << i);
                let own = reckoned(mask).expect("it is allowed");
                prop_assert!((own - least).abs() < 1e-9);
                let told = cost((0.0, 60.0), &all, &w, &best.kept).expect("it is allowed");
                prop_assert!((told - least).abs() < 1e-9);
                for i in 0..all.len() {
                    let other = every.iter().filter(|(m, _)| (m >> i & 1) != (mask >> i & 1));
                    let other = other.map(|(_, v)| *v).fold(f64::INFINITY, f64::min);
                    let worse = otherwise((0.0, 60.0), &all, &w, &best, i);
                    match worse {
                        None => prop_assert!(other.is_infinite()),
                        Some(worse) => prop_assert!((worse - (other - least)).abs() < 1e-9),
                    }
                }
            }
        }
    }
}

#[test]
fn a_number_that_is_none_is_refused() {
    let way = Way {
        left: 0.0,
        right: f64::NAN,
        cost: 0.0,
    };
    let w = fill::Weights {
        gap: 1.0,
        gap_each: 0.0,
        gap_free: 0.0,
        overlap: 1.0,
        overlap_each: 0.0,
        overlap_free: 0.0,
    };
    let mut row = Row::new(None, Against::Neighbour);
    row.tree([way]);
    assert_eq!(
        fill(&row, &w).expect_err("it is none").key,
        "refusal-solve-number"
    );
    let mut row = Row::new(None, Against::Neighbour);
    row.tree([Way { right: 1.0, ..way }]);
    row.tree([]);
    let refused = fill(&row, &w).expect_err("it has no way");
    assert_eq!(refused.to_string(), "refusal-fill-no-way, count: 2");
}
