//! The rules of the cordon, each a millimetre either side of its limit.

use cordonry::check::{Finding, Severity, figures};
use cordonry::cover::cover;
use cordonry::row::*;
use cordonry::units::{Deg, Mm};
use cordonry::work::Work;
use cordonry_fixture::wall::*;
use cordonry_words::Words;

/// Two trees with feet at 0 and 1500 on a row of 0 to 3000: the second fills 1500 to 3000 (stock of 2000), the
/// first what its length gives.
fn pair(first: f64) -> Row {
    row(
        0,
        3000,
        vec![upright_stem(1, 0, first), upright_stem(2, 1500, 2000.0)],
    )
}

/// The same with a first leader whose end has ceased to grow: nothing is expected there.
fn ceased(first: f64) -> Row {
    let mut row = pair(first);
    let tree = std::sync::Arc::make_mut(&mut row.trees[0]);
    tree.shoots[0].units[0].leaf = 0;
    row
}

#[test]
fn a_bare_stretch_passes_up_to_150_mm_and_20_mm_of_measuring() {
    // Stock of 1830 covers 0..1330 and leaves 170 bare; of 1829, 171.
    let f = either_side("cordon-gap", &pair(1830.0), &pair(1829.0));
    assert!((f.measured - 171.0).abs() < 1e-6);
    assert!((f.x - 1329.0).abs() < 1e-6 && (f.width - 171.0).abs() < 1e-6);
    assert_eq!(f.allowed, 150.0);
    assert_eq!(
        f.subjects.iter().map(|p| p.tree.0).collect::<Vec<_>>(),
        [1, 2]
    );
    assert_eq!(
        Words::strict().finding(&f),
        "Cordon bare for 0.17 m between trees 1 and 2; its end is expected there by the end of leaf 3"
    );
}

#[test]
fn a_bare_stretch_is_graver_once_the_second_leaf_is_over() {
    let mut row = ceased(1700.0);
    for (leaf, severity) in [(1, Severity::Soon), (2, Severity::Soon), (3, Severity::Now)] {
        row.leaf = leaf;
        assert_eq!(found(&row, "cordon-gap")[0].severity, severity);
    }
}

#[test]
fn a_bare_stretch_that_waits_for_an_end_is_not_for_now() {
    let f = &found(&pair(1700.0), "cordon-gap")[0];
    assert!(f.remedies.is_empty());
    assert!(
        Words::strict()
            .finding(f)
            .contains("its end is expected there by the end of leaf 3")
    );
    assert_eq!(f.severity, Severity::Soon);
}

#[test]
fn a_bare_stretch_narrower_than_one_upright_space_is_a_note() {
    // One upright takes 200 mm.
    for (stock, severity) in [(1801.0, Severity::Note), (1800.0, Severity::Now)] {
        assert_eq!(found(&ceased(stock), "cordon-gap")[0].severity, severity);
    }
}

#[test]
fn cover_follows_the_wood_of_a_steep_stem() {
    // A vertical stem of 30 mm bends with a radius of 450 mm: it comes within 150 mm of the wire where cos is 2/3, which is
    // 450 − √(450² − 300²) = 114.6 mm beside its foot. Of 20 mm, 300: 300 − √(300² − 150²) = 40.2 mm.
    let first = |angle: f64, toward: Toward, diameter: f64| {
        let tree = stem(1, 1500, angle, toward, 2400.0).with_stem(|s| s.diameter = diameter);
        let laid = cover(&row(0, 3000, vec![tree]), &Targets::default()).laid[0];
        match toward {
            Toward::Right => laid.span.from - 1500.0,
            Toward::Left => 1500.0 - laid.span.to,
        }
    };
    for toward in [Toward::Left, Toward::Right] {
        assert!((first(90.0, toward, 30.0) - 114.6).abs() < 0.1);
        assert!((first(90.0, toward, 20.0) - 40.2).abs() < 0.1);
        // A corner as sharp as it can be, and the usual slant, which is at that height before the corner.
        assert!((first(90.0, toward, 0.0)).abs() < 1e-6);
    }
    assert!((first(45.0, Toward::Right, 30.0) - 500.0).abs() < 1e-6);
}

