//! The light of rows of trees: leaves from their wood, what is reported of them, and what an edit changes.

use cordonry::check::{Context, Finding, Severity, check, check_light, tell_costs};
use cordonry::light::foliage::{Change, Foliage};
use cordonry::light::row_light::report;
use cordonry::light::state::{LightState, Settings};
use cordonry::light::{Alike, DeepCanopy, beside_deep};
use cordonry::light::{Fineness, Period, Weather};
use cordonry::pose::PosedRow;
use cordonry::row::{Limit, Moment, Pose, Row, Shoot, ShootId, Site, Targets, Toward, Trellis};
use cordonry::terms::Terms;
use cordonry::units::{Deg, Mm};
use cordonry_fixture::wood;
use std::sync::Arc;

fn shoot(id: u32, at: f64, pose: Pose, units: &[(u8, f64)]) -> Shoot {
    Shoot {
        at,
        diameter: 12.0,
        rubbed: true,
        ..wood::shoot(id, pose, wood::grown_by_leaf(units))
    }
}

/// Trees 1.5 m apart, an upright every `apart` mm to the height `top` mm, all wood of the three seasons before `leaf` in
/// thirds, each tipped by a fifth; the row is in its `leaf`.
fn row(trees: u32, apart: f64, top: f64, leaf: u8) -> Row {
    let laid = wood::laid(Toward::Right, 0.0);
    let up = wood::standing(0.0);
    let spacing = 1500.0;
    // Unheaded stock at 45° to a wire at 0.5 m: the wood on the wire begins some 0.71 m along it.
    let on_wire = 700.0;
    let count = (spacing / apart) as u32;
    let shoots = |_| {
        let mut shoots = vec![shoot(0, 0.0, laid, &[(1, on_wire + spacing)])];
        shoots[0].diameter = 0.0;
        for u in 0..count {
            let at = on_wire + 7.1 + (f64::from(u) + 0.5) * apart;
            let third = (top - 500.0) / 3.0;
            let mut upright = shoot(u + 1, at, up, &[]);
            upright.units = (1..=3)
                .map(|back| wood::cut(leaf - 4 + back, third / 0.8, third))
                .collect();
            shoots.push(upright);
        }
        shoots
    };
    Row {
        leaf,
        from: Mm(500),
        to: Mm(500 + 1500 * trees as i32),
        trellis: Trellis {
            wall_height: Mm(top as i32),
            ..Trellis::default()
        },
        trees: wood::slanting(trees, 1500, shoots),
    }
}

fn foliage(row: &Row) -> Foliage {
    leaves_on(row, &Site::default(), &Targets::default(), 1.0)
}

fn leaves_on(row: &Row, site: &Site, targets: &Targets, out: f64) -> Foliage {
    Foliage::new(row, &Terms::on(row, targets, site), targets, out)
}

fn follow(leaves: &mut Foliage, row: &Row, site: &Site, targets: &Targets) -> Change {
    leaves.follow(row, &Terms::on(row, targets, site), targets)
}

fn without(row: &Row, tree: usize, uprights: std::ops::Range<u32>) -> Row {
    let mut row = row.clone();
    Arc::make_mut(&mut row.trees[tree])
        .shoots
        .retain(|s| !uprights.clone().any(|u| s.id == ShootId::found(u)));
    row
}

#[test]
fn a_full_wall_has_a_leaf_area_index_of_a_grown_orchard() {
    // Uprights 0.2 m apart to 2.5 m, rows 3 m apart.
    for leaf in [4, 6] {
        let row = row(6, 200.0, 2500.0, leaf);
        let index = foliage(&row).wall().leaf_area_index();
        assert!((1.5..=2.5).contains(&index), "leaf {leaf}: {index}");
    }
}

#[test]
fn leaves_come_out_in_proportion() {
    let row = row(3, 200.0, 2500.0, 4);
    let at = |out: f64| {
        leaves_on(&row, &Site::default(), &Targets::default(), out)
            .wall()
            .leaf_area_index()
    };
    assert_eq!(at(0.0), 0.0);
    assert!((at(0.5) - at(1.0) / 2.0).abs() < 1e-6);
    assert_eq!(at(f64::NAN), 0.0);
    assert_eq!(at(7.0), at(1.0));
}

