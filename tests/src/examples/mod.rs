//! The examples: rows that nobody planted, made by rule and a seed so that they are as irregular as rows are and the
//! same whenever they are made. Lengths in millimetres.

mod build;
mod measured;
mod plans;

use cordonry::file::write_plan;

/// Every example by file name.
pub fn all() -> Vec<(&'static str, String)> {
    let mut out: Vec<(&'static str, String)> = plans::all()
        .into_iter()
        .map(|(name, plan)| (name, write_plan(&plan)))
        .collect();
    out.push(("measured-40.csv", measured::table()));
    out
}