#[test]
fn bare_ends_and_lost_trees_are_named() {
    let words = Words::strict();
    let said = |row: &Row| -> Vec<String> {
        found(row, "cordon-gap")
            .iter()
            .map(|f| words.finding(f))
            .collect()
    };
    // 500..1500 covered of 0..3000.
    let one = row(0, 3000, vec![upright_stem(7, 500, 1500.0)]);
    assert_eq!(
        said(&one),
        [
            "Cordon bare for 0.50 m before tree 7, at the start of the row",
            "Cordon bare for 1.50 m after tree 7, to the end of the row; its end is expected there by the end of leaf 5",
        ]
    );
    let none = row(0, 3000, vec![lost(1, 0)]);
    assert_eq!(
        said(&none),
        ["Cordon bare for 3.00 m from 0.00 m along the row"]
    );
    // From the vertical stem at 0 to the row's end: 500 + 3000.
    assert_eq!(
        words.remedy(&found(&none, "cordon-gap")[0].remedies[0]),
        "Plant new stock of 3.50 m as tree 1 and lay it. It closes the bare stretch"
    );
    let empty = row(0, 3000, vec![]);
    assert!(found(&empty, "cordon-gap")[0].remedies.is_empty());
}

#[test]
fn an_end_shoot_fills_forward() {
    // Tree 1 covers 0..1000 and has an end shoot of 400 at its leader's end; 1000..1500 is bare.
    let trees = |end: f64| {
        vec![
            upright_stem(1, 0, 1500.0).shoot(1500.0, Pose::Free, grown(2, end)),
            upright_stem(2, 1500, 2000.0),
        ]
    };
    let bare = row(0, 3000, trees(400.0));
    let f = &found(&bare, "cordon-gap")[0];
    let r = &f.remedies[0];
    assert_eq!(r.said.key, "remedy-fill-forward");
    assert_eq!(
        r.work,
        [Work::Lay {
            tree: TreeId(1),
            shoot: ShootId::found(1),
            toward: Toward::Right,
            rise_deg: Deg::new(0.0),
        }]
    );
    // 400 of the 500 are filled: 100 stays bare, which passes.
    assert_eq!(
        Words::strict().remedy(r),
        "Lay forward along the wire: end shoot, tree 1. 0.10 m stays bare"
    );
    assert!(found(&mended(&bare, f, 0), "cordon-gap").is_empty());

    // A shoot of 900 would lie 400 beside tree 2: it is cut to the 500 that are bare.
    let long = row(0, 3000, trees(900.0));
    let f = &found(&long, "cordon-gap")[0];
    let after = mended(&long, f, 0);
    assert_eq!(f.remedies[0].work.len(), 2);
    assert_eq!(cover(&after, &Targets::default()).gaps, []);
    assert_eq!(cover(&after, &Targets::default()).overlaps, []);
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Lay forward along the wire: end shoot, tree 1. It closes the bare stretch"
    );
}

#[test]
fn a_neighbour_s_shoot_fills_backward() {
    // Tree 2 has a shoot of 600 right at its trunk; 1000..1500 is bare.
    let bare = row(
        0,
        3000,
        vec![
            upright_stem(1, 0, 1500.0),
            upright_stem(2, 1500, 2000.0).shoot(520.0, standing(0.0), grown(2, 600.0)),
        ],
    );
    let f = &found(&bare, "cordon-gap")[0];
    assert_eq!(f.remedies[0].said.key, "remedy-fill-backward");
    // From 1520 over 600 to 920: 80 beyond the bare stretch, which is let pass, so nothing is cut.
    assert_eq!(
        f.remedies[0].work,
        [Work::Lay {
            tree: TreeId(2),
            shoot: ShootId::found(1),
            toward: Toward::Left,
            rise_deg: Deg::new(0.0),
        }]
    );
    assert!(found(&mended(&bare, f, 0), "cordon-gap").is_empty());
}

