//! The examples: rows that nobody planted, made by rule and a seed so that they are as irregular as rows are and the
//! same whenever they are made. Lengths in millimetres.

mod build;
pub mod lessons;
mod measured;
mod plans;

use cordonry::file::write_plan;

/// Every example by file name.
pub fn all() -> Vec<(String, String)> {
    let plans = plans::all().into_iter();
    let plans = plans.map(|(name, plan)| (name.to_string(), plan));
    let mut out: Vec<(String, String)> = plans
        .chain(lessons::all())
        .map(|(name, plan)| (name, write_plan(&plan)))
        .collect();
    out.push(("measured-40.csv".into(), measured::table()));
    out
}
