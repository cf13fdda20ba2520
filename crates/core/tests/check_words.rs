//! Every finding can be said, and every remedy does what it says: on rows as they come.

use cordonry::check::{Context, Finding, check, light_rules, rules};
use cordonry::cover::{Span, cover, upright_places};
use cordonry::pose::{Geometry, PosedRow};
use cordonry::row::*;
use cordonry::terms::Terms;
use cordonry_fixture::wall::*;
use cordonry_words::Words;
use proptest::prelude::*;

#[test]
fn every_rule_and_limit_has_a_text() {
    let words = Words::strict();
    for rule in rules().chain(light_rules()) {
        assert!(words.has(&format!("finding-{rule}")), "finding-{rule}");
    }
    for limit in Limit::ALL {
        let info = limit.info();
        for key in [Some(info.text), info.source].into_iter().flatten() {
            assert!(words.has(key), "{key}");
        }
    }
}

#[test]
fn every_rule_has_a_name_of_its_own() {
    let mut all: Vec<_> = rules().chain(light_rules()).collect();
    all.sort_unstable();
    let count = all.len();
    all.dedup();
    assert_eq!(all.len(), count);
}

#[test]
fn every_remedy_named_in_the_checks_has_a_text() {
    let words = Words::strict();
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/src/check");
    let mut seen = 0;
    let entries = std::fs::read_dir(folder)
        .unwrap()
        .map(|e| e.unwrap().path());
    // What puts findings together has no remedies of its own.
    for file in entries.filter(|path| path.is_file()) {
        let text = std::fs::read_to_string(file).unwrap();
        for part in text.split("\"remedy-").skip(1) {
            let key = format!("remedy-{}", part.split('"').next().unwrap());
            assert!(words.has(&key), "{key}");
            seen += 1;
        }
    }
    assert!(seen > 10);
}

#[test]
fn every_default_lies_in_its_range() {
    for limit in Limit::ALL {
        let i = limit.info();
        assert!(i.min <= i.default && i.default <= i.max, "{}", i.key);
        let says_all = matches!(i.status, Status::CommonPractice | Status::FromMemory);
        assert!(i.source.is_some() || says_all, "{}", i.key);
    }
}

fn all(row: &Row) -> Vec<Finding> {
    let targets = Targets::default();
    let (row, terms) = (PosedRow::of(row, &targets), Terms::of(row, &targets));
    check(&Context::found(&row, &terms, &targets))
}

#[test]
fn a_row_without_trees_and_one_without_length_are_checked() {
    for row in [
        row(0, 0, vec![]),
        row(0, 3000, vec![]),
        row(500, 500, vec![upright_stem(1, 0, 2000.0)]),
    ] {
        for f in all(&row) {
            assert!(f.measured.is_finite() && f.x.is_finite() && f.width.is_finite());
        }
    }
}

prop_compose! {
    fn any_tree()(
        angle in prop::sample::select(vec![45.0, 60.0, 90.0]),
        right in any::<bool>(),
        standing_stem in prop::bool::weighted(0.1),
        rise in prop::sample::select(vec![0.0, 0.0, 3.0, 20.0, -5.0]),
        length in 700.0..3000.0f64,
        diameter in prop::sample::select(vec![0.0, 12.0, 25.0]),
        uprights in prop::collection::vec((0.0..1.0f64, 0u8..8, 100.0..2300.0f64, 0.0..25.0f64, 1u8..4, -25.0..25.0f64), 0..14),
        lost in prop::bool::weighted(0.1),
        space in 300i32..2500,
    ) -> (Grow, i32) {
        let toward = if right { Toward::Right } else { Toward::Left };
        let length = length.round();
        let mut tree = stem(0, 0, angle, toward, length).with_stem(|s| {
            s.diameter = diameter;
            s.pose = if standing_stem { standing(0.0) } else { laid(toward, rise) };
        });
        for (share, kind, own, diameter, born, lean) in uprights {
            let pose = match kind {
                0 => Pose::Stub,
                1 | 2 => Pose::Free,
                3 => laid(toward.other(), 0.0),
                4 => standing(lean),
                _ => standing(0.0),
            };
            let units = if kind == 7 { vec![] } else { grown(born, own.round()) };
            tree = tree.shoot((share * length).floor(), pose, units).last(|s| {
                s.diameter = (diameter * 10.0).round() / 10.0;
                s.face = if kind == 2 { Face::Side } else { Face::Top };
                s.laterals.count = u16::from(born == 3);
            });
        }
        if lost {
            tree.0.shoots.clear();
        }
        (tree, space)
    }
}

