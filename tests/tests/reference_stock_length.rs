//! How long stock has to be, by hand, by formula and in the model: see tests/reference/README.md.

use cordonry::cover::{Cover, cover};
use cordonry::pose::{Geometry, bend_saving, layout, stock_length};
use cordonry::row::{
    GrowthUnit, Limit, Planted, Pose, Row, Shoot, ShootId, Targets, Toward, Tree, TreeId, Trellis,
    Wire,
};
use cordonry::units::{Deg, Mm};
use serde::Deserialize;
use std::sync::Arc;

#[derive(Deserialize)]
struct File {
    lengths: Vec<Length>,
    bends: Vec<Bend>,
}

#[derive(Deserialize)]
#[allow(non_snake_case)]
struct Length {
    h_m: f64,
    a_deg: f64,
    S_m: f64,
    z_b_m: f64,
    L_m: f64,
}

#[derive(Deserialize)]
struct Bend {
    r_m: f64,
    turn_deg: f64,
    saving_m: f64,
}

/// The table is printed to the millimetre.
const PRINTED: f64 = 0.5;

fn file() -> File {
    serde_json::from_str(include_str!("../reference/stock-length.json")).expect("the data reads")
}

fn tree(id: u32, foot: f64, angle: f64, length: f64, diameter: f64) -> Arc<Tree> {
    Arc::new(Tree {
        id: TreeId(id),
        foot: Mm::round(foot),
        planted: Planted {
            angle: Deg::new(angle),
            toward: Toward::Right,
        },
        shoots: vec![Shoot {
            pose: Pose::Laid {
                toward: Toward::Right,
                rise: Deg::new(0.0),
            },
            units: vec![GrowthUnit::whole(0, length)],
            diameter,
            ..Shoot::bud(ShootId::STEM, None, 0.0)
        }],
        vigour: None,
        like: None,
        diseased: false,
        note: String::new(),
    })
}

fn limits(bearing: f64) -> Targets {
    let mut targets = Targets::default();
    targets
        .set(Limit::BearingHeight, Some(bearing))
        .expect("a height in range");
    targets
}

/// Two trees alike, the stretch of wire from where the first bears to where the second's wood ends.
fn pair(case: &Length, length: f64) -> (Cover, Targets) {
    let (h, s, z_b) = (case.h_m * 1e3, case.S_m * 1e3, case.z_b_m * 1e3);
    let tan = case.a_deg.to_radians().tan();
    // A stem without thickness bends sharply.
    let of = |id, foot| tree(id, foot, case.a_deg, length, 0.0);
    let row = Row {
        leaf: 1,
        from: Mm::round(z_b / tan),
        to: Mm::round(s + z_b / tan + 500.0),
        trellis: Trellis {
            wires: vec![Wire {
                height: Mm::round(h),
                covering: Default::default(),
            }],
            ..Trellis::default()
        },
        trees: vec![of(1, 0.0), of(2, s)],
    };
    let targets = limits(z_b);
    (cover(&row, &targets), targets)
}

#[test]
fn lengths_by_hand_and_by_formula() {
    for c in file().lengths {
        let mm = stock_length(
            c.h_m * 1e3,
            c.a_deg.to_radians(),
            c.S_m * 1e3,
            c.z_b_m * 1e3,
        );
        assert!(
            (mm - c.L_m * 1e3).abs() <= PRINTED,
            "{mm}, by hand {} m",
            c.L_m
        );
    }
}

#[test]
fn stock_of_that_length_reaches_the_next_trees_wood() {
    for c in file().lengths {
        let length = c.L_m * 1e3;
        let bare = |by: f64| -> f64 {
            let (cover, _) = pair(&c, length + by);
            cover.gaps.iter().map(|g| g.span.length()).sum()
        };
        let twice = |by: f64| -> f64 {
            let (cover, _) = pair(&c, length + by);
            cover.overlaps.iter().map(|g| g.span.length()).sum()
        };
        assert!(bare(0.0) <= 1.0 && twice(0.0) <= 1.0, "{} m", c.L_m);
        // Shorter by so much leaves so much bare; longer covers so much twice.
        assert!((bare(-40.0) - 40.0).abs() <= 1.0, "{} m", c.L_m);
        assert!((twice(40.0) - 40.0).abs() <= 1.0, "{} m", c.L_m);
    }
}

#[test]
fn a_rounded_bend_carries_the_tip_on_by_what_it_saves() {
    for b in file().bends {
        let (radius, turn) = (b.r_m * 1e3, b.turn_deg.to_radians());
        let saving = bend_saving(radius, turn);
        assert!(
            (saving - b.saving_m * 1e3).abs() <= PRINTED,
            "{saving}, by hand {} m",
            b.saving_m
        );
        // In the model: a stem planted straight up and laid level, 20 mm thick.
        assert_eq!(b.turn_deg, 90.0);
        let stem = tree(1, 0.0, 90.0, 2000.0, 20.0);
        let tip = |bend_diameters: f64| {
            let g = Geometry {
                bend_diameters,
                ..Geometry::at(500.0, &Targets::default())
            };
            layout(&stem, g)[0].tip()
        };
        let (sharp, round) = (tip(0.0), tip(radius / 20.0));
        assert!((sharp.x - 1500.0).abs() < 1e-6);
        assert!((round.x - sharp.x - b.saving_m * 1e3).abs() <= PRINTED);
        assert!((round.y - 500.0).abs() < 1e-6);
    }
}
