//! Figures of a scheme by leaf, each as a chart and as the table of the same figures.

use crate::element::{add, el, path, text};
use crate::pen::{Pen, num};
use cordonry::forecast::LeafFigures;
use cordonry::said::Arg;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// Size of a chart, and the room that its axes take at the left and below, pixels.
const WIDE: f64 = 420.0;
const HIGH: f64 = 170.0;
const LEFT: f64 = 44.0;
const BELOW: f64 = 22.0;
const ABOVE: f64 = 10.0;
/// Half the width of a mark.
const MARK: f64 = 3.0;

/// One figure by leaf.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    /// What it is, with its unit.
    pub title: String,
    /// The chart, an `svg` element.
    pub drawing: String,
    /// The same figures: lines of cells, the first of each its name. The first line is the leaves.
    pub table: Vec<Vec<String>>,
}

/// A figure: the name of its text, its decimals, and what it is of a leaf.
type Figure = (&'static str, usize, fn(&LeafFigures) -> f64);

const FIGURES: [Figure; 7] = [
    ("chart-fill", 0, |y| y.cordon_fill_share * 100.0),
    ("chart-uprights", 0, |y| y.uprights as f64),
    ("chart-crop", 1, |y| y.crop_t_per_ha),
    ("chart-leaf-fruit", 0, |y| y.leaf_area_per_fruit),
    ("chart-fruit", 1, |y| y.fruit_mass),
    ("chart-index", 2, |y| y.leaf_area_index),
    ("chart-oldest", 0, |y| y.wood_age_max.into()),
];

/// The charts of a scheme. `ranges` say between what each leaf's crop lies, t/ha, once that is known.
pub fn charts(years: &[LeafFigures], ranges: Option<&[(f64, f64)]>, words: &Words) -> Vec<Chart> {
    let leaves: Vec<String> = years.iter().map(|y| y.leaf.to_string()).collect();
    let one = |(key, places, of): Figure| {
        let values: Vec<f64> = years.iter().map(of).collect();
        let ranges = ranges.filter(|_| key == "chart-crop").unwrap_or_default();
        let title = words.plain(key);
        let line = |name: &str, cells: Vec<String>| [vec![words.plain(name)], cells].concat();
        let told = |values: &mut dyn Iterator<Item = f64>| -> Vec<String> {
            let text = |v| words.arg(&Arg::Number(v, places));
            values.map(text).collect()
        };
        let mut table = vec![
            line("chart-leaf", leaves.clone()),
            line(key, told(&mut values.iter().copied())),
        ];
        if !ranges.is_empty() {
            table.push(line("chart-low", told(&mut ranges.iter().map(|r| r.0))));
            table.push(line("chart-high", told(&mut ranges.iter().map(|r| r.1))));
        }
        Chart {
            drawing: drawing(&title, &leaves, &values, ranges, words),
            title,
            table,
        }
    };
    FIGURES.into_iter().map(one).collect()
}

/// The distance of an axis's lines: 1, 2 or 5 times a power of ten, with no more than four up to `most`.
fn step(most: f64) -> f64 {
    let mut step = 0.1;
    for factor in [2.0, 2.5, 2.0].into_iter().cycle().take(24) {
        if step * 4.0 >= most {
            break;
        }
        step *= factor;
    }
    step
}

fn drawing(
    title: &str,
    leaves: &[String],
    values: &[f64],
    ranges: &[(f64, f64)],
    words: &Words,
) -> String {
    let mut svg = el(
        "svg",
        &[
            ("class", "chart"),
            ("viewBox", &format!("0 0 {} {}", num(WIDE), num(HIGH))),
            ("role", "img"),
            ("aria-label", title),
        ],
    );
    let most = values.iter().chain(ranges.iter().map(|(_, high)| high));
    let most = most.copied().fold(0.0, f64::max);
    let step = step(most);
    let lines = (most / step).ceil().max(1.0);
    let foot = HIGH - BELOW;
    let y = |value: f64| foot - value / (step * lines) * (foot - ABOVE);
    let each = (WIDE - LEFT) / leaves.len().max(1) as f64;
    let x = |at: usize| LEFT + each * (at as f64 + 0.5);
    let label = |class: &str, x: f64, y: f64, content: &str| -> Element {
        text(
            "text",
            &[("class", class), ("x", &num(x)), ("y", &num(y))],
            content,
        )
    };
    let mut grid = Pen::default();
    for line in 0..=lines as usize {
        let value = step * line as f64;
        grid.line(Point::new(LEFT, y(value)), Point::new(WIDE, y(value)));
        let places = usize::from(step < 1.0);
        let value_text = words.arg(&Arg::Number(value, places));
        svg.append(label("value", LEFT - 6.0, y(value) + 4.0, &value_text));
    }
    add(&mut svg, path("grid", &grid));
    for (at, leaf) in leaves.iter().enumerate() {
        svg.append(label("leaf", x(at), HIGH - 6.0, leaf));
    }
    // From end to end, with a stroke across at either.
    let mut spans = Pen::default();
    for (at, (low, high)) in ranges.iter().enumerate() {
        let x = x(at);
        spans.line(Point::new(x, y(*low)), Point::new(x, y(*high)));
        for end in [*low, *high] {
            spans.line(Point::new(x - 5.0, y(end)), Point::new(x + 5.0, y(end)));
        }
    }
    add(&mut svg, path("range", &spans));
    let (mut course, mut marks) = (Pen::default(), Pen::default());
    for (at, value) in values.iter().enumerate() {
        let here = Point::new(x(at), y(*value));
        match at {
            0 => course.move_to(here),
            _ => course.line_to(here),
        };
        marks.rect(here.x - MARK, here.y - MARK, here.x + MARK, here.y + MARK);
    }
    add(&mut svg, path("course", &course));
    add(&mut svg, path("marks", &marks));
    svg.to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_axis_has_round_steps_and_no_more_than_four() {
        for (most, expected) in [
            (0.0, 0.1),
            (2.4, 1.0),
            (15.3, 5.0),
            (100.0, 50.0),
            (231.0, 100.0),
        ] {
            assert!(
                (step(most) - expected).abs() < 1e-9,
                "{most}: {}",
                step(most)
            );
        }
    }
}
