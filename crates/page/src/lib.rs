//! The browser program: the wall drawn for editing, what was found beside it, and files in and out.
//!
//! No rule of the trade is here: the core decides, the draw crate draws, the page shows and asks.

pub mod actions;
pub mod bench_row;
pub mod beside;
pub mod desk;
pub mod document;
mod form;
pub mod helper;
pub mod keeping;
pub mod layers;
pub mod light;
pub mod look;
pub mod marking;
pub mod overlay;
pub mod view;
pub mod years;

#[cfg(target_arch = "wasm32")]
mod browser;
