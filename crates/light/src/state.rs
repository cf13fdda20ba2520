//! Light over a whole row, kept so that an edit works out anew only what it can reach.

use core::ops::Range;

use crate::direction::{Direction, DirectionSet, Fineness};
use crate::kernel::{CHUNK, Lanes, Windows, ground, over_rays};
use crate::plan::{MapPlan, MapRow, RayPlan, Sampling};
use crate::reach::{BLOCK, Reached, reach};
use crate::trace::{QUICK, SET};
use crate::wall::{Ends, Wall};

/// What a [`LightState`] works out.
#[derive(Debug, Clone, PartialEq)]
pub struct Settings {
    /// How many directions. [`Fineness`] names the usual counts.
    pub fineness: Fineness,
    /// How finely the ground is sampled in each of them.
    pub sampling: Sampling,
    /// Columns whose cells get a light map; none leaves the map out.
    pub view: Option<Range<usize>>,
    /// A band of heights, m, whose light over the whole thickness is worked out in the same columns.
    pub band: Option<(f64, f64)>,
    /// Places through the thickness at which the band's light is worked out, 1–64 (Gauss–Legendre).
    pub across: usize,
}

impl Settings {
    /// At rest, after a gesture ends: everything reported comes from these settings.
    pub fn settled(wall: &Wall, view: Option<Range<usize>>) -> Self {
        Self {
            fineness: Fineness::Settled,
            sampling: SET.fit(wall),
            view,
            band: None,
            across: 4,
        }
    }
    /// While a hand drags: fewer directions, each sampled less finely.
    pub fn dragging(view: Option<Range<usize>>) -> Self {
        Self {
            fineness: Fineness::Dragging,
            sampling: QUICK,
            view,
            band: None,
            across: 2,
        }
    }

    /// The same, and the light over the whole thickness between two heights, m, with it.
    pub fn with_band(self, band: (f64, f64)) -> Self {
        Self {
            band: Some(band),
            ..self
        }
    }
}

/// Weights laid on a direction set: how much of the light in question comes from each direction. They sum to 1
/// (light on level ground); a night has none and sums to 0.
#[derive(Debug, Clone, PartialEq)]
pub struct Weights(pub(crate) Vec<f64>);

impl Weights {
    /// All light from the one direction of [`DirectionSet::single`].
    pub fn one() -> Self {
        Self(vec![1.0])
    }
    /// No light from any of so many directions.
    pub fn none(directions: usize) -> Self {
        Self(vec![0.0; directions])
    }

    /// One weight for each direction of the set.
    pub fn values(&self) -> &[f64] {
        &self.0
    }
}

/// Light let through by a wall, direction by direction.
#[derive(Debug, Clone)]
pub struct LightState {
    wall: Wall,
    set: DirectionSet,
    plans: Vec<RayPlan>,
    windows: Windows,
    view: Range<usize>,
    /// Rows of the map: one a level on the middle plane, then those of the band.
    rows: Vec<MapRow>,
    /// Share of the band's height that each of its rows stands for.
    band: Vec<f32>,
    /// Direction by direction: share that reaches the ground under each column.
    ground: Vec<f32>,
    /// Direction by direction: the sum over each block of columns of what reaches the ground.
    blocks: Vec<f64>,
    /// Chunks of columns worked out so far, over all directions.
    worked: u64,
    /// Direction by direction, row by row: share seen at each cell in view.
    cells: Vec<f32>,
    scratch: Scratch,
}

#[derive(Debug, Clone, Default)]
struct Scratch {
    means: Vec<Lanes>,
    rows: Vec<f32>,
}

impl LightState {
    /// Works out everything for a wall. A view beyond the wall is cut to it.
    pub fn new(wall: Wall, settings: &Settings) -> Self {
        Self::over(DirectionSet::new(settings.fineness), wall, settings)
    }

    /// The same in one direction alone, as of an hour's sun: [`Weights::one`] goes with it.
    pub fn in_direction(wall: Wall, direction: Direction, settings: &Settings) -> Self {
        Self::over(DirectionSet::single(direction), wall, settings)
    }