#[test]
fn a_missing_upright_leaves_a_hole_and_a_crowd_a_shadow() {
    let full = row(5, 200.0, 2500.0, 4);
    let hole = without(&full, 2, 3..4);
    let season = Period::growing_season(45.0);
    let light = |row: &Row| report(&foliage(row), &Targets::default(), season);
    let (whole, holed) = (light(&full), light(&hole));
    println!("{:?} {:?}", whole.caught, whole.zone);
    assert!(whole.gaps.is_empty(), "{:?}", whole.gaps);
    let [gap] = &holed.gaps[..] else {
        panic!("{:?}", holed.gaps)
    };
    // The upright stood at 4.0 m along the row.
    assert!(gap.x0 < 4.0 && 4.0 < gap.x1, "{gap:?}");
    assert!((0.15..0.35).contains(&(gap.x1 - gap.x0)), "{gap:?}");
    assert!(gap.loss > 0.0 && holed.caught.total < whole.caught.total);
    let column = |r: &cordonry::light::LightReport, x: f64| ((x - r.x0) / r.dx) as usize;
    let c = column(&whole, 4.0);
    // What falls through lands beside it, away from the noon sun.
    let most = |r: &cordonry::light::LightReport| {
        let lit = r.fall_through[c..c + 8].iter();
        lit.fold(0.0f32, |a, b| a.max(*b))
    };
    assert!(most(&holed) > most(&whole) + 0.03);
    let base = |r: &cordonry::light::LightReport| r.map.at(c, 2).expect("a cell");
    assert!(base(&holed) > base(&whole) + 0.05);

    let crowded = row(5, 100.0, 2500.0, 4);
    let dense = light(&crowded);
    let mean = |r: &cordonry::light::LightReport| r.zone.expect("a zone").mean;
    assert!(mean(&dense) < mean(&whole));
    assert!(dense.caught.total > whole.caught.total);
    assert!(dense.under_flowering > whole.under_flowering);
}

#[test]
fn following_the_row_equals_laying_it_anew() {
    let full = row(5, 200.0, 2500.0, 4);
    let mut follows = foliage(&full);
    let mut state = LightState::new(follows.wall(), &Settings::dragging(Some(0..60)));
    // A hole in the middle, one at the joint, a tree lost, another leader lowered or raised.
    let mut lost = without(&full, 0, 1..8);
    Arc::make_mut(&mut lost.trees[4]).shoots.clear();
    let mut raised = full.clone();
    Arc::make_mut(&mut raised.trees[1]).shoots[0].pose = Pose::Laid {
        toward: Toward::Right,
        rise: Deg::new(12.0),
    };
    for next in [
        without(&full, 2, 3..5),
        without(&full, 4, 7..8),
        lost,
        raised,
        full.clone(),
    ] {
        let site = Site::default();
        match follow(&mut follows, &next, &site, &Targets::default()) {
            Change::All => panic!("the grid holds"),
            Change::Columns(ranges) => {
                assert!(!ranges.is_empty());
                for range in ranges {
                    assert!(range.len() < follows.columns(), "{range:?}");
                    state.edit(range.clone(), &follows.density(range));
                }
            }
        }
        let anew = foliage(&next);
        assert_eq!(follows.wall(), anew.wall());
        let fresh = LightState::new(anew.wall(), &Settings::dragging(Some(0..60)));
        for d in 0..state.directions().len() {
            assert_eq!(state.ground(d), fresh.ground(d));
            assert_eq!(state.cells(d), fresh.cells(d));
        }
    }
    // The same row again is no change.
    let same = follow(&mut follows, &full, &Site::default(), &Targets::default());
    assert_eq!(same, Change::Columns(Vec::new()));
}

