//! What pages are built of: fields, menus, sheets.

pub mod choice;
pub mod dialog;
pub mod field;
pub mod fields;
pub mod languages;
pub mod lines;
pub mod menu;
pub mod tipped;
