//! Two schemes side by side in figures: what both bring and what their work asks for, each line with its value under both.

use crate::chart::leaf_figures;
use crate::figures::FigureLine;
use cordonry::effort::Effort;
use cordonry::forecast::{LeafFigures, crop_by};
use cordonry::plan::Plan;
use cordonry::said::Arg;
use cordonry_words::Words;
use std::ops::RangeInclusive;

/// What a figure is, with its unit where the values have none, and its value under both.
pub type Pair = (String, [String; 2]);

/// One of both.
#[derive(Clone, Copy)]
pub struct Under<'a> {
    /// The scheme's place in the plan.
    pub scheme: usize,
    /// What it brings leaf by leaf.
    pub years: &'a [LeafFigures],
    /// What its work asks for up to the leaf by which both are judged, once that is known.
    pub asks: Option<Effort>,
}

impl Under<'_> {
    /// A crop of some leaves, marked where that of any of them is told too high.
    fn told(&self, plan: &Plan, leaves: RangeInclusive<u8>, crop: String, words: &Words) -> String {
        let limits = plan.limits(self.scheme);
        let mut own = self.years.iter().filter(|y| leaves.contains(&y.leaf));
        match own.any(|y| y.doubt(plan, self.scheme, &limits).is_some()) {
            true => words.text("about-value", &[("value", Arg::Text(crop))]),
            false => crop,
        }
    }
}

/// What both bring and ask for up to a leaf, all of their leaves together: the crop, then hours, cuts and materials, as far as these
/// are known.
pub fn two_totals(plan: &Plan, both: &[Under<'_>; 2], leaf: u8, words: &Words) -> Vec<Pair> {
    let name = |key: &str| words.text(key, &[("leaf", Arg::Count(leaf.into()))]);
    let by = |one: &Under<'_>| {
        let crop = crop_by(one.years, leaf);
        let crop = words.text("value", &[("value", Arg::Number(crop, 1))]);
        one.told(plan, 0..=leaf, crop, words)
    };
    let mut out = vec![(name("two-crop-by"), both.each_ref().map(by))];
    type Of = fn(&Effort) -> f64;
    let asked: [(&str, usize, Of); 6] = [
        ("two-hours", 1, Effort::hours),
        ("two-cuts", 0, |e| e.cuts),
        ("two-trees", 0, |e| e.trees),
        ("two-wires", 0, |e| e.wires),
        ("two-ties", 0, |e| e.ties),
        ("two-sleeves", 0, |e| e.sleeves),
    ];
    for (i, (key, decimals, of)) in asked.into_iter().enumerate() {
        let told = |one: &Under<'_>| match &one.asks {
            Some(sum) => words.arg(&Arg::Number(of(sum), decimals)),
            None => words.plain("two-waits"),
        };
        // What neither takes is not told.
        let any = both
            .iter()
            .filter_map(|one| one.asks.as_ref())
            .any(|sum| of(sum) > 0.0);
        if i < 2 || any {
            out.push((name(key), both.each_ref().map(told)));
        }
    }
    out
}

/// The figures of both at a moment in leaf `at`, and of that leaf; what a scheme is chosen by, up to leaf `by`, stands first, with
/// the fill. `rows` are the row's own figures under each.
pub fn two_figures(
    plan: &Plan,
    both: &[Under<'_>; 2],
    (at, by): (u8, u8),
    rows: [Vec<FigureLine>; 2],
    words: &Words,
) -> Vec<Pair> {
    let [own, other] = rows;
    let pairs = own.into_iter().zip(other);
    let mut all: Vec<Pair> = pairs
        .map(|(a, b)| (words.plain(a.key), [a.value, b.value]))
        .collect();
    let year = |one: &Under<'_>| {
        let year = one.years.iter().find(|y| y.leaf == at);
        year.map(|y| leaf_figures(y, words))
    };
    let years = year(&both[0]).zip(year(&both[1]));
    let crop = words.plain("chart-crop");
    for ((name, a), (_, b)) in years.into_iter().flat_map(|(a, b)| a.into_iter().zip(b)) {
        let values = match name == crop {
            true => [
                both[0].told(plan, at..=at, a, words),
                both[1].told(plan, at..=at, b, words),
            ],
            false => [a, b],
        };
        all.push((name, values));
    }
    let first = all.len().min(1);
    all.splice(first..first, two_totals(plan, both, by, words));
    all
}