#[test]
fn a_shoot_a_little_below_the_wire_is_laid_as_one_on_it() {
    // 1000..1500 is bare; tree 2 leads up to the wire and has a shoot of 600 that begins on it or a hand below.
    for below in [0.0, 15.0, 30.0, 60.0, 90.0] {
        let bare = row(
            0,
            3000,
            vec![
                upright_stem(1, 0, 1500.0),
                upright_stem(2, 1500, 2000.0)
                    .shoot(500.0 - below, standing(0.0), grown(2, 600.0))
                    .last(|s| s.diameter = 12.0),
            ],
        );
        let f = &found(&bare, "cordon-gap")[0];
        assert_eq!(f.remedies[0].said.key, "remedy-fill-backward", "{below}");
        let after = mended(&bare, f, 0);
        assert!(found(&after, "cordon-gap").is_empty(), "{below}");
        assert!(found(&after, "bend-too-tight").is_empty(), "{below}");
    }
}

#[test]
fn a_shoot_before_its_leader_s_end_takes_its_place() {
    // 1000..1500 is bare, and the last shoot stands 300 before the leader's end: laid, it would lie beside it for as long.
    let with = |also: Option<f64>| {
        let mut first = upright_stem(1, 0, 1500.0)
            .shoot(1200.0, standing(0.0), grown(2, 800.0))
            .last(|s| s.diameter = 12.0);
        if let Some(at) = also {
            first = first.shoot(at, standing(0.0), grown(1, 900.0));
        }
        row(0, 3000, vec![first, upright_stem(2, 1500, 2000.0)])
    };
    let bare = with(None);
    let f = &found(&bare, "cordon-gap")[0];
    assert_eq!(f.remedies[0].said.key, "remedy-fill-forward");
    let cut = Work::CutBack {
        tree: TreeId(1),
        shoot: ShootId::STEM,
        keep_mm: Mm::round(1200.0),
    };
    assert_eq!(f.remedies[0].work.last(), Some(&cut));
    let after = cover(&mended(&bare, f, 0), &Targets::default());
    assert_eq!((&after.gaps[..], &after.overlaps[..]), (&[][..], &[][..]));
    // Where more stands beyond it, its leader keeps its end.
    let bears = with(Some(1400.0));
    let cuts = |f: &Finding| f.remedies.iter().any(|r| r.work.contains(&cut));
    assert!(!found(&bears, "cordon-gap").iter().any(cuts));
}

#[test]
fn a_loose_shoot_is_laid_before_a_trained_upright() {
    // 1000..1300 is bare; both shoots close it to what is let pass, the upright wholly.
    let bare = row(
        0,
        3000,
        vec![
            upright_stem(1, 0, 1500.0)
                .shoot(1500.0, Pose::Free, grown(2, 200.0))
                .shoot(1490.0, standing(0.0), grown(2, 310.0)),
            upright_stem(2, 1300, 2200.0),
        ],
    );
    let f = &found(&bare, "cordon-gap")[0];
    let first: Vec<_> = f
        .remedies
        .iter()
        .map(|r| r.work[0].subject().shoot.number())
        .collect();
    assert_eq!(first, [1, 2]);
}

#[test]
fn the_shoot_at_a_bare_stretch_is_laid_and_none_that_doubles_the_wire() {
    // 1000..1490 is bare. The upright 10 mm before it leaves 20 bare; the one 260 before it closes all, beside 260 of its
    // own cordon, which no cut clears.
    let trees = |gap: f64| {
        vec![
            upright_stem(1, 0, 1500.0)
                .uprights(&[740.0, 990.0])
                .last(|s| s.units = grown(2, 480.0)),
            upright_stem(2, 1000 + gap as i32, 2500.0),
        ]
    };
    let bare = row(0, 3000, trees(490.0));
    let mut one = (*bare.trees[0]).clone();
    one.shoots[1].units = grown(2, 770.0);
    let mut bare = bare;
    bare.trees[0] = one.into();
    let f = &found(&bare, "cordon-gap")[0];
    let order: Vec<u64> = f
        .remedies
        .iter()
        .map(|r| r.work[0].subject().shoot.number())
        .collect();
    assert_eq!(order, [2]);
    // Of a stretch three times as long as what it would lie beside it is a way.
    let mut long = row(0, 3000, trees(900.0));
    let mut one = (*long.trees[0]).clone();
    one.shoots[1].units = grown(2, 1160.0);
    long.trees[0] = one.into();
    let f = &found(&long, "cordon-gap")[0];
    let mut ways = f.remedies.iter().map(|r| r.work[0].subject().shoot);
    assert!(ways.any(|shoot| shoot.number() == 1));
    // Narrower than one upright space: no upright is spent on it.
    let narrow = row(0, 3000, trees(190.0));
    assert_eq!(found(&narrow, "cordon-gap")[0].remedies, []);
}

