//! Rows that are made: the same everywhere, whole, and without a fault that nobody asked for.

use cordonry::check::{Context, Severity, check, figures};
use cordonry::file::{read_plan, write_plan};
use cordonry::make::{EmptyRow, Field, Form, Leaders, RowSketch};
use cordonry::pose::PosedRow;
use cordonry::row::{Kind, Row, Targets, Toward, Tree};
use cordonry::terms::Terms;
use cordonry::units::{Deg, LengthStyle, Mm};
use cordonry_words::Words;

fn usual() -> RowSketch {
    RowSketch::usual(LengthStyle::Metric)
}

fn findings(row: &Row) -> Vec<cordonry::check::Finding> {
    let targets = Targets::default();
    let (row, terms) = (PosedRow::of(row, &targets), Terms::of(row, &targets));
    check(&Context::found(&row, &terms, &targets))
}

fn whole(tree: &Tree) {
    assert_eq!(tree.broken_rule(), None);
}

/// Every kind of row that the form can ask for, coarsely.
fn kinds() -> Vec<RowSketch> {
    let mut out = Vec::new();
    for leaf in [1, 2, 3, 4, 7, 20] {
        for leaders in [Leaders::One, Leaders::Two] {
            for angle in [30.0, 45.0, 60.0, 90.0] {
                for toward in [Toward::Left, Toward::Right] {
                    for (cordon, spacing) in [(450, 1200), (500, 1500), (610, 3000)] {
                        out.push(RowSketch {
                            trees: 6,
                            leaf,
                            leaders,
                            angle: Deg::new(angle),
                            toward,
                            spacing: Mm(spacing),
                            wires: [0, 1, 2, 3, 4].map(|n| Mm(cordon + 500 * n)).to_vec(),
                            ..usual()
                        });
                    }
                }
            }
        }
    }
    out
}

#[test]
fn every_kind_of_row_is_whole_and_can_be_kept() {
    for unevenness in [0.0, 0.5, 1.0] {
        for sketch in kinds() {
            let sketch = RowSketch {
                unevenness,
                ..sketch
            };
            let plan = sketch.plan(&Words::strict()).unwrap();
            plan.found.trees.iter().for_each(|t| whole(t));
            let text = write_plan(&plan);
            let again = read_plan(text.as_bytes()).unwrap();
            assert_eq!(again, plan, "{sketch:?}");
        }
    }
}

#[test]
fn an_even_row_fills_its_cordon() {
    for sketch in kinds() {
        let row = RowSketch {
            unevenness: 0.0,
            ..sketch.clone()
        }
        .row()
        .unwrap();
        let found = findings(&row);
        let grave = found.iter().find(|f| f.severity == Severity::Now);
        assert_eq!(grave, None, "{sketch:?}");
        if sketch.leaf > 1 {
            let figures = figures(&row, &Targets::default());
            assert!(figures.cordon_fill_share > 0.999, "{sketch:?}: {figures:?}");
            assert!(figures.overlap_total < 10.0, "{sketch:?}: {figures:?}");
            let spacing = (figures.upright_spacing_mean - 200.0).abs();
            assert!(spacing < 15.0, "{sketch:?}: {figures:?}");
            let uneven = [
                "uprights-too-close",
                "uprights-too-far",
                "cordon-gap",
                "cordon-overlap",
            ];
            assert!(
                found.iter().all(|f| !uneven.contains(&f.rule)),
                "{sketch:?}: {found:?}"
            );
        }
    }
}

#[test]
fn a_leaf_looks_like_that_leaf() {
    let of = |leaf| {
        let sketch = RowSketch {
            leaf,
            unevenness: 0.0,
            ..usual()
        };
        sketch.row().unwrap()
    };
    let kinds = |row: &Row| -> Vec<Kind> { row.trees[0].shoots.iter().map(|s| s.kind()).collect() };
    // Derived: 0.5 m wire, 45°, 1.5 m apart, bearing from the wire: 2.207 m.
    assert_eq!(kinds(&of(1)), [Kind::Stem]);
    assert_eq!(of(1).trees[0].shoots[0].length(), 2208.0);
    let second = of(2);
    assert_eq!(kinds(&second)[0], Kind::Leader);
    assert!(kinds(&second)[1..].iter().all(|k| *k == Kind::Upright));
    assert!((7..=8).contains(&(kinds(&second).len() - 1)));
    // From memory: 0.8 m in the first season.
    assert_eq!(second.trees[0].shoots[1].length(), 800.0);
    let old = figures(&of(12), &Targets::default());
    assert!(old.wood_age_max <= 5, "{old:?}");
}

/// Place, length and thickness of the shoots of the second tree of such a row.
const WOOD: &[&str] = &[
    "0 2117 22.2",
    "833 1085 13.7",
    "1035 1550 16.8",
    "1170 1508 16.6",
    "1339 986 12.9",
    "1549 1144 14.1",
    "1706 1476 16.4",
    "1897 1294 15.1",
];

