//! A wall as the textbook has it: after its winter's work nothing is found above a note.

use cordonry::check::{Context, Finding, Severity, check, check_light, figures};
use cordonry::cover::{cover, upright_places};
use cordonry::light::row_light::report_under;
use cordonry::light::{Foliage, Period, Weather};
use cordonry::plan::{Phase, Plan};
use cordonry::row::{Covering, Kind, Targets};
use cordonry_tests::textbook::{HEIGHTS, found, in_winter, worked};
use cordonry_words::Words;

fn findings(plan: &Plan, phase: Phase) -> Vec<Finding> {
    check(&Context::of(&in_winter(plan, phase)))
}

#[test]
fn the_walls_are_those_of_the_textbook() {
    for height in HEIGHTS {
        let plan = found(height);
        let row = in_winter(&plan, Phase::Before).row;
        let metres = row.trellis.wall_height.f() / 1000.0;
        assert_eq!(format!("{metres:.1}"), height);
        let wires = &row.trellis.wires;
        assert!(wires.iter().all(|w| w.covering == Covering::Plastic));
        assert!(
            wires
                .windows(2)
                .all(|w| (w[1].height - w[0].height).f() == 500.0)
        );
        assert_eq!(wires[0].height.f(), 500.0);
        assert_eq!(wires[wires.len() - 1].height, row.trellis.wall_height);
        assert_eq!((row.leaf, row.trees.len()), (8, 12));
        assert_eq!(plan.site.row_spacing.map(|s| s.f()), Some(3000.0));
        let seen = figures(&row, &Targets::default());
        assert_eq!((seen.uprights, seen.wood_age_max), (84, 5));
        assert_eq!(cover(&row, &Targets::default()).gaps, []);
        let places = upright_places(&row, row.geometry());
        for tree in &row.trees {
            let x: Vec<f64> = places
                .iter()
                .filter(|p| p.tree == tree.id)
                .map(|p| p.x)
                .collect();
            assert_eq!(x.len(), 7);
            assert!(
                x.windows(2).all(|w| (w[1] - w[0] - 200.0).abs() < 2.0),
                "{x:?}"
            );
        }
        for pair in row.trees.windows(2) {
            assert_eq!((pair[1].foot - pair[0].foot).f(), 1500.0);
        }
    }
}

#[test]
fn after_the_winter_s_work_nothing_is_found_above_a_note() {
    for height in HEIGHTS {
        let plan = worked(&found(height));
        let left = findings(&plan, Phase::After);
        let grave: Vec<String> = left
            .iter()
            .filter(|f| f.severity > Severity::Note)
            .map(|f| Words::strict().finding(f))
            .collect();
        assert!(grave.is_empty(), "{height}: {grave:#?}");
    }
}

#[test]
fn with_its_light_nothing_is_found_above_a_note_either() {
    for height in HEIGHTS {
        let plan = worked(&found(height));
        let at = in_winter(&plan, Phase::After);
        let foliage = Foliage::new(&at.row, &at.terms, &plan.targets, 1.0);
        for weather in [Weather::Clear, Weather::Usual] {
            let season = Period::growing_season(foliage.around().site.latitude_deg);
            let light = report_under(&foliage, &plan.targets, season, weather);
            let context = Context::of(&at);
            let seen = check_light(&context, &light, &check(&context));
            // The wall catches light, and what it catches was judged.
            assert!(light.caught.total > 0.3, "{height}");
            let grave: Vec<String> = seen
                .findings
                .iter()
                .filter(|f| f.severity > Severity::Note)
                .map(|f| Words::strict().finding(f))
                .collect();
            assert!(grave.is_empty(), "{height} {weather:?}: {grave:#?}");
        }
    }
}

#[test]
fn the_winter_cuts_the_carried_fifth_and_leaves_no_wood_past_its_age() {
    for height in HEIGHTS {
        let plan = worked(&found(height));
        let row = in_winter(&plan, Phase::After).row;
        // Of 7 a fifth is 1, 1, 2, 1, 2; each tree cuts what is of five seasons, and nothing else.
        for tree in &row.trees {
            let stubs = tree.shoots.iter().filter(|s| s.kind() == Kind::Stub);
            let ages: Vec<u8> = stubs
                .filter_map(|s| s.born())
                .map(|born| 8 - born)
                .collect();
            let due = [1, 1, 2, 1, 2][(8 + tree.id.0 as usize) % 5];
            assert_eq!(ages, vec![5; due], "{height}: tree {}", tree.id.0);
        }
        assert_eq!(figures(&row, &Targets::default()).wood_age_max, 4);
    }
}
