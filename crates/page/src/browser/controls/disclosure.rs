//! What opens under its own name.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlDetailsElement;

/// Opens what has that id and goes to it; closes it where it is open.
pub fn toggle(id: &'static str) {
    let view = document()
        .get_element_by_id(id)
        .and_then(|e| e.dyn_into::<HtmlDetailsElement>().ok());
    let Some(view) = view else { return };
    let open = !view.open();
    view.set_open(open);
    if open {
        if let Ok(Some(summary)) = view.query_selector("summary")
            && let Ok(summary) = summary.dyn_into::<web_sys::HtmlElement>()
        {
            let _ = summary.focus();
        }
        view.scroll_into_view();
    }
}