#[test]
fn the_same_figures_make_the_same_row() {
    let sketch = RowSketch {
        unevenness: 0.7,
        ..usual()
    };
    assert_eq!(sketch.row(), sketch.row());
    let other = RowSketch {
        seed: 2,
        ..sketch.clone()
    };
    assert_ne!(sketch.row(), other.row());
    // A tree is the same however many stand behind it.
    let longer = RowSketch {
        trees: 30,
        ..sketch.clone()
    };
    assert_eq!(
        sketch.row().unwrap().trees[..],
        longer.row().unwrap().trees[..10]
    );
    // Held to the digit, so that another machine would be noticed.
    let row = sketch.row().unwrap();
    let wood: Vec<String> = row.trees[1]
        .shoots
        .iter()
        .map(|s| format!("{} {} {}", s.at, s.length(), s.diameter))
        .collect();
    assert_eq!(wood, WOOD);
}

#[test]
fn an_uneven_row_has_what_is_to_be_mended() {
    let row = RowSketch {
        trees: 40,
        unevenness: 1.0,
        ..usual()
    }
    .row()
    .unwrap();
    let found = findings(&row);
    for rule in ["cordon-gap", "uprights-too-far", "laterals-due"] {
        assert!(found.iter().any(|f| f.rule == rule), "{rule}");
    }
}

fn check_field<F: Form>(
    field: Field,
    text: &str,
    style: LengthStyle,
    expected: Result<&str, &str>,
) {
    let mut form = F::usual(style);
    let before = form.clone();
    match (form.set(field, text, style), expected) {
        (Ok(()), Ok(shown)) => {
            let words = Words::strict().styled(style);
            assert_eq!(words.entries(&form.shown(field)), shown, "{text}");
        }
        (Err(why), Err(words)) => {
            let words_of = Words::new(Default::default(), style);
            assert_eq!(words_of.refusal(&why), words, "{text}");
            assert!(form == before, "{text}: the form is as it was");
        }
        (got, _) => panic!("{field:?} {text}: {got:?}, not {expected:?}"),
    }
}

#[test]
fn fields_are_read_as_people_write_them() {
    use LengthStyle::{FeetInches, Metric};
    type S = RowSketch;
    check_field::<S>(Field::Spacing, "1,8", Metric, Ok("1.80 m"));
    check_field::<S>(Field::Spacing, "180 cm", Metric, Ok("1.80 m"));
    check_field::<S>(Field::Spacing, "6", FeetInches, Ok("6 ft"));
    check_field::<S>(Field::Spacing, "5'6", FeetInches, Ok("5 ft 6 in"));
    check_field::<S>(Field::Unevenness, "30", Metric, Ok("30 %"));
    check_field::<S>(Field::Angle, "60°", Metric, Ok("60°"));
    check_field::<S>(
        Field::Wires,
        "1; 0,5, 1.5 m",
        Metric,
        Ok("0.50 m; 1.00 m; 1.50 m"),
    );
    check_field::<S>(
        Field::Spacing,
        "150",
        Metric,
        Err("Distance between trees must be between 0.30 m and 4.00 m, not 150.00 m"),
    );
    check_field::<S>(
        Field::Trees,
        "ten",
        Metric,
        Err("Number of trees must be between 1 and 1000, not ‘ten’"),
    );
    check_field::<S>(
        Field::Trees,
        "2.5",
        Metric,
        Err("Number of trees must be between 1 and 1000, not ‘2.5’"),
    );
    check_field::<S>(
        Field::Trees,
        "",
        Metric,
        Err("Number of trees must be between 1 and 1000, not –"),
    );
    check_field::<S>(
        Field::WallHeight,
        "0.6",
        Metric,
        Err("Height of the wall must be between 0.80 m and 6.00 m, not 0.60 m"),
    );
    check_field::<S>(
        Field::Wires,
        "3 m; 4 m",
        Metric,
        Err("The cordon wire must be between 0.20 m and 2.00 m high, not 3.00 m"),
    );
    check_field::<EmptyRow>(Field::Length, "42", Metric, Ok("42.00 m"));
    check_field::<EmptyRow>(
        Field::Length,
        "99 km",
        Metric,
        Err("Length of the row must be between 1.00 m and 5000.00 m, not ‘99 km’"),
    );
    for style in [Metric, FeetInches] {
        every_field_reads_what_it_writes::<S>(style);
        every_field_reads_what_it_writes::<EmptyRow>(style);
        assert!(RowSketch::usual(style).plan(&Words::strict()).is_ok());
    }
}

fn every_field_reads_what_it_writes<F: Form>(style: LengthStyle) {
    let mut form = F::usual(style);
    for field in F::FIELDS {
        let words = Words::strict().styled(style);
        let shown = words.entries(&form.shown(*field));
        form.set(*field, &shown, style).unwrap();
        assert_eq!(words.entries(&form.shown(*field)), shown);
    }
}

#[test]
fn figures_that_make_no_row_are_refused() {
    let far = RowSketch {
        unevenness: f64::NAN,
        ..usual()
    };
    assert!(far.row().is_err());
    let none = RowSketch {
        wires: Vec::new(),
        ..usual()
    };
    assert!(none.row().is_err());
    let most = RowSketch {
        trees: 1000,
        spacing: Mm(4000),
        ..usual()
    };
    assert_eq!(most.row().unwrap().trees.len(), 1000);
}

#[test]
fn an_empty_row_is_judged_without_trees() {
    let row = EmptyRow::usual(LengthStyle::Metric).row().unwrap();
    let found: Vec<&str> = findings(&row).iter().map(|f| f.rule).collect();
    assert_eq!(found, ["cordon-gap"]);
    let figures = figures(&row, &Targets::default());
    assert_eq!(figures.cordon_fill_share, 0.0);
}
