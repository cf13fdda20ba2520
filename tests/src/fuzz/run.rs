//! Runs a body on what damage makes of its seeds, and counts.

use super::{Dice, Target, damage};
use cordonry::seed::Seeded;
use std::fmt;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::time::{Duration, Instant};

/// What a run came to.
#[derive(Debug, Default)]
pub struct Figures {
    /// How many inputs were given.
    pub runs: u64,
    /// The longest that one took.
    pub slowest: Duration,
    /// The most that one held beyond what was held before, bytes.
    pub most_held: usize,
    /// Inputs that panicked, the first few.
    pub panics: Vec<Vec<u8>>,
}

impl fmt::Display for Figures {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self {
            runs,
            slowest,
            most_held,
            panics,
        } = self;
        write!(
            f,
            "{runs} runs, slowest {:.1} ms, largest memory {:.1} MB, panics {}",
            slowest.as_secs_f64() * 1000.0,
            *most_held as f64 / 1048576.0,
            panics.len()
        )
    }
}

/// What tells how much memory an input held: given the work, the most that was held while it was done.
pub type Report<'a> = &'a dyn Fn(&mut dyn FnMut()) -> usize;

/// Gives a target its seeds, then what one to four accidents make of them, until `goes_on` says no more. Three panics end it.
pub fn run(target: &Target, seed: u64, held: Report<'_>, goes_on: &dyn Fn(u64) -> bool) -> Figures {
    let seeds = target.all_seeds();
    let mut dice = Dice(Seeded::new(seed));
    let mut out = Figures::default();
    while goes_on(out.runs) && out.panics.len() < 3 {
        let whole = seeds.get(out.runs as usize);
        let input = match whole {
            Some(seed) => seed.clone(),
            None => {
                let mut input = seeds[dice.roll(seeds.len())].clone();
                for _ in 0..=dice.roll(4) {
                    input = damage(&input, &mut dice);
                }
                input
            }
        };
        let begun = Instant::now();
        let mut well = true;
        let most = held(&mut || {
            well = catch_unwind(AssertUnwindSafe(|| (target.body)(&input))).is_ok();
        });
        out.slowest = out.slowest.max(begun.elapsed());
        out.most_held = out.most_held.max(most);
        out.runs += 1;
        if !well {
            out.panics.push(input);
        }
    }
    out
}
