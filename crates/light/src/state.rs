//! Light over a whole row, kept so that an edit works out anew only what it can reach.

use core::ops::Range;

use crate::direction::{Direction, DirectionSet, Fineness};
use crate::kernel::{CHUNK, Lanes, Windows, ground, through};
use crate::plan::{MapLevel, RayPlan, Sampling};
use crate::trace::{QUICK, SET, mean};
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
}

impl Settings {
    /// At rest, after a gesture ends: everything reported comes from these settings.
    pub fn settled(wall: &Wall, view: Option<Range<usize>>) -> Self {
        Self {
            fineness: Fineness::Settled,
            sampling: SET.fit(wall),
            view,
        }
    }
    /// While a hand drags: fewer directions, each sampled less finely.
    pub fn dragging(view: Option<Range<usize>>) -> Self {
        Self {
            fineness: Fineness::Dragging,
            sampling: QUICK,
            view,
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
    /// Direction by direction: share that reaches the ground under each column.
    ground: Vec<f32>,
    /// Direction by direction, level by level: share seen at each cell in view.
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
        let plans: Vec<RayPlan> = (0..set.len())
            .map(|d| RayPlan::new(&wall, set.get(d), settings.sampling, 0.5, true))
            .collect();
        let windows = Windows::new(&wall, plans.iter());
        let mut state = Self {
            ground: vec![0.0; set.len() * wall.columns()],
            cells: Vec::new(),
            scratch: Scratch {
                means: vec![[0.0; CHUNK]; wall.levels() * settings.sampling.level_parts.max(1)],
                rows: Vec::new(),
            },
            wall,
            set,
            plans,
            windows,
            view: 0..0,
        };
        state.view = view;
        state.cells = vec![0.0; state.set.len() * state.wall.levels() * state.view.len()];
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
        self.cells = vec![0.0; self.set.len() * self.wall.levels() * self.view.len()];
        self.work_out(None, false);
    }

    /// Gives some columns other leaves and works out anew what those can reach. `density` runs level by level from the
    /// lowest, each level over `columns`, in m² m⁻³. Cells it has no value for stay as they are.
    pub fn edit(&mut self, columns: Range<usize>, density: &[f32]) {
        let columns = columns.start.min(self.wall.columns())..columns.end.min(self.wall.columns());
        if columns.is_empty() {
            return;
        }
        for (i, d) in density
            .iter()
            .enumerate()
            .take(columns.len() * self.wall.levels())
        {
            self.wall
                .set(i / columns.len(), columns.start + i % columns.len(), *d);
        }
        self.windows.refresh(&self.wall, columns.clone());
        self.work_out(Some(columns), true);
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
        let n = self.wall.levels() * self.view.len();
        &self.cells[direction * n..(direction + 1) * n]
    }

    /// Share caught of the light so weighted, 0–1.
    pub fn caught(&self, weights: &Weights) -> f64 {
        let [caught] = self.caught_each([weights]);
        caught
    }

    /// Shares caught of several lights, in one walk over the directions.
    pub fn caught_each<const N: usize>(&self, weights: [&Weights; N]) -> [f64; N] {
        let mut caught = [0.0; N];
        for d in 0..self.set.len() {
            let kept = 1.0 - mean(self.ground(d));
            for (sum, w) in caught.iter_mut().zip(&weights) {
                *sum += w.0[d] * kept;
            }
        }
        caught.map(|c| c.clamp(0.0, 1.0))
    }

    /// Share of the light so weighted that reaches the ground under each column, 0–1.
    pub fn fall_through(&self, weights: &Weights) -> Vec<f32> {
        let mut sum = vec![0.0; self.wall.columns()];
        for (d, w) in weights.0.iter().enumerate() {
            add(&mut sum, *w as f32, self.ground(d));
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

    /// Works out the sheared columns that `edited` reaches (all without it).
    fn work_out(&mut self, edited: Option<Range<usize>>, with_ground: bool) {
        let (n, levels, view) = (self.wall.columns(), self.wall.levels(), self.view.clone());
        for (d, plan) in self.plans.iter().enumerate() {
            let reached = Reached::new(&self.wall, plan, edited.clone());
            let ground_row = &mut self.ground[d * n..(d + 1) * n];
            let cells = &mut self.cells[d * levels * view.len()..(d + 1) * levels * view.len()];
            let spans: Vec<Range<i32>> = (0..levels)
                .map(|l| reached.cells(&self.wall, self.set.get(d), l, &view))
                .collect();
            let context = Work {
                wall: &self.wall,
                plan,
                windows: &self.windows,
                scratch: &mut self.scratch,
            };
            context.run(
                with_ground.then_some((&reached, ground_row)),
                &spans,
                cells,
                &view,
            );
        }
    }
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

/// Which sheared columns an edit reaches in one direction.
struct Reached {
    edited: Option<Range<usize>>,
    /// Sheared columns, possibly beyond the period.
    columns: Range<i32>,
}

impl Reached {
    fn new(wall: &Wall, plan: &RayPlan, edited: Option<Range<usize>>) -> Self {
        let n = wall.columns() as i32;
        let columns = match &edited {
            None => 0..n,
            Some(e) => {
                let before = libm::ceil(plan.reach.max(0.0)).min(1e8) as i32 + 1;
                let after = libm::ceil((-plan.reach).max(0.0)).min(1e8) as i32 + 1;
                e.start as i32 - before..e.end as i32 + after
            }
        };
        Self { edited, columns }
    }

    /// Whether all sheared columns are reached.
    fn all(&self, n: i32) -> bool {
        self.edited.is_none() || self.columns.len() as i32 >= n
    }

    /// Sum over the ground's columns that are reached, each once.
    fn sum(&self, ground: &[f32]) -> f64 {
        let n = ground.len() as i32;
        if self.all(n) {
            return ground.iter().map(|v| f64::from(*v)).sum();
        }
        self.columns
            .clone()
            .map(|c| f64::from(ground[c.rem_euclid(n) as usize]))
            .sum()
    }

    /// Cells of a level that are reached, cut to the view.
    fn cells(
        &self,
        wall: &Wall,
        direction: Direction,
        level: usize,
        view: &Range<usize>,
    ) -> Range<i32> {
        let (v0, v1) = (view.start as i32, view.end as i32);
        let Some(edited) = &self.edited else {
            return v0..v1;
        };
        let m = direction.along() / wall.dx();
        let height = wall.z()[wall.levels()] - wall.z()[level];
        let own = wall.z()[level + 1] - wall.z()[level];
        // Rays rise from the cell toward +x for m > 0, so that leaves reach the cells on their −x side.
        let (back, on) = if m >= 0.0 {
            (m * height, m * own)
        } else {
            (-m * own, -m * height)
        };
        let from = edited.start as i32 - (libm::ceil(back).min(1e8) as i32 + 2);
        let to = edited.end as i32 + libm::ceil(on).min(1e8) as i32 + 2;
        if wall.ends() == Ends::Ended {
            return from.max(v0)..to.min(v1).max(from.max(v0));
        }
        let n = wall.columns() as i32;
        if to - from >= n || (from < 0 && to > 0) || to > n {
            // Around the joint: the whole view, which holds the reached part.
            let wrapped = |c: i32| to - from >= n || (c - from).rem_euclid(n) < to - from;
            let first = (v0..v1).find(|c| wrapped(*c));
            let last = (v0..v1).rev().find(|c| wrapped(*c));
            return match (first, last) {
                (Some(a), Some(b)) => a..b + 1,
                _ => v0..v0,
            };
        }
        from.max(v0)..to.min(v1).max(from.max(v0))
    }
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
    ) {
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
            }
            if !grounds.is_empty() {
                low = low.min(grounds.start);
                high = high.max(grounds.end);
            }
            ground_row = row;
        }
        if low >= high {
            return;
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
                    let ray = self.plan.map[level].ray;
                    let t = through(self.plan.terms(ray), &self.scratch.means);
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
    }
}

/// Fills the cells from `first` on with the sheared columns to the left and right of them, in shares.
fn spread(out: &mut [f32], row: &[f32], map: &MapLevel, first: i32, low: i32, round: Option<i32>) {
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