#[test]
fn another_stretch_site_or_leaf_is_another_grid() {
    let full = row(3, 200.0, 2500.0, 4);
    let targets = Targets::default();
    let mut follows = foliage(&full);
    let mut longer = full.clone();
    longer.to = Mm(6000);
    assert_eq!(
        follow(&mut follows, &longer, &Site::default(), &targets),
        Change::All
    );
    let wide = Site {
        row_spacing: Some(Mm(4000)),
        ..Site::default()
    };
    assert_eq!(follow(&mut follows, &longer, &wide, &targets), Change::All);
    assert_eq!(follows.around().shape.row_spacing, 4.0);
    assert_eq!(
        follows.wall(),
        leaves_on(&longer, &wide, &targets, 1.0).wall()
    );
    // A season on, a limit, the cordon's wire: whatever the leaves hang by gives what laying them anew would.
    let mut follows = foliage(&full);
    let mut check = |row: &Row, targets: &Targets| {
        let changed = follow(&mut follows, row, &Site::default(), targets);
        assert_ne!(changed, Change::Columns(Vec::new()));
        let anew = leaves_on(row, &Site::default(), targets, 1.0);
        assert!(follows.wall() == anew.wall(), "{changed:?}");
    };
    let mut later = full.clone();
    later.leaf += 1;
    check(&later, &targets);
    let mut limits = Targets::default();
    for (limit, value) in [
        (Limit::UprightSpacing, 250.0),
        (Limit::WallThickness, 600.0),
    ] {
        limits.set(limit, Some(value)).expect("in range");
        check(&later, &limits);
    }
    later.trellis.wires[0].height = Mm(600);
    check(&later, &limits);
}

#[test]
fn rows_without_trees_or_stretch_are_open() {
    let mut bare = row(2, 200.0, 2500.0, 4);
    bare.trees.clear();
    for to in [0, 500, 3000] {
        bare.to = Mm(to);
        let season = Period::growing_season(45.0);
        let light = report(&foliage(&bare), &Targets::default(), season);
        assert!(light.caught.total < 1e-6);
        assert!(light.gaps.is_empty());
        assert!(light.fall_through.iter().all(|t| *t > 0.999));
        assert!(light.zone.is_some_and(|z| z.lowest > 0.999));
        assert_eq!(
            beside_deep(
                &foliage(&bare),
                &Targets::default(),
                (season, Weather::Clear),
                DEEP
            ),
            None
        );
    }
}

#[test]
fn walls_of_uprights_catch_what_was_measured_on_such_walls() {
    // Published for vertical planar walls: 60 to 69 % of the light in July (2012, 2022). Height 3.0 to 3.3 m, rows 2.8 m
    // apart, N–S, leaf area index 2.0 to 2.5: between .50 and .72.
    for height in [3000.0, 3300.0] {
        let row = row(6, 250.0, height, 6);
        let site = Site {
            latitude_deg: Some(45.0),
            row_spacing: Some(Mm(2800)),
            ..Site::default()
        };
        let leaves = leaves_on(&row, &site, &Targets::default(), 1.0);
        let light = report(&leaves, &Targets::default(), Period::month(7));
        println!(
            "height {height}: leaf area index {:.2}, caught {:?}, zone {:?}",
            light.leaf_area_index, light.caught, light.zone
        );
        assert!(
            (2.0..=2.5).contains(&light.leaf_area_index),
            "{}",
            light.leaf_area_index
        );
        assert!(
            (0.50..=0.72).contains(&light.caught.total),
            "{:?}",
            light.caught
        );
    }
}

const DEEP: DeepCanopy = DeepCanopy {
    thickness: 1.75,
    alike: Alike::Alley,
};

#[test]
fn a_deep_canopy_is_darker_at_its_base_than_the_rows_own_uprights() {
    // Growers' experience: renewal works in flat walls and is harder in bush forms, for want of light at the base.
    for (apart, top) in [(200.0, 2500.0), (250.0, 3000.0), (250.0, 3300.0)] {
        let row = row(6, apart, top, 6);
        let site = Site {
            latitude_deg: Some(45.0),
            row_spacing: Some(Mm(2800)),
            ..Site::default()
        };
        let leaves = leaves_on(&row, &site, &Targets::default(), 1.0);
        for period in [Period::month(7), Period::growing_season(45.0)] {
            for thickness in [1.5, 1.75, 2.0] {
                let deep = DeepCanopy { thickness, ..DEEP };
                let both =
                    beside_deep(&leaves, &Targets::default(), (period, Weather::Clear), deep)
                        .expect("leaves");
                println!(
                    "{apart} {top} {thickness}: index {:.2}, base {:.3} {:.3}, cut {:.3} {:.3}",
                    both.flat.leaf_area_index,
                    both.flat.base,
                    both.deep.base,
                    both.flat.cut,
                    both.deep.cut
                );
                assert!((1.7..=2.5).contains(&both.flat.leaf_area_index));
                assert!(both.deep.plane < 0.9 * both.flat.plane, "{both:?}");
                assert!(both.deep.base < 0.95 * both.flat.base, "{both:?}");
                assert!(both.deep.cut < 0.75 * both.flat.cut, "{both:?}");
            }
        }
    }
}

