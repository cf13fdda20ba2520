//! Ways to a row: the start page, a table, a walk, a made one.

pub mod back;
mod doors;
pub mod entry;
mod examples;
pub mod found;
pub mod import;
pub mod incoming;
pub mod kept;
pub mod linked;
pub mod open;
pub mod picker;
pub mod start;
pub mod walk;