#[test]
fn both_sides_fill_what_neither_fills_alone() {
    // 1000..2000 bare, with a shoot of 450 on either side.
    let bare = row(
        0,
        3500,
        vec![
            upright_stem(1, 0, 1500.0).shoot(1500.0, Pose::Free, grown(2, 450.0)),
            upright_stem(2, 2000, 2000.0).shoot(500.0, Pose::Free, grown(2, 450.0)),
        ],
    );
    let f = &found(&bare, "cordon-gap")[0];
    assert_eq!(f.remedies[0].said.key, "remedy-fill-both");
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Lay from both sides: end shoot, tree 1, and shoot 1 of 1, tree 2. 0.10 m stays bare"
    );
    assert!(found(&mended(&bare, f, 0), "cordon-gap").is_empty());
    assert_eq!(f.remedies.len(), 3);
}

#[test]
fn a_rising_leader_is_lowered() {
    // 2000 of stock from a vertical stem, rising 30° from the wire: it leaves the band of 150 mm after
    // 150 / tan 30° = 260 mm. Lowered, it fills 0..1500.
    let bare = row(
        0,
        3000,
        vec![
            upright_stem(1, 0, 2000.0).with_stem(|s| s.pose = laid(Toward::Right, 30.0)),
            upright_stem(2, 1500, 2000.0),
        ],
    );
    let f = &found(&bare, "cordon-gap")[0];
    assert!((f.x - 150.0 / libm::tan(30f64.to_radians())).abs() < 1e-6);
    assert_eq!(f.remedies[0].said.key, "remedy-lower-leader");
    assert!(found(&mended(&bare, f, 0), "cordon-gap").is_empty());
}

#[test]
fn a_leader_risen_over_a_bare_stretch_is_named_there() {
    // The leader of tree 1 rises 10° from 0, leaves the band of 150 mm at 150 / tan 10° = 850.7 and ends at 1477.
    let risen = |born: u8, thick: f64, next: i32| {
        let leader = upright_stem(1, 0, 2000.0).with_stem(|s| {
            s.pose = laid(Toward::Right, 10.0);
            s.units = grown(born, 2000.0);
            s.diameter = thick;
        });
        row(0, 3500, vec![leader, upright_stem(2, next, 2500.0)])
    };
    let words = Words::strict();
    // Old wood stays as it is; no end is expected where the end passes above.
    let gap = |row: &Row| found(row, "cordon-gap").remove(0);
    let old = gap(&risen(0, 0.0, 1400));
    assert!(old.remedies.is_empty(), "{:?}", old.remedies);
    assert_eq!(
        words.finding(&old),
        "Cordon bare for 0.55 m between trees 1 and 2; wood passes above 0.55 m of it, risen up to 0.25 m over the wire: leader, tree 1"
    );
    // The next tree stands farther off: the leader ends above the stretch.
    assert_eq!(
        words.finding(&gap(&risen(0, 0.0, 2000))),
        "Cordon bare for 1.15 m between trees 1 and 2; wood passes above 0.63 m of it, risen up to 0.26 m over the wire: leader, tree 1"
    );
    // Last season's wood is lowered.
    let young = gap(&risen(2, 0.0, 1400));
    assert_eq!(young.remedies[0].said.key, "remedy-lower-leader");
    assert!(
        words
            .finding(&young)
            .ends_with("over the wire: leader, tree 1")
    );
    // What was laid on from a risen leader lies above too.
    let on = upright_stem(1, 0, 1400.0)
        .with_stem(|s| s.pose = laid(Toward::Right, 10.0))
        .shoot(1400.0, laid(Toward::Right, 10.0), grown(0, 600.0));
    let on = gap(&row(0, 3500, vec![on, upright_stem(2, 1400, 2500.0)]));
    assert!(
        words
            .finding(&on)
            .ends_with("risen up to 0.25 m over the wire: leader 2 of 2, tree 1"),
        "{}",
        words.finding(&on)
    );
}

