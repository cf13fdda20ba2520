//! The browser program: the wall drawn for editing, what was found beside it, and files in and out.
//!
//! No rule of the trade is here: the core decides, the draw crate draws, the page shows and asks.

pub mod asked;
pub mod bench_row;
pub mod desk;
pub mod light;
pub mod message;
pub mod overlay;
pub mod view;

#[cfg(target_arch = "wasm32")]
mod browser;
