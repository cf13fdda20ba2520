//! What becomes of rows in five leaves under drafts, beside nothing, the first remedies, these and the usual rules, and the rules alone;
//! and how long a draft takes. Prints a table, then one object a line.

use cordonry::advise::draft;
use cordonry::check::{Context, figures, mended, offered, survey};
use cordonry::file::read_plan;
use cordonry::forecast::Forecast;
use cordonry::make::{Form, RowSketch};
use cordonry::plan::{Moment, Phase, Plan, Replayer, Window};
use cordonry::units::LengthStyle;
use cordonry_tests::timing::{best, say};
use cordonry_words::Words;
use std::hint::black_box;

const LEAVES: u8 = 5;
/// The bound of a draft for 1,000 trees, ms.
const BOUND: f64 = 150.0;

/// A way to train a row, by name.
type Way = (&'static str, fn(&Plan) -> Plan);

/// Rows to try: the examples, and made ones, all without work and rules.
fn rows() -> Vec<(String, Plan)> {
    let bare = |plan: Plan| Plan {
        schemes: Plan::new("", (*plan.found).clone()).schemes,
        ..plan
    };
    let examples = cordonry_tests::examples::all().into_iter();
    let lesson = |name: &str| name.contains('/') && !name.ends_with("one-way-or-opposed.json");
    let read = |(name, text): (String, String)| {
        let plan = read_plan(text.as_bytes()).expect("a plan");
        (name, bare(plan))
    };
    let json = examples.filter(|(name, _)| name.ends_with(".json") && !lesson(name));
    let mut out: Vec<(String, Plan)> = json.map(read).collect();
    for (leaf, uneven) in [(2, 0.3), (3, 0.8), (4, 0.6), (6, 0.5), (8, 0.7)] {
        let sketch = RowSketch {
            trees: 12,
            leaf,
            unevenness: uneven,
            seed: u32::from(leaf),
            ..RowSketch::usual(LengthStyle::Metric)
        };
        let plan = sketch.plan(&Words::default()).expect("a row");
        out.push((format!("made, leaf {leaf}"), bare(plan)));
    }
    out
}

/// The windows of the leaves to come.
fn windows(plan: &Plan) -> Vec<Moment> {
    let from = plan.found.leaf;
    let leaves = from..from + LEAVES;
    leaves
        .flat_map(|leaf| Window::ALL.map(|window| Moment { leaf, window }))
        .collect()
}

/// Each winter what is offered first, until nothing is.
fn first_remedies(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    let mut replayer = Replayer::default();
    for leaf in plan.found.leaf..plan.found.leaf + LEAVES {
        let moment = Moment::dormant(leaf);
        for _ in 0..10 {
            let at = replayer
                .at(&plan, 0, moment, Phase::After)
                .expect("a scheme");
            let found = survey(&Context::of(&at), None).findings;
            let found = offered(&plan, 0, &at, found);
            let was = plan.clone();
            for remedy in found.iter().filter_map(|f| f.remedies.first()) {
                plan = mended(&plan, 0, moment, &[remedy]).unwrap_or(plan);
            }
            if plan == was {
                break;
            }
        }
    }
    plan
}

fn drafted(plan: &Plan) -> Plan {
    let begun = plan.with_all_standing();
    let all = windows(plan).into_iter();
    all.fold(begun, |plan, moment| {
        draft(&plan, 0, moment).expect("a draft").plan
    })
}

/// Fill, spread of the distances between uprights, crop of the five leaves together and of the last, oldest wood, pieces of work.
fn told(plan: &Plan) -> [f64; 6] {
    let last = plan.found.leaf + LEAVES;
    let leaves = Forecast::default().of(plan, 0, last).expect("a scheme");
    let at = Replayer::default()
        .at(plan, 0, Moment::dormant(last), Phase::Before)
        .expect("a scheme");
    let end = leaves.last().expect("a leaf");
    let work: u32 = leaves.iter().flat_map(|l| l.work.values()).sum();
    [
        end.cordon_fill_share * 100.0,
        figures(at.row.row(), &plan.targets).upright_spacing_cv * 100.0,
        leaves[1..].iter().map(|l| l.crop_t_per_ha).sum(),
        end.crop_t_per_ha,
        f64::from(end.wood_age_max),
        f64::from(work),
    ]
}

fn main() {
    println!(
        "{:<26} {:<15} {:>6} {:>7} {:>9} {:>7} {:>6} {:>6}",
        "row", "way", "fill %", "cv %", "5 leaves", "last", "oldest", "work"
    );
    let ways: [Way; 5] = [
        ("nothing", Plan::clone),
        ("first remedies", first_remedies),
        ("remedies, rules", |plan| {
            first_remedies(&plan.with_all_standing())
        }),
        ("rules alone", Plan::with_all_standing),
        ("drafts", drafted),
    ];
    let mut sums = [[0.0; 6]; 5];
    let rows = rows();
    for (name, plan) in &rows {
        for ((way, done), sum) in ways.iter().zip(&mut sums) {
            let told = told(&done(plan));
            println!("{}", line(name, way, told));
            sum.iter_mut()
                .zip(told)
                .for_each(|(sum, t)| *sum += t / rows.len() as f64);
        }
    }
    for ((way, _), mean) in ways.iter().zip(sums) {
        println!("{}", line("all, in the mean", way, mean));
    }
    for trees in [100, 1000] {
        let sketch = RowSketch {
            trees,
            leaf: 4,
            unevenness: 0.6,
            ..RowSketch::usual(LengthStyle::Metric)
        };
        let plan = sketch.plan(&Words::default()).expect("a row");
        let winter = plan.start();
        let time = best(3, || {
            black_box(draft(&plan, 0, winter).expect("a draft"));
        });
        let bound = BOUND * f64::from(trees) / 1000.0;
        say(
            &format!("the draft of a winter for {trees} trees; bound"),
            "ms",
            time,
            bound,
        );
    }
}

fn line(row: &str, way: &str, [fill, cv, crop, last, oldest, work]: [f64; 6]) -> String {
    format!(
        "{row:<26} {way:<15} {fill:>6.1} {cv:>7.1} {crop:>9.1} {last:>7.1} {oldest:>6.1} {work:>6.0}"
    )
}
