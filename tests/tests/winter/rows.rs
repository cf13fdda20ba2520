//! The rows on which winters are tried.

use cordonry::file::{csv, read_plan};
use cordonry::make::{Leaders, RowSketch};
use cordonry::plan::Plan;
use cordonry::row::{Toward, TreeId};
use cordonry::seed::Seeded;
use cordonry::units::{Deg, Mm};
use cordonry_words::Words;
use std::sync::Arc;

/// Every example, without the work that is planned on it; of the lessons, whose rows are all newly planted stock, one.
pub fn examples() -> Vec<(String, Plan)> {
    let lesson =
        |name: &str| name.starts_with("lessons/") && !name.ends_with("rising-or-flat.json");
    cordonry_tests::examples::all()
        .into_iter()
        .filter(|(name, _)| !lesson(name))
        .map(|(name, text)| {
            let plan = match name.ends_with(".csv") {
                true => {
                    let read = csv::read(text.as_bytes(), &csv::Options::default());
                    let read = read.unwrap_or_else(|why| panic!("{name}: {why}"));
                    read.plan(&name)
                }
                false => read_plan(text.as_bytes()).unwrap_or_else(|why| panic!("{name}: {why}")),
            };
            (name, bare(plan))
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
    plausible_sketch(seed)
        .plan(&Words::strict())
        .unwrap_or_else(|why| panic!("row {seed}: {why}"))
}

/// The same with so many trees.
pub fn long(seed: u32, trees: u32) -> Plan {
    let sketch = RowSketch {
        trees,
        ..plausible_sketch(seed)
    };
    sketch
        .plan(&Words::strict())
        .unwrap_or_else(|why| panic!("row {seed}: {why}"))
}

/// The same in that leaf, with so many trees.
pub fn plausible_of(seed: u32, trees: u32, leaf: u8) -> Plan {
    let sketch = RowSketch {
        trees,
        leaf,
        leaders: Leaders::One,
        spacing: Mm(1_600),
        ..plausible_sketch(seed)
    };
    sketch
        .plan(&Words::strict())
        .unwrap_or_else(|why| panic!("row {seed}: {why}"))
}

/// So many rows of random trees, such as nobody has, one beyond the other.
pub fn chained(count: usize) -> Plan {
    let mut rows = extreme(2 * count).into_iter().step_by(2);
    let mut plan = rows.next().expect("a row");
    let mut row = (*plan.found).clone();
    for next in rows {
        let (to, from) = (row.to, next.found.from);
        for tree in &next.found.trees {
            let mut tree = (**tree).clone();
            tree.foot = Mm(tree.foot.0 - from.0 + to.0);
            row.trees.push(Arc::new(tree));
        }
        row.to = Mm(next.found.to.0 - from.0 + to.0);
        row.leaf = row.leaf.max(next.found.leaf);
    }
    for (tree, id) in row.trees.iter_mut().zip(1..) {
        Arc::make_mut(tree).id = TreeId(id);
    }
    row.sort();
    plan.found = Arc::new(row);
    plan
}

fn plausible_sketch(seed: u32) -> RowSketch {
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
    RowSketch {
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
    }
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
