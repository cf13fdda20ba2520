//! Rows found in the middle of their life: they grow on from what was measured.

use cordonry::file::csv::{Measured, Options, read};
use cordonry::forecast::{Forecast, LeafFigures};
use cordonry::plan::{Moment, Phase, Plan, Replayer, Window};
use cordonry::row::{GrowthUnit, Kind, Limit, Row, Shoot, ShootId, TreeId, Vigour};
use cordonry::standing::Rule;
use cordonry::units::Mm;
use cordonry::work::Work;
use cordonry_fixture::random::at;
use cordonry_fixture::table;
use std::sync::Arc;

fn measured(text: &str) -> Measured {
    read(text.as_bytes(), &Options::default()).expect("it is read")
}

/// The same of a table without a slip.
fn clean(text: &str) -> Measured {
    let got = measured(text);
    assert_eq!(got.bad, []);
    got
}

const FORTY: &str = include_str!("../../../examples/measured-40.csv");

/// The invented forty trees, before their fourth leaf.
fn forty() -> Plan {
    measured(FORTY).plan("forty")
}

fn years(plan: &Plan, last: u8) -> Vec<LeafFigures> {
    Forecast::default()
        .of(plan, 0, last)
        .expect("there is a scheme")
}

fn changed(row: &Row, change: &dyn Fn(&mut Shoot)) -> Row {
    let mut row = row.clone();
    for tree in &mut row.trees {
        Arc::make_mut(tree).shoots.iter_mut().for_each(change);
    }
    row
}

/// Two trees before their fifth leaf, a cordon of seven uprights each: of leaf 1, 2 and 3, all grown in leaf 4 too.
fn fifth_leaf() -> Row {
    let mut text = String::from("coming leaf,5\n");
    for (tree, foot) in [(1, 0), (2, 1500)] {
        text += &format!("{tree},{foot},leader,,2190,38,right,planted 45 laid,0\n");
        for n in 0..7 {
            let (at, born) = (foot + 600 + 200 * n, 1 + n % 3);
            let lengths: Vec<String> = (born..=4).map(|_| "420".into()).collect();
            let lengths = lengths.join(" + ");
            text += &format!("{tree},{at},upright,,{lengths},14,,,{born}\n");
        }
    }
    table(&text)
}

#[test]
fn tipped_growth_that_was_measured_bears_less_in_the_harvest_after_the_coming_one() {
    let plan = Plan::new("tipped or not", fifth_leaf()).begun();
    let said = |tipped| Plan {
        tipped,
        ..plan.clone()
    };
    let crops =
        |plan: &Plan| -> Vec<f64> { years(plan, 8).iter().map(|y| y.crop_t_per_ha).collect() };
    let whole = crops(&said(Some(false)));
    let tipped = crops(&said(Some(true)));
    assert_eq!(
        crops(&said(None)),
        whole,
        "what is not known is taken as whole"
    );
    // The coming crop hangs on older wood. In the one after it half of the places on last year's wood are missing, on ends that
    // were cut off and on what grew the less for them.
    assert!(
        (tipped[0] / whole[0] - 1.0).abs() < 0.1,
        "{tipped:?} {whole:?}"
    );
    assert!(tipped[1] < 0.95 * whole[1], "{tipped:?} {whole:?}");

    // It is as if the record had said what was cut: as much as is usual.
    let cut = |u: &mut GrowthUnit| u.grown = u.kept / 0.8;
    let recorded = changed(&plan.found, &|s| {
        if s.kind() == Kind::Upright {
            s.units.last_mut().into_iter().for_each(cut);
        }
    });
    let recorded = Plan {
        found: Arc::new(recorded),
        ..plan.clone()
    };
    assert_eq!(years(&recorded, 8), years(&said(Some(true)), 8));
    assert_eq!(
        years(&said(Some(true)), 8),
        years(
            &Plan {
                tipped: Some(true),
                ..recorded
            },
            8
        )
    );
    let more = said(Some(true))
        .with_limit(Limit::TippingShare, Some(0.3))
        .unwrap();
    assert!(crops(&more)[1] < tipped[1]);

    // The record stays, nothing else of the row is another, and it is not asked to be tipped once more.
    let mut kept = Replayer::default();
    let there = kept
        .at(&said(Some(true)), 0, plan.start(), Phase::After)
        .unwrap();
    assert_eq!(
        kept.found(&said(Some(true)), 0).row.into_row(),
        (*plan.found).clone()
    );
    let raw = changed(&there.row, &|s| {
        if s.kind() == Kind::Upright {
            s.units
                .last_mut()
                .into_iter()
                .for_each(|u| u.grown = u.kept);
        }
    });
    assert_eq!(raw, *plan.found);
    // By rules that tip every winter, renewal or not.
    let due = |plan: &Plan| {
        let plan = plan.clone().begun();
        let plan = plan
            .with_rule(0, Rule::TipUntil, Some(40.0))
            .expect("a rule");
        let at = Replayer::default().at(&plan, 0, plan.start(), Phase::After);
        let found = cordonry::check::check(&cordonry::check::Context::of(&at.unwrap()));
        found.iter().filter(|f| f.rule == "tipping-due").count()
    };
    assert!(due(&said(None)) > 0);
    assert_eq!(due(&said(Some(true))), 0);
}

