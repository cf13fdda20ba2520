//! Figures by leaf, of one scheme or of two on the same axes: each as a chart and as the table of the same figures.

use crate::element::{add, el, path, text};
use crate::pen::{Pen, num};
use cordonry::forecast::{AGES, LeafFigures, is_a_crop};
use cordonry::said::Arg;
use cordonry_words::Words;
use kurbo::Point;
use svg::node::Node;
use svg::node::element::Element;

/// Size of a chart, and the room that its axes take at the left and below, pixels.
pub(crate) const WIDE: f64 = 420.0;
pub(crate) const HIGH: f64 = 170.0;
const LEFT: f64 = 44.0;
const BELOW: f64 = 22.0;
const ABOVE: f64 = 10.0;
/// Room above for the names of two schemes.
const NAMES: f64 = 18.0;
/// Half the width of a mark.
const MARK: f64 = 3.0;
/// How far the marks of two schemes in one leaf stand apart.
const APART: f64 = 8.0;

/// What a scheme brings.
#[derive(Clone, Copy, Debug)]
pub struct Series<'a> {
    /// The scheme's name.
    pub name: &'a str,
    /// Its leaves.
    pub years: &'a [LeafFigures],
    /// Between what each leaf's crop lies, t/ha, once that is known.
    pub ranges: Option<&'a [(f64, f64)]>,
    /// Shares of light that each leaf's wall catches and that reach its renewal zone, once that is known.
    pub light: Option<&'a [(f64, f64)]>,
}

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

/// One of a pair.
type OfPair = fn(&(f64, f64)) -> f64;

/// A figure of light: the name of its text, and which of a leaf's two shares it is.
const LIGHT: [(&str, OfPair); 2] = [
    ("chart-caught", |pair| pair.0 * 100.0),
    ("chart-zone", |pair| pair.1 * 100.0),
];

/// A figure under each scheme, leaf by leaf, with the range where it has one.
struct Lines<'a> {
    key: &'static str,
    places: usize,
    values: Vec<Vec<f64>>,
    ranges: Vec<&'a [(f64, f64)]>,
}

/// Figures that a leaf without a crop does not have.
const OF_CROP: [&str; 3] = ["chart-crop", "chart-leaf-fruit", "chart-fruit"];

/// Whether a leaf's crop is told as one.
fn bears(year: &LeafFigures) -> bool {
    is_a_crop(year.crop_t_per_ha)
}

/// A figure of a leaf in words: what no crop has is none.
fn worded(key: &str, places: usize, value: f64, year: &LeafFigures, words: &Words) -> String {
    match OF_CROP.contains(&key) && !bears(year) {
        true => words.plain("chart-no-crop"),
        false => words.arg(&Arg::Number(value, places)),
    }
}

/// The figures of one leaf: the name of each with its unit, and its value.
pub fn leaf_figures(year: &LeafFigures, words: &Words) -> Vec<(String, String)> {
    // What the row's own figures tell at a moment is left to them.
    let own = FIGURES[2..].iter();
    own.map(|(key, places, of)| {
        let value = worded(key, *places, of(year), year, words);
        (words.plain(key), value)
    })
    .collect()
}

/// The charts of one scheme, or of two; those of light once that of all is known.
pub fn charts(series: &[Series<'_>], words: &Words) -> Vec<Chart> {
    let leaves = leaves_of(series);
    let mut out: Vec<Chart> = lines(series)
        .into_iter()
        .map(|lines| Chart {
            title: words.plain(lines.key),
            drawing: drawing(series, &leaves, &lines, words).to_string(),
            table: table(series, &leaves, &lines, words),
        })
        .collect();
    // Ages after the age of the oldest.
    let at = FIGURES.len().min(out.len());
    out.insert(at, ages(series, &leaves, words));
    out
}

/// Some of the charts, as elements with their titles.
pub(crate) fn elements(
    series: &[Series<'_>],
    keys: &[&str],
    words: &Words,
) -> Vec<(String, Element)> {
    let leaves = leaves_of(series);
    let wanted = lines(series).into_iter().filter(|l| keys.contains(&l.key));
    wanted
        .map(|l| (words.plain(l.key), drawing(series, &leaves, &l, words)))
        .collect()
}

fn leaves_of(series: &[Series<'_>]) -> Vec<String> {
    let first = series.first().map_or(&[][..], |s| s.years);
    first.iter().map(|y| y.leaf.to_string()).collect()
}

fn lines<'a>(series: &[Series<'a>]) -> Vec<Lines<'a>> {
    let of_growth = FIGURES.into_iter().map(|(key, places, of)| Lines {
        key,
        places,
        values: series
            .iter()
            .map(|s| s.years.iter().map(of).collect())
            .collect(),
        ranges: match key {
            "chart-crop" => series
                .iter()
                .map(|s| s.ranges.unwrap_or_default())
                .collect(),
            _ => Vec::new(),
        },
    });
    let lit: Option<Vec<&[(f64, f64)]>> = series.iter().map(|s| s.light).collect();
    let of_light = lit.into_iter().flat_map(|lit| {
        LIGHT.map(|(key, of)| Lines {
            key,
            places: 0,
            values: lit.iter().map(|l| l.iter().map(of).collect()).collect(),
            ranges: Vec::new(),
        })
    });
    of_growth.chain(of_light).collect()
}