#[test]
fn stock_that_stands_is_laid() {
    let bare = row(
        0,
        1500,
        vec![upright_stem(1, 0, 1800.0).with_stem(|s| s.pose = standing(0.0))],
    );
    let f = &found(&bare, "cordon-gap")[0];
    assert_eq!(f.remedies[0].said.key, "remedy-lay-leader");
    // 1800 − 500 = 1300 of 1500: 200 stays bare.
    let after = mended(&bare, f, 0);
    assert!((found(&after, "cordon-gap")[0].measured - 200.0).abs() < 1e-6);
}

#[test]
fn an_overlap_passes_up_to_100_mm_and_20_mm_of_measuring() {
    // Stock of 2120 covers 0..1620, 120 of it beside tree 2; of 2121, 121.
    let fails = pair(2121.0);
    let f = either_side("cordon-overlap", &pair(2120.0), &fails);
    assert!((f.measured - 121.0).abs() < 1e-6 && (f.x - 1500.0).abs() < 1e-6);
    // The tip of tree 1 lies in it: it keeps 2000.
    assert_eq!(f.remedies.len(), 1);
    assert_eq!(
        Words::strict().remedy(&f.remedies[0]),
        "Cut back to 2.00 m, where the other begins: leader, tree 1. No upright is lost"
    );
    let after = cover(&mended(&fails, &f, 0), &Targets::default());
    assert_eq!((after.gaps.len(), after.overlaps.len()), (0, 0));
}

#[test]
fn an_overlap_names_those_that_lie_there() {
    let said = |row: &Row| Words::strict().finding(&found(row, "cordon-overlap")[0]);
    // The leader of tree 2 fills 0..1100 and its end shoot 1100..1700; the leader of tree 3 begins between them, at 1000.
    let end = |length: f64| {
        upright_stem(2, 0, 1600.0).shoot(1600.0, laid(Toward::Right, 0.0), grown(2, length))
    };
    assert_eq!(
        said(&row(
            0,
            2500,
            vec![end(600.0), upright_stem(3, 1000, 2000.0)]
        )),
        "Cordon overlaps for 0.70 m: trees 2 and 3 lie side by side"
    );
    // A shoot laid back beside its own leader.
    let back = upright_stem(2, 0, 3000.0).shoot(2500.0, laid(Toward::Left, 0.0), grown(2, 600.0));
    assert_eq!(
        said(&row(0, 2500, vec![back])),
        "Cordon overlaps for 0.60 m on tree 2"
    );
}

#[test]
fn a_cordon_wholly_beside_another_is_not_cut_to_nothing() {
    // Tree 2's short leader 1500..1800 lies beside tree 1's 0..3000.
    let both = row(
        0,
        3000,
        vec![upright_stem(1, 0, 3500.0), upright_stem(2, 1500, 800.0)],
    );
    let f = &found(&both, "cordon-overlap")[0];
    assert!((f.measured - 300.0).abs() < 1e-6);
    assert!(f.remedies.is_empty(), "{:?}", f.remedies);
}

#[test]
fn the_cordon_is_due_filled_after_leaf_2() {
    // 3000 of wire, 95 % is 2850: 150 bare passes, 151 does not.
    let f = either_side("cordon-fill-due", &pair(1850.0), &pair(1849.0));
    assert!((f.measured - 2849.0 / 3000.0).abs() < 1e-9);
    assert_eq!(f.severity, Severity::Now);
    let mut early = pair(1849.0);
    early.leaf = 2;
    assert!(found(&early, "cordon-fill-due").is_empty());
}

#[test]
fn figures_of_a_row() {
    // 0..1300 and 1500..3000 filled: 2800 of 3000; places at 100, 300, 600 and 1600.
    let row = row(
        0,
        3000,
        vec![
            upright_stem(1, 0, 1800.0)
                .uprights(&[100.0, 300.0])
                .bud(600.0),
            upright_stem(2, 1500, 2000.0).uprights(&[1600.0]),
            lost(3, 2900),
        ],
    );
    let f = figures(&row, &Targets::default());
    assert!((f.cordon_fill_share - 2800.0 / 3000.0).abs() < 1e-9);
    assert!((f.gap_total - 200.0).abs() < 1e-6);
    assert_eq!((f.trees, f.trees_lost, f.uprights, f.buds), (2, 1, 3, 1));
    // Distances 200, 300, 1000: mean 500, variance (300² + 200² + 500²) / 3.
    assert!((f.upright_spacing_mean - 500.0).abs() < 1e-6);
    let sd = (380_000.0f64 / 3.0).sqrt();
    assert!((f.upright_spacing_cv - sd / 500.0).abs() < 1e-9);
    // Grown in leaf 2 and judged in the dormant season before leaf 3.
    assert_eq!(f.wood_age_max, 1);
}

