//! What stands around the wall.

pub mod assumptions;
