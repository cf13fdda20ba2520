//! Lessons: each pair of schemes points the way that its answer says, over ten rows; where its answer promises no direction,
//! what is found is printed.
//!
//! The directions are those of the growth model's prototype, computed apart from this program in Python: ten rows at the
//! defaults each, and 40 draws of all values at once.

use cordonry::forecast::{Forecast, LeafFigures, crop_range, drawn};
use cordonry::plan::{Plan, replay};
use cordonry_tests::examples::lessons::{self, Lesson};

/// The last leaf that the strip of such a row tells of: what a note says can be looked up there.
const LAST: u8 = 10;

/// Of how many draws of all of the model's values it is told how often a lesson holds.
const DRAWS: u32 = 40;

/// What of a lesson's two schemes is set beside each other.
struct Told {
    lesson: &'static str,
    /// In words.
    what: &'static str,
    of: fn(&[LeafFigures]) -> f64,
    /// In how many of ten rows the first scheme must have more; `None` where it is told alone.
    at_least: Option<usize>,
}

fn leaf(all: &[LeafFigures], leaf: u8) -> &LeafFigures {
    &all[usize::from(leaf) - 1]
}

fn crop(all: &[LeafFigures], from: u8, to: u8) -> f64 {
    (from..=to).map(|l| leaf(all, l).crop_t_per_ha).sum()
}

fn large(all: &[LeafFigures], from: u8, to: u8) -> f64 {
    let of = |l: u8| leaf(all, l).crop_t_per_ha * leaf(all, l).share_large;
    (from..=to).map(of).sum()
}

const TOLD: &[Told] = &[
    Told {
        lesson: "buds-removed-or-missed",
        what: "uprights at the end of leaf 1",
        of: |a| leaf(a, 1).uprights as f64,
        at_least: Some(10),
    },
    Told {
        lesson: "buds-removed-or-missed",
        what: "crop of leaves 3 to 5",
        of: |a| crop(a, 3, 5),
        at_least: Some(10),
    },
    Told {
        lesson: "buds-set-right-or-never",
        what: "uprights at the end of leaf 4",
        of: |a| leaf(a, 4).uprights as f64,
        at_least: Some(10),
    },
    Told {
        lesson: "buds-set-right-or-never",
        what: "crop of leaves 3 to 5",
        of: |a| crop(a, 3, 5),
        at_least: None,
    },
    Told {
        lesson: "structure-or-crop-first",
        what: "crop of leaves 4 and 5",
        of: |a| crop(a, 4, 5),
        at_least: Some(10),
    },
    Told {
        lesson: "structure-or-crop-first",
        what: "crop of leaves 3 to 5",
        of: |a| crop(a, 3, 5),
        at_least: Some(10),
    },
    Told {
        lesson: "unheaded-or-headed",
        what: "crop of leaves 3 to 5",
        of: |a| crop(a, 3, 5),
        at_least: Some(10),
    },
    Told {
        lesson: "unheaded-or-headed",
        what: "cordon fill at the end of leaf 1",
        of: |a| leaf(a, 1).cordon_fill_share,
        at_least: Some(10),
    },
    Told {
        lesson: "headed-laid-at-once-or-later",
        what: "cordon fill at the end of leaf 2",
        of: |a| leaf(a, 2).cordon_fill_share,
        at_least: Some(10),
    },
    Told {
        lesson: "headed-laid-at-once-or-later",
        what: "crop of leaves 3 to 5",
        of: |a| crop(a, 3, 5),
        at_least: Some(9),
    },
    Told {
        lesson: "renewal-a-fifth-or-never",
        what: "large fruit of leaves 8 to 10",
        of: |a| large(a, 8, 10),
        at_least: Some(10),
    },
    Told {
        lesson: "renewal-a-fifth-or-never",
        what: "crop of leaves 8 to 10",
        of: |a| crop(a, 8, 10),
        at_least: Some(10),
    },
    Told {
        lesson: "renewal-a-fifth-or-a-quarter",
        what: "crop of leaves 8 to 10",
        of: |a| crop(a, 8, 10),
        at_least: Some(10),
    },
    Told {
        lesson: "renewal-a-fifth-or-an-eighth",
        what: "crop of leaves 8 to 10",
        of: |a| crop(a, 8, 10),
        at_least: None,
    },
    Told {
        lesson: "renewal-a-fifth-or-an-eighth",
        what: "less age of the oldest wood of leaves 8 to 10",
        of: |a| {
            -(8..=10)
                .map(|l| f64::from(leaf(a, l).wood_age_max))
                .sum::<f64>()
        },
        at_least: Some(10),
    },
    Told {
        lesson: "renewal-early-or-late",
        what: "less age of the oldest wood that is cut",
        of: |a| {
            -a.iter()
                .map(|l| f64::from(l.cut_age_max))
                .fold(0.0, f64::max)
        },
        at_least: Some(10),
    },
    Told {
        lesson: "tipped-until-height-or-always",
        what: "crop of leaves 8 to 10",
        of: |a| crop(a, 8, 10),
        at_least: Some(10),
    },
    Told {
        lesson: "rising-or-flat",
        what: "crop of leaves 3 to 5",
        of: |a| crop(a, 3, 5),
        at_least: None,
    },
    Told {
        lesson: "one-way-or-opposed",
        what: "cordon fill at the end of leaf 2",
        of: |a| leaf(a, 2).cordon_fill_share,
        at_least: Some(10),
    },
];

