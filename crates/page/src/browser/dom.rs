//! Small things of the browser.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::HtmlElement;

/// Asks the browser to print.
pub fn print() {
    let _ = window().print();
}

/// Moves the focus to the first element that fits.
pub fn focus(selector: &str) {
    if let Ok(Some(element)) = document().query_selector(selector)
        && let Ok(element) = element.dyn_into::<HtmlElement>()
    {
        let _ = element.focus();
    }
}

/// Moves the focus once the page has been brought up to date, and marks the text of a field.
pub fn focus_soon(selector: &'static str) {
    request_animation_frame(move || {
        focus(selector);
        if let Some(field) = document()
            .active_element()
            .and_then(|e| e.dyn_into::<web_sys::HtmlInputElement>().ok())
        {
            field.select();
        }
    });
}

/// Where what had the focus is gone, moves it to the chosen part's card, or else to the wall.
pub fn keep_focus() {
    request_animation_frame(|| {
        if focus_is_lost() {
            focus(".stage");
            focus(".part-card button");
        }
    });
}

/// Once the page has been brought up to date, moves the focus and shows the page from its top.
pub fn begin_at(selector: &'static str) {
    request_animation_frame(move || {
        focus(selector);
        to_top();
    });
}

/// The same, but where something there has taken the focus already, it keeps it.
pub fn begin_at_if_lost(selector: &'static str) {
    request_animation_frame(move || {
        if focus_is_lost() {
            focus(selector);
        }
        to_top();
    });
}

fn to_top() {
    window().scroll_to_with_x_and_y(0.0, 0.0);
}

fn focus_is_lost() -> bool {
    document()
        .active_element()
        .is_none_or(|e| e.tag_name().eq_ignore_ascii_case("body"))
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

/// Scrolls just so far that the top of the first element that fits is in sight.
pub fn into_sight(selector: &str) {
    if let Ok(Some(element)) = document().query_selector(selector)
        && element.get_bounding_client_rect().top() < 0.0
    {
        element.scroll_into_view();
    }
}