    fn over(set: DirectionSet, wall: Wall, settings: &Settings) -> Self {
        let view = settings.view.clone().unwrap_or(0..0);
        let view = view.start.min(wall.columns())..view.end.min(wall.columns());
        let (rows, band) = map_rows(&wall, settings);
        let plans: Vec<RayPlan> = (0..set.len())
            .map(|d| RayPlan::new(&wall, set.get(d), settings.sampling, 0.5, &rows))
            .collect();
        let windows = Windows::new(&wall, plans.iter());
        let mut state = Self {
            ground: vec![0.0; set.len() * wall.columns()],
            blocks: vec![0.0; set.len() * wall.columns().div_ceil(BLOCK)],
            worked: 0,
            cells: Vec::new(),
            scratch: Scratch {
                means: vec![[0.0; CHUNK]; wall.levels() * settings.sampling.level_parts.max(1)],
                rows: Vec::new(),
            },
            wall,
            set,
            plans,
            windows,
            view,
            rows,
            band,
        };
        state.cells = vec![0.0; state.set.len() * state.rows.len() * state.view.len()];
        state.work_out(None, true);
        state
    }

    /// The wall as it stands.
    pub fn wall(&self) -> &Wall {
        &self.wall
    }
    /// The directions on which weights are laid.
    pub fn directions(&self) -> &DirectionSet {
        &self.set
    }
    /// Columns that the light map covers.
    pub fn view(&self) -> Range<usize> {
        self.view.clone()
    }

    /// Moves the map to other columns; the ground stays as it is.
    pub fn set_view(&mut self, view: Range<usize>) {
        self.view = view.start.min(self.wall.columns())..view.end.min(self.wall.columns());
        self.cells = vec![0.0; self.set.len() * self.rows.len() * self.view.len()];
        self.work_out(None, false);
    }

    /// Gives some columns other leaves and works out anew what those can reach. `density` runs level by level from the
    /// lowest, each level over `columns`, in m² m⁻³. Cells it has no value for stay as they are.
    pub fn edit(&mut self, columns: Range<usize>, density: &[f32]) {
        self.edit_each(&[(columns, density)]);
    }

    /// The same of several parts from left to right. The two at the ends of a repeated wall are worked out as the one that
    /// they are.
    pub fn edit_each(&mut self, parts: &[(Range<usize>, &[f32])]) {
        let n = self.wall.columns();
        let mut edited: Vec<Range<usize>> = Vec::new();
        for (columns, density) in parts {
            let columns = columns.start.min(n)..columns.end.min(n);
            if !columns.is_empty() {
                self.lay(&columns, density);
                edited.push(columns);
            }
        }
        if let [first, .., last] = &mut edited[..]
            && self.wall.ends() == Ends::Repeated
            && (first.start, last.end) == (0, n)
        {
            last.end += first.end;
            edited.remove(0);
        }
        for columns in edited {
            self.work_out(Some(columns), true);
        }
    }

    /// Takes leaves without working out what they do.
    fn lay(&mut self, columns: &Range<usize>, density: &[f32]) {
        for (i, d) in density
            .iter()
            .enumerate()
            .take(columns.len() * self.wall.levels())
        {
            self.wall
                .set(i / columns.len(), columns.start + i % columns.len(), *d);
        }
        self.windows.refresh(&self.wall, columns.clone());
    }

    /// How much more of the light so weighted is caught after an edit than before it; may be below 0. Only the columns that
    /// the edit reaches are added up, so that an edit on a long row costs no more than on a short one.
    pub fn edit_gain(&mut self, columns: Range<usize>, density: &[f32], weights: &Weights) -> f64 {
        let reached: Vec<Reached> = self
            .plans
            .iter()
            .map(|plan| Reached::new(&self.wall, plan, Some(columns.clone())))
            .collect();
        let through = |state: &Self| -> Vec<f64> {
            (0..state.set.len())
                .map(|d| reached[d].sum(state.ground(d)))
                .collect()
        };
        let before = through(self);
        self.edit(columns, density);
        let after = through(self);
        let gain: f64 = (0..self.set.len())
            .map(|d| weights.0[d] * (before[d] - after[d]))
            .sum();
        gain / self.wall.columns() as f64
    }

