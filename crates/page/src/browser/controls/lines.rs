//! The focus in a list whose lines come and go: where the line that had it is gone, the one that has come in its place
//! has it, and the page stays where it is.

use crate::browser::dom;
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use web_sys::{Element, EventTarget, FocusEvent};

/// Which line of a list has the focus.
#[derive(Clone, Copy)]
pub struct Lines {
    /// What the first button of each line is found by.
    buttons: &'static str,
    /// What a line is found by from within.
    line: &'static str,
    here: StoredValue<Option<usize>>,
}

impl Lines {
    /// A list none of whose lines has the focus.
    pub fn new(line: &'static str, buttons: &'static str) -> Self {
        Self {
            buttons,
            line,
            here: StoredValue::new(None),
        }
    }

    /// Something in the list has the focus.
    pub fn entered(self, event: &FocusEvent) {
        let line = event
            .target()
            .and_then(|t| t.dyn_into::<Element>().ok())
            .and_then(|e| e.closest(self.line).ok().flatten());
        let here = line.and_then(|line| {
            self.all()
                .iter()
                .position(|button| line.contains(Some(button)))
        });
        self.here.set_value(here);
    }

    /// The focus leaves it. What is taken from the page is not what was left.
    pub fn left(self, event: &FocusEvent) {
        let of = event
            .target()
            .and_then(|t: EventTarget| t.dyn_into::<Element>().ok());
        let goes_on = event.related_target().is_some();
        set_timeout(
            move || {
                let stays = of.is_some_and(|e| e.is_connected());
                if (goes_on || stays) && dom::find_focused(self.line).is_none() {
                    self.here.set_value(None);
                }
            },
            std::time::Duration::ZERO,
        );
    }

    /// The list has changed: once the page shows it, the focus is where it was, or on the wall where no line is left.
    pub fn changed(self) {
        request_animation_frame(move || {
            let Some(here) = self.here.try_get_value().flatten() else {
                return;
            };
            if !dom::focus_is_lost() {
                return;
            }
            let all = self.all();
            match all.get(here).or(all.last()) {
                Some(button) => dom::focus_in_place(button),
                None => dom::focus(".stage"),
            }
        });
    }

    /// The first buttons of its lines.
    fn all(self) -> Vec<Element> {
        dom::all(self.buttons)
    }
}
