//! What was asked last, by which it is known which answer is waited for.

use crate::desk::Desk;
use crate::document::{Mode, last_leaf};
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

/// A scheme of a plan up to a leaf, or in it, by which it is known whether an answer is known already.
#[derive(Clone)]
pub struct OfScheme {
    /// The plan.
    pub plan: Arc<Plan>,
    /// Number of the scheme.
    pub scheme: usize,
    /// The leaf.
    pub leaf: u8,
}

impl PartialEq for OfScheme {
    fn eq(&self, other: &Self) -> bool {
        Arc::ptr_eq(&self.plan, &other.plan)
            && (self.scheme, self.leaf) == (other.scheme, other.leaf)
    }
}

impl OfScheme {
    /// The scheme that a desk shows, in the leaf that is looked at.
    pub fn of(desk: &Desk) -> Self {
        Self {
            plan: Arc::clone(desk.plan()),
            scheme: desk.look().scheme,
            leaf: desk.look().moment.leaf,
        }
    }

    /// Up to the last leaf that is told: the one that a desk shows, and the one beside it.
    pub fn whole(desk: &Desk) -> Vec<Self> {
        let schemes = [desk.look().scheme].into_iter().chain(desk.scheme_beside());
        Self::of_each(desk, &schemes.collect::<Vec<_>>())
    }

    /// The same of some schemes.
    pub fn of_each(desk: &Desk, schemes: &[usize]) -> Vec<Self> {
        let whole = |scheme: &usize| Self {
            plan: Arc::clone(desk.plan()),
            scheme: *scheme,
            leaf: last_leaf(desk.plan()),
        };
        schemes.iter().map(whole).collect()
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
