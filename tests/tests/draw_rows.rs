//! Drawings of hand-made rows, compared with the files in `snapshots/draw`.
//! After a wanted change: `UPDATE_SNAPSHOTS=1 cargo test -p cordonry-tests --test draw_rows`, then look at them.

use cordonry::check::{Context, check as check_row, figures, matters};
use cordonry::cover::{Place, Span, cover, upright_places};
use cordonry::forecast::LeafFigures;
use cordonry::plan::{Mark, Plan};
use cordonry::pose::{Geometry, PosedRow};
use cordonry::row::{
    Face, GrowthUnit, Laterals, Moment, Phase, Pose, Row, Shoot, ShootId, Targets, Toward, Tree,
    TreeId, Trellis,
};
use cordonry::terms::Terms;
use cordonry::units::{Deg, LengthStyle, Mm};
use cordonry::work::Work;
use cordonry_draw::{
    Detail, DocumentOptions, FigureTable, Options, Paper, Series, Time, Told, charts, cordon_band,
    document, document_with, frame, row_figures, row_figures_title, sheets, tree_group,
    tree_group_with, tree_numbers, work_marks,
};
use cordonry_fixture::wood::{self, laid, standing as upright};
use cordonry_words::{Language, Words};
use std::fs;
use std::path::Path;
use std::sync::Arc;

fn shoot(
    id: u32,
    parent: Option<u32>,
    at: f64,
    pose: Pose,
    units: &[(u8, f64, f64)],
    diameter: f64,
) -> Shoot {
    Shoot {
        pose,
        units: units
            .iter()
            .map(|&(leaf, grown, kept)| GrowthUnit::new(leaf, grown, kept))
            .collect(),
        diameter,
        ..Shoot::bud(ShootId::found(id), parent.map(ShootId::found), at)
    }
}

fn tree(id: u32, foot: i32, angle: f64, toward: Toward, shoots: Vec<Shoot>) -> Arc<Tree> {
    let tree = wood::tree(id, foot, angle, toward, shoots);
    assert_eq!(tree.broken_rule(), None);
    Arc::new(tree)
}

/// A slanting stock laid to the right with uprights at the places along it.
fn single(id: u32, foot: i32, length: f64, places: &[f64]) -> Arc<Tree> {
    let mut shoots = vec![shoot(
        0,
        None,
        0.0,
        laid(Toward::Right, 2.0),
        &[(1, 900.0, 900.0), (2, length - 900.0, length - 900.0)],
        42.0,
    )];
    for (i, at) in places.iter().enumerate() {
        let n = i as u32;
        let first = 900.0 + f64::from((n * 37 + id * 53) % 5) * 70.0;
        let second = 700.0 + f64::from((n * 29 + id * 31) % 7) * 45.0;
        let mut up = shoot(
            n + 1,
            Some(0),
            *at,
            upright(f64::from((n * 7 + id) % 3) - 1.0),
            &[(2, first, first), (3, second, second)],
            16.0 + f64::from((n * 5 + id) % 4) * 3.0,
        );
        up.laterals = Laterals {
            count: (n % 3 * 4) as u16,
            total: f64::from(n % 3) * 4.0 * 120.0,
        };
        shoots.push(up);
    }
    tree(id, foot, 45.0, Toward::Right, shoots)
}

fn edit(tree: &Arc<Tree>, change: impl FnOnce(&mut Tree)) -> Arc<Tree> {
    let mut out = (**tree).clone();
    change(&mut out);
    Arc::new(out)
}

