//! A menu that opens under its name and goes again: with a choice, a press elsewhere, or Escape.

use crate::browser::dom;
use leptos::ev;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, Event, HtmlDetailsElement};

/// A menu's name and what it offers. A press on anything of `data-act` in it is a choice.
#[component]
pub fn Menu(#[prop(into)] name: String, children: Children) -> impl IntoView {
    // A press elsewhere closes the menu and does besides what it does anyway.
    let elsewhere = window_event_listener(ev::pointerdown, |e| {
        if within(&e, ".more").is_none() {
            close();
        }
    });
    on_cleanup(move || elsewhere.remove());
    view! {
        <details
            class="more"
            // One menu is open at a time.
            name="menu"
            on:focusout=move |e| {
                // The Tab key leaves it; focus that goes nowhere is the browser's own window, such as a file's choice.
                if e.related_target().is_some_and(|to| within_target(&to, ".more").is_none()) {
                    close();
                }
            }
        >
            <summary>{name}</summary>
            <div
                class="menu"
                on:click=move |e| {
                    if within(&e, "[data-act]").is_some() {
                        close_to_name();
                    }
                }
                // A file that was chosen.
                on:change=move |_| {
                    close_to_name();
                }
            >
                {children()}
            </div>
        </details>
    }
}

fn within_target(target: &web_sys::EventTarget, selector: &str) -> Option<Element> {
    target
        .dyn_ref::<Element>()
        .and_then(|e| e.closest(selector).ok())
        .flatten()
}

fn within(event: &Event, selector: &str) -> Option<Element> {
    within_target(&event.target()?, selector)
}

/// Closes the open menu; its name, if there was one.
fn close() -> Option<Element> {
    let open = document()
        .query_selector(".more[open]")
        .ok()
        .flatten()
        .and_then(|e| e.dyn_into::<HtmlDetailsElement>().ok());
    let menu = open?;
    menu.set_open(false);
    menu.first_element_child()
}

/// Closes the open menu and goes back to its name; whether there was one.
pub fn close_to_name() -> bool {
    let name = close();
    name.iter().for_each(dom::focus_in_place);
    name.is_some()
}
