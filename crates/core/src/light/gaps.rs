//! Light gaps: see-through stretches of the wall, ranked by what they lose.

use crate::arrange::Arrange;
use core::ops::Range;
use serde::{Deserialize, Serialize};

use super::Sampling;
use super::sky::{Period, Site, Sky, Weather, period_light};
use super::state::{LightState, Settings};
use super::sun::ClearDay;
use super::trace::SET;
use super::wall::Wall;

/// What counts as a gap. The defaults are our own choice, not published: wider than the common spacing of uprights,
/// and so thin in leaf that one looks through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GapRule {
    /// Lowest height looked at, m.
    pub from: f64,
    /// Greatest height looked at, m.
    pub to: f64,
    /// Least width along the row, m.
    pub least_width: f64,
    /// Least area, m².
    pub least_area: f64,
    /// A cell is see-through below this share of the mean density of the cells that hold leaves, 0–1.
    pub open_below: f64,
}

impl GapRule {
    /// The usual rule between two heights, m.
    pub fn between(from: f64, to: f64) -> Self {
        Self {
            from,
            to,
            least_width: 0.30,
            least_area: 0.05,
            open_below: 0.25,
        }
    }
}

/// A see-through stretch of the wall.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct LightGap {
    /// Start along the row, m.
    pub x0: f64,
    /// End along the row, m.
    pub x1: f64,
    /// Lowest edge, m.
    pub z0: f64,
    /// Highest edge, m.
    pub z1: f64,
    /// Its area, m²; less than the box around it where its outline is ragged.
    pub area: f64,
    /// Share of the period's light that the wall would catch beyond what it does, were this stretch as leafy as the
    /// rest of its levels; 0–1.
    pub loss: f64,
}

/// A stretch of open cells of one level.
struct Run {
    level: usize,
    columns: Range<usize>,
    gap: usize,
}

/// The see-through stretches of a wall, greatest loss first (then from the row's start). The loss is worked out with
/// the light of `period`: the same wall filled, less the wall as it is. In columns of 2.5 cm it lies within 3 % of a dense
/// integration over leaves that know no grid (tests/tests/light_losses.rs). A wall without any leaf has no gaps. A stretch across the joint of a repeated wall counts as two.
pub fn light_gaps(
    wall: &Wall,
    site: Site,
    period: Period,
    weather: Weather,
    rule: &GapRule,
) -> Vec<LightGap> {
    let (runs, gaps) = find(wall, rule);
    if gaps == 0 {
        return Vec::new();
    }
    let fill = filling(wall, &runs);
    // A difference of two walls: few directions do, but each has to tell the opening's edges.
    let sampling = Sampling {
        level_parts: 4,
        ..SET.fit(wall)
    };
    let settings = Settings {
        sampling,
        ..Settings::dragging(None)
    };
    let mut state = LightState::new(wall.clone(), &settings);
    let light = period_light(
        state.directions(),
        site,
        period,
        ClearDay::default(),
        Sky::StandardOvercast,
    )
    .under(weather);
    let mut out = Vec::new();
    let mut by_gap: Vec<Vec<&Run>> = vec![Vec::new(); gaps];
    for run in &runs {
        by_gap[run.gap].push(run);
    }
    for own in by_gap {
        let start = own.iter().map(|r| r.columns.start).min().unwrap_or(0);
        let end = own.iter().map(|r| r.columns.end).max().unwrap_or(0);
        let low = own.iter().map(|r| r.level).min().unwrap_or(0);
        let high = own.iter().map(|r| r.level).max().unwrap_or(0);
        let height = |l: usize| wall.z()[l + 1] - wall.z()[l];
        let area: f64 = own
            .iter()
            .map(|r| r.columns.len() as f64 * wall.dx() * height(r.level))
            .sum();
        if area < rule.least_area {
            continue;
        }
        // With the columns at its edges, which may be open in part.
        let wider = start.saturating_sub(1)..(end + 1).min(wall.columns());
        let width = wider.len();
        let mut filled: Vec<f32> = (0..wall.levels())
            .flat_map(|l| wall.level(l)[wider.clone()].to_vec())
            .collect();
        for run in &own {
            let found = wall.level(run.level);
            let level = &mut filled[run.level * width..(run.level + 1) * width];
            for c in run.columns.clone() {
                let cell = &mut level[c - wider.start];
                *cell = cell.max(fill[run.level]);
            }
            // A column at an edge is open by what it lacks beside the next one out.
            let (first, last) = (run.columns.start, run.columns.end);
            let edges = [
                (first.checked_sub(1), first.checked_sub(2)),
                (Some(last), Some(last + 1)),
            ];
            for (edge, beyond) in edges {
                let at = |c: Option<usize>| c.and_then(|c| found.get(c)).copied();
                if let (Some(edge), Some(own), Some(next)) = (edge, at(edge), at(beyond))
                    && own < next
                {
                    level[edge - wider.start] += (1.0 - own / next) * fill[run.level];
                }
            }
        }
        let loss = state.trial_gain(wider, &filled, &light.total).max(0.0);
        out.push(LightGap {
            x0: wall.x0() + start as f64 * wall.dx(),
            x1: wall.x0() + end as f64 * wall.dx(),
            z0: wall.z()[low],
            z1: wall.z()[high + 1],
            area,
            loss,
        });
    }
    out.arrange_by(|a, b| {
        b.loss
            .total_cmp(&a.loss)
            .then(a.x0.total_cmp(&b.x0))
            .then(a.z0.total_cmp(&b.z0))
    });
    out
}