/// Six single-leader trees: a gap, an overlap, a stub, a headed upright, kept buds, a free shoot, a lost tree.
fn third_leaf() -> Row {
    let every = |from: f64, to: f64, step: f64| -> Vec<f64> {
        (0..)
            .map(|i| from + step * f64::from(i))
            .take_while(|s| *s <= to)
            .collect()
    };
    let mut trees = vec![
        single(1, 300, 2200.0, &every(760.0, 2180.0, 210.0)),
        single(2, 1800, 2180.0, &every(760.0, 2150.0, 230.0)),
        single(3, 3300, 1750.0, &every(760.0, 1700.0, 215.0)),
        single(4, 4800, 2380.0, &every(760.0, 2350.0, 220.0)),
        single(
            5,
            6300,
            2190.0,
            &[760.0, 970.0, 1390.0, 1610.0, 1720.0, 2000.0],
        ),
        tree(6, 7800, 45.0, Toward::Right, vec![]),
        single(7, 9300, 2000.0, &every(760.0, 1300.0, 205.0)),
    ];
    trees[1] = edit(&trees[1], |t| {
        t.shoots[2].cut_to(150.0, Moment::dormant(3));
        t.shoots[2].pose = Pose::Stub;
        t.shoots[4].cut_to(1300.0, Moment::dormant(3));
        t.shoots[3].diameter = 31.0;
    });
    trees[6] = edit(&trees[6], |t| {
        t.shoots
            .push(shoot(30, Some(0), 1500.0, upright(0.0), &[], 0.0));
        t.shoots
            .push(shoot(31, Some(0), 1710.0, upright(0.0), &[], 0.0));
        let mut free = shoot(32, Some(0), 1600.0, Pose::Free, &[(3, 420.0, 420.0)], 8.0);
        free.face = Face::Under;
        t.shoots.push(free);
        let mut side = shoot(33, Some(0), 1850.0, Pose::Free, &[(3, 600.0, 600.0)], 9.0);
        side.face = Face::Side;
        t.shoots.push(side);
    });
    Row {
        leaf: 3,
        from: Mm(800),
        to: Mm(11_300),
        trellis: Trellis {
            posts: vec![Mm(100), Mm(5_900), Mm(11_400)],
            ..Trellis::default()
        },
        trees,
    }
}

/// Trunks that fork into two leaders at the wire, one tree of them freshly planted and headed.
fn two_leaders() -> Row {
    let forked = |id: u32, foot: i32| {
        let mut shoots = vec![
            shoot(0, None, 0.0, upright(0.0), &[(1, 1500.0, 640.0)], 48.0),
            shoot(
                1,
                Some(0),
                430.0,
                laid(Toward::Left, 4.0),
                &[(2, 1150.0, 1150.0)],
                26.0,
            ),
            shoot(
                2,
                Some(0),
                470.0,
                laid(Toward::Right, 0.0),
                &[(2, 1300.0, 1180.0)],
                27.0,
            ),
        ];
        for i in 0..10u32 {
            let side = 1 + i % 2;
            let long = 500.0 + f64::from((i * 41 + id) % 6) * 120.0;
            shoots.push(shoot(
                10 + i,
                Some(side),
                210.0 + 200.0 * f64::from(i / 2),
                upright(0.0),
                &[(3, long, long)],
                12.0,
            ));
        }
        tree(id, foot, 90.0, Toward::Right, shoots)
    };
    let fresh = tree(
        3,
        6200,
        60.0,
        Toward::Left,
        vec![shoot(
            0,
            None,
            0.0,
            upright(-30.0),
            &[(1, 1400.0, 900.0)],
            18.0,
        )],
    );
    Row {
        leaf: 3,
        from: Mm(0),
        to: Mm(7_200),
        trellis: Trellis {
            posts: vec![Mm(-100), Mm(7_300)],
            ..Trellis::default()
        },
        trees: vec![forked(1, 1200), forked(2, 3600), fresh],
    }
}

fn work() -> Vec<Work> {
    let id = ShootId::found;
    vec![
        Work::Stub {
            tree: TreeId(1),
            shoot: id(3),
            keep_mm: Mm(150),
        },
        Work::Remove {
            tree: TreeId(1),
            shoot: id(5),
        },
        Work::CutBack {
            tree: TreeId(2),
            shoot: id(6),
            keep_mm: Mm(1200),
        },
        Work::Lay {
            tree: TreeId(3),
            shoot: id(5),
            toward: Toward::Right,
            rise_deg: Deg::new(0.0),
        },
        Work::Stand {
            tree: TreeId(7),
            shoot: id(33),
            lean_deg: Deg::new(0.0),
        },
        Work::KeepBud {
            tree: TreeId(5),
            shoot: id(0),
            at_mm: Mm(1180),
        },
        Work::Lay {
            tree: TreeId(5),
            shoot: id(6),
            toward: Toward::Left,
            rise_deg: Deg::new(5.0),
        },
        Work::Remove {
            tree: TreeId(99),
            shoot: id(1),
        },
    ]
}