fn table(
    series: &[Series<'_>],
    leaves: &[String],
    lines: &Lines<'_>,
    words: &Words,
) -> Vec<Vec<String>> {
    let row = |key: &str, of: usize, cells: Vec<String>| {
        let name = words.plain(key);
        let name = match series.len() {
            0 | 1 => name,
            _ if key == lines.key => series[of].name.to_string(),
            _ => format!("{}: {name}", series[of].name),
        };
        [vec![name], cells].concat()
    };
    let told = |key: &str, of: usize, values: &[f64]| -> Vec<String> {
        let each = values.iter().zip(series[of].years);
        each.map(|(v, year)| worded(key, lines.places, *v, year, words))
            .collect()
    };
    let mut out = vec![[vec![words.plain("chart-leaf")], leaves.to_vec()].concat()];
    for (of, values) in lines.values.iter().enumerate() {
        out.push(row(lines.key, of, told(lines.key, of, values)));
        if let Some(ranges) = lines.ranges.get(of).filter(|r| !r.is_empty()) {
            let (low, high): (Vec<f64>, Vec<f64>) = ranges.iter().copied().unzip();
            out.push(row("chart-low", of, told("chart-low", of, &low)));
            out.push(row("chart-high", of, told("chart-high", of, &high)));
        }
    }
    out
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

/// Axes with nothing on them yet.
struct Axes {
    svg: Element,
    /// The value at the upper line, and the heights of both ends, pixels.
    full: f64,
    top: f64,
    each: f64,
}

impl Axes {
    fn new(
        title: &str,
        leaves: &[String],
        most: f64,
        series: &[Series<'_>],
        words: &Words,
    ) -> Self {
        let frame = format!("0 0 {} {}", num(WIDE), num(HIGH));
        let told = [
            ("class", "chart"),
            ("viewBox", &frame),
            ("role", "img"),
            ("aria-label", title),
        ];
        let step = step(most);
        let lines = (most / step).ceil().max(1.0);
        let mut out = Self {
            svg: el("svg", &told),
            full: step * lines,
            top: ABOVE + if series.len() > 1 { NAMES } else { 0.0 },
            each: (WIDE - LEFT) / leaves.len().max(1) as f64,
        };
        let mut grid = Pen::default();
        for line in 0..=lines as usize {
            let value = step * line as f64;
            let y = out.y(value);
            grid.line(Point::new(LEFT, y), Point::new(WIDE, y));
            let value = words.arg(&Arg::Number(value, usize::from(step < 1.0)));
            out.label("value", LEFT - 6.0, y + 4.0, &value);
        }
        add(&mut out.svg, path("grid", &grid));
        for (at, leaf) in leaves.iter().enumerate() {
            out.label("leaf", out.x(at), HIGH - 6.0, leaf);
        }
        if series.len() > 1 {
            let half = (WIDE - LEFT) / 2.0;
            for (of, one) in series.iter().enumerate() {
                let x = LEFT + half * of as f64;
                let mut line = Pen::default();
                line.line(Point::new(x, ABOVE), Point::new(x + 24.0, ABOVE));
                add(&mut out.svg, path(&class("course", of), &line));
                let mut mark = Pen::default();
                sign(&mut mark, of, Point::new(x + 12.0, ABOVE));
                add(&mut out.svg, path(&class("marks", of), &mark));
                let name: String = one.name.chars().take(26).collect();
                out.label("name", x + 30.0, ABOVE + 4.0, &name);
            }
        }
        out
    }

    fn y(&self, value: f64) -> f64 {
        let foot = HIGH - BELOW;
        foot - value / self.full * (foot - self.top)
    }

    fn x(&self, at: usize) -> f64 {
        LEFT + self.each * (at as f64 + 0.5)
    }

    fn label(&mut self, class: &str, x: f64, y: f64, content: &str) {
        let place = [("class", class), ("x", &num(x)), ("y", &num(y))];
        self.svg.append(text("text", &place, content));
    }
}

/// The class of what belongs to the first scheme, or to the other.
fn class(name: &str, of: usize) -> String {
    match of {
        0 => name.to_string(),
        _ => format!("{name} other"),
    }
}

/// A square for the first scheme, a larger diamond for the other.
fn sign(pen: &mut Pen, of: usize, at: Point) {
    if of == 0 {
        pen.rect(at.x - MARK, at.y - MARK, at.x + MARK, at.y + MARK);
        return;
    }
    let r = MARK * 1.6;
    pen.move_to(Point::new(at.x - r, at.y))
        .line_to(Point::new(at.x, at.y - r))
        .line_to(Point::new(at.x + r, at.y))
        .line_to(Point::new(at.x, at.y + r))
        .close();
}

fn drawing(series: &[Series<'_>], leaves: &[String], lines: &Lines<'_>, words: &Words) -> Element {
    let ends = lines.ranges.iter().flat_map(|r| r.iter().map(|r| r.1));
    let most = lines.values.iter().flatten().copied().chain(ends);
    let most = most.fold(0.0, f64::max);
    let mut axes = Axes::new(&words.plain(lines.key), leaves, most, series, words);
    // The first lies over the other.
    for (of, values) in lines.values.iter().enumerate().rev() {
        let aside = match series.len() {
            0 | 1 => 0.0,
            _ => APART * (of as f64 - 0.5),
        };
        // From end to end, with a stroke across at either.
        let mut spans = Pen::default();
        for (at, (low, high)) in lines
            .ranges
            .get(of)
            .copied()
            .unwrap_or_default()
            .iter()
            .enumerate()
        {
            let x = axes.x(at) + aside;
            spans.line(Point::new(x, axes.y(*low)), Point::new(x, axes.y(*high)));
            for end in [*low, *high] {
                spans.line(
                    Point::new(x - 4.0, axes.y(end)),
                    Point::new(x + 4.0, axes.y(end)),
                );
            }
        }
        add(&mut axes.svg, path(&class("range", of), &spans));
        let (mut course, mut marks) = (Pen::default(), Pen::default());
        let mut begun = false;
        for (at, (value, year)) in values.iter().zip(series[of].years).enumerate() {
            if OF_CROP.contains(&lines.key) && !bears(year) {
                begun = false;
                continue;
            }
            let here = Point::new(axes.x(at) + aside, axes.y(*value));
            match begun {
                false => course.move_to(here),
                true => course.line_to(here),
            };
            begun = true;
            sign(&mut marks, of, here);
        }
        add(&mut axes.svg, path(&class("course", of), &course));
        add(&mut axes.svg, path(&class("marks", of), &marks));
    }
    if OF_CROP.contains(&lines.key) {
        // Where none of them bears that is said, once for leaves that follow each other.
        let none = |at: usize| {
            let mut own = series.iter().filter_map(|s| s.years.get(at));
            at < leaves.len() && own.all(|year| !bears(year))
        };
        let mut at = 0;
        while at < leaves.len() {
            let after = (at..).find(|i| !none(*i)).unwrap_or(at);
            if after > at {
                let x = (axes.x(at) + axes.x(after - 1)) / 2.0;
                let y = HIGH - BELOW - 5.0;
                axes.label("leaf", x, y, &words.plain("chart-no-crop"));
            }
            at = after + 1;
        }
    }
    axes.svg
}

/// How many uprights there are of each age before each leaf, one on another: the youngest at the foot, each with its age in it,
/// the older the darker.
fn ages(series: &[Series<'_>], leaves: &[String], words: &Words) -> Chart {
    let title = words.plain("chart-ages");
    let all = || series.iter().flat_map(|s| s.years);
    let most = all().map(|y| y.ages.iter().sum::<u32>()).max().unwrap_or(0);
    let mut axes = Axes::new(&title, leaves, most.into(), series, words);
    let wide = axes.each * 0.8 / series.len().max(1) as f64;
    let age = |i: usize| match i + 1 {
        AGES => format!("{AGES}+"),
        age => age.to_string(),
    };
    for (of, one) in series.iter().enumerate() {
        for (at, year) in one.years.iter().enumerate() {
            let left = axes.x(at) - axes.each * 0.4 + wide * of as f64;
            let mut under = 0;
            for (i, count) in year.ages.iter().enumerate().filter(|(_, c)| **c > 0) {
                let (foot, top) = (axes.y(under.into()), axes.y((under + count).into()));
                under += count;
                let mut pen = Pen::default();
                pen.rect(left, top, left + wide, foot);
                if let Some(mut part) = path(&class("age", of), &pen) {
                    part.assign("fill-opacity", format!("{:.2}", 0.04 + 0.055 * i as f64));
                    axes.svg.append(part);
                }
                if foot - top > 11.0 {
                    let y = (foot + top) / 2.0 + 4.0;
                    axes.label("leaf", left + wide / 2.0, y, &age(i));
                }
            }
        }
    }
    let seen = (0..AGES).filter(|i| all().any(|y| y.ages[*i] > 0));
    let mut table = vec![[vec![words.plain("chart-leaf")], leaves.to_vec()].concat()];
    for i in seen {
        for one in series {
            let name = words.text("chart-age", &[("age", Arg::Text(age(i)))]);
            let name = match series.len() {
                1 => name,
                _ => format!("{}: {name}", one.name),
            };
            let counts = one.years.iter().map(|y| y.ages[i].to_string());
            table.push([name].into_iter().chain(counts).collect());
        }
    }
    Chart {
        title,
        drawing: axes.svg.to_string(),
        table,
    }
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