#[test]
fn flat_and_deep_have_the_same_leaf_area_and_what_is_kept_alike() {
    let leaves = foliage(&row(6, 200.0, 2500.0, 6));
    let targets = Targets::default();
    let season = Period::growing_season(45.0);
    let beside =
        |canopy| beside_deep(&leaves, &targets, (season, Weather::Clear), canopy).expect("leaves");
    for thickness in [0.5, 1.5, 2.0, 2.9] {
        let same_alley = beside(DeepCanopy { thickness, ..DEEP });
        let same_rows = beside(DeepCanopy {
            thickness,
            alike: Alike::RowSpacing,
        });
        for both in [&same_alley, &same_rows] {
            let (flat, deep) = (&both.flat, &both.deep);
            assert!((flat.leaf_area_index - deep.leaf_area_index).abs() < 1e-5);
            assert_eq!(deep.thickness, thickness);
            for canopy in [flat, deep] {
                assert_eq!(canopy.section.len() + 1, both.z.len());
                let all = || canopy.section.iter().flatten();
                assert!(all().all(|light| (0.0..=1.0).contains(light)));
                assert!(all().any(|light| *light < canopy.base));
                assert!(all().any(|light| *light > canopy.base));
            }
        }
        assert!((same_alley.deep.alley() - same_alley.flat.alley()).abs() < 1e-9);
        assert_eq!(same_rows.deep.row_spacing, same_rows.flat.row_spacing);
    }
    // Rows cannot be deeper than they are apart.
    let all = beside(DeepCanopy {
        thickness: 9.0,
        alike: Alike::RowSpacing,
    });
    assert_eq!(all.deep.alley(), 0.0);
}

#[test]
fn coarser_settings_stay_near_the_report() {
    let row = without(&row(6, 200.0, 2500.0, 5), 3, 2..5);
    let leaves = foliage(&row);
    let season = Period::growing_season(45.0);
    let exact = report(&leaves, &Targets::default(), season);
    let state = LightState::new(leaves.wall(), &Settings::dragging(None));
    assert_eq!(state.directions().len(), 120);
    let light = cordonry::light::period_light(
        state.directions(),
        leaves.around().site,
        season,
        Default::default(),
        cordonry::light::Sky::StandardOvercast,
    );
    let apart = state.caught(&light.total) - exact.caught.total;
    println!("{:?} {:?}: {apart}", Fineness::Dragging, exact.caught);
    assert!(apart.abs() < 0.01, "{apart}");
}

fn found(row: &Row) -> Vec<Finding> {
    found_at(row, &Site::default(), &Targets::default())
}

fn found_at(row: &Row, site: &Site, targets: &Targets) -> Vec<Finding> {
    let season = Period::growing_season(45.0);
    let light = report(&leaves_on(row, site, targets, 1.0), targets, season);
    let terms = Terms::on(row, targets, site);
    let row = PosedRow::of(row, targets);
    let context = Context::found(&row, &terms, targets);
    let mut found = check(&context);
    let of_light = check_light(&context, &light, &found);
    tell_costs(&of_light.costs, &mut found);
    found.extend(of_light.findings);
    found
}

fn of<'f>(found: &'f [Finding], rule: &str) -> Vec<&'f Finding> {
    found.iter().filter(|f| f.rule == rule).collect()
}