fn check(name: &str, drawn: &str) {
    let file = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("snapshots/draw")
        .join(name);
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        fs::write(&file, drawn).expect("the snapshot can be written");
        return;
    }
    let kept = fs::read_to_string(&file).unwrap_or_default();
    if kept == drawn {
        return;
    }
    let differs = kept
        .lines()
        .zip(drawn.lines())
        .position(|(a, b)| a != b)
        .unwrap_or(kept.lines().count().min(drawn.lines().count()));
    panic!(
        "{name} differs from line {} on\nkept:  {}\ndrawn: {}\nUPDATE_SNAPSHOTS=1 accepts the new drawing",
        differs + 1,
        kept.lines().nth(differs).unwrap_or("(nothing)"),
        drawn.lines().nth(differs).unwrap_or("(nothing)"),
    );
}

fn plan(name: &str, row: &Row) -> Plan {
    Plan::new(name, row.clone())
}

#[test]
fn sheet_of_a_third_leaf_row() {
    let row = third_leaf();
    let mut plan = plan("Third leaf <invented> & \"quoted\"", &row);
    plan.note = "An invented row: it shows what the drawing can show.".into();
    plan.marks = vec![Mark::note(
        Mm(4950),
        Mm(1800),
        "Lay the end shoot on from here",
    )];
    check("third-leaf.svg", &document(&plan, &row));
}

fn posed(row: &Row) -> PosedRow {
    PosedRow::of(row, &Targets::default())
}

#[test]
fn sheet_with_leaves_work_and_feet() {
    let row = third_leaf();
    let words = Words::new(Language::default(), LengthStyle::FeetInches);
    let drawn = document_with(
        &plan("Third leaf with work", &row),
        &posed(&row),
        &DocumentOptions {
            words: &words,
            foliage: true,
            work: &work(),
            time: None,
            field: None,
        },
    );
    check("third-leaf-work.svg", &drawn);
}

#[test]
fn sheets_for_print() {
    let row = third_leaf();
    let mut plan = plan("Third leaf for print", &row);
    plan.note = "An invented row: it shows what sheets can show.".into();
    plan.marks = vec![Mark::note(
        Mm(4950),
        Mm(1800),
        "Lay the end shoot on from here",
    )];
    let words = Words::default();
    let terms = plan.terms(&row.trellis);
    let findings = check_row(&Context::found(
        &PosedRow::of(&row, &plan.targets),
        &terms,
        &plan.targets,
    ));
    let findings: Vec<_> = findings.iter().collect();
    let bare = cover(&row, &plan.targets);
    let matters = matters(&row, &bare, &plan.targets, &findings, &plan.left);
    let found = posed(&row);
    let told = Told {
        plan: &plan,
        row: &found,
        worked: &found,
        date: "",
        time: Some(Time {
            moment: plan.start(),
            phase: Phase::Before,
            stands: false,
        }),
        work: &work(),
        field: None,
        findings: &findings,
        matters: &matters,
        figures: &[FigureTable {
            title: row_figures_title(row.leaf, &words),
            lines: row_figures(&figures(&row, &plan.targets), &plan.targets, true, &words),
            assumed: String::new(),
        }],
        words: &words,
    };
    for (paper, name) in [(Paper::A4, "a4"), (Paper::Letter, "letter")] {
        let pages = sheets(&told, paper);
        assert!(pages.len() >= 2);
        check(&format!("sheets-{name}.svg-parts"), &pages.join("\n"));
    }
}

#[test]
fn sheet_of_two_leaders() {
    let row = two_leaders();
    check(
        "two-leaders.svg",
        &document(&plan("Two leaders", &row), &row),
    );
}

#[test]
fn an_empty_row_has_a_sheet() {
    let row = Row {
        trees: vec![],
        ..third_leaf()
    };
    check("empty.svg", &document(&plan("", &row), &row));
}

#[test]
fn parts_as_the_page_shows_them() {
    let row = third_leaf();
    let words = Words::strict();
    let plan = plan("", &row);
    let g = Geometry::of(&row, &plan.targets);
    let view = Span {
        from: 0.0,
        to: 11_500.0,
    };
    let mut out = String::new();
    for detail in [Detail::Full, Detail::Plain, Detail::Sketch] {
        out += &tree_group(&row.trees[1], g, detail);
        out += "\n";
    }
    let foliage = Options {
        foliage: true,
        px: None,
    };
    out += &tree_group_with(&row.trees[6], g, Detail::Plain, foliage);
    for part in [
        tree_group(&row.trees[5], g, Detail::Full),
        frame(&row, view, 0.1, &words),
        tree_numbers(&row, view, 0.1, &words),
        cordon_band(
            &cover(&row, &plan.targets),
            &upright_places(&row, g),
            view,
            &plan.targets,
            &words,
            0.1,
        )
        .concat(),
        work_marks(
            &row,
            &work(),
            Moment::dormant(row.leaf),
            &Terms::of(&row, &plan.targets),
            None,
        ),
    ] {
        out += "\n";
        out += &part;
    }
    check("parts.svg-parts", &out);
}

