//! Small things of the browser.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlElement};

/// Asks the browser to print.
pub fn print() {
    let _ = window().print();
}

/// Gives the page's root a class, or takes it away.
pub fn on_root(class: &str, on: bool) {
    if let Some(root) = document().document_element() {
        let _ = root.class_list().toggle_with_force(class, on);
    }
}

/// Gives the page's root a value that styles read.
pub fn set_on_root(name: &str, value: &str) {
    let root = document().document_element();
    if let Some(root) = root.and_then(|e| e.dyn_into::<HtmlElement>().ok()) {
        let _ = root.style().set_property(name, value);
    }
}

/// Height of the first element that fits, px; 0 where there is none, or it is hidden.
pub fn height(selector: &str) -> f64 {
    let element = document().query_selector(selector).ok().flatten();
    element.map_or(0.0, |e| e.get_bounding_client_rect().height())
}

/// Asks the browser for the whole screen. One that gives none shows the page in its window.
pub fn fill_screen() {
    if let Some(root) = document().document_element() {
        let _ = root.request_fullscreen();
    }
}

/// Gives the screen back.
pub fn leave_screen() {
    if document().fullscreen_element().is_some() {
        document().exit_fullscreen();
    }
}

/// How much larger than its own pixels an element is drawn, by its style.
pub fn zoom_of(element: &Element) -> f64 {
    let zoom = js_sys::Reflect::get(element, &"currentCSSZoom".into());
    let zoom = zoom.ok().and_then(|z| z.as_f64());
    zoom.filter(|z| *z > 0.0).unwrap_or(1.0)
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

/// Leaves what has the focus, so that a field keeps what is typed in it: a finger that presses elsewhere or swipes need not take the
/// focus from it.
pub fn leave_field() {
    let focused = document().active_element();
    if let Some(focused) = focused.and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok()) {
        let _ = focused.blur();
    }
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

/// Whether nothing of the page has the focus.
pub fn focus_is_lost() -> bool {
    document()
        .active_element()
        .is_none_or(|e| e.tag_name().eq_ignore_ascii_case("body"))
}

/// The element that fits and has the focus in it.
pub fn find_focused(selector: &str) -> Option<Element> {
    document().active_element()?.closest(selector).ok()?
}

/// Moves the focus and scrolls nothing.
pub fn focus_in_place(element: &Element) {
    if let Some(element) = element.dyn_ref::<HtmlElement>() {
        let options = web_sys::FocusOptions::new();
        options.set_prevent_scroll(true);
        let _ = element.focus_with_options(&options);
    }
}

/// Every element that fits, in the page's order.
pub fn all(selector: &str) -> Vec<Element> {
    let Ok(list) = document().query_selector_all(selector) else {
        return Vec::new();
    };
    (0..list.length())
        .filter_map(|i| list.item(i)?.dyn_into().ok())
        .collect()
}

/// Scrolls what is found by a selector back to its top.
pub fn back_to_top(selector: &str) {
    all(selector).iter().for_each(|e| e.set_scroll_top(0));
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

/// Whether a key is that which presses the control it comes from.
pub fn presses_control(event: &web_sys::KeyboardEvent) -> bool {
    let element = event
        .target()
        .and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    matches!(event.key().as_str(), "Enter" | " ")
        && element.is_some_and(|e| e.matches("button, summary, a").unwrap_or(false))
}

/// Whether an event comes from where letters and signs are typed: what is ticked, or chosen by a press, has no use for them.
pub fn in_text(event: &web_sys::Event) -> bool {
    let element = event
        .target()
        .and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    let ticked = "[type=radio], [type=checkbox]";
    in_field(event) && !element.is_some_and(|e| e.matches(ticked).unwrap_or(false))
}

/// The upper edge, px, of the first element that fits, if it keeps its place on the screen however the page is scrolled.
pub fn fixed_top(selector: &str) -> Option<f64> {
    let element = document().query_selector(selector).ok()??;
    let style = window().get_computed_style(&element).ok()??;
    let fixed = style.get_property_value("position").ok()? == "fixed";
    fixed.then(|| element.get_bounding_client_rect().top())
}

/// Whether there is more of the page above or below than is in sight.
pub fn page_scrolls() -> bool {
    let page = document().document_element();
    page.is_some_and(|page| page.scroll_height() > page.client_height() + 1)
}

/// Scrolls the page on by so many px; never back.
pub fn scroll_by(down: f64) {
    if down > 0.0 {
        window().scroll_by_with_x_and_y(0.0, down);
    }
}

/// Scrolls what is wider than the screen sideways, so that the first element that fits in it is in its middle.
pub fn show_within(host: &str, selector: &str) {
    let find = |selector: &str| document().query_selector(selector).ok().flatten();
    if let (Some(host), Some(own)) = (find(host), find(selector)) {
        let (around, own) = (
            host.get_bounding_client_rect(),
            own.get_bounding_client_rect(),
        );
        let off = own.left() + own.width() / 2.0 - around.left() - around.width() / 2.0;
        host.set_scroll_left(host.scroll_left() + off as i32);
    }
}

/// Scrolls what holds the first element that fits, so that it begins at the top.
pub fn from_its_top(selector: &str) {
    if let Ok(Some(element)) = document().query_selector(selector) {
        element.scroll_into_view();
    }
}

/// Scrolls just so far that the top of the first element that fits is in sight.
pub fn into_sight(selector: &str) {
    if let Ok(Some(element)) = document().query_selector(selector)
        && element.get_bounding_client_rect().top() < 0.0
    {
        element.scroll_into_view();
    }
}

/// A time as it is written in a language, of the browser's country where that is the browser's own language too.
pub fn time_told(ms: f64, code: &str) -> String {
    let own = window().navigator().language().unwrap_or_default();
    let place = if own.starts_with(code) { &own } else { code };
    let options = js_sys::Object::new();
    for (name, style) in [("dateStyle", "medium"), ("timeStyle", "short")] {
        let _ = js_sys::Reflect::set(&options, &name.into(), &style.into());
    }
    String::from(js_sys::Date::new(&ms.into()).to_locale_string(place, &options))
}