/// The row after a remedy's work.
fn mended(row: &Row, finding: &Finding) -> Row {
    let remedy = finding.remedies.first().expect("a remedy");
    let terms = Terms::of(row, &Targets::default());
    let moment = Moment::dormant(row.leaf);
    let mut row = row.clone();
    for work in &remedy.work {
        let at = row
            .trees
            .iter()
            .position(|t| Some(t.id) == work.tree())
            .expect("its tree");
        let after = cordonry::work::apply_to_tree(&row.trees[at], moment, &terms, work);
        row.trees[at] = Arc::new(after.expect("the work can be done"));
    }
    row
}

/// Limits under which an opening of four lost uprights is no finding about the wood.
fn openings_alone() -> Targets {
    let mut targets = Targets::default();
    targets
        .set(Limit::UprightSpacingMax, Some(1000.0))
        .expect("in range");
    targets
}

/// Two uprights lost from one tree, four from another.
fn twice_holed() -> Row {
    without(&without(&row(6, 200.0, 2500.0, 4), 1, 3..5), 4, 2..6)
}

#[test]
fn light_gaps_are_ranked_by_their_loss_and_mended_by_buds() {
    let holed = twice_holed();
    let found = found_at(&holed, &Site::default(), &openings_alone());
    let gaps = of(&found, "light-gap");
    let [worst, other] = &gaps[..] else {
        panic!("{gaps:?}")
    };
    assert!(worst.measured > 2.0 * other.measured);
    assert!(worst.x > other.x && worst.width > other.width);
    let words = cordonry_words::Words::strict();
    println!("{}", words.finding(worst));
    let after = mended(&holed, worst);
    let grown = |row: &Row| row.trees[4].shoots.len();
    assert!(grown(&after) >= grown(&holed) + 3, "buds are kept in it");
}

#[test]
fn an_opening_where_wood_is_missing_is_told_once_with_what_it_costs() {
    let words = cordonry_words::Words::strict();
    let told = "costs the season's light of";
    // Lost uprights.
    let holed = twice_holed();
    let together = found(&holed);
    assert!(of(&together, "light-gap").is_empty());
    let mut far = of(&together, "uprights-too-far");
    far.retain(|f| f.light_cost().is_some());
    let alone = found_at(&holed, &Site::default(), &openings_alone());
    let gaps = of(&alone, "light-gap");
    assert_eq!((far.len(), gaps.len()), (2, 2));
    for gap in gaps {
        let cost = format!("{told} {:.2} m of wall", gap.measured / 1000.0);
        let tells = far.iter().filter(|f| words.finding(f).contains(&cost));
        assert_eq!(tells.count(), 1, "{cost}");
    }
    // A lost tree.
    let mut lost = row(6, 200.0, 2500.0, 4);
    Arc::make_mut(&mut lost.trees[2]).shoots.clear();
    let mut found = found(&lost);
    assert!(of(&found, "light-gap").is_empty());
    let [bare] = of(&found, "cordon-gap")[..] else {
        panic!("{found:?}")
    };
    assert!(words.finding(bare).contains(told));
    // With the light put out it is told no longer.
    tell_costs(&[], &mut found);
    assert!(found.iter().all(|f| f.light_cost().is_none()));
}

#[test]
fn a_crowd_darkens_the_renewal_zone_and_thinning_clears_it() {
    let crowded = row(5, 90.0, 2500.0, 6);
    let before = found(&crowded);
    let dark = of(&before, "renewal-zone-dark");
    println!(
        "{:?}",
        dark.iter()
            .map(|f| cordonry_words::Words::strict().finding(f))
            .collect::<Vec<_>>()
    );
    let measured = dark[0].measured;
    let mut after = crowded.clone();
    for _ in 0..5 {
        let now = found(&after);
        match of(&now, "renewal-zone-dark")
            .first()
            .filter(|f| !f.remedies.is_empty())
        {
            Some(f) => after = mended(&after, f),
            None => break,
        }
    }
    let thinned = found(&after);
    let better = of(&thinned, "renewal-zone-dark")
        .first()
        .map_or(1.0, |f| f.measured);
    assert!(better > 1.3 * measured, "{measured} then {better}");
}

