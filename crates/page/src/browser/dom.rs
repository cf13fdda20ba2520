//! Small things of the browser.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Moves the focus to the first element that fits.
pub fn focus(selector: &str) {
    if let Ok(Some(element)) = document().query_selector(selector)
        && let Ok(element) = element.dyn_into::<HtmlElement>()
    {
        let _ = element.focus();
    }
}

/// Whether an event comes from a field in which people type.
pub fn in_field(event: &web_sys::Event) -> bool {
    event
        .target()
        .and_then(|t| t.dyn_into::<web_sys::Element>().ok())
        .is_some_and(|e| {
            matches!(
                e.tag_name().to_lowercase().as_str(),
                "input" | "textarea" | "select"
            )
        })
}
