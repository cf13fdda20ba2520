//! One row of fruit trees trained as a planar cordon, as a flat wall: every thing has a place
//! along the row (x) and a height (z), in millimetres.
//!
//! A [`plan::Plan`] is *a row as found, plus the work done on it, season by season*. All else is
//! derived: the row at any moment is the found row with the work replayed ([`plan::replay`]).
//! The crate touches no file, clock, thread, random source, environment or DOM.
#![warn(missing_docs)]

pub mod advise;
pub mod arrange;
pub mod canopy;
pub mod check;
pub mod cover;
pub mod crew;
pub mod effort;
pub mod file;
pub mod forecast;
pub mod fruit;
pub mod grow;
pub mod hands;
pub mod light;
pub mod make;
pub mod materials;
pub mod model;
pub mod nodes;
pub mod plan;
pub mod pose;
pub mod range;
pub mod refusal;
pub mod renewal;
pub mod report;
pub mod row;
pub mod said;
pub mod seed;
pub mod solve;
pub mod sorted;
pub mod standing;
mod stock;
pub mod terms;
pub mod tipping;
pub mod units;
mod usual;
pub mod walk;
pub mod work;