prop_compose! {
    fn any_row()(trees in prop::collection::vec(any_tree(), 1..6), leaf in 1u8..9) -> Row {
        let mut foot = 0;
        let mut all = Vec::new();
        for (i, (mut tree, space)) in trees.into_iter().enumerate() {
            tree.0.id = TreeId(i as u32 + 1);
            tree.0.foot = cordonry::units::Mm(foot);
            foot += space;
            all.push(tree);
        }
        let mut row = row(-300, foot + 300, all);
        row.leaf = leaf;
        row
    }
}

/// The widest space between uprights from `from` to `to`, less bare stretches that are findings of their own.
fn widest(row: &Row, from: f64, to: f64) -> f64 {
    let targets = Targets::default();
    let gaps = cover(row, &targets).gaps;
    let bare = |a: f64, b: f64| -> f64 {
        gaps.iter()
            .filter(|g| g.span.length() > 150.0)
            .map(|g| (g.span.to.min(b) - g.span.from.max(a)).max(0.0))
            .sum()
    };
    let places: Vec<f64> = upright_places(row, Geometry::of(row, &targets))
        .iter()
        .map(|p| p.x)
        .filter(|x| (from - 0.01..=to + 0.01).contains(x))
        .collect();
    places
        .windows(2)
        .map(|w| w[1] - w[0] - bare(w[0], w[1]))
        .fold(0.0, f64::max)
}

fn bare_within(row: &Row, span: Span) -> f64 {
    cover(row, &Targets::default())
        .gaps
        .iter()
        .map(|g| (g.span.to.min(span.to) - g.span.from.max(span.from)).max(0.0))
        .sum()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 400, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn a_remedy_mends_what_it_is_offered_for(row in any_row()) {
        let words = Words::strict();
        for f in all(&row) {
            let said = words.finding(&f);
            prop_assert!(!said.contains(['{', '$']) && !said.starts_with("finding-"), "{said}");
            prop_assert!(f.measured.is_finite() && f.allowed.is_finite());
            for (i, remedy) in f.remedies.iter().enumerate() {
                let said = words.remedy(remedy);
                prop_assert!(!said.contains(['{', '$']) && !said.starts_with("remedy-"), "{said}");
                prop_assert!(!remedy.work.is_empty() || remedy.wall_height.is_some());
                // Never refused.
                let after = mended(&row, &f, i);
                for tree in &after.trees {
                    prop_assert_eq!(tree.broken_rule(), None);
                }
                let still: Vec<Finding> = all(&after)
                    .into_iter()
                    .filter(|g| g.rule == f.rule && g.subjects == f.subjects)
                    .collect();
                match f.rule {
                    "cordon-gap" => {
                        let span = Span { from: f.x, to: f.x + f.width };
                        let left = bare_within(&after, span);
                        prop_assert!(left < f.measured - 9.0, "{said}: {left} of {}", f.measured);
                    }
                    "wall-too-tall" => prop_assert!(still.is_empty(), "{said}"),
                    "uprights-too-close" => prop_assert!(still.is_empty(), "{said}"),
                    "uprights-too-far" => {
                        let left = widest(&after, f.x, f.x + f.width);
                        prop_assert!(left < f.measured - 0.5, "{said}: {left} of {}", f.measured);
                    }
                    // What comes from the buds is grown, not cut.
                    "uprights-uneven" => {}
                    _ => {
                        let says = remedy.said.args.iter().any(|(name, _)| *name == "leaves");
                        prop_assert!(still.is_empty() || says, "{said}: {:?}", still);
                    }
                }
            }
        }
    }
}
