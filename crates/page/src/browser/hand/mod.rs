//! Hands on the wall: pointers, and the keyboard that does all that they can.

pub mod keys;
pub mod once;
pub mod pointer;