#[test]
fn what_grows_back_from_one_stub_has_no_distance_in_the_band() {
    let row = third_leaf();
    let plan = plan("Third leaf", &row);
    let posed = posed(&row);
    let words = Words::default();
    let at = |x: f64| Place {
        tree: row.trees[0].id,
        shoot: row.trees[0].shoots[0].id,
        x,
        z: 600.0,
    };
    let view = Span {
        from: 0.0,
        to: 3000.0,
    };
    let band = |second: f64| {
        let places = [at(900.0), at(second), at(1100.0)];
        let covered = cover(&posed, &plan.targets);
        cordon_band(&covered, &places, view, &plan.targets, &words, 0.3).concat()
    };
    assert!(band(940.0).contains("0.04 m"));
    assert!(!band(902.0).contains("0.00 m"));
}

#[test]
fn a_row_costs_by_its_trees_and_not_by_the_way_between_them() {
    let apart = |x: i32| {
        let mut row = third_leaf();
        row.trees.truncate(2);
        let mut last = (*row.trees[1]).clone();
        last.foot = Mm(x);
        row.trees[1] = Arc::new(last);
        row.to = Mm(x);
        document(&plan("Far apart", &row), &row)
    };
    let strips = |drawing: &str| drawing.matches("class=\"sheet-strip\"").count();
    let near = apart(100_000);
    assert!((5..20).contains(&strips(&near)), "{}", strips(&near));
    let far = apart(5_000_000);
    assert!((100..=200).contains(&strips(&far)), "{}", strips(&far));
    assert!(far.len() < 3_000_000, "{} bytes", far.len());
}

#[test]
fn figures_by_leaf_are_drawn_with_a_table_beside() {
    let year = |leaf: u8, crop: f64, fruit: f64| LeafFigures {
        leaf,
        cordon_fill_share: f64::from(leaf) / 5.0,
        uprights: usize::from(leaf) * 9,
        crop_t_per_ha: crop,
        leaf_area_per_fruit: fruit,
        fruit_mass: if crop > 0.0 { 11.4 } else { 0.0 },
        leaf_area_index: 0.45 * f64::from(leaf),
        wood_age_max: leaf - 1,
        ages: std::array::from_fn(|i| if i + 1 < leaf.into() { 9 } else { 0 }),
        ..LeafFigures::default()
    };
    let years = [
        year(2, 0.0, 0.0),
        year(3, 4.12, 231.0),
        year(4, 9.8, 214.0),
        year(5, 15.3, 198.0),
    ];
    let ranges = [(0.0, 0.0), (2.3, 6.0), (5.6, 13.9), (9.0, 21.2)];
    let words = Words::strict();
    let one = |name, years, ranges| Series {
        name,
        years,
        ranges,
        light: None,
    };
    let told = |series: &[Series<'_>]| -> String {
        let each = charts(series, &words).into_iter().map(|chart| {
            let table: Vec<String> = chart.table.iter().map(|line| line.join(" | ")).collect();
            format!("{}\n{}\n{}\n", chart.title, chart.drawing, table.join("\n"))
        });
        each.collect()
    };
    let alone = one("A", &years, Some(&ranges));
    check("charts.svg-parts", &told(&[alone]));
    assert!(!told(&[one("A", &years, None)]).contains("class=\"range\""));
    // Two schemes on the same axes, told apart without colour; light once it is known of both.
    let light = [(0.2, 0.7), (0.35, 0.6), (0.5, 0.4), (0.55, 0.33)];
    let lit = Series {
        light: Some(&light),
        ..alone
    };
    let other = Series {
        name: "Lay <back>",
        ..lit
    };
    check("charts-two.svg-parts", &told(&[lit, other]));
    let count = |series: &[Series<'_>]| charts(series, &words).len();
    assert_eq!(count(&[lit, other]), count(&[lit, alone]) + 2);
    // A plan whose scheme tells no leaf at all.
    for none in [&[][..], &[one("A", &[], None)]] {
        assert!(charts(none, &words).iter().all(|c| c.table[0].len() == 1));
    }
}
