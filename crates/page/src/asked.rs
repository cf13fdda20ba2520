//! What was asked last, by which it is known which answer is waited for.

use crate::desk::Desk;
use cordonry::plan::{Moment, Phase, Plan};
use std::sync::Arc;

/// What is on the wall, by which it is known whether an answer is known already.
#[derive(Clone)]
pub struct OnWall {
    plan: Arc<Plan>,
    scheme: usize,
    moment: Moment,
    phase: Phase,
    correcting: bool,
}

impl PartialEq for OnWall {
    fn eq(&self, other: &Self) -> bool {
        let key = |s: &Self| (s.scheme, s.moment, s.phase, s.correcting);
        Arc::ptr_eq(&self.plan, &other.plan) && key(self) == key(other)
    }
}

impl OnWall {
    /// What a desk shows.
    pub fn of(desk: &Desk) -> Self {
        Self {
            plan: Arc::clone(desk.plan()),
            scheme: desk.scheme(),
            moment: desk.shown_moment(),
            phase: desk.phase(),
            correcting: desk.correcting(),
        }
    }

    /// The moment of the row that is shown.
    pub fn moment(&self) -> Moment {
        self.moment
    }

    /// Whether that moment's work has been done on it.
    pub fn phase(&self) -> Phase {
        self.phase
    }
}

/// What was asked last, and whether the answer has come.
#[derive(Clone)]
pub struct Asked<T> {
    generation: u32,
    about: T,
    answered: bool,
}

impl<T> Asked<T> {
    /// Asked just now.
    pub fn now(generation: u32, about: T) -> Self {
        Self {
            generation,
            about,
            answered: false,
        }
    }

    /// What it was asked about.
    pub fn about(&self) -> &T {
        &self.about
    }

    /// Takes an answer; whether it is the one that is waited for.
    pub fn take(&mut self, generation: u32) -> bool {
        let fits = self.generation == generation && !self.answered;
        self.answered |= fits;
        fits
    }
}
