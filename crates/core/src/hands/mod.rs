//! Who does the work, and how long it takes them: the jobs that work is handed out by, their rates, and how many do them together.

mod job;
mod rates;

pub use job::Job;
pub use rates::{Rate, Rates};

use crate::range::{self, Range};
use crate::refusal::Refusal;
use crate::said::Arg;
use crate::sorted::Map;

/// What the one who hands work out knows of a crew: what a plan keeps beside its work.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Hands {
    /// How long pieces of work take.
    pub rates: Rates,
    /// How many do a job together, where that is not as usual.
    pub people: Map<Job, usize>,
}

impl Hands {
    /// Least and most people who do a job together.
    pub const PEOPLE: Range = (1.0, 100.0);

    /// Sets how many do a job together; `None` as usual.
    ///
    /// # Errors
    /// No whole number in [`Self::PEOPLE`].
    pub fn set_people(&mut self, job: Job, people: Option<f64>) -> Result<(), Refusal> {
        let Some(people) = people else {
            self.people.remove(&job);
            return Ok(());
        };
        within("refusal-people", Self::PEOPLE, people)?;
        if libm::trunc(people) != people {
            return Err(refused("refusal-people", Self::PEOPLE, people));
        }
        self.people.insert(job, people as usize);
        Ok(())
    }
}

fn within(key: &'static str, allowed: Range, value: f64) -> Result<(), Refusal> {
    match range::has(allowed, value) {
        true => Ok(()),
        false => Err(refused(key, allowed, value)),
    }
}

fn refused(key: &'static str, (low, high): Range, value: f64) -> Refusal {
    let args = vec![
        ("low", Arg::Number(low, 0)),
        ("high", Arg::Number(high, 0)),
        ("value", Arg::Number(value, 1)),
    ];
    Refusal::new(key, args)
}