#[test]
fn an_import_asks_of_tips_where_the_table_does_not_tell() {
    let asks = |text: &str| measured(text).asks_tipped();
    assert!(asks(FORTY));
    let head = "tree,place,kind,length,diameter,side,pose,season";
    let tree = "1,0,leader,2.00,30,right,45 laid,0";
    let upright = |more: &str| {
        format!("coming leaf,3\n{head},cut\n{tree}\n1,0.9,upright,0.80 + 0.40,12,,,1{more}\n")
    };
    // A column of cuts tells, be it that there was none.
    assert!(!asks(&upright(",0 + 0.10")));
    assert!(!asks(&upright("")));
    let untold = upright("").replace(",cut", "");
    assert!(asks(&untold));
    // Growth of last year alone is asked about, and of uprights.
    assert!(!asks(&untold.replace("coming leaf,3", "coming leaf,4")));
    assert!(!asks(&format!("{head}\n{tree}\n")));
}

#[test]
fn a_row_found_in_leaf_4_goes_on_bearing_and_growing_older() {
    let plan = forty();
    assert_eq!(plan.found.leaf, 4);
    let years = years(&plan, 10);
    assert_eq!(years.first().map(|y| y.leaf), Some(4));
    // Its wood was born in leaf 1, and is three seasons old; nobody works on it in the leaf in which it was found.
    assert_eq!(years[0].wood_age_max, 3);
    assert!(years[0].work.is_empty());
    assert_eq!(years[1].wood_age_max, 4);
    // Derived: begun in leaf 5, on wood of four seasons, renewal reaches eight at the most; in the end none is over five.
    assert!(years.iter().all(|y| y.wood_age_max <= 8), "{years:#?}");
    assert!(years[6].wood_age_max <= 5, "{years:#?}");
    // Published, leaves 4 and 5: 12.7 to 20.2 t/ha, 31.4 where half of it was too small. A row with gaps and a few lost trees,
    // then one that is being renewed: no leaf bears nothing, and none more than that.
    for y in &years {
        assert!((6.0..=31.4).contains(&y.crop_t_per_ha), "{y:#?}");
        assert!((0.8..=3.0).contains(&y.leaf_area_index), "{y:#?}");
    }
    let uprights = plan.found.trees.iter().flat_map(|t| &t.shoots);
    let uprights = uprights.filter(|s| s.kind() == Kind::Upright).count();
    assert!(
        years[0].uprights * 10 >= uprights * 9,
        "{} {uprights}",
        years[0].uprights
    );
}

/// The work of a kind that stands in the winter after the found leaf.
fn next_winter(text: &str, kind: &str) -> Vec<Work> {
    let plan = clean(text).plan("a row");
    let next = Moment::dormant(plan.found.leaf + 1);
    let mut all = plan.work_at(0, next).expect("there is a scheme");
    all.retain(|w| w.kind() == kind);
    all
}

