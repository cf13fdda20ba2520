//! What was asked last, by which it is known which answer is waited for.

use crate::desk::Desk;
use crate::document::Mode;
use crate::look::Look;
use cordonry::plan::Plan;
use std::sync::Arc;

/// What is on the wall, by which it is known whether an answer is known already.
#[derive(Clone)]
pub struct OnWall {
    plan: Arc<Plan>,
    look: Look,
    mode: Mode,
}

impl PartialEq for OnWall {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan) && (self.look, self.mode) == (other.look, other.mode)
    }
}

impl OnWall {
    /// What a desk shows.
    pub fn of(desk: &Desk) -> Self {
        Self {
            plan: Arc::clone(desk.plan()),
            look: desk.look(),
            mode: desk.mode(),
        }
    }

    /// What is looked at, and what of the plan is open.
    pub fn look(&self) -> (Look, Mode) {
        (self.look, self.mode)
    }
}

/// What was asked last, and whether the answer has come.
#[derive(Clone)]
pub struct Awaited<T> {
    number: u32,
    about: T,
    answered: bool,
}

impl<T> Awaited<T> {
    /// Awaited just now.
    pub fn now(number: u32, about: T) -> Self {
        Self {
            number,
            about,
            answered: false,
        }
    }

    /// What it was asked about.
    pub fn about(&self) -> &T {
        &self.about
    }

    /// Takes an answer; whether it is the one that is waited for.
    pub fn take(&mut self, number: u32) -> bool {
        let fits = self.number == number && !self.answered;
        self.answered |= fits;
        fits
    }
}