    /// The same of an edit that is only tried: the state is then as it was. Of a state without a map.
    pub fn trial_gain(&mut self, columns: Range<usize>, density: &[f32], weights: &Weights) -> f64 {
        debug_assert!(self.view.is_empty(), "a map is not put back");
        let found: Vec<f32> = (0..self.wall.levels())
            .flat_map(|level| self.wall.level(level)[columns.clone()].to_vec())
            .collect();
        let reached = self.reach(&columns);
        let of_reached = |state: &Self| -> Vec<f32> {
            (0..state.set.len())
                .flat_map(|d| {
                    reached
                        .iter()
                        .map(move |part| &state.ground(d)[part.clone()])
                })
                .flatten()
                .copied()
                .collect()
        };
        let before = of_reached(self);
        let gain = self.edit_gain(columns.clone(), density, weights);
        self.lay(&columns, &found);
        let n = self.wall.columns();
        let mut rest = &before[..];
        for d in 0..self.set.len() {
            for part in &reached {
                let (own, others) = rest.split_at(part.len());
                self.ground[d * n + part.start..d * n + part.end].copy_from_slice(own);
                rest = others;
            }
        }
        for (d, plan) in self.plans.iter().enumerate() {
            let count = n.div_ceil(BLOCK);
            let sums = &mut self.blocks[d * count..(d + 1) * count];
            let reached = Reached::new(&self.wall, plan, Some(columns.clone()));
            reached.add_up(&self.ground[d * n..(d + 1) * n], sums);
        }
        gain
    }

    /// The same wall with other leaves at once, shape and grid unchanged.
    pub fn refill(&mut self, density: &[f32]) {
        self.edit(0..self.wall.columns(), density);
    }

    /// Share let through to the ground under each column, in one direction of the set.
    pub fn ground(&self, direction: usize) -> &[f32] {
        let n = self.wall.columns();
        &self.ground[direction * n..(direction + 1) * n]
    }

    /// Share seen at each cell in view, in one direction of the set: level by level from the lowest.
    pub fn cells(&self, direction: usize) -> &[f32] {
        self.map_of(direction).0
    }

    /// The cells of one direction, those of the levels and those of the band.
    fn map_of(&self, direction: usize) -> (&[f32], &[f32]) {
        let n = self.rows.len() * self.view.len();
        self.cells[direction * n..(direction + 1) * n]
            .split_at(self.wall.levels() * self.view.len())
    }

    /// How much has been worked out so far: chunks of 16 columns, over all directions. What an edit adds to it is what that
    /// edit costs.
    pub fn worked(&self) -> u64 {
        self.worked
    }

    /// Columns whose ground an edit of some columns reaches from any direction, from left to right.
    pub fn reach(&self, columns: &Range<usize>) -> Vec<Range<usize>> {
        reach(&self.wall, &self.plans, columns)
    }

    /// Share caught of the light so weighted, 0–1.
    pub fn caught(&self, weights: &Weights) -> f64 {
        let [caught] = self.caught_each([weights]);
        caught
    }

    /// Shares caught of several lights, in one walk over the directions.
    pub fn caught_each<const N: usize>(&self, weights: [&Weights; N]) -> [f64; N] {
        let mut caught = [0.0; N];
        let n = self.wall.columns();
        for (d, blocks) in self.blocks.chunks_exact(n.div_ceil(BLOCK)).enumerate() {
            let through: f64 = blocks.iter().sum();
            let kept = 1.0 - (through / n as f64).clamp(0.0, 1.0);
            for (sum, w) in caught.iter_mut().zip(&weights) {
                *sum += w.0[d] * kept;
            }
        }
        caught.map(|c| c.clamp(0.0, 1.0))
    }

    /// Share of the light so weighted that reaches the ground under each column, 0–1.
    pub fn fall_through(&self, weights: &Weights) -> Vec<f32> {
        self.fall_through_under(weights, 0..self.wall.columns())
    }

    /// The same under some columns.
    pub fn fall_through_under(&self, weights: &Weights, columns: Range<usize>) -> Vec<f32> {
        let mut sum = vec![0.0; columns.len()];
        for (d, w) in weights.0.iter().enumerate() {
            add(&mut sum, *w as f32, &self.ground(d)[columns.clone()]);
        }
        clamp_all(sum)
    }

    /// Light on the wall's middle plane in each cell in view, as a share of the light above it on level ground, 0–1:
    /// level by level from the lowest.
    pub fn light_map(&self, weights: &Weights) -> Vec<f32> {
        let mut sum = vec![0.0; self.wall.levels() * self.view.len()];
        for (d, w) in weights.0.iter().enumerate() {
            add(&mut sum, *w as f32, self.cells(d));
        }
        clamp_all(sum)
    }

