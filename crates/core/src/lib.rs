//! The model of one row as a flat wall, and every calculation on it.

pub mod light;
