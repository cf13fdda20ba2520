//! What the work of a scheme asks for, leaf by leaf: hours, cuts, materials. The one home of these sums, for whoever sets schemes side by
//! side.

use crate::advise::Cost;
use crate::crew::{Pass, season};
use crate::plan::Plan;
use crate::refusal::Refusal;
use crate::work::Work;

/// What work asks for: of one leaf, or of several together.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Effort {
    /// Minutes of one person, walking counted in, by rates from memory.
    pub minutes: f64,
    /// Cuts; what is taken off one shoot in one go is one.
    pub cuts: f64,
    /// Pieces of work of whatever kind.
    pub pieces: f64,
    /// Trees that are planted.
    pub trees: f64,
    /// Wires that are stretched, moved, covered or taken down.
    pub wires: f64,
    /// Ties.
    pub ties: f64,
    /// Sleeves, one for each tie on bare wire.
    pub sleeves: f64,
    /// Buds that are kept, moved or notched, and shoots whose buds are rubbed out.
    pub buds: f64,
}

impl Effort {
    /// How many numbers it is.
    pub const NUMBERS: usize = 8;

    /// Of a leaf: the work that the scheme has then, be it planned or standing. What it leaves undone is not counted as done.
    ///
    /// # Errors
    /// No such scheme.
    pub fn of(plan: &Plan, scheme: usize, leaf: u8) -> Result<Self, Refusal> {
        let season = season(plan, scheme, leaf)?;
        let passes: &[Pass] = if season.usual { &[] } else { &season.passes };
        let work: Vec<&Work> = passes.iter().flat_map(Pass::work).collect();
        let cost = Cost::of(&work, plan);
        let plants = |w: &&&Work| matches!(w, Work::Plant { .. } | Work::ReplaceTree { .. });
        let sum = |of: fn(&Pass) -> usize| passes.iter().map(of).sum::<usize>() as f64;
        Ok(Self {
            minutes: passes.iter().map(|p| p.minutes).sum(),
            cuts: cost.cuts as f64,
            pieces: work.len() as f64,
            trees: work.iter().filter(plants).count() as f64,
            wires: cost.wires as f64,
            ties: sum(|p| p.ties),
            sleeves: sum(|p| p.sleeves),
            buds: cost.buds as f64,
        })
    }

    /// Hours of one person.
    pub fn hours(&self) -> f64 {
        self.minutes / 60.0
    }

    /// Its numbers, in the order in which they stand here.
    pub fn numbers(&self) -> [f64; Self::NUMBERS] {
        [
            self.minutes,
            self.cuts,
            self.pieces,
            self.trees,
            self.wires,
            self.ties,
            self.sleeves,
            self.buds,
        ]
    }

    /// What these numbers are.
    pub fn from_numbers(numbers: [f64; Self::NUMBERS]) -> Self {
        let [minutes, cuts, pieces, trees, wires, ties, sleeves, buds] = numbers;
        Self {
            minutes,
            cuts,
            pieces,
            trees,
            wires,
            ties,
            sleeves,
            buds,
        }
    }

    /// Several together.
    pub fn sum(all: impl IntoIterator<Item = Self>) -> Self {
        let mut out = [0.0; Self::NUMBERS];
        for one in all {
            out.iter_mut()
                .zip(one.numbers())
                .for_each(|(sum, n)| *sum += n);
        }
        Self::from_numbers(out)
    }
}
