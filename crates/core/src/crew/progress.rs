//! How far a pass is, and what a second look at some of its trees finds.

use super::Pass;
use crate::arrange::Arrange;
use crate::plan::{Field, Seen, Told};
use crate::seed::Seeded;

/// How far a pass is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Progress {
    /// Stops of which every piece is told.
    pub stops: usize,
    /// Pieces that are done.
    pub done: usize,
    /// Pieces that were left.
    pub skipped: usize,
}

/// What a second look found, counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Looked {
    /// Pieces that were looked at.
    pub pieces: usize,
    /// Of these, those that are not done.
    pub missed: usize,
    /// Those that are done otherwise.
    pub wrong: usize,
    /// Cuts that nobody had asked for.
    pub extra: usize,
}

impl Pass {
    /// Whether every piece of a stop is told.
    pub fn is_told(&self, at: usize, field: &Field) -> bool {
        let told = |stop: &super::Stop| {
            let mut works = stop.work.iter();
            works.all(|w| field.told(self.moment, w) != Told::Open)
        };
        self.stops.get(at).is_some_and(told)
    }

    /// How far it is.
    pub fn progress(&self, field: &Field) -> Progress {
        let mut out = Progress::default();
        for work in self.work() {
            match field.told(self.moment, work) {
                Told::Open => {}
                Told::Done => out.done += 1,
                Told::Skipped(_) => out.skipped += 1,
            }
        }
        let told = |at: &usize| self.is_told(*at, field);
        out.stops = (0..self.stops.len()).filter(told).count();
        out
    }

    /// So many of the trees that are done, spread along the row, for a second look: those that were looked at before, and one by
    /// chance of each further stretch. The same trees as long as no more are done.
    pub fn sample(&self, field: &Field, most: usize) -> Vec<usize> {
        let done = |at: &usize| {
            let stop = &self.stops[*at];
            let is_done = |w| field.told(self.moment, w) == Told::Done;
            stop.tree.is_some() && self.is_told(*at, field) && stop.work.iter().any(is_done)
        };
        let looked_at = |at: &usize| {
            let stop = &self.stops[*at];
            let mut works = stop.work.iter();
            works.any(|w| field.seen(self.moment, w).is_some())
        };
        let all = (0..self.stops.len()).filter(done);
        let (mut out, rest): (Vec<usize>, Vec<usize>) = all.partition(looked_at);
        out.truncate(most);
        let more = (most - out.len()).min(rest.len());
        let mut chance = Seeded::new(u64::from(self.moment.leaf) << 8 | self.job as u64);
        for n in 0..more {
            let stretch = n * rest.len() / more..(n + 1) * rest.len() / more;
            let within = (chance.share() * stretch.len() as f64) as usize;
            out.push(rest[stretch.start + within.min(stretch.len() - 1)]);
        }
        out.arrange();
        out
    }

    /// What a second look found, of all trees together.
    pub fn looked(&self, field: &Field) -> Looked {
        let mut out = Looked::default();
        for stop in &self.stops {
            for work in &stop.work {
                let seen = field.seen(self.moment, work);
                out.pieces += usize::from(seen.is_some());
                out.missed += usize::from(seen == Some(Seen::Missed));
                out.wrong += usize::from(seen == Some(Seen::Wrong));
            }
            let extra = stop
                .tree
                .and_then(|t| field.extra(self.moment, self.job, t));
            out.extra += usize::from(extra.unwrap_or_default());
        }
        out
    }
}
