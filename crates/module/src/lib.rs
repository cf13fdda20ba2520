//! The page's program, linked.
#[cfg(target_arch = "wasm32")]
pub use cordonry_page::*;