#[test]
fn a_low_wall_between_wide_rows_is_worth_a_note_at_most() {
    let found = found(&row(5, 300.0, 2500.0, 6));
    let [under] = of(&found, "light-under-target")[..] else {
        panic!("{found:?}")
    };
    assert!(under.measured < under.allowed);
    assert_eq!(under.severity, Severity::Note);
    assert!(of(&found, "light-under-filled").is_empty());
    assert!(of(&found, "renewal-zone-dark").is_empty());
    println!("{}", cordonry_words::Words::strict().finding(under));
}

#[test]
fn a_wall_that_catches_as_much_as_when_filled_is_under_no_target() {
    // In rows so far apart no such wall can catch what is usual; uprights 0.15 m apart make more leaves than a usual wall.
    let site = Site {
        row_spacing: Some(Mm(4500)),
        ..Site::default()
    };
    let under = |apart: f64| {
        let row = row(5, apart, 2500.0, 6);
        let found = found_at(&row, &site, &Targets::default());
        let light = report(
            &leaves_on(&row, &site, &Targets::default(), 1.0),
            &Targets::default(),
            Period::growing_season(45.0),
        );
        assert!(light.caught.total < 0.6, "{:?}", light.caught);
        let said = of(&found, "light-under-target").len() + of(&found, "light-under-filled").len();
        (light.caught.total - light.filled, said)
    };
    let (more, said) = under(150.0);
    assert!(more > 0.0, "{more}");
    assert_eq!(said, 0);
    let (more, said) = under(300.0);
    assert!(more < -0.005, "{more}");
    assert_eq!(said, 1);
}

#[test]
fn a_thousandth_decides_over_the_share_of_a_filled_wall() {
    // Every second upright is missing.
    let open = row(5, 400.0, 2500.0, 6);
    let at = |least: f64| {
        let mut targets = Targets::default();
        let set = targets.set(Limit::LightFill, Some(least));
        set.expect("in range");
        let found = found_at(&open, &Site::default(), &targets);
        of(&found, "light-under-filled").len()
    };
    let found = found(&open);
    let [under] = of(&found, "light-under-filled")[..] else {
        panic!("{found:?}")
    };
    println!("{}", cordonry_words::Words::strict().finding(under));
    assert_eq!((under.allowed, under.severity), (0.8, Severity::Soon));
    // One finding, not two.
    assert!(of(&found, "light-under-target").is_empty());
    let step = (under.measured * 1000.0).floor() / 1000.0;
    assert_eq!((at(step), at(step + 0.001)), (0, 1));
    // As high as before and filled as usual it is let pass, wherever it stands.
    for spacing in [2000, 3000, 4500] {
        let site = Site {
            row_spacing: Some(Mm(spacing)),
            ..Site::default()
        };
        let full = found_at(&row(5, 200.0, 2500.0, 6), &site, &Targets::default());
        assert!(of(&full, "light-under-filled").is_empty(), "{spacing}");
    }
}

/// The widest row spacing, mm, of which `holds`, which is true at 2 m and not at 5 m.
fn widest(holds: impl Fn(&Site) -> bool) -> Mm {
    let at = |mm: i32| {
        holds(&Site {
            row_spacing: Some(Mm(mm)),
            ..Site::default()
        })
    };
    let (mut yes, mut no) = (2000, 5000);
    assert!(at(yes) && !at(no));
    while no - yes > 1 {
        let middle = (yes + no) / 2;
        if at(middle) {
            yes = middle
        } else {
            no = middle
        }
    }
    Mm(yes)
}

#[test]
fn a_millimetre_of_row_spacing_decides_over_the_target() {
    // 65 % is what apple walls are asked to catch (published). Rows further apart catch less.
    // This wall catches less than it would, filled with more leaf than is usual: one that catches as much is under no target.
    let row = row(4, 250.0, 3000.0, 6);
    let mut targets = Targets::default();
    targets.set(Limit::LeafOnFace, Some(3.0)).expect("in range");
    let under = |site: &Site| of(&found_at(&row, site, &targets), "light-under-target").len();
    let spacing = widest(|site| under(site) == 0);
    let beyond = Site {
        row_spacing: Some(Mm(spacing.0 + 1)),
        ..Site::default()
    };
    let findings = found_at(&row, &beyond, &targets);
    let [finding] = of(&findings, "light-under-target")[..] else {
        panic!("{findings:?}")
    };
    println!("{spacing:?} {}", finding.measured);
    assert_eq!(finding.allowed, 0.65);
    assert!((0.649..0.65).contains(&finding.measured), "{finding:?}");
}