#[test]
fn new_stock_is_laid_all_at_once() {
    // Five stems of 2.0 m, 1.5 m apart, as they were planted: the whole wire is bare.
    let trees = (0..5)
        .map(|i| stem(i + 1, 1500 * i as i32, 45.0, Toward::Right, 2000.0))
        .collect();
    let mut planted = row(0, 7500, trees);
    for tree in &mut planted.trees {
        std::sync::Arc::make_mut(tree).shoots[0].pose = Pose::Free;
    }
    let gaps = found(&planted, "cordon-gap");
    let [gap] = &gaps[..] else { panic!("{gaps:?}") };
    let said = Words::strict().remedy(&gap.remedies[0]);
    assert!(said.starts_with("Lay all 5 stems along the wire"), "{said}");
    let after = mended(&planted, gap, 0);
    assert!(after.trees.iter().all(|t| t.shoots[0].pose.is_laid()));
    let left: f64 = found(&after, "cordon-gap").iter().map(|f| f.measured).sum();
    assert!(left < 0.2 * gap.measured, "{left} of {}", gap.measured);
}

#[test]
fn only_young_wood_is_laid() {
    // A free shoot of 700 at the end of tree 1, before leaf 4; 500 of wire are bare beside it.
    let bare = |born: u8, thick: f64| {
        let tree = upright_stem(1, 0, 1500.0)
            .shoot(1500.0, Pose::Free, grown(born, 700.0))
            .last(|s| s.diameter = thick);
        let mut row = row(0, 3000, vec![tree, upright_stem(2, 1500, 2000.0)]);
        row.leaf = 4;
        row
    };
    let lays = |row: &Row| {
        let gap = found(row, "cordon-gap").remove(0);
        let mut all = gap.remedies.into_iter().flat_map(|r| r.work);
        all.any(|w| matches!(w, Work::Lay { .. }))
    };
    // Last season's, of any thickness; two seasons old up to 15 mm; older not at all.
    assert!(lays(&bare(3, 30.0)));
    assert!(lays(&bare(2, 15.0)));
    assert!(!lays(&bare(2, 15.1)));
    assert!(!lays(&bare(1, 9.0)));
}

#[test]
fn a_thick_shoot_that_is_folded_at_its_base_is_found() {
    // An upright of tree 1 at 800, laid back or on along the wire; one that goes on from the end is no fold.
    let laid_at = |at: f64, way: Toward, thick: f64| {
        let tree = upright_stem(1, 0, 2000.0)
            .shoot(at, laid(way, 0.0), grown(2, 600.0))
            .last(|s| s.diameter = thick);
        row(0, 3000, vec![tree])
    };
    let thick = laid_at(1300.0, Toward::Left, 15.1);
    let f = either_side(
        "bend-too-tight",
        &laid_at(1300.0, Toward::Left, 15.0),
        &thick,
    );
    assert_eq!((f.measured, f.allowed), (15.1, 15.0));
    assert_eq!(
        Words::strict().finding(&f),
        "Folded at its base: leader to the left, tree 1. It is 15.1 mm thick; wood that has stood is laid only up to 15.0 mm"
    );
    assert!(found(&laid_at(2000.0, Toward::Right, 30.0), "bend-too-tight").is_empty());
}

#[test]
fn an_end_that_has_ceased_to_grow_is_not_waited_for() {
    // Bare for 0.25 m beyond the only leader, which can be lengthened by nothing that stands there.
    let of = |born: u8, leaf: u8| {
        let mut row = row(
            0,
            1250,
            vec![upright_stem(1, 0, 1500.0).with_stem(|s| s.units[0].leaf = born)],
        );
        row.leaf = leaf;
        let f = found(&row, "cordon-gap").remove(0);
        assert!(f.remedies.is_empty());
        Words::strict().finding(&f).contains("is expected there")
    };
    assert!(of(4, 5));
    assert!(!of(1, 5));
}
