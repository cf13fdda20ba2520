//! The browser program.

use wasm_bindgen::prelude::*;

/// Starts the page.
#[wasm_bindgen(start)]
pub fn start() {
    console_error_panic_hook::set_once();
}