    /// Light in the band over the wall's whole thickness, in each column in view, as a share of the light above it on level
    /// ground, 0–1. Empty without a band, or where it misses the leaves' heights.
    pub fn band_light(&self, weights: &Weights) -> Vec<f32> {
        if self.band.is_empty() {
            return Vec::new();
        }
        let width = self.view.len();
        let mut sum = vec![0.0; width];
        for (d, w) in weights.0.iter().enumerate() {
            let (_, cells) = self.map_of(d);
            for (row, share) in self.band.iter().enumerate() {
                add(
                    &mut sum,
                    *w as f32 * share,
                    &cells[row * width..(row + 1) * width],
                );
            }
        }
        clamp_all(sum)
    }

    /// Works out the sheared columns that `edited` reaches (all without it).
    fn work_out(&mut self, edited: Option<Range<usize>>, with_ground: bool) {
        let (n, rows, view) = (self.wall.columns(), self.rows.len(), self.view.clone());
        for (d, plan) in self.plans.iter().enumerate() {
            let reached = Reached::new(&self.wall, plan, edited.clone());
            let ground_row = &mut self.ground[d * n..(d + 1) * n];
            let cells = &mut self.cells[d * rows * view.len()..(d + 1) * rows * view.len()];
            let spans: Vec<Range<i32>> = self
                .rows
                .iter()
                .map(|row| reached.cells(&self.wall, self.set.get(d), row.level, &view))
                .collect();
            let context = Work {
                wall: &self.wall,
                plan,
                windows: &self.windows,
                scratch: &mut self.scratch,
            };
            self.worked += context.run(
                with_ground.then_some((&reached, ground_row)),
                &spans,
                cells,
                &view,
            );
            if with_ground {
                let count = n.div_ceil(BLOCK);
                let sums = &mut self.blocks[d * count..(d + 1) * count];
                reached.add_up(&self.ground[d * n..(d + 1) * n], sums);
            }
        }
    }
}

/// The rows of the map, and the share of the band's height that each of those in it stands for.
fn map_rows(wall: &Wall, settings: &Settings) -> (Vec<MapRow>, Vec<f32>) {
    let middle = |level: usize| MapRow {
        level,
        z: wall.level_centre(level),
        across: 1,
    };
    let mut rows: Vec<MapRow> = (0..wall.levels()).map(middle).collect();
    let mut band: Vec<f32> = Vec::new();
    if let Some((low, high)) = settings.band {
        for (level, edges) in wall.z().windows(2).enumerate() {
            let (from, to) = (low.max(edges[0]), high.min(edges[1]));
            if to - from > 1e-9 {
                rows.push(MapRow {
                    level,
                    z: 0.5 * (from + to),
                    across: settings.across,
                });
                band.push((to - from) as f32);
            }
        }
    }
    let height: f32 = band.iter().sum();
    for part in &mut band {
        *part /= height;
    }
    (rows, band)
}

fn add(sum: &mut [f32], weight: f32, values: &[f32]) {
    for (s, v) in sum.iter_mut().zip(values) {
        *s += weight * v;
    }
}

fn clamp_all(mut values: Vec<f32>) -> Vec<f32> {
    for v in &mut values {
        *v = v.clamp(0.0, 1.0);
    }
    values
}

struct Work<'a> {
    wall: &'a Wall,
    plan: &'a RayPlan,
    windows: &'a Windows,
    scratch: &'a mut Scratch,
}