/// Wide enough runs of open cells, those that touch from level to level numbered as one gap; and how many gaps.
fn find(wall: &Wall, rule: &GapRule) -> (Vec<Run>, usize) {
    let levels: Vec<usize> = (0..wall.levels())
        .filter(|l| (rule.from..rule.to).contains(&wall.level_centre(*l)))
        .collect();
    let leafy = || {
        levels
            .iter()
            .flat_map(|l| wall.level(*l))
            .filter(|d| **d > 0.0)
    };
    let count = leafy().count();
    if count == 0 {
        return (Vec::new(), 0);
    }
    let mean = leafy().map(|d| f64::from(*d)).sum::<f64>() / count as f64;
    let limit = (mean * rule.open_below) as f32;
    let least = libm::ceil(rule.least_width / wall.dx() - 1e-9).max(1.0) as usize;
    let mut runs: Vec<Run> = Vec::new();
    for level in levels {
        let row = wall.level(level);
        let mut from = 0;
        while from < row.len() {
            let open = row[from..].iter().take_while(|d| **d < limit).count();
            if open >= least {
                let gap = runs.len();
                runs.push(Run {
                    level,
                    columns: from..from + open,
                    gap,
                });
            }
            from += open + 1;
        }
    }
    // Each level's runs against those of the level below it, both from the row's start.
    let mut heads: Vec<usize> = (0..runs.len()).collect();
    let mut below = 0;
    for i in 0..runs.len() {
        let b = &runs[i];
        while below < i
            && (runs[below].level + 1 < b.level
                || (runs[below].level + 1 == b.level && runs[below].columns.end <= b.columns.start))
        {
            below += 1;
        }
        let touching = runs[below..i]
            .iter()
            .take_while(|a| a.level + 1 == b.level && a.columns.start < b.columns.end)
            .count();
        for j in below..below + touching {
            let (one, other) = (head(&mut heads, i), head(&mut heads, j));
            heads[one.max(other)] = one.min(other);
        }
    }
    for (i, run) in runs.iter_mut().enumerate() {
        run.gap = head(&mut heads, i);
    }
    let mut names: Vec<usize> = runs.iter().map(|r| r.gap).collect();
    names.arrange();
    names.dedup();
    for run in &mut runs {
        run.gap = names.partition_point(|n| *n < run.gap);
    }
    (runs, names.len())
}

/// The first of the runs that `run` was joined with.
fn head(heads: &mut [usize], run: usize) -> usize {
    let mut first = run;
    while heads[first] != first {
        heads[first] = heads[heads[first]];
        first = heads[first];
    }
    first
}

/// Density with which a gap is filled, level by level: the mean of the level's other cells, or of all other cells
/// where the level has none or only bare ones.
fn filling(wall: &Wall, runs: &[Run]) -> Vec<f32> {
    let (mut all, mut all_count) = (0.0, 0usize);
    let mut fill: Vec<Option<f32>> = Vec::new();
    let mut open = vec![false; wall.columns()];
    for level in 0..wall.levels() {
        let (mut sum, mut count) = (0.0, 0usize);
        open.fill(false);
        for run in runs.iter().filter(|r| r.level == level) {
            // What is open in part at its edges is no measure either.
            let edges =
                run.columns.start.saturating_sub(1)..(run.columns.end + 1).min(wall.columns());
            open[edges].fill(true);
        }
        for (c, d) in wall.level(level).iter().enumerate() {
            if !open[c] {
                sum += f64::from(*d);
                count += 1;
            }
        }
        fill.push((sum > 0.0).then(|| (sum / count as f64) as f32));
        if sum > 0.0 {
            all += sum;
            all_count += count;
        }
    }
    let mean = if all_count > 0 {
        (all / all_count as f64) as f32
    } else {
        0.0
    };
    fill.into_iter().map(|f| f.unwrap_or(mean)).collect()
}
