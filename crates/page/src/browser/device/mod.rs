//! What the device is asked for: its store, its files, and a worker that helps.

pub mod files;
pub mod helper;
pub mod in_place;
pub mod lasting;
pub mod locks;
pub mod pdf;
pub mod records;
pub mod sent;
pub mod settings;
pub mod store;
pub mod tried;