fn lesson(name: &str) -> &'static Lesson {
    let found = lessons::ALL.iter().find(|l| l.name == name);
    found.expect("there is the lesson")
}

fn both(plan: &Plan) -> [Vec<LeafFigures>; 2] {
    let mut forecast = Forecast::default();
    [0, 1].map(|scheme| forecast.of(plan, scheme, LAST).expect("two schemes"))
}

#[test]
fn each_points_the_way_that_its_answer_says() {
    let mut wrong = Vec::new();
    let mut told = Vec::new();
    for l in lessons::ALL {
        let about: Vec<&Told> = TOLD.iter().filter(|t| t.lesson == l.name).collect();
        assert!(!about.is_empty(), "nothing is told of {}", l.name);
        let rows: Vec<[Vec<LeafFigures>; 2]> = (0..10)
            .map(|seed| both(&lessons::plan(l, 1 + 100 * seed)))
            .collect();
        for t in about {
            let more = |[a, b]: &&[Vec<LeafFigures>; 2]| (t.of)(a) > (t.of)(b) + 1e-9;
            let count = rows.iter().filter(more).count();
            let by = |[a, b]: &[Vec<LeafFigures>; 2]| (t.of)(a) - (t.of)(b);
            let mean = rows.iter().map(by).sum::<f64>() / 10.0;
            let asked = t.at_least.map_or("-".into(), |n| n.to_string());
            told.push(format!(
                "{:32} {:42} {count:2} of 10 (asked {asked}), {mean:+.2} in the mean",
                l.name, t.what
            ));
            if t.at_least.is_some_and(|n| count < n) {
                wrong.push(told[told.len() - 1].clone());
            }
        }
    }
    println!("{}", told.join("\n"));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// How often each line of a lesson holds when every value of the model lies anywhere in its range, each draw on another row.
/// The lesson's note tells it.
#[test]
fn each_tells_how_often_it_holds_over_the_ranges() {
    let mut lines = String::new();
    for l in lessons::ALL {
        let rows: Vec<[Vec<LeafFigures>; 2]> = (0..DRAWS)
            .map(|draw| both(&drawn(&lessons::plan(l, 1 + 100 * draw), draw)))
            .collect();
        for t in TOLD.iter().filter(|t| t.lesson == l.name) {
            let more = |[a, b]: &&[Vec<LeafFigures>; 2]| (t.of)(a) > (t.of)(b) + 1e-9;
            let count = rows.iter().filter(more).count();
            lines += &format!("{}\t{}\t{count} of {DRAWS}\n", l.name, t.what);
        }
    }
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/snapshots/lessons.txt");
    if std::env::var_os("UPDATE_SNAPSHOTS").is_some() {
        std::fs::write(path, &lines).expect("the snapshot can be written");
    }
    let kept = std::fs::read_to_string(path).expect("a snapshot");
    assert_eq!(lines, kept);
    for l in lessons::ALL {
        let note = lessons::plan(l, 1).note.to_string();
        for line in kept
            .lines()
            .filter(|line| line.split('\t').next() == Some(l.name))
        {
            let count = line.rsplit('\t').next().expect("a count");
            assert!(note.contains(count), "{}: {count} in {note}", l.name);
        }
    }
}

/// What the model gives by its usual values is one of what it may give: beside its range no crop is told that lies out of it.
#[test]
fn a_crop_lies_in_its_range() {
    let plan = lessons::plan(lesson("renewal-a-fifth-or-never"), 1);
    for (scheme, leaves) in both(&plan).iter().enumerate() {
        let range = crop_range(&plan, scheme, LAST, leaves).expect("a scheme");
        assert_eq!(range.len(), leaves.len());
        for (f, (low, high)) in leaves.iter().zip(range) {
            let (crop, off) = (f.crop_t_per_ha, 1e-9);
            assert!(
                (low - off..=high + off).contains(&crop),
                "scheme {scheme}, leaf {}: {crop} in {low} to {high}",
                f.leaf
            );
        }
    }
}

#[test]
fn no_lesson_has_void_work() {
    for l in lessons::ALL {
        let plan = lessons::plan(l, 1);
        for scheme in 0..2 {
            let end = cordonry::plan::Moment {
                leaf: LAST,
                window: cordonry::plan::Window::AfterHarvest,
            };
            let at = replay(&plan, scheme, end).expect("two schemes");
            assert!(at.void.is_empty(), "{}: {:?}", l.name, at.void);
        }
    }
}

#[test]
fn every_line_is_of_a_lesson() {
    for t in TOLD {
        lesson(t.lesson);
    }
}
