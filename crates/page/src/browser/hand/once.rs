//! A press that is meant once. What is pressed here may go with it, and the page may move besides: the second half of a
//! double press must not do what has come to lie under it. Keys are not held up, and end it.

use leptos::prelude::*;
use std::cell::Cell;
use wasm_bindgen::prelude::*;
use web_sys::{Element, Event, MouseEvent};

/// Buttons that may go, or be another, once they are pressed.
const GOES: &str =
    ".finding button, .work-list button, .part-card button, [data-act=field-all-done]";
/// How long after a press that did something others at its place belong to it, ms: longer than systems usually take two for one
/// (half a second; common practice, no source).
const WITHIN: f64 = 600.0;
/// How far from it, px: about half a fingertip (from memory).
const NEAR: f64 = 24.0;

thread_local! {
    /// When and where such a button was pressed last.
    static PRESSED: Cell<Option<(f64, f64, f64)>> = const { Cell::new(None) };
    /// Whether the pointer that is down belongs to that press.
    static BELONGS: Cell<bool> = const { Cell::new(false) };
}

/// Whether the pointer still rests where such a button was pressed last: what has come to lie under it was not aimed at.
pub fn rests(event: &MouseEvent) -> bool {
    let at = (f64::from(event.client_x()), f64::from(event.client_y()));
    PRESSED.get().is_some_and(|(_, x, y)| (x, y) == at)
}

/// Keeps the second half of a double press from whatever it would hit.
pub fn watch() {
    // What is pressed after something was typed is meant anew, as where a form refused a figure and has got another, and so is
    // what is pressed after a key, as where Escape has closed what a press opened. Of these events, which are no pointer's, nothing is read.
    for typed in ["input", "keydown"] {
        on_its_way(typed, |_| PRESSED.set(None));
    }
    on_its_way("pointerdown", |e| {
        let again = PRESSED.get().is_some_and(|(time, x, y)| {
            let (dx, dy) = (f64::from(e.client_x()) - x, f64::from(e.client_y()) - y);
            e.time_stamp() - time < WITHIN && dx.hypot(dy) < NEAR
        });
        BELONGS.set(again);
        if again {
            hold(e);
        }
    });
    on_its_way("click", |e| {
        // A key presses without a pointer, which tells of no count.
        if e.detail() == 0 {
            return;
        }
        if BELONGS.get() {
            hold(e);
        } else if is_one_that_goes(e) {
            PRESSED.set(Some(spot(e)));
        }
    });
}

fn spot(event: &MouseEvent) -> (f64, f64, f64) {
    let (x, y) = (event.client_x(), event.client_y());
    (event.time_stamp(), f64::from(x), f64::from(y))
}

/// Nothing is told of an event.
fn hold(event: &MouseEvent) {
    event.stop_immediate_propagation();
    event.prevent_default();
}

fn is_one_that_goes(event: &Event) -> bool {
    event
        .target()
        .and_then(|t| t.dyn_into::<Element>().ok())
        .is_some_and(|e| matches!(e.closest(GOES), Ok(Some(_))))
}

/// Hears an event before anything on the page does.
fn on_its_way(event: &str, heard: fn(&MouseEvent)) {
    let heard = Closure::<dyn Fn(MouseEvent)>::new(move |e: MouseEvent| heard(&e));
    let _ = window().add_event_listener_with_callback_and_bool(
        event,
        heard.as_ref().unchecked_ref(),
        true,
    );
    heard.forget();
}
