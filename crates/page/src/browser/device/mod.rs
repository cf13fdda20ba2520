//! What the device is asked for: its store, its files, and a worker that helps.

pub mod files;
pub mod helper;
pub mod in_place;
pub mod pdf;
pub mod store;