#[test]
fn a_millimetre_of_row_spacing_decides_over_the_renewal_zone() {
    // 20 % is asked of it (from memory). Rows nearer to each other shade it more.
    let row = row(4, 200.0, 3000.0, 6);
    let targets = Targets::default();
    let dark = |site: &Site| of(&found_at(&row, site, &targets), "renewal-zone-dark").len();
    let spacing = widest(|site| dark(site) > 0);
    let at = Site {
        row_spacing: Some(spacing),
        ..Site::default()
    };
    let findings = found_at(&row, &at, &targets);
    let dark = of(&findings, "renewal-zone-dark");
    println!(
        "{spacing:?} {:?}",
        dark.iter().map(|f| f.measured).collect::<Vec<_>>()
    );
    for finding in dark {
        assert_eq!(finding.allowed, 0.2);
        assert!((0.19..0.2).contains(&finding.measured), "{finding:?}");
    }
}

#[test]
fn a_dark_renewal_zone_is_opened_by_stubs() {
    // No crowd to thin: what lets light in is the next upright to be renewed.
    let full = row(4, 200.0, 3300.0, 6);
    let site = Site {
        row_spacing: Some(Mm(2000)),
        ..Site::default()
    };
    let targets = Targets::default();
    let zone = |row: &Row| {
        let leaves = leaves_on(row, &site, &targets, 1.0);
        let light = report(&leaves, &targets, Period::growing_season(45.0));
        light.zone.expect("a zone").mean
    };
    let findings = found_at(&full, &site, &targets);
    let dark = of(&findings, "renewal-zone-dark");
    let words = cordonry_words::Words::strict();
    let said = words.remedy(dark[0].remedies.first().expect("a remedy"));
    assert!(said.starts_with("Stub 4 uprights, one a tree"), "{said}");
    let after = mended(&full, dark[0]);
    let (before, after) = (zone(&full), zone(&after));
    assert!(after > 1.1 * before, "{before} then {after}");
}

#[test]
fn a_millimetre_of_wall_decides_over_a_light_gap() {
    let holed = without(&row(5, 200.0, 2500.0, 4), 2, 3..5);
    let at = |most: f64| {
        let mut targets = openings_alone();
        targets
            .set(Limit::LightGapMax, Some(most))
            .expect("in range");
        of(&found_at(&holed, &Site::default(), &targets), "light-gap").len()
    };
    let findings = found_at(&holed, &Site::default(), &openings_alone());
    let [gap] = of(&findings, "light-gap")[..] else {
        panic!("{findings:?}")
    };
    assert_eq!(gap.allowed, 100.0);
    assert_eq!((at(gap.measured.floor()), at(gap.measured.ceil())), (1, 0));
}

#[test]
fn the_gain_of_an_edit_is_what_the_whole_row_says() {
    let full = row(9, 200.0, 2500.0, 5);
    let wall = foliage(&full).wall();
    let site = foliage(&full).around().site;
    let mut state = LightState::new(wall.clone(), &Settings::dragging(None));
    let light = cordonry::light::period_light(
        state.directions(),
        site,
        Period::growing_season(45.0),
        Default::default(),
        cordonry::light::Sky::StandardOvercast,
    );
    let n = wall.columns();
    // In the middle, and at both ends of a row that repeats itself.
    for columns in [n / 2..n / 2 + 8, 0..5, n - 4..n] {
        let before = state.caught(&light.total);
        let bare = vec![0.0; columns.len() * wall.levels()];
        let gain = state.edit_gain(columns.clone(), &bare, &light.total);
        let after = state.caught(&light.total);
        assert!(gain < -1e-4, "{columns:?}: {gain}");
        assert!(
            (gain - (after - before)).abs() < 1e-6,
            "{columns:?}: {gain}, {}",
            after - before
        );
    }
}