impl Work<'_> {
    fn run(
        self,
        ground_out: Option<(&Reached, &mut [f32])>,
        spans: &[Range<i32>],
        cells: &mut [f32],
        view: &Range<usize>,
    ) -> u64 {
        let n = self.wall.columns() as i32;
        let repeated = self.wall.ends() == Ends::Repeated;
        // Sheared columns wanted by each map level: those of its cells and one more.
        let wanted: Vec<Range<i32>> = spans
            .iter()
            .zip(&self.plan.map)
            .map(|(s, m)| {
                if s.is_empty() {
                    0..0
                } else {
                    s.start + m.shift..s.end + m.shift + 1
                }
            })
            .collect();
        let (mut low, mut high) = (i32::MAX, i32::MIN);
        for w in wanted.iter().filter(|w| !w.is_empty()) {
            low = low.min(w.start);
            high = high.max(w.end);
        }
        let mut grounds = 0..0;
        let mut ground_row: &mut [f32] = &mut [];
        if let Some((reached, row)) = ground_out {
            grounds = if reached.all(n) {
                0..n
            } else {
                reached.columns.clone()
            };
            if !repeated {
                grounds = grounds.start.clamp(0, n)..grounds.end.clamp(0, n);
            } else if low < high && !grounds.is_empty() {
                // The period that lies nearest to what is mapped.
                let apart = (low + high) - (grounds.start + grounds.end);
                let periods = (apart + n).div_euclid(2 * n) * n;
                grounds = grounds.start + periods..grounds.end + periods;
            }
            if !grounds.is_empty() {
                low = low.min(grounds.start);
                high = high.max(grounds.end);
            }
            ground_row = row;
        }
        if low >= high {
            return 0;
        }
        // A repeated wall has no more sheared columns than its period: beyond that, go round once.
        let round = repeated && high - low >= n;
        if round {
            (low, high) = (0, n);
            if grounds.len() as i32 >= n {
                grounds = 0..n;
            }
        }
        let width = (high - low) as usize + CHUNK;
        let rows = &mut self.scratch.rows;
        if rows.len() < width * wanted.len() {
            rows.resize(width * wanted.len(), 0.0);
        }
        let touches = |range: &Range<i32>, start: i32| -> bool {
            let (from, to) = (start, start + CHUNK as i32);
            let len = range.len() as i32;
            if len <= 0 || !round {
                return len > 0 && range.start < to && from < range.end;
            }
            len + CHUNK as i32 > n
                || (from - range.start).rem_euclid(n) < len
                || (range.start - from).rem_euclid(n) < CHUNK as i32
        };
        let mut start = low;
        while start < high {
            let at = (start - low) as usize;
            let from = if repeated { start.rem_euclid(n) } else { start };
            self.windows.shear(self.plan, from, &mut self.scratch.means);
            if touches(&grounds, start) {
                let t = ground(self.plan, &self.scratch.means);
                for (i, t) in t.into_iter().enumerate() {
                    let j = start + i as i32;
                    if j >= high {
                        break;
                    }
                    if repeated {
                        ground_row[j.rem_euclid(n) as usize] = t;
                    } else if (0..n).contains(&j) {
                        ground_row[j as usize] = t;
                    }
                }
            }
            for (level, range) in wanted.iter().enumerate() {
                if touches(range, start) {
                    let rays = self.plan.map_rays(&self.plan.map[level]);
                    let t = over_rays(self.plan, rays, &self.scratch.means, 0.0);
                    rows[level * width + at..level * width + at + CHUNK].copy_from_slice(&t);
                }
            }
            start += CHUNK as i32;
        }
        for (level, span) in spans.iter().enumerate() {
            if span.is_empty() {
                continue;
            }
            let row = &mut rows[level * width..(level + 1) * width];
            if round {
                row[n as usize] = row[0];
            }
            let out = &mut cells[level * view.len()..(level + 1) * view.len()];
            let out = &mut out[(span.start - view.start as i32) as usize
                ..(span.end - view.start as i32) as usize];
            spread(
                out,
                row,
                &self.plan.map[level],
                span.start,
                low,
                round.then_some(n),
            );
        }
        (high - low) as u64 / CHUNK as u64 + 1
    }
}

/// Fills the cells from `first` on with the sheared columns to the left and right of them, in shares.
fn spread(out: &mut [f32], row: &[f32], map: &MapPlan, first: i32, low: i32, round: Option<i32>) {
    let start = first + map.shift - low;
    let blend = |out: &mut [f32], row: &[f32]| {
        let len = out.len();
        let (left, right) = (&row[..len], &row[1..len + 1]);
        for i in 0..len {
            out[i] = left[i] + map.next * (right[i] - left[i]);
        }
    };
    match round {
        None => blend(out, &row[start as usize..]),
        Some(n) => {
            let mut from = start.rem_euclid(n) as usize;
            let mut done = 0;
            while done < out.len() {
                let len = (out.len() - done).min(n as usize - from);
                blend(&mut out[done..done + len], &row[from..from + len + 1]);
                done += len;
                from = 0;
            }
        }
    }
}
