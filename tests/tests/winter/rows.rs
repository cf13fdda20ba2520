//! The rows on which winters are tried.

use cordonry::file::{csv, read_plan};
use cordonry::make::{Leaders, RowSketch};
use cordonry::plan::Plan;
use cordonry::row::Toward;
use cordonry::seed::Seeded;
use cordonry::units::{Deg, Mm};
use cordonry_words::Words;

/// Every example, without the work that is planned on it.
pub fn examples() -> Vec<(String, Plan)> {
    cordonry_tests::examples::all()
        .into_iter()
        .map(|(name, text)| {
            let plan = match name.ends_with(".csv") {
                true => {
                    let read = csv::read(text.as_bytes(), &csv::Options::default());
                    let read = read.unwrap_or_else(|why| panic!("{name}: {why}"));
                    read.plan(name)
                }
                false => read_plan(text.as_bytes()).unwrap_or_else(|why| panic!("{name}: {why}")),
            };
            (name.to_string(), bare(plan))
        })
        .collect()
}

/// The plan without any work.
fn bare(plan: Plan) -> Plan {
    Plan {
        schemes: Plan::new("", (*plan.found).clone()).schemes,
        ..plan
    }
}

/// A row as a grower may have it: figures within what is usual, as even or uneven as rows are.
pub fn plausible(seed: u32) -> Plan {
    let mut chance = Seeded::new(u64::from(seed) + 9);
    let mut between = |low: f64, high: f64| low + (high - low) * chance.share();
    let leaders = match between(0.0, 1.0) < 0.75 {
        true => Leaders::One,
        false => Leaders::Two,
    };
    let spacing = match leaders {
        Leaders::One => between(1200.0, 2000.0),
        Leaders::Two => between(2400.0, 3200.0),
    };
    let cordon = between(450.0, 610.0);
    let step = between(450.0, 600.0);
    let wires: Vec<Mm> = (0..5)
        .map(|i| Mm::round(cordon + step * f64::from(i)))
        .collect();
    let wall = (cordon + 4.0 * step).min(between(2200.0, 3500.0));
    let sketch = RowSketch {
        trees: between(3.0, 9.0) as u32,
        spacing: Mm::round(spacing),
        leaf: between(1.0, 11.0) as u8,
        leaders,
        angle: Deg::new(between(40.0, 90.0).round()),
        toward: match between(0.0, 1.0) < 0.5 {
            true => Toward::Left,
            false => Toward::Right,
        },
        wires,
        wall_height: Mm::round(wall),
        upright_spacing: Mm::round(between(160.0, 280.0)),
        row_spacing: Mm::round(between(2000.0, 4000.0)),
        unevenness: between(0.0, 1.0),
        seed,
    };
    sketch
        .plan(&Words::strict())
        .unwrap_or_else(|why| panic!("row {seed}: {why}"))
}

/// A row of random trees, such as nobody has.
pub fn extreme(count: usize) -> Vec<Plan> {
    use proptest::strategy::{Strategy, ValueTree};
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let mut out = Vec::new();
    for i in 0..count {
        let row = match i % 2 {
            0 => cordonry_fixture::random::row()
                .new_tree(&mut runner)
                .map(|r| r.current()),
            _ => cordonry_fixture::wild::row()
                .new_tree(&mut runner)
                .map(|r| r.current()),
        };
        out.push(Plan::new("a row", row.expect("a row")));
    }
    out
}