#[test]
fn ages_and_cuts_that_were_measured_are_used() {
    let of = |born: u8, lengths: &str| {
        let mut text = String::from("coming leaf,5\n1,0,leader,,2190,38,right,planted 45 laid,0\n");
        for n in 0..7 {
            let at = 600 + 200 * n;
            text += &format!("1,{at},upright,,{lengths},14,,,{born}\n");
        }
        years(&Plan::new("a row", table(&text)).begun(), 8)
    };
    // As long, in four seasons or in two: older wood carries more spurs, and is cut older.
    let (old, young) = (of(1, "420 + 420 + 420 + 420"), of(3, "840 + 840"));
    assert_eq!((old[0].wood_age_max, young[0].wood_age_max), (4, 2));
    assert_eq!((old[1].cut_age_max, young[1].cut_age_max), (5, 3));
    assert!(old[0].crop_t_per_ha > 1.1 * young[0].crop_t_per_ha);
    // Of each season's growth a third was cut off, and half of its places to bear with it.
    let cut = |u: &mut GrowthUnit| u.grown = 1.5 * u.kept;
    let row = changed(&fifth_leaf(), &|s| {
        if s.kind() == Kind::Upright {
            s.units.iter_mut().for_each(cut);
        }
    });
    let whole = years(&Plan::new("a row", fifth_leaf()).begun(), 6);
    let cut = years(&Plan::new("a row", row).begun(), 6);
    for (cut, whole) in cut.iter().zip(&whole) {
        assert!(
            cut.crop_t_per_ha < 0.8 * whole.crop_t_per_ha,
            "{cut:?} {whole:?}"
        );
    }
}

#[test]
fn when_a_place_was_renewed_tells_when_its_turn_comes_again() {
    // The thickest upright of leaf 8 stands on a stub of that winter.
    let stubbed = |leaf: u8| {
        let mut text = String::from(
            "coming leaf,8\ntree,place (mm),kind,parent,length (mm),diameter (mm),side,pose,season,when cut,origin\n\
             1,0,leader,,2190,38,right,planted 45 laid,0\n",
        );
        for n in 0..7 {
            let at = 600 + 200 * n;
            text += &match n {
                3 => format!(
                    "1,{at},stub,,150,25,,,1,{leaf} dormant\n1,along 140 mm,upright,5,900,24,,,7,\n"
                ),
                _ => format!("1,{at},upright,,900,{},,,7,,kept bud\n", 12 + n % 2),
            };
        }
        let goes = next_winter(&text, "stub");
        assert!(!goes.is_empty());
        let plan = clean(&text).plan("a row");
        let thickest = plan.found.trees[0]
            .shoots
            .iter()
            .find(|s| s.diameter == 24.0);
        let thickest = thickest.expect("it was taken").id;
        goes.iter().any(|w| w.subject().shoot == thickest)
    };
    assert!(stubbed(3));
    assert!(!stubbed(6));
}

#[test]
fn what_somebody_kept_at_an_end_holds_it_and_what_came_by_itself_does_not() {
    let keeps = |origin: &str| {
        let text = format!(
            "coming leaf,3\ntree,place (mm),kind,length (mm),diameter (mm),side,pose,season,origin\n\
             1,0,leader,2700,38,right,planted 45 laid,0,\n1,900,upright,900,12,,,1,kept bud\n\
             1,2250,upright,900,12,,,1,{origin}\n2,1500,leader,2190,38,right,planted 45 laid,0,\n"
        );
        let cuts = next_winter(&text, "cut_back");
        let keep = cuts.iter().find_map(|w| match w {
            Work::CutBack {
                tree,
                shoot,
                keep_mm,
            } if tree.0 == 1 && *shoot == ShootId::STEM => Some(*keep_mm),
            _ => None,
        });
        keep.expect("it reaches beyond the next tree")
    };
    assert!(keeps("kept bud") > keeps("wild bud") + Mm(100));
}

#[test]
fn a_tree_that_is_stronger_than_its_row_grows_more_and_the_others_do_not() {
    let row = fifth_leaf();
    let grown = |vigour: Vigour| {
        let mut row = row.clone();
        Arc::make_mut(&mut row.trees[0]).vigour = Some(vigour);
        let window = Window::AfterHarvest;
        let end = at(&Plan::new("a row", row).begun(), Moment { leaf: 5, window });
        [1, 2].map(|id| -> f64 {
            let tree = end.row.tree(TreeId(id)).expect("it stands");
            tree.shoots.iter().map(Shoot::length).sum()
        })
    };
    let [weak, strong] = [Vigour::Weak, Vigour::Strong].map(grown);
    assert!(weak[0] < 0.9 * strong[0], "{weak:?} {strong:?}");
    assert_eq!(weak[1], strong[1]);
}
